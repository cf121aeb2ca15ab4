//! How much room is left where: a coarse map of the distances to everything that lies on the sheet.

use kurbo::Point;

use crate::body::Body;
use crate::ground::Ground;
use crate::random::Chance;

/// The room left about the points of a square grid over the sheet: the radius of the largest disc that could lie there
/// and keep its distances. A grid point stands for all points nearer to it than to others.
#[derive(Clone)]
pub struct Room {
    step: f64,
    columns: usize,
    rows: usize,
    values: Vec<f32>,
}

/// The finest step of the grid in millimetres, and the most steps along the sheet.
const FINEST: f64 = 1.0;
const MOST_STEPS: f64 = 256.0;
/// No point is further from its grid point than √½ steps, so the room there is off by no more; the distances themselves
/// are blurred by their own fields, and get some more.
const BLUR: f64 = 0.9;
/// How far round a body the map is kept up to date, in millimetres; no piece needs to know of more room.
const FURTHEST: f64 = 25.0;

impl Room {
    /// The room left by these bodies and the margin.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Room {
        let step = (ground.sheet.width.max(ground.sheet.height) / MOST_STEPS).max(FINEST);
        let columns = (ground.sheet.width / step).ceil() as usize + 1;
        let rows = (ground.sheet.height / step).ceil() as usize + 1;
        let mut values = Vec::with_capacity(columns * rows);
        for row in 0..rows {
            for column in 0..columns {
                let point = Point::new(column as f64 * step, row as f64 * step);
                let inside = ground.sheet.distance_to_edge(point) - ground.margin;
                values.push(inside.min(FURTHEST) as f32);
            }
        }
        let mut room = Room { step, columns, rows, values };
        for body in bodies {
            room.take(ground, body);
        }
        room
    }

    /// Takes away the room that a body and the spacing round it need.
    pub fn take(&mut self, ground: &Ground, body: &Body) {
        let kind = &ground.kinds[body.kind];
        let need = kind.clearance.unwrap_or(ground.spacing);
        let step = self.step;
        let over = body.bounds.inflate(FURTHEST + need, FURTHEST + need);
        let first = |low: f64| (low / step).ceil().max(0.0) as usize;
        let last =
            |high: f64, count: usize| ((high / step).floor().max(-1.0) + 1.0).min(count as f64) as usize;
        for row in first(over.y0)..last(over.y1, self.rows) {
            for column in first(over.x0)..last(over.x1, self.columns) {
                let point = Point::new(column as f64 * step, row as f64 * step);
                let value = &mut self.values[row * self.columns + column];
                let left = kind.shape.field.value(body.to_shape(point)) - need;
                *value = value.min(left as f32);
            }
        }
    }

    /// How many points the map has.
    pub fn size(&self) -> u64 {
        self.values.len() as u64
    }

    /// Whether a disc of this radius about the point surely cannot lie there. False outside the sheet too.
    #[inline]
    pub fn is_too_small(&self, point: Point, radius: f64) -> bool {
        let (x, y) = ((point.x / self.step).round(), (point.y / self.step).round());
        if x < 0.0 || y < 0.0 || x >= self.columns as f64 || y >= self.rows as f64 {
            return false;
        }
        f64::from(self.values[y as usize * self.columns + x as usize]) + BLUR * self.step < radius
    }

    /// The grid points about which a disc of this radius might lie.
    pub fn open_points(&self, radius: f64) -> Vec<Point> {
        let place = |index: usize| {
            Point::new((index % self.columns) as f64 * self.step, (index / self.columns) as f64 * self.step)
        };
        let open = |&index: &usize| f64::from(self.values[index]) + BLUR * self.step >= radius;
        (0..self.values.len()).filter(open).map(place).collect()
    }

    /// A point as near to this grid point as to any other, each as likely.
    pub fn point_near(&self, point: Point, chance: &mut Chance) -> Point {
        let half = self.step / 2.0;
        Point::new(point.x + chance.between(-half, half), point.y + chance.between(-half, half))
    }

    /// Keeps the coordinates that lie, `beyond` added, within a step of the coordinate of an open point.
    pub fn keep_open(&self, coordinates: &mut Vec<f64>, open: impl Iterator<Item = f64>, beyond: f64) {
        let longest = self.columns.max(self.rows);
        let mut is_open = vec![false; longest + 2];
        for coordinate in open {
            let cell = (coordinate / self.step).round() as usize;
            is_open[cell.saturating_sub(1)..=(cell + 1).min(longest)].fill(true);
        }
        coordinates.retain(|&coordinate| {
            let cell = ((coordinate + beyond) / self.step).round();
            cell >= 0.0 && cell <= longest as f64 && is_open[cell as usize]
        });
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    #[test]
    fn room_is_what_margin_and_pieces_leave() {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 60.0, height: 40.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap())],
            ..Layout::default()
        });
        let mut room = Room::new(&ground, &[]);
        assert!(!room.is_too_small(Point::new(20.0, 20.0), 15.9));
        assert!(room.is_too_small(Point::new(20.0, 20.0), 17.0));
        room.take(&ground, &Body::new(&ground, 0, &Placement::at(20.0, 20.0), false));
        // The box ends at 25, so 32 has 7 mm to it and 5 mm left.
        assert!(!room.is_too_small(Point::new(32.0, 20.0), 4.9));
        assert!(room.is_too_small(Point::new(32.0, 20.0), 6.0));
        assert!(room.open_points(12.0).iter().all(|point| point.x > 35.0));
    }
}
