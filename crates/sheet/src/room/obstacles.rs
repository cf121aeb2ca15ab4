//! What a new cut line keeps away from: lines of pieces and zones, discs, and the sheet's edge.

use kurbo::{Point, Vec2};
use stickleaf_outline::{Disc, Outline};

use crate::layout::Layout;
use crate::room::bound::Slope;
use crate::sheet::Sheet;

/// A straight piece of a line, or a single point, and how far a cut line keeps from it, in millimetres.
#[derive(Clone, Copy)]
pub struct Obstacle {
    start: Point,
    along: Vec2,
    /// One over the square of its length; zero for a point.
    per_length2: f64,
    need: f64,
}

impl Obstacle {
    fn edge((start, end): (Point, Point), need: f64) -> Obstacle {
        let along = end - start;
        let length2 = along.hypot2();
        Obstacle { start, along, per_length2: if length2 > 0.0 { 1.0 / length2 } else { 0.0 }, need }
    }

    /// How far a point is from it.
    #[inline]
    pub fn distance(&self, point: Point) -> f64 {
        let way = point - self.start;
        let part = (way.dot(self.along) * self.per_length2).clamp(0.0, 1.0);
        (way - self.along * part).hypot2().sqrt()
    }

    /// The room that it leaves about a point at this distance.
    #[inline]
    pub fn room_at(&self, distance: f64) -> f64 {
        distance - self.need
    }

    /// The room that it leaves about a point.
    #[inline]
    pub fn room(&self, point: Point) -> f64 {
        self.room_at(self.distance(point))
    }

    /// The room at a point on the wrong side of it, inside its piece or zone.
    #[inline]
    pub fn room_inside(&self, point: Point) -> f64 {
        -self.distance(point) - self.need
    }
}

/// Everything that leaves a point no more than so much room.
pub struct Obstacles {
    /// Straight pieces of all lines, then the discs that were added.
    pub list: Vec<Obstacle>,
    /// The lines themselves; inside of them there is no room.
    bodies: Vec<Outline>,
    sheet: Sheet,
    margin: f64,
    spacing: f64,
}

impl Obstacles {
    /// The obstacles of a layout whose placed cut lines are given.
    pub fn new(layout: &Layout, lines: &[Outline]) -> Obstacles {
        let rules = &layout.rules;
        let mut obstacles = Obstacles {
            list: Vec::new(),
            bodies: Vec::new(),
            sheet: layout.sheet,
            margin: rules.margin,
            spacing: rules.spacing,
        };
        for line in lines {
            obstacles.add(line, rules.spacing);
        }
        for zone in layout.zones() {
            obstacles.add(&zone.outline, zone.clearance);
        }
        obstacles
    }

    fn add(&mut self, line: &Outline, need: f64) {
        self.list.extend(line.edges().map(|edge| Obstacle::edge(edge, need)));
        self.bodies.push(line.clone());
    }

    /// Adds a round cut line, to which others keep the spacing.
    pub fn add_disc(&mut self, disc: Disc) {
        self.list.push(Obstacle::edge((disc.centre, disc.centre), disc.radius + self.spacing));
    }

    /// The sheet's width and height in millimetres.
    pub fn size(&self) -> (f64, f64) {
        (self.sheet.width, self.sheet.height)
    }

    /// Whether a point lies inside a piece or a zone.
    pub fn is_covered(&self, point: Point) -> bool {
        self.bodies.iter().any(|body| body.contains(point))
    }

    /// The room that the sheet's edge leaves about a point.
    pub fn room_to_edge(&self, point: Point) -> f64 {
        self.sheet.distance_to_edge(point) - self.margin
    }

    /// The room at a point, looked up among all obstacles; negative where there is none.
    pub fn room(&self, point: Point) -> f64 {
        let nearest = self.list.iter().map(|obstacle| obstacle.room(point));
        let room = nearest.fold(self.room_to_edge(point), f64::min);
        if self.is_covered(point) { room.min(0.0) } else { room }
    }

    /// A straight slope that no point of the sheet has more room than, and that agrees with the room that the edge
    /// leaves at this point.
    ///
    /// The sheet is convex: it lies on one side of every tangent of its edge.
    pub fn slope_of_edge(&self, point: Point) -> Slope {
        let Sheet { width, height, corner_radius: radius, .. } = self.sheet;
        let core = Point::new(
            point.x.clamp(radius, (width - radius).max(radius)),
            point.y.clamp(radius, (height - radius).max(radius)),
        );
        let away = point - core;
        if away.x != 0.0 && away.y != 0.0 {
            let outward = away / away.hypot2().sqrt();
            let room_at_core = radius - self.margin;
            return Slope { outward, at_zero: room_at_core + core.to_vec2().dot(outward) };
        }
        [
            (point.x, Vec2::new(-1.0, 0.0), 0.0),
            (width - point.x, Vec2::new(1.0, 0.0), width),
            (point.y, Vec2::new(0.0, -1.0), 0.0),
            (height - point.y, Vec2::new(0.0, 1.0), height),
        ]
        .into_iter()
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(Slope { outward: Vec2::ZERO, at_zero: 0.0 }, |(_, outward, offset)| Slope {
            outward,
            at_zero: offset - self.margin,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_slope_touches_the_room_of_the_edge_and_is_nowhere_below_it() {
        let sheet = Sheet { width: 60.0, height: 40.0, corner_radius: 12.0, resolution_ppi: 600.0 };
        let layout = Layout { sheet, ..Layout::default() };
        let obstacles = Obstacles::new(&layout, &[]);
        let points: Vec<Point> = (-2..33)
            .flat_map(|x| (-2..23).map(move |y| Point::new(f64::from(x) * 2.0, f64::from(y) * 2.0)))
            .collect();
        for &at in &points {
            let slope = obstacles.slope_of_edge(at);
            assert!((slope.room(at) - obstacles.room_to_edge(at)).abs() < 1e-9, "{at:?}");
            for &other in &points {
                assert!(slope.room(other) >= obstacles.room_to_edge(other) - 1e-9, "{at:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_point_obstacle_is_a_disc_grown_by_the_spacing() {
        let mut obstacles = Obstacles::new(&Layout::default(), &[]);
        obstacles.add_disc(Disc { centre: Point::new(50.0, 60.0), radius: 5.0 });
        assert_eq!(obstacles.room(Point::new(50.0, 80.0)), 13.0);
    }
}
