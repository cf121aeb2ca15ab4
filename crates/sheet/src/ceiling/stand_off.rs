//! How near a point of a piece can come to the edges of the sheet, whichever way the piece is turned.
//!
//! A piece lies inside a convex set, such as the sheet less its margin, exactly if its convex hull does. So a point of it
//! keeps as far from each side of the sheet as the hull reaches in that direction, at the turn where that is least.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Outline, Turn};

use super::hull::{convex_hull, edges};
use crate::sticker::Turns;

/// A turn that is allowed may be missed by a millionth of a degree: less than this at any piece, in millimetres.
const TURN_SLACK: f64 = 0.001;

/// Least distances from a point of a piece to the edges of a convex set that the piece lies in, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandOff {
    /// To the left side.
    pub left: f64,
    /// To the top.
    pub top: f64,
    /// To the right side.
    pub right: f64,
    /// To the bottom.
    pub bottom: f64,
    /// To an edge in any direction.
    pub least: f64,
    /// The longest way from the point to any point of the piece: no distance at all.
    pub reach: f64,
}

impl StandOff {
    /// The distances for a point of a piece with this cut line, however it may lie.
    pub fn new(line: &Outline, point: Point, turns: &Turns, may_flip: bool) -> StandOff {
        let upright = Hull::new(line, point, 1.0);
        let mut stand_off = upright.stand_off(turns);
        if may_flip {
            stand_off = stand_off.nearer(&Hull::new(line, point, -1.0).stand_off(turns));
        }
        stand_off
    }

    /// The smaller of each distance, and the longer reach.
    pub fn nearer(&self, other: &StandOff) -> StandOff {
        StandOff {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.min(other.right),
            bottom: self.bottom.min(other.bottom),
            least: self.least.min(other.least),
            reach: self.reach.max(other.reach),
        }
    }
}

/// The corners of the hull as seen from the point.
struct Hull(Vec<Vec2>);

impl Hull {
    fn new(line: &Outline, point: Point, flip: f64) -> Hull {
        let from_point = line.points().iter().map(|corner| {
            let way = *corner - point;
            Point::new(way.x * flip, way.y)
        });
        Hull(convex_hull(from_point).into_iter().map(Point::to_vec2).collect())
    }

    fn stand_off(&self, turns: &Turns) -> StandOff {
        // A piece turned by an angle reaches left as far as the piece itself reaches in the direction left, turned back.
        let towards = |direction: Vec2| (self.least_reach(direction, turns) - TURN_SLACK).max(0.0);
        let reach = self.0.iter().map(|way| way.hypot2()).fold(0.0, f64::max).sqrt();
        StandOff {
            left: towards(Vec2::new(-1.0, 0.0)),
            top: towards(Vec2::new(0.0, -1.0)),
            right: towards(Vec2::new(1.0, 0.0)),
            bottom: towards(Vec2::new(0.0, 1.0)),
            least: (self.nearest_side() - TURN_SLACK).max(0.0),
            reach: reach + TURN_SLACK,
        }
    }

    fn least_reach(&self, direction: Vec2, turns: &Turns) -> f64 {
        let at = |degrees: f64| self.reach(turned(direction, -degrees));
        match turns {
            Turns::None => self.reach(direction),
            Turns::Only(list) if list.is_empty() => self.reach(direction),
            Turns::Only(list) => list.iter().map(|&degrees| at(degrees)).fold(f64::INFINITY, f64::min),
            Turns::Any => self.nearest_side(),
            Turns::Within(degrees) if *degrees >= 90.0 => self.nearest_side(),
            Turns::Within(degrees) => {
                // Between two normals of the hull the reach is that of one corner, a cosine, least at the ends.
                let limit = libm::cos(degrees * (PI / 180.0)) - 1e-9;
                let normals = self.sides().filter(|(normal, _)| normal.dot(direction) >= limit);
                let ends = at(*degrees).min(at(-degrees));
                normals.map(|(_, distance)| distance).fold(ends, f64::min)
            }
        }
    }

    /// How far the hull reaches in a direction of length one.
    fn reach(&self, direction: Vec2) -> f64 {
        self.0.iter().map(|way| way.dot(direction)).fold(f64::NEG_INFINITY, f64::max)
    }

    fn nearest_side(&self) -> f64 {
        self.sides().map(|(_, distance)| distance).fold(f64::INFINITY, f64::min)
    }

    /// The outward normals of the hull's sides, of length one, and how far each side is from the point.
    fn sides(&self) -> impl Iterator<Item = (Vec2, f64)> {
        let corners: Vec<Point> = self.0.iter().map(|way| way.to_point()).collect();
        let sides: Vec<(Vec2, f64)> = edges(&corners)
            .map(|(start, end)| {
                let along = end - start;
                let normal = Vec2::new(along.y, -along.x) / along.hypot2().sqrt();
                (normal, start.to_vec2().dot(normal))
            })
            .collect();
        sides.into_iter()
    }
}

fn turned(way: Vec2, degrees: f64) -> Vec2 {
    let (sine, cosine) = Turn::degrees(degrees).sine_cosine();
    Vec2::new(way.x * cosine - way.y * sine, way.x * sine + way.y * cosine)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path, shapes};

    use super::*;

    fn near(found: f64, wanted: f64) {
        assert!((found - wanted).abs() < 0.003, "{found} is not {wanted}");
    }

    #[test]
    fn an_upright_box_keeps_its_own_sides() {
        let line = path::parse("M0 0H30V20H0Z").unwrap();
        let stand_off = StandOff::new(&line, Point::new(10.0, 5.0), &Turns::None, false);
        near(stand_off.left, 10.0);
        near(stand_off.top, 5.0);
        near(stand_off.right, 20.0);
        near(stand_off.bottom, 15.0);
        near(stand_off.least, 5.0);
        near(stand_off.reach, 25.0);
        let flipped = StandOff::new(&line, Point::new(10.0, 5.0), &Turns::None, true);
        near(flipped.right, 10.0);
        let quarter = Turns::Only(vec![90.0]);
        // A quarter turn clockwise brings the bottom to the left.
        near(StandOff::new(&line, Point::new(10.0, 5.0), &quarter, false).left, 15.0);
    }

    #[test]
    fn distances_are_the_least_of_all_turns() {
        let line = shapes::blob(5, 20.0);
        let point = Point::new(2.0, -1.0);
        for turns in [Turns::Any, Turns::Within(35.0), Turns::Only(vec![10.0, 200.0])] {
            let found = StandOff::new(&line, point, &turns, true);
            let mut least = f64::INFINITY;
            for step in 0..3600 {
                for mirrored in [false, true] {
                    let turn = Turn::degrees(f64::from(step) / 10.0);
                    let placement = Placement { at: Point::ZERO, turn, mirrored };
                    if turns.allow(turn) {
                        let left = placement.apply(point).x - line.placed(&placement).bounds().x0;
                        assert!(left >= found.left, "{turns:?}");
                        least = least.min(left);
                    }
                }
            }
            assert!(least < found.left + 0.02, "{least} {found:?}");
        }
    }
}
