//! One project of the list, and what can be done with it.

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::Sheets;
use super::earlier::Earlier;
use crate::browser::time;
use crate::icons::{Icon, icon};
use crate::keeping::{self, Project, when};
use crate::panels::fields::TextField;
use crate::samples::Samples;
use crate::state::Offer;
use crate::words;

/// What is open below a project's line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Below {
    Nothing,
    Name,
    Earlier,
}

#[component]
pub fn Row(project: Project) -> impl IntoView {
    let sheets = expect_context::<Sheets>();
    let desk = sheets.desk;
    let below = RwSignal::new(Below::Nothing);
    let Project { id, name, changed_ms, stickers, pieces, thumbnail, .. } = project;
    let own_id = id.clone();
    let is_on_desk = Memo::new(move |_| {
        desk.keeping.project.with(|project| project.as_ref().is_some_and(|project| project.id == own_id))
    });
    let open = {
        let (id, name) = (id.clone(), name.clone());
        move |_| {
            let (id, name) = (id.clone(), name.clone());
            spawn_local(async move {
                match keeping::open(desk, &id).await {
                    Ok(()) => {
                        sheets.close();
                        desk.say(words::sheet_is_open(&name), None);
                    }
                    Err(why) => desk.say_trouble(words::could_not_open_project(why)),
                }
            });
        }
    };
    view! {
        <li class="sheet-row" class:on-desk=move || is_on_desk.get()>
            <button type="button" class="sheet-open" aria-label=words::open_sheet(&name) on:click=open>
                <span class="sheet-thumbnail">
                    {(!thumbnail.is_empty()).then(|| view! { <img src=thumbnail alt="" /> })}
                </span>
                <span class="sheet-facts">
                    <strong>{words::named(&name).to_owned()}</strong>
                    <span>{words::changed(&when(changed_ms))}</span>
                    <span>{words::stickers_and_pieces(stickers, pieces)}</span>
                    <Show when=move || is_on_desk.get()>
                        <span class="sheet-mark">{icon(Icon::Check)} {words::on_the_desk()}</span>
                    </Show>
                </span>
            </button>
            <Deeds id=id.clone() name=name.clone() below />
            {move || match below.get() {
                Below::Nothing => ().into_any(),
                Below::Name => view! { <NewName id=id.clone() name=name.clone() below /> }.into_any(),
                Below::Earlier => view! { <Earlier id=id.clone() /> }.into_any(),
            }}
        </li>
    }
}

#[component]
fn Deeds(id: String, name: String, below: RwSignal<Below>) -> impl IntoView {
    let sheets = expect_context::<Sheets>();
    let samples = expect_context::<Samples>();
    let desk = sheets.desk;
    let toggle =
        move |what: Below| below.update(|below| *below = if *below == what { Below::Nothing } else { what });
    let duplicate = {
        let id = id.clone();
        move |_| {
            let id = id.clone();
            spawn_local(async move {
                match keeping::duplicate(desk, &id).await {
                    Ok(name) => desk.say(words::sheet_is_copied(&name), None),
                    Err(why) => desk.say_trouble(words::could_not_do(words::duplicate_sheet(), why)),
                }
            });
        }
    };
    let delete = {
        let name = name.clone();
        move |_| {
            let (id, name) = (id.clone(), name.clone());
            spawn_local(async move {
                match keeping::delete(desk, samples, &id).await {
                    Ok(false) => desk.say(words::sheet_is_gone(&name), None),
                    Ok(true) => {
                        desk.say(words::sheet_is_deleted(&name), Some(Offer::UndoDelete));
                        // The button that had the focus goes with its line.
                        focus_soon(".my-sheets .notice .button");
                    }
                    Err(why) => desk.say_trouble(words::could_not_do(words::delete(), why)),
                }
            });
        }
    };
    let label = |deed: &str| words::of_sheet(deed, &name);
    view! {
        <div class="sheet-deeds">
            <button
                type="button" class="button bare" aria-label=label(words::earlier_states())
                aria-expanded=move || (below.get() == Below::Earlier).to_string()
                on:click=move |_| toggle(Below::Earlier)
            >
                {icon(Icon::Earlier)} <span>{words::earlier_states()}</span>
            </button>
            <button
                type="button" class="button bare" aria-label=label(words::rename())
                aria-expanded=move || (below.get() == Below::Name).to_string()
                on:click=move |_| toggle(Below::Name)
            >
                {icon(Icon::Draw)} <span class="deed-word">{words::rename()}</span>
            </button>
            <button type="button" class="button bare" aria-label=label(words::duplicate_sheet()) on:click=duplicate>
                {icon(Icon::Duplicate)} <span class="deed-word">{words::duplicate_sheet()}</span>
            </button>
            <button type="button" class="button bare" aria-label=label(words::delete()) on:click=delete>
                {icon(Icon::Remove)} <span class="deed-word">{words::delete()}</span>
            </button>
        </div>
    }
}

#[component]
fn NewName(id: String, name: String, below: RwSignal<Below>) -> impl IntoView {
    let sheets = expect_context::<Sheets>();
    let take = move |name: String| {
        let id = id.clone();
        spawn_local(async move {
            match keeping::rename(sheets.desk, &id, name.trim()).await {
                Ok(()) => below.set(Below::Nothing),
                Err(why) => sheets.desk.say_trouble(words::could_not_do(words::rename(), why)),
            }
        });
        Ok(())
    };
    focus_soon(".sheet-below input");
    view! {
        <div class="sheet-below">
            <TextField label=words::new_name() text=Signal::stored(name) take=Callback::new(take) />
        </div>
    }
}

/// Gives the focus to the first element like this, once it is there.
fn focus_soon(selector: &'static str) {
    time::after(0, move || {
        if let Ok(Some(element)) = document().query_selector(selector) {
            let _ = element.unchecked_into::<HtmlElement>().focus();
        }
    });
}
