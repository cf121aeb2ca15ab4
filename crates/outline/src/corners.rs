//! Inner corners too sharp for a blade that swivels.

use kurbo::Point;

use crate::outline::{Outline, ring_area};
use crate::region::Region;
use crate::search::largest_sound;

/// How deep a corner must be to count, as a share of the radius asked for.
///
/// A disc of radius r that rolls along the outside stays r (1 / sin(a / 2) - 1) away from the bottom of a corner that
/// opens by the angle a: 0.06 r at 141 degrees. Blunter corners do not count. They tear nothing, and a curve of
/// half a millimetre drawn with chords within a twentieth, as it comes from a picture, is made of corners of 144 degrees.
pub const CORNER_SHARE: f64 = 0.06;

/// How far chords may stray from the round corners of the regions compared here, in millimetres.
const ARC_TOLERANCE: f64 = 0.001;

/// How nearly the radius is found, in millimetres.
const RADIUS_TOLERANCE: f64 = 0.005;

/// The sharpest inner corner of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TightCorner {
    /// The radius of its rounding in millimetres; 0 for a sharp corner, half the width for a slit.
    pub radius: f64,
    /// The bottom of it, near enough.
    pub at: Point,
}

/// The sharpest inner corner whose radius is below `limit` millimetres; nothing if there is none.
///
/// What counts: an outline passes for r if a disc of radius r that rolls along its outside comes within
/// [`CORNER_SHARE`] times r of each point of it. So a sharp corner fails at every radius, a slit at more than half its
/// width, and a blunt corner at none.
///
/// The radius told is the largest below the limit that is passed, found by halving; with several corners that of the
/// sharpest, unless the outline fails, passes and fails again in between. The allowance makes the radius of a rounded
/// corner come out too large: by a sixth at a right angle, by less at sharper ones.
///
/// Cost: two polygon offsets when nothing is tight, some eight times as much when something is.
///
/// Source: closing by a disc, G. Matheron, "Random Sets and Integral Geometry", 1975; the allowance is our own.
pub fn tight_inner_corner(outline: &Outline, limit: f64) -> Option<TightCorner> {
    let region = Region::of(outline);
    let (radius, at) = largest_sound(limit, RADIUS_TOLERANCE, |radius| fault(&region, radius))?;
    Some(TightCorner { radius, at })
}

/// Where a disc of this radius does not come near enough: the middle of the largest such place.
fn fault(region: &Region, radius: f64) -> Option<Point> {
    let reached = radius * (1.0 + CORNER_SHARE) + 2.0 * ARC_TOLERANCE;
    let closed = region.grown(radius, ARC_TOLERANCE).grown(-reached, ARC_TOLERANCE);
    let left = closed.difference(region);
    let largest = left.rings().max_by(|a, b| ring_area(a).total_cmp(&ring_area(b)))?;
    let sum = largest.iter().fold(kurbo::Vec2::ZERO, |sum, point| sum + point.to_vec2());
    Some((sum / largest.len() as f64).to_point())
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;
    use crate::border::border;
    use crate::shapes;

    fn ring(points: impl IntoIterator<Item = (f64, f64)>) -> Outline {
        Outline::new(points.into_iter().map(Point::from)).unwrap()
    }

    /// A square of 10 with a bay cut out of its upper right corner, whose inner corner is rounded by `radius`.
    fn rounded_l(radius: f64) -> Outline {
        let arc = (0..=40).map(|i| {
            let (sine, cosine) = libm::sincos(PI / 2.0 * f64::from(i) / 40.0);
            (5.0 + radius * (1.0 - sine), 5.0 - radius * (1.0 - cosine))
        });
        ring([(0.0, 0.0), (5.0, 0.0)].into_iter().chain(arc.rev()).chain([
            (10.0, 5.0),
            (10.0, 10.0),
            (0.0, 10.0),
        ]))
    }

    #[test]
    fn a_sharp_inner_corner_has_no_radius() {
        let corner = tight_inner_corner(&shapes::l(12.0), 0.5).unwrap();
        assert!(corner.radius < 0.02, "{corner:?}");
        // The inner corner of the L lies at (-2, 2).
        assert!((corner.at - Point::new(-2.0, 2.0)).hypot2().sqrt() < 0.1, "{corner:?}");
    }

    #[test]
    fn a_rounded_corner_has_its_radius_within_the_allowance() {
        for radius in [0.1, 0.2, 0.4] {
            let corner = tight_inner_corner(&rounded_l(radius), 0.5).unwrap();
            assert!(
                corner.radius >= radius - 0.01 && corner.radius <= radius * 1.18 + 0.01,
                "{corner:?} of {radius}"
            );
        }
        assert_eq!(tight_inner_corner(&rounded_l(0.55), 0.5), None);
    }

    #[test]
    fn a_slit_has_half_its_width() {
        let slit = |width: f64| {
            let (left, right) = (5.0 - width / 2.0, 5.0 + width / 2.0);
            ring([
                (0., 0.),
                (left, 0.),
                (left, 6.),
                (right, 6.),
                (right, 0.),
                (10., 0.),
                (10., 10.),
                (0., 10.),
            ])
        };
        // Its bottom has two sharp corners.
        assert!(tight_inner_corner(&slit(0.6), 0.5).unwrap().radius < 0.02);
        let round_bottom = |width: f64| {
            let arc = (1..24).map(|i| {
                let (sine, cosine) = libm::sincos(PI * f64::from(i) / 24.0);
                (5.0 - width / 2.0 * cosine, 6.0 + width / 2.0 * sine)
            });
            let (left, right) = (5.0 - width / 2.0, 5.0 + width / 2.0);
            let rest = [(right, 6.), (right, 0.), (10., 0.), (10., 10.), (0., 10.)];
            ring([(0., 0.), (left, 0.), (left, 6.)].into_iter().chain(arc).chain(rest))
        };
        let corner = tight_inner_corner(&round_bottom(0.6), 0.5).unwrap();
        assert!((corner.radius - 0.3).abs() < 0.02, "{corner:?}");
        assert_eq!(tight_inner_corner(&round_bottom(1.1), 0.5), None);
    }

    #[test]
    fn outer_and_blunt_corners_are_not_tight() {
        assert_eq!(tight_inner_corner(&shapes::square(10.0), 0.5), None);
        assert_eq!(tight_inner_corner(&shapes::disc(5.0, 90), 0.5), None);
        // The inner corners of a blunt star open by 150 degrees.
        let blunt = shapes::star(12, 10.0, 10.0 * 0.8966);
        assert_eq!(tight_inner_corner(&blunt, 0.5), None);
        assert!(tight_inner_corner(&shapes::star(5, 10.0, 5.0), 0.5).is_some());
    }

    #[test]
    fn the_cut_line_of_a_soft_drawing_has_no_tight_corner() {
        // Bays wider than their border stay round; their radius shrinks by it.
        let bay = rounded_l(2.5);
        assert_eq!(tight_inner_corner(&border(&bay, 1.5), 0.5), None);
        assert!(tight_inner_corner(&border(&bay, 2.3), 0.5).is_some());
    }
}
