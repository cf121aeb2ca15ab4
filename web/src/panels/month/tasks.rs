//! What is to be done for a run, to tick off.

use leptos::prelude::*;
use stickleaf_shop::run::Deed;

use crate::month::Month;
use crate::words;

/// The list of tasks. Ticks are kept with the project.
#[component]
pub fn Tasks() -> impl IntoView {
    let month = expect_context::<Month>();
    let tasks = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) => run.tasks.clone(),
            _ => Vec::new(),
        })
    };
    view! {
        <h3>{words::tasks_title()}</h3>
        <ul class="tasks" role="list">
            {move || tasks().into_iter().map(|task| {
                let id = task.id.clone();
                let is_done = move || month.ticks.with(|ticks| ticks.contains(&id));
                let id = task.id;
                view! {
                    <li>
                        <label class="task">
                            <input type="checkbox" prop:checked=is_done on:change=move |_| month.tick(&id) />
                            <span>{deed(&task.deed)}</span>
                        </label>
                    </li>
                }
            }).collect_view()}
        </ul>
    }
}

fn deed(deed: &Deed) -> String {
    match *deed {
        Deed::Buy { packs } => words::buy_packs(packs),
        Deed::Try => words::try_setting().to_owned(),
        Deed::Print { pages, .. } => words::print_pages(pages),
        Deed::Cut { pages, .. } => words::cut_pages(pages),
        Deed::ChangeBlade { after_m } => words::change_blade(after_m),
        Deed::Pack { sheets } => words::pack_sheets(sheets),
    }
}
