//! What is to be done for a run, to tick off.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_shop::run::{Deed, RunSheet, Task};

use crate::icons::{Icon, icon};
use crate::keeping;
use crate::month::Month;
use crate::run_order::RunOrder;
use crate::state::{Place, use_desk};
use crate::words;

/// The list of tasks. Ticks are kept with the project.
#[component]
pub fn Tasks() -> impl IntoView {
    let desk = use_desk();
    let month = expect_context::<Month>();
    let order = expect_context::<RunOrder>();
    let tasks = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) => named(run, order),
            _ => Vec::new(),
        })
    };
    let like_this = move |_| {
        spawn_local(async move {
            if keeping::begin_like_this(desk).await {
                desk.place.set(Place::Desk);
            }
        });
    };
    view! {
        <h3>{words::tasks_title()}</h3>
        <ul class="tasks" role="list">
            {move || tasks().into_iter().map(|task| {
                let (task, name) = task;
                let id = task.id.clone();
                let is_done = move || month.ticks.with(|ticks| ticks.contains(&id));
                let id = task.id;
                view! {
                    <li>
                        <label class="task">
                            <input type="checkbox" prop:checked=is_done on:change=move |_| month.tick(&id) />
                            <span>{deed(&task.deed, name.as_deref())}</span>
                        </label>
                    </li>
                }
            }).collect_view()}
        </ul>
        <div class="button-row">
            <Show when=move || !month.ticks.with(BTreeSet::is_empty)>
                <button type="button" class="button" on:click=move |_| month.begin_again()>{words::tasks_again()}</button>
            </Show>
            <button type="button" class="button" on:click=like_this>{icon(Icon::Sheet)} <span>{words::sheet_like_this()}</span></button>
        </div>
        <p class="month-note">{words::sheet_like_this_text()}</p>
    }
}

/// The tasks, each remembered by its project, with the design's name where there are several.
fn named(run: &RunSheet, order: RunOrder) -> Vec<(Task, Option<String>)> {
    let with_name = |task: &Task| {
        let design = match task.deed {
            Deed::Print { design, .. } | Deed::Cut { design, .. } => Some(design),
            _ => None,
        };
        let Some(design) = design.filter(|_| run.designs.len() > 1) else { return (task.clone(), None) };
        let kind = task.id.split('-').next().unwrap_or_default();
        let id = format!("{kind}-{}", order.key(design));
        (
            Task { id, ..task.clone() },
            run.designs.get(design).map(|design| words::named(&design.name).to_owned()),
        )
    };
    run.tasks.iter().map(with_name).collect()
}

fn deed(deed: &Deed, name: Option<&str>) -> String {
    match *deed {
        Deed::Buy { packs } => words::buy_packs(packs),
        Deed::Try => words::try_setting().to_owned(),
        Deed::Print { pages, .. } => words::of_design(name, words::print_pages(pages)),
        Deed::Cut { pages, .. } => words::of_design(name, words::cut_pages(pages)),
        Deed::ChangeBlade { after_m } => words::change_blade(after_m),
        Deed::Pack { sheets } => words::pack_sheets(sheets),
    }
}
