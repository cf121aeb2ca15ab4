//! Thin parts made wider, where a warning names them.

use leptos::prelude::*;
use stickleaf_editor::Editor;
use stickleaf_outline::moved_out;
use stickleaf_sheet::thickened;

use crate::panels::tally::broken_count;
use crate::state::{Desk, Offer};
use crate::words;

/// Makes the cut line of a sticker wider where it is thinnest, as one undo step; says how far the line has moved.
pub fn thicken(desk: Desk, id: &str) {
    let found = desk.peek(|editor| {
        let layout = editor.layout();
        let sticker = layout.sticker(id)?;
        let wider = thickened(sticker, &layout.rules)?;
        let moved = moved_out(&sticker.cut_line(&layout.rules), &wider.cut_line(&layout.rules))?;
        Some((wider, moved))
    });
    let Some((wider, moved)) = found else { return desk.say_trouble(words::nothing_is_thin()) };
    let name = wider.name.clone();
    let before = broken(desk);
    let changed = desk.change(&words::step_thicken(&name), |layout| {
        if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *id) {
            *sticker = wider;
        }
    });
    if let Err(error) = changed {
        return desk.say_error(error);
    }
    let more = broken(desk).saturating_sub(before);
    let said = words::thickened(&name, &words::length(desk.unit.get_untracked(), moved.most), more);
    if more == 0 {
        desk.say(said, Some(Offer::Undo));
    } else {
        desk.say_attention(said, Some(Offer::Undo));
    }
}

fn broken(desk: Desk) -> usize {
    desk.peek(|editor: &Editor| broken_count(editor.findings()))
}
