//! What takes a while to make: its card, with its choices before and its progress meanwhile.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::messages::PressOrder;
use crate::panels::press::exports::file_name;
use crate::pressing::PressJob;
use crate::state::use_desk;
use crate::words;

/// A file that a worker makes.
#[derive(Clone, Copy)]
pub struct MadeFile {
    /// What is put behind the layout's name to make the file's.
    pub ending: &'static str,
    pub media_type: &'static str,
    /// What it is, in a sentence or two.
    pub text: fn() -> &'static str,
    pub button: fn() -> &'static str,
}

/// The card of a file that a worker makes. Its choices are shown while nothing is on its way.
#[component]
pub fn MadeCard(
    file: MadeFile,
    /// What is put behind the layout's name, where that depends on what is chosen.
    #[prop(optional, into)]
    ending: Option<Signal<&'static str>>,
    /// What is ordered when the button is pressed.
    #[prop(into)]
    order: Signal<PressOrder>,
    /// A line of figures below the text.
    #[prop(into)]
    facts: Signal<String>,
    /// Whether it cannot be made now.
    #[prop(into, default = Signal::stored(false))]
    is_off: Signal<bool>,
    /// What can be chosen before.
    children: ChildrenFn,
) -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<PressJob>();
    let name = file_name(desk, ending.unwrap_or_else(|| Signal::stored(file.ending)));
    let children = StoredValue::new(children);
    let make = move |_| job.make(order.get_untracked(), name.get_untracked(), file.media_type);
    view! {
        <li class="export made">
            <div class="export-text">
                <strong>{move || name.get()}</strong>
                <p>{(file.text)()}</p>
                <p class="export-size">{move || facts.get()}</p>
            </div>
            <Show when=move || !is_on_its_way(job, &name.get()) fallback=move || view! { <Making /> }>
                <div class="export-choices">
                    {children.with_value(|children| children())}
                    <button type="button" class="button primary-soft" disabled=move || is_off.get() on:click=make>
                        {icon(Icon::Save)} <span>{(file.button)()}</span>
                    </button>
                </div>
            </Show>
        </li>
    }
}

/// Whether this file is on its way.
pub fn is_on_its_way(job: PressJob, file: &str) -> bool {
    job.making.with(|making| making.as_ref().is_some_and(|making| making.file == file))
}

/// How far it is, and a way to give it up.
#[component]
pub fn Making() -> impl IntoView {
    let job = expect_context::<PressJob>();
    let share = move || job.making.with(|making| making.as_ref().map_or(1.0, |making| making.share));
    let line = move || {
        job.making.with(|making| match making.as_ref().and_then(|making| making.seconds_left()) {
            Some(seconds) => words::time_left(seconds.ceil() as u64),
            None => words::being_made().to_owned(),
        })
    };
    view! {
        <div class="progress" role="status">
            <div class="progress-bar" aria-hidden="true">
                <span style:width=move || format!("{:.1}%", 100.0 * share())></span>
            </div>
            <span class="progress-line">{line}</span>
            <button type="button" class="button stop" on:click=move |_| job.cancel()>
                {icon(Icon::Stop)} <span>{words::stop()}</span>
            </button>
        </div>
    }
}
