//! The designs of a run: other sheets that are kept, beside the one on the desk.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_shop::run::RunSheet;

use crate::icons::{Icon, icon};
use crate::keeping::{self, Project};
use crate::month::Month;
use crate::panels::fields::NumberField;
use crate::run_order::{Other, RunOrder};
use crate::state::use_desk;
use crate::words;

/// How many sheets of others are made with those of the one on the desk, and what else may be.
#[component]
pub fn Others() -> impl IntoView {
    let order = expect_context::<RunOrder>();
    let ids = Memo::new(move |_| {
        order.others.with(|others| others.iter().map(|other| other.id.clone()).collect::<Vec<String>>())
    });
    view! {
        {move || ids.get().into_iter().map(|id| view! { <OtherSheets id /> }).collect_view()}
        <AddSheet />
    }
}

/// A number of sheets, or why it is none.
fn whole(sheets: f64) -> Result<u64, String> {
    let is_count = sheets.fract() == 0.0 && (1.0..=1e6).contains(&sheets);
    if is_count { Ok(sheets as u64) } else { Err(words::whole_number().to_owned()) }
}

#[component]
fn OtherSheets(id: String) -> impl IntoView {
    let order = expect_context::<RunOrder>();
    let id = StoredValue::new(id);
    let look = move |of: fn(&Other) -> u64| {
        order
            .others
            .with(|others| id.with_value(|id| others.iter().find(|other| other.id == *id).map_or(1, of)))
    };
    let name = order.others.with_untracked(|others| {
        id.with_value(|id| others.iter().find(|other| other.id == *id).map(|other| other.layout.name.clone()))
    });
    let name = words::named(&name.unwrap_or_default()).to_owned();
    let value = Signal::derive(move || look(|other| other.sheets) as f64);
    let take = move |sheets: f64| whole(sheets).map(|sheets| id.with_value(|id| order.set_other(id, sheets)));
    let remove = move |_| id.with_value(|id| order.remove(id));
    view! {
        <div class="other-sheets">
            <NumberField label=words::sheets_of(&name) value take=Callback::new(take) />
            <button type="button" class="button bare" aria-label=words::out_of_run(&name) on:click=remove>{icon(Icon::Remove)}</button>
        </div>
    }
}

/// The other kept sheets, to be put into the run.
#[component]
fn AddSheet() -> impl IntoView {
    let desk = use_desk();
    let order = expect_context::<RunOrder>();
    let kept: RwSignal<Option<Vec<Project>>> = RwSignal::new(None);
    let refresh = move || {
        spawn_local(async move {
            match keeping::list(desk).await {
                Ok(all) => kept.set(Some(all)),
                Err(_) => desk.say_trouble(words::list_failed()),
            }
        });
    };
    let others = move || {
        let own = desk.keeping.project.with(|project| project.as_ref().map(|project| project.id.clone()));
        let is_free = |project: &Project| {
            Some(&project.id) != own.as_ref()
                && project.pieces > 0
                && order.others.with(|others| others.iter().all(|other| other.id != project.id))
        };
        kept.get().map(|all| all.into_iter().filter(is_free).collect::<Vec<Project>>())
    };
    let add = move |id: String, name: String| {
        spawn_local(async move {
            if let Err(why) = order.add(&id).await {
                desk.say_trouble(words::could_not_do(&words::sheets_of(words::named(&name)), why));
            }
        });
    };
    view! {
        <details class="add-sheet" on:toggle=move |_| refresh()>
            <summary>{icon(Icon::Plus)} <span>{words::add_sheet()}</span></summary>
            {move || match others() {
                Some(others) if others.is_empty() => view! { <p class="month-note">{words::no_other_sheets()}</p> }.into_any(),
                Some(others) => view! {
                    <div class="chips" role="group" aria-label=words::add_sheet()>
                        {others.into_iter().map(|project| {
                            let name = words::named(&project.name).to_owned();
                            let (id, own) = (project.id.clone(), project.name.clone());
                            view! {
                                <button type="button" class="chip" on:click=move |_| add(id.clone(), own.clone())>{name}</button>
                            }
                        }).collect_view()}
                    </div>
                }.into_any(),
                None => ().into_any(),
            }}
        </details>
    }
}

/// Each design of a run of several, in the order in which they are made: sheets, pages, and how long they take.
#[component]
pub fn DesignTable() -> impl IntoView {
    let month = expect_context::<Month>();
    let rows = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) if run.designs.len() > 1 => rows(run),
            _ => Vec::new(),
        })
    };
    let without = move || {
        month.run.with(|run| match run {
            Some(Ok(run)) => without_page(run),
            _ => Vec::new(),
        })
    };
    view! {
        <Show when=move || !rows().is_empty()>
            <h3>{words::order_title()}</h3>
            <table class="costs designs">
                <thead>
                    <tr>
                        <th scope="col">{words::design_word()}</th>
                        <th scope="col">{words::sheets_word()}</th>
                        <th scope="col">{words::pages_word()}</th>
                        <th scope="col">{words::cutting_word()}</th>
                    </tr>
                </thead>
                <tbody>
                    {move || rows().into_iter().map(|[name, sheets, pages, cutting]| view! {
                        <tr><th scope="row">{name}</th><td>{sheets}</td><td>{pages}</td><td>{cutting}</td></tr>
                    }).collect_view()}
                </tbody>
            </table>
        </Show>
        {move || without().into_iter().map(|name| view! {
            <p class="press-note">{icon(Icon::Caution)} <span>{words::no_page_for(&name)}</span></p>
        }).collect_view()}
    }
}

fn rows(run: &RunSheet) -> Vec<[String; 4]> {
    let row = |&design: &usize| {
        let design = &run.designs[design];
        let cutting = words::duration(design.page_cut_s * design.pages as f64);
        [words::named(&design.name).to_owned(), design.sheets.to_string(), design.pages.to_string(), cutting]
    };
    run.schedule.order.iter().map(row).collect()
}

/// The designs of which no sheet lies on a page.
fn without_page(run: &RunSheet) -> Vec<String> {
    run.designs
        .iter()
        .filter(|design| design.pages == 0)
        .map(|design| words::named(&design.name).to_owned())
        .collect()
}
