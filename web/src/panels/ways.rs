//! More ways to pack, in a small list over the buttons.

use leptos::html::Button;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::Element;

use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::PackAim;
use crate::words;

/// A way to pack, with its words and a line that says what it does.
type Way = (PackAim, Icon, fn() -> &'static str, fn() -> &'static str);

const WAYS: [Way; 3] = [
    (PackAim::Grow, Icon::Grow, words::grow, words::grow_text),
    (PackAim::Even, Icon::Even, words::even, words::even_text),
    (PackAim::Shorten, Icon::Shorten, words::shorten, words::shorten_text),
];

/// The button and its list, which also leads to how packing is done.
#[component]
pub fn Ways(how_is_open: RwSignal<bool>, is_off: Memo<bool>) -> impl IntoView {
    let job = expect_context::<Job>();
    let is_open = RwSignal::new(false);
    let button = NodeRef::<Button>::new();
    close_when_left(is_open, button);
    let close = move || {
        is_open.set(false);
        if let Some(button) = button.get_untracked() {
            let _ = button.focus();
        }
    };
    let way = move |(aim, picture, word, text): Way| {
        let start = move |_| {
            is_open.set(false);
            job.pack(aim);
        };
        view! {
            <li>
                <button type="button" class="way" disabled=move || is_off.get() on:click=start>
                    {icon(picture)} <strong>{word()}</strong> " " <span>{text()}</span>
                </button>
            </li>
        }
    };
    view! {
        <div class="ways">
            <button
                node_ref=button
                type="button"
                class="button bare"
                aria-expanded=move || is_open.get().to_string()
                on:click=move |_| is_open.update(|open| *open = !*open)
            >
                {icon(Icon::More)} <span class="word">{words::more_ways()}</span>
            </button>
            <Show when=move || is_open.get()>
                <ul class="way-list" role="list" aria-label=words::more_ways()>
                    {WAYS.into_iter().map(way).collect_view()}
                    <li>
                        <button
                            type="button"
                            class="way how-to"
                            aria-expanded=move || how_is_open.get().to_string()
                            on:click=move |_| {
                                how_is_open.update(|open| *open = !*open);
                                close();
                            }
                        >
                            {icon(Icon::Tune)} <strong>{words::pack_options()}</strong>
                        </button>
                    </li>
                </ul>
            </Show>
        </div>
    }
}

/// Closes the list when something outside of it is pressed, or Escape, which gives the focus back to its button.
fn close_when_left(is_open: RwSignal<bool>, button: NodeRef<Button>) {
    let pressed = window_event_listener(leptos::ev::pointerdown, move |event| {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let is_inside = target.is_some_and(|target| matches!(target.closest(".ways"), Ok(Some(_))));
        if !is_inside {
            is_open.set(false);
        }
    });
    let typed = window_event_listener(leptos::ev::keydown, move |event| {
        if event.key() == "Escape" && is_open.get_untracked() {
            is_open.set(false);
            if let Some(button) = button.get_untracked() {
                let _ = button.focus();
            }
        }
    });
    on_cleanup(move || {
        pressed.remove();
        typed.remove();
    });
}
