//! The point of a closed line nearest to another point, without a look at most of the line.

use kurbo::Point;
use stickleaf_outline::Disc;

/// How many edges share a circle.
const EDGES: usize = 8;

/// How much nearer than they are circles are taken to be, in millimetres: more than a turn of the line rounds off.
const ROUNDING: f64 = 1e-6;

/// Circles round a few edges each, all round a line: a point far from a circle is far from its edges.
pub struct Stretches(Vec<Disc>);

impl Stretches {
    /// The circles of a line with these corners, the first edge leading from the last corner to the first.
    pub fn new(corners: &[Point]) -> Stretches {
        let circle = |(index, ends): (usize, &[Point])| {
            let before = (index * EDGES + corners.len() - 1) % corners.len();
            let points = || ends.iter().chain([&corners[before]]);
            let sum = points().fold(kurbo::Vec2::ZERO, |sum, point| sum + point.to_vec2());
            let centre = (sum / (ends.len() + 1) as f64).to_point();
            let radius = points().map(|point| (*point - centre).hypot2()).fold(0.0, f64::max).sqrt();
            Disc { centre, radius }
        };
        Stretches(corners.chunks(EDGES).enumerate().map(circle).collect())
    }

    /// The point of the line nearest to `point` and its squared distance, if it is nearer than `limit`.
    ///
    /// `ring` is the line where it lies, its corners in the order of [`Stretches::new`]; `own` is the point as the line's
    /// own coordinates have it. The answer is, to the last bit, the one that a look at all edges in turn gives.
    pub fn nearest(&self, own: Point, point: Point, ring: &[Point], limit: f64) -> Option<(f64, Point)> {
        let mut best = limit * limit;
        let mut reach = limit;
        let mut found = None;
        let mut start = *ring.last()?;
        for (circle, ends) in self.0.iter().zip(ring.chunks(EDGES)) {
            let near = circle.radius + reach + ROUNDING;
            if (own - circle.centre).hypot2() < near * near {
                for &end in ends {
                    if let Some((squared, nearest)) = nearer_on_edge(point, start, end, best) {
                        (best, found) = (squared, Some(nearest));
                    }
                    start = end;
                }
                reach = best.sqrt();
            }
            start = ends[ends.len() - 1];
        }
        found.map(|nearest| (best, nearest))
    }
}

/// The point of an edge nearest to `point` and its squared distance, if that is less than `best`.
#[inline]
fn nearer_on_edge(point: Point, start: Point, end: Point, best: f64) -> Option<(f64, Point)> {
    let (low_x, high_x) = if start.x < end.x { (start.x, end.x) } else { (end.x, start.x) };
    let (low_y, high_y) = if start.y < end.y { (start.y, end.y) } else { (end.y, start.y) };
    let (x, y) = (beyond(point.x, low_x, high_x), beyond(point.y, low_y, high_y));
    if x * x + y * y >= best {
        return None;
    }
    let along = end - start;
    let length2 = along.hypot2();
    let t = if length2 > 0.0 { ((point - start).dot(along) / length2).clamp(0.0, 1.0) } else { 0.0 };
    let nearest = start + along * t;
    let squared = (point - nearest).hypot2();
    (squared < best).then_some((squared, nearest))
}

/// How far a number lies outside a range.
///
/// Comparisons and not `f64::max`: wasm has no instruction for a maximum that passes NaN over, and this is asked for each
/// edge that the search looks at.
#[inline]
fn beyond(value: f64, low: f64, high: f64) -> f64 {
    if value < low {
        low - value
    } else if value > high {
        value - high
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};

    use super::*;

    #[test]
    fn nothing_is_passed_over_that_a_look_at_all_edges_finds() {
        for outline in [shapes::star(5, 10.0, 5.0), shapes::crescent(9.0), shapes::blob(3, 8.0)] {
            let corners = outline.points();
            let stretches = Stretches::new(corners);
            let placement = Placement::turned(30.0, 40.0, 77.0);
            let ring: Vec<Point> = corners.iter().map(|&corner| placement.apply(corner)).collect();
            let mut found = 0;
            for step in 0..2000u32 {
                let own = Point::new(f64::from(step % 50) * 0.6 - 15.0, f64::from(step / 50) * 0.75 - 15.0);
                let point = placement.apply(own);
                for limit in [0.5, 4.0, 50.0] {
                    let (mut best, mut nearest) = (limit * limit, None);
                    for (i, &end) in ring.iter().enumerate() {
                        let start = ring[(i + ring.len() - 1) % ring.len()];
                        if let Some((squared, point)) = nearer_on_edge(point, start, end, best) {
                            (best, nearest) = (squared, Some(point));
                        }
                    }
                    let expected = nearest.map(|nearest| (best, nearest));
                    assert_eq!(stretches.nearest(own, point, &ring, limit), expected);
                    found += usize::from(expected.is_some());
                }
            }
            assert!((2500..4500).contains(&found), "{found} of 6000 points are near the line");
        }
    }
}
