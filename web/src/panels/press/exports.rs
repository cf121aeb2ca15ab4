//! What can be saved, in the order in which it is needed: to draw on, to print, to cut, to keep.

use leptos::prelude::*;
use stickleaf_sheet::Layout;

use crate::browser::download::{download, file_stem};
use crate::icons::{Icon, icon};
use crate::panels::press::bundle_card::BundleCard;
use crate::panels::press::cut_card::CutCard;
use crate::panels::press::fineness_card::FinenessCard;
use crate::panels::press::guide_card::GuideCard;
use crate::panels::press::print_card::PrintCard;
use crate::panels::press::sheet_card::SheetCard;
use crate::panels::press::strip_card::StripCard;
use crate::state::{Desk, use_desk};
use crate::words;

/// A text that is written at once.
#[derive(Clone, Copy)]
struct Export {
    button: fn() -> &'static str,
    text: fn() -> &'static str,
    /// What is put behind the layout's name to make the file's.
    ending: &'static str,
    media_type: &'static str,
    write: fn(&Layout) -> String,
    /// Whether there is nothing to write without pieces.
    needs_pieces: bool,
}

const KEEP: [Export; 3] = [
    Export {
        button: words::save_layout,
        text: words::layout_text,
        ending: ".layout.json",
        media_type: "application/json",
        write: stickleaf_files::write,
        needs_pieces: false,
    },
    Export {
        button: words::save_placement,
        text: words::placement_text,
        ending: ".placement.json",
        media_type: "application/json",
        write: |layout| stickleaf_files::placement_file::write(layout, env!("CARGO_PKG_VERSION")),
        needs_pieces: true,
    },
    Export {
        button: words::save_table,
        text: words::table_text,
        ending: ".table.csv",
        media_type: "text/csv;charset=utf-8",
        write: stickleaf_files::table::write,
        needs_pieces: true,
    },
];

/// Everything that can be saved.
#[component]
pub fn Exports() -> impl IntoView {
    view! {
        <h3 class="export-group">{words::to_draw_on()}</h3>
        <ul class="exports" role="list">
            <GuideCard />
        </ul>
        <h3 class="export-group">{words::to_print()}</h3>
        <ul class="exports" role="list">
            <FinenessCard />
            <PrintCard />
            <SheetCard />
            <StripCard />
        </ul>
        <h3 class="export-group">{words::to_cut()}</h3>
        <ul class="exports" role="list">
            <CutCard />
        </ul>
        <h3 class="export-group">{words::to_keep()}</h3>
        <ul class="exports" role="list">
            <BundleCard />
            {KEEP.map(|export| view! { <ExportCard export /> }).collect_view()}
        </ul>
    }
}

#[component]
fn ExportCard(export: Export) -> impl IntoView {
    let desk = use_desk();
    let has_pieces = Memo::new(move |_| desk.layout.with(|layout| !layout.pieces.is_empty()));
    let name = file_name(desk, Signal::stored(export.ending));
    let is_off = move || export.needs_pieces && !has_pieces.get();
    view! {
        <li class="export">
            <div class="export-text">
                <strong>{move || name.get()}</strong>
                <p>{(export.text)()}</p>
            </div>
            <button type="button" class="button primary-soft" disabled=is_off on:click=move |_| save(desk, export, &name.get_untracked())>
                {icon(Icon::Save)} <span>{(export.button)()}</span>
            </button>
        </li>
    }
}

/// The name of a file made of the layout's.
pub fn file_name(desk: Desk, ending: Signal<&'static str>) -> Memo<String> {
    Memo::new(move |_| desk.layout.with(|layout| format!("{}{}", file_stem(&layout.name), ending.get())))
}

fn save(desk: Desk, export: Export, name: &str) {
    let text = desk.peek(|editor| (export.write)(editor.layout()));
    save_text(desk, name, export.media_type, &text);
}

/// Saves a text under this name, and says so.
pub fn save_text(desk: Desk, name: &str, media_type: &str, text: &str) {
    match download(name, media_type, text) {
        Ok(()) => desk.say(words::saved(name), None),
        Err(_) => desk.say_trouble(words::save_failed()),
    }
}
