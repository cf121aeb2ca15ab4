//! The bar that stays as long as nothing is kept, with what can be done about it.

use leptos::prelude::*;

use crate::browser::download::{download, file_stem};
use crate::icons::{Icon, icon};
use crate::keeping::{self, Why};
use crate::state::{Desk, use_desk};
use crate::words;

/// Shown while what is on the desk is not kept. What has to do with other tabs stays until it is settled; the rest can be
/// closed, and comes again when there is another reason.
#[component]
pub fn NotSavedBar() -> impl IntoView {
    let desk = use_desk();
    let closed: RwSignal<Option<Why>> = RwSignal::new(None);
    let why = Memo::new(move |_| desk.keeping.state.get().why());
    let shown = Memo::new(move |_| why.get().filter(|why| closed.get() != Some(*why)));
    Effect::new(move |_| {
        if why.get().is_none() {
            closed.set(None);
        }
    });
    let bar = move |why: Why| {
        view! {
            <section class="not-saved" aria-label=words::save_state_name()>
                {icon(Icon::Caution)}
                <p class="not-saved-text" role="alert">{words::not_saved(why)}</p>
                <div class="not-saved-buttons">
                    {if why.is_other_tab() {
                        view! { <OtherTabButtons /> }.into_any()
                    } else {
                        view! { <NoRoomButtons close=Callback::new(move |()| closed.set(Some(why))) /> }.into_any()
                    }}
                </div>
            </section>
        }
    };
    // The element is always there, since it is a row of the page.
    view! { <div class="standing">{move || shown.get().map(bar)}</div> }
}

#[component]
fn OtherTabButtons() -> impl IntoView {
    let desk = use_desk();
    view! {
        <button type="button" class="button" on:click=move |_| keeping::take_over(desk)>
            <span>{words::take_over()}</span>
        </button>
        <button type="button" class="button" on:click=move |_| keeping::keep_a_copy(desk)>
            {icon(Icon::Duplicate)} <span>{words::keep_a_copy()}</span>
        </button>
    }
}

#[component]
fn NoRoomButtons(close: Callback<()>) -> impl IntoView {
    let desk = use_desk();
    view! {
        <SaveFileButton />
        <button type="button" class="button" on:click=move |_| desk.keeping.sheets_are_shown.set(true)>
            {icon(Icon::Sheets)} <span>{words::my_sheets()}</span>
        </button>
        <button type="button" class="button bare" on:click=move |_| close.run(())>
            {icon(Icon::Close)} <span class="word">{words::close()}</span>
        </button>
    }
}

/// Saves the layout on the desk as a file.
#[component]
pub fn SaveFileButton() -> impl IntoView {
    let desk = use_desk();
    view! {
        <button type="button" class="button" on:click=move |_| save_file(desk)>
            {icon(Icon::Save)} <span>{words::save_layout_file()}</span>
        </button>
    }
}

fn save_file(desk: Desk) {
    let (name, text) = desk.peek(|editor| {
        let layout = editor.layout();
        (format!("{}.layout.json", file_stem(&layout.name)), stickleaf_files::write(layout))
    });
    match download(&name, "application/json", &text) {
        Ok(()) => desk.say(words::saved(&name), None),
        Err(_) => desk.say_trouble(words::save_failed()),
    }
}
