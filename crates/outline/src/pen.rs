//! Drawing curves with chords.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};

/// The most chords one curve may become; beyond it the tolerance gives way. Keeps absurd input from filling the memory.
const MOST_CHORDS: f64 = 10_000.0;

/// Collects closed rings from drawing commands; curves become chords within a tolerance.
///
/// Only + - * / and square roots are used for curves, and the platform-independent sine for arcs, so the same commands
/// give the same points everywhere.
#[derive(Clone, Debug)]
pub struct Pen {
    tolerance: f64,
    rings: Vec<Vec<Point>>,
    ring: Vec<Point>,
    start: Point,
    here: Point,
}

impl Pen {
    /// A pen at (0, 0) whose chords stray from a curve by at most `tolerance`, in the unit of the points.
    pub fn new(tolerance: f64) -> Pen {
        Pen { tolerance, rings: Vec::new(), ring: Vec::new(), start: Point::ZERO, here: Point::ZERO }
    }

    /// Where the pen is.
    pub fn position(&self) -> Point {
        self.here
    }

    /// Ends the ring, if any, and starts another here.
    pub fn move_to(&mut self, point: Point) {
        self.end_ring();
        self.start = point;
        self.here = point;
    }

    /// A straight line.
    pub fn line_to(&mut self, point: Point) {
        if self.ring.is_empty() {
            self.ring.push(self.here);
        }
        self.ring.push(point);
        self.here = point;
    }

    /// A quadratic Bézier curve.
    pub fn quadratic_to(&mut self, control: Point, end: Point) {
        let start = self.here;
        let bend = (start - control) + (end - control);
        let chords = self.chords(bend.hypot2().sqrt() / 4.0);
        self.follow(chords, end, |t| {
            let s = 1.0 - t;
            let sum = start.to_vec2() * (s * s) + control.to_vec2() * (2.0 * s * t) + end.to_vec2() * (t * t);
            sum.to_point()
        });
    }

    /// A cubic Bézier curve.
    ///
    /// Source of the number of chords: G. Wang, "The subdivision method for finding the intersection between two
    /// Bézier curves or surfaces", 1984: degree n, bend M, n (n - 1) M / (8 tolerance) chords squared.
    pub fn cubic_to(&mut self, first: Point, second: Point, end: Point) {
        let start = self.here;
        let bend =
            ((start - first) + (second - first)).hypot2().max(((first - second) + (end - second)).hypot2());
        let chords = self.chords(bend.sqrt() * 0.75);
        self.follow(chords, end, |t| {
            let s = 1.0 - t;
            let near = start.to_vec2() * (s * s * s) + first.to_vec2() * (3.0 * s * s * t);
            let far = second.to_vec2() * (3.0 * s * t * t) + end.to_vec2() * (t * t * t);
            (near + far).to_point()
        });
    }

    /// An elliptical arc as SVG means it: radii, turn of the ellipse in degrees, which of the four arcs, end point.
    ///
    /// Source: SVG 2, appendix B.2.4 and B.2.5 (from end points to centre; radii that are too small).
    pub fn arc_to(&mut self, rx: f64, ry: f64, turn_deg: f64, large: bool, sweep: bool, end: Point) {
        let start = self.here;
        let (mut rx, mut ry) = (rx.abs(), ry.abs());
        if rx == 0.0 || ry == 0.0 || start == end {
            self.line_to(end);
            return;
        }
        let (sine, cosine) = libm::sincos(turn_deg * (PI / 180.0));
        let half = (start - end) * 0.5;
        let (x, y) = (cosine * half.x + sine * half.y, cosine * half.y - sine * half.x);
        let stretch = (x * x) / (rx * rx) + (y * y) / (ry * ry);
        if stretch > 1.0 {
            rx *= stretch.sqrt();
            ry *= stretch.sqrt();
        }
        let below = rx * rx * y * y + ry * ry * x * x;
        let above = (rx * rx * ry * ry - below).max(0.0);
        let sign = if large == sweep { -1.0 } else { 1.0 };
        let factor = sign * (above / below).sqrt();
        let (cx, cy) = (factor * rx * y / ry, -factor * ry * x / rx);
        let middle = start.midpoint(end);
        let centre = Point::new(cosine * cx - sine * cy + middle.x, sine * cx + cosine * cy + middle.y);
        let from = libm::atan2((y - cy) / ry, (x - cx) / rx);
        let to = libm::atan2((-y - cy) / ry, (-x - cx) / rx);
        let mut angle = to - from;
        if sweep && angle < 0.0 {
            angle += 2.0 * PI;
        } else if !sweep && angle > 0.0 {
            angle -= 2.0 * PI;
        }
        // A chord over the angle a strays r (1 - cos(a / 2)) from the arc, less than r a² / 8.
        let chords = self.chords(rx.max(ry) * angle * angle / 8.0);
        self.follow(chords, end, |t| {
            let (s, c) = libm::sincos(from + angle * t);
            centre + Vec2::new(cosine * rx * c - sine * ry * s, sine * rx * c + cosine * ry * s)
        });
    }

    /// Closes the ring; the pen goes back to where it started.
    pub fn close(&mut self) {
        self.end_ring();
        self.here = self.start;
    }

    /// The rings drawn, in order; one left open is closed.
    pub fn finish(mut self) -> Vec<Vec<Point>> {
        self.end_ring();
        self.rings
    }

    fn end_ring(&mut self) {
        if !self.ring.is_empty() {
            self.rings.push(std::mem::take(&mut self.ring));
        }
    }

    /// How many chords keep the tolerance, when one chord would stray by `stray` and n chords by a share of n squared.
    fn chords(&self, stray: f64) -> u32 {
        let wanted = (stray / self.tolerance).sqrt().ceil();
        // A stray that is not a number gives one chord; the caller sees the point that is not finite.
        if wanted > 1.0 { wanted.min(MOST_CHORDS) as u32 } else { 1 }
    }

    fn follow(&mut self, chords: u32, end: Point, curve: impl Fn(f64) -> Point) {
        for i in 1..chords {
            self.line_to(curve(f64::from(i) / f64::from(chords)));
        }
        self.line_to(end);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_circle_cubic_stays_within_the_tolerance() {
        // The usual approximation of a quarter circle, control points at 0.5522847: within 0.03 % of the circle.
        let k = 55.228_47;
        let mut pen = Pen::new(0.01);
        pen.move_to(Point::new(100.0, 0.0));
        pen.cubic_to(Point::new(100.0, k), Point::new(k, 100.0), Point::new(0.0, 100.0));
        let rings = pen.finish();
        for pair in rings[0].windows(2) {
            let radius = pair[0].midpoint(pair[1]).to_vec2().hypot2().sqrt();
            assert!((radius - 100.0).abs() < 0.01 + 0.03, "{radius}");
        }
    }

    #[test]
    fn subpaths_become_rings_of_their_own() {
        let mut pen = Pen::new(0.1);
        for x in [0.0, 10.0] {
            pen.move_to(Point::new(x, 0.0));
            pen.line_to(Point::new(x + 5.0, 0.0));
            pen.line_to(Point::new(x, 5.0));
            pen.close();
        }
        assert_eq!(pen.finish().len(), 2);
    }
}
