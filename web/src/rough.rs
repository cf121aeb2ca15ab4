//! Roughing in: the blob tool and plain shapes, as the desk does them.

use leptos::prelude::*;
use stickleaf_editor::Tool;
use stickleaf_outline::{Outline, PlainShape};
use stickleaf_sheet::{Layout, Sticker, Turns, Wanted};

use crate::bring_in::unused_id;
use crate::state::{Desk, Offer, Place};
use crate::words;

/// How far a rough sticker tilts, in degrees: as much as drawings that are brought in.
const TILT: f64 = 15.0;

/// Takes up the pen for blobs, or puts it away, and clears the way to the sheet.
pub fn toggle_blob_tool(desk: Desk) {
    let is_drawing = desk.peek(|editor| editor.tool() == Tool::DrawBlob);
    desk.act(|editor| editor.set_tool(if is_drawing { Tool::Move } else { Tool::DrawBlob }));
    if !is_drawing {
        desk.place.set(Place::Desk);
        desk.panel.set(None);
        desk.notice.set(None);
    }
}

/// The shape's word, with a number behind it if a sticker has that name already.
pub fn unused_name(layout: &Layout, shape: PlainShape) -> String {
    let word = words::shape(shape);
    let is_used = |name: &str| layout.stickers.iter().any(|sticker| sticker.name == name);
    let numbered = (2..).map(|number| format!("{word} {number}"));
    std::iter::once(word.to_owned()).chain(numbered).find(|name| !is_used(name)).unwrap_or_default()
}

/// Adds a rough sticker and puts one piece of it on the sheet, as one undo step; says where it came to.
pub fn rough_in(desk: Desk, name: &str, outline: Outline, wanted: Wanted) {
    let id = desk.peek(|editor| unused_id(editor.layout(), name));
    let mut sticker = Sticker::new(id, name, outline);
    sticker.is_rough = true;
    sticker.wanted = wanted;
    sticker.turns = Turns::Within(TILT);
    match desk.act(|editor| editor.add_sticker(&words::step_rough_in(name), sticker)) {
        Ok(Some(_)) if wanted.least() > 1 => desk.say(words::roughed_in_of(name, wanted.least()), None),
        Ok(Some(_)) => desk.say(words::roughed_in(name), None),
        Ok(None) => desk.say_attention(words::no_free_spot(name), Some(Offer::Undo)),
        Err(error) => desk.say_error(error),
    }
}
