//! What one sheet of a layout costs, and one sticker of it.

use stickleaf_sheet::Layout;
use stickleaf_shop::page::{Stock, plan};
use stickleaf_shop::run::{Design, run_sheet};
use stickleaf_shop::settings::Settings;

use crate::cut::{self, CutOptions};

/// What a sheet of a layout costs in a run of its own of so many sheets, and a sticker of it, in cents and parts of them.
///
/// Ink is left out: it would have to be measured in the pictures. An estimate from the figures typed in. Nothing while no
/// prices are known, the settings make no sense, or no such sheet lies on the page.
///
/// Cost: a page plan and an order of the cuts.
pub fn unit_cost(layout: &Layout, stock: &Stock, settings: &Settings, sheets: u64) -> Option<(f64, f64)> {
    let plan = plan(stock, layout.sheet.width, layout.sheet.height).ok()?;
    let options = CutOptions { passes: settings.cutting.passes, ..CutOptions::default() };
    let design = Design {
        name: layout.name.clone(),
        sheets,
        stickers: layout.pieces.len() as u64,
        per_page: plan.positions.len() as u64,
        sheet_mm2: layout.sheet.area(),
        work: cut::work(&cut::plan(layout, &options)),
        coverage: None,
    };
    let run = run_sheet(settings, &[design]).ok()?;
    (run.pages > 0 && run.sheet_cents > 0.0).then_some((run.sheet_cents, run.sticker_cents))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Piece, Sticker};
    use stickleaf_shop::money::Cents;
    use stickleaf_shop::settings::{Printing, StockPack};

    use super::*;

    /// An A6 card with so many boxes on it.
    fn card(boxes: usize) -> Layout {
        let piece = |i: usize| Piece::new("box".into(), Placement::at(20.0 + 15.0 * i as f64, 20.0));
        Layout {
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            pieces: (0..boxes).map(piece).collect(),
            ..Layout::default()
        }
    }

    fn a4() -> Stock {
        Stock { width: 210.0, height: 297.0, printer_margin: 0.0, reach: None, gap: 0.0 }
    }

    fn priced() -> Settings {
        Settings {
            printing: Printing { spoilage_percent: 0.0, ..Printing::default() },
            stock: StockPack { pack_pages: 25, pack_cents: Cents(1000), ..StockPack::default() },
            ..Settings::default()
        }
    }

    #[test]
    fn a_sheet_costs_its_share_of_the_pages() {
        // Four A6 cards on an A4 page: 100 sheets from 25 pages, a pack for 10.00. Of two stickers each costs half.
        let (sheet, sticker) = unit_cost(&card(2), &a4(), &priced(), 100).unwrap();
        assert!((sheet - 10.0).abs() < 1e-9 && (sticker - 5.0).abs() < 1e-9, "{sheet} {sticker}");
    }

    #[test]
    fn without_prices_or_room_on_the_page_there_is_no_cost() {
        assert_eq!(unit_cost(&card(2), &a4(), &Settings::default(), 100), None);
        assert_eq!(unit_cost(&card(2), &Stock { width: 90.0, ..a4() }, &priced(), 100), None);
    }
}
