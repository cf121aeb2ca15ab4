//! The size of a rough sticker: it may be stretched as long as nothing is drawn.

use leptos::prelude::*;
use stickleaf_outline::{LEAST_SIDE, MOST_SIDE};
use stickleaf_sheet::{Sticker, resized};

use crate::panels::fields::LengthField;
use crate::state::use_desk;
use crate::words::{self, Told};

/// Width and height of a rough sticker without its border; nothing for a finished one.
#[component]
pub fn RoughSize(id: StoredValue<String>, sticker: Memo<Option<Sticker>>) -> impl IntoView {
    let desk = use_desk();
    let is_rough =
        Memo::new(move |_| sticker.with(|sticker| sticker.as_ref().is_some_and(|sticker| sticker.is_rough)));
    let size = Memo::new(move |_| {
        sticker.with(|sticker| {
            sticker.as_ref().map(|sticker| sticker.outline.bounds().size()).unwrap_or_default()
        })
    });
    let set = move |width: f64, height: f64| {
        if ![width, height].iter().all(|mm| (LEAST_SIDE..=MOST_SIDE).contains(mm)) {
            return Err(words::sides_allowed(desk.unit.get_untracked()));
        }
        let stretched = sticker.with_untracked(|sticker| resized(sticker.as_ref()?, width, height));
        let stretched = stretched.ok_or_else(|| words::no_such_size().to_owned())?;
        let changed = desk.change(words::step_resize(), |layout| {
            if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| *sticker.id == *id.get_value()) {
                *sticker = stretched;
            }
        });
        changed.map_err(|error| error.told())
    };
    let set_width = move |mm: f64| set(mm, size.get_untracked().height);
    let set_height = move |mm: f64| set(size.get_untracked().width, mm);
    view! {
        <Show when=move || is_rough.get()>
            <p class="rough-note">{words::rough_hint()}</p>
            <h3>{words::size_without_border()}</h3>
            <div class="field-row">
                <LengthField label=words::width() mm=Signal::derive(move || size.get().width) take=Callback::new(set_width) />
                <LengthField label=words::height() mm=Signal::derive(move || size.get().height) take=Callback::new(set_height) />
            </div>
        </Show>
    }
}
