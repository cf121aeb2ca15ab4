//! Not lost on reload: the layout is kept on the device a moment after each change, and brought back at the start.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::browser::{keep, time};
use crate::samples::{self, Samples};
use crate::state::{Desk, Offer};
use crate::words;

/// The name under which the last sheet is kept.
const LAST_SHEET: &str = "stickleaf-last-sheet";

/// How long after a change it is kept, in milliseconds.
const WAIT_MS: u32 = 1000;

/// What is kept.
#[derive(Serialize, Deserialize)]
struct Kept {
    /// The text of the layout file.
    layout: String,
    /// Picture files that lie beside the page, and in which folder.
    lent: Vec<(String, String)>,
}

/// Keeps what lies on the desk. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Autosave {
    desk: Desk,
    /// The layout revision that was kept last, or that came from what was kept.
    kept: StoredValue<u64>,
}

/// Brings the last sheet back, or opens the first sample; from then on keeps every change.
pub fn start(desk: Desk, samples: Samples) -> Autosave {
    let is_back = bring_back(desk);
    samples::fetch_list(samples, move || {
        if !is_back && desk.is_expendable() {
            samples::begin(desk, samples);
        }
    });
    let autosave = Autosave { desk, kept: StoredValue::new(desk.finished.get_untracked()) };
    autosave.keep_changes();
    autosave
}

fn bring_back(desk: Desk) -> bool {
    let Some(kept) = keep::kept(LAST_SHEET) else { return false };
    let Ok(kept) = serde_json::from_str::<Kept>(&kept) else { return false };
    let Ok(layout) = stickleaf_files::read(&kept.layout) else { return false };
    let files = samples::art_files(&layout);
    let is_whole = files.iter().all(|file| kept.lent.iter().any(|(lent, _)| lent == file));
    if desk.restore(layout).is_err() {
        return false;
    }
    for (file, base) in kept.lent {
        samples::lend_art(desk, base, vec![file]);
    }
    let text = if is_whole { words::LAST_SHEET_IS_BACK } else { words::PICTURES_NOT_KEPT };
    desk.say(text, Some(Offer::StartFresh));
    true
}

impl Autosave {
    /// Keeps what was changed since it was last kept, without waiting. What nobody changed is left as it is: a window
    /// beside this one may have kept something newer.
    ///
    /// False if the browser keeps nothing: no room left, or storage switched off.
    pub fn keep_now(self) -> bool {
        let finished = self.desk.finished.get_untracked();
        let is_sample = self.desk.untouched.get_untracked() == Some(finished);
        if is_sample || self.kept.get_value() == finished {
            return true;
        }
        let lent = self.desk.lent.get_untracked();
        let layout = self.desk.peek(|editor| stickleaf_files::write(editor.layout()));
        let text = serde_json::to_string(&Kept { layout, lent }).unwrap_or_default();
        let is_kept = keep::keep(LAST_SHEET, &text);
        if is_kept {
            self.kept.set_value(finished);
        }
        is_kept
    }

    fn keep_changes(self) {
        let has_complained = StoredValue::new(false);
        Effect::new(move |_| {
            let finished = self.desk.finished.get();
            time::after(WAIT_MS, move || {
                let is_latest = self.desk.finished.get_untracked() == finished;
                if is_latest && !self.keep_now() && !has_complained.get_value() {
                    has_complained.set_value(true);
                    self.desk.say_trouble(words::NOT_SAVED);
                }
            });
        });
    }
}
