//! The settings that can be tried, from the lightest to the strongest.

use crate::trial::belief::CutOutcome;
use crate::trial::log::LogEntry;

/// How many settings a scale has at most; more is a slip of the hand.
pub const MOST_SETTINGS: usize = 200;

/// Settings in order: each cuts at least as deep as the one before. Named by their positions, from 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    names: Vec<String>,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Numbers,
    Passes,
    Names,
}

/// Settings that make no scale.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ScaleError {
    /// Too few or too many settings.
    #[error("{0} settings make no scale; give 1 to {MOST_SETTINGS}")]
    Count(usize),
    /// Numbers that do not rise.
    #[error("the settings from {from} to {to} do not rise; put the lightest first")]
    Order {
        /// The first.
        from: f64,
        /// The last.
        to: f64,
    },
    /// No step from one number to the next.
    #[error("a step of {0} leads from no setting to the next; give more than 0")]
    Step(f64),
    /// Two settings of one name; numbers are told apart by a thousandth.
    #[error("the setting {0} is there twice; give fewer steps, or other names")]
    Twice(String),
}

impl Scale {
    /// So many numbers, evenly from one to the other, rounded to a thousandth; a force, say.
    pub fn numbers(from: f64, to: f64, steps: usize) -> Result<Scale, ScaleError> {
        if !(1..=MOST_SETTINGS).contains(&steps) {
            return Err(ScaleError::Count(steps));
        }
        if !(from.is_finite() && to.is_finite()) || from > to || (steps > 1 && from == to) {
            return Err(ScaleError::Order { from, to });
        }
        let step = (to - from) / (steps.max(2) - 1) as f64;
        Scale::rising(from, step, steps)
    }

    /// Numbers from one on, each so much more than the one before, as long as they do not exceed the other; rounded to a
    /// thousandth.
    pub fn stepped(from: f64, to: f64, step: f64) -> Result<Scale, ScaleError> {
        if !(from.is_finite() && to.is_finite()) || from > to {
            return Err(ScaleError::Order { from, to });
        }
        if !(step.is_finite() && step > 0.0) {
            return Err(ScaleError::Step(step));
        }
        // What is not a whole number of steps by a rounding is one. A float that is too large ends at the largest integer.
        let count = (((to - from) / step + 1e-9).floor() as usize).saturating_add(1);
        if count > MOST_SETTINGS {
            return Err(ScaleError::Count(count));
        }
        Scale::rising(from, step, count)
    }

    fn rising(from: f64, step: f64, count: usize) -> Result<Scale, ScaleError> {
        let name = |i: usize| (((from + step * i as f64) * 1000.0).round() / 1000.0 + 0.0).to_string();
        Scale::of((0..count).map(name).collect(), Kind::Numbers)
    }

    /// Numbers of passes, one by one; each line of a trial is gone over so often.
    pub fn passes(from: u32, to: u32) -> Result<Scale, ScaleError> {
        if from == 0 || from > to {
            return Err(ScaleError::Order { from: from.into(), to: to.into() });
        }
        let count = (to - from) as usize + 1;
        if count > MOST_SETTINGS {
            return Err(ScaleError::Count(count));
        }
        Scale::of((from..=to).map(|passes| passes.to_string()).collect(), Kind::Passes)
    }

    /// A machine's own names of settings, the lightest first.
    pub fn named(names: Vec<String>) -> Result<Scale, ScaleError> {
        Scale::of(names, Kind::Names)
    }

    fn of(names: Vec<String>, kind: Kind) -> Result<Scale, ScaleError> {
        if names.is_empty() || names.len() > MOST_SETTINGS {
            return Err(ScaleError::Count(names.len()));
        }
        let names: Vec<String> = names.iter().map(|name| name.trim().to_owned()).collect();
        let twice = (1..names.len()).find(|&i| names[..i].iter().any(|other| is_same(other, &names[i])));
        match twice {
            Some(i) => Err(ScaleError::Twice(names[i].clone())),
            None => Ok(Scale { names, kind }),
        }
    }

    /// How many settings there are, at least one.
    pub fn count(&self) -> usize {
        self.names.len()
    }

    /// What a setting is called.
    pub fn name(&self, setting: usize) -> &str {
        self.names.get(setting).map_or("", |name| name)
    }

    /// What is drawn beside the trial: the number, or, for a name, its place in the order from 1.
    pub fn label(&self, setting: usize) -> String {
        match self.kind {
            Kind::Numbers | Kind::Passes => self.name(setting).to_owned(),
            Kind::Names => (setting + 1).to_string(),
        }
    }

    /// How often the lines of its trial are gone over: once, unless the passes are what is tried.
    pub fn passes_of(&self, setting: usize) -> u32 {
        match self.kind {
            Kind::Passes => self.name(setting).parse().unwrap_or(1),
            Kind::Numbers | Kind::Names => 1,
        }
    }

    /// An outcome of this setting for the log; everything else is that of `of`. A named setting is logged by its place in
    /// the order, and its name beside it.
    pub fn entry(&self, setting: usize, outcome: CutOutcome, of: &LogEntry) -> LogEntry {
        let is_named = self.kind == Kind::Names;
        LogEntry {
            setting: self.label(setting).parse().unwrap_or_default(),
            setting_name: if is_named { self.name(setting).to_owned() } else { String::new() },
            outcome,
            ..of.clone()
        }
    }

    /// The setting of this name; numbers may be written in any way, capitals do not count.
    pub fn find(&self, name: &str) -> Option<usize> {
        let number = |text: &str| text.trim().parse::<f64>().ok();
        let is_it = |other: &String| match (self.kind, number(name), number(other)) {
            (Kind::Numbers | Kind::Passes, Some(a), Some(b)) => (a - b).abs() < 0.000_5,
            _ => is_same(other, name.trim()),
        };
        self.names.iter().position(is_it)
    }
}

fn is_same(a: &str, b: &str) -> bool {
    a.to_lowercase() == b.to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_spread_evenly_and_found_again() {
        let scale = Scale::numbers(1.0, 2.0, 6).unwrap();
        let names: Vec<&str> = (0..6).map(|i| scale.name(i)).collect();
        assert_eq!(names, ["1", "1.2", "1.4", "1.6", "1.8", "2"]);
        assert_eq!((scale.find("1.40"), scale.find("1.3"), scale.find("x")), (Some(2), None, None));
        assert_eq!((scale.label(1), scale.passes_of(1)), ("1.2".to_owned(), 1));
    }

    #[test]
    fn passes_and_names_keep_their_order() {
        let passes = Scale::passes(2, 5).unwrap();
        assert_eq!((passes.count(), passes.passes_of(3), passes.label(3)), (4, 5, "5".to_owned()));
        let named = Scale::named(["Light", "Plus", "Strong"].map(str::to_owned).to_vec()).unwrap();
        assert_eq!((named.find("plus"), named.label(2), named.name(7)), (Some(1), "3".to_owned(), ""));
    }

    #[test]
    fn steps_lead_as_far_as_they_may() {
        let names = |scale: Scale| (0..scale.count()).map(|i| scale.name(i).to_owned()).collect::<Vec<_>>();
        // (1.3 - 1) / 0.1 is a little less than 3 in floats, and yet the third step ends on 1.3.
        assert_eq!(names(Scale::stepped(1.0, 1.3, 0.1).unwrap()), ["1", "1.1", "1.2", "1.3"]);
        assert_eq!(names(Scale::stepped(2.0, 9.0, 3.0).unwrap()), ["2", "5", "8"]);
        assert_eq!(names(Scale::stepped(4.0, 4.0, 1.0).unwrap()), ["4"]);
        assert_eq!(Scale::stepped(1.0, 9.0, 0.0), Err(ScaleError::Step(0.0)));
        assert_eq!(Scale::stepped(1.0, 9.0, 1e-300), Err(ScaleError::Count(usize::MAX)));
        assert_eq!(Scale::stepped(9.0, 1.0, 1.0), Err(ScaleError::Order { from: 9.0, to: 1.0 }));
        assert_eq!(Scale::stepped(1.0, 1.001, 0.0001), Err(ScaleError::Twice("1".to_owned())));
    }

    #[test]
    fn what_is_no_scale_is_refused() {
        assert_eq!(Scale::numbers(5.0, 1.0, 3), Err(ScaleError::Order { from: 5.0, to: 1.0 }));
        assert_eq!(Scale::numbers(1.0, 1.001, 9), Err(ScaleError::Twice("1".to_owned())));
        assert_eq!(Scale::numbers(1.0, 9.0, 0), Err(ScaleError::Count(0)));
        assert!(Scale::numbers(f64::NAN, 9.0, 3).is_err() && Scale::passes(0, 3).is_err());
        assert_eq!(Scale::passes(1, u32::MAX), Err(ScaleError::Count(u32::MAX as usize)));
        assert_eq!(Scale::named(vec!["A".into(), " a".into()]), Err(ScaleError::Twice("a".to_owned())));
    }
}
