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
            <h2>{words::empty_title()}</h2>
            <p>{words::empty_text()}</p>
            <div class="empty-buttons">
                <button type="button" class="button primary" on:click=move |_| open_first(desk, samples)>
                    {icon(Icon::Sample)} <span>{words::open_the_sample()}</span>
                </button>
                <button type="button" class="button" on:click=move |_| toggle_blob_tool(desk)>
                    {icon(Icon::Draw)} <span>{words::draw_blob()}</span>
                </button>
                <button type="button" class="button" on:click=move |_| desk.shapes_are_shown.set(true)>
                    {icon(Icon::Rough)} <span>{words::rough_in()}</span>
                </button>
            </div>
        </div>
    }
}
