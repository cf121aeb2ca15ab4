//! The card's edge as a line to cut.

use kurbo::{BezPath, Point, Vec2};
use stickleaf_sheet::Sheet;

/// The card's edge, clockwise as seen, from the middle of its longer side on: there it is straight.
///
/// Round corners are two cubic curves each, which stray from the true arc by less than five millionths of the radius.
pub(crate) fn card_path(sheet: &Sheet) -> BezPath {
    let (w, h, r) = (sheet.width, sheet.height, sheet.corner_radius);
    let corners = [
        (Point::new(w - r, r), Vec2::new(0.0, -1.0)),
        (Point::new(w - r, h - r), Vec2::new(1.0, 0.0)),
        (Point::new(r, h - r), Vec2::new(0.0, 1.0)),
        (Point::new(r, r), Vec2::new(-1.0, 0.0)),
    ];
    // Clockwise from the top side's middle the right upper corner comes first, from the right side's the lower one.
    let (start, first) = if w >= h { (Point::new(w / 2.0, 0.0), 0) } else { (Point::new(w, h / 2.0), 1) };
    let mut path = BezPath::new();
    path.move_to(start);
    for i in 0..4 {
        let (centre, out) = corners[(first + i) % 4];
        path.line_to(centre + out * r);
        if r > 0.0 {
            quarter(&mut path, centre, out * r);
        }
    }
    path.line_to(start);
    path
}

/// A quarter round clockwise as seen, from `centre + out` on.
fn quarter(path: &mut BezPath, centre: Point, out: Vec2) {
    let eighth = core::f64::consts::FRAC_PI_4;
    // Source of the handle's length: 4/3 tan(angle / 4), the usual one for circles.
    let handle = 4.0 / 3.0 * libm::tan(eighth / 4.0);
    let (sine, cosine) = libm::sincos(eighth);
    let across = |way: Vec2| Vec2::new(-way.y, way.x);
    let turned = |way: Vec2| way * cosine + across(way) * sine;
    let middle = turned(out);
    for (from, to) in [(out, middle), (middle, across(out))] {
        path.curve_to(centre + from + across(from) * handle, centre + to - across(to) * handle, centre + to);
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Shape;

    use super::*;

    #[test]
    fn the_path_has_the_area_and_bounds_of_the_card() {
        for (width, height, corner_radius) in [(105.0, 148.0, 4.0), (148.0, 105.0, 50.0), (60.0, 60.0, 0.0)] {
            let sheet = Sheet { width, height, corner_radius, resolution_ppi: 600.0 };
            let path = card_path(&sheet);
            assert!((path.area().abs() - sheet.area()).abs() < 0.05, "{}", path.area());
            let bounds = path.bounding_box();
            assert!((bounds.width() - width).abs() < 1e-3 && (bounds.height() - height).abs() < 1e-3);
        }
    }
}
