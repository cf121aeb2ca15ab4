//! How much room there can be anywhere in a square, at most.
//!
//! An obstacle leaves a point the distance to it less what is needed; the distance to a point or to a straight line is a
//! convex function, and the slopes of the sheet's edge are straight. Nowhere is there more room than any of them leaves,
//! so nowhere more than any weighted mean of them. That mean is convex too, hence largest at a corner of the square.
//! With the best weights this is sharp where it matters: between two parallel lines their mean is the same everywhere,
//! and about a point with three obstacles round it the mean rises with the square of the distance only.

use kurbo::{Point, Vec2};

/// A straight fall of room: `at_zero` at the sheet's (0, 0), less by one for each millimetre in the direction `outward`.
#[derive(Clone, Copy, Debug)]
pub struct Slope {
    /// The direction in which it falls, of length one.
    pub outward: Vec2,
    /// Its value at (0, 0).
    pub at_zero: f64,
}

impl Slope {
    /// Its value at a point.
    pub fn room(&self, point: Point) -> f64 {
        self.at_zero - point.to_vec2().dot(self.outward)
    }
}

/// What one obstacle leaves at the four corners of a square.
pub type AtCorners = [f64; 4];

/// The least that the largest corner of a weighted mean of these can be; infinite for an empty list.
///
/// It is the value of a small game for two: one chooses weights, the other a corner. One, two or three obstacles get
/// weights such that as many corners become equal; four are never needed, since the plane has two directions. Whatever
/// the weights, the bound holds: a poor choice only makes it higher.
pub fn least_corner(rows: &[AtCorners]) -> f64 {
    let mut best = rows.iter().map(largest).fold(f64::INFINITY, f64::min);
    for (i, a) in rows.iter().enumerate() {
        for (j, b) in rows.iter().enumerate().skip(i + 1) {
            for [c, d] in [[0, 1], [0, 2], [0, 3], [1, 2], [1, 3], [2, 3]] {
                let share = (b[d] - b[c]) / (a[c] - b[c] - a[d] + b[d]);
                if share > 0.0 && share < 1.0 {
                    best = best.min(largest(&mean([(share, a), (1.0 - share, b), (0.0, b)])));
                }
            }
            for third in &rows[j + 1..] {
                for corners in [[0, 1, 2], [0, 1, 3], [0, 2, 3], [1, 2, 3]] {
                    if let Some([x, y, z]) = level_weights([a, b, third], corners) {
                        best = best.min(largest(&mean([(x, a), (y, b), (z, third)])));
                    }
                }
            }
        }
    }
    best
}

/// The weights with which three rows are the same at three corners; nothing if one would be negative.
fn level_weights([a, b, third]: [&AtCorners; 3], [c, d, e]: [usize; 3]) -> Option<[f64; 3]> {
    // With weights x and y of the first two, and the rest for the third: equal at c and d, and equal at c and e.
    let difference = |row: &AtCorners, other: usize| row[c] - row[other] - (third[c] - third[other]);
    let (ad, bd, rest_d) = (difference(a, d), difference(b, d), third[d] - third[c]);
    let (ae, be, rest_e) = (difference(a, e), difference(b, e), third[e] - third[c]);
    let determinant = ad * be - bd * ae;
    let x = (rest_d * be - bd * rest_e) / determinant;
    let y = (ad * rest_e - rest_d * ae) / determinant;
    // What is no number is refused as well.
    (x >= 0.0 && y >= 0.0 && x + y <= 1.0).then_some([x, y, 1.0 - x - y])
}

fn mean(rows: [(f64, &AtCorners); 3]) -> AtCorners {
    core::array::from_fn(|corner| rows.iter().map(|(weight, row)| weight * row[corner]).sum())
}

fn largest(row: &AtCorners) -> f64 {
    row.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn corners(middle: Point, half: f64) -> [Point; 4] {
        [(-half, -half), (half, -half), (-half, half), (half, half)].map(|(x, y)| middle + Vec2::new(x, y))
    }

    fn bound(middle: Point, half: f64, functions: &[&dyn Fn(Point) -> f64]) -> f64 {
        let rows: Vec<AtCorners> =
            functions.iter().map(|function| corners(middle, half).map(function)).collect();
        least_corner(&rows)
    }

    #[test]
    fn between_parallel_lines_the_bound_is_exact_at_any_size() {
        let (top, bottom) = (|p: Point| p.y, |p: Point| 11.0 - p.y);
        for half in [5.0, 1.0, 0.4] {
            assert!((bound(Point::new(30.0, 5.2), half, &[&top, &bottom]) - 5.5).abs() < 1e-12);
        }
        // Slanting lines too.
        let (one, other) = (|p: Point| 0.6 * p.x + 0.8 * p.y, |p: Point| 8.0 - 0.6 * p.x - 0.8 * p.y);
        assert!((bound(Point::new(2.0, 3.5), 2.0, &[&one, &other]) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn among_three_points_the_bound_comes_near_with_the_square_of_the_size() {
        let apart = |x: f64, y: f64| move |p: Point| (p - Point::new(x, y)).hypot2().sqrt();
        // Three points on a circle of radius 5 about (0, 0).
        let (a, b, c) = (apart(5.0, 0.0), apart(-3.0, 4.0), apart(-3.0, -4.0));
        for half in [0.4, 0.1, 0.025] {
            let found = bound(Point::new(0.3 * half, -0.2 * half), half, &[&a, &b, &c]);
            assert!(found >= 5.0 - 1e-12 && found <= 5.0 + half * half, "{found} for {half}");
        }
    }

    #[test]
    fn the_bound_is_never_below_the_room_anywhere_in_the_square() {
        let apart = |x: f64, y: f64| move |p: Point| (p - Point::new(x, y)).hypot2().sqrt();
        for step in 0..500u32 {
            // Places spread by multiples of irrational numbers.
            let place = |k: f64| ((f64::from(step) * k).fract() - 0.5) * 8.0;
            let (a, b) =
                (apart(place(0.618_034), place(0.414_214)), apart(place(0.732_051), place(0.236_068)));
            let (c, d) =
                (apart(place(0.645_751), place(0.316_625)), apart(place(0.872_983), place(0.549_834)));
            let found = bound(Point::ZERO, 1.0, &[&a, &b, &c, &d]);
            for x in -5..=5 {
                for y in -5..=5 {
                    let p = Point::new(f64::from(x) / 5.0, f64::from(y) / 5.0);
                    let room = a(p).min(b(p)).min(c(p)).min(d(p));
                    assert!(found >= room - 1e-12, "{found} < {room} at {p:?} in step {step}");
                }
            }
        }
    }
}
