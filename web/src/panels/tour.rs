//! A hint of the first look round, above the sheet.

use leptos::html::Button;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

use crate::tour::{Hint, Tour};
use crate::words;

/// The hint that is shown, with the way on and the way out. The rest of the page goes on working beside it.
#[component]
pub fn TourHint() -> impl IntoView {
    let tour = expect_context::<Tour>();
    let is_shown = Memo::new(move |_| tour.hint().is_some());
    view! {
        <Show when=move || is_shown.get()>
            <Card />
        </Show>
    }
}

#[component]
fn Card() -> impl IntoView {
    let tour = expect_context::<Tour>();
    let hint = move || tour.hint().unwrap_or(Hint::Tray);
    let next = NodeRef::<Button>::new();
    Effect::new(move |_| {
        if let Some(next) = next.get().filter(|_| tour.is_asked_for.get()) {
            // What is shown can take the focus.
            let _ = next.focus();
        }
    });
    let key_down = move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            event.stop_propagation();
            tour.end();
        }
    };
    let is_last = move || hint() == Hint::Press;
    view! {
        <section class="tour" aria-label=words::tour() on:keydown=key_down>
            <p class="tour-text" role="status">
                <span class="tour-count">{move || words::hint_count(hint().number(), Hint::ALL.len())}</span>
                " "
                {move || words::hint(hint())}
            </p>
            <div class="tour-buttons">
                <button type="button" class="button bare" on:click=move |_| tour.end() hidden=is_last>{words::skip_tour()}</button>
                <button type="button" class="button primary-soft" node_ref=next on:click=move |_| tour.next()>
                    {move || if is_last() { words::end_tour() } else { words::next_hint() }}
                </button>
            </div>
        </section>
    }
}
