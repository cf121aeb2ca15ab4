//! The largest disc inside an outline.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use kurbo::{Point, Rect};

use crate::distance::nearest_on_segment;
use crate::outline::Outline;

/// A disc, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Its middle.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
}

/// How far the disc found may fall short of the largest there is, as a share of the outline's smaller side.
const SHARE_SHORT: f64 = 1e-4;

/// The most squares looked at before the best found so far is given back.
const MOST_SQUARES: usize = 4_000;

/// The largest disc inside the outline, within a ten-thousandth of the outline's smaller side.
///
/// The disc given back always lies inside, so its radius is a lower bound of the true one. Its middle is the *pole of
/// inaccessibility*.
///
/// Cost: some hundred to some thousand times the number of points.
///
/// Source: V. Agafonkin, "A new algorithm for finding a visual center of a polygon", 2016: squares are split, the most
/// promising first; a square whose middle is d inside and whose half diagonal is h holds no point deeper than d + h.
pub fn inner_disc(outline: &Outline) -> Disc {
    let bounds = outline.bounds();
    let side = bounds.width().min(bounds.height());
    let precision = side * SHARE_SHORT;
    let mut best = Disc { centre: outline.points()[0], radius: 0.0 };
    let mut open = BinaryHeap::new();
    for square in squares_over(bounds, side) {
        consider(outline, square, &mut best, &mut open);
    }
    consider(outline, (outline.centroid(), 0.0), &mut best, &mut open);
    for _ in 0..MOST_SQUARES {
        let Some(square) = open.pop() else { break };
        if square.reach - best.radius <= precision {
            break;
        }
        let half = square.half / 2.0;
        for (x, y) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            let middle = Point::new(square.middle.x + x, square.middle.y + y);
            consider(outline, (middle, half), &mut best, &mut open);
        }
    }
    best
}

/// A square that may hold a deeper point; the more promising one is the greater.
struct Square {
    middle: Point,
    half: f64,
    /// No point of it lies deeper inside than this.
    reach: f64,
}

impl Ord for Square {
    fn cmp(&self, other: &Square) -> Ordering {
        self.reach.total_cmp(&other.reach)
    }
}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Square) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Square {
    fn eq(&self, other: &Square) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Square {}

fn squares_over(bounds: Rect, side: f64) -> Vec<(Point, f64)> {
    let (columns, rows) = ((bounds.width() / side).ceil() as u32, (bounds.height() / side).ceil() as u32);
    let half = side / 2.0;
    (0..columns.max(1))
        .flat_map(|column| (0..rows.max(1)).map(move |row| (column, row)))
        .map(|(column, row)| {
            let x = bounds.x0 + half + side * f64::from(column);
            let y = bounds.y0 + half + side * f64::from(row);
            (Point::new(x, y), half)
        })
        .collect()
}

fn consider(outline: &Outline, (middle, half): (Point, f64), best: &mut Disc, open: &mut BinaryHeap<Square>) {
    let depth = depth(outline, middle);
    if depth > best.radius {
        *best = Disc { centre: middle, radius: depth };
    }
    let reach = depth + half * core::f64::consts::SQRT_2;
    if reach > best.radius && half > 0.0 {
        open.push(Square { middle, half, reach });
    }
}

/// How far a point lies inside the outline if that is further than `least`, which is not negative; else nothing.
///
/// The cheap question for the deepest of many points: most are answered by the first edge that is near enough.
pub fn depth_beyond(outline: &Outline, point: Point, least: f64) -> Option<f64> {
    if !outline.contains(point) {
        return None;
    }
    let mut nearest = f64::INFINITY;
    for (start, end) in outline.edges() {
        nearest = nearest.min((nearest_on_segment(point, start, end) - point).hypot2());
        if nearest <= least * least {
            return None;
        }
    }
    Some(nearest.sqrt())
}

/// How far a point lies inside the outline; negative outside.
pub fn depth(outline: &Outline, point: Point) -> f64 {
    let squared = |(start, end)| (nearest_on_segment(point, start, end) - point).hypot2();
    let apart = outline.edges().map(squared).fold(f64::INFINITY, f64::min).sqrt();
    if outline.contains(point) { apart } else { -apart }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::path;

    #[test]
    fn the_depth_is_told_only_beyond_what_is_known() {
        let box_ = path::parse("M0 0H40V10H0Z").unwrap();
        let point = Point::new(20.0, 3.0);
        assert_eq!(depth_beyond(&box_, point, 2.9), Some(3.0));
        assert_eq!(depth_beyond(&box_, point, 3.0), None);
        assert_eq!(depth_beyond(&box_, Point::new(20.0, -3.0), 0.0), None);
    }

    #[test]
    fn the_disc_in_a_rectangle_is_half_its_shorter_side() {
        let disc = inner_disc(&path::parse("M0 0H40V10H0Z").unwrap());
        assert!(disc.radius <= 5.0 && disc.radius > 5.0 - 0.001, "{disc:?}");
    }

    #[test]
    fn the_disc_in_a_right_triangle_is_its_incircle() {
        // Legs a, b and hypotenuse c: r = (a + b - c) / 2.
        let disc = inner_disc(&path::parse("M0 0L30 0L0 40Z").unwrap());
        assert!(disc.radius <= 10.0 && disc.radius > 10.0 - 0.003, "{disc:?}");
        assert!((disc.centre - Point::new(10.0, 10.0)).hypot2() < 0.01);
    }

    #[test]
    fn the_disc_of_an_l_lies_in_its_elbow() {
        let disc = inner_disc(&path::parse("M0 0H20V5H5V20H0Z").unwrap());
        // The disc touches both outer sides and the inner corner: r + r / sqrt 2 = 5 / (...) gives r = 5 (2 - sqrt 2).
        assert!((disc.radius - 5.0 * (2.0 - 2f64.sqrt())).abs() < 0.002, "{disc:?}");
    }
}
