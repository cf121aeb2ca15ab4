//! The empty desk invites.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::rough::toggle_blob_tool;
use crate::samples::{Samples, open_first};
use crate::state::use_desk;
use crate::words;

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
                <button type="button" class="button" on:click=move |_| toggle_blob_tool(desk)>
                    {icon(Icon::Draw)} <span>{words::DRAW_BLOB}</span>
                </button>
                <button type="button" class="button" on:click=move |_| desk.shapes_are_shown.set(true)>
                    {icon(Icon::Rough)} <span>{words::ROUGH_IN}</span>
                </button>
            </div>
        </div>
    }
}
