//! The blade log at the command line: what it suggests, and outcomes added to it.

use std::path::Path;

use serde::Serialize;
use stickleaf_shop::trial::{BladeLog, LogEntry, Suggestion, Work, nearest_name, suggestion};

use crate::card::Trials;
use crate::options::CardCommand;
use crate::{Trouble, disk};

/// What became of the log.
#[derive(Clone, Debug, Serialize)]
pub struct Logged {
    /// What it suggests for the blade as it is now; nothing if it knows no clean cut of this work.
    pub suggestion: Option<Suggestion>,
    /// The name of the entry whose setting is nearest to it, if settings have names.
    pub nearest_name: Option<String>,
    /// How many entries were added.
    pub added: usize,
    /// How many entries there are.
    pub entries: usize,
}

impl Logged {
    /// Whether it was asked and knew nothing.
    pub fn is_lacking(&self) -> bool {
        self.suggestion.is_none() && self.added == 0
    }
}

/// Adds outcomes to the log if asked, and reads from it; nothing if there is no log.
pub fn run(typed: &CardCommand, trials: Option<&Trials>) -> Result<Option<Logged>, Trouble> {
    let Some(file) = &typed.log else { return Ok(None) };
    // A log begins with its first entry.
    let is_new = typed.add && !disk::is_standard(file) && !file.exists();
    let mut log = if is_new { BladeLog::default() } else { read(file)? };
    let before = log.entries.len();
    if typed.add {
        disk::can_write(file, &[])?;
        log.entries.extend(trials.into_iter().flat_map(|trials| entries(typed, trials)));
        let text = serde_json::to_string_pretty(&log).unwrap_or_default();
        disk::write(file, &format!("{text}\n"))?;
    }
    let work = Work {
        machine: &typed.machine,
        blade: &typed.blade,
        material: &typed.material,
        passes: typed.with_passes,
        blade_m: typed.blade_m,
    };
    let suggestion = suggestion(&log, &work);
    let nearest_name = suggestion.as_ref().and_then(|found| nearest_name(&log, &work, found.setting));
    let (added, entries) = (log.entries.len() - before, log.entries.len());
    Ok(Some(Logged { suggestion, nearest_name, added, entries }))
}

fn read(file: &Path) -> Result<BladeLog, Trouble> {
    serde_json::from_slice(&disk::read(file)?)
        .map_err(|error| Trouble::Kept { file: disk::shown(file), reason: error.to_string() })
}

/// The outcomes that were typed, as entries.
fn entries<'a>(typed: &'a CardCommand, trials: &'a Trials) -> impl Iterator<Item = LogEntry> + 'a {
    let of = LogEntry {
        day: typed.day.clone(),
        machine: typed.machine.clone(),
        blade: typed.blade.clone(),
        material: typed.material.clone(),
        blade_m: typed.blade_m,
        passes: typed.with_passes,
        ..LogEntry::default()
    };
    trials.trials.iter().map(move |trial| trials.scale.entry(trial.setting, trial.outcome, &of))
}
