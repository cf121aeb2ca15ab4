//! How far points lie outside a closed line, looked up in a grid instead of worked out.
//!
//! A rough guide for the search only: near a smooth stretch it is off by some hundredths of a step, near a sharp corner
//! by up to a fifth of a step. What is shown has been checked without it.

use kurbo::{Point, Rect, Vec2};

/// Signed distances to a closed line on a square grid: positive outside, negative inside, in millimetres.
pub struct Field {
    origin: Point,
    step: f64,
    per_step: f64,
    columns: usize,
    rows: usize,
    values: Vec<f32>,
}

/// The number of grid points along the longer side.
const POINTS_ALONG: f64 = 96.0;
/// The finest step in millimetres.
const FINEST: f64 = 0.12;

impl Field {
    /// The field of a closed ring over this rectangle.
    ///
    /// Cost: grid points times edges, about a millisecond for fifty edges.
    pub fn new(ring: &[Point], over: Rect) -> Field {
        let step = (over.width().max(over.height()) / POINTS_ALONG).max(FINEST);
        let columns = (over.width() / step).ceil().max(1.0) as usize + 1;
        let rows = (over.height() / step).ceil().max(1.0) as usize + 1;
        let origin = over.origin();
        let edges: Vec<Edge> =
            (0..ring.len()).map(|i| Edge::new(ring[i], ring[(i + 1) % ring.len()])).collect();
        let mut values = Vec::with_capacity(columns * rows);
        let mut crossings: Vec<f64> = Vec::new();
        for row in 0..rows {
            let y = origin.y + step * row as f64;
            crossings.clear();
            crossings.extend(edges.iter().filter_map(|edge| edge.crossing(y)));
            for column in 0..columns {
                let point = Point::new(origin.x + step * column as f64, y);
                // A comparison, not `f64::min`, for which wasm has no instruction and makes a call.
                let nearer = |least: f64, squared: f64| if squared < least { squared } else { least };
                let squared = edges.iter().map(|edge| edge.squared(point)).fold(f64::INFINITY, nearer);
                let inside = crossings.iter().filter(|&&x| x > point.x).count() % 2 == 1;
                let distance = squared.sqrt();
                values.push(if inside { -distance } else { distance } as f32);
            }
        }
        Field { origin, step, per_step: 1.0 / step, columns, rows, values }
    }

    /// How far a value may be off within the grid, in millimetres.
    ///
    /// A distance changes by no more than the way moved, and no point is further than √½ steps from a grid point; the
    /// ring itself may have been drawn within some hundredths.
    pub fn doubt(&self) -> f64 {
        0.71 * self.step + 0.06
    }

    /// How far the point lies outside; negative inside. Beyond the grid it is too large rather than too small.
    #[inline]
    pub fn value(&self, point: Point) -> f64 {
        let cell = self.cell(point);
        let [a, b, c, d] = cell.corners;
        let top = a + (b - a) * cell.x;
        let bottom = c + (d - c) * cell.x;
        let inside_grid = top + (bottom - top) * cell.y;
        if cell.beyond == 0.0 { inside_grid } else { inside_grid + cell.beyond.sqrt() * self.step }
    }

    /// The direction in which the distance grows, of length one; zero where it grows nowhere.
    pub fn outward(&self, point: Point) -> Vec2 {
        let cell = self.cell(point);
        let [a, b, c, d] = cell.corners;
        let slope = Vec2::new((b - a) + ((d - c) - (b - a)) * cell.y, (c - a) + ((d - b) - (c - a)) * cell.x);
        let length = slope.hypot2().sqrt();
        if length > 1e-12 { slope / length } else { Vec2::ZERO }
    }

    /// The grid points inside the line, each with how deep it lies.
    pub fn inner_points(&self) -> impl Iterator<Item = (Point, f64)> + '_ {
        let place = |index: usize| {
            let (row, column) = (index / self.columns, index % self.columns);
            Point::new(self.origin.x + self.step * column as f64, self.origin.y + self.step * row as f64)
        };
        let inside = |&(_, &value): &(usize, &f32)| value < 0.0;
        self.values
            .iter()
            .enumerate()
            .filter(inside)
            .map(move |(index, &value)| (place(index), -f64::from(value)))
    }

    #[inline]
    fn cell(&self, point: Point) -> Cell {
        let x = (point.x - self.origin.x) * self.per_step;
        let y = (point.y - self.origin.y) * self.per_step;
        let (inner_x, inner_y) =
            (x.clamp(0.0, (self.columns - 1) as f64), y.clamp(0.0, (self.rows - 1) as f64));
        let column = (inner_x as usize).min(self.columns - 2);
        let row = (inner_y as usize).min(self.rows - 2);
        let (beyond_x, beyond_y) = (x - inner_x, y - inner_y);
        let first = row * self.columns + column;
        let (upper, lower) = (&self.values[first..first + 2], &self.values[first + self.columns..][..2]);
        Cell {
            corners: [upper[0], upper[1], lower[0], lower[1]].map(f64::from),
            x: inner_x - column as f64,
            y: inner_y - row as f64,
            beyond: beyond_x * beyond_x + beyond_y * beyond_y,
        }
    }
}

/// The four grid points round a point, and where it lies between them.
struct Cell {
    corners: [f64; 4],
    x: f64,
    y: f64,
    beyond: f64,
}

struct Edge {
    start: Point,
    end: Point,
    along: Vec2,
    per_length2: f64,
}

impl Edge {
    fn new(start: Point, end: Point) -> Edge {
        let along = end - start;
        let length2 = along.hypot2();
        Edge { start, end, along, per_length2: if length2 > 0.0 { 1.0 / length2 } else { 0.0 } }
    }

    fn squared(&self, point: Point) -> f64 {
        let away = point - self.start;
        let t = (away.dot(self.along) * self.per_length2).clamp(0.0, 1.0);
        (away - self.along * t).hypot2()
    }

    /// Where the edge crosses the line at this height, counting its upper end and not its lower.
    fn crossing(&self, y: f64) -> Option<f64> {
        let crosses = (self.start.y > y) != (self.end.y > y);
        crosses.then(|| self.start.x + (y - self.start.y) * self.along.x / self.along.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn box_field() -> Field {
        let ring = [(-5.0, -3.0), (5.0, -3.0), (5.0, 3.0), (-5.0, 3.0)].map(Point::from);
        Field::new(&ring, Rect::new(-9.0, -7.0, 9.0, 7.0))
    }

    #[test]
    fn distances_of_a_box_are_those_of_pythagoras() {
        let field = box_field();
        assert!((field.value(Point::new(7.0, 0.5)) - 2.0).abs() < 1e-6);
        assert!((field.value(Point::new(0.3, 1.0)) + 2.0).abs() < 1e-6);
        // Off the corner the field bends: within step² / (8 · distance) of the true 2.5.
        assert!((field.value(Point::new(6.5, 5.0)) - 2.5).abs() < 0.01);
        // Beyond the grid, exact straight ahead.
        assert!((field.value(Point::new(12.0, 0.0)) - 7.0).abs() < 1e-5);
    }

    #[test]
    fn outward_points_away_from_the_nearest_side() {
        let field = box_field();
        assert!((field.outward(Point::new(7.0, 0.5)) - Vec2::new(1.0, 0.0)).hypot2() < 1e-9);
        assert!((field.outward(Point::new(0.3, -2.0)) - Vec2::new(0.0, -1.0)).hypot2() < 1e-9);
    }
}
