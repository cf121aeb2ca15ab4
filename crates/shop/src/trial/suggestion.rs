//! A setting for a blade as worn as it is now, from what came out clean before.
//!
//! A worn blade never needs less than a new one (common practice, no source), so the setting is read from a curve over the
//! blade's metres that never falls.

use serde::Serialize;

use crate::trial::belief::CutOutcome;
use crate::trial::isotonic::isotonic;
use crate::trial::log::{BladeLog, LogEntry};

/// What is to be cut, with what.
#[derive(Clone, Debug, PartialEq)]
pub struct Work<'a> {
    /// The machine.
    pub machine: &'a str,
    /// The blade.
    pub blade: &'a str,
    /// The stock.
    pub material: &'a str,
    /// How often each line is gone over.
    pub passes: u32,
    /// How many metres the blade has cut.
    pub blade_m: f64,
}

/// A setting, and how sure it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Suggestion {
    /// The setting.
    pub setting: f64,
    /// From where to where the setting of a clean cut lies in four of five cases; nothing with fewer than four entries. See
    /// [`suggestion`].
    pub range: Option<(f64, f64)>,
    /// From how many clean cuts.
    pub entries: usize,
    /// The blade is newer or more worn than any of them was.
    pub is_beyond: bool,
    /// How many entries speak against it: not through with as much and a blade no more worn, or too deep with no more and a
    /// blade as worn.
    pub against: usize,
}

/// How often the range may miss: once in five.
const MISS: f64 = 0.2;

/// The setting for this work from the log's clean cuts of the same machine, blade, material and passes (capitals and outer
/// spaces do not count); nothing if there are none.
///
/// The range is the jackknife+ of Barber, Candès, Ramdas and Tibshirani (Annals of Statistics 49, 2021; from memory): each
/// entry in turn is left out, foretold from the others, and its error laid about what they say here. It holds in three of
/// five cases whatever the errors are like, and in about four of five as a rule, as long as the cut is one like those before.
pub fn suggestion(log: &BladeLog, work: &Work<'_>) -> Option<Suggestion> {
    let entries: Vec<&LogEntry> = log.entries.iter().filter(|entry| is_same_work(entry, work)).collect();
    let is_clean = |entry: &&&LogEntry| entry.outcome == CutOutcome::Clean;
    let points: Vec<(f64, f64)> =
        entries.iter().filter(is_clean).map(|entry| (entry.blade_m, entry.setting)).collect();
    let setting = isotonic(&points)?.at(work.blade_m);
    let against = entries.iter().filter(|entry| match entry.outcome {
        CutOutcome::NotThrough => entry.setting >= setting && entry.blade_m <= work.blade_m,
        CutOutcome::TooDeep => entry.setting <= setting && entry.blade_m >= work.blade_m,
        CutOutcome::Clean => false,
    });
    Some(Suggestion {
        setting,
        range: range(&points, work.blade_m),
        entries: points.len(),
        is_beyond: points.iter().all(|p| p.0 < work.blade_m) || points.iter().all(|p| p.0 > work.blade_m),
        against: against.count(),
    })
}

/// The name of the setting nearest to this one among the entries of the same work; nothing if none of them has a name.
pub fn nearest_name(log: &BladeLog, work: &Work<'_>, setting: f64) -> Option<String> {
    let named =
        log.entries.iter().filter(|entry| !entry.setting_name.is_empty() && is_same_work(entry, work));
    let off = |entry: &&LogEntry| (entry.setting - setting).abs();
    named.min_by(|a, b| off(a).total_cmp(&off(b))).map(|entry| entry.setting_name.clone())
}

/// Whether an entry is of this machine, blade, material and passes; capitals and outer spaces do not count. One with figures
/// that are no numbers is of none.
pub fn is_same_work(entry: &LogEntry, work: &Work<'_>) -> bool {
    let is_same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    let is_number = entry.blade_m.is_finite() && entry.setting.is_finite();
    is_number
        && is_same(&entry.machine, work.machine)
        && is_same(&entry.blade, work.blade)
        && is_same(&entry.material, work.material)
        && entry.passes == work.passes
}

fn range(points: &[(f64, f64)], blade_m: f64) -> Option<(f64, f64)> {
    let count = points.len();
    // The k-th largest of upper and the k-th smallest of lower ends, where k counts from the outside.
    let rank = ((1.0 - MISS) * (count + 1) as f64 - 1e-9).ceil() as usize;
    if rank > count {
        return None;
    }
    let (mut lower, mut upper) = (Vec::new(), Vec::new());
    for (i, left_out) in points.iter().enumerate() {
        let others = isotonic(&[&points[..i], &points[i + 1..]].concat())?;
        let error = (left_out.1 - others.at(left_out.0)).abs();
        lower.push(others.at(blade_m) - error);
        upper.push(others.at(blade_m) + error);
    }
    lower.sort_by(f64::total_cmp);
    upper.sort_by(f64::total_cmp);
    Some((lower[count - rank], upper[rank - 1]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn log(entries: &[(f64, f64, CutOutcome)]) -> BladeLog {
        let entry = |&(blade_m, setting, outcome): &(f64, f64, CutOutcome)| LogEntry {
            machine: "Desk".to_owned(),
            blade: "45".to_owned(),
            material: "Matt".to_owned(),
            blade_m,
            setting,
            outcome,
            ..LogEntry::default()
        };
        BladeLog { entries: entries.iter().map(entry).collect(), ..BladeLog::default() }
    }

    fn work(blade_m: f64) -> Work<'static> {
        Work { machine: " desk", blade: "45", material: "MATT", passes: 1, blade_m }
    }

    /// Worked by hand, step by step.
    #[test]
    fn a_setting_between_what_worked_before() {
        use CutOutcome::{Clean, NotThrough, TooDeep};
        let log = log(&[
            (0.0, 10.0, Clean),
            (100.0, 12.0, Clean),
            (200.0, 11.0, Clean),
            (300.0, 16.0, Clean),
            (0.0, 14.0, NotThrough),
            (250.0, 20.0, TooDeep),
        ]);
        // 12 and 11 become 11.5 both; half way from 200 m to 300 m: (11.5 + 16) / 2 = 13.75.
        let found = suggestion(&log, &work(250.0)).unwrap();
        assert_eq!((found.setting, found.entries, found.is_beyond), (13.75, 4, false));
        // At 0 m even 14 was not through; 20 is above the suggestion and says nothing.
        assert_eq!(found.against, 1);
        // Left out in turn, at 250 m the others say: without 0 m (11.5 + 16) / 2 = 13.75, and foretell 11.5 for 10: 1.5 off;
        // without 100 m (11 + 16) / 2 = 13.5, 10.5 for 12: 1.5 off; without 200 m 12 + 4 * 150 / 200 = 15, 14 for 11: 3 off;
        // without 300 m 11.5, 11.5 for 16: 4.5 off. Of four the largest of all ends: 7 to 18.
        // Lower ends 12.25, 12, 12, 7; upper 15.25, 15, 18, 16.
        assert_eq!(found.range, Some((7.0, 18.0)));
    }

    #[test]
    fn the_nearest_name_is_one_of_the_same_work() {
        let mut log = log(&[(0.0, 1.0, CutOutcome::Clean), (0.0, 3.0, CutOutcome::Clean)]);
        for (entry, name) in log.entries.iter_mut().zip(["Soft", "Strong"]) {
            entry.setting_name = name.to_owned();
        }
        assert_eq!(nearest_name(&log, &work(0.0), 2.4).as_deref(), Some("Strong"));
        assert_eq!(nearest_name(&log, &Work { machine: "Other", ..work(0.0) }, 2.4), None);
    }

    #[test]
    fn few_entries_give_no_range_and_other_work_gives_nothing() {
        let log = log(&[(50.0, 10.0, CutOutcome::Clean), (60.0, 11.0, CutOutcome::Clean)]);
        let found = suggestion(&log, &work(500.0)).unwrap();
        assert_eq!((found.setting, found.range, found.is_beyond), (11.0, None, true));
        assert_eq!(suggestion(&log, &Work { passes: 4, ..work(0.0) }), None);
        assert_eq!(suggestion(&log, &Work { blade: "60", ..work(0.0) }), None);
        assert_eq!(suggestion(&BladeLog::default(), &work(0.0)), None);
    }
}
