//! The runs that were made: what they used, how many pages were spoilt, and what to allow for next time.

use leptos::prelude::*;
use stickleaf_shop::history::{RunRecord, csv};
use stickleaf_shop::spoilage::Spoilage;

use crate::browser::download::download;
use crate::icons::{Icon, icon};
use crate::month::Month;
use crate::panels::fields::TextField;
use crate::runs::Runs;
use crate::state::use_desk;
use crate::words;

/// The part of the Month that looks back.
#[component]
pub fn HistoryPart() -> impl IntoView {
    let desk = use_desk();
    let runs = expect_context::<Runs>();
    // Counting spoilt pages changes no row, so that the focus stays where it is.
    let rows = Memo::new(move |_| {
        runs.history.with(|history| {
            let plain = |run: &RunRecord| RunRecord { spoilt_pages: None, ..run.clone() };
            history.runs.iter().map(plain).enumerate().rev().collect::<Vec<(usize, RunRecord)>>()
        })
    });
    let is_empty = move || rows.with(Vec::is_empty);
    let save = move |_| {
        let file = "runs.csv";
        match runs.history.with_untracked(|history| download(file, "text/csv;charset=utf-8", &csv(history))) {
            Ok(()) => desk.say(words::saved(file), None),
            Err(_) => desk.say_trouble(words::save_failed()),
        }
    };
    view! {
        <div class="month">
            <section aria-labelledby="runs-title">
                <h2 id="runs-title">{words::runs_title()}</h2>
                <p class="month-note">{words::runs_text()}</p>
                <Show when=is_empty>
                    <p>{words::no_runs()}</p>
                </Show>
                <ul class="entries" role="list">
                    {move || rows.get().into_iter().map(|(place, run)| view! { <Row place run /> }).collect_view()}
                </ul>
                <Show when=move || !is_empty()>
                    <button type="button" class="button" on:click=save>{icon(Icon::Save)} <span>{words::save_runs()}</span></button>
                </Show>
            </section>
            <section class="month-figures" aria-labelledby="spoilt-title">
                <h2 id="spoilt-title">{words::spoilt_title()}</h2>
                <Allowance />
            </section>
        </div>
    }
}

#[component]
fn Row(place: usize, run: RunRecord) -> impl IntoView {
    let month = expect_context::<Month>();
    let runs = expect_context::<Runs>();
    let name = words::named(&run.name).to_owned();
    let spoilt = Signal::derive(move || {
        let spoilt = runs.history.with(|history| history.runs.get(place).and_then(|run| run.spoilt_pages));
        spoilt.map_or_else(String::new, |spoilt| spoilt.to_string())
    });
    let take = move |text: String| {
        let spoilt: Option<u64> = text.trim().parse().ok().filter(|&spoilt| spoilt <= 1_000_000);
        runs.count_spoilt(place, spoilt.ok_or_else(|| words::whole_number_from_0().to_owned())?);
        Ok(())
    };
    let used = words::run_used(run.sheets, run.pages, run.blade_m, run.printing_s + run.cutting_s);
    let cost = (run.cost_cents.0 > 0).then_some(move || {
        month.settings.with(|settings| words::run_cost(&words::money(run.cost_cents, &settings.currency)))
    });
    let remove = words::remove_run(&name, &run.day);
    view! {
        <li class="past-run">
            <div>
                <strong>{name.clone()}</strong>
                " "
                <span class="month-note">{run.day.clone()}</span>
                <p>{used} " " {cost}</p>
            </div>
            <TextField label=words::spoilt_of(&name, run.pages.saturating_sub(run.good_pages)) text=spoilt take=Callback::new(take) keys="numeric" />
            <button type="button" class="button bare" aria-label=remove on:click=move |_| runs.remove(place)>{icon(Icon::Remove)}</button>
        </li>
    }
}

#[component]
fn Allowance() -> impl IntoView {
    let month = expect_context::<Month>();
    let runs = expect_context::<Runs>();
    let now = move || month.settings.with(|settings| settings.printing.spoilage_percent);
    let found = move || runs.spoilage.get();
    let is_new = move || found().is_some_and(|found| found.next_percent != now());
    view! {
        <div class="trial-said" role="status">
            {move || match found() {
                Some(found) => said(&found, now()).into_iter().map(|line| view! { <p>{line}</p> }).collect_view().into_any(),
                None => view! { <p>{words::nothing_counted()}</p> }.into_any(),
            }}
        </div>
        <Show when=is_new>
            <button type="button" class="button primary" on:click=move |_| runs.take_allowance()>
                {move || found().map(|found| words::take_allowance(found.next_percent))}
            </button>
        </Show>
        <p class="month-note">{words::spoilt_text()}</p>
    }
}

fn said(found: &Spoilage, now: f64) -> Vec<String> {
    vec![
        words::spoilt_so_far(found.spoilt, found.pages, found.percent, found.allowed_percent),
        words::spoilt_range(found.range),
        words::allowance(found.next_percent, now),
    ]
}
