//! The closed line itself, its promises and its measures.

use kurbo::{Point, Rect};
use thiserror::Error;

use crate::placement::Placement;

/// The grid that outlines lie on, in millimetres: one micrometre.
///
/// Far below what a printer or blade can show. Rounding to it at the door makes every later step start from the same
/// numbers on every platform, and makes the test for crossings exact.
pub const GRID: f64 = 0.001;

/// The largest coordinate an outline may have, in millimetres (ten metres).
///
/// Within it, products of coordinate differences in whole micrometres are exact in 64-bit integers.
pub const MOST_COORDINATE: f64 = 10_000.0;

/// One closed ring of points in millimetres, y down.
///
/// Promises: at least three points, all finite; the ring does not cross or touch itself; it runs clockwise as seen, so
/// that [`Outline::area`] is positive. A ring made by [`Outline::new`] also lies on the [`GRID`]; one that was
/// [`placed`](Outline::placed) need not.
///
/// The ring is the outline: a curve has been replaced by short chords before it comes here. It has no holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    points: Vec<Point>,
    bounds: Rect,
}

/// Why points do not make an outline.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum OutlineError {
    /// Fewer than three different points, or all of them on one line.
    #[error("the outline has no area; it needs at least three points that are not on one line")]
    NoArea,
    /// A coordinate is not a number, or infinite.
    #[error(
        "point {index} of the outline is not a finite number; give every coordinate as plain millimetres"
    )]
    NotFinite {
        /// Which point, counted from 0.
        index: usize,
    },
    /// A coordinate is beyond [`MOST_COORDINATE`].
    #[error(
        "point {index} of the outline is more than 10 m from the origin; check that lengths are in millimetres"
    )]
    TooFar {
        /// Which point, counted from 0.
        index: usize,
    },
    /// Two parts of the ring cross or touch.
    #[error(
        "the outline crosses or touches itself near ({x:.2}, {y:.2}) mm; draw it as one loop without crossings"
    )]
    Crosses {
        /// Where, in millimetres.
        x: f64,
        /// Where, in millimetres.
        y: f64,
    },
}

impl Outline {
    /// The outline through these points, rounded to the [`GRID`] and turned to run clockwise as seen.
    ///
    /// The ring closes by itself; repeating the first point at the end does no harm, nor does repeating neighbours.
    ///
    /// Errors: see [`OutlineError`]; a ring that merely touches itself is refused too. To mend a ring that crosses
    /// itself, see [`Region::outer_rings`](crate::Region::outer_rings).
    ///
    /// Cost: near n log n for ordinary outlines, n² if all edges share one range of x.
    pub fn new(points: impl IntoIterator<Item = Point>) -> Result<Outline, OutlineError> {
        let mut ring: Vec<Cell> = Vec::new();
        for (index, point) in points.into_iter().enumerate() {
            if !point.x.is_finite() || !point.y.is_finite() {
                return Err(OutlineError::NotFinite { index });
            }
            if point.x.abs() > MOST_COORDINATE || point.y.abs() > MOST_COORDINATE {
                return Err(OutlineError::TooFar { index });
            }
            let cell = Cell { x: (point.x / GRID).round() as i64, y: (point.y / GRID).round() as i64 };
            if ring.last() != Some(&cell) {
                ring.push(cell);
            }
        }
        while ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        let twice_area = ring_twice_area(&ring);
        if ring.len() < 3 || twice_area == 0 {
            return Err(OutlineError::NoArea);
        }
        if let Some(at) = first_contact(&ring) {
            return Err(OutlineError::Crosses { x: at.x as f64 * GRID, y: at.y as f64 * GRID });
        }
        if twice_area < 0 {
            ring.reverse();
        }
        let points = ring.into_iter().map(Cell::to_point).collect();
        Ok(Outline::from_trusted(points))
    }

    /// A ring that is known to keep the promises.
    pub(crate) fn from_trusted(points: Vec<Point>) -> Outline {
        let bounds = bounds_of(&points);
        Outline { points, bounds }
    }

    /// The corners in order, clockwise as seen. The last joins the first.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The straight pieces of the ring, each from its start to its end, clockwise as seen.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let ends = self.points[1..].iter().chain(self.points.first());
        self.points.iter().copied().zip(ends.copied())
    }

    /// The smallest upright rectangle around the outline.
    pub fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The enclosed area in square millimetres, always positive.
    pub fn area(&self) -> f64 {
        ring_area(&self.points)
    }

    /// The length of the line in millimetres.
    pub fn perimeter(&self) -> f64 {
        self.edges().map(|(start, end)| (end - start).hypot2().sqrt()).sum()
    }

    /// The centre of the enclosed area. It may lie outside a crescent.
    pub fn centroid(&self) -> Point {
        let origin = self.points[0];
        let (mut x, mut y, mut twice) = (0.0, 0.0, 0.0);
        for (start, end) in self.edges() {
            let (a, b) = (start - origin, end - origin);
            let cross = a.cross(b);
            twice += cross;
            x += (a.x + b.x) * cross;
            y += (a.y + b.y) * cross;
        }
        Point::new(origin.x + x / (3.0 * twice), origin.y + y / (3.0 * twice))
    }

    /// Whether the point lies inside. A point exactly on the line may be counted either way.
    pub fn contains(&self, point: Point) -> bool {
        if !self.bounds.contains(point) {
            return false;
        }
        let mut inside = false;
        for (a, b) in self.edges() {
            if (a.y > point.y) != (b.y > point.y) {
                let x = a.x + (point.y - a.y) * (b.x - a.x) / (b.y - a.y);
                inside ^= point.x < x;
            }
        }
        inside
    }

    /// The outline moved to where a piece lies: mirrored if asked, turned about its (0, 0), then shifted.
    ///
    /// Area and length stay the same within rounding.
    pub fn placed(&self, placement: &Placement) -> Outline {
        let motion = placement.motion();
        let mut points: Vec<Point> = self.points.iter().map(|&point| motion.apply(point)).collect();
        if placement.mirrored {
            points.reverse();
        }
        Outline::from_trusted(points)
    }
}

/// A corner in whole micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Cell {
    x: i64,
    y: i64,
}

impl Cell {
    fn to_point(self) -> Point {
        // Dividing by 1000 gives the double nearest to the decimal number; multiplying by 0.001 would not.
        Point::new(self.x as f64 / 1000.0, self.y as f64 / 1000.0)
    }
}

/// Twice the enclosed area of a ring; positive if it runs clockwise as seen, y down.
fn ring_twice_area(ring: &[Cell]) -> i128 {
    let next = |i: usize| ring[(i + 1) % ring.len()];
    (0..ring.len()).map(|i| i128::from(ring[i].x * next(i).y - next(i).x * ring[i].y)).sum()
}

/// The enclosed area of a closed ring of points; positive if it runs clockwise as seen, y down.
pub fn ring_area(points: &[Point]) -> f64 {
    let Some(&origin) = points.first() else { return 0.0 };
    let cross = |i: usize| (points[i] - origin).cross(points[(i + 1) % points.len()] - origin);
    (0..points.len()).map(cross).sum::<f64>() / 2.0
}

/// The smallest upright rectangle around the points.
pub(crate) fn bounds_of(points: &[Point]) -> Rect {
    let mut bounds = Rect::from_points(points[0], points[0]);
    for point in &points[1..] {
        bounds = bounds.union_pt(*point);
    }
    bounds
}

/// A place where two edges of the ring meet other than as neighbours at their common corner.
///
/// Edges are sorted by their left end and each is compared with those whose ranges of x it shares.
fn first_contact(ring: &[Cell]) -> Option<Cell> {
    let count = ring.len();
    let edge = |i: usize| (ring[i], ring[(i + 1) % count]);
    let left = |i: usize| edge(i).0.x.min(edge(i).1.x);
    let right = |i: usize| edge(i).0.x.max(edge(i).1.x);
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by_key(|&i| left(i));
    let mut open: Vec<usize> = Vec::new();
    for &i in &order {
        open.retain(|&j| right(j) >= left(i));
        for &j in &open {
            let (first, second) = if i < j { (i, j) } else { (j, i) };
            let contact = if second == first + 1 {
                fold(edge(first).0, edge(first).1, edge(second).1)
            } else if first == 0 && second == count - 1 {
                fold(edge(second).0, edge(second).1, edge(first).1)
            } else {
                contact(edge(first), edge(second))
            };
            if contact.is_some() {
                return contact;
            }
        }
        open.push(i);
    }
    None
}

/// Positive if a, b, c turn clockwise as seen, zero if they lie on one line.
fn side(a: Cell, b: Cell, c: Cell) -> i64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

/// The corner, if the path from `start` over `corner` to `end` runs back on itself.
fn fold(start: Cell, corner: Cell, end: Cell) -> Option<Cell> {
    let dot = (start.x - corner.x) * (end.x - corner.x) + (start.y - corner.y) * (end.y - corner.y);
    (side(start, corner, end) == 0 && dot > 0).then_some(corner)
}

/// A place near which two edges meet, if they share any point.
fn contact((a, b): (Cell, Cell), (c, d): (Cell, Cell)) -> Option<Cell> {
    let (low, high) = (a.y.min(b.y), a.y.max(b.y));
    if c.y.max(d.y) < low || c.y.min(d.y) > high {
        return None;
    }
    let on = |p: Cell, q: Cell, r: Cell| {
        (p.x.min(q.x)..=p.x.max(q.x)).contains(&r.x) && (p.y.min(q.y)..=p.y.max(q.y)).contains(&r.y)
    };
    let (s1, s2, s3, s4) = (side(c, d, a), side(c, d, b), side(a, b, c), side(a, b, d));
    if s1.signum() * s2.signum() < 0 && s3.signum() * s4.signum() < 0 {
        let along = s1 as f64 / (s1 as f64 - s2 as f64);
        let x = a.x as f64 + along * (b.x - a.x) as f64;
        let y = a.y as f64 + along * (b.y - a.y) as f64;
        return Some(Cell { x: x.round() as i64, y: y.round() as i64 });
    }
    [(s1, c, d, a), (s2, c, d, b), (s3, a, b, c), (s4, a, b, d)]
        .into_iter()
        .find(|&(s, p, q, r)| s == 0 && on(p, q, r))
        .map(|(_, _, _, r)| r)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Result<Outline, OutlineError> {
        Outline::new(points.iter().map(|&(x, y)| Point::new(x, y)))
    }

    #[test]
    fn square_has_its_area_length_and_centre() {
        let square = ring(&[(1.0, 1.0), (5.0, 1.0), (5.0, 5.0), (1.0, 5.0)]).unwrap();
        assert_eq!(square.area(), 16.0);
        assert_eq!(square.perimeter(), 16.0);
        assert_eq!(square.centroid(), Point::new(3.0, 3.0));
        assert_eq!(square.bounds(), Rect::new(1.0, 1.0, 5.0, 5.0));
    }

    #[test]
    fn direction_is_made_clockwise_as_seen() {
        let one_way = ring(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0)]).unwrap();
        let other_way = ring(&[(4.0, 4.0), (4.0, 0.0), (0.0, 0.0)]).unwrap();
        assert_eq!(one_way.area(), 8.0);
        assert_eq!(other_way.area(), 8.0);
    }

    #[test]
    fn closing_point_and_repeats_are_dropped() {
        let square = ring(&[(0.0, 0.0), (4.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]).unwrap();
        assert_eq!(square.points().len(), 4);
    }

    #[test]
    fn points_snap_to_the_grid() {
        let triangle = ring(&[(0.0, 0.0), (1.000_4, 0.0), (0.0, 1.000_6)]).unwrap();
        assert_eq!(triangle.points()[1], Point::new(1.0, 0.0));
        assert_eq!(triangle.points()[2], Point::new(0.0, 1.001));
    }

    #[test]
    fn bad_rings_are_refused_with_their_reason() {
        assert_eq!(ring(&[(0.0, 0.0), (1.0, 0.0)]), Err(OutlineError::NoArea));
        assert_eq!(ring(&[(0.0, 0.0), (5.0, 0.0), (10.0, 0.0)]), Err(OutlineError::NoArea));
        assert_eq!(
            ring(&[(0.0, 0.0), (f64::NAN, 0.0), (1.0, 1.0)]),
            Err(OutlineError::NotFinite { index: 1 })
        );
        assert_eq!(ring(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1e9)]), Err(OutlineError::TooFar { index: 2 }));
    }

    #[test]
    fn crossings_touches_and_spikes_are_refused() {
        let slanted_bow_tie = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 8.0)];
        let touching = [(0.0, 0.0), (10.0, 0.0), (5.0, 5.0), (10.0, 10.0), (0.0, 10.0), (5.0, 5.0)];
        let spike = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (10.0, 15.0), (10.0, 10.0), (0.0, 10.0)];
        for bad in [&slanted_bow_tie[..], &touching, &spike] {
            assert!(matches!(ring(bad), Err(OutlineError::Crosses { .. })), "{bad:?}");
        }
    }

    #[test]
    fn contains_tells_inside_from_the_bay_of_an_l() {
        let l = ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 2.0), (2.0, 2.0), (2.0, 10.0), (0.0, 10.0)]).unwrap();
        assert!(l.contains(Point::new(1.0, 9.0)));
        assert!(l.contains(Point::new(9.0, 1.0)));
        assert!(!l.contains(Point::new(5.0, 5.0)));
        assert!(!l.contains(Point::new(-1.0, 1.0)));
    }

    #[test]
    fn mirrored_and_turned_outline_keeps_area_and_direction() {
        let l = ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 2.0), (2.0, 2.0), (2.0, 10.0), (0.0, 10.0)]).unwrap();
        let placement =
            Placement { at: Point::new(3.0, 4.0), turn: crate::Turn::degrees(33.0), mirrored: true };
        assert!((l.placed(&placement).area() - l.area()).abs() < 1e-9);
    }
}
