//! Finding the blade's setting, and the log of what worked: kept on this device for all sheets, by the artist's own names.

use std::collections::BTreeMap;

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use stickleaf_shop::shop_file::add_entries;
use stickleaf_shop::trial::{
    AskedScale, BladeLog, CutOutcome, LogEntry, ScaleError, Session, Suggestion, Work, is_same_work,
    nearest_name, suggestion,
};

use crate::browser::keep::{keep, kept};
use crate::browser::time;
use crate::month::Month;
use crate::state::Desk;
use crate::words;

const WORK: &str = "stickleaf.blade-work";
const SEARCH: &str = "stickleaf.blade-search";
const LOG: &str = "stickleaf.blade-log";

/// What is cut with what, by the artist's own names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WorkNames {
    /// The machine.
    pub machine: String,
    /// The blade.
    pub blade: String,
    /// The stock.
    pub material: String,
    /// How often each line is gone over.
    pub passes: u32,
    /// How many metres blades had cut that are not in the machine now, by their names.
    metres: BTreeMap<String, f64>,
}

impl Default for WorkNames {
    fn default() -> WorkNames {
        WorkNames {
            machine: String::new(),
            blade: String::new(),
            material: String::new(),
            passes: 1,
            metres: BTreeMap::new(),
        }
    }
}

/// What the log suggests.
#[derive(Clone, Debug, PartialEq)]
pub struct Suggested {
    /// The setting, and how sure it is.
    pub found: Suggestion,
    /// The nearest of the named settings, if settings have names.
    pub name: Option<String>,
}

/// The search and the log. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Trials {
    desk: Desk,
    month: Month,
    /// What is cut with what.
    pub names: RwSignal<WorkNames>,
    /// The search that is going on, with its cards.
    pub session: RwSignal<Session>,
    /// The blade log.
    pub log: RwSignal<BladeLog>,
    /// What the log suggests for the blade as it is now; nothing if it knows no clean cut of this work.
    pub suggested: Memo<Option<Suggested>>,
}

impl Trials {
    /// As they were left.
    pub fn new(desk: Desk, month: Month) -> Trials {
        let names: RwSignal<WorkNames> = RwSignal::new(read(WORK).unwrap_or_default());
        let kept: Option<Session> = read(SEARCH);
        let is_sound = |session: &Session| session.asked.scale().is_ok() && !session.cards.is_empty();
        let session = kept.filter(is_sound).or_else(|| Session::begin(AskedScale::default()).ok());
        let log: RwSignal<BladeLog> = RwSignal::new(read(LOG).unwrap_or_default());
        let blade_m = Memo::new(move |_| month.settings.with(|settings| settings.cutting.blade_used_m));
        let suggested = Memo::new(move |_| {
            log.with(|log| {
                names.with(|names| {
                    let work = names.work(blade_m.get());
                    let found = suggestion(log, &work)?;
                    Some(Suggested { name: nearest_name(log, &work, found.setting), found })
                })
            })
        });
        Trials { desk, month, names, session: RwSignal::new(session.unwrap_or_default()), log, suggested }
    }

    /// Changes the names. A blade that comes back has its metres again, and a new one has none.
    pub fn rename(self, edit: impl FnOnce(&mut WorkNames)) {
        let mut names = self.names.get_untracked();
        let before = names.blade.clone();
        edit(&mut names);
        if names.blade != before {
            let used = self.month.settings.with_untracked(|settings| settings.cutting.blade_used_m);
            names.metres.insert(before, used);
            let metres = names.metres.remove(&names.blade).unwrap_or_default();
            // A number that was kept makes sense.
            let _ = self.month.change(|settings| settings.cutting.blade_used_m = metres);
        }
        self.write(WORK, &names);
        self.names.set(names);
    }

    /// Begins another search on the same scale after an edit.
    ///
    /// Errors: the scale makes no sense; then the search that was going on stays.
    pub fn begin(self, edit: impl FnOnce(&mut AskedScale)) -> Result<(), ScaleError> {
        let mut asked = self.session.with_untracked(|session| session.asked.clone());
        edit(&mut asked);
        self.put(Session::begin(asked)?);
        Ok(())
    }

    /// Notes how a cut came out, or that it is not known.
    pub fn note(self, card: usize, place: usize, outcome: Option<CutOutcome>) {
        let mut session = self.session.get_untracked();
        session.note(card, place, outcome);
        self.put(session);
    }

    /// Makes the next card.
    pub fn go_on(self) {
        let mut session = self.session.get_untracked();
        session.go_on();
        self.put(session);
    }

    /// Notes the outcomes that the log does not have yet; says how many they were.
    pub fn log_outcomes(self) {
        let mut session = self.session.get_untracked();
        let entries = session.to_log(&self.entry());
        let count = entries.len();
        if self.add(entries) {
            self.put(session);
            self.desk.say(words::logged(count), None);
        }
    }

    /// Notes one cut that is on no card.
    pub fn log_one(self, setting: f64, setting_name: String, outcome: CutOutcome) {
        if self.add(vec![LogEntry { setting, setting_name, outcome, ..self.entry() }]) {
            self.desk.say(words::logged(1), None);
        }
    }

    /// Adds those of these entries that the log does not have yet; gives how many they were.
    pub fn add_new(self, entries: Vec<LogEntry>) -> usize {
        let mut log = self.log.get_untracked();
        let count = add_entries(&mut log, entries);
        if count == 0 || !self.write(LOG, &log) {
            return 0;
        }
        self.log.set(log);
        count
    }

    /// Takes an entry out of the log, by its place.
    pub fn remove(self, place: usize) {
        let mut log = self.log.get_untracked();
        if place < log.entries.len() {
            log.entries.remove(place);
            self.write(LOG, &log);
            self.log.set(log);
        }
    }

    /// The entries of the work that is named, with their places in the log, the latest first.
    pub fn entries(self) -> Vec<(usize, LogEntry)> {
        self.log.with(|log| {
            self.names.with(|names| {
                let work = names.work(0.0);
                let own = log.entries.iter().enumerate().filter(|(_, entry)| is_same_work(entry, &work));
                own.map(|(place, entry)| (place, entry.clone())).rev().collect()
            })
        })
    }

    /// Machine, blade, material and passes of the log, each once, the latest first, without what is named now.
    pub fn known_work(self) -> Vec<WorkNames> {
        let now = self.names.get();
        let mut known: Vec<WorkNames> = Vec::new();
        self.log.with(|log| {
            for entry in log.entries.iter().rev() {
                let is_there = known.iter().chain([&now]).any(|names| is_same_work(entry, &names.work(0.0)));
                if !is_there {
                    known.push(WorkNames {
                        machine: entry.machine.clone(),
                        blade: entry.blade.clone(),
                        material: entry.material.clone(),
                        passes: entry.passes,
                        metres: BTreeMap::new(),
                    });
                }
            }
        });
        known
    }

    /// An entry of this work, today; its setting and outcome are still to come.
    fn entry(self) -> LogEntry {
        let names = self.names.get_untracked();
        LogEntry {
            day: time::day_text(),
            machine: names.machine,
            blade: names.blade,
            material: names.material,
            passes: names.passes,
            blade_m: self.month.settings.with_untracked(|settings| settings.cutting.blade_used_m),
            ..LogEntry::default()
        }
    }

    /// Adds entries; false if the browser keeps none of it, which is said.
    fn add(self, entries: Vec<LogEntry>) -> bool {
        let mut log = self.log.get_untracked();
        log.entries.extend(entries);
        let is_kept = self.write(LOG, &log);
        if is_kept {
            self.log.set(log);
        }
        is_kept
    }

    fn put(self, session: Session) {
        self.write(SEARCH, &session);
        self.session.set(session);
    }

    /// Keeps something; false, and said, if the browser does not.
    fn write(self, name: &str, value: &impl Serialize) -> bool {
        let is_kept = serde_json::to_string(value).is_ok_and(|text| keep(name, &text));
        if !is_kept {
            self.desk.say_trouble(words::log_not_kept());
        }
        is_kept
    }
}

impl WorkNames {
    /// The work, with a blade that has cut so far.
    pub fn work(&self, blade_m: f64) -> Work<'_> {
        Work {
            machine: &self.machine,
            blade: &self.blade,
            material: &self.material,
            passes: self.passes,
            blade_m,
        }
    }

    /// The same names, whatever else is kept beside them.
    pub fn take(&mut self, other: WorkNames) {
        let metres = std::mem::take(&mut self.metres);
        *self = WorkNames { metres, ..other };
    }
}

fn read<T: for<'de> Deserialize<'de>>(name: &str) -> Option<T> {
    kept(name).and_then(|text| serde_json::from_str(&text).ok())
}
