//! Which turns are worth trying.

use kurbo::Point;
use stickleaf_sheet::Turns;

use crate::ground::Kind;
use crate::random::Chance;
use crate::shape::Shape;

/// A few allowed turns in degrees in which the shape takes up little room: upright, and with the box round it smallest.
pub fn restful_turns(shape: &Shape, turns: &Turns) -> Vec<f64> {
    let quarters = |first: f64| (0..4).map(move |quarter| (first + 90.0 * f64::from(quarter)) % 360.0);
    let mut list: Vec<f64> = match turns {
        Turns::None => vec![0.0],
        Turns::Only(list) if list.is_empty() => vec![0.0],
        Turns::Only(list) => list.clone(),
        Turns::Any | Turns::Within(_) if shape.is_round => vec![0.0],
        Turns::Any => quarters(0.0).chain(quarters(smallest_box_turn(&shape.samples))).collect(),
        Turns::Within(degrees) => vec![0.0, *degrees, -degrees, degrees / 2.0, -degrees / 2.0],
    };
    let mut seen: Vec<f64> = Vec::new();
    list.retain(|turn| {
        let fresh = !seen.contains(turn);
        seen.push(*turn);
        fresh
    });
    list
}

/// An allowed turn in degrees, any as likely as another.
pub fn random_turn(kind: &Kind, chance: &mut Chance) -> f64 {
    match &kind.turns {
        Turns::None => 0.0,
        Turns::Any | Turns::Within(_) if kind.shape.is_round => 0.0,
        Turns::Any => chance.between(0.0, 360.0),
        Turns::Within(degrees) => chance.between(-degrees, *degrees),
        Turns::Only(list) if list.is_empty() => 0.0,
        Turns::Only(list) => list[chance.below(list.len())],
    }
}

/// The turn in degrees, 0 to 90, that makes the upright box round the points smallest; to a thousandth of a degree.
///
/// One side of the smallest box lies along an edge between two of the points (H. Freeman, R. Shapira, "Determining the
/// minimum-area encasing rectangle for an arbitrary closed curve", Communications of the ACM 18, 1975), so the edges of
/// the ring and their neighbours' are tried; for a ring with bays this may miss the very smallest.
fn smallest_box_turn(points: &[Point]) -> f64 {
    let mut best = (f64::INFINITY, 0.0);
    for (i, &point) in points.iter().enumerate() {
        for ahead in [1, 2] {
            let along = points[(i + ahead) % points.len()] - point;
            let edge = libm::atan2(along.y, along.x).to_degrees();
            let turn = ((-edge).rem_euclid(90.0) * 1000.0).round() / 1000.0;
            let area = box_area(points, turn);
            // A clear gain only, so that equal boxes do not make rounding decide.
            if area < best.0 * (1.0 - 1e-9) {
                best = (area, turn);
            }
        }
    }
    best.1
}

fn box_area(points: &[Point], degrees: f64) -> f64 {
    let (sine, cosine) = stickleaf_outline::Turn::degrees(degrees).sine_cosine();
    let mut range = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    for point in points {
        let (x, y) = (point.x * cosine - point.y * sine, point.x * sine + point.y * cosine);
        range = [range[0].min(x), range[1].min(y), range[2].max(x), range[3].max(y)];
    }
    (range[2] - range[0]) * (range[3] - range[1])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use stickleaf_outline::{Placement, path};

    use super::*;

    #[test]
    fn a_slanted_box_is_turned_upright() {
        let slanted = path::parse("M-10 -3H10V3H-10Z").unwrap().placed(&Placement::turned(0.0, 0.0, 30.0));
        let shape = Shape::new(Arc::new(slanted), 2.0, None);
        let turn = smallest_box_turn(&shape.samples);
        assert!((turn - 60.0).abs() < 0.002, "{turn}");
        assert_eq!(restful_turns(&shape, &Turns::Any).len(), 8);
        assert_eq!(restful_turns(&shape, &Turns::Within(10.0)).len(), 5);
    }

    #[test]
    fn a_disc_needs_one_turn_only() {
        let disc = path::parse("M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z").unwrap();
        assert_eq!(restful_turns(&Shape::new(Arc::new(disc), 2.0, None), &Turns::Any), [0.0]);
    }
}
