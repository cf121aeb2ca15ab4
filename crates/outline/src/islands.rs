//! The separate drawings of a picture: connected parts of covered pixels.

use crate::mask::Mask;

/// The cover from which a pixel counts as drawn: half of full cover.
///
/// Where a soft edge passes through a pixel, half cover is where the true edge passes through its middle.
pub const HALF_COVER: u8 = 128;

/// How many dropped specks are listed one by one; the rest are counted.
pub const MOST_SPECKS_LISTED: usize = 1000;

/// A rectangle of pixels: from `x0, y0` up to, but without, `x1, y1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PixelBounds {
    /// The leftmost column.
    pub x0: u32,
    /// The topmost row.
    pub y0: u32,
    /// The column after the rightmost.
    pub x1: u32,
    /// The row after the lowest.
    pub y1: u32,
}

impl PixelBounds {
    /// The longer side in pixels.
    pub fn longer_side_px(&self) -> u32 {
        (self.x1 - self.x0).max(self.y1 - self.y0)
    }

    /// The smallest rectangle round both.
    pub fn union(&self, other: &PixelBounds) -> PixelBounds {
        PixelBounds {
            x0: self.x0.min(other.x0),
            y0: self.y0.min(other.y0),
            x1: self.x1.max(other.x1),
            y1: self.y1.max(other.y1),
        }
    }
}

/// One connected part of covered pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Island {
    /// The pixels it lies in.
    pub bounds: PixelBounds,
    /// The leftmost covered pixel of its top row, column and row; it lies on the outer rim.
    pub start: (u32, u32),
    /// How many pixels are covered. Times the area of a pixel this is the island's area without its holes: on a soft
    /// edge as many pixels are counted too much as too little.
    pub covered_px: u64,
}

/// What [`islands`] found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Islands {
    /// The parts large enough, by their `start` from top to bottom, then left to right.
    pub islands: Vec<Island>,
    /// Parts that are too small, in the same order, up to [`MOST_SPECKS_LISTED`] of them.
    pub specks: Vec<Island>,
    /// How many parts are too small.
    pub speck_count: u64,
}

/// The connected parts of pixels whose cover is `threshold` or more; those whose bounds are shorter than `least_size`
/// millimetres on both sides are specks.
///
/// Pixels hang together if they share a side *or a corner*, so that a thin slanting line is one part and not a row of
/// crumbs. [`raw_ring`](crate::raw_ring) joins the same pixels at a corner. A threshold of 0 counts as 1: clear
/// pixels are never drawn.
///
/// Cost: one look at each pixel. Memory: the stretches of two rows and the parts that are still growing, never a label
/// for each pixel.
///
/// Source: joining stretches row by row with disjoint sets, A. Rosenfeld and J. Pfaltz, "Sequential operations in
/// digital picture processing", Journal of the ACM 13 (1966).
pub fn islands(mask: &Mask, threshold: u8, least_size: f64) -> Islands {
    let threshold = threshold.max(1);
    let mut found = Islands::default();
    let mut keep = |island: Island| {
        if f64::from(island.bounds.longer_side_px()) * mask.pixel() >= least_size {
            found.islands.push(island);
        } else {
            found.speck_count += 1;
            if found.specks.len() < MOST_SPECKS_LISTED {
                found.specks.push(island);
            }
        }
    };
    let mut above: Vec<Stretch> = Vec::new();
    let mut growing: Vec<Island> = Vec::new();
    for y in 0..mask.height_px() {
        let mut parts = Parts::of(std::mem::take(&mut growing));
        let mut here = stretches(mask.row(y), threshold);
        let mut first = 0;
        for stretch in &mut here {
            stretch.part = parts.add(stretch, y);
            // Corners count: a stretch above touches from one pixel left of this one to one pixel right of it.
            while above.get(first).is_some_and(|other| other.end < stretch.start) {
                first += 1;
            }
            let touching = above[first..].iter().take_while(|other| other.start <= stretch.end);
            for other in touching {
                parts.join(other.part, stretch.part);
            }
        }
        growing = parts.split_off_finished(&mut here, y, &mut keep);
        above = here;
    }
    growing.into_iter().for_each(&mut keep);
    let order = |island: &Island| (island.start.1, island.start.0);
    found.islands.sort_by_key(order);
    found.specks.sort_by_key(order);
    found
}

/// Neighbouring covered pixels of one row, from `start` up to, but without, `end`.
struct Stretch {
    start: u32,
    end: u32,
    part: usize,
}

fn stretches(row: &[u8], threshold: u8) -> Vec<Stretch> {
    let mut found = Vec::new();
    let mut x = 0;
    while let Some(skip) = row[x..].iter().position(|&cover| cover >= threshold) {
        let start = x + skip;
        let length = row[start..].iter().position(|&cover| cover < threshold).unwrap_or(row.len() - start);
        x = start + length;
        found.push(Stretch { start: start as u32, end: x as u32, part: 0 });
    }
    found
}

/// Parts that are still growing, joined as disjoint sets.
struct Parts {
    parents: Vec<usize>,
    islands: Vec<Island>,
}

impl Parts {
    fn of(islands: Vec<Island>) -> Parts {
        Parts { parents: (0..islands.len()).collect(), islands }
    }

    fn add(&mut self, stretch: &Stretch, y: u32) -> usize {
        let (x0, x1) = (stretch.start, stretch.end);
        self.parents.push(self.parents.len());
        self.islands.push(Island {
            bounds: PixelBounds { x0, y0: y, x1, y1: y + 1 },
            start: (x0, y),
            covered_px: u64::from(x1 - x0),
        });
        self.parents.len() - 1
    }

    fn root(&mut self, mut part: usize) -> usize {
        while self.parents[part] != part {
            self.parents[part] = self.parents[self.parents[part]];
            part = self.parents[part];
        }
        part
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        if a == b {
            return;
        }
        let (kept, gone) = (a.min(b), a.max(b));
        let other = self.islands[gone];
        let island = &mut self.islands[kept];
        island.bounds = island.bounds.union(&other.bounds);
        island.covered_px += other.covered_px;
        if (other.start.1, other.start.0) < (island.start.1, island.start.0) {
            island.start = other.start;
        }
        self.parents[gone] = kept;
    }

    /// Hands over the parts that do not reach row `y`; the others come back, and the row's stretches are told their
    /// new numbers.
    fn split_off_finished(
        mut self,
        row: &mut [Stretch],
        y: u32,
        keep: &mut impl FnMut(Island),
    ) -> Vec<Island> {
        let mut numbers = vec![usize::MAX; self.islands.len()];
        let mut growing = Vec::new();
        for (part, &island) in self.islands.iter().enumerate() {
            if self.parents[part] != part {
                continue;
            }
            if island.bounds.y1 == y + 1 {
                numbers[part] = growing.len();
                growing.push(island);
            } else {
                keep(island);
            }
        }
        for stretch in row {
            stretch.part = numbers[self.root(stretch.part)];
        }
        growing
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A mask of pixels 1 mm wide from a picture in letters: `#` is covered.
    fn picture(rows: &[&str]) -> Mask {
        let cover = rows.concat().bytes().map(|letter| if letter == b'#' { 255 } else { 0 }).collect();
        Mask::new(rows[0].len() as u32, rows.len() as u32, 1.0, cover).unwrap()
    }

    fn counts(rows: &[&str]) -> Vec<u64> {
        islands(&picture(rows), HALF_COVER, 0.0).islands.iter().map(|island| island.covered_px).collect()
    }

    #[test]
    fn parts_that_share_a_side_or_a_corner_are_one() {
        assert_eq!(counts(&["#..", ".#.", "..#"]), [3]);
        assert_eq!(counts(&["..#", ".#.", "#.."]), [3]);
        assert_eq!(counts(&["#.#", "...", "#.#"]), [1, 1, 1, 1]);
    }

    #[test]
    fn arms_that_meet_further_down_are_one() {
        let u = ["#.#.#", "#.#.#", "#.###", "###..", "....."];
        let found = islands(&picture(&u), HALF_COVER, 0.0).islands;
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].bounds, PixelBounds { x0: 0, y0: 0, x1: 5, y1: 4 });
        assert_eq!((found[0].start, found[0].covered_px), ((0, 0), 13));
    }

    #[test]
    fn the_start_is_the_leftmost_of_the_top_row() {
        let found = islands(&picture(&["...#.", "##.#.", ".###."]), HALF_COVER, 0.0).islands;
        assert_eq!(found[0].start, (3, 0));
    }

    #[test]
    fn a_part_inside_the_hole_of_another_is_its_own() {
        assert_eq!(counts(&["#####", "#...#", "#.#.#", "#...#", "#####"]), [16, 1]);
    }

    #[test]
    fn specks_are_left_out_and_told() {
        let found = islands(&picture(&["###..", "###.#", "###..", ".....", "#...."]), HALF_COVER, 2.0);
        assert_eq!(found.islands.len(), 1);
        assert_eq!(found.speck_count, 2);
        assert_eq!(found.specks.iter().map(|speck| speck.start).collect::<Vec<_>>(), [(4, 1), (0, 4)]);
    }

    #[test]
    fn the_threshold_itself_counts_as_covered_and_zero_never_does() {
        let mask = Mask::new(3, 1, 1.0, vec![127, 128, 0]).unwrap();
        assert_eq!(islands(&mask, 128, 0.0).islands[0].covered_px, 1);
        assert_eq!(islands(&mask, 0, 0.0).islands[0].covered_px, 2);
    }
}
