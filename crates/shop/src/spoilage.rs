//! How many pages to allow for spoilt ones, from how many were spoilt before.

use serde::Serialize;

use crate::history::History;

/// What runs that were looked through say about spoilt pages.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Spoilage {
    /// In how many runs spoilt pages were counted.
    pub runs: usize,
    /// How many pages were printed in them.
    pub pages: u64,
    /// How many of those were spoilt.
    pub spoilt: u64,
    /// How many were allowed for in the plans, as a percentage of the pages planned.
    pub allowed_percent: f64,
    /// How many were spoilt, of a hundred.
    pub percent: f64,
    /// From where to where the share lies in about four of five cases, in per cent.
    pub range: (f64, f64),
    /// What to allow next, in whole per cent: no less than the upper end of the range, so that it is enough in about nine of
    /// ten cases. At most 50.
    pub next_percent: f64,
}

/// The normal distribution stays below this in nine of ten cases, and between it and its negative in four of five.
const NINE_OF_TEN: f64 = 1.281_551_565_544_6;

/// No more is ever allowed for; whoever spoils more looks for the reason first.
const MOST_PERCENT: f64 = 50.0;

/// What the runs say whose spoilt pages were counted; nothing if there are none.
///
/// The range is E. B. Wilson's score interval (Journal of the American Statistical Association 22, 1927). It takes pages
/// to be spoilt one by one; where a whole stack goes wrong at once it is surer of itself than it should be.
pub fn spoilage(history: &History) -> Option<Spoilage> {
    let counted = || history.runs.iter().filter_map(|run| Some((run, run.spoilt_pages?)));
    // A good page more is printed for each spoilt one, whatever was planned.
    let printed = |(run, spoilt): (&crate::history::RunRecord, u64)| match run.good_pages {
        0 => run.pages.max(spoilt),
        good => good.saturating_add(spoilt),
    };
    let pages: u64 = counted().map(printed).fold(0, u64::saturating_add);
    if pages == 0 {
        return None;
    }
    let spoilt: u64 = counted().map(|(_, spoilt)| spoilt).fold(0, u64::saturating_add);
    let planned: u64 = counted().map(|(run, _)| run.pages).sum();
    let allowed: u64 = counted().map(|(run, _)| run.pages.saturating_sub(run.good_pages)).sum();
    let range = wilson(spoilt as f64, pages as f64);
    Some(Spoilage {
        runs: counted().count(),
        pages,
        spoilt,
        allowed_percent: 100.0 * allowed as f64 / planned.max(1) as f64,
        percent: 100.0 * spoilt as f64 / pages as f64,
        range: (100.0 * range.0, 100.0 * range.1),
        next_percent: (100.0 * range.1 - 1e-9).ceil().clamp(0.0, MOST_PERCENT),
    })
}

/// From where to where the share of `hits` among `all` lies.
fn wilson(hits: f64, all: f64) -> (f64, f64) {
    let share = hits / all;
    let z2 = NINE_OF_TEN * NINE_OF_TEN;
    let middle = share + z2 / (2.0 * all);
    let half = NINE_OF_TEN * libm::sqrt(share * (1.0 - share) / all + z2 / (4.0 * all * all));
    let scale = 1.0 + z2 / all;
    (((middle - half) / scale).max(0.0), ((middle + half) / scale).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::RunRecord;

    fn history(runs: &[(u64, u64, Option<u64>)]) -> History {
        let run = |&(good_pages, pages, spoilt_pages): &(u64, u64, Option<u64>)| RunRecord {
            good_pages,
            pages,
            spoilt_pages,
            ..RunRecord::default()
        };
        History { runs: runs.iter().map(run).collect(), ..History::default() }
    }

    /// Worked by hand, step by step.
    #[test]
    fn the_next_allowance_follows_from_what_was_spoilt() {
        let found = spoilage(&history(&[(150, 158, Some(10)), (40, 43, None), (38, 40, Some(2))])).unwrap();
        // 150 + 10 and 38 + 2 pages were printed, and 12 of these 200 spoilt: 6 %. 8 + 2 of 198 were allowed for: 5.05 %.
        assert_eq!((found.runs, found.pages, found.spoilt), (2, 200, 12));
        assert!((found.percent - 6.0).abs() < 1e-9 && (found.allowed_percent - 5.0505).abs() < 1e-3);
        // z² is 1.64237; the middle 0.06 + 1.64237 / 400 = 0.0641059; half 1.28155 x sqrt(0.0564 / 200 + 1.64237 / 160000)
        // = 1.28155 x sqrt(0.000282 + 0.0000102648) = 0.0219090; both over 1.00821: from 4.186 % to 8.532 %.
        assert!((found.range.0 - 4.186).abs() < 0.002 && (found.range.1 - 8.532).abs() < 0.002, "{found:?}");
        assert_eq!(found.next_percent, 9.0);
    }

    #[test]
    fn without_counts_nothing_is_said_and_few_pages_leave_much_open() {
        assert_eq!(spoilage(&history(&[(40, 43, None)])), None);
        assert_eq!(spoilage(&History::default()), None);
        let one = spoilage(&history(&[(1, 2, Some(0))])).unwrap();
        assert!(one.range.0 == 0.0 && one.next_percent == MOST_PERCENT, "{one:?}");
        let hundred = spoilage(&history(&[(100, 106, Some(0))])).unwrap();
        assert_eq!(hundred.next_percent, 2.0);
        // A record of an older version knows no good pages.
        assert_eq!(spoilage(&history(&[(0, 50, Some(5))])).unwrap().pages, 50);
    }
}
