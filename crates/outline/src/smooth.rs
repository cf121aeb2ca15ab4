//! A calmer line, within a stated distance.

use kurbo::Point;

/// How often the ring is averaged and pushed back. Eight rounds take out waves shorter than about ten points and leave
/// those longer than forty as they are (from the paper's transfer function, (1 - k L)(1 - k M) to the power of rounds).
const ROUNDS: u32 = 8;
/// How far each round pulls a point towards the middle of its neighbours, as a share.
const PULL: f64 = 0.5;
/// How far it then pushes it away again; a little more, so that round shapes do not shrink.
const PUSH: f64 = 0.52;

/// The ring with short waves, such as the stairs of pixels, taken out; every point stays within `most_shift`
/// millimetres of where it was.
///
/// The points keep their number and order, so both lines lie within `most_shift` of each other all along. Nothing keeps
/// the result from crossing itself where the ring comes closer to itself than that: callers check.
///
/// Cost: the number of points, times a constant.
///
/// Source: G. Taubin, "Curve and surface smoothing without shrinkage", ICCV 1995; the limit on the shift is our own.
pub fn smoothed(ring: &[Point], most_shift: f64) -> Vec<Point> {
    if ring.len() < 4 || most_shift <= 0.0 || most_shift.is_nan() {
        return ring.to_vec();
    }
    let mut line = ring.to_vec();
    let mut next = line.clone();
    for _ in 0..ROUNDS {
        for share in [PULL, -PUSH] {
            for i in 0..line.len() {
                let before = line[if i == 0 { line.len() - 1 } else { i - 1 }];
                let after = line[if i + 1 == line.len() { 0 } else { i + 1 }];
                next[i] = line[i] + (before.midpoint(after) - line[i]) * share;
            }
            std::mem::swap(&mut line, &mut next);
        }
    }
    for (point, &home) in line.iter_mut().zip(ring) {
        let shift = *point - home;
        let length = shift.hypot2().sqrt();
        if length > most_shift {
            *point = home + shift * (most_shift / length);
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(count: u32, radius: impl Fn(u32) -> f64) -> Vec<Point> {
        let at = |i: u32| {
            let (sine, cosine) = libm::sincos(f64::from(i) * core::f64::consts::TAU / f64::from(count));
            Point::new(radius(i) * cosine, radius(i) * sine)
        };
        (0..count).map(at).collect()
    }

    #[test]
    fn a_zigzag_is_calmed_and_a_circle_keeps_its_size() {
        let ragged = circle(400, |i| if i % 2 == 0 { 10.02 } else { 9.98 });
        for point in smoothed(&ragged, 0.03) {
            let radius = point.to_vec2().hypot2().sqrt();
            assert!((radius - 10.0).abs() < 0.001, "{radius}");
        }
    }

    #[test]
    fn no_point_moves_further_than_asked() {
        let wild = circle(100, |i| 10.0 + libm::sin(f64::from(i * i)));
        for most in [0.0, 0.01, 0.5] {
            for (point, home) in smoothed(&wild, most).iter().zip(&wild) {
                assert!((*point - *home).hypot2().sqrt() <= most + 1e-12);
            }
        }
    }
}
