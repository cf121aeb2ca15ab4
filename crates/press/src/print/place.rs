//! Where sheets lie on a page, and how far each one's background may run past its edge.

use kurbo::{Affine, Rect};
use stickleaf_sheet::{MM_PER_INCH, Sheet};
use stickleaf_shop::page::Plan;

/// PDF's user units to the millimetre: 72 to the inch. Source: ISO 32000-1, 8.3.2.3.
pub(crate) const UNITS_PER_MM: f64 = 72.0 / MM_PER_INCH;

/// A sheet on a page, in millimetres from the page's top left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedSheet {
    /// Its left edge.
    pub x: f64,
    /// Its top edge.
    pub y: f64,
    /// Whether it is turned by a quarter, clockwise as seen.
    pub is_turned: bool,
}

impl PlacedSheet {
    /// The sheets of a page plan.
    pub fn all_of(plan: &Plan) -> Vec<PlacedSheet> {
        let placed = plan.positions.iter();
        placed.map(|at| PlacedSheet { x: at.x, y: at.y, is_turned: at.is_turned }).collect()
    }

    /// What the card takes of the page.
    pub(crate) fn card(&self, sheet: &Sheet) -> Rect {
        let (width, height) =
            if self.is_turned { (sheet.height, sheet.width) } else { (sheet.width, sheet.height) };
        Rect::new(self.x, self.y, self.x + width, self.y + height)
    }

    /// The way from the sheet's millimetres to the page's.
    pub(crate) fn to_page(self, sheet: &Sheet) -> Affine {
        if self.is_turned {
            // A quarter clockwise about the sheet's corner, which then lies at the top right.
            Affine::new([0.0, 1.0, -1.0, 0.0, self.x + sheet.height, self.y])
        } else {
            Affine::translate((self.x, self.y))
        }
    }
}

/// The way from the page's millimetres, y down, to PDF's units, y up.
pub(crate) fn to_units(page_height: f64) -> Affine {
    Affine::new([UNITS_PER_MM, 0.0, 0.0, -UNITS_PER_MM, 0.0, page_height * UNITS_PER_MM])
}

/// How far each card's background may be printed: past its edge by the bleed, but no more than half the way to a card
/// beside it, and not past the page.
pub(crate) fn printed_areas(cards: &[Rect], bleed: f64, page: Rect) -> Vec<Rect> {
    let room = |card: &Rect, gap: fn(&Rect, &Rect) -> f64, is_beside: fn(&Rect, &Rect) -> bool| {
        let gaps = cards.iter().filter(|other| is_beside(card, other)).map(|other| gap(card, other));
        gaps.filter(|gap| *gap >= -1e-9).fold(bleed, |room, gap| room.min(gap.max(0.0) / 2.0))
    };
    let in_one_row = |a: &Rect, b: &Rect| overlap(a.y0, a.y1, b.y0, b.y1);
    let in_one_column = |a: &Rect, b: &Rect| overlap(a.x0, a.x1, b.x0, b.x1);
    let area = |card: &Rect| {
        Rect::new(
            card.x0 - room(card, |a, b| a.x0 - b.x1, in_one_row),
            card.y0 - room(card, |a, b| a.y0 - b.y1, in_one_column),
            card.x1 + room(card, |a, b| b.x0 - a.x1, in_one_row),
            card.y1 + room(card, |a, b| b.y0 - a.y1, in_one_column),
        )
        .intersect(page)
    };
    cards.iter().map(area).collect()
}

fn overlap(a0: f64, a1: f64, b0: f64, b1: f64) -> bool {
    a0 < b1 && b0 < a1
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;

    #[test]
    fn a_turned_sheet_lies_in_its_card() {
        let sheet = Sheet { width: 100.0, height: 150.0, ..Sheet::default() };
        let placed = PlacedSheet { x: 20.0, y: 30.0, is_turned: true };
        let card = placed.card(&sheet);
        assert_eq!(card, Rect::new(20.0, 30.0, 170.0, 130.0));
        let way = placed.to_page(&sheet);
        // Clockwise by a quarter: what was the top edge is the right one.
        assert_eq!(way * Point::new(0.0, 0.0), Point::new(170.0, 30.0));
        assert_eq!(way * Point::new(100.0, 0.0), Point::new(170.0, 130.0));
        assert_eq!(way * Point::new(100.0, 150.0), Point::new(20.0, 130.0));
    }

    #[test]
    fn the_page_is_as_large_in_points_as_it_is() {
        // ISO 216: A4 is 210 x 297 mm, in PDF 595.28 x 841.89 units.
        let corner = to_units(297.0) * Point::new(210.0, 0.0);
        assert!((corner.x - 595.2756).abs() < 1e-4 && (corner.y - 841.8898).abs() < 1e-4);
    }

    #[test]
    fn bleeds_do_not_run_onto_other_cards() {
        let cards = [
            Rect::new(10.0, 10.0, 50.0, 60.0),
            Rect::new(53.0, 10.0, 93.0, 60.0),
            Rect::new(10.0, 60.0, 50.0, 90.0),
        ];
        let areas = printed_areas(&cards, 2.0, Rect::new(0.0, 0.0, 100.0, 91.0));
        assert_eq!(areas[0], Rect::new(8.0, 8.0, 51.5, 60.0));
        assert_eq!(areas[1], Rect::new(51.5, 8.0, 95.0, 62.0));
        assert_eq!(areas[2], Rect::new(8.0, 60.0, 52.0, 91.0));
    }
}
