//! A handful of discs inside an outline that stand for it when two pieces lie deep in each other.
//!
//! How deep a point of one line lies inside another line says little then: of two equal pieces on top of each other no
//! point lies inside the other at all. Two discs always know how far, and which way, they must part.

use kurbo::{Point, Vec2};
use stickleaf_outline::Disc;

use crate::body::Body;
use crate::field::Field;

/// No more discs than this are drawn into a shape, none smaller than this share of the first.
const MOST_DISCS: usize = 10;
const SMALLEST_SHARE: f64 = 0.15;

/// Discs inside the line of a field, largest first, none reaching into another. None if the grid has no point inside.
///
/// Each is the largest that the grid of the field finds in what is left.
pub fn inner_discs(field: &Field) -> Vec<Disc> {
    let mut discs: Vec<Disc> = Vec::new();
    // For each grid point inside, the radius of the largest disc about it that reaches into no other.
    let mut open: Vec<(Point, f64)> = field.inner_points().collect();
    while discs.len() < MOST_DISCS {
        let Some(&(centre, radius)) = open.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else { break };
        discs.push(Disc { centre, radius });
        for (point, radius_there) in &mut open {
            *radius_there = radius_there.min((*point - centre).hypot2().sqrt() - radius);
        }
        let smallest = discs[0].radius * SMALLEST_SHARE;
        open.retain(|&(_, radius)| radius >= smallest);
    }
    discs
}

/// By how much the discs of two bodies reach into each other at most: a lower bound of how far the bodies must part.
/// Negative if they are apart.
#[inline]
pub fn disc_depth(a: &Body, b: &Body) -> f64 {
    let mut most = f64::NEG_INFINITY;
    for one in &a.discs {
        for other in &b.discs {
            let reach = one.radius + other.radius;
            let squared = (one.centre - other.centre).hypot2();
            // The root is only taken of pairs that count.
            let left = reach - most;
            if left > 0.0 && squared < left * left {
                most = reach - squared.sqrt();
            }
        }
    }
    most
}

/// The direction in which `a` best leaves `b`: every pair of discs that overlap votes as much as it overlaps.
///
/// Returned with the middle of the overlaps; nothing if no two discs overlap, or if the votes cancel.
pub fn disc_direction(a: &Body, b: &Body) -> Option<(Vec2, Point)> {
    let (mut vote, mut moment, mut total) = (Vec2::ZERO, Vec2::ZERO, 0.0);
    for one in &a.discs {
        for other in &b.discs {
            let reach = one.radius + other.radius;
            let away = one.centre - other.centre;
            let squared = away.hypot2();
            if squared >= reach * reach || squared < 1e-18 {
                continue;
            }
            let length = squared.sqrt();
            let overlap = (reach - length) * one.radius.min(other.radius);
            vote += away * (overlap / length);
            let middle = other.centre + away * (other.radius / reach);
            moment += middle.to_vec2() * overlap;
            total += overlap;
        }
    }
    let length = vote.hypot2().sqrt();
    (length > 1e-3 * total && total > 0.0).then(|| (vote / length, (moment / total).to_point()))
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;
    use stickleaf_outline::path;

    use super::*;

    #[test]
    fn discs_lie_inside_and_apart() {
        let line = path::parse("M0 0H30V6H6V30H0Z").unwrap();
        let field = Field::new(line.points(), Rect::new(-2.0, -2.0, 32.0, 32.0));
        let discs = inner_discs(&field);
        assert!(discs.len() > 5, "{}", discs.len());
        for (i, disc) in discs.iter().enumerate() {
            // The field is a little off where it bends.
            assert!(stickleaf_outline::depth(&line, disc.centre) > disc.radius - 0.1);
            for other in &discs[..i] {
                let apart = (disc.centre - other.centre).hypot2().sqrt();
                assert!(apart > disc.radius + other.radius - 1e-9);
            }
        }
    }
}
