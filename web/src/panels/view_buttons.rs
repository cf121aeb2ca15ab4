//! Closer, further, and the whole sheet, for hands that do not pinch.

use leptos::prelude::*;
use stickleaf_editor::Editor;

use crate::icons::{Icon, icon};
use crate::state::{Desk, use_desk};
use crate::words;

/// How much closer one press looks.
const STEP: f64 = 1.4;

/// The buttons in the corner of the desk.
#[component]
pub fn ViewButtons() -> impl IntoView {
    let desk = use_desk();
    let button = move |word: &'static str, picture: Icon, deed: fn(Desk)| {
        view! {
            <button type="button" class="view-button" aria-label=word title=word on:click=move |_| deed(desk)>
                {icon(picture)}
            </button>
        }
    };
    view! {
        <div class="view-buttons" role="group" aria-label=words::view()>
            {button(words::closer(), Icon::Plus, |desk| desk.act(|editor| editor.zoom(STEP)))}
            {button(words::further(), Icon::Minus, |desk| desk.act(|editor| editor.zoom(1.0 / STEP)))}
            {button(words::whole_sheet(), Icon::Fit, |desk| desk.act(Editor::fit))}
        </div>
    }
}
