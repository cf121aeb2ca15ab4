//! The convolution of two closed lines: closed lines that wind round each point of their Minkowski sum at least once,
//! and round no other point.
//!
//! Walk along both lines at once, always in the direction that both share: an edge of one is carried along while the
//! other stands at a corner through which that direction passes. At a corner that turns the other way the walk goes
//! backwards. How often the walk winds round a point is the number of parts that the one shape has in common with the
//! other, turned by half a turn and put there; so wherever they meet, and nowhere else, it is more than nothing.
//!
//! Source: L. Guibas, L. Ramshaw, J. Stolfi, "A kinetic framework for computational geometry", FOCS 1983.

use kurbo::Point;

/// A whole number of the finest units in each direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    pub x: i64,
    pub y: i64,
}

impl Step {
    fn cross(self, other: Step) -> i64 {
        self.x * other.y - self.y * other.x
    }
}

/// How many units make a millimetre: the same ten nanometres in which regions are computed.
pub const UNITS_PER_MM: f64 = 100_000.0;

/// The ring on the grid of units, corners that fall together joined.
pub fn on_units(ring: &[Point]) -> Vec<Step> {
    let unit = |mm: f64| (mm * UNITS_PER_MM).round() as i64;
    let mut steps: Vec<Step> = ring.iter().map(|point| Step { x: unit(point.x), y: unit(point.y) }).collect();
    steps.dedup();
    while steps.len() > 1 && steps.first() == steps.last() {
        steps.pop();
    }
    steps
}

/// How near to the line between its neighbours a corner may lie and be no corner, in millimetres.
const STRAIGHT: f64 = 3e-9;

/// The ring without corners at which it goes straight on, or stands still.
pub fn without_straight_corners(ring: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = ring.to_vec();
    loop {
        let count = kept.len();
        let is_corner = |i: usize| {
            let (before, after) = (kept[(i + count - 1) % count], kept[(i + 1) % count]);
            let (to, on) = (kept[i] - before, after - kept[i]);
            let height = to.cross(on).abs();
            height > STRAIGHT * (after - before).hypot2().sqrt() && to.hypot2() > STRAIGHT * STRAIGHT
        };
        // One at a time: with its neighbour gone a corner may be one again.
        match (0..count).find(|&i| count > 2 && !is_corner(i)) {
            Some(i) => drop(kept.remove(i)),
            None => return kept,
        }
    }
}

fn on_plane(step: Step) -> Point {
    Point::new(step.x as f64 / UNITS_PER_MM, step.y as f64 / UNITS_PER_MM)
}

/// The convolution of two rings with a positive area each (see [`stickleaf_outline::ring_area`]), in millimetres.
///
/// Coordinates must stay below ten metres. Cost: the product of the numbers of corners.
pub fn convolution(a: &[Step], b: &[Step]) -> Vec<Vec<Point>> {
    let (n, m) = (a.len(), b.len());
    let edges = |ring: &[Step]| -> Vec<Step> {
        let after = |i: usize| ring[(i + 1) % ring.len()];
        ring.iter().enumerate().map(|(i, at)| Step { x: after(i).x - at.x, y: after(i).y - at.y }).collect()
    };
    let (along_a, along_b) = (edges(a), edges(b));
    let before = |i: usize, count: usize| (i + count - 1) % count;
    let state = |i: usize, j: usize| (i % n) * m + j % m;
    let mut moves: Vec<(usize, usize)> = Vec::new();
    // Where two edges point the same way, the one of `a` goes first: as if `a` were turned back by next to nothing.
    for j in 0..m {
        let (from, to) = (along_b[before(j, m)], along_b[j]);
        let turns_back = from.cross(to) < 0;
        let (low, high) = if turns_back { (to, from) } else { (from, to) };
        for (i, edge) in along_a.iter().enumerate() {
            if low.cross(*edge) > 0 && edge.cross(high) >= 0 {
                let (start, end) = (state(i, j), state(i + 1, j));
                moves.push(if turns_back { (end, start) } else { (start, end) });
            }
        }
    }
    for i in 0..n {
        let (from, to) = (along_a[before(i, n)], along_a[i]);
        let turns_back = from.cross(to) < 0;
        let (low, high) = if turns_back { (to, from) } else { (from, to) };
        for (j, edge) in along_b.iter().enumerate() {
            if low.cross(*edge) >= 0 && edge.cross(high) > 0 {
                let (start, end) = (state(i, j), state(i, j + 1));
                moves.push(if turns_back { (end, start) } else { (start, end) });
            }
        }
    }
    let place = |state: usize| {
        let (at, by) = (a[state / m], b[state % m]);
        on_plane(Step { x: at.x + by.x, y: at.y + by.y })
    };
    closed_walks(moves, n * m).into_iter().map(|walk| walk.into_iter().map(place).collect()).collect()
}

/// Joins moves from state to state into closed walks. As many moves leave each state as come to it.
fn closed_walks(mut moves: Vec<(usize, usize)>, states: usize) -> Vec<Vec<usize>> {
    moves.sort_unstable();
    let mut next: Vec<usize> = vec![0; states + 1];
    for &(start, _) in &moves {
        next[start + 1] += 1;
    }
    for state in 0..states {
        next[state + 1] += next[state];
    }
    let end_of: Vec<usize> = next[1..].to_vec();
    let mut walks = Vec::new();
    for first in 0..states {
        while next[first] < end_of[first] {
            let mut walk = vec![first];
            let mut at = first;
            while next[at] < end_of[at] {
                let (_, to) = moves[next[at]];
                next[at] += 1;
                at = to;
                if at == first && next[at] == end_of[at] {
                    break;
                }
                walk.push(at);
            }
            debug_assert_eq!(at, first, "a convolution closes");
            walks.push(walk);
        }
    }
    walks
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::ring_area;

    use super::*;

    fn ring(corners: &[(f64, f64)]) -> Vec<Step> {
        on_units(&corners.iter().map(|&corner| Point::from(corner)).collect::<Vec<_>>())
    }

    #[test]
    fn two_squares_make_a_square_of_both_sides_together() {
        let square = |side: f64| ring(&[(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]);
        let sum = convolution(&square(2.0), &square(3.0));
        assert_eq!(sum.len(), 1);
        assert!((ring_area(&sum[0]) - 25.0).abs() < 1e-9);
    }

    #[test]
    fn the_area_wound_round_is_that_of_both_and_their_mixed_area() {
        // A triangle and a square: |A + B| = |A| + |B| + 2 V(A, B); V by the square's support function.
        let triangle = ring(&[(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)]);
        let square = ring(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
        let total: f64 = convolution(&triangle, &square).iter().map(|walk| ring_area(walk)).sum();
        // 2 V = width + height of the triangle's box for a unit square: 4 + 3.
        assert!((total - (6.0 + 1.0 + 7.0)).abs() < 1e-9, "{total}");
    }
}
