//! The picture behind the stickers: choose, fade, remove; and zones made of what is drawn on one.

use leptos::prelude::*;
use web_sys::File;

use crate::backdrop;
use crate::browser::files;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::state::use_desk;
use crate::words;

/// The chosen style's picture.
#[component]
pub fn Backdrop() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let opacity = Memo::new(move |_| {
        desk.layout.with(|layout| {
            let chosen = layout.chosen_background().filter(|style| style.picture.is_some());
            chosen.map(|style| style.picture_opacity)
        })
    });
    let has_picture = Memo::new(move |_| opacity.get().is_some());
    // Where the slider is while a finger is on it; the sheet follows, as one step, when it is let go.
    let sliding = RwSignal::new(None::<f64>);
    let percent = move || sliding.get().unwrap_or_else(|| (opacity.get().unwrap_or(1.0) * 100.0).round());
    let slide = move |event: web_sys::Event| sliding.set(event_target_value(&event).parse().ok());
    let set = move |event: web_sys::Event| {
        sliding.set(None);
        if let Ok(percent) = event_target_value(&event).parse::<f64>() {
            backdrop::set_opacity(desk, percent / 100.0);
        }
    };
    view! {
        <h3>{words::backdrop()}</h3>
        <p class="hint">{words::backdrop_hint()}</p>
        <Show when=move || has_picture.get()>
            <label class="slider">
                <span>{words::backdrop_opacity()}</span>
                <input
                    type="range"
                    min="0"
                    max="100"
                    step="5"
                    prop:value=move || percent().to_string()
                    aria-valuetext=move || words::out_of_hundred(percent())
                    on:input=slide
                    on:change=set
                />
                <span class="slider-value">{move || words::out_of_hundred(percent())}</span>
            </label>
        </Show>
        <div class="button-row">
            <PictureButton word=Signal::derive(move || if has_picture.get() { words::other_backdrop() } else { words::choose_backdrop() }) take=Callback::new(move |file| backdrop::put(desk, file)) />
            <PictureButton word=words::zones_of_picture() take=Callback::new(move |file| job.find_zones(file)) />
            <Show when=move || has_picture.get()>
                <button type="button" class="button bare" on:click=move |_| backdrop::remove(desk)>
                    {icon(Icon::Remove)} <span>{words::remove_backdrop()}</span>
                </button>
            </Show>
        </div>
    }
}

/// A button that asks for one picture.
#[component]
fn PictureButton(#[prop(into)] word: Signal<&'static str>, take: Callback<File>) -> impl IntoView {
    let input = NodeRef::<leptos::html::Input>::new();
    let choose = move |_| {
        if let Some(input) = input.get_untracked() {
            // The same file may be chosen twice.
            input.set_value("");
            input.click();
        }
    };
    let chosen = move |_| {
        let file = input.get_untracked().and_then(|input| files::chosen(&input).into_iter().next());
        if let Some(file) = file {
            take.run(file);
        }
    };
    view! {
        <button type="button" class="button" on:click=choose>
            {icon(Icon::BringIn)} <span>{move || word.get()}</span>
        </button>
        <input node_ref=input type="file" hidden accept="image/png,image/svg+xml,.png,.svg" on:change=chosen />
    }
}
