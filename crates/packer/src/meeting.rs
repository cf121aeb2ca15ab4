//! Spots where the box round a piece meets the margin or the boxes of pieces that lie there, one after the other.
//!
//! With many pieces there are very many such spots, most of them where the sheet is full. So they are looked for cell by
//! cell of the [`Room`], in those cells only that are not surely too small, and no further than they are asked for.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::ops::Range;

use kurbo::{Point, Rect, Vec2};

use crate::body::Body;
use crate::build::{Lean, NOISE};
use crate::ground::Ground;
use crate::laid::Laid;
use crate::room::Room;

/// The spots for one piece in one turn, those furthest towards the corner first.
pub struct Meetings<'a> {
    ground: &'a Ground,
    lean: Lean,
    /// The bounds of the piece with its centre at (0, 0).
    bounds: Rect,
    /// Where its centre may come to lie, in ascending order.
    xs: Vec<f64>,
    ys: Vec<f64>,
    /// What is next: spots, and cells that have not been looked into.
    open: BinaryHeap<Next>,
    /// How many spots and cells have been looked at.
    pub looked: u64,
}

/// A spot, or a cell in which spots are: the centres whose positions in the lists these are.
struct Next {
    /// The spot's rank; for a cell, below that of all its spots.
    rank: f64,
    at: Point,
    cell: Option<(Range<usize>, Range<usize>)>,
}

impl<'a> Meetings<'a> {
    /// The spots for a probe that lies at the origin.
    ///
    /// Cost: as many steps as there are pieces, and cells where there is room for it.
    pub fn new(ground: &'a Ground, laid: &Laid, probe: &Body, lean: Lean) -> Meetings<'a> {
        let (xs, ys) = coordinates(ground, laid, probe, lean);
        let mut meetings =
            Meetings { ground, lean, bounds: probe.bounds, xs, ys, open: BinaryHeap::new(), looked: 0 };
        meetings.open_cells(&laid.room, probe);
        meetings
    }

    /// Finds the cells that have spots and room for the probe's largest disc.
    fn open_cells(&mut self, room: &Room, probe: &Body) {
        let (pole, radius) =
            probe.discs.first().map_or((Vec2::ZERO, 0.0), |disc| (disc.centre.to_vec2(), disc.radius));
        let columns = by_cell(&self.xs, |x| room.cell(x + pole.x));
        let rows = by_cell(&self.ys, |y| room.cell(y + pole.y));
        let half = room.step() / 2.0;
        let mut list = Vec::new();
        for (row, ys) in &rows {
            for (column, xs) in &columns {
                if room.is_cell_too_small(*column, *row, radius) {
                    continue;
                }
                let middle = Point::new(column * room.step(), row * room.step()) - pole;
                let rank = self.lean.rank(self.ground, self.bounds + middle.to_vec2());
                // A spot is up to half a step from the middle, each way.
                let rank = rank - Lean::most_change(half, half) - NOISE;
                list.push(Next { rank, at: middle, cell: Some((xs.clone(), ys.clone())) });
            }
        }
        self.looked += (rows.len() * columns.len()) as u64 / 64 + (self.xs.len() + self.ys.len()) as u64;
        self.open = BinaryHeap::from(list);
    }
}

impl Iterator for Meetings<'_> {
    /// The rank of a spot and the spot.
    type Item = (f64, Point);

    fn next(&mut self) -> Option<(f64, Point)> {
        loop {
            let next = self.open.pop()?;
            self.looked += 1;
            let Some((xs, ys)) = next.cell else { return Some((next.rank, next.at)) };
            for &x in &self.xs[xs] {
                for &y in &self.ys[ys.clone()] {
                    let rank = self.lean.rank(self.ground, self.bounds + Vec2::new(x, y));
                    self.open.push(Next { rank, at: Point::new(x, y), cell: None });
                }
            }
        }
    }
}

/// Where the centre may come to lie across and down, each in ascending order.
fn coordinates(ground: &Ground, laid: &Laid, probe: &Body, lean: Lean) -> (Vec<f64>, Vec<f64>) {
    let (inner, bounds) = (ground.inner(), probe.bounds);
    let mut xs = vec![if lean.right { inner.x1 - bounds.x1 } else { inner.x0 - bounds.x0 }];
    let mut ys = vec![if lean.down { inner.y1 - bounds.y1 } else { inner.y0 - bounds.y0 }];
    for other in &laid.bodies {
        let need = ground.need(probe, other);
        xs.push(if lean.right {
            other.bounds.x0 - need - bounds.x1
        } else {
            other.bounds.x1 + need - bounds.x0
        });
        ys.push(if lean.down {
            other.bounds.y0 - need - bounds.y1
        } else {
            other.bounds.y1 + need - bounds.y0
        });
    }
    xs.retain(|x| x + bounds.x0 >= inner.x0 - NOISE && x + bounds.x1 <= inner.x1 + NOISE);
    ys.retain(|y| y + bounds.y0 >= inner.y0 - NOISE && y + bounds.y1 <= inner.y1 + NOISE);
    for list in [&mut xs, &mut ys] {
        list.sort_by(f64::total_cmp);
        list.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    }
    (xs, ys)
}

/// The positions of these ascending coordinates that belong to each cell, cells without any left out.
fn by_cell(coordinates: &[f64], cell: impl Fn(f64) -> f64) -> Vec<(f64, Range<usize>)> {
    let mut cells: Vec<(f64, Range<usize>)> = Vec::new();
    for (index, &coordinate) in coordinates.iter().enumerate() {
        let cell = cell(coordinate);
        match cells.last_mut() {
            Some((last, range)) if *last == cell => range.end = index + 1,
            _ => cells.push((cell, index..index + 1)),
        }
    }
    cells
}

impl Ord for Next {
    /// The greatest comes first out of a heap: that with the least rank, then the one furthest left, then up.
    fn cmp(&self, other: &Next) -> Ordering {
        let key = |a: &Next, b: &Next| {
            a.rank.total_cmp(&b.rank).then(a.at.x.total_cmp(&b.at.x)).then(a.at.y.total_cmp(&b.at.y))
        };
        key(other, self)
    }
}

impl PartialOrd for Next {
    fn partial_cmp(&self, other: &Next) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Next {
    fn eq(&self, other: &Next) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Next {}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    #[test]
    fn spots_are_those_with_room_in_the_order_of_their_ranks() {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 90.0, height: 120.0, ..Sheet::default() },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("l", "L", shapes::l(18.0))],
            ..Layout::default()
        });
        let places = [(15.0, 16.0, 0.0), (36.0, 20.0, 90.0), (61.0, 17.0, 30.0), (20.0, 40.0, 200.0)];
        let bodies = places.map(|(x, y, turn)| Body::new(&ground, 0, &Placement::turned(x, y, turn), false));
        let laid = Laid::new(&ground, &bodies);
        let mut probe = bodies[0].clone();
        probe.lie(&ground, Point::ZERO, 90.0, false);
        let disc = probe.discs[0];
        for (right, down, columns) in [(false, false, false), (true, false, true), (false, true, true)] {
            let lean = Lean { right, down, columns };
            let (xs, ys) = coordinates(&ground, &laid, &probe, lean);
            let mut expected: Vec<(f64, Point)> = Vec::new();
            for at in xs.iter().flat_map(|&x| ys.iter().map(move |&y| Point::new(x, y))) {
                if !laid.room.is_too_small(at + disc.centre.to_vec2(), disc.radius) {
                    expected.push((lean.rank(&ground, probe.bounds + at.to_vec2()), at));
                }
            }
            expected.sort_by(|a, b| a.0.total_cmp(&b.0));
            let found: Vec<(f64, Point)> = Meetings::new(&ground, &laid, &probe, lean).collect();
            assert!(!found.is_empty() && found.len() < xs.len() * ys.len());
            assert_eq!(found, expected);
        }
    }
}
