//! The button that lets finished art take a sticker's place.

use leptos::prelude::*;

use crate::browser::files;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::words;

/// Asks for a picture and looks for the drawings in it.
#[component]
pub fn ReplaceArt(
    /// The sticker's id.
    id: StoredValue<String>,
) -> impl IntoView {
    let job = expect_context::<Job>();
    let input = NodeRef::<leptos::html::Input>::new();
    let choose = move |_| {
        if let Some(input) = input.get_untracked() {
            input.click();
        }
    };
    let take = move |_| {
        if let Some(input) = input.get_untracked() {
            job.import_for(id.get_value(), files::chosen(&input));
        }
    };
    view! {
        <button type="button" class="button primary-soft" on:click=choose>
            {icon(Icon::BringIn)} <span>{words::replace_by_art()}</span>
        </button>
        <input node_ref=input type="file" hidden accept="image/png,image/svg+xml,.png,.svg" on:change=take />
        <p class="hint">{words::replace_hint()}</p>
    }
}
