//! One variant: its sheet, its figures, and the way to the desk.

use std::sync::Arc;

use kurbo::Size;
use leptos::prelude::*;
use stickleaf_sheet::Layout;

use crate::canvas::SheetPicture;
use crate::compare::{Card, CompareJob};
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::{Figures, PackAim};
use crate::month::Month;
use crate::room::shown_diameter;
use crate::state::use_desk;
use crate::words;

/// The card at this place in the row.
#[component]
pub fn VariantCard(index: usize, frame: Memo<Size>, is_earlier: Memo<bool>) -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<CompareJob>();
    let packing = expect_context::<Job>();
    let month = expect_context::<Month>();
    let card: Memo<Option<Card>> =
        Memo::new(move |_| job.comparison.with(|known| known.as_ref()?.cards.get(index).cloned()));
    let name_of = move |index: usize| {
        let unit = desk.unit.get();
        job.comparison.with(|known| {
            let card = known.as_ref().and_then(|known| known.cards.get(index));
            card.map(|card| words::change(&card.variant.change, unit)).unwrap_or_default()
        })
    };
    let name = Memo::new(move |_| name_of(index));
    let is_on_desk = Memo::new(move |_| {
        card.with(|card| {
            let change = card.as_ref().map(|card| &card.variant.change);
            change.is_some_and(|change| desk.layout.with(|layout| change.is_in(layout)))
        })
    });
    let layout = Memo::new(move |_| card.with(|card| card.as_ref().map(shown_layout).unwrap_or_default()));
    let refused = Memo::new(move |_| card.with(|card| card.as_ref().and_then(|card| card.refused.clone())));
    let figures = Memo::new(move |_| {
        card.with(|card| card.as_ref().and_then(|card| Some(card.best.as_ref()?.figures)))
    });
    let difference = Memo::new(move |_| {
        let difference = job.comparison.with(|known| known.as_ref()?.difference(index));
        difference.map(|difference| words::against_first(difference, &name_of(0)))
    });
    let aim = move || job.comparison.with(|known| known.as_ref().map_or(PackAim::Fill, |known| known.aim));
    // Reckoned when the search has ended: each better layout would mean a new order of its cuts.
    let costs = Memo::new(move |_| {
        let best = card.with(|card| {
            let best = card.as_ref().filter(|card| card.is_over)?.best.as_ref()?;
            Some(Arc::clone(&best.layout))
        })?;
        let (sheet, sticker) = month.costs_of(&best)?;
        let currency = month.settings.with(|settings| settings.currency.clone());
        Some((words::money_parts(sheet, &currency), words::money_parts(sticker, &currency)))
    });
    let remarks = move || {
        let unit = desk.unit.get();
        card.with(|card| {
            let remarks = card.iter().flat_map(|card| &card.variant.remarks);
            remarks.map(|remark| words::sentence(&words::remark(remark, unit))).collect::<Vec<String>>()
        })
    };
    let is_off = move || figures.get().is_none() || packing.is_packing();
    view! {
        <li class="variant" class:earlier=move || is_earlier.get()>
            <h3>{move || name.get()}</h3>
            {move || match refused.get() {
                Some(why) => view! {
                    <p class="variant-refused">{icon(Icon::Caution)} <span>{words::sentence(&why)}</span></p>
                }.into_any(),
                None => view! {
                    <SheetPicture layout frame label=Signal::derive(move || words::picture_of(&name.get())) />
                }.into_any(),
            }}
            {move || figures.get().map(|figures| view! { <FigureList figures aim=aim() difference costs /> })}
            {move || remarks().into_iter().map(|remark| view! { <p class="hint">{remark}</p> }).collect_view()}
            <CardProgress index has_figures=Signal::derive(move || figures.get().is_some()) />
            <Show when=move || is_earlier.get()>
                <p class="variant-tag earlier">{words::earlier_state()}</p>
            </Show>
            <Show when=move || is_on_desk.get() && !is_earlier.get()>
                <p class="variant-tag">{words::as_on_desk()}</p>
            </Show>
            <button
                type="button"
                class="button primary-soft"
                disabled=is_off
                aria-label=move || format!("{}: {}", words::put_it_on_desk(), name.get())
                on:click=move |_| job.choose(index)
            >
                {icon(Icon::Desk)} <span>{words::put_it_on_desk()}</span>
            </button>
        </li>
    }
}

/// The best so far, or the sheet before anything was packed on it.
fn shown_layout(card: &Card) -> Arc<Layout> {
    card.best.as_ref().map_or_else(|| Arc::new(card.variant.layout.clone()), |best| Arc::clone(&best.layout))
}

#[component]
fn FigureList(
    figures: Figures,
    aim: PackAim,
    difference: Memo<Option<String>>,
    /// What a sheet and a sticker cost, if that is known.
    costs: Memo<Option<(String, String)>>,
) -> impl IntoView {
    let unit = use_desk().unit;
    let gap = move || {
        figures.smallest_gap.map_or_else(|| words::no_gap().to_owned(), |gap| words::tenths(unit.get(), gap))
    };
    let dot = move || {
        let unit = unit.get();
        let told = figures.largest_dot.map(|mm| words::length(unit, shown_diameter(unit, mm)));
        told.unwrap_or_else(|| words::no_dot().to_owned())
    };
    let missing = (figures.missing > 0).then(|| words::not_placed_count(figures.missing));
    view! {
        <p class="variant-count">
            <strong>{words::count_of(&figures, aim)}</strong> " " <span>{words::ceiling_of(&figures)}</span>
        </p>
        <p class="variant-difference">{move || difference.get()}</p>
        {missing.map(|missing| view! { <p class="variant-missing">{icon(Icon::Caution)} <span>{missing}</span></p> })}
        <dl class="variant-figures">
            <div><dt>{words::density()}</dt><dd>{words::density_of(figures.density)}</dd></div>
            <div><dt>{words::gap_between_cuts()}</dt><dd>{gap}</dd></div>
            <div><dt>{words::largest_dot()}</dt><dd>{dot}</dd></div>
            {move || costs.get().map(|(sheet, sticker)| view! {
                <div><dt>{words::sheet_costs()}</dt><dd>{sheet}</dd></div>
                <div><dt>{words::sticker_costs()}</dt><dd>{sticker}</dd></div>
            })}
        </dl>
        <p class="variant-rules">{icon(Icon::Check)} <span>{words::all_rules_hold()}</span></p>
    }
}

/// How far this card is; nothing once it is done.
#[component]
fn CardProgress(index: usize, has_figures: Signal<bool>) -> impl IntoView {
    let job = expect_context::<CompareJob>();
    let part = Memo::new(move |_| {
        job.comparison.with(|known| {
            let known = known.as_ref()?;
            let card = known.cards.get(index)?;
            (!card.is_over).then(|| known.part_of(card))
        })
    });
    let word = move || match part.get() {
        Some(0.0) if !has_figures.get() => words::waiting().to_owned(),
        Some(part) => words::part_done(part),
        None => String::new(),
    };
    view! {
        <Show when=move || part.get().is_some()>
            <div class="variant-progress">
                <div class="progress-bar" aria-hidden="true">
                    <span style:width=move || format!("{:.1}%", 100.0 * part.get().unwrap_or(1.0))></span>
                </div>
                <span class="hint">{word}</span>
            </div>
        </Show>
    }
}
