//! Which earlier states stay: close together while they are fresh, further apart as they grow old.

/// How many earlier states of a project there are at most.
pub const MOST_VERSIONS: usize = 20;

/// While working, a state is kept when the last one is so old, in milliseconds.
pub const BETWEEN_MS: f64 = 5.0 * 60_000.0;

const HOUR_MS: f64 = 3_600_000.0;
const DAY_MS: f64 = 24.0 * HOUR_MS;

/// Those of these times that stay, in their order, which is from the oldest to the newest.
///
/// Of the last hour all stay, of the last day the newest of each hour, before that the newest of each day. If that is
/// still too many, the oldest go. A time after `now_ms`, as after the clock was set back, counts as now.
pub fn staying(times_ms: &[f64], now_ms: f64) -> Vec<f64> {
    let mut staying: Vec<f64> = Vec::new();
    let mut last_slot = None;
    for &at_ms in times_ms.iter().rev() {
        let slot = slot(now_ms - at_ms, at_ms);
        if slot.is_none() || slot != last_slot {
            staying.push(at_ms);
        }
        last_slot = slot;
    }
    staying.truncate(MOST_VERSIONS);
    staying.reverse();
    staying
}

/// Whether it is time to keep another state while working.
pub fn is_due(last_ms: Option<f64>, now_ms: f64) -> bool {
    last_ms.is_none_or(|last_ms| (now_ms - last_ms).abs() >= BETWEEN_MS)
}

/// The stretch of time of which one state stays; nothing if each does.
fn slot(age_ms: f64, at_ms: f64) -> Option<(bool, u64)> {
    if age_ms < HOUR_MS {
        None
    } else if age_ms < DAY_MS {
        Some((false, (at_ms / HOUR_MS) as u64))
    } else {
        Some((true, (at_ms / DAY_MS) as u64))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const MINUTE_MS: f64 = 60_000.0;
    /// The beginning of a day and of an hour.
    const NOW_MS: f64 = 20_000.0 * DAY_MS;

    fn ages_staying(ages_ms: &[f64]) -> Vec<f64> {
        let times: Vec<f64> = ages_ms.iter().map(|age| NOW_MS - age).collect();
        staying(&times, NOW_MS).into_iter().map(|at| NOW_MS - at).collect()
    }

    #[test]
    fn all_of_the_last_hour_stay() {
        let ages: Vec<f64> = (0..12).rev().map(|five| five as f64 * 5.0 * MINUTE_MS).collect();
        assert_eq!(ages_staying(&ages), ages);
    }

    #[test]
    fn of_an_earlier_hour_the_newest_stays() {
        let ages = [110.0, 100.0, 62.0, 10.0].map(|minutes| minutes * MINUTE_MS);
        assert_eq!(ages_staying(&ages), [62.0 * MINUTE_MS, 10.0 * MINUTE_MS]);
    }

    #[test]
    fn of_an_earlier_day_the_newest_stays() {
        let ages = [60.0, 50.0, 47.0, 30.0, 1.5].map(|hours| hours * HOUR_MS);
        assert_eq!(ages_staying(&ages), [50.0, 30.0, 1.5].map(|hours| hours * HOUR_MS));
    }

    #[test]
    fn the_oldest_go_when_there_are_too_many() {
        let ages: Vec<f64> = (0..40).rev().map(|minutes| minutes as f64 * MINUTE_MS).collect();
        assert_eq!(ages_staying(&ages), ages[20..]);
    }

    #[test]
    fn the_newest_always_stays() {
        for age_ms in [0.0, 2.0 * HOUR_MS, 300.0 * DAY_MS] {
            assert_eq!(ages_staying(&[age_ms + 1.0, age_ms]).last(), Some(&age_ms));
        }
    }

    #[test]
    fn a_clock_set_back_loses_nothing() {
        assert_eq!(staying(&[NOW_MS + DAY_MS, NOW_MS + 2.0 * DAY_MS], NOW_MS).len(), 2);
        assert!(is_due(Some(NOW_MS + DAY_MS), NOW_MS));
    }

    #[test]
    fn a_state_is_due_after_five_minutes() {
        assert!(is_due(None, NOW_MS));
        assert!(!is_due(Some(NOW_MS - 4.9 * MINUTE_MS), NOW_MS));
        assert!(is_due(Some(NOW_MS - 5.0 * MINUTE_MS), NOW_MS));
    }
}
