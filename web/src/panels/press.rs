//! The Press: everything that leaves, and what to mind.

mod bundle_card;
mod cut_card;
mod exports;
mod fineness_card;
mod guide_card;
pub mod made;
mod preview;
mod print_card;
mod sheet_card;
mod strip_card;

use leptos::prelude::*;
use stickleaf_sheet::{Layout, Rule};

use crate::icons::{Icon, icon};
use crate::panels::press::exports::Exports;
use crate::panels::press::preview::CutPreview;
use crate::panels::tally::{Tally, broken_count};
use crate::state::{Panel, Place, use_desk};
use crate::words;

/// The place where files are written.
#[component]
pub fn Press() -> impl IntoView {
    view! {
        <div class="press">
            <div class="tally-row"><Tally /></div>
            <CutPreview />
            <div class="press-side">
                <h2>{words::press_title()}</h2>
                <State />
                <Exports />
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
