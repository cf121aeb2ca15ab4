//! Which design stands where: the places of each class shared out so that few pages differ.
//!
//! A page is shared out in proportion to what is missing, and printed as often as that does not give too many of a design.
//! Source of the proportion: V. D'Hondt's rule of the greatest averages, 1882. Each run ends a design or a pattern, so
//! there are no more pages that differ than patterns and designs together.

use super::WantedSheets;
use super::patterns::{Class, Pattern};

/// A pattern, and the design of each of its boxes.
type Shared<'a> = (&'a Pattern, Vec<usize>);

/// The runs, split so that every page has its designs; each with how often it is printed.
pub(crate) fn share_out<'a>(
    runs: &'a [(u64, Pattern)],
    classes: &[Class],
    designs: &[WantedSheets],
) -> Vec<(u64, Shared<'a>)> {
    let mut missing: Vec<u64> = designs.iter().map(|design| design.count).collect();
    let mut spare: Vec<u64> = (0..classes.len())
        .map(|class| {
            let places: u64 = runs.iter().map(|(times, pattern)| times * pattern.counts[class] as u64).sum();
            places.saturating_sub(classes[class].wanted)
        })
        .collect();
    let mut pages = Vec::new();
    for (times, pattern) in runs {
        let mut left = *times;
        while left > 0 {
            let shares: Vec<Vec<(usize, u64)>> = classes
                .iter()
                .zip(&pattern.counts)
                .map(|(class, &places)| shares(&class.designs, places as u64, &missing))
                .collect();
            let beyond = |class: usize, times: u64| -> u64 {
                shares[class]
                    .iter()
                    .map(|&(design, each)| (times * each).saturating_sub(missing[design]))
                    .sum()
            };
            let is_spare = |times: u64| (0..classes.len()).all(|class| beyond(class, times) <= spare[class]);
            // The longest run: it does at `run`, and not at `above`.
            let (mut run, mut above) = (1, left + 1);
            while above - run > 1 {
                let middle = run + (above - run) / 2;
                if is_spare(middle) {
                    run = middle;
                } else {
                    above = middle;
                }
            }
            for (class, spare) in spare.iter_mut().enumerate() {
                *spare = spare.saturating_sub(beyond(class, run));
            }
            for &(design, each) in shares.iter().flatten() {
                missing[design] = missing[design].saturating_sub(run * each);
            }
            pages.push((run, (pattern, designs_of_boxes(pattern, &shares))));
            left -= run;
        }
    }
    pages
}

/// How many of the places each design gets; those that get none are left out.
fn shares(designs: &[usize], places: u64, missing: &[u64]) -> Vec<(usize, u64)> {
    let mut shares: Vec<(usize, u64)> = designs.iter().map(|&design| (design, 0)).collect();
    for _ in 0..places {
        // Missing sheets to a place, compared without division; the first of equals.
        let best = shares.iter_mut().reduce(|best, other| {
            let (ours, theirs) = (missing[best.0] * (other.1 + 1), missing[other.0] * (best.1 + 1));
            if theirs > ours { other } else { best }
        });
        if let Some(best) = best {
            best.1 += 1;
        }
    }
    shares.retain(|(_, count)| *count > 0);
    shares
}

/// The design of each box, equal ones beside each other.
fn designs_of_boxes(pattern: &Pattern, shares: &[Vec<(usize, u64)>]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..pattern.boxes.len()).collect();
    order.sort_by_key(|&index| (pattern.boxes[index].1.y, pattern.boxes[index].1.x));
    let mut given: Vec<_> = shares
        .iter()
        .map(|shares| shares.iter().flat_map(|&(design, each)| (0..each).map(move |_| design)))
        .collect();
    let mut designs = vec![0; pattern.boxes.len()];
    for index in order {
        designs[index] = given[pattern.boxes[index].0].next().unwrap_or(0);
    }
    designs
}
