//! How safe the work is, in a corner of the desk.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::keeping::SaveState;
use crate::state::use_desk;
use crate::words;

/// The save state, always in sight and never in the way. Who listens hears only what matters: not every saving.
#[component]
pub fn SaveMark() -> impl IntoView {
    let state = use_desk().keeping.state;
    let spoken = Memo::new(move |_| words::save_state(state.get().spoken()));
    let picture = move || match state.get() {
        SaveState::Nothing => None,
        SaveState::Saving => Some(Icon::Save),
        SaveState::Saved => Some(Icon::Check),
        SaveState::NotSaved(_) => Some(Icon::Caution),
    };
    view! {
        <div
            class="save-mark"
            class:nothing=move || state.get() == SaveState::Nothing
            class:trouble=move || state.get().why().is_some()
            role="status"
            aria-label=words::SAVE_STATE
        >
            <span class="word-hidden">{move || spoken.get()}</span>
            <span class="save-mark-seen" aria-hidden="true">
                {move || picture().map(icon)} {move || words::save_state(state.get())}
            </span>
        </div>
    }
}
