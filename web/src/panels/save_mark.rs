//! The way to all sheets, which says how safe this one is.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::keeping::SaveState;
use crate::state::use_desk;
use crate::words;

/// The button that opens the list of sheets, with the save state as its second line: always in sight and never in the
/// way. Who listens hears only what matters: not every saving.
#[component]
pub fn MySheetsButton() -> impl IntoView {
    let desk = use_desk();
    let state = desk.keeping.state;
    let spoken = Memo::new(move |_| words::save_state(state.get().spoken()));
    let picture = move || match state.get() {
        SaveState::Nothing => None,
        SaveState::Saving => Some(Icon::Save),
        SaveState::Saved => Some(Icon::Check),
        SaveState::NotSaved(_) => Some(Icon::Caution),
    };
    view! {
        <button type="button" class="button bare to-sheets" on:click=move |_| desk.keeping.sheets_are_shown.set(true)>
            {icon(Icon::Sheets)}
            <span class="to-sheets-lines">
                <span>{words::my_sheets()}</span>
                <span
                    class="save-mark"
                    class:nothing=move || state.get() == SaveState::Nothing
                    class:trouble=move || state.get().why().is_some()
                    aria-hidden="true"
                >
                    {move || picture().map(icon)} <span class="save-word">{move || words::save_state(state.get())}</span>
                </span>
            </span>
        </button>
        <span class="word-hidden" role="status" aria-label=words::save_state_name()>{move || spoken.get()}</span>
    }
}
