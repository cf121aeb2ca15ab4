//! The bar at the foot: compare, stop, how far it is, and saving what came out.

use leptos::html;
use leptos::prelude::*;
use stickleaf_sheet::Layout;

use crate::browser::download::{download, file_stem};
use crate::compare::{CompareJob, Comparison, MOST_CARDS, picture, table};
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::month::Month;
use crate::state::{Desk, use_desk};
use crate::words;

/// Starts and stops; saves results. `results` is brought into sight when a comparison begins.
#[component]
pub fn RunBar(results: NodeRef<html::Section>) -> impl IntoView {
    let job = expect_context::<CompareJob>();
    view! {
        <section class="actions compare-run" aria-label=words::comparing()>
            <Show when=move || job.is_running() fallback=move || view! { <Idle results /> }>
                <Running />
            </Show>
        </section>
    }
}

#[component]
fn Idle(results: NodeRef<html::Section>) -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<CompareJob>();
    let packing = expect_context::<Job>();
    let month = expect_context::<Month>();
    let has_no_stickers = Memo::new(move |_| desk.layout.with(|layout| layout.stickers.is_empty()));
    let chosen =
        Memo::new(move |_| desk.layout.with(|layout| job.wishes.with(|wishes| wishes.chosen(layout))));
    let obstacle = Memo::new(move |_| {
        if packing.is_packing() {
            return Some(words::desk_is_packing().to_owned());
        }
        match chosen.with(Vec::len) {
            0 | 1 => Some(words::choose_two().to_owned()),
            count if count > MOST_CARDS => Some(words::too_many(MOST_CARDS)),
            _ => None,
        }
    });
    let start = move |_| {
        job.start(&chosen.get_untracked());
        // Once the cards are there.
        request_animation_frame(move || {
            if let Some(results) = results.get_untracked() {
                results.scroll_into_view();
            }
        });
    };
    let has_results = Memo::new(move |_| {
        let has_best = |known: &Comparison| known.cards.iter().any(|card| card.best.is_some());
        job.comparison.with(|known| known.as_ref().is_some_and(has_best))
    });
    view! {
        <p class="hint compare-obstacle">{move || obstacle.get().filter(|_| !has_no_stickers.get())}</p>
        <div class="action-buttons">
            <button
                type="button"
                class="button primary"
                disabled=move || has_no_stickers.get() || obstacle.with(Option::is_some)
                on:click=start
            >
                {icon(Icon::Compare)} <span>{words::start_comparing()}</span>
            </button>
            <Show when=move || has_results.get()>
                <button type="button" class="button" on:click=move |_| save_picture(desk, job, month)>
                    {icon(Icon::Save)} <span>{words::save_comparison_picture()}</span>
                </button>
                <button type="button" class="button" on:click=move |_| save_table(desk, job, month)>
                    {icon(Icon::Save)} <span>{words::save_table()}</span>
                </button>
            </Show>
        </div>
    }
}

#[component]
fn Running() -> impl IntoView {
    let job = expect_context::<CompareJob>();
    let of = move |get: fn(&Comparison) -> f64| job.comparison.with(|known| known.as_ref().map_or(0.0, get));
    let part = move || of(Comparison::part);
    let line = move || {
        let left = job.comparison.with(|known| known.as_ref().and_then(Comparison::left_ms));
        match left {
            Some(left) => {
                format!("{} · {}", words::part_done(part()), words::time_left((left / 1000.0).ceil() as u64))
            }
            None => words::part_done(part()),
        }
    };
    let is_stopping =
        move || job.comparison.with(|known| known.as_ref().is_some_and(|known| known.is_stopped));
    view! {
        <div class="progress">
            <div class="progress-bar" aria-hidden="true">
                <span style:width=move || format!("{:.1}%", 100.0 * part())></span>
            </div>
            <span class="progress-line">{line}</span>
            <button type="button" class="button stop" disabled=is_stopping on:click=move |_| job.stop()>
                {icon(Icon::Stop)} <span>{words::stop()}</span>
            </button>
        </div>
    }
}

fn save_picture(desk: Desk, job: CompareJob, month: Month) {
    let unit = desk.unit.get_untracked();
    let name = desk.peek(|editor| editor.layout().name.clone());
    let currency = month.settings.with_untracked(|settings| settings.currency.clone());
    let costs = |layout: &Layout| untrack(|| month.costs_of(layout));
    let text = desk.pictures.with_untracked(|pictures| {
        job.comparison.with_untracked(|known| {
            Some(picture(known.as_ref()?, &name, unit, pictures, (&costs, &currency)))
        })
    });
    save(desk, &format!("{}.compare.svg", file_stem(&name)), "image/svg+xml", text);
}

fn save_table(desk: Desk, job: CompareJob, month: Month) {
    let name = desk.peek(|editor| editor.layout().name.clone());
    let costs = |layout: &Layout| untrack(|| month.costs_of(layout));
    let text = job.comparison.with_untracked(|known| Some(table(known.as_ref()?, &costs)));
    save(desk, &format!("{}.compare.csv", file_stem(&name)), "text/csv;charset=utf-8", text);
}

fn save(desk: Desk, file: &str, media_type: &str, text: Option<String>) {
    let Some(text) = text else { return };
    match download(file, media_type, &text) {
        Ok(()) => desk.say(words::saved(file), None),
        Err(_) => desk.say_trouble(words::save_failed()),
    }
}
