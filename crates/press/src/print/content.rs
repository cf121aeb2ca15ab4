//! What is painted: paths, and the ruler.

use kurbo::{Affine, BezPath, PathEl, Point, Rect};
use pdf_writer::Content;
use pdf_writer::types::{LineCapStyle, LineJoinStyle};

/// Adds a path, closed where it ends at its start.
pub(crate) fn path(content: &mut Content, path: &BezPath) {
    let mut start = Point::ZERO;
    let mut last = Point::ZERO;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => {
                (start, last) = (p, p);
                content.move_to(p.x as f32, p.y as f32);
            }
            PathEl::LineTo(p) => {
                last = p;
                content.line_to(p.x as f32, p.y as f32);
            }
            PathEl::QuadTo(a, p) => {
                let (b, c) = (last + (a - last) * (2.0 / 3.0), p + (a - p) * (2.0 / 3.0));
                last = p;
                content.cubic_to(b.x as f32, b.y as f32, c.x as f32, c.y as f32, p.x as f32, p.y as f32);
            }
            PathEl::CurveTo(a, b, p) => {
                last = p;
                content.cubic_to(a.x as f32, a.y as f32, b.x as f32, b.y as f32, p.x as f32, p.y as f32);
            }
            PathEl::ClosePath => {}
        }
    }
    if last == start {
        content.close_path();
    }
}

/// A transform as PDF writes it.
pub(crate) fn matrix(way: Affine) -> [f32; 6] {
    way.as_coeffs().map(|number| number as f32)
}

/// The length of the ruler in millimetres.
pub(crate) const RULER: f64 = 100.0;

/// The ruler's ticks are as high as this at most, in millimetres.
const TICK: f64 = 3.0;

/// Where the ruler fits on the page beside the cards: its left end, if it does, at the foot or at the head.
pub(crate) fn ruler_place(page: Rect, printer_margin: f64, cards: &[Rect]) -> Option<Point> {
    let left = page.center().x - RULER / 2.0;
    let places = [page.y1 - printer_margin - TICK - 0.5, page.y0 + printer_margin + 0.5];
    let is_free = |top: &f64| {
        let ruler = Rect::new(left - 1.0, top - 0.5, left + RULER + 1.0, top + TICK + 0.5);
        page.contains_rect(ruler) && cards.iter().all(|card| card.intersect(ruler).area() <= 0.0)
    };
    places.into_iter().find(is_free).map(|top| Point::new(left, top))
}

/// Draws a ruler of 100 mm with a tick at every ten, longer ones at the ends and in the middle, in the page's millimetres.
pub(crate) fn ruler(content: &mut Content, at: Point) {
    content.set_line_width(0.15).set_line_cap(LineCapStyle::ButtCap).set_line_join(LineJoinStyle::MiterJoin);
    content.set_stroke_gray(0.0);
    content.move_to(at.x as f32, at.y as f32).line_to((at.x + RULER) as f32, at.y as f32).stroke();
    for tick in 0..=10 {
        let x = at.x + f64::from(tick) * RULER / 10.0;
        let length = if tick % 5 == 0 { TICK } else { TICK / 2.0 };
        content.move_to(x as f32, at.y as f32).line_to(x as f32, (at.y + length) as f32).stroke();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ruler_keeps_off_the_cards() {
        let page = Rect::new(0.0, 0.0, 210.0, 297.0);
        let place = |cards: &[Rect]| ruler_place(page, 5.0, cards);
        assert_eq!(place(&[Rect::new(50.0, 50.0, 150.0, 200.0)]), Some(Point::new(55.0, 288.5)));
        assert_eq!(place(&[Rect::new(5.0, 100.0, 205.0, 292.0)]), Some(Point::new(55.0, 5.5)));
        assert_eq!(place(&[Rect::new(5.0, 5.0, 205.0, 292.0)]), None);
    }
}
