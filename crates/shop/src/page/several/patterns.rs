//! Which counts of sheets of several sizes one page holds.
//!
//! A count is a number of sheets for each class. What lies below a count that fits, fits; what lies above one that does
//! not, does not. So only few counts on the border between the two have to be searched for.

use crate::page::pallet::{self, Effort, Pallet, Placed};
use crate::page::skyline::{self, Answer, Kind, Question};

/// Designs whose sheets have one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Class {
    /// The longer and the shorter side, larger by the gap.
    pub sides: (i64, i64),
    pub designs: Vec<usize>,
    /// How many sheets of all of them.
    pub wanted: u64,
}

/// Sheets that lie on a page together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Pattern {
    /// How many of each class.
    pub counts: Vec<usize>,
    /// Where they lie, each with its class.
    pub boxes: Vec<(usize, Placed)>,
}

/// What is known of all patterns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Patterns {
    /// Each class alone, and all others to which no sheet can be added, as far as they were found.
    pub found: Vec<Pattern>,
    /// Every count that fits is at or below one of these; nothing if that would be too much work.
    pub limits: Option<Vec<Vec<usize>>>,
    /// No page holds more of each class alone, nor more than are wanted.
    pub most_alone: Vec<usize>,
}

/// As many counts of all classes but the last are gone through.
const MOST_COUNTS: usize = 3000;
/// As many steps go into all searches together, and into each.
const STEPS: u64 = 1_500_000;
const STEPS_EACH: u64 = 20_000;

/// The patterns of a page with this room, of no more sheets than are wanted.
pub(crate) fn patterns(room: (i64, i64), classes: &[Class]) -> Patterns {
    let mut border = Border::new(room, classes);
    let counts = border.most_alone.iter().rev().skip(1);
    let work = counts.fold(1_usize, |product, &most| product.saturating_mul(most + 1));
    let mut limits = None;
    if work <= MOST_COUNTS && !classes.is_empty() {
        let mut found = Vec::new();
        border.walk(&mut vec![0; classes.len()], 0, &mut found);
        limits = Some(highest(found));
    }
    let is_topped = |pattern: &Pattern| {
        border
            .fitting
            .iter()
            .any(|other| other.counts != pattern.counts && is_at_most(&pattern.counts, &other.counts))
    };
    let found = border.fitting.iter().filter(|pattern| !is_topped(pattern)).cloned().collect();
    Patterns { found, limits, most_alone: border.most_alone }
}

/// A page filled with what is missing, one class after the other, the largest sheets first.
pub(crate) fn greedy(room: (i64, i64), classes: &[Class], missing: &[u64]) -> Pattern {
    let wanted: Vec<Class> =
        classes.iter().zip(missing).map(|(class, &wanted)| Class { wanted, ..class.clone() }).collect();
    let mut border = Border::new(room, &wanted);
    let mut order: Vec<usize> = (0..classes.len()).collect();
    order.sort_by_key(|&class| std::cmp::Reverse(classes[class].sides.0 * classes[class].sides.1));
    let mut counts = vec![0; classes.len()];
    for class in order {
        // As many as go, by halving: more never fit where fewer do not, as far as the search can tell.
        let (mut fits, mut fails) = (0, border.most_alone[class] + 1);
        while fails - fits > 1 {
            counts[class] = (fits + fails) / 2;
            match border.holds(&counts) {
                Some(true) => fits = counts[class],
                _ => fails = counts[class],
            }
        }
        counts[class] = fits;
    }
    let is_it = |pattern: &&Pattern| pattern.counts == counts;
    let none = Pattern { counts: counts.clone(), boxes: Vec::new() };
    border.fitting.iter().find(is_it).cloned().unwrap_or(none)
}

/// Whether no count is above the other's.
pub(crate) fn is_at_most(some: &[usize], others: &[usize]) -> bool {
    some.iter().zip(others).all(|(some, other)| some <= other)
}

/// Those that are at or below no other.
fn highest(mut counts: Vec<Vec<usize>>) -> Vec<Vec<usize>> {
    counts.sort_unstable();
    counts.dedup();
    let is_topped =
        |count: &Vec<usize>| counts.iter().any(|other| other != count && is_at_most(count, other));
    counts.iter().filter(|count| !is_topped(count)).cloned().collect()
}

/// What is known of the border between counts that fit and counts that do not.
struct Border<'a> {
    room: (i64, i64),
    classes: &'a [Class],
    most_alone: Vec<usize>,
    fitting: Vec<Pattern>,
    too_many: Vec<Vec<usize>>,
    steps_left: u64,
}

impl<'a> Border<'a> {
    /// Begins with each class alone.
    fn new(room: (i64, i64), classes: &'a [Class]) -> Border<'a> {
        let mut border = Border {
            room,
            classes,
            most_alone: Vec::new(),
            fitting: Vec::new(),
            too_many: Vec::new(),
            steps_left: STEPS,
        };
        for (number, class) in classes.iter().enumerate() {
            let wanted = usize::try_from(class.wanted).unwrap_or(usize::MAX);
            let filled =
                pallet::fill(&Pallet::new(room.0, room.1, class.sides.0, class.sides.1), &Effort::USUAL);
            let alone = |count: usize| {
                let mut counts = vec![0; classes.len()];
                counts[number] = count;
                counts
            };
            for count in 1..=filled.boxes.len().min(wanted) {
                let boxes = filled.boxes[..count].iter().map(|&placed| (number, placed)).collect();
                border.fitting.push(Pattern { counts: alone(count), boxes });
            }
            border.too_many.push(alone(filled.most + 1));
            border.most_alone.push(filled.most.min(wanted));
        }
        border
    }

    /// Whether a page holds so many of each class; nothing if the search was given up.
    fn holds(&mut self, counts: &[usize]) -> Option<bool> {
        if counts.iter().all(|&count| count == 0) || self.fitting.iter().any(|known| known.counts == counts) {
            return Some(true);
        }
        if self.too_many.iter().any(|known| is_at_most(known, counts)) {
            return Some(false);
        }
        let kinds = self.classes.iter().zip(counts).map(|(class, &wanted)| Kind {
            width: class.sides.0,
            height: class.sides.1,
            wanted,
        });
        let question = Question { width: self.room.0, height: self.room.1, kinds: kinds.collect() };
        let steps = self.steps_left.min(STEPS_EACH);
        let (answer, used) = skyline::place_counted(&question, steps);
        self.steps_left -= used;
        match answer {
            Answer::Placed(boxes) => {
                self.fitting.push(Pattern { counts: counts.to_vec(), boxes });
                Some(true)
            }
            Answer::Impossible => {
                self.too_many.push(counts.to_vec());
                Some(false)
            }
            Answer::OutOfSteps => None,
        }
    }

    /// Goes through all counts from this class on, and lists the highest that may fit.
    fn walk(&mut self, counts: &mut Vec<usize>, class: usize, limits: &mut Vec<Vec<usize>>) {
        let is_last = class + 1 == counts.len();
        for count in (0..=self.most_alone[class]).rev() {
            counts[class] = count;
            if !is_last {
                self.walk(counts, class + 1, limits);
                continue;
            }
            let is_below_known = limits.iter().any(|known| is_at_most(counts, known));
            let answer = self.holds(counts);
            if answer != Some(false) && !is_below_known {
                limits.push(counts.clone());
            }
            if answer == Some(true) {
                break;
            }
        }
        counts[class] = 0;
    }
}
