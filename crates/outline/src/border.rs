//! The white border: the outline grown to its cut line.

use crate::outline::{Outline, ring_area};
use crate::path::FLATTENING_TOLERANCE;
use crate::region::Region;
use crate::simplify::thinned;

/// How far the cut line may run outside the exact border, in millimetres.
///
/// It never runs inside: the white band is as wide as asked everywhere, and at most this much wider. A hundredth of a
/// millimetre is a fiftieth of a good hobby cutter's print-to-cut error (common practice, no source).
pub const BORDER_TOLERANCE: f64 = 0.01;

// Chords take from the width only, so growing by all four shares more keeps the line from running inside. Thinning and
// rounding may also add to it, so they are counted twice: 1 + 4 + 2 * (1.5 + 1) is the tolerance of ten micrometres.

/// The share of the tolerance that the outline itself takes up, where its chords run inside the curves that were drawn.
const CURVE_SHARE: f64 = FLATTENING_TOLERANCE;
/// The share that the chords of round corners take up.
const ARC_SHARE: f64 = 0.004;
/// The share that leaving out needless points takes up.
const THINNING_SHARE: f64 = 0.001_5;
/// The share that rounding to the grid takes up: half its diagonal.
const GRID_SHARE: f64 = 0.001;

/// The cut line: the outline grown by `width` millimetres with round corners; outer ring only.
///
/// It is the outer edge of the true region within `width` of the outline, so it never crosses itself; notches
/// narrower than twice the width close, and a bay whose mouth closes is filled. Every point of it is at least `width`
/// and at most `width` + [`BORDER_TOLERANCE`] from the outline, and from the curves that its chords stand for. A width of zero or less gives the outline back.
///
/// Cost: that of one polygon union, near n log n.
pub fn border(outline: &Outline, width: f64) -> Outline {
    if width <= 0.0 || width.is_nan() {
        return outline.clone();
    }
    let distance = width + CURVE_SHARE + ARC_SHARE + THINNING_SHARE + GRID_SHARE;
    let grown = Region::of(outline).grown(distance, ARC_SHARE);
    let largest = grown.rings().max_by(|a, b| ring_area(a).total_cmp(&ring_area(b)));
    let thin = largest.map(|ring| thinned(&ring, THINNING_SHARE));
    let outer = thin.and_then(|ring| {
        Outline::new(ring.iter().copied())
            .ok()
            .or_else(|| Region::from_rings([&ring[..]]).outer_rings().into_iter().next())
    });
    // A grown ring always has an outer ring with an area; the outline itself is the honest answer if not.
    outer.unwrap_or_else(|| outline.clone())
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use kurbo::Point;

    use super::*;
    use crate::distance::nearest_on_segment;

    fn ring(points: &[(f64, f64)]) -> Outline {
        Outline::new(points.iter().map(|&(x, y)| Point::new(x, y))).unwrap()
    }

    /// The distance from a point to the nearest place on the line.
    fn to_line(point: Point, outline: &Outline) -> f64 {
        let squared = |(a, b)| (nearest_on_segment(point, a, b) - point).hypot2();
        outline.edges().map(squared).fold(f64::INFINITY, f64::min).sqrt()
    }

    fn assert_even_width(outline: &Outline, width: f64) {
        let grown = border(outline, width);
        for (a, b) in grown.edges() {
            for step in 0..8 {
                let point = a.lerp(b, f64::from(step) / 8.0);
                let apart = to_line(point, outline);
                assert!(apart >= width, "{apart} at {point:?}");
                assert!(apart <= width + BORDER_TOLERANCE + 1e-9, "{apart} at {point:?}");
            }
        }
    }

    #[test]
    fn convex_border_follows_steiner() {
        // J. Steiner, "Über parallele Flächen", 1840: A + L r + pi r^2, here within the band that the tolerance allows.
        let outline = ring(&[(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)]);
        let steiner = |r: f64| outline.area() + outline.perimeter() * r + PI * r * r;
        let area = border(&outline, 3.0).area();
        assert!(area >= steiner(3.0) && area <= steiner(3.0 + BORDER_TOLERANCE), "{area}");
    }

    #[test]
    fn border_is_even_round_an_l_and_a_star() {
        assert_even_width(&ring(&[(0., 0.), (20., 0.), (20., 5.), (5., 5.), (5., 20.), (0., 20.)]), 1.5);
        let star: Vec<(f64, f64)> = (0..10)
            .map(|i| {
                let (sine, cosine) = libm::sincos(f64::from(i) * PI / 5.0);
                let radius = if i % 2 == 0 { 12.0 } else { 4.0 };
                (radius * cosine, radius * sine)
            })
            .collect();
        assert_even_width(&ring(&star), 1.5);
        assert_even_width(&ring(&star), 0.2);
    }

    #[test]
    fn narrow_notch_closes_and_wide_one_stays() {
        let notched = |w: f64| {
            ring(&[
                (0., 0.),
                (10. - w, 0.),
                (10. - w, 8.),
                (10. + w, 8.),
                (10. + w, 0.),
                (20., 0.),
                (20., 10.),
                (0., 10.),
            ])
        };
        let grown = border(&notched(1.0), 1.5);
        assert!(grown.contains(Point::new(10.0, 1.0)));
        assert!(!border(&notched(4.0), 1.5).contains(Point::new(10.0, 1.0)));
    }

    #[test]
    fn a_bay_whose_mouth_closes_is_filled() {
        let c = ring(&[
            (0., 0.),
            (20., 0.),
            (20., 9.),
            (15., 9.),
            (15., 5.),
            (5., 5.),
            (5., 15.),
            (15., 15.),
            (15., 11.),
            (20., 11.),
            (20., 20.),
            (0., 20.),
        ]);
        assert!(border(&c, 1.5).contains(Point::new(10.0, 10.0)));
    }

    #[test]
    fn no_border_is_the_outline_itself() {
        let square = ring(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        assert_eq!(border(&square, 0.0), square);
    }
}
