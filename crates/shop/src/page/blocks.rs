//! A layout of equal boxes from blocks within blocks.
//!
//! A rectangle is cut from edge to edge, or into five blocks that turn about the middle one, and each part is filled in
//! the same way. Source: recursive five-block heuristic, R. Morabito and S. Morales, "A simple and effective recursive
//! procedure for the manufacturer's pallet loading problem", Journal of the Operational Research Society 49, 1998. The
//! best counts of all parts stand in one table, so the recursion has no limit on its depth. There are layouts that
//! are not of this kind and hold a box more.

use crate::page::pallet::{Pallet, Placed};
use crate::page::partition::row_lengths;

/// The table is given up if there are more places than this for a cut along one direction.
const MOST_PLACES: usize = 1200;

/// How a part is filled.
#[derive(Clone, Copy, Debug)]
enum Fill {
    /// Nothing fits.
    Empty,
    /// One box, at most.
    Single,
    /// Cut from top to bottom at this place.
    Upright(u16),
    /// Cut from left to right at this place.
    Level(u16),
    /// Five blocks: the middle one from `x0`, `y0` to `x1`, `y1`.
    Five { x0: u16, x1: u16, y0: u16, y1: u16 },
}

/// The best found for every part whose sides are lengths of rows.
struct Table {
    places: Vec<i64>,
    /// `rest[i][j]` is the longest row that fits beside the j-th in the room of the i-th.
    rest: Vec<Vec<u16>>,
    rows: usize,
    counts: Vec<u16>,
    fills: Vec<Fill>,
}

/// A layout of blocks; `enough` boxes are known to be the most, so the whole is done when it holds them.
///
/// As long as there are steps left, parts are cut into five as well, one step for each way to do so.
pub(crate) fn fill(pallet: &Pallet, enough: usize, steps: u64) -> Vec<Placed> {
    let room = pallet.width.max(pallet.height);
    let Some(places) = row_lengths(room, &[pallet.long, pallet.short], MOST_PLACES) else {
        return grid(pallet);
    };
    let last = |room| places.partition_point(|&length| length <= room) - 1;
    let (columns, rows) = (last(pallet.width), last(pallet.height));
    let rest =
        (0..places.len()).map(|i| (0..=i).map(|j| last(places[i] - places[j]) as u16).collect()).collect();
    let size = (columns + 1) * (rows + 1);
    let mut table = Table { rest, rows, counts: vec![0; size], fills: vec![Fill::Empty; size], places };
    table.work_out(pallet, columns, enough, steps);
    let mut boxes = Vec::new();
    table.lay(pallet, (columns, rows), (0, 0), &mut boxes);
    boxes
}

/// All boxes one way round, for problems too large for the table.
pub(crate) fn grid(pallet: &Pallet) -> Vec<Placed> {
    let count = |(width, height): (i64, i64)| (pallet.width / width) * (pallet.height / height);
    let ways = [(pallet.long, pallet.short), (pallet.short, pallet.long)];
    let (width, height) = if count(ways[0]) >= count(ways[1]) { ways[0] } else { ways[1] };
    let columns = 0..pallet.width / width;
    columns
        .flat_map(|i| (0..pallet.height / height).map(move |j| (i, j)))
        .map(|(i, j)| Placed { x: i * width, y: j * height, width, height })
        .collect()
}

impl Table {
    fn at(&self, i: usize, j: usize) -> usize {
        i * (self.rows + 1) + j
    }

    fn count(&self, i: usize, j: usize) -> u16 {
        self.counts[self.at(i, j)]
    }

    fn rest(&self, i: usize, j: usize) -> usize {
        usize::from(self.rest[i][j])
    }

    fn work_out(&mut self, pallet: &Pallet, columns: usize, enough: usize, steps: u64) {
        let single = pallet.long * pallet.short;
        let mut steps_left = steps;
        for i in 0..=columns {
            for j in 0..=self.rows {
                let (width, height) = (self.places[i], self.places[j]);
                let is_whole = i == columns && j == self.rows;
                let most = if is_whole { enough } else { (width * height / single) as usize };
                let fits = width.min(height) >= pallet.short && width.max(height) >= pallet.long;
                let mut best = if fits { (1, Fill::Single) } else { (0, Fill::Empty) };
                self.cut(i, j, &mut best);
                let cost = (i * i * j * j / 4) as u64;
                if usize::from(best.0) < most && cost <= steps_left {
                    steps_left -= self.turn_about(i, j, most, &mut best);
                }
                let at = self.at(i, j);
                (self.counts[at], self.fills[at]) = best;
            }
        }
    }

    fn cut(&self, i: usize, j: usize, best: &mut (u16, Fill)) {
        for x in 1..i {
            let count = self.count(x, j) + self.count(self.rest(i, x), j);
            if count > best.0 {
                *best = (count, Fill::Upright(x as u16));
            }
        }
        for y in 1..j {
            let count = self.count(i, y) + self.count(i, self.rest(j, y));
            if count > best.0 {
                *best = (count, Fill::Level(y as u16));
            }
        }
    }

    /// Tries all five-block plans; the steps that it took come back.
    fn turn_about(&self, i: usize, j: usize, most: usize, best: &mut (u16, Fill)) -> u64 {
        let mut steps = 0;
        for x0 in 1..i {
            for x1 in x0 + 1..i {
                let (right, middle) = (self.rest(i, x1), self.rest(x1, x0));
                let beside = self.rest(i, x0);
                for y0 in 1..j {
                    let fixed = self.count(beside, y0);
                    let upper = self.count(right, self.rest(j, y0));
                    for y1 in y0 + 1..j {
                        steps += 1;
                        let count = fixed
                            + upper
                            + self.count(x0, y1)
                            + self.count(x1, self.rest(j, y1))
                            + self.count(middle, self.rest(y1, y0));
                        if count > best.0 {
                            let [x0, x1, y0, y1] = [x0, x1, y0, y1].map(|place| place as u16);
                            *best = (count, Fill::Five { x0, x1, y0, y1 });
                            if usize::from(count) >= most {
                                return steps;
                            }
                        }
                    }
                }
            }
        }
        steps
    }

    /// Lays the boxes of a part whose corner is at this place.
    fn lay(&self, pallet: &Pallet, (i, j): (usize, usize), (x, y): (i64, i64), boxes: &mut Vec<Placed>) {
        let place = |index: u16| self.places[usize::from(index)];
        match self.fills[self.at(i, j)] {
            Fill::Empty => {}
            Fill::Single => {
                let lies = self.places[i] >= pallet.long && self.places[j] >= pallet.short;
                let (width, height) =
                    if lies { (pallet.long, pallet.short) } else { (pallet.short, pallet.long) };
                boxes.push(Placed { x, y, width, height });
            }
            Fill::Upright(cut) => {
                self.lay(pallet, (cut.into(), j), (x, y), boxes);
                self.lay(pallet, (self.rest(i, cut.into()), j), (x + place(cut), y), boxes);
            }
            Fill::Level(cut) => {
                self.lay(pallet, (i, cut.into()), (x, y), boxes);
                self.lay(pallet, (i, self.rest(j, cut.into())), (x, y + place(cut)), boxes);
            }
            Fill::Five { x0, x1, y0, y1 } => {
                let [c0, c1, r0, r1] = [x0, x1, y0, y1].map(usize::from);
                let parts = [
                    ((c0, r1), (x, y)),
                    ((c1, self.rest(j, r1)), (x, y + place(y1))),
                    ((self.rest(i, c1), self.rest(j, r0)), (x + place(x1), y + place(y0))),
                    ((self.rest(i, c0), r0), (x + place(x0), y)),
                    ((self.rest(c1, c0), self.rest(r1, r0)), (x + place(x0), y + place(y0))),
                ];
                for (size, corner) in parts {
                    self.lay(pallet, size, corner, boxes);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(width: i64, height: i64, long: i64, short: i64, steps: u64) -> usize {
        let pallet = Pallet { width, height, long, short };
        let boxes = fill(&pallet, usize::MAX, steps);
        assert!(pallet.holds_all(&boxes), "{boxes:?}");
        boxes.len()
    }

    #[test]
    fn four_boxes_turn_about_the_middle() {
        // Four of 3 x 2 about one unit, which no cut from edge to edge gives.
        assert_eq!((found(5, 5, 3, 2, 0), found(5, 5, 3, 2, 1000)), (3, 4));
    }

    #[test]
    fn five_blocks_hold_what_is_published_for_them() {
        // The best five-block layout of (49, 28, 8, 3) has 56, one less than there can be. Source: Lins, Lins and Morabito,
        // "An L-approach for packing (l, w)-rectangles into rectangular and L-shaped pieces", Journal of the Operational
        // Research Society 54, 2003 (the figure from memory).
        assert_eq!(found(49, 28, 8, 3, 200_000_000), 56);
        assert_eq!(found(14, 10, 3, 2, 1_000_000), 23);
    }

    #[test]
    fn without_a_table_it_is_a_grid() {
        let pallet = Pallet { width: 10_000, height: 10_000, long: 37, short: 23 };
        assert_eq!(fill(&pallet, usize::MAX, 1_000_000).len(), 270 * 434);
        assert_eq!(grid(&Pallet { width: 10, height: 3, long: 11, short: 2 }), []);
    }
}
