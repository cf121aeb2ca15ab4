//! The shop's own file: figures, page of label stock, blade log and runs, to keep or to take to another device.
//!
//! Its figures stand where a settings file has them, so that it is one too.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use thiserror::Error;

use crate::history::{History, RunRecord};
use crate::page::{PageError, Stock};
use crate::settings::{Settings, SettingsError};
use crate::trial::{BladeLog, LogEntry};

/// What the file calls itself.
const FORMAT: &str = "stickleaf-shop";

/// The fields of a settings file, of which one that does not say what it is must have one.
const KNOWN: [&str; 9] =
    ["currency", "printing", "cutting", "stock", "ink", "labour", "selling", "blade_log", "history"];

/// All that is kept for a shop beside its layouts.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ShopFile {
    /// Machines, prices and times.
    #[serde(flatten)]
    pub settings: Settings,
    /// The page of label stock; nothing if the file does not say.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub page: Option<Stock>,
    /// What was tried with which blade.
    pub blade_log: BladeLog,
    /// The runs that were made.
    pub history: History,
}

/// Why a shop's file is not taken.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ShopFileError {
    /// It is no JSON.
    #[error("line {line}, column {column}: this is not JSON; mend that place, or take an earlier copy")]
    NotJson {
        /// Where, counted from 1.
        line: usize,
        /// Where in the line, counted from 1.
        column: usize,
    },
    /// It is JSON, but another file.
    #[error("this file holds no figures of a shop; open one that was saved here")]
    NotOurs,
    /// A field does not hold what it should.
    #[error("{0}; mend that field, or leave it out")]
    Field(String),
    /// A figure makes no sense.
    #[error(transparent)]
    Settings(#[from] SettingsError),
    /// A page makes no sense.
    #[error(transparent)]
    Page(#[from] PageError),
}

impl ShopFile {
    /// The text of the file.
    pub fn write(&self) -> String {
        let mut value = serde_json::to_value(self).unwrap_or_default();
        if let Value::Object(fields) = &mut value {
            fields.insert("format".to_owned(), FORMAT.into());
            fields.insert("version".to_owned(), 1.into());
        }
        // A value is always written.
        serde_json::to_string_pretty(&value).unwrap_or_default() + "\n"
    }

    /// What is in a file; a settings file is one without log and runs.
    ///
    /// Errors: it is no such file, or something in it makes no sense.
    pub fn read(text: &str) -> Result<ShopFile, ShopFileError> {
        let value: Value = serde_json::from_str(text)
            .map_err(|error| ShopFileError::NotJson { line: error.line(), column: error.column() })?;
        let is_ours = match value.get("format") {
            Some(format) => format == FORMAT,
            None => KNOWN.iter().any(|field| value.get(field).is_some()),
        };
        if !is_ours {
            return Err(ShopFileError::NotOurs);
        }
        let file: ShopFile =
            serde_json::from_value(value).map_err(|error| ShopFileError::Field(error.to_string()))?;
        file.settings.validate()?;
        if let Some(page) = &file.page {
            page.room()?;
        }
        Ok(file)
    }
}

/// Adds those entries to a log that it does not have yet; gives how many they were. What is in both as often stays as often.
pub fn add_entries(log: &mut BladeLog, entries: Vec<LogEntry>) -> usize {
    add(&mut log.entries, entries)
}

/// Adds those runs to a history that it does not have yet; gives how many they were.
pub fn add_runs(history: &mut History, runs: Vec<RunRecord>) -> usize {
    add(&mut history.runs, runs)
}

fn add<T: PartialEq>(here: &mut Vec<T>, others: Vec<T>) -> usize {
    let mut unmatched: Vec<usize> = (0..here.len()).collect();
    let mut count = 0;
    for other in others {
        match unmatched.iter().position(|&index| here[index] == other) {
            Some(place) => drop(unmatched.swap_remove(place)),
            None => {
                here.push(other);
                count += 1;
            }
        }
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(setting: f64) -> LogEntry {
        LogEntry { setting, ..LogEntry::default() }
    }

    fn file() -> ShopFile {
        let mut file = ShopFile { page: Some(Stock::default()), ..ShopFile::default() };
        file.settings.currency = "€".to_owned();
        file.settings.cutting.passes = 3;
        file.blade_log.entries = vec![entry(4.0), entry(4.0)];
        file.history.runs = vec![RunRecord { name: "Tide pool".to_owned(), ..RunRecord::default() }];
        file
    }

    #[test]
    fn what_was_written_is_read_and_is_a_settings_file_too() {
        let text = file().write();
        assert_eq!(ShopFile::read(&text), Ok(file()));
        assert_eq!(serde_json::from_str::<Settings>(&text).unwrap(), file().settings);
        let settings = ShopFile::read(r#"{"cutting": {"passes": 2}}"#).unwrap();
        assert_eq!((settings.settings.cutting.passes, settings.page), (2, None));
    }

    #[test]
    fn other_files_are_refused_with_advice() {
        let refused = |text: &str| ShopFile::read(text).unwrap_err().to_string();
        assert!(refused("{").contains("line 1"));
        assert!(refused(r#"{"format": "stickleaf-layout", "stock": 1}"#).contains("saved here"));
        assert!(refused("[1]").contains("saved here"));
        assert!(refused(r#"{"cutting": {"passes": "many"}}"#).contains("mend that field"));
        assert!(refused(r#"{"printing": {"spoilage_percent": 100}}"#).contains("less than 100"));
        assert!(refused(r#"{"format": "stickleaf-shop", "page": {"width": 10, "height": 10, "printer_margin": 9, "gap": 0}}"#).contains("margin"));
    }

    #[test]
    fn what_is_in_both_stays_as_often_as_it_was() {
        let mut log = BladeLog { entries: vec![entry(1.0), entry(4.0)], ..BladeLog::default() };
        assert_eq!(add_entries(&mut log, vec![entry(4.0), entry(4.0), entry(5.0)]), 2);
        assert_eq!(log.entries, [1.0, 4.0, 4.0, 5.0].map(entry));
        assert_eq!(add_entries(&mut log, vec![entry(5.0)]), 0);
    }
}
