//! Finished art in a sticker's place: the sticker gets the outline and the art, everything else stays.

use leptos::prelude::*;
use stickleaf_editor::Editor;
use stickleaf_sheet::{DrawnSize, LengthUnit, Sticker, redrawn};
use web_sys::File;

use crate::bring_in::{take_picture, unused_file_name};
use crate::messages::Imported;
use crate::panels::tally::broken_count;
use crate::state::{Desk, Offer};
use crate::words;

/// What was decided about a replacement.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Decision {
    /// Which of the drawings, counted from 0.
    pub drawing: usize,
    /// How large it becomes.
    pub size: DrawnSize,
    /// Whether the sticker takes the drawing's name.
    pub takes_name: bool,
    /// A new width of the white border in millimetres; nothing if it stays as it was.
    pub border: Option<f64>,
}

/// The sticker as it would be.
pub fn replacement(old: &Sticker, drawing: &Sticker, decision: Decision) -> Option<Sticker> {
    let mut new = redrawn(old, drawing, decision.size)?;
    if decision.takes_name {
        new.name.clone_from(&drawing.name);
    }
    new.border = decision.border.or(new.border);
    Some(new)
}

/// How the size of the outline changes, in words.
pub fn sizes(old: &Sticker, new: &Sticker, unit: LengthUnit) -> String {
    let of = |sticker: &Sticker| {
        let size = sticker.outline.bounds().size();
        (words::number(unit, size.width), words::number(unit, size.height))
    };
    let (now, before) = (of(new), of(old));
    words::was((&now.0, &now.1), (&before.0, &before.1), unit.symbol())
}

/// Lets a drawing of a file take the place of a sticker, as one undo step; says how the size changed, and what that
/// breaks.
pub fn replace(desk: Desk, id: &str, imported: Imported, source: File, decision: Decision) {
    let Some(old) = desk.peek(|editor| editor.layout().sticker(id).cloned()) else {
        return desk.say_trouble(words::sticker_is_gone());
    };
    // Many drawings of one picture may take the places of many stickers.
    let known = desk.pictures.name_of(&source);
    let is_new = known.is_none();
    let file = known.unwrap_or_else(|| unused_file_name(desk, &imported.name));
    let drawing = stickleaf_files::read(&imported.layout)
        .ok()
        .and_then(|layout| layout.stickers.into_iter().nth(decision.drawing))
        .map(|mut drawing| {
            if let Some(art) = &mut drawing.art {
                art.file.clone_from(&file);
            }
            drawing
        });
    let Some(new) = drawing.and_then(|drawing| replacement(&old, &drawing, decision)) else {
        return desk.say_trouble(words::too_fine());
    };
    let said = sizes(&old, &new, desk.unit.get_untracked());
    let name = new.name.clone();
    let before = broken(desk);
    let changed = desk.change(&words::replace_title(&old.name), |layout| {
        if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *old.id) {
            *sticker = new;
        }
    });
    if let Err(error) = changed {
        return desk.say_error(error);
    }
    let more = broken(desk).saturating_sub(before);
    let said = words::replaced(&name, &said, more);
    if more == 0 {
        desk.say(said, Some(Offer::Undo))
    } else {
        desk.say_attention(said, Some(Offer::Undo))
    }
    if is_new {
        take_picture(desk, file, source, imported);
    }
}

fn broken(desk: Desk) -> usize {
    desk.peek(|editor: &Editor| broken_count(editor.findings()))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;

    use super::*;

    fn sticker(name: &str, outline: &str) -> Sticker {
        Sticker::new(name.to_lowercase(), name, path::parse(outline).unwrap())
    }

    #[test]
    fn name_and_border_change_only_if_asked_to() {
        let mut old = sticker("Heart", "M0 0H20V18H0Z");
        old.border = Some(1.0);
        let drawing = sticker("Crab", "M0 0H19.2V18H0Z");
        let new = |decision| replacement(&old, &drawing, decision).unwrap();
        let usual = new(Decision::default());
        assert_eq!((&*usual.id, &*usual.name, usual.border), ("heart", "Heart", Some(1.0)));
        let other = new(Decision { takes_name: true, border: Some(2.0), ..Decision::default() });
        assert_eq!((&*other.id, &*other.name, other.border), ("heart", "Crab", Some(2.0)));
        assert_eq!(sizes(&old, &usual, LengthUnit::Millimetres), "19.2 × 18 mm, was 20 × 18 mm");
    }
}
