//! The gap between two outlines: the true distance of their lines, not of their boxes.

use kurbo::{Point, Rect};

use crate::outline::Outline;

/// How far two lines are apart and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The distance in millimetres; zero if they touch or overlap, never negative.
    pub distance: f64,
    /// The nearest point on the first and on the second. Where they overlap, a common point twice.
    pub between: (Point, Point),
}

/// The smallest gap between two outlines in the same coordinates.
///
/// Zero if they touch or overlap; one lying wholly inside the other counts as overlapping.
///
/// Cost: edges of one times edges of the other at worst; edges whose boxes are further apart than the best so far are
/// passed over.
///
/// Source: distance of two segments, C. Ericson, "Real-Time Collision Detection", section 5.1.9.
pub fn gap(a: &Outline, b: &Outline) -> Gap {
    nearest(a, b, f64::INFINITY).unwrap_or(Gap { distance: 0.0, between: (a.points()[0], a.points()[0]) })
}

/// The smallest gap between two outlines if it is below `limit`, else nothing.
///
/// The cheap question to ask while checking: far pairs are answered by their boxes.
pub fn gap_within(a: &Outline, b: &Outline, limit: f64) -> Option<Gap> {
    nearest(a, b, limit)
}

/// The squared distance of two upright rectangles; zero if they meet.
pub(crate) fn boxes_apart(a: Rect, b: Rect) -> f64 {
    let x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    x * x + y * y
}

fn nearest(a: &Outline, b: &Outline, limit: f64) -> Option<Gap> {
    let mut best = limit * limit;
    if boxes_apart(a.bounds(), b.bounds()) >= best {
        return None;
    }
    if let Some(inside) = inner_point(a, b) {
        return Some(Gap { distance: 0.0, between: (inside, inside) });
    }
    // Of most pairs only few edges are near each other.
    let is_near = |&(b0, b1): &(Point, Point)| boxes_apart(Rect::from_points(b0, b1), a.bounds()) < best;
    let near: Vec<(Point, Point)> = b.edges().filter(is_near).collect();
    let mut between = None;
    for (a0, a1) in a.edges() {
        let a_box = Rect::from_points(a0, a1);
        if boxes_apart(a_box, b.bounds()) >= best {
            continue;
        }
        for &(b0, b1) in &near {
            // Most pairs end here, so the box of the second edge is compared without being built.
            let x = (b0.x.min(b1.x) - a_box.x1).max(a_box.x0 - b0.x.max(b1.x)).max(0.0);
            let y = (b0.y.min(b1.y) - a_box.y1).max(a_box.y0 - b0.y.max(b1.y)).max(0.0);
            if x * x + y * y >= best {
                continue;
            }
            let (squared, pair) = segments_apart(a0, a1, b0, b1);
            if squared < best {
                (best, between) = (squared, Some(pair));
                if squared == 0.0 {
                    return Some(Gap { distance: 0.0, between: pair });
                }
            }
        }
    }
    between.map(|between| Gap { distance: best.sqrt(), between })
}

/// A point of one outline inside the other, if one of them starts inside the other.
///
/// Together with the test for crossing edges this finds every overlap: if no edges meet, either all points of one lie
/// inside the other or none does.
fn inner_point(a: &Outline, b: &Outline) -> Option<Point> {
    let (first_a, first_b) = (a.points()[0], b.points()[0]);
    if b.contains(first_a) {
        Some(first_a)
    } else if a.contains(first_b) {
        Some(first_b)
    } else {
        None
    }
}

/// The squared distance of two segments, and the nearest point on each.
fn segments_apart(a0: Point, a1: Point, b0: Point, b1: Point) -> (f64, (Point, Point)) {
    if let Some(meet) = meeting_point(a0, a1, b0, b1) {
        return (0.0, (meet, meet));
    }
    // Apart, the shortest way always starts or ends at one of the four ends.
    let on_b0 = nearest_on_segment(a0, b0, b1);
    let mut best = ((on_b0 - a0).hypot2(), (a0, on_b0));
    let on_b1 = nearest_on_segment(a1, b0, b1);
    let on_a0 = nearest_on_segment(b0, a0, a1);
    let on_a1 = nearest_on_segment(b1, a0, a1);
    for (from, to) in [(a1, on_b1), (on_a0, b0), (on_a1, b1)] {
        let squared = (to - from).hypot2();
        if squared < best.0 {
            best = (squared, (from, to));
        }
    }
    best
}

/// The point of the segment nearest to `point`.
pub(crate) fn nearest_on_segment(point: Point, start: Point, end: Point) -> Point {
    let along = end - start;
    let length2 = along.hypot2();
    if length2 == 0.0 {
        return start;
    }
    let t = ((point - start).dot(along) / length2).clamp(0.0, 1.0);
    start + along * t
}

/// Where two segments cross, if they do so other than at their very ends (the end distances tell those apart).
fn meeting_point(a0: Point, a1: Point, b0: Point, b1: Point) -> Option<Point> {
    let (da, db) = (a1 - a0, b1 - b0);
    let (start_side, end_side) = (da.cross(b0 - a0), da.cross(b1 - a0));
    if (start_side > 0.0) == (end_side > 0.0) {
        return None;
    }
    let (first_side, last_side) = (db.cross(a0 - b0), db.cross(a1 - b0));
    if (first_side > 0.0) == (last_side > 0.0) {
        return None;
    }
    let t = first_side / (first_side - last_side);
    t.is_finite().then(|| a0 + da * t)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::placement::Placement;

    fn square(x: f64, y: f64, side: f64) -> Outline {
        let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)];
        Outline::new(corners.map(|(x, y)| Point::new(x, y))).unwrap()
    }

    #[test]
    fn squares_side_by_side_are_as_far_apart_as_drawn() {
        let gap = gap(&square(0.0, 0.0, 4.0), &square(6.5, 1.0, 4.0));
        assert_eq!(gap.distance, 2.5);
        assert_eq!((gap.between.0.x, gap.between.1.x), (4.0, 6.5));
    }

    #[test]
    fn corner_to_corner_follows_pythagoras() {
        assert_eq!(gap(&square(0.0, 0.0, 4.0), &square(7.0, 8.0, 2.0)).distance, 5.0);
    }

    #[test]
    fn gap_is_zero_when_touching_crossing_or_inside() {
        let big = square(0.0, 0.0, 10.0);
        for other in [square(10.0, 0.0, 3.0), square(8.0, 8.0, 5.0), square(4.0, 4.0, 1.0), big.clone()] {
            assert_eq!(gap(&big, &other).distance, 0.0, "{other:?}");
            assert_eq!(gap(&other, &big).distance, 0.0, "{other:?}");
        }
    }

    #[test]
    fn a_cross_overlaps_though_no_corner_lies_inside() {
        let upright =
            Outline::new([(4.0, 0.0), (6.0, 0.0), (6.0, 10.0), (4.0, 10.0)].map(Point::from)).unwrap();
        let lying = upright.placed(&Placement::turned(10.0, 0.0, 90.0));
        assert_eq!(gap(&upright, &lying).distance, 0.0);
    }

    #[test]
    fn far_pairs_are_not_below_the_limit() {
        let (a, b) = (square(0.0, 0.0, 4.0), square(6.5, 1.0, 4.0));
        assert!(gap_within(&a, &b, 2.5).is_none());
        assert_eq!(gap_within(&a, &b, 2.6).map(|gap| gap.distance), Some(2.5));
    }

    #[test]
    fn a_piece_in_the_bay_of_another_is_measured_to_the_line_and_not_the_box() {
        let c = [(0., 0.), (10., 0.), (10., 2.), (2., 2.), (2., 8.), (10., 8.), (10., 10.), (0., 10.)];
        let c = Outline::new(c.map(Point::from)).unwrap();
        assert_eq!(gap(&c, &square(4.0, 4.0, 2.0)).distance, 2.0);
    }
}
