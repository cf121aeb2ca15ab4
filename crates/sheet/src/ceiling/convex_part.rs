//! A large convex part of a region.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};
use stickleaf_outline::Region;

use super::hull::{area, convex_hull, edges};
use super::points::parts;

/// Bays that are no deeper than this are given away all round, in millimetres.
const SHALLOW: f64 = 0.002;

/// How many bays are cut off.
const MOST_CUTS: usize = 24;

/// How many directions are tried for a cut.
const DIRECTIONS: u32 = 24;

/// A convex ring inside the ring (clockwise as seen), as large as a simple search finds; nothing if it finds none.
///
/// The deepest corner of a bay is cut through in the direction that leaves the most on one side, until no bay is left.
pub fn convex_part(ring: &[Point]) -> Option<Vec<Point>> {
    let part = search(ring)?;
    // The search takes a bay for shallow if its corners lie near any side; a thin ring has such bays.
    let beyond = Region::from_rings([&part[..]]).difference(&Region::from_rings([ring]));
    beyond.is_empty().then_some(part)
}

fn search(ring: &[Point]) -> Option<Vec<Point>> {
    let mut ring = ring.to_vec();
    for _ in 0..MOST_CUTS {
        let hull = convex_hull(ring.iter().copied());
        let (depth, corner) = deepest(&ring, &hull)?;
        if depth <= SHALLOW {
            let less = Region::from_rings([&hull[..]]).grown(-depth - SHALLOW / 2.0, SHALLOW / 4.0);
            return largest_ring(&less).map(convex_hull);
        }
        let directions = (0..2 * DIRECTIONS).map(|i| {
            let (sine, cosine) = libm::sincos(PI * f64::from(i) / f64::from(DIRECTIONS));
            Vec2::new(cosine, sine)
        });
        let kept = |normal: &Vec2| area(&clipped(&ring, corner, *normal));
        let best = directions.max_by(|a, b| kept(a).total_cmp(&kept(b)))?;
        let half = Region::from_rings([&clipped(&ring, corner, best)[..]]);
        ring = largest_ring(&half)?;
    }
    None
}

/// How deep the deepest corner of the ring lies below its hull, and that corner.
fn deepest(ring: &[Point], hull: &[Point]) -> Option<(f64, Point)> {
    let depth = |point: Point| {
        let to_side = |(start, end): (Point, Point)| {
            let along = end - start;
            along.cross(point - start) / along.hypot2().sqrt()
        };
        edges(hull).map(to_side).fold(f64::INFINITY, f64::min)
    };
    ring.iter().map(|&point| (depth(point), point)).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The part of the ring behind the line through a point with this outward normal; parts may hang together by
/// stretches of that line.
fn clipped(ring: &[Point], at: Point, normal: Vec2) -> Vec<Point> {
    let beyond = |point: Point| (point - at).dot(normal);
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (start, end) in edges(ring) {
        let (a, b) = (beyond(start), beyond(end));
        if a <= 0.0 {
            kept.push(start);
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            kept.push(start.lerp(end, a / (a - b)));
        }
    }
    kept
}

fn largest_ring(region: &Region) -> Option<Vec<Point>> {
    let outer =
        parts(region).into_iter().filter_map(|part| part.rings().max_by(|a, b| area(a).total_cmp(&area(b))));
    outer.max_by(|a, b| area(a).total_cmp(&area(b)))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Outline, shapes};

    use super::*;

    fn share(outline: &Outline) -> f64 {
        let part = convex_part(outline.points()).unwrap();
        let beyond = Region::from_rings([&part[..]]).difference(&Region::of(outline));
        assert!(beyond.is_empty(), "{}", beyond.area());
        assert!((area(&convex_hull(part.iter().copied())) - area(&part)).abs() < 1e-9);
        area(&part) / outline.area()
    }

    #[test]
    fn a_convex_ring_is_kept() {
        assert!(share(&shapes::disc(10.0, 180)) > 0.999);
        assert!(share(&shapes::rectangle(30.0, 20.0)) > 0.999);
    }

    #[test]
    fn a_thin_ring_holds_no_large_part() {
        let hook =
            [(0., 0.), (20., 0.), (20., 20.), (19.999, 20.), (19.999, 0.001), (0., 0.001)].map(Point::from);
        assert!(convex_part(&hook).is_none_or(|part| area(&part) < 0.1));
    }

    #[test]
    fn bays_are_cut_off() {
        // The bar of an L, or its elbow cut across.
        assert!(share(&shapes::l(30.0)) > 0.55);
        for seed in 0..6 {
            assert!(share(&shapes::blob(seed, 15.0)) > 0.3);
        }
    }
}
