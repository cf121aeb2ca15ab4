//! The most equal boxes in a rectangle, both ways round: the pallet loading problem.
//!
//! The rectangle is first replaced by a smaller one in whole numbers that holds the very same layouts
//! ([`Pallet::reduced`]). A recursive five-block plan gives a layout (`blocks.rs`), proved bounds say what
//! none can exceed (`bound.rs`), and where the two disagree a search of all layouts decides
//! (`skyline.rs`) as far as its number of steps goes.

use crate::page::partition::Rows;
use crate::page::skyline::{Answer, Kind, Question};
use crate::page::{blocks, bound, skyline};

/// A rectangle to fill with equal boxes. Whole numbers of any unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pallet {
    pub width: i64,
    pub height: i64,
    /// The longer side of a box; both are positive.
    pub long: i64,
    /// The shorter side of a box.
    pub short: i64,
}

/// A box that lies in the rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Placed {
    pub x: i64,
    pub y: i64,
    pub width: i64,
    pub height: i64,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Filled {
    pub boxes: Vec<Placed>,
    /// No layout holds more; proved. Equal to the number of boxes unless the search was given up.
    pub most: usize,
}

/// How much work an answer may cost, in steps, so that the same question has the same answer everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Effort {
    /// Of the five-block plan: sums looked at.
    pub block_steps: u64,
    /// Of each search: layouts looked at.
    pub search_steps: u64,
}

impl Effort {
    /// At most a second or two in a release build, measured on the published problems of the tests.
    pub(crate) const USUAL: Effort = Effort { block_steps: 200_000_000, search_steps: 1_500_000 };
    /// For a question that is one of many.
    pub(crate) const SMALL: Effort = Effort { block_steps: 2_000_000, search_steps: 100_000 };
}

/// Where more boxes than this may fit, they are laid in one grid.
const MOST_SEARCHED: i64 = 2000;

/// Whole numbers that may stand for the sides of a box.
const LARGEST_SIDE: i64 = 96;

impl Pallet {
    /// The problem with sides that are turned so that the longer comes first.
    pub(crate) fn new(width: i64, height: i64, side: i64, other: i64) -> Pallet {
        Pallet { width, height, long: side.max(other), short: side.min(other) }
    }

    /// The rows along the width and along the height.
    pub(crate) fn rows(&self) -> [Rows; 2] {
        [self.width, self.height].map(|room| Rows::of(room, self.long, self.short))
    }

    /// The same problem, in the whole numbers that leave the least area for waste.
    ///
    /// Its rows hold the same partitions, so each of its layouts is one of this problem too, and the other way round.
    pub(crate) fn reduced(&self) -> Pallet {
        let rows = self.rows();
        let trimmed = |long, short| {
            let [width, height] = rows.each_ref().map(|rows| rows.longest(long, short));
            Pallet { width, height, long, short }
        };
        let pairs = (1..=LARGEST_SIDE).flat_map(|long| (1..=long).map(move |short| (long, short)));
        let mut least: Option<Pallet> = None;
        // The sides as they are come last: among equals, small numbers are quicker to search with.
        for (long, short) in pairs.chain([(self.long, self.short)]) {
            let other = trimmed(long, short);
            if least.is_none_or(|least| other.slack_is_below(&least)) && other.rows() == rows {
                least = Some(other);
            }
        }
        least.unwrap_or(*self)
    }

    fn area_in_boxes(&self) -> i64 {
        self.width * self.height / (self.long * self.short)
    }

    /// Whether so many boxes fit, as a question to the search.
    fn question(&self, wanted: usize) -> Question {
        let kind = Kind { width: self.long, height: self.short, wanted };
        Question { width: self.width, height: self.height, kinds: vec![kind] }
    }

    /// Whether the rectangle's area, measured in boxes, is below the other's.
    fn slack_is_below(&self, other: &Pallet) -> bool {
        let area = |p: &Pallet| i128::from(p.width) * i128::from(p.height);
        let single = |p: &Pallet| i128::from(p.long) * i128::from(p.short);
        area(self) * single(other) < area(other) * single(self)
    }
}

/// The most boxes, where they lie, and the proved bound.
pub(crate) fn fill(pallet: &Pallet, effort: &Effort) -> Filled {
    if pallet.area_in_boxes() > MOST_SEARCHED {
        return Filled { boxes: blocks::grid(pallet), most: bound::most(pallet) };
    }
    let reduced = pallet.reduced();
    let mut most = bound::most(&reduced);
    let mut boxes = laid_in_blocks(&reduced, most, effort);
    let mut target = most;
    while boxes.len() < target {
        match skyline::place(&reduced.question(target), effort.search_steps) {
            Answer::Placed(found) => boxes = found.into_iter().map(|(_, placed)| placed).collect(),
            Answer::Impossible if target == most => most -= 1,
            Answer::Impossible | Answer::OutOfSteps => {}
        }
        target -= 1;
    }
    Filled { boxes: restored(&boxes, &reduced, pallet), most }
}

/// Whether the rectangle holds so many boxes; nothing if the search was given up.
pub(crate) fn holds(pallet: &Pallet, count: usize, effort: &Effort) -> Option<bool> {
    if bound::most(pallet) < count {
        return Some(false);
    }
    if blocks::grid(pallet).len() >= count {
        return Some(true);
    }
    let reduced = pallet.reduced();
    if bound::most(&reduced) < count {
        return Some(false);
    }
    if laid_in_blocks(&reduced, count, effort).len() >= count {
        return Some(true);
    }
    match skyline::place(&reduced.question(count), effort.search_steps) {
        Answer::Placed(_) => Some(true),
        Answer::Impossible => Some(false),
        Answer::OutOfSteps => None,
    }
}

/// A layout of blocks that holds so many boxes if there is an easy one, else the best that was found.
fn laid_in_blocks(reduced: &Pallet, enough: usize, effort: &Effort) -> Vec<Placed> {
    let easy = blocks::fill(reduced, enough, 0);
    if easy.len() >= enough { easy } else { blocks::fill(reduced, enough, effort.block_steps) }
}

/// The layout of the reduced problem with the true sides, every box pushed towards the corner.
///
/// Boxes beside each other stay beside each other. What lies in one row fits, since the rows hold the same partitions.
fn restored(boxes: &[Placed], reduced: &Pallet, pallet: &Pallet) -> Vec<Placed> {
    let true_side = |side| if side == reduced.long { pallet.long } else { pallet.short };
    let sizes: Vec<(i64, i64)> = boxes
        .iter()
        .map(|placed| match placed.width == placed.height {
            // Sides that differ by too little to matter stand for each other: then the first way round will do.
            true => (pallet.long, pallet.short),
            false => (true_side(placed.width), true_side(placed.height)),
        })
        .collect();
    let along = |start: fn(&Placed) -> i64, side: fn(&Placed) -> i64, size: fn(&(i64, i64)) -> i64| {
        let mut order: Vec<usize> = (0..boxes.len()).collect();
        order.sort_by_key(|&index| start(&boxes[index]));
        let mut places = vec![0; boxes.len()];
        for &index in &order {
            let before = order
                .iter()
                .filter(|&&other| start(&boxes[other]) + side(&boxes[other]) <= start(&boxes[index]));
            places[index] = before.map(|&other| places[other] + size(&sizes[other])).max().unwrap_or(0);
        }
        places
    };
    let xs = along(|placed| placed.x, |placed| placed.width, |size| size.0);
    let ys = along(|placed| placed.y, |placed| placed.height, |size| size.1);
    (0..boxes.len())
        .map(|index| Placed { x: xs[index], y: ys[index], width: sizes[index].0, height: sizes[index].1 })
        .collect()
}

#[cfg(test)]
impl Pallet {
    /// Whether these are boxes of this problem, within the rectangle, none over another.
    pub(crate) fn holds_all(&self, boxes: &[Placed]) -> bool {
        let is_ours = |b: &Placed| {
            let sides = (b.width.max(b.height), b.width.min(b.height));
            sides == (self.long, self.short)
        };
        let is_inside =
            |b: &Placed| b.x >= 0 && b.y >= 0 && b.x + b.width <= self.width && b.y + b.height <= self.height;
        let are_apart = |a: &Placed, b: &Placed| {
            a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y
        };
        boxes.iter().all(|b| is_ours(b) && is_inside(b))
            && boxes.iter().enumerate().all(|(i, a)| boxes[..i].iter().all(|b| are_apart(a, b)))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn the_reduced_problem_has_small_numbers_and_the_same_rows() {
        let a4 = Pallet::new(297_000, 210_000, 90_000, 55_000);
        let reduced = a4.reduced();
        assert!(reduced.long <= LARGEST_SIDE && reduced.rows() == a4.rows(), "{reduced:?}");
        // Sides that are the same to every row become equal.
        assert_eq!(Pallet::new(250, 150, 101, 100).reduced().long, 1);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

        #[test]
        fn layouts_are_whole_and_keep_to_the_bound(
            width in 10..90_i64, height in 10..90_i64, long in 5..30_i64, short in 3..30_i64,
        ) {
            let pallet = Pallet::new(width, height, long, short);
            let filled = fill(&pallet, &Effort::SMALL);
            prop_assert!(pallet.holds_all(&filled.boxes), "{filled:?}");
            prop_assert!(filled.boxes.len() <= filled.most);
            prop_assert!(holds(&pallet, filled.boxes.len(), &Effort::SMALL) == Some(true));
            prop_assert!(holds(&pallet, filled.most + 1, &Effort::SMALL) == Some(false));
        }

        #[test]
        fn a_tiling_is_found_whole(columns in 1..7_i64, rows in 1..7_i64, long in 2..30_i64, short in 2..30_i64) {
            let pallet = Pallet::new(columns * long, rows * short, long, short);
            let filled = fill(&pallet, &Effort::SMALL);
            prop_assert_eq!((filled.boxes.len(), filled.most), ((columns * rows) as usize, (columns * rows) as usize));
        }
    }
}
