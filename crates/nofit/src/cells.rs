//! A grid that knows for each cell which edges can be nearest to a point of it.

use kurbo::{Point, Rect, Vec2};

use crate::edge::Edge;

/// Square cells over a rectangle.
#[derive(Clone, Debug)]
pub struct Cells {
    origin: Point,
    per_cell: f64,
    columns: u32,
    rows: u32,
    cells: Vec<Cell>,
    nearest: Vec<u16>,
}

/// What a cell knows of its points.
#[derive(Clone, Copy, Debug)]
pub struct About<'a> {
    /// The edges that can be nearest to one of them.
    pub nearest: &'a [u16],
    /// Where they lie.
    pub side: Side,
    /// At least so deep inside all of them lie, in millimetres; negative by how far outside they may lie.
    pub least_depth: f64,
}

#[derive(Clone, Copy, Debug)]
struct Cell {
    first: u32,
    least_depth: f32,
    count: u16,
    side: Side,
}

/// Where the points of a cell lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// All inside.
    Inside,
    /// All outside.
    Outside,
    /// A line goes through.
    Both,
}

/// Cells for each edge, and the least and most cells of a grid.
const CELLS_PER_EDGE: f64 = 24.0;
const FEWEST: f64 = 256.0;
const MOST: f64 = 4096.0;

impl Cells {
    /// The cells over a rectangle; `reach` is the largest distance outside that is asked for.
    pub fn new(edges: &[Edge], over: Rect, reach: f64) -> Cells {
        let count = (edges.len() as f64 * CELLS_PER_EDGE).clamp(FEWEST, MOST);
        let side = (over.area() / count).sqrt().max(over.width().max(over.height()) / 512.0);
        let columns = (over.width() / side).ceil().max(1.0) as u32;
        let rows = (over.height() / side).ceil().max(1.0) as u32;
        let mut grid = Cells {
            origin: over.origin(),
            per_cell: 1.0 / side,
            columns,
            rows,
            cells: Vec::with_capacity((columns * rows) as usize),
            nearest: Vec::new(),
        };
        let radius = side * core::f64::consts::FRAC_1_SQRT_2;
        let mut squared: Vec<f64> = vec![0.0; edges.len()];
        for row in 0..rows {
            for column in 0..columns {
                let middle = over.origin()
                    + Vec2::new((f64::from(column) + 0.5) * side, (f64::from(row) + 0.5) * side);
                grid.add_cell(edges, middle, radius, reach, &mut squared);
            }
        }
        grid
    }

    /// The cell about this middle. A point of it is no further than `radius` from the middle, so the edge nearest to
    /// the point is at most two radii further from the middle than the nearest one is.
    fn add_cell(&mut self, edges: &[Edge], middle: Point, radius: f64, reach: f64, squared: &mut [f64]) {
        let mut least = (f64::INFINITY, 0);
        for (i, edge) in edges.iter().enumerate() {
            squared[i] = edge.squared_distance(middle);
            if squared[i] < least.0 {
                least = (squared[i], i);
            }
        }
        let distance = least.0.sqrt();
        let outside = edges[least.1].is_outside(middle);
        let side = match (distance > radius * (1.0 + 1e-9), outside) {
            (true, true) => Side::Outside,
            (true, false) => Side::Inside,
            _ => Side::Both,
        };
        let first = self.nearest.len() as u32;
        let is_beyond_reach = side == Side::Outside && distance > reach + radius;
        if !is_beyond_reach {
            let limit = distance + 2.0 * radius * (1.0 + 1e-9);
            let near = squared.iter().enumerate().filter(|&(_, &squared)| squared <= limit * limit);
            self.nearest.extend(near.map(|(i, _)| i as u16));
        }
        let depth = if outside { -distance } else { distance };
        // Rounded down, so that it stays a bound.
        let least_depth = (depth - radius) as f32 - 1e-3 * radius as f32;
        self.cells.push(Cell { first, least_depth, count: (self.nearest.len() as u32 - first) as u16, side });
    }

    /// What the cell of a point knows; nothing if the point is further outside than the reach.
    #[inline]
    pub fn about(&self, point: Point) -> Option<About<'_>> {
        let (x, y) = ((point.x - self.origin.x) * self.per_cell, (point.y - self.origin.y) * self.per_cell);
        if !(x >= 0.0 && y >= 0.0) {
            return None;
        }
        let (column, row) = (x as u32, y as u32);
        if column >= self.columns || row >= self.rows {
            return None;
        }
        let cell = &self.cells[(row * self.columns + column) as usize];
        if cell.count == 0 {
            return None;
        }
        let first = cell.first as usize;
        Some(About {
            nearest: &self.nearest[first..first + usize::from(cell.count)],
            side: cell.side,
            least_depth: f64::from(cell.least_depth),
        })
    }
}
