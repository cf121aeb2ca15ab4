//! How much room is left where: a coarse map of the distances to everything that lies on the sheet.

use kurbo::{Point, Vec2};
use stickleaf_outline::Disc;

use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::random::Chance;

/// The room left about the points of a square grid over the sheet: the radius of the largest disc that could lie there
/// and keep its distances. A grid point stands for all points nearer to it than to others.
#[derive(Clone)]
pub struct Room {
    step: f64,
    columns: usize,
    rows: usize,
    values: Vec<f32>,
    /// The radius of the largest disc in any piece: none needs to know of more room.
    furthest: f64,
}

/// The finest step of the grid in millimetres, and the most steps along the sheet.
const FINEST: f64 = 1.0;
const MOST_STEPS: f64 = 1024.0;
/// No point is further from its grid point than √½ steps, so the room there is off by no more; the distances themselves
/// are blurred by their own fields, and get some more.
const BLUR: f64 = 0.9;
impl Room {
    /// The room left by these bodies and the margin.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Room {
        let step = (ground.sheet.width.max(ground.sheet.height) / MOST_STEPS).max(FINEST);
        let columns = (ground.sheet.width / step).ceil() as usize + 1;
        let rows = (ground.sheet.height / step).ceil() as usize + 1;
        let radius = |kind: &Kind| kind.shape.discs.first().map_or(0.0, |disc| disc.radius);
        let furthest = ground.kinds[..ground.stickers].iter().map(radius).fold(0.0, f64::max);
        let mut values = Vec::with_capacity(columns * rows);
        for row in 0..rows {
            for column in 0..columns {
                let point = Point::new(column as f64 * step, row as f64 * step);
                let inside = ground.sheet.distance_to_edge(point) - ground.margin;
                values.push(inside.min(furthest) as f32);
            }
        }
        let mut room = Room { step, columns, rows, values, furthest };
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
        let reach = self.furthest + need + step;
        let over = body.bounds.inflate(reach, reach);
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

    /// How far the points of the map are apart, in millimetres.
    pub fn step(&self) -> f64 {
        self.step
    }

    /// The cell that a coordinate belongs to, across or down.
    #[inline]
    pub fn cell(&self, coordinate: f64) -> f64 {
        (coordinate / self.step).round()
    }

    /// Whether a disc of this radius about a point of the cell surely cannot lie there. False outside the sheet too.
    #[inline]
    pub fn is_cell_too_small(&self, column: f64, row: f64, radius: f64) -> bool {
        if column < 0.0 || row < 0.0 || column >= self.columns as f64 || row >= self.rows as f64 {
            return false;
        }
        f64::from(self.values[row as usize * self.columns + column as usize]) + BLUR * self.step < radius
    }

    /// Whether a disc of this radius about the point surely cannot lie there. False outside the sheet too.
    #[inline]
    pub fn is_too_small(&self, point: Point, radius: f64) -> bool {
        self.is_cell_too_small(self.cell(point.x), self.cell(point.y), radius)
    }

    /// Whether one of these discs, moved so far, surely cannot lie there.
    #[inline]
    pub fn is_too_small_for(&self, discs: &[Disc], by: Vec2) -> bool {
        discs.iter().any(|disc| self.is_too_small(disc.centre + by, disc.radius))
    }

    /// The grid points about which a disc of this radius might lie.
    pub fn open_points(&self, radius: f64) -> OpenPoints<'_> {
        let least = (radius - BLUR * self.step) as f32;
        let rows = self.values.chunks_exact(self.columns);
        let mut until = 0;
        let up_to = rows.map(|row| {
            until += row.iter().map(|&value| u32::from(value >= least)).sum::<u32>();
            until
        });
        OpenPoints { up_to: up_to.collect(), least, room: self }
    }

    /// A point as near to this grid point as to any other, each as likely.
    pub fn point_near(&self, point: Point, chance: &mut Chance) -> Point {
        let half = self.step / 2.0;
        Point::new(point.x + chance.between(-half, half), point.y + chance.between(-half, half))
    }
}

/// The grid points about which a disc might lie, row by row.
pub struct OpenPoints<'a> {
    room: &'a Room,
    /// The value that they have at least.
    least: f32,
    /// For each row, how many there are in it and above it.
    up_to: Vec<u32>,
}

impl OpenPoints<'_> {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.up_to.last().map_or(0, |&count| count as usize)
    }

    /// The one at this position; nothing if there are not so many.
    ///
    /// Cost: a pass along a row.
    pub fn get(&self, position: usize) -> Option<Point> {
        let row = self.up_to.partition_point(|&until| until as usize <= position);
        let before = if row == 0 { 0 } else { self.up_to[row - 1] as usize };
        let Room { step, columns, values, .. } = self.room;
        let values = values.chunks_exact(*columns).nth(row)?;
        let open = (0..*columns).filter(|&column| values[column] >= self.least);
        let column = { open }.nth(position - before)?;
        Some(Point::new(column as f64 * step, row as f64 * step))
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;
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
        assert!(!room.is_too_small(Point::new(20.0, 20.0), 5.0));
        assert!(room.is_too_small(Point::new(7.0, 20.0), 4.0));
        room.take(&ground, &Body::new(&ground, 0, &Placement::at(20.0, 20.0), false));
        // The box ends at 25, so 31 has 6 mm to it and 4 mm left.
        assert!(!room.is_too_small(Point::new(31.0, 20.0), 4.8));
        assert!(room.is_too_small(Point::new(31.0, 20.0), 5.0));
        let taken = Rect::new(11.0, 11.0, 29.0, 29.0);
        let open = room.open_points(5.0);
        let points: Vec<Point> = (0..open.len()).filter_map(|position| open.get(position)).collect();
        assert!(points.len() == open.len() && open.get(open.len()).is_none());
        assert!(!points.is_empty() && !points.iter().any(|&point| taken.contains(point)));
    }
}
