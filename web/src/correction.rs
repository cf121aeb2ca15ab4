//! The correction of colours for the artist's printer: a part of the layout, chosen as a patch of the colour strip.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use stickleaf_files::ReadError;
use stickleaf_press::strip::{AS_IT_IS, correction, patch_of};
use stickleaf_sheet::{Correction, Layout};

use crate::browser::keep::{forget, keep, kept};
use crate::browser::time;
use crate::state::Desk;
use crate::words;

/// Where the patch was kept for all layouts of this device, before layouts had a correction of their own.
const ONCE: &str = "stickleaf.patch";

/// What that was, and until when it held.
const BEFORE: &str = "stickleaf.patch-before";

/// The patch that was chosen last, for whichever layout.
const LAST: &str = "stickleaf.patch-last";

/// The patch that everything on this device was printed with until layouts had a correction of their own.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
struct Before {
    patch: u32,
    /// In milliseconds since 1970.
    until_ms: f64,
}

/// The correction of the layout on the desk; followed.
pub fn of_desk(desk: Desk) -> Memo<Correction> {
    Memo::new(move |_| desk.layout.with(|layout| layout.correction.unwrap_or_default()))
}

/// Lets sheet and page of this layout be printed as a patch of the colour strip is, as one undo step. A name that no patch
/// has changes nothing.
pub fn choose(desk: Desk, patch: u32) {
    let Some(chosen) = correction(patch) else { return };
    desk.change_or_say(&words::step_correction(patch), |layout| layout.correction = Some(chosen));
    // Without storage it is not offered to the next sheet.
    keep(LAST, &patch.to_string());
}

/// The patch that was chosen last on this device, if that was a correction.
pub fn last() -> Option<u32> {
    let patch = kept(LAST)?.parse().ok()?;
    correction(patch).filter(|correction| !correction.is_none()).map(|_| patch)
}

/// Notes what held for all layouts, the first time that a page runs which keeps it in each.
pub fn note_before() {
    let Some(once) = kept(ONCE) else { return };
    let patch = once.parse().ok().filter(|&patch| correction(patch).is_some()).unwrap_or(AS_IT_IS);
    let before = Before { patch, until_ms: time::date_ms() };
    if serde_json::to_string(&before).is_ok_and(|text| keep(BEFORE, &text)) {
        keep(LAST, &patch.to_string());
        forget(ONCE);
    }
}

/// The layout in a text that was kept on this device, last changed then: with the correction that it was printed with, if it
/// is from before layouts had one.
pub fn read_kept(text: &str, changed_ms: f64) -> Result<Layout, ReadError> {
    let layout = stickleaf_files::read(text)?;
    let before = kept(BEFORE).and_then(|text| serde_json::from_str(&text).ok());
    Ok(Layout { correction: settled(layout.correction, changed_ms, before), ..layout })
}

fn settled(own: Option<Correction>, changed_ms: f64, before: Option<Before>) -> Option<Correction> {
    let before = before.filter(|before| changed_ms <= before.until_ms && before.patch != AS_IT_IS);
    own.or_else(|| before.and_then(|before| correction(before.patch)))
}

/// The column and the row of the patch that has this correction; nothing if none has.
pub fn place(correction: Correction) -> Option<(u32, u32)> {
    patch_of(correction).map(|patch| (patch / 10, patch % 10))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_layout_from_before_keeps_what_held_for_all_and_others_what_they_say() {
        let before = Some(Before { patch: 42, until_ms: 1000.0 });
        assert_eq!(settled(None, 900.0, before), correction(42));
        assert_eq!(settled(None, 1001.0, before), None);
        assert_eq!(settled(None, 900.0, None), None);
        assert_eq!(settled(Some(Correction::NONE), 900.0, before), Some(Correction::NONE));
        assert_eq!(settled(None, 900.0, Some(Before { patch: AS_IT_IS, until_ms: 1000.0 })), None);
    }
}
