//! The runs that were made, kept on this device for all sheets, and what they say about spoilt pages.

use leptos::prelude::*;
use stickleaf_shop::history::{History, RunRecord};
use stickleaf_shop::shop_file::add_runs;
use stickleaf_shop::spoilage::{Spoilage, spoilage};

use crate::browser::keep::{keep, kept};
use crate::browser::time;
use crate::month::Month;
use crate::state::Desk;
use crate::words;

const HISTORY: &str = "stickleaf.runs";

/// The history. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Runs {
    desk: Desk,
    month: Month,
    /// All runs, in the order in which they were noted.
    pub history: RwSignal<History>,
    /// What is known about spoilt pages; nothing before any were counted.
    pub spoilage: Memo<Option<Spoilage>>,
}

impl Runs {
    /// As it was left.
    pub fn new(desk: Desk, month: Month) -> Runs {
        let history: RwSignal<History> = RwSignal::new(
            kept(HISTORY).and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default(),
        );
        let spoilage = Memo::new(move |_| history.with(spoilage));
        Runs { desk, month, history, spoilage }
    }

    /// Notes the run that is worked out now as made, and what the blade cut in it.
    pub fn note(self) {
        let Some(Ok(run)) = self.month.run.get_untracked() else { return };
        let mut history = self.history.get_untracked();
        history.runs.push(RunRecord::planned(&time::day_text(), &run));
        if self.put(history) {
            // What the blade has cut since it was changed last. Both figures make sense.
            let _ = self.month.change(|settings| {
                let cutting = &mut settings.cutting;
                let all = cutting.blade_used_m + run.blade_m;
                cutting.blade_used_m =
                    if run.blade_changes == 0 { all } else { all % cutting.blade_m.max(1.0) };
            });
            self.desk.say(words::run_noted(run.blade_changes), None);
        }
    }

    /// Notes how many pages of a run, by its place, were spoilt.
    pub fn count_spoilt(self, place: usize, spoilt: u64) {
        let mut history = self.history.get_untracked();
        if let Some(run) = history.runs.get_mut(place) {
            run.spoilt_pages = Some(spoilt);
            self.put(history);
        }
    }

    /// Adds those of these runs that the history does not have yet; gives how many they were.
    pub fn add_new(self, runs: Vec<RunRecord>) -> usize {
        let mut history = self.history.get_untracked();
        let count = add_runs(&mut history, runs);
        if count > 0 && self.put(history) { count } else { 0 }
    }

    /// Takes a run out of the history, by its place.
    pub fn remove(self, place: usize) {
        let mut history = self.history.get_untracked();
        if place < history.runs.len() {
            history.runs.remove(place);
            self.put(history);
        }
    }

    /// Allows for as many spoilt pages from now on as the history suggests.
    pub fn take_allowance(self) {
        if let Some(found) = self.spoilage.get_untracked() {
            // A share below a hundred makes sense.
            let _ = self.month.change(|settings| settings.printing.spoilage_percent = found.next_percent);
        }
    }

    /// Keeps the history; false, and said, if the browser does not.
    fn put(self, history: History) -> bool {
        let is_kept = serde_json::to_string(&history).is_ok_and(|text| keep(HISTORY, &text));
        if is_kept {
            self.history.set(history);
        } else {
            self.desk.say_trouble(words::log_not_kept());
        }
        is_kept
    }
}
