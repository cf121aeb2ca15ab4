//! When something was, as people say it.

use crate::browser::time;
use crate::words;

const MINUTE_MS: f64 = 60_000.0;
const HOUR_MS: f64 = 60.0 * MINUTE_MS;
const DAY_MS: f64 = 24.0 * HOUR_MS;

/// How long ago something was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ago {
    JustNow,
    Minutes(u64),
    Hours(u64),
    /// So long that a date says more.
    Longer,
}

/// How long ago a time in milliseconds since 1970 is, or else its date: "just now", "5 minutes ago", "on 12 Nov 2026, 14:05".
pub fn when(at_ms: f64) -> String {
    match ago(at_ms, time::date_ms()) {
        Ago::JustNow => words::just_now().to_owned(),
        Ago::Minutes(minutes) => words::minutes_ago(minutes),
        Ago::Hours(hours) => words::hours_ago(hours),
        Ago::Longer => words::on_date(&time::date_text(at_ms)),
    }
}

/// A time that is still to come, as after the clock was set back, is now.
fn ago(at_ms: f64, now_ms: f64) -> Ago {
    match now_ms - at_ms {
        age if age < MINUTE_MS => Ago::JustNow,
        age if age < HOUR_MS => Ago::Minutes((age / MINUTE_MS) as u64),
        age if age < DAY_MS => Ago::Hours((age / HOUR_MS) as u64),
        _ => Ago::Longer,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_told_by_their_age() {
        let told = [-5.0, 59_999.0, 60_000.0, 3_599_999.0, 3_600_000.0, 86_399_999.0, 86_400_000.0];
        let expected = [
            Ago::JustNow,
            Ago::JustNow,
            Ago::Minutes(1),
            Ago::Minutes(59),
            Ago::Hours(1),
            Ago::Hours(23),
            Ago::Longer,
        ];
        assert_eq!(told.map(|age| ago(1e12, 1e12 + age)), expected);
    }
}
