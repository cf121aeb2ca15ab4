//! The earlier states of one project, to go back to.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Sheets;
use crate::icons::{Icon, icon};
use crate::keeping::{self, Version, when};
use crate::words;

/// Read when it is shown.
#[component]
pub fn Earlier(id: String) -> impl IntoView {
    let sheets = expect_context::<Sheets>();
    let versions: RwSignal<Option<Vec<Version>>> = RwSignal::new(None);
    {
        let id = id.clone();
        spawn_local(async move {
            // What cannot be read counts as none.
            let read = keeping::versions(sheets.desk, &id).await.unwrap_or_default();
            versions.try_set(Some(read));
        });
    }
    let line = move |version: Version| {
        let id = id.clone();
        let time = when(version.at_ms);
        let facts = format!("{}, {}", words::occasion(version.occasion), words::pieces(version.pieces));
        view! {
            <li class="earlier-line">
                <span class="earlier-facts"><strong>{time.clone()}</strong> <span>{facts}</span></span>
                <button
                    type="button"
                    class="button"
                    aria-label=words::of_sheet(words::go_back(), &time)
                    on:click=move |_| keeping::go_back(sheets.desk, id.clone(), version.clone())
                >
                    {icon(Icon::Undo)} <span>{words::go_back()}</span>
                </button>
            </li>
        }
    };
    view! {
        <div class="sheet-below">
            {move || versions.get().map(|versions| {
                if versions.is_empty() {
                    view! { <p class="hint">{words::no_earlier_states()}</p> }.into_any()
                } else {
                    let lines = versions.into_iter().map(line.clone()).collect_view();
                    view! { <ul class="earlier" role="list" aria-label=words::earlier_states()>{lines}</ul> }.into_any()
                }
            })}
        </div>
    }
}
