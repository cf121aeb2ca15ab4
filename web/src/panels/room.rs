//! The empty room: a switch, and the list of what would fit.

use leptos::html;
use leptos::prelude::*;
use stickleaf_outline::Turn;

use crate::icons::{Icon, icon};
use crate::messages::{RoomDot, RoomFit, RoomFound};
use crate::panels::drawer::panels_are_a_drawer;
use crate::room::{RoomFinder, put_dot, put_fit, shown_diameter};
use crate::state::{Desk, use_desk};
use crate::words;

/// So many stickers are listed at once; the others are there to be unfolded.
const LISTED: usize = 6;

/// Shows and hides the empty room; below it what would fit, the best first.
#[component]
pub fn EmptyRoom() -> impl IntoView {
    let desk = use_desk();
    let finder = expect_context::<RoomFinder>();
    let switch = NodeRef::<html::Button>::new();
    let is_shown = move || finder.is_shown.get();
    view! {
        <section class="room" aria-label=words::empty_room()>
            <button
                type="button"
                class="button"
                node_ref=switch
                aria-pressed=move || is_shown().to_string()
                on:click=move |_| finder.is_shown.update(|is_shown| *is_shown = !*is_shown)
            >
                {icon(Icon::Room)} <span>{words::show_empty_room()}</span>
            </button>
            <p class="hint" role="status">{move || summary(desk, finder)}</p>
            {move || finder.fresh.get().map(|found| view! { <Found found switch /> })}
        </section>
    }
}

/// What was found in one sentence; nothing while nothing is shown.
fn summary(desk: Desk, finder: RoomFinder) -> String {
    if !finder.is_shown.get() {
        return String::new();
    }
    finder.fresh.with(|found| match found {
        Some(found) => {
            let full = found.fits.iter().filter(|fit| fit.scale == 1.0).count();
            let least = desk.length(found.least);
            words::room_found(found.dots.len(), &least, full, found.fits.len() - full)
        }
        None if desk.read(|editor| editor.is_previewing()) => words::room_after_packing().to_owned(),
        None => words::looking_for_room().to_owned(),
    })
}

#[component]
fn Found(found: RoomFound, switch: NodeRef<html::Button>) -> impl IntoView {
    let RoomFound { dots, fits, .. } = found;
    let (has_dots, has_fits) = (!dots.is_empty(), !fits.is_empty());
    let (first, others) = (fits.iter().take(LISTED).cloned(), fits.iter().skip(LISTED).cloned());
    let line = move |fit: RoomFit| view! { <FitLine fit switch /> };
    let others: Vec<_> = others.map(line).collect();
    let more = words::more(others.len());
    view! {
        {has_dots.then(|| view! {
            <ul class="room-list" role="list" aria-label=words::room_dots()>
                {dots.into_iter().map(|dot| view! { <DotLine dot switch /> }).collect_view()}
            </ul>
        })}
        {has_fits.then(|| view! {
            <h3>{words::room_stickers()}</h3>
            <ul class="room-list" role="list" aria-label=words::room_stickers()>
                {first.map(line).collect_view()}
            </ul>
        })}
        {(!others.is_empty()).then(|| view! {
            <details class="more">
                <summary>{more.clone()} <span class="turner">{icon(Icon::Down)}</span></summary>
                <ul class="room-list" role="list" aria-label=more>{others}</ul>
            </details>
        })}
        {has_fits.then(|| view! { <p class="hint">{words::room_hint()}</p> })}
    }
}

#[component]
fn DotLine(dot: RoomDot, switch: NodeRef<html::Button>) -> impl IntoView {
    let desk = use_desk();
    let text = move || {
        let unit = desk.unit.get();
        words::dot_of(&words::length(unit, shown_diameter(unit, dot.diameter)))
    };
    let place = move || {
        // To a tenth of a millimetre: enough to find it by.
        let unit = desk.unit.get();
        let tenths = |mm: f64| (mm * 10.0).round() / 10.0;
        words::piece_place(&words::number(unit, tenths(dot.x)), &words::length(unit, tenths(dot.y)), 0.0)
    };
    let put = move |_| {
        put_dot(desk, dot);
        done(desk, switch);
    };
    view! {
        <li>
            <button type="button" class="piece-line room-line" on:click=put>
                {icon(Icon::Plus)} <span class="room-name">{text}</span> <span class="piece-place">{place}</span>
            </button>
        </li>
    }
}

#[component]
fn FitLine(fit: RoomFit, switch: NodeRef<html::Button>) -> impl IntoView {
    let desk = use_desk();
    let name = desk.layout.with_untracked(|layout| {
        layout.sticker(&fit.sticker).map_or_else(|| fit.sticker.clone(), |sticker| sticker.name.clone())
    });
    if fit.scale < 1.0 {
        return view! { <li class="room-smaller">{words::fits_smaller(&name, fit.scale)}</li> }.into_any();
    }
    let degrees = Turn::degrees(fit.degrees).to_signed_degrees();
    let text = words::fits_full(&name, degrees, fit.mirrored);
    let put = move |_| {
        put_fit(desk, &name, &fit);
        done(desk, switch);
    };
    view! {
        <li>
            <button type="button" class="piece-line room-line" on:click=put>
                {icon(Icon::Plus)} <span class="room-name">{text}</span>
            </button>
        </li>
    }
    .into_any()
}

/// After a piece was put on the sheet: a drawer makes way for it, else the focus stays in the panel.
fn done(desk: Desk, switch: NodeRef<html::Button>) {
    if panels_are_a_drawer() {
        desk.panel.set(None);
    } else if let Some(switch) = switch.get_untracked() {
        // The line that was pressed is about to go; a button that is there can always take the focus.
        let _ = switch.focus();
    }
}
