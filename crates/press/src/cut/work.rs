//! What a plan gives a machine to do, in the terms of the shop's sums.

use kurbo::Point;
use stickleaf_shop::cutting::{CutWork, straight_stretches};

use crate::cut::fit::CutLine;
use crate::cut::overrun::overrun;
use crate::cut::plan::{CutPlan, KissCut};
use crate::cut::svg::Depths;

/// What there is to cut on one sheet: the stretches of all lines, overrun with them, and the ways between them. Before the
/// first line and between passes the blade comes from the sheet's top left corner.
pub fn work(plan: &CutPlan) -> CutWork {
    work_of(plan, Depths::All)
}

/// The same for the lines of these depths only. Without through lines there are 0 passes.
pub fn work_of(plan: &CutPlan, depths: Depths) -> CutWork {
    let with_overrun = |line: &CutLine| {
        let path = overrun(&line.path, plan.options.overrun);
        straight_stretches(&CutLine { path, ..line.clone() }.flattened())
    };
    let kiss = if depths == Depths::Through { &[] } else { &*plan.kiss };
    let card = CutLine { path: plan.through.clone(), is_fitted: true };
    let passes = if depths == Depths::Kiss { 0 } else { plan.options.passes.max(1) };
    CutWork {
        kiss: kiss.iter().flat_map(|cut| with_overrun(&cut.line)).collect(),
        through: if passes == 0 { Vec::new() } else { with_overrun(&card) },
        passes,
        travel: travel(kiss, &card, passes),
        lines: kiss.len() as u64 + u64::from(passes),
    }
}

/// The ways of the lifted blade, from line to line. A closed line ends where it began, and so does each pass.
fn travel(kiss: &[KissCut], card: &CutLine, passes: u32) -> Vec<f64> {
    let starts = kiss.iter().map(|cut| cut.line.start()).chain((0..passes).map(|_| card.start()));
    let mut at = Point::ZERO;
    let way = |start: Point| {
        let length = (start - at).hypot2().sqrt();
        at = start;
        length
    };
    starts.map(way).filter(|&length| length > 0.0).collect()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Piece, Sheet, Sticker};

    use super::*;
    use crate::cut::{CutOptions, plan};

    #[test]
    fn a_square_on_a_square_card_is_known_work() {
        let mut sticker = Sticker::new("a", "A", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.border = Some(0.0);
        let layout = Layout {
            sheet: Sheet { width: 40.0, height: 30.0, corner_radius: 0.0, ..Sheet::default() },
            stickers: vec![sticker],
            pieces: vec![Piece::new("a".into(), Placement::at(20.0, 15.0))],
            ..Layout::default()
        };
        let work = work(&plan(&layout, &CutOptions { passes: 4, overrun: 0.0, tolerance: 0.02 }));
        assert!((work.kiss_length() - 40.0).abs() < 0.05, "{work:?}");
        assert!((work.through_length() - 4.0 * 140.0).abs() < 1e-6);
        // The passes follow each other without a way between them.
        assert_eq!((work.passes, work.lines, work.travel.len() <= 2), (4, 5, true));
        let longer = super::work(&plan(&layout, &CutOptions { passes: 4, overrun: 0.5, tolerance: 0.02 }));
        assert!((longer.through_length() - 4.0 * 140.5).abs() < 1e-3);
    }
    #[test]
    fn depths_are_the_parts_of_the_whole() {
        let mut sticker = Sticker::new("a", "A", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.border = Some(0.0);
        let layout = Layout {
            stickers: vec![sticker],
            pieces: vec![
                Piece::new("a".into(), Placement::at(20.0, 15.0)),
                Piece::new("a".into(), Placement::at(60.0, 45.0)),
            ],
            ..Layout::default()
        };
        let plan = plan(&layout, &CutOptions { passes: 3, ..CutOptions::default() });
        let (all, kiss, card) = (work(&plan), work_of(&plan, Depths::Kiss), work_of(&plan, Depths::Through));
        assert_eq!((kiss.lines, card.lines, all.lines), (2, 3, 5));
        assert_eq!((kiss.through_length(), card.kiss_length()), (0.0, 0.0));
        assert_eq!((kiss.kiss, card.through), (all.kiss, all.through));
    }
}
