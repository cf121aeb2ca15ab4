//! What a hand is drawing: a zone, that is a box from corner to corner or a loop, or a blob.

use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, Region, thinned};

/// A path whose ends are nearer to each other than this part of its length is a loop.
///
/// A drag from corner to corner has ends nearly as far apart as it is long.
pub(crate) const LOOP_SHARE: f64 = 0.4;

/// The smallest zone worth keeping: the shorter side of its bounds, in millimetres.
const SMALLEST: f64 = 2.0;

/// How far the kept line of a loop may stray from the drawn one, in millimetres.
const LOOP_TOLERANCE: f64 = 0.1;

/// What a path drawn by hand means, in sheet millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Sketch {
    /// A box from the first point to the last.
    Box(Rect),
    /// The area that the path winds round.
    Loop(Vec<Point>),
    /// A path that becomes a rough sticker once it comes back to its start.
    Blob(Vec<Point>),
}

impl Sketch {
    /// The zone that a path of at least one point means.
    pub(crate) fn of(path: &[Point]) -> Sketch {
        let (first, last) = (path[0], path[path.len() - 1]);
        let length: f64 = path.windows(2).map(|pair| (pair[1] - pair[0]).hypot2().sqrt()).sum();
        let apart = (last - first).hypot2().sqrt();
        if path.len() > 3 && apart < LOOP_SHARE * length {
            Sketch::Loop(path.to_vec())
        } else {
            Sketch::Box(Rect::from_points(first, last))
        }
    }

    /// The edge of the zone; nothing if it is too small to be meant.
    ///
    /// A box lies on whole tenths of a millimetre. A loop that crosses itself gives its largest part, holes filled.
    pub(crate) fn outline(&self) -> Option<Outline> {
        let outline = match self {
            Sketch::Box(rect) => {
                let tenth = |mm: f64| (mm * 10.0).round() / 10.0;
                let (x0, y0, x1, y1) = (tenth(rect.x0), tenth(rect.y0), tenth(rect.x1), tenth(rect.y1));
                Outline::new([(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from)).ok()?
            }
            Sketch::Loop(path) | Sketch::Blob(path) => {
                let largest = Region::from_rings([&path[..]]).outer_rings().into_iter().next()?;
                // Thinning may make a thin loop touch itself; then the line is kept as drawn.
                Outline::new(thinned(largest.points(), LOOP_TOLERANCE)).unwrap_or(largest)
            }
        };
        let bounds = outline.bounds();
        (bounds.width().min(bounds.height()) >= SMALLEST).then_some(outline)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&point| point.into()).collect()
    }

    #[test]
    fn a_drag_from_corner_to_corner_is_a_box() {
        let sketch = Sketch::of(&path(&[(30.0, 40.02), (20.0, 30.0), (9.0, 25.0), (10.0, 20.0)]));
        assert_eq!(sketch, Sketch::Box(Rect::new(10.0, 20.0, 30.0, 40.02)));
        assert_eq!(sketch.outline().unwrap().bounds(), Rect::new(10.0, 20.0, 30.0, 40.0));
    }

    #[test]
    fn a_path_back_to_its_start_is_a_loop() {
        let sketch =
            Sketch::of(&path(&[(10.0, 10.0), (30.0, 10.0), (30.0, 25.0), (10.0, 25.0), (10.5, 11.0)]));
        assert!(matches!(sketch, Sketch::Loop(_)));
        assert!((sketch.outline().unwrap().area() - 300.0).abs() < 5.0);
    }

    #[test]
    fn a_slip_of_the_hand_is_no_zone() {
        assert!(Sketch::of(&path(&[(10.0, 10.0), (11.0, 60.0)])).outline().is_none());
        assert!(Sketch::of(&path(&[(10.0, 10.0)])).outline().is_none());
    }
}
