//! The empty desk invites.

use leptos::prelude::*;
use stickleaf_outline::path;
use stickleaf_sheet::{Sticker, Turns, Wanted};

use crate::bring_in::unused_id;
use crate::icons::{Icon, icon};
use crate::samples::{Samples, open_first};
use crate::state::{Desk, use_desk};
use crate::words;

/// Plain shapes to rough a layout in with: name and path data in millimetres.
pub const SHAPES: [(&str, &str); 4] = [
    ("Round", "M-10 0A10 10 0 1 1 10 0A10 10 0 1 1 -10 0Z"),
    ("Box", "M-9 -10H9A2 2 0 0 1 11 -8V8A2 2 0 0 1 9 10H-9A2 2 0 0 1 -11 8V-8A2 2 0 0 1 -9 -10Z"),
    ("Label", "M-15 -5H15A5 5 0 0 1 15 5H-15A5 5 0 0 1 -15 -5Z"),
    ("Pebble", "M-13 2C-14 -8 -5 -11 3 -10C12 -9 15 0 12 6C8 13 -12 12 -13 2Z"),
];

/// What to do with an empty sheet.
#[component]
pub fn EmptyDesk() -> impl IntoView {
    let desk = use_desk();
    let samples = expect_context::<Samples>();
    view! {
        <div class="empty">
            <h2>{words::EMPTY_TITLE}</h2>
            <p>{words::EMPTY_TEXT}</p>
            <div class="empty-buttons">
                <button type="button" class="button primary" on:click=move |_| open_first(desk, samples)>
                    {icon(Icon::Sample)} <span>{words::OPEN_THE_SAMPLE}</span>
                </button>
                <button type="button" class="button" on:click=move |_| add_shape(desk, 3)>
                    {icon(Icon::Plus)} <span>{words::ADD_SHAPE}</span>
                </button>
            </div>
        </div>
    }
}

/// Puts a plain shape on the tray, and one copy of it on the sheet.
pub fn add_shape(desk: Desk, shape: usize) {
    let (name, data) = SHAPES[shape % SHAPES.len()];
    let Ok(outline) = path::parse(data) else { return };
    let mut added = None;
    desk.change_or_say(words::ADD_SHAPE, |layout| {
        let id = unused_id(layout, name);
        let count = layout.stickers.iter().filter(|sticker| sticker.name.starts_with(name)).count();
        let name = if count == 0 { name.to_owned() } else { format!("{name} {}", count + 1) };
        let mut sticker = Sticker::new(id.clone(), name, outline);
        sticker.wanted = Wanted::AtLeast(1);
        sticker.turns = Turns::Within(15.0);
        layout.stickers.push(sticker);
        added = Some(id);
    });
    if let Some(id) = added {
        desk.act(|editor| editor.place_copy(&id, None));
    }
}
