//! Curves in place of chords: fitted, then measured against the line they stand for.

use kurbo::simplify::{SimplifyOptLevel, SimplifyOptions, simplify_bezpath};
use kurbo::{BezPath, PathEl, Point, Vec2};

/// From which turn on a point of the line is a corner and stays one, in radians: 40 degrees. Chords of half a millimetre
/// radius that stray a twentieth turn by 36.
const CORNER: f64 = 0.7;

/// How far a curve may bulge over the chord that it stands for, in millimetres; a point from which it would bulge more is
/// a corner too, as where a straight edge goes over into a small arc.
const MOST_BULGE: f64 = 0.006;

/// How far chords may stray where a fitted curve is measured, in millimetres.
pub(crate) const MEASURED_WITHIN: f64 = 0.0005;

/// A closed line ready to be cut: it begins and ends at one point.
#[derive(Clone, Debug, PartialEq)]
pub struct CutLine {
    /// Moves, lines and cubic curves; the last point is the first again.
    pub path: BezPath,
    /// Whether curves stand for the chords; false where none was near enough.
    pub is_fitted: bool,
}

impl CutLine {
    /// The ring as straight lines.
    pub(crate) fn chords(ring: &[Point]) -> CutLine {
        let mut path = BezPath::new();
        path.move_to(ring[0]);
        ring[1..].iter().chain([&ring[0]]).for_each(|&point| path.line_to(point));
        CutLine { path, is_fitted: false }
    }

    /// The ring as curves that lie within `tolerance` millimetres of the exact line and it of them, if such were found.
    ///
    /// The ring begins where the blade is set down; it is the exact line or one beside it. Of the tolerance, `accuracy` is
    /// what the fitting may take up.
    pub(crate) fn fitted(ring: &[Point], accuracy: f64, exact: &[Point], tolerance: f64) -> Option<CutLine> {
        let options = SimplifyOptions::default().opt_level(SimplifyOptLevel::Subdivide).angle_thresh(0.05);
        let path = simplify_bezpath(spline(ring), accuracy, &options);
        let line = CutLine { path: rounded(&path), is_fitted: true };
        let closed: Vec<Point> = exact.iter().chain(exact.first()).copied().collect();
        let curve = line.flattened();
        let is_whole = curve.iter().all(|point| point.is_finite()) && curve.first() == curve.last();
        let is_near =
            is_whole && lies_along(&curve, &closed, tolerance) && lies_along(&closed, &curve, tolerance);
        (is_near && line.nodes() < exact.len()).then_some(line)
    }

    /// How many points the line goes through, the first counted once.
    pub fn nodes(&self) -> usize {
        self.path.elements().iter().filter(|element| !matches!(element, PathEl::MoveTo(_))).count()
    }

    /// Where it begins and ends.
    pub fn start(&self) -> Point {
        match self.path.elements().first() {
            Some(&PathEl::MoveTo(point)) => point,
            _ => Point::ZERO,
        }
    }

    /// The line as chords that stray less than half a micrometre; the last point is the first.
    pub fn flattened(&self) -> Vec<Point> {
        let mut points = Vec::new();
        kurbo::flatten(&self.path, MEASURED_WITHIN, |element| match element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => points.push(point),
            _ => {}
        });
        points
    }
}

/// Cubic curves through all points of the ring, smooth but for its corners.
///
/// The tangent at a point is that of the circle through it and its neighbours; a handle is a third of its chord.
fn spline(ring: &[Point]) -> BezPath {
    let count = ring.len();
    let at = |i: usize| ring[i % count];
    let tangent = |i: usize| {
        let (before, after) = (at(i) - at(i + count - 1), at(i + 1) - at(i));
        let (a, b) = (before.hypot2().sqrt(), after.hypot2().sqrt());
        let way = before * (b / a) + after * (a / b);
        let is_sharp = libm::atan2(before.cross(after).abs(), before.dot(after)) > CORNER;
        unit(way).filter(|way| !is_sharp && bulge(*way, before).max(bulge(*way, after)) <= MOST_BULGE)
    };
    let tangents: Vec<Option<Vec2>> = (0..count).map(tangent).collect();
    let mut path = BezPath::new();
    path.move_to(at(0));
    for i in 0..count {
        let (start, end) = (at(i), at(i + 1));
        let chord = end - start;
        let third = chord.hypot2().sqrt() / 3.0;
        let straight = chord / 3.0;
        let out = tangents[i].map_or(straight, |way| way * third);
        let back = tangents[(i + 1) % count].map_or(straight, |way| way * third);
        path.curve_to(start + out, end - back, end);
    }
    path
}

/// How far a cubic curve with this unit tangent at one end of a chord, and a handle of a third of it, leaves the chord:
/// at most 4/9 of what the handle does.
fn bulge(tangent: Vec2, chord: Vec2) -> f64 {
    tangent.cross(chord).abs() / 3.0 * (4.0 / 9.0)
}

fn unit(way: Vec2) -> Option<Vec2> {
    let length = way.hypot2().sqrt();
    (length > 1e-12).then(|| way / length)
}

/// The path with lengths rounded to a hundredth of a micrometre, as it is written.
fn rounded(path: &BezPath) -> BezPath {
    let round = |p: Point| Point::new((p.x * 1e5).round() / 1e5, (p.y * 1e5).round() / 1e5);
    path.elements()
        .iter()
        .filter_map(|element| match *element {
            PathEl::MoveTo(p) => Some(PathEl::MoveTo(round(p))),
            PathEl::LineTo(p) => Some(PathEl::LineTo(round(p))),
            PathEl::CurveTo(a, b, p) => Some(PathEl::CurveTo(round(a), round(b), round(p))),
            PathEl::QuadTo(a, p) => Some(PathEl::QuadTo(round(a), round(p))),
            PathEl::ClosePath => None,
        })
        .collect()
}

/// Whether every place of one line lies within the tolerance of the other: points, and midpoints between them.
pub(crate) fn lies_along(line: &[Point], other: &[Point], tolerance: f64) -> bool {
    let most = tolerance * tolerance;
    let is_near = |point: Point| other.windows(2).any(|edge| apart_squared(point, edge[0], edge[1]) <= most);
    line.windows(2).all(|edge| {
        let parts = ((edge[1] - edge[0]).hypot2().sqrt() / 0.2).ceil().max(1.0) as usize;
        (0..parts).all(|part| is_near(edge[0].lerp(edge[1], part as f64 / parts as f64)))
    })
}

fn apart_squared(point: Point, start: Point, end: Point) -> f64 {
    let along = end - start;
    let share = ((point - start).dot(along) / along.hypot2().max(1e-30)).clamp(0.0, 1.0);
    (start + along * share - point).hypot2()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use stickleaf_outline::{border, shapes};

    use super::*;
    use crate::cut::start::from_gentlest;

    #[test]
    fn a_round_line_needs_few_nodes_and_a_box_keeps_its_corners() {
        let disc = shapes::disc(12.0, 200);
        let line = CutLine::fitted(disc.points(), 0.012, disc.points(), 0.02).unwrap();
        assert!(line.nodes() <= 12, "{}", line.nodes());
        let square = shapes::square(10.0);
        assert_eq!(CutLine::chords(square.points()).nodes(), 4);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn curves_lie_within_the_tolerance_both_ways(seed in any::<u64>(), radius in 5.0..20.0) {
            let line = border(&shapes::blob(seed, radius), 1.5);
            let ring = from_gentlest(line.points());
            if let Some(fitted) = [0.012, 0.006, 0.003].into_iter().find_map(|part| CutLine::fitted(&ring, part, &ring, 0.02)) {
                let curve = fitted.flattened();
                let closed: Vec<Point> = line.points().iter().chain(line.points().first()).copied().collect();
                // A second, finer way to measure: a thousand places along each curve.
                for point in curve.windows(2).map(|edge| edge[0].midpoint(edge[1])) {
                    let near = closed.windows(2).map(|e| apart_squared(point, e[0], e[1])).fold(f64::MAX, f64::min);
                    prop_assert!(near.sqrt() <= 0.0205, "{}", near.sqrt());
                }
                prop_assert!(fitted.nodes() * 2 < line.points().len(), "{} of {}", fitted.nodes(), line.points().len());
            } else {
                prop_assert!(false, "no curve was found");
            }
        }
    }
}
