//! Compare: variants of the sheet side by side, and what each costs in stickers.

mod card;
mod run;
mod setup;

use kurbo::Size;
use leptos::html;
use leptos::prelude::*;
use stickleaf_sheet::Change;

use self::card::VariantCard;
use self::run::RunBar;
use self::setup::Setup;
use crate::compare::{CompareJob, Comparison};
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::state::{Place, use_desk};
use crate::words;

/// The place where variants are compared.
#[component]
pub fn Compare() -> impl IntoView {
    let desk = use_desk();
    let results = NodeRef::<html::Section>::new();
    let is_empty = Memo::new(move |_| desk.layout.with(|layout| layout.stickers.is_empty()));
    view! {
        <div class="compare">
            <div class="compare-scroll">
                <section class="compare-setup" aria-label=words::what_to_compare()>
                    <h2>{words::compare_title()}</h2>
                    <p class="hint">{words::compare_hint()}</p>
                    <Show when=move || !is_empty.get() fallback=NoStickers>
                        <Setup />
                    </Show>
                </section>
                <section class="compare-results" aria-label=words::variants() node_ref=results>
                    <Results />
                </section>
            </div>
            <RunBar results />
        </div>
    }
}

#[component]
fn NoStickers() -> impl IntoView {
    let desk = use_desk();
    view! {
        <p class="press-note">
            {icon(Icon::Caution)} <span>{words::compare_needs_stickers()}</span>
            <button type="button" class="button" on:click=move |_| desk.place.set(Place::Desk)>
                {words::go_to_desk()}
            </button>
        </p>
    }
}

/// The cards, and whether they are still about the sheet as it is.
#[component]
fn Results() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<CompareJob>();
    let count =
        Memo::new(move |_| job.comparison.with(|known| known.as_ref().map_or(0, |known| known.cards.len())));
    let is_earlier = Memo::new(move |_| {
        job.comparison.with(|known| {
            let is_still_of = |known: &Comparison| desk.layout.with(|layout| known.is_still_of(layout));
            known.as_ref().is_some_and(|known| !is_still_of(known))
        })
    });
    let frame = Memo::new(move |_| job.comparison.with(|known| known.as_ref().map_or(Size::ZERO, frame)));
    let said = Memo::new(move |_| {
        job.comparison.with(|known| {
            known.as_ref().map_or_else(String::new, |known| all_in_words(known, desk.unit.get()))
        })
    });
    let is_stopped = Memo::new(move |_| {
        job.comparison.with(|known| known.as_ref().is_some_and(|known| known.is_over && known.is_stopped))
    });
    view! {
        <Show when=move || is_earlier.get()>
            <EarlierNote />
        </Show>
        <Show when=move || is_stopped.get()>
            <p class="compare-stopped">{words::stopped_early()}</p>
        </Show>
        <p class="word-hidden" role="status">{move || said.get()}</p>
        <ul class="variants" role="list" aria-label=words::variants()>
            {move || (0..count.get()).map(|index| view! { <VariantCard index frame is_earlier /> }).collect_view()}
        </ul>
    }
}

/// The cards tell of an earlier state of the sheet: the same can be compared again.
#[component]
fn EarlierNote() -> impl IntoView {
    let job = expect_context::<CompareJob>();
    let packing = expect_context::<Job>();
    let again = move |_| {
        let changes: Vec<Change> = job.comparison.with_untracked(|known| {
            let cards = known.iter().flat_map(|known| &known.cards);
            cards.map(|card| card.variant.change.clone()).collect()
        });
        job.start(&changes);
    };
    view! {
        <p class="press-note">
            {icon(Icon::Caution)} <span>{words::sheet_has_changed()}</span>
            <button
                type="button"
                class="button"
                disabled=move || job.is_running() || packing.is_packing()
                on:click=again
            >
                {words::compare_again()}
            </button>
        </p>
    }
}

/// The size that holds every sheet, in millimetres.
fn frame(comparison: &Comparison) -> Size {
    let sheets = comparison.cards.iter().map(|card| card.variant.layout.sheet);
    sheets.fold(Size::ZERO, |frame, sheet| {
        Size::new(frame.width.max(sheet.width), frame.height.max(sheet.height))
    })
}

/// What all cards have come to, said once when they are done; nothing before.
fn all_in_words(comparison: &Comparison, unit: stickleaf_sheet::LengthUnit) -> String {
    if !comparison.is_over {
        return String::new();
    }
    let result = |card: &crate::compare::Card| {
        let count = card.best.as_ref().map(|best| words::count_of(&best.figures, comparison.aim));
        (words::change(&card.variant.change, unit), count.unwrap_or_else(|| words::nothing_yet().to_owned()))
    };
    words::compared(&comparison.cards.iter().map(result).collect::<Vec<_>>())
}
