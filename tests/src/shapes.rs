//! Shapes with known areas, and shapes made at random from a seed.

use core::f64::consts::{PI, TAU};

use kurbo::Point;
use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg32;
use stickleaf_outline::{GRID, Outline};

/// The longest way that a point moves when it is rounded to the grid of outlines: half the grid's diagonal.
pub const GRID_SHIFT: f64 = GRID * core::f64::consts::FRAC_1_SQRT_2;

/// The regular polygon in a circle: its corners lie on the circle, its sides inside.
pub fn inscribed(centre: Point, radius: f64, corners: u32) -> Vec<Point> {
    (0..corners)
        .map(|i| {
            let (sine, cosine) = libm::sincos(TAU * f64::from(i) / f64::from(corners));
            Point::new(centre.x + radius * cosine, centre.y + radius * sine)
        })
        .collect()
}

/// How deep the sides of that polygon lie inside its circle at most: the height of a chord's segment.
pub fn chord_depth(radius: f64, corners: u32) -> f64 {
    radius * (1.0 - libm::cos(PI / f64::from(corners)))
}

/// A star with so many points, its tips and bays on two circles.
///
/// Its area is `tips * outer * inner * sin(pi / tips)`: two triangles for each tip.
pub fn star(centre: Point, outer: f64, inner: f64, tips: u32) -> Vec<Point> {
    (0..2 * tips)
        .map(|i| {
            let (sine, cosine) = libm::sincos(PI * f64::from(i) / f64::from(tips));
            let radius = if i % 2 == 0 { outer } else { inner };
            Point::new(centre.x + radius * cosine, centre.y + radius * sine)
        })
        .collect()
}

/// The outline through points that are known to make one.
pub fn outline(points: &[Point]) -> Outline {
    Outline::new(points.iter().copied()).unwrap_or_else(|error| panic!("{error}: {points:?}"))
}

/// Chance with a seed: the same shapes in every run.
pub struct Chance(Pcg32);

impl Chance {
    /// Chance that starts from this seed.
    pub fn new(seed: u64) -> Chance {
        Chance(Pcg32::seed_from_u64(seed))
    }

    /// A number from `low` up to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * f64::from(self.0.next_u32()) / f64::from(u32::MAX)
    }

    /// A whole number from `low` up to and with `high`.
    pub fn count(&mut self, low: u32, high: u32) -> u32 {
        low + self.0.next_u32() % (high - low + 1)
    }

    /// A soft, lumpy shape of some 10 to 30 mm: a circle whose radius swells and shrinks.
    ///
    /// The radius stays positive and there is one for every direction, so the line never crosses itself.
    pub fn blob(&mut self) -> Vec<Point> {
        let (radius, corners) = (self.between(6.0, 15.0), self.count(40, 160));
        let waves: Vec<(f64, f64, f64)> = (1..=6)
            .map(|k| (f64::from(k), self.between(0.0, 0.8 / f64::from(k + 2)), self.between(0.0, TAU)))
            .collect();
        let most: f64 = waves.iter().map(|wave| wave.1).sum();
        let scale = if most > 0.8 { 0.8 / most } else { 1.0 };
        (0..corners)
            .map(|i| {
                let angle = TAU * f64::from(i) / f64::from(corners);
                let swell: f64 =
                    waves.iter().map(|&(k, high, shift)| high * libm::cos(k * angle + shift)).sum();
                let (sine, cosine) = libm::sincos(angle);
                let length = radius * (1.0 + scale * swell);
                Point::new(length * cosine, length * sine)
            })
            .collect()
    }

    /// A ragged star of 5 to 12 uneven tips.
    pub fn ragged_star(&mut self) -> Vec<Point> {
        let tips = self.count(5, 12);
        let outer = self.between(8.0, 18.0);
        (0..2 * tips)
            .map(|i| {
                let share = if i % 2 == 0 { self.between(0.7, 1.0) } else { self.between(0.25, 0.6) };
                let angle = PI * (f64::from(i) + self.between(-0.3, 0.3)) / f64::from(tips);
                let (sine, cosine) = libm::sincos(angle);
                Point::new(outer * share * cosine, outer * share * sine)
            })
            .collect()
    }

    /// A convex polygon of 3 to 20 corners, all on one ellipse.
    pub fn convex(&mut self) -> Vec<Point> {
        let (wide, high, turn) = (self.between(5.0, 30.0), self.between(5.0, 30.0), self.between(0.0, TAU));
        let corners = self.count(3, 20);
        let (turn_sine, turn_cosine) = libm::sincos(turn);
        (0..corners)
            .map(|i| {
                // Corners keep at least a quarter of an even step apart, so that none falls onto its neighbour.
                let angle = TAU * (f64::from(i) + self.between(0.0, 0.75)) / f64::from(corners);
                let (sine, cosine) = libm::sincos(angle);
                let (x, y) = (wide * cosine, high * sine);
                Point::new(x * turn_cosine - y * turn_sine, x * turn_sine + y * turn_cosine)
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_star_has_the_area_of_its_triangles() {
        let drawn = outline(&star(Point::ZERO, 20.0, 8.0, 5)).area();
        let exact = 5.0 * 20.0 * 8.0 * libm::sin(PI / 5.0);
        // Rounding to the grid moves the line by at most half the grid's diagonal.
        assert!((drawn - exact).abs() < 160.0 * GRID_SHIFT, "{drawn} {exact}");
    }

    #[test]
    fn every_shape_made_at_random_is_an_outline() {
        let mut chance = Chance::new(1);
        for _ in 0..500 {
            for shape in [chance.blob(), chance.ragged_star(), chance.convex()] {
                assert!(outline(&shape).area() > 1.0);
            }
        }
    }
}
