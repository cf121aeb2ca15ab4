//! The Month: what a run of the sheet on the desk takes, what is to be done, and how the blade is to be set.

mod blade;
mod designs;
mod figures;
mod history;
mod shared;
mod shop_file;
mod sums;
mod tasks;
mod timed;
mod what_if;

use leptos::prelude::*;
use stickleaf_shop::run::RunSheet;

use crate::browser::time;
use crate::icons::{Icon, icon};
use crate::month::Month;
use crate::panels::fields::{Choice, NumberField};
use crate::panels::month::blade::BladePart;
use crate::panels::month::designs::{DesignTable, Others};
use crate::panels::month::figures::Figures;
use crate::panels::month::history::HistoryPart;
use crate::panels::month::shared::SharedPages;
use crate::panels::month::sums::Sums;
use crate::panels::month::tasks::Tasks;
use crate::panels::month::what_if::WhatIfs;
use crate::runs::Runs;
use crate::words;

/// A part of the Month.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Part {
    /// A run.
    #[default]
    Run,
    /// The blade's setting.
    Blade,
    /// The runs that were made.
    History,
}

/// The place for what comes after the layout, in parts.
#[component]
pub fn MonthPlace() -> impl IntoView {
    let part = expect_context::<Month>().part;
    let parts = vec![
        (Part::Run, words::part_run()),
        (Part::Blade, words::part_blade()),
        (Part::History, words::part_history()),
    ];
    view! {
        <div class="month-place">
            <nav class="month-parts" aria-label=words::month_parts()>
                <Choice label=words::month_parts() options=parts chosen=Signal::derive(move || Some(part.get())) take=Callback::new(move |next| part.set(next)) />
            </nav>
            {move || match part.get() {
                Part::Run => view! { <RunPart /> }.into_any(),
                Part::Blade => view! { <BladePart /> }.into_any(),
                Part::History => view! { <HistoryPart /> }.into_any(),
            }}
        </div>
    }
}

/// The part where runs are worked out.
#[component]
fn RunPart() -> impl IntoView {
    let month = expect_context::<Month>();
    let set_sheets = move |sheets: f64| {
        let is_count = sheets.fract() == 0.0 && (1.0..=1e6).contains(&sheets);
        if !is_count {
            return Err(words::whole_number().to_owned());
        }
        month.set_sheets(sheets as u64);
        Ok(())
    };
    let runs = expect_context::<Runs>();
    let head = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) => words::run_head(&named_sheets(run), &time::day_text()),
            _ => String::new(),
        })
    };
    let has_run = move || month.run.with(|run| matches!(run, Some(Ok(_))));
    view! {
        <div class="month">
            <section class="month-run" aria-labelledby="month-run">
                <h2 id="month-run">{words::run_title()}</h2>
                <p class="print-only">{head}</p>
                <div class="month-sheets">
                    <NumberField
                        label=words::sheets_wanted()
                        value=Signal::derive(move || month.sheets.get() as f64)
                        take=Callback::new(set_sheets)
                    />
                </div>
                <Others />
                <DesignTable />
                <SharedPages />
                <Show when=has_run fallback=|| view! { <p class="press-note">{icon(Icon::Caution)} <span>{words::no_page()}</span></p> }>
                    <Sums />
                    <WhatIfs />
                    <Tasks />
                    <button type="button" class="button print-run" on:click=move |_| runs.note()>{icon(Icon::Check)} <span>{words::note_run()}</span></button>
                    <button type="button" class="button print-run" on:click=move |_| print()>{icon(Icon::Press)} <span>{words::print_run()}</span></button>
                </Show>
                <p class="month-note">{words::estimates()}</p>
                <p class="month-note">{words::caution_blade()}</p>
                <p class="month-note">{words::caution_passes()}</p>
            </section>
            <section class="month-figures" aria-labelledby="month-figures">
                <h2 id="month-figures">{words::figures_title()}</h2>
                <p class="month-note">{words::figures_text()}</p>
                <Figures />
            </section>
        </div>
    }
}

/// Each design with the number of its sheets, as it stands above the printed list.
fn named_sheets(run: &RunSheet) -> Vec<(u64, String)> {
    run.designs.iter().map(|design| (design.sheets, design.name.clone())).collect()
}

/// Opens the browser's own dialog to print.
fn print() {
    // A browser that cannot print says so itself.
    let _ = window().print();
}
