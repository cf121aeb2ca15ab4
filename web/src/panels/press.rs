//! The Press: everything that leaves, and what to mind.

use leptos::prelude::*;
use stickleaf_outline::path;
use stickleaf_press::cut::{self, CutOptions, Depths};
use stickleaf_sheet::{Layout, Rule};

use crate::browser::download::{download, file_stem};
use crate::icons::{Icon, icon};
use crate::panels::tally::{Tally, broken_count};
use crate::state::{Desk, Panel, Place, use_desk};
use crate::words;

/// Something that can be saved.
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

const EXPORTS: [Export; 4] = [
    Export {
        button: words::save_placement,
        text: words::placement_text,
        ending: ".placement.json",
        media_type: "application/json",
        write: |layout| stickleaf_files::placement_file::write(layout, env!("CARGO_PKG_VERSION")),
        needs_pieces: true,
    },
    Export {
        button: words::save_cut,
        text: words::cut_text,
        ending: ".cut.svg",
        media_type: "image/svg+xml",
        write: |layout| cut::write(layout, &cut::plan(layout, &CutOptions::default()), Depths::All),
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
    Export {
        button: words::save_layout,
        text: words::layout_text,
        ending: ".layout.json",
        media_type: "application/json",
        write: stickleaf_files::write,
        needs_pieces: false,
    },
];

/// The place where files are written.
#[component]
pub fn Press() -> impl IntoView {
    let desk = use_desk();
    let has_pieces = Memo::new(move |_| desk.layout.with(|layout| !layout.pieces.is_empty()));
    view! {
        <div class="press">
            <div class="tally-row"><Tally /></div>
            <CutPreview />
            <div class="press-side">
                <h2>{words::press_title()}</h2>
                <State />
                <ul class="exports" role="list">
                    {EXPORTS.into_iter().map(|export| view! { <ExportCard export has_pieces /> }).collect_view()}
                </ul>
                <Cautions />
            </div>
        </div>
    }
}

/// What stands in the way, if anything.
#[component]
fn State() -> impl IntoView {
    let desk = use_desk();
    let broken = Memo::new(move |_| desk.read(|editor| broken_count(editor.findings())));
    let is_empty = Memo::new(move |_| desk.layout.with(|layout| layout.pieces.is_empty()));
    let rough = Memo::new(move |_| desk.layout.with(rough_count));
    let show = move |_| {
        desk.panel.set(Some(Panel::Findings));
        desk.place.set(Place::Desk);
    };
    view! {
        <Show when=move || is_empty.get()>
            <p class="press-note">{icon(Icon::Caution)} <span>{words::nothing_on_sheet()}</span></p>
        </Show>
        <Show when=move || rough.get() != 0>
            <p class="press-note">{icon(Icon::Caution)} <span>{move || words::rough_on_press(rough.get())}</span></p>
        </Show>
        <Show when=move || broken.get() != 0>
            <p class="press-note broken">
                {icon(Icon::Caution)}
                <span>{move || words::broken_on_press(broken.get())}</span>
                <button type="button" class="button" on:click=show>{words::go_to_findings()}</button>
            </p>
        </Show>
    }
}

/// How many pieces only stand for drawings that are still to be made.
fn rough_count(layout: &Layout) -> usize {
    let is_rough = |id: &str| layout.sticker(id).is_some_and(|sticker| sticker.is_rough);
    layout.pieces.iter().filter(|piece| is_rough(&piece.sticker)).count()
}

#[component]
fn ExportCard(export: Export, has_pieces: Memo<bool>) -> impl IntoView {
    let desk = use_desk();
    let name = Memo::new(move |_| {
        desk.layout.with(|layout| format!("{}{}", file_stem(&layout.name), export.ending))
    });
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

fn save(desk: Desk, export: Export, name: &str) {
    let text = desk.peek(|editor| (export.write)(editor.layout()));
    match download(name, export.media_type, &text) {
        Ok(()) => desk.say(words::saved(name), None),
        Err(_) => desk.say_trouble(words::save_failed()),
    }
}

/// The cut lines as they will be written.
#[component]
fn CutPreview() -> impl IntoView {
    let desk = use_desk();
    let unit = desk.unit;
    let sheet = Memo::new(move |_| desk.layout.with(|layout| layout.sheet));
    let lines = Memo::new(move |_| {
        desk.read(|editor| {
            editor.lines().iter().map(|line| path::write(line.points())).collect::<Vec<String>>()
        })
    });
    let view_box = move || {
        let sheet = sheet.get();
        format!("-2 -2 {} {}", sheet.width + 4.0, sheet.height + 4.0)
    };
    let size = move || {
        let (sheet, unit) = (sheet.get(), unit.get());
        let size = words::size(&unit.number(sheet.width), &unit.number(sheet.height), unit.symbol());
        words::pieces_and_size(lines.with(Vec::len), &size)
    };
    view! {
        <figure class="cut-preview">
            <svg viewBox=view_box role="img" aria-label=words::cutting_preview()>
                <rect
                    class="through"
                    width=move || sheet.get().width
                    height=move || sheet.get().height
                    rx=move || sheet.get().corner_radius
                ></rect>
                {move || lines.get().into_iter().map(|data| view! { <path class="kiss" d=data></path> }).collect_view()}
            </svg>
            <figcaption>
                <span>{size}</span>
                <span class="key"><i class="key-kiss"></i>{words::kiss_line()}</span>
                <span class="key"><i class="key-through"></i>{words::through_line()}</span>
            </figcaption>
        </figure>
    }
}

#[component]
fn Cautions() -> impl IntoView {
    let desk = use_desk();
    let small = Memo::new(move |_| {
        desk.read(|editor| {
            let mut small: Vec<_> = editor
                .findings()
                .iter()
                .filter(|finding| finding.rule == Rule::SmallPart)
                .filter_map(|finding| finding.sticker.clone())
                .collect();
            small.sort();
            small.dedup();
            small.len()
        })
    });
    view! {
        <section class="cautions">
            <h3>{icon(Icon::Caution)} <span>{words::cautions()}</span></h3>
            <p>{words::caution_blade()}</p>
            <p>{words::caution_passes()}</p>
            <p>{words::caution_small()} " " {move || (small.get() > 0).then(|| words::small_parts(small.get()))}</p>
        </section>
    }
}
