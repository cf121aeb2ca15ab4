//! The cards of a search: each as it is cut, to be saved, and with the outcomes of its trials.

use leptos::prelude::*;
use stickleaf_shop::trial::{Card, CardOptions, CutOutcome, Session, card_svg};

use crate::browser::download::download;
use crate::icons::{Icon, icon};
use crate::state::use_desk;
use crate::trials::Trials;
use crate::words;

/// All cards of the search, the first one first.
#[component]
pub fn Cards() -> impl IntoView {
    let trials = expect_context::<Trials>();
    // Outcomes change nothing of this, so that what has the focus stays where it is.
    let cards = Memo::new(move |_| trials.session.with(cards));
    move || {
        let cards = cards.get();
        let last = cards.len().saturating_sub(1);
        cards
            .into_iter()
            .enumerate()
            .map(|(number, card)| card_view(number, card, number == last))
            .collect_view()
    }
}

fn cards(session: &Session) -> Vec<Card> {
    (0..session.cards.len()).filter_map(|number| session.card(number, &CardOptions::default()).ok()).collect()
}

fn card_view(number: usize, card: Card, is_open: bool) -> impl IntoView {
    let desk = use_desk();
    let (trials, width, height) = (card.cells.len(), card.width, card.height);
    let size = move || words::card_size(trials, &desk.length(width), &desk.length(height));
    let svg = StoredValue::new(card_svg(&card));
    let save = move |_| {
        let file = format!("test-card-{}.svg", number + 1);
        match svg.with_value(|svg| download(&file, "image/svg+xml", svg)) {
            Ok(()) => desk.say(words::saved(&file), None),
            Err(_) => desk.say_trouble(words::save_failed()),
        }
    };
    let cuts = card.cells.iter().enumerate().map(|(place, cell)| {
        let name = words::with_decimal_sign(&cell.name);
        let label = words::trial_name(&words::with_decimal_sign(&cell.label), &name);
        view! { <Cut card=number place label /> }
    });
    let cuts = cuts.collect_view();
    let picture = picture(&card);
    view! {
        <details class="trial-card" open=is_open>
            <summary>
                <strong>{words::card_title(number + 1)}</strong>
                <span class="month-note">{size}</span>
            </summary>
            <div class="trial-paper">{picture}</div>
            <button type="button" class="button" on:click=save>{icon(Icon::Save)} <span>{words::save_card()}</span></button>
            <p class="month-note">{words::card_text()}</p>
            <ul class="cuts" role="list">{cuts}</ul>
        </details>
    }
}

/// How one trial came out: one of three, or, pressed again, not known.
#[component]
fn Cut(card: usize, place: usize, label: String) -> impl IntoView {
    let trials = expect_context::<Trials>();
    let look = move || {
        trials.session.with(|session| session.cards.get(card).and_then(|cuts| cuts.get(place).cloned()))
    };
    let cut = Memo::new(move |_| look());
    let outcome = move || cut.with(|cut| cut.as_ref().and_then(|cut| cut.outcome));
    let is_logged = move || cut.with(|cut| cut.as_ref().is_some_and(|cut| cut.is_logged));
    let buttons = OUTCOMES.map(|(one, word)| {
        let is_it = move || outcome() == Some(one);
        let press = move |_| trials.note(card, place, if is_it() { None } else { Some(one) });
        view! {
            <button type="button" class="choice-option" aria-pressed=move || is_it().to_string() disabled=is_logged on:click=press>
                {word()}
            </button>
        }
    });
    view! {
        <li class="cut">
            <span class="cut-name" aria-hidden="true">{label.clone()}</span>
            <div class="choice outcomes" role="group" aria-label=label>{buttons.collect_view()}</div>
        </li>
    }
}

/// A word in the language spoken.
type Word = fn() -> &'static str;

/// The outcomes with their words, the lightest first.
pub const OUTCOMES: [(CutOutcome, Word); 3] = [
    (CutOutcome::NotThrough, words::not_through),
    (CutOutcome::Clean, words::clean_kiss),
    (CutOutcome::TooDeep, words::too_deep),
];

/// The card as it will be, as large as it will be where the screen is a true one.
fn picture(card: &Card) -> impl IntoView + use<> {
    let lines = card
        .cells
        .iter()
        .flat_map(|cell| [&cell.triangle[..], &cell.square[..]])
        .map(|corners| path(corners) + "Z");
    let numbers = card.cells.iter().flat_map(|cell| &cell.number).map(|stroke| path(stroke));
    let (lines, numbers): (String, String) = (lines.collect(), numbers.collect());
    view! {
        <svg
            class="trial-picture"
            role="img"
            aria-label=words::card_picture(card.cells.len())
            viewBox=format!("0 0 {} {}", card.width, card.height)
            style=format!("width: {}mm", card.width)
        >
            <path class="trial-lines" d=lines></path>
            <path class="trial-numbers" d=numbers></path>
        </svg>
    }
}

fn path(points: &[(f64, f64)]) -> String {
    let point =
        |(i, (x, y)): (usize, &(f64, f64))| format!("{}{x:.3} {y:.3}", if i == 0 { 'M' } else { 'L' });
    points.iter().enumerate().map(point).collect()
}
