//! Two pieces made one sticker: the outline here, a picture of both by the worker for pictures.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_editor::Editor;
use stickleaf_sheet::{Art, Merged, merged};
use web_sys::File;

use crate::bring_in::{unused_file_name, unused_id};
use crate::browser::picture;
use crate::keeping;
use crate::messages::{Made, PictureAnswer, PictureAsk, PressOrder};
use crate::picture_work::{Gathered, ask_once, gather};
use crate::state::{Desk, Offer};
use crate::words::{self, Told};

/// Makes one sticker of the two chosen pieces, as one undo step; says why not if that cannot be.
pub fn merge_chosen(desk: Desk) {
    let planned = desk.peek(|editor| {
        let &[first, second] = editor.selection() else { return None };
        Some(plan(editor, [first, second]).map(|merged| ([first, second], merged)))
    });
    match planned {
        None => {}
        Some(Err(why)) => desk.say_error(why),
        Some(Ok((_, merged))) if !merged.needs_art => take(desk, &merged),
        Some(Ok((pieces, merged))) => make_art(desk, pieces, merged),
    }
}

fn plan(editor: &Editor, pieces: [usize; 2]) -> Result<Merged, String> {
    let layout = editor.layout();
    let names = pieces.map(|piece| {
        let id = layout.pieces.get(piece).map(|piece| &piece.sticker);
        id.and_then(|id| Some(layout.sticker(id)?.name.clone())).unwrap_or_default()
    });
    let name = names.join(" + ");
    let id = unused_id(layout, &name);
    merged(layout, pieces, id, name).map_err(|error| error.told())
}

/// Asks for a picture of both drawings, and takes the merged sticker when it has come.
fn make_art(desk: Desk, pieces: [usize; 2], merged: Merged) {
    let revision = desk.finished.get_untracked();
    desk.say(words::merging(&merged.sticker.name), None);
    spawn_local(async move {
        let Gathered { layout, pictures, buffers } = gather(desk).await;
        let ask = PictureAsk::Press { layout, pictures, order: PressOrder::Merged { pieces } };
        ask_once(desk, &ask, &buffers, move |answer, buffers| match answer {
            PictureAnswer::Pressed(made) => {
                // What was changed meanwhile would be lost.
                if desk.finished.get_untracked() == revision {
                    take_with_art(desk, merged.clone(), &made, buffers.first());
                } else {
                    desk.say_trouble(words::merge_overtaken());
                }
                true
            }
            PictureAnswer::Refused(why) => {
                desk.say_error(why);
                true
            }
            _ => false,
        });
    });
}

fn take_with_art(desk: Desk, mut merged: Merged, made: &Made, bytes: Option<&ArrayBuffer>) {
    let (Some((x, y, pixels_per_mm)), Some(size), Some(bytes)) = (made.placed, made.pixels, bytes) else {
        return desk.say_trouble(words::merge_overtaken());
    };
    let name = unused_file_name(desk, &format!("{}.png", merged.sticker.name));
    let Ok(file) = File::new_with_buffer_source_sequence(&Array::of1(bytes), &name) else {
        return desk.say_trouble(words::could_not_read(&name));
    };
    let at = kurbo::Point::new(x, y);
    merged.sticker.art = Some(Art::new(name.clone(), at, Some(pixels_per_mm)));
    take(desk, &merged);
    let size_px = (f64::from(size.0), f64::from(size.1));
    keeping::keep_picture(desk, name.clone(), file.clone(), Some(size_px));
    spawn_local(async move {
        if let Ok(decoded) = picture::load_pixels(&file, Some(size_px)).await {
            desk.pictures.put(name, decoded);
            keeping::note_pictures(desk);
        }
    });
}

fn take(desk: Desk, merged: &Merged) {
    let name = merged.sticker.name.clone();
    match desk.change(&words::step_merge(&name), |layout| merged.apply(layout)) {
        Ok(()) => {
            desk.act(|editor| editor.select(vec![editor.layout().pieces.len().saturating_sub(1)]));
            desk.say(words::merged(&name), Some(Offer::Undo));
        }
        Err(error) => desk.say_error(error),
    }
}
