//! All keys and gestures, in a dialog.

use leptos::prelude::*;
use stickleaf_editor::{Step, Stride};
use stickleaf_sheet::LengthUnit;

use crate::icons::{Icon, icon};
use crate::panels::modal::{keep_focus, modal};
use crate::state::use_desk;
use crate::words;

/// Shown while the desk's `keys_are_shown` says so.
#[component]
pub fn KeysDialog() -> impl IntoView {
    let desk = use_desk();
    let is_open = desk.keys_are_shown;
    let dialog = modal(is_open.into());
    let closed = move |_| {
        is_open.set(false);
        keep_focus();
    };
    view! {
        <dialog class="dialog keys-dialog" node_ref=dialog aria-labelledby="keys-title" on:close=closed>
            <h2 id="keys-title">{words::keys()}</h2>
            <Show when=move || is_open.get()>
                <KeyList title=words::keys_sheet() rows=with_steps(desk.unit.get(), desk.habits.get().step) />
                <KeyList title=words::keys_pointer() rows=owned(&words::pointer_keys()) />
                <KeyList title=words::keys_fingers() rows=owned(&words::finger_keys()) />
                <KeyList title=words::keys_page() rows=owned(&words::page_keys()) />
                <p class="hint">{words::keys_hint()}</p>
            </Show>
            <div class="dialog-buttons">
                <button type="button" class="button" autofocus on:click=move |_| is_open.set(false)>
                    {icon(Icon::Close)} <span>{words::close()}</span>
                </button>
            </div>
        </dialog>
    }
}

#[component]
fn KeyList(title: &'static str, rows: Vec<(String, String)>) -> impl IntoView {
    let row = |(keys, deed): (String, String)| {
        view! {
            <div class="key-row">
                <dt>{keys}</dt>
                <dd>{deed}</dd>
            </div>
        }
    };
    view! {
        <section class="key-list">
            <h3>{title}</h3>
            <dl>{rows.into_iter().map(row).collect_view()}</dl>
        </section>
    }
}

/// The keys of the sheet, the moving ones with the steps that they really make.
fn with_steps(unit: LengthUnit, usual: Step) -> Vec<(String, String)> {
    let length = |stride: Stride| words::length(unit, stride.length(usual));
    let degrees = |stride: Stride| words::with_decimal_sign(&stride.degrees(usual).to_string());
    let step = |stride: Stride| words::key_step(&length(stride), &degrees(stride));
    let moving = [
        (words::keys_move(), words::moves(&length(Stride::Plain))),
        (words::keys_turn(), words::turns(&degrees(Stride::Plain))),
        (words::keys_coarse(), step(Stride::Coarse)),
        (words::keys_fine(), step(Stride::Fine)),
    ];
    let moving = moving.into_iter().map(|(keys, deed)| (keys.to_owned(), deed));
    moving.chain(owned(&words::sheet_keys())).collect()
}

fn owned(rows: &[(&str, &str)]) -> Vec<(String, String)> {
    rows.iter().map(|&(keys, deed)| (keys.to_owned(), deed.to_owned())).collect()
}
