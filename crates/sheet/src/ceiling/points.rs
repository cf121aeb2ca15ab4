//! How many points with a least distance a region can hold.
//!
//! **In a convex region** of area A and perimeter P, points that are d apart or more are at most
//! 2/√3 · A/d² + P/(2d) + 1. Source: N. Oler, "An inequality in the geometry of numbers", Acta Mathematica 105 (1961);
//! J. Folkman and R. Graham, "A packing inequality for compact convex subsets of the plane", Canadian Mathematical
//! Bulletin 12 (1969). Beside it stand the bound by rows for the box about the region, and, for a handful of points, the
//! search of all their places.
//!
//! **In any region** that bound holds for the convex hull, which gives bays away. A straight cut parts the points into
//! those on one side and those on the other, and each side has its own hull: the bounds of the sides add up. Cuts are
//! tried at the edges of the bays and holes, and the best is kept; whichever is tried, the sum is a bound. Parts that
//! do not hang together add up too.

use std::ops::Range;

use kurbo::{Point, Rect};
use stickleaf_outline::Region;

use super::hull::{area, convex_hull, perimeter};
use super::places::Search;
use super::rows::most_in_rectangle;
use super::slack::{GRAIN, ROUNDING};

/// How often a part may be cut again.
const MOST_CUTS: usize = 3;

/// Bays and holes are looked at if they are larger than this share of the squared distance.
const BAY_SHARE: f64 = 0.3;

/// How many bays are looked at.
const MOST_BAYS: usize = 6;

/// A bound of how many points with pairwise distances of `apart` or more lie in the region, in millimetres.
///
/// Zero if nothing is inside; `usize::MAX` if it is not worked out because it would hardly lie below the end of `worth`.
/// Below its start it is not lowered at any pains.
pub fn most_points(region: &Region, apart: f64, worth: Range<usize>, search: &mut Search) -> usize {
    // No sum of the bounds above is smaller than its terms for the area.
    if apart <= 0.0 || 2.0 / 3f64.sqrt() * region.area() / (apart * apart) > worth.end as f64 {
        return usize::MAX;
    }
    let parts = parts(region);
    let enough = if parts.len() == 1 { worth.start } else { 0 };
    let most = |part: &Region| search.lowered(part, apart, most_in_part(part, apart, MOST_CUTS), enough);
    parts.iter().map(most).fold(0, usize::saturating_add)
}

/// Most points in a convex region with these corners.
fn oler(hull: &[Point], apart: f64) -> usize {
    if hull.is_empty() {
        return 0;
    }
    let most = 2.0 / 3f64.sqrt() * area(hull) / (apart * apart) + perimeter(hull) / (2.0 * apart) + 1.0;
    (most * ROUNDING).floor() as usize
}

fn most_with_cuts(region: &Region, apart: f64, cuts: usize) -> usize {
    parts(region).iter().map(|part| most_in_part(part, apart, cuts)).sum()
}

/// The bound for all of it at once.
fn most_uncut(region: &Region, apart: f64) -> usize {
    parts(region).iter().map(|part| simple(&convex_hull(part.rings().flatten()), apart)).sum()
}

fn simple(hull: &[Point], apart: f64) -> usize {
    let bounds = bounds(hull);
    oler(hull, apart).min(most_in_rectangle(bounds.width(), bounds.height(), apart))
}

fn most_in_part(part: &Region, apart: f64, cuts: usize) -> usize {
    let hull = convex_hull(part.rings().flatten());
    let whole = simple(&hull, apart);
    if cuts == 0 || whole < 2 { whole } else { whole.min(best_cut(part, &hull, apart, cuts)) }
}

/// The best sum that one cut, and the cuts of its two sides, give; `usize::MAX` if there is nothing to cut.
fn best_cut(part: &Region, hull: &[Point], apart: f64, cuts: usize) -> usize {
    let missing = Region::from_rings([hull]).difference(part);
    let mut bays: Vec<(f64, Rect)> = missing
        .rings()
        .map(|ring| (area(&ring), bounds(&ring)))
        .filter(|&(area, _)| area > BAY_SHARE * apart * apart)
        .collect();
    bays.sort_by(|a, b| b.0.total_cmp(&a.0));
    bays.truncate(MOST_BAYS);
    let lines = bays.iter().flat_map(|&(_, bay)| {
        // A hair inside the bay, so that neither side keeps a sliver of what the bay bounds.
        let Rect { x0, y0, x1, y1 } = bay.inflate(-2.0 * GRAIN, -2.0 * GRAIN);
        [(true, x0), (true, x1), (false, y0), (false, y1)]
    });
    let around = bounds(hull);
    let best = lines
        .map(|(upright, at)| {
            let sides = sides(part, around, upright, at);
            let sum: usize = sides.iter().map(|side| most_uncut(side, apart)).sum();
            (sum, sides)
        })
        .min_by_key(|&(sum, _)| sum);
    best.map_or(usize::MAX, |(_, sides)| sides.iter().map(|side| most_with_cuts(side, apart, cuts - 1)).sum())
}

/// What of the region lies left and right of the upright line, or above and below the level one.
fn sides(region: &Region, around: Rect, upright: bool, at: f64) -> [Region; 2] {
    // Points on the line belong to both sides, whichever way it is rounded.
    let (before, after) = (at + GRAIN, at - GRAIN);
    let Rect { x0, y0, x1, y1 } = around.inflate(1.0, 1.0);
    let sides = if upright {
        [Rect::new(x0, y0, before, y1), Rect::new(after, y0, x1, y1)]
    } else {
        [Rect::new(x0, y0, x1, before), Rect::new(x0, after, x1, y1)]
    };
    sides.map(|side| region.intersection(&rectangle(side)))
}

/// The region inside a rectangle.
pub fn rectangle(rect: Rect) -> Region {
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    Region::from_rings([&corners.map(Point::from)[..]])
}

/// The parts of a region that do not hang together, each with its holes.
pub fn parts(region: &Region) -> Vec<Region> {
    let mut outer: Vec<Vec<Point>> = region.rings().filter(|ring| area(ring) > 0.0).collect();
    if outer.len() < 2 {
        return outer.iter().map(|_| region.clone()).collect();
    }
    outer.sort_by(|a, b| area(a).total_cmp(&area(b)));
    let mut rest = region.clone();
    let mut parts = Vec::new();
    // Smaller ones first: one that lies in a hole of another is gone when that one is taken.
    for ring in outer {
        let inside = Region::from_rings([&ring[..]]);
        parts.push(rest.intersection(&inside));
        rest = rest.difference(&inside);
    }
    parts.retain(|part| !part.is_empty());
    parts
}

/// The smallest upright rectangle about these points; a rectangle without sides if there are none.
pub fn bounds(points: &[Point]) -> Rect {
    let Some(&first) = points.first() else { return Rect::ZERO };
    points.iter().fold(Rect::from_points(first, first), |bounds, &point| bounds.union_pt(point))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn most(region: &Region, apart: f64) -> usize {
        most_points(region, apart, 0..usize::MAX, &mut Search::new())
    }

    #[test]
    fn a_rectangle_meets_oler() {
        // 74 x 124 mm, 22 apart: 2/√3 · 9176/484 + 198/22 + 1 = 31.9.
        assert_eq!(most(&rectangle(Rect::new(0.0, 0.0, 74.0, 124.0)), 22.0), 31);
        assert_eq!(most(&Region::empty(), 22.0), 0);
    }

    #[test]
    fn rooms_are_counted_one_by_one() {
        let room = |x: f64| rectangle(Rect::new(x, 0.0, x + 9.0, 9.0));
        // The diagonal of each is below the distance: a point each, though the hull could hold more.
        assert_eq!(most(&room(0.0).union(&room(20.0)), 13.0), 2);
        let frame = rectangle(Rect::new(-9.0, -9.0, 90.0, 90.0))
            .difference(&rectangle(Rect::new(-1.0, -1.0, 80.0, 80.0)));
        let parts = parts(&frame.union(&room(5.0)));
        assert_eq!(parts.len(), 2);
        assert!((parts[0].area() - 81.0).abs() < 1e-6);
    }

    #[test]
    fn an_l_is_cut_at_its_elbow() {
        let l = rectangle(Rect::new(0.0, 0.0, 100.0, 4.0)).union(&rectangle(Rect::new(0.0, 0.0, 4.0, 100.0)));
        let hull = oler(&convex_hull(l.rings().flatten()), 10.0);
        // Two strips 4 mm wide: zigzags of steps √84 = 9.17.
        assert!(hull > 60);
        assert!(most(&l, 10.0) <= 22, "{}", most(&l, 10.0));
        // The true number is at least what lies along the middle of both arms.
        assert!(most(&l, 10.0) >= 20);
    }

    #[test]
    fn a_hole_is_cut_round() {
        let ring = rectangle(Rect::new(0.0, 0.0, 60.0, 60.0))
            .difference(&rectangle(Rect::new(2.0, 2.0, 58.0, 58.0)));
        // Points along a way of 232 mm, 10 apart, are 23; some are lost to the cuts.
        let bound = most(&ring, 10.0);
        assert!((23..=28).contains(&bound), "{bound}");
    }

    /// Points of a lattice turned by an angle, in a rectangle that is then drawn tight about them.
    fn lattice(width: f64, height: f64, turn: f64, lean: f64) -> (Vec<Point>, Rect) {
        let (sine, cosine) = libm::sincos(turn);
        let rise = (1.0 - lean * lean).sqrt();
        let all = (-40..40).flat_map(|i| (-40..40).map(move |j| (f64::from(i), f64::from(j))));
        let points: Vec<Point> = all
            .map(|(i, j)| (i + lean * j, rise * j))
            .map(|(x, y)| Point::new(x * cosine - y * sine, x * sine + y * cosine))
            .filter(|point| point.x.abs() <= width && point.y.abs() <= height)
            .collect();
        let around = bounds(&points);
        (points, around)
    }

    proptest! {
        /// Points one apart that are there are never more than the bound, however tight the region.
        #[test]
        fn points_that_are_there_are_within_the_bound(
            width in 0.5..4.0f64,
            height in 0.5..4.0f64,
            turn in 0.0..core::f64::consts::PI,
            lean in 0.0..0.5f64,
            hole in 0.0..1.0f64,
        ) {
            let (points, around) = lattice(width, height, turn, lean);
            let region = rectangle(around.inflate(GRAIN, GRAIN));
            prop_assert!(most(&region, 1.0 - 1e-9) >= points.len());
            // A hole between the points, and a bay from the side.
            let hole = Rect::new(-hole, -hole / 2.0, hole, hole / 2.0);
            let bay = Rect::new(around.x0 - 1.0, hole.y1, hole.x0, hole.y1 + 0.8);
            let without = region.difference(&rectangle(hole)).difference(&rectangle(bay));
            let inside = |point: &&Point| !hole.contains(**point) && !bay.contains(**point);
            prop_assert!(most(&without, 1.0 - 1e-9) >= points.iter().filter(inside).count());
        }
    }
}
