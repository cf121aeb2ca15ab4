//! The shop's own file: saved to keep or to take elsewhere, and opened again.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_shop::shop_file::ShopFile;
use web_sys::File;

use crate::browser::download::download;
use crate::browser::files;
use crate::icons::{Icon, icon};
use crate::month::Month;
use crate::runs::Runs;
use crate::shop::Shop;
use crate::state::{Offer, use_desk};
use crate::trials::Trials;
use crate::words::{self, Told};

/// What the file is called when it is saved.
const FILE: &str = "stickleaf-shop.json";

/// Saves figures, page, blade log and runs in one file, and takes them from one.
#[component]
pub fn ShopFileButtons() -> impl IntoView {
    let desk = use_desk();
    let (month, shop, trials, runs) = (
        expect_context::<Month>(),
        expect_context::<Shop>(),
        expect_context::<Trials>(),
        expect_context::<Runs>(),
    );
    let save = move |_| {
        let file = ShopFile {
            settings: month.settings.get_untracked(),
            page: Some(shop.stock.get_untracked()),
            blade_log: trials.log.get_untracked(),
            history: runs.history.get_untracked(),
        };
        match download(FILE, "application/json", &file.write()) {
            Ok(()) => desk.say(words::saved(FILE), None),
            Err(_) => desk.say_trouble(words::save_failed()),
        }
    };
    let take = move |file: File| {
        spawn_local(async move {
            let name = file.name();
            let Ok(text) = files::text(&file).await else {
                return desk.say_trouble(words::could_not_read(&name));
            };
            let opened = match ShopFile::read(&text) {
                Ok(opened) => opened,
                Err(error) => return desk.say_trouble(words::shop_not_opened(&name, &error.told())),
            };
            if let Some(page) = opened.page {
                // It was looked at when the file was read.
                let _ = shop.change(|stock| *stock = page);
            }
            let entries = trials.add_new(opened.blade_log.entries);
            let made = runs.add_new(opened.history.runs);
            if month.put(opened.settings, month.sheets.get_untracked()).is_ok() {
                desk.say(words::shop_opened(&name, entries, made), Some(Offer::FiguresBack));
            }
        });
    };
    let input = NodeRef::<leptos::html::Input>::new();
    let chosen = move |_| {
        let file = input.get_untracked().and_then(|input| files::chosen(&input).into_iter().next());
        if let Some(file) = file {
            take(file);
        }
    };
    view! {
        <h3>{words::shop_file_title()}</h3>
        <p class="month-note">{words::shop_file_text()}</p>
        <div class="button-row">
            <button type="button" class="button" on:click=save>{icon(Icon::Save)} <span>{words::save_shop()}</span></button>
            <button type="button" class="button" on:click=move |_| if let Some(input) = input.get_untracked() { input.click() }>
                {icon(Icon::Open)} <span>{words::open_shop()}</span>
            </button>
            <input node_ref=input type="file" hidden accept=".json,application/json" on:change=chosen />
        </div>
    }
}
