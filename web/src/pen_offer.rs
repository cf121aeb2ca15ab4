//! Offers once, when a pen is first used, that only the pen moves pieces.

use leptos::prelude::*;
use stickleaf_editor::Habits;

use crate::preferences;
use crate::state::{Desk, Offer};
use crate::words;

/// Offers it, unless it was answered before, is so already, or something else is being said or drawn.
pub fn offer(desk: Desk) {
    let is_quiet = desk.notice.with_untracked(Option::is_none);
    let is_drawing = desk.peek(|editor| editor.tool().is_drawing());
    if is_quiet
        && !is_drawing
        && !desk.habits.get_untracked().fingers_only_look
        && !preferences::pen_offer_is_answered()
    {
        desk.say(words::only_the_pen(), Some(Offer::OnlyPen));
    }
}

/// Takes the answer, and asks no more.
pub fn answer(desk: Desk, is_yes: bool) {
    preferences::keep_pen_offer_answered();
    if is_yes {
        desk.set_habits(Habits { fingers_only_look: true, ..desk.habits.get_untracked() });
    }
}
