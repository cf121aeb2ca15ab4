//! What the search knows of one outline.

use std::sync::Arc;

use kurbo::{Point, Rect};
use stickleaf_outline::{Disc, Outline, depth, thinned};

use crate::discs::inner_discs;
use crate::field::Field;
use crate::stretches::Stretches;

/// An outline made ready for many quick questions. Points are told from its centre.
pub struct Shape {
    /// The true line, in the sticker's own coordinates.
    pub line: Arc<Outline>,
    /// The centre of a small circle round it, in the sticker's own coordinates.
    pub centre: Point,
    /// The radius of that circle.
    pub reach: f64,
    /// Whether that circle is the outline, within [`ROUND_TOLERANCE`].
    pub is_round: bool,
    /// Corners of the true line.
    pub corners: Vec<Point>,
    /// Fewer points along the line, some millimetres apart.
    pub samples: Vec<Point>,
    /// Discs inside, told from the centre.
    pub discs: Vec<Disc>,
    /// Circles round the edges between the corners.
    pub stretches: Stretches,
    /// Distances to the line.
    pub field: Field,
    /// The area inside.
    pub area: f64,
}

/// How far a line may stray from a circle and be taken for one, in millimetres: more than a circle drawn with chords of
/// [`stickleaf_outline::path::FLATTENING_TOLERANCE`] and a border's tolerance together.
const ROUND_TOLERANCE: f64 = 0.02;

/// How far samples may be apart along the line, in millimetres, or as a share of the line's length if that is more.
const SAMPLE_STEP: f64 = 3.0;
const SAMPLE_SHARE: f64 = 0.01;
/// How far the line between samples may stray.
const SAMPLE_TOLERANCE: f64 = 0.02;
/// More samples than this make the search slow; then fewer are taken.
const MOST_SAMPLES: usize = 120;

impl Shape {
    /// The shape of a line. Its field reaches `pad` millimetres beyond it, and no further than `within` if given (in
    /// the line's own coordinates).
    pub fn new(line: Arc<Outline>, pad: f64, within: Option<Rect>) -> Shape {
        let (centre, reach) = enclosing_circle(line.points());
        let corners: Vec<Point> = line.points().iter().map(|&point| (point - centre).to_point()).collect();
        let is_round = within.is_none() && reach - depth(&line, centre) <= ROUND_TOLERANCE;
        let mut over = line.bounds().inflate(pad, pad);
        if let Some(within) = within {
            let common = over.intersect(within);
            over = if common.width() > 0.0 && common.height() > 0.0 { common } else { within };
        }
        let field = Field::new(&thinned(&corners, SAMPLE_TOLERANCE), over - centre.to_vec2());
        let discs =
            if is_round { vec![Disc { centre: Point::ZERO, radius: reach }] } else { inner_discs(&field) };
        let area = line.area();
        let stretches = Stretches::new(&corners);
        Shape {
            stretches,
            centre,
            reach,
            is_round,
            samples: samples(&corners),
            corners,
            discs,
            field,
            area,
            line,
        }
    }
}

/// Points along a ring: its main corners, and more along its long edges.
fn samples(ring: &[Point]) -> Vec<Point> {
    let mut tolerance = SAMPLE_TOLERANCE;
    let mut main = thinned(ring, tolerance);
    while main.len() > MOST_SAMPLES && tolerance < 0.5 {
        tolerance *= 2.0;
        main = thinned(ring, tolerance);
    }
    let length: f64 = (0..ring.len()).map(|i| (ring[(i + 1) % ring.len()] - ring[i]).hypot2().sqrt()).sum();
    let step = (length * SAMPLE_SHARE).max(SAMPLE_STEP);
    let mut samples = Vec::new();
    for (i, &start) in main.iter().enumerate() {
        let end = main[(i + 1) % main.len()];
        let parts = ((end - start).hypot2().sqrt() / step).ceil().max(1.0) as u32;
        samples.extend((0..parts).map(|part| start.lerp(end, f64::from(part) / f64::from(parts))));
    }
    samples
}

/// The centre and radius of a circle round the points, within a percent or so of the smallest.
///
/// Source: M. Bădoiu, K. L. Clarkson, "Smaller core-sets for balls", SODA 2003: step towards the furthest point by one
/// part in i + 1 at the i-th step.
fn enclosing_circle(points: &[Point]) -> (Point, f64) {
    let mut bounds = Rect::from_points(points[0], points[0]);
    for point in points {
        bounds = bounds.union_pt(*point);
    }
    let furthest = |centre: Point| {
        let squared = |point: &Point| (*point - centre).hypot2();
        points.iter().map(|point| (squared(point), *point)).max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let mut centre = bounds.center();
    let mut best = (f64::INFINITY, centre);
    for step in 0..100 {
        let Some((squared, point)) = furthest(centre) else { break };
        if squared < best.0 {
            best = (squared, centre);
        }
        centre += (point - centre) / f64::from(step + 20);
    }
    (best.1, best.0.sqrt())
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;

    use super::*;

    fn shape(data: &str) -> Shape {
        Shape::new(Arc::new(path::parse(data).unwrap()), 3.0, None)
    }

    #[test]
    fn a_disc_is_round_and_a_box_is_not() {
        let disc = shape("M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z");
        assert!(disc.is_round && (disc.reach - 4.0).abs() < 0.01, "{}", disc.reach);
        assert!((disc.centre.to_vec2()).hypot2() < 1e-6);
        assert!(!shape("M-4 -4H4V4H-4Z").is_round);
    }

    #[test]
    fn the_circle_holds_every_corner_and_samples_lie_close() {
        let l = shape("M0 0H20V5H5V20H0Z");
        assert!(l.corners.iter().all(|corner| corner.to_vec2().hypot2().sqrt() <= l.reach + 1e-9));
        assert!(l.reach < 14.5, "{}", l.reach);
        for (i, sample) in l.samples.iter().enumerate() {
            let next = l.samples[(i + 1) % l.samples.len()];
            assert!((next - *sample).hypot2().sqrt() <= SAMPLE_STEP + 1e-9);
        }
    }
}
