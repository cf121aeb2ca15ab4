//! From the page to PDF's units, and how far each card's background may run past its edge.

use kurbo::{Affine, Rect};
use stickleaf_sheet::MM_PER_INCH;

/// PDF's user units to the millimetre: 72 to the inch. Source: ISO 32000-1, 8.3.2.3.
pub(crate) const UNITS_PER_MM: f64 = 72.0 / MM_PER_INCH;

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
