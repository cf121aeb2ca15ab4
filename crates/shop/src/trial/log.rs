//! The blade log: what was tried on which machine, with which blade, on which stock, and how it came out.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::trial::belief::CutOutcome;

/// All that was noted. Fields that this version does not know are kept.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct BladeLog {
    /// The entries, in the order in which they were noted.
    pub entries: Vec<LogEntry>,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

/// One cut and its outcome.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LogEntry {
    /// The day, as the artist writes it.
    pub day: String,
    /// The machine, by the artist's own name for it.
    pub machine: String,
    /// The blade, by the artist's own name for it.
    pub blade: String,
    /// The stock.
    pub material: String,
    /// How many metres the blade had cut before.
    pub blade_m: f64,
    /// The setting: a force, or the place of a named one in its order.
    pub setting: f64,
    /// The setting's name, if it has one.
    pub setting_name: String,
    /// How often the line was gone over.
    pub passes: u32,
    /// How it came out.
    pub outcome: CutOutcome,
    /// Anything else.
    pub note: String,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

impl Default for LogEntry {
    fn default() -> LogEntry {
        LogEntry {
            day: String::new(),
            machine: String::new(),
            blade: String::new(),
            material: String::new(),
            blade_m: 0.0,
            setting: 0.0,
            setting_name: String::new(),
            passes: 1,
            outcome: CutOutcome::Clean,
            note: String::new(),
            more: Map::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_log_is_read_with_gaps_and_keeps_what_it_does_not_know() {
        let text = r#"{"entries":[{"machine":"Desk","setting":12.5,"outcome":"too_deep","humidity":40}],"owner":"me"}"#;
        let log: BladeLog = serde_json::from_str(text).unwrap();
        assert_eq!((log.entries[0].setting, log.entries[0].passes), (12.5, 1));
        assert_eq!(log.entries[0].outcome, CutOutcome::TooDeep);
        let again = serde_json::to_value(&log).unwrap();
        assert_eq!((&again["owner"], &again["entries"][0]["humidity"]), (&"me".into(), &40.into()));
    }
}
