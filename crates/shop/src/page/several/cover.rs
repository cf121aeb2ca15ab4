//! How often each pattern is printed, so that there is enough of each class on the fewest pages.
//!
//! The whole part of the linear program's optimum is taken as it is, and the little that is left over is searched for.
//! When few pages are needed in all, everything is searched for, so that a count of pages can also be ruled out.

use std::collections::HashSet;

use super::patterns::{Class, Pattern, Patterns, greedy};
use super::prices::{Prices, prices};

/// As many steps go into one search.
const STEPS: u64 = 200_000;
/// With no more pages than this all plans are gone through.
const FEW_PAGES: u64 = 24;

/// Patterns, each with how often it is printed, and the least number of pages that there must be.
pub(crate) fn cover(
    room: (i64, i64),
    patterns: &Patterns,
    classes: &[Class],
    wanted: &[u64],
) -> (Vec<(u64, Pattern)>, u64) {
    if classes.is_empty() {
        return (Vec::new(), 0);
    }
    let least = least_pages(room, patterns, classes, wanted);
    let mut proven_least = least;
    let counts: Vec<&[usize]> = patterns.found.iter().map(|pattern| &pattern.counts[..]).collect();
    let simple = one_after_the_other(room, patterns, classes, wanted);
    let Some(prices) = prices(&counts, wanted) else { return (simple, least) };
    let most: u64 = simple.iter().map(|(times, _)| times).sum();
    let is_all = patterns
        .limits
        .as_ref()
        .is_some_and(|limits| limits.iter().all(|limit| counts.contains(&&limit[..])));
    for pages in least..most {
        let mut search = Search {
            counts: &counts,
            prices: &prices,
            failed: HashSet::new(),
            steps_left: STEPS,
            chosen: Vec::new(),
        };
        let whole: Vec<u64> = prices.times.iter().map(|&times| (times / prices.page) as u64).collect();
        if search.rest_of(&whole, wanted, pages)
            || (pages <= FEW_PAGES && search.rest_of(&vec![0; whole.len()], wanted, pages))
        {
            let times = |index| whole_of(&search.chosen, index);
            let runs =
                patterns.found.iter().enumerate().map(|(index, pattern)| (times(index), pattern.clone()));
            return (runs.filter(|(times, _)| *times > 0).collect(), proven_least);
        }
        if is_all && pages == proven_least && pages <= FEW_PAGES && search.steps_left > 0 {
            proven_least += 1;
        }
    }
    (simple, proven_least)
}

fn whole_of(chosen: &[(usize, u64)], index: usize) -> u64 {
    chosen.iter().filter(|(pattern, _)| *pattern == index).map(|(_, times)| times).sum()
}

/// The greatest of the proved bounds.
fn least_pages(room: (i64, i64), patterns: &Patterns, classes: &[Class], wanted: &[u64]) -> u64 {
    let area: u128 =
        classes.iter().map(|class| (class.sides.0 * class.sides.1) as u128 * u128::from(class.wanted)).sum();
    let by_area = u64::try_from(area.div_ceil((room.0 * room.1).unsigned_abs().into())).unwrap_or(u64::MAX);
    let by_prices = patterns.limits.as_ref().and_then(|limits| {
        let limits: Vec<&[usize]> = limits.iter().map(|limit| &limit[..]).collect();
        prices(&limits, wanted).map(|prices| prices.least_pages(wanted))
    });
    let alone =
        patterns.most_alone.iter().zip(wanted).map(|(&most, &wanted)| wanted.div_ceil(most.max(1) as u64));
    by_area.max(by_prices.unwrap_or(0)).max(alone.max().unwrap_or(0))
}

/// A plan that always works: the best page for what is missing, as often as it is of use, and so on.
fn one_after_the_other(
    room: (i64, i64),
    patterns: &Patterns,
    classes: &[Class],
    wanted: &[u64],
) -> Vec<(u64, Pattern)> {
    let mut missing = wanted.to_vec();
    let mut runs = Vec::new();
    while missing.iter().any(|&count| count > 0) {
        let used = |pattern: &Pattern| -> i128 {
            let each = classes.iter().zip(&pattern.counts).zip(&missing);
            each.map(|((class, &count), &missing)| {
                i128::from(class.sides.0 * class.sides.1) * i128::from(missing.min(count as u64))
            })
            .sum()
        };
        let known = patterns.found.iter().max_by_key(|pattern| used(pattern)).cloned();
        let pattern = match (known, &patterns.limits) {
            (Some(known), Some(_)) => known,
            (known, _) => {
                let filled = greedy(room, classes, &missing);
                known.filter(|known| used(known) > used(&filled)).unwrap_or(filled)
            }
        };
        let whole = pattern.counts.iter().zip(&missing).filter(|(count, _)| **count > 0);
        let times = whole.map(|(&count, &missing)| missing / count as u64).min().unwrap_or(1).max(1);
        for (missing, &count) in missing.iter_mut().zip(&pattern.counts) {
            *missing = missing.saturating_sub(times * count as u64);
        }
        runs.push((times, pattern));
    }
    runs
}

struct Search<'a> {
    counts: &'a [&'a [usize]],
    prices: &'a Prices,
    /// What was missing in vain, and on how many pages.
    failed: HashSet<(Vec<u64>, u64)>,
    steps_left: u64,
    /// Patterns, and how often each.
    chosen: Vec<(usize, u64)>,
}

impl Search<'_> {
    /// Whether so many pages do, some of which are settled.
    fn rest_of(&mut self, settled: &[u64], wanted: &[u64], pages: u64) -> bool {
        self.chosen = settled.iter().copied().enumerate().filter(|(_, times)| *times > 0).collect();
        let used: u64 = settled.iter().sum();
        let Some(left) = pages.checked_sub(used) else { return false };
        let printed = |class: usize| -> u64 {
            self.chosen.iter().map(|&(pattern, times)| times * self.counts[pattern][class] as u64).sum()
        };
        let missing = (0..wanted.len()).map(|class| wanted[class].saturating_sub(printed(class))).collect();
        self.go_on(missing, left)
    }

    fn go_on(&mut self, missing: Vec<u64>, pages: u64) -> bool {
        let worth = self.prices.worth(&missing);
        if missing.iter().all(|&count| count == 0) {
            return true;
        }
        let key = (missing, pages);
        if worth > u128::from(pages) * self.prices.page.unsigned_abs()
            || self.failed.contains(&key)
            || self.steps_left == 0
        {
            return false;
        }
        self.steps_left -= 1;
        let (missing, _) = &key;
        let dear = |class: &usize| self.prices.of[*class].unsigned_abs() * u128::from(missing[*class]);
        let Some(class) = (0..missing.len()).filter(|&class| missing[class] > 0).max_by_key(dear) else {
            return true;
        };
        let of_use = |pattern: &usize| {
            let each: Vec<u64> = missing
                .iter()
                .zip(self.counts[*pattern])
                .map(|(&missing, &count)| missing.min(count as u64))
                .collect();
            std::cmp::Reverse((self.prices.worth(&each), each.iter().sum::<u64>()))
        };
        let mut order: Vec<usize> =
            (0..self.counts.len()).filter(|&pattern| self.counts[pattern][class] > 0).collect();
        order.sort_by_key(of_use);
        for pattern in order {
            let after =
                missing.iter().zip(self.counts[pattern]).map(|(&m, &count)| m.saturating_sub(count as u64));
            self.chosen.push((pattern, 1));
            if self.go_on(after.collect(), pages - 1) {
                return true;
            }
            self.chosen.pop();
        }
        self.failed.insert(key);
        false
    }
}
