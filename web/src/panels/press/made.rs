//! What takes a while to make: its card, with its choices before and its progress meanwhile.

use leptos::prelude::*;

use crate::icons::{Icon, icon};
use crate::messages::PressOrder;
use crate::panels::fields::Choice;
use crate::panels::press::exports::file_name;
use crate::pressing::PressJob;
use crate::state::use_desk;
use crate::words;

/// How far the ground runs past the card's edge where it does, in millimetres (common practice, no source).
const BLEED_MM: f64 = 2.0;

/// The composed sheet as a picture.
#[component]
pub fn SheetCard() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<PressJob>();
    let bleed = RwSignal::new(BLEED_MM);
    let name = file_name(desk, ".sheet.png");
    let size = move || {
        desk.layout.with(|layout| {
            let (width, height) = layout.sheet.pixels(layout.sheet.resolution_ppi);
            words::sheet_pixels(width, height, layout.sheet.resolution_ppi)
        })
    };
    let make = move |_| {
        job.make(PressOrder::Sheet { bleed_mm: bleed.get_untracked() }, name.get_untracked(), "image/png");
    };
    view! {
        <li class="export made">
            <div class="export-text">
                <strong>{move || name.get()}</strong>
                <p>{words::sheet_text()}</p>
                <p class="export-size">{size}</p>
            </div>
            <Show when=move || !is_made(job, &name.get()) fallback=move || view! { <Making /> }>
                <div class="export-choices">
                    <Choice
                        label=words::bleed()
                        options=vec![(0.0, words::no_bleed()), (BLEED_MM, words::with_bleed())]
                        chosen=Signal::derive(move || Some(bleed.get()))
                        take=Callback::new(move |mm| bleed.set(mm))
                    />
                    <button type="button" class="button primary-soft" on:click=make>
                        {icon(Icon::Save)} <span>{words::save_sheet()}</span>
                    </button>
                </div>
            </Show>
        </li>
    }
}

/// Whether this file is on its way.
fn is_made(job: PressJob, file: &str) -> bool {
    job.making.with(|making| making.as_ref().is_some_and(|making| making.file == file))
}

/// How far it is, and a way to give it up.
#[component]
fn Making() -> impl IntoView {
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
