//! The history of runs: begun, added to, and written as a table.

use std::path::Path;

use stickleaf_shop::history::{History, RunRecord, csv};
use stickleaf_shop::run::RunSheet;

use crate::options::RunCommand;
use crate::{Trouble, disk};

/// Looks whether history and table can be written, and reads the history that there is; empty if none was asked for.
pub fn read(typed: &RunCommand) -> Result<History, Trouble> {
    let mut keep: Vec<&Path> =
        typed.layouts.iter().chain(&typed.settings).map(|file| file.as_path()).collect();
    if let Some(file) = &typed.history {
        disk::can_write(file, &keep)?;
        if disk::is_standard(file) {
            return Err(Trouble::OutputTwice);
        }
        keep.push(file);
    }
    if let Some(file) = &typed.csv {
        disk::can_write(file, &keep)?;
        if keep.contains(&file.as_path()) && !disk::is_standard(file) {
            return Err(Trouble::WouldOverwrite { file: disk::shown(file) });
        }
        if disk::is_standard(file) && typed.report.is_json() {
            return Err(Trouble::OutputTwice);
        }
    }
    match &typed.history {
        Some(file) if file.exists() => serde_json::from_slice(&disk::read(file)?)
            .map_err(|error| Trouble::Kept { file: disk::shown(file), reason: error.to_string() }),
        _ => Ok(History::default()),
    }
}

/// Adds the run and writes what was asked for.
pub fn write(typed: &RunCommand, mut history: History, run: &RunSheet) -> Result<(), Trouble> {
    history.runs.push(RunRecord::planned(&typed.day, run));
    if let Some(file) = &typed.history {
        let text = serde_json::to_string_pretty(&history).unwrap_or_default();
        disk::write(file, &format!("{text}\n"))?;
    }
    if let Some(file) = &typed.csv {
        disk::write(file, &csv(&history))?;
    }
    Ok(())
}
