//! What if? Sliders for what a run depends on, and the run as it would be beside the run as it is.

use leptos::prelude::*;
use stickleaf_shop::money::Cents;
use stickleaf_shop::page::{Growing, largest_sheets};
use stickleaf_shop::run::{Design, RunSheet};
use stickleaf_shop::settings::Settings;
use stickleaf_shop::what_if::WhatIf;

use crate::icons::{Icon, icon};
use crate::month::Month;
use crate::panels::fields::Slider;
use crate::shop::Shop;
use crate::state::use_desk;
use crate::words::{self, Told};

/// Something that can be otherwise.
#[derive(Clone, Copy)]
struct Lever {
    word: fn() -> &'static str,
    /// How it is now.
    now: fn(&Settings, &Design) -> f64,
    look: fn(&WhatIf) -> Option<f64>,
    set: fn(&mut WhatIf, Option<f64>),
    least: f64,
    /// How far the slider goes, or to twice of what there is now if that is farther.
    most: f64,
    /// It never goes farther than this.
    limit: f64,
    step: f64,
}

/// A count that a slider gave.
fn count(value: Option<f64>) -> Option<u64> {
    value.map(|value| value.round() as u64)
}

fn small_count(value: Option<f64>) -> Option<u32> {
    value.map(|value| value.round() as u32)
}

const LEVERS: [Lever; 7] = [
    Lever {
        word: words::sheets_wanted,
        now: |_, design| design.sheets as f64,
        look: |what_if| what_if.sheets.map(|count| count as f64),
        set: |what_if, value| what_if.sheets = count(value),
        least: 1.0,
        most: 300.0,
        limit: 100_000.0,
        step: 1.0,
    },
    Lever {
        word: words::sheets_on_page,
        now: |_, design| design.per_page as f64,
        look: |what_if| what_if.per_page.map(|count| count as f64),
        set: |what_if, value| what_if.per_page = count(value),
        least: 1.0,
        most: MOST_ON_PAGE as f64,
        limit: MOST_PLANNED as f64,
        step: 1.0,
    },
    Lever {
        word: words::stickers_on_sheet,
        now: |_, design| design.stickers as f64,
        look: |what_if| what_if.stickers.map(|count| count as f64),
        set: |what_if, value| what_if.stickers = count(value),
        least: 1.0,
        most: 40.0,
        limit: 1000.0,
        step: 1.0,
    },
    Lever {
        word: words::passes_word,
        now: |settings, _| settings.cutting.passes.into(),
        look: |what_if| what_if.passes.map(f64::from),
        set: |what_if, value| what_if.passes = small_count(value),
        least: 1.0,
        most: 8.0,
        limit: 20.0,
        step: 1.0,
    },
    Lever {
        word: words::cutters,
        now: |settings, _| settings.cutting.cutters.into(),
        look: |what_if| what_if.cutters.map(f64::from),
        set: |what_if, value| what_if.cutters = small_count(value),
        least: 1.0,
        most: 4.0,
        limit: 20.0,
        step: 1.0,
    },
    Lever {
        word: words::spoilage,
        now: |settings, _| settings.printing.spoilage_percent,
        look: |what_if| what_if.spoilage_percent,
        set: |what_if, value| what_if.spoilage_percent = value,
        least: 0.0,
        most: 30.0,
        limit: 99.0,
        step: 0.5,
    },
    Lever {
        word: words::margin_percent,
        now: |settings, _| settings.selling.margin_percent,
        look: |what_if| what_if.margin_percent,
        set: |what_if, value| what_if.margin_percent = value,
        least: 0.0,
        most: 90.0,
        limit: 99.0,
        step: 1.0,
    },
];

/// So many sheets on a page are tried unless more lie there already.
const MOST_ON_PAGE: usize = 12;

/// For more sheets on a page than this no largest sheet is looked for: it would hold the slider up.
const MOST_PLANNED: usize = 24;

/// The sliders and what they lead to. Nothing is changed before that is asked for.
#[component]
pub fn WhatIfs() -> impl IntoView {
    let month = expect_context::<Month>();
    let is_moved = Memo::new(move |_| month.what_if.with(|what_if| !what_if.is_nothing()));
    let take = move |_| {
        let what_if = month.what_if.get_untracked();
        let settings = month.settings.with_untracked(|settings| what_if.settings(settings));
        let sheets = what_if.sheets.unwrap_or_else(|| month.sheets.get_untracked());
        // What makes no sense is said beside the sliders, and there is no button to take it.
        if month.put(settings, sheets).is_ok() {
            // What follows from the sheet itself stays a question.
            let WhatIf { per_page, stickers, .. } = what_if;
            month.what_if.set(WhatIf { per_page, stickers, ..WhatIf::default() });
        }
    };
    let can_be_taken = Memo::new(move |_| {
        let what_if = month.what_if.get();
        let of_sheet = WhatIf { per_page: None, stickers: None, ..what_if };
        !of_sheet.is_nothing()
            && month.settings.with(|settings| what_if.settings(settings).validate().is_ok())
    });
    view! {
        <section class="what-if" aria-labelledby="what-if">
            <h3 id="what-if">{words::what_if_title()}</h3>
            <p class="month-note">{words::what_if_text()}</p>
            <div class="sliders">
                {LEVERS.map(|lever| view! { <LeverSlider lever /> }).collect_view()}
            </div>
            <Show when=move || is_moved.get()>
                <Outcome />
            </Show>
            <div class="button-row">
                <Show when=move || can_be_taken.get()>
                    <button type="button" class="button primary-soft" on:click=take>{words::take_into_figures()}</button>
                </Show>
                <Show when=move || is_moved.get()>
                    <button type="button" class="button" on:click=move |_| month.what_if.set(WhatIf::default())>
                        {words::as_it_is()}
                    </button>
                </Show>
            </div>
        </section>
    }
}

#[component]
fn LeverSlider(lever: Lever) -> impl IntoView {
    let month = expect_context::<Month>();
    let now = Memo::new(move |_| {
        month.design.with(|design| {
            design
                .as_ref()
                .map_or(0.0, |design| month.settings.with(|settings| (lever.now)(settings, design)))
        })
    });
    let value = Signal::derive(move || month.what_if.with(lever.look).unwrap_or_else(|| now.get()));
    let take = move |value: f64| {
        let other = (value != now.get_untracked()).then_some(value);
        month.what_if.update(|what_if| (lever.set)(what_if, other));
    };
    let text = Signal::derive(move || words::plain_number(value.get()));
    let most = Signal::derive(move || lever.most.max(2.0 * now.get()).min(lever.limit.max(now.get())));
    view! {
        <Slider label=(lever.word)() value text least=lever.least most step=lever.step take=Callback::new(take) />
    }
}

/// The run as it is and as it would be.
#[component]
fn Outcome() -> impl IntoView {
    let month = expect_context::<Month>();
    let other = Memo::new(move |_| {
        let design = month.design.get()?;
        Some(month.settings.with(|settings| month.what_if.with(|what_if| what_if.run(settings, &design))))
    });
    let rows = move || {
        let now = month.run.get().and_then(Result::ok);
        let other = other.get().and_then(Result::ok);
        now.zip(other).map(|(now, other)| month.settings.with(|settings| rows(settings, &now, &other)))
    };
    let line = page_line(month);
    let trouble = move || other.get().and_then(Result::err).map(|error| words::sentence(&error.told()));
    view! {
        {move || rows().map(|rows| view! {
            <table class="outcome" aria-label=words::what_if_title()>
                <thead>
                    <tr>
                        <th scope="col"><span class="word-hidden">{words::what_it_is()}</span></th>
                        <th scope="col">{words::now_word()}</th>
                        <th scope="col">{words::then_word()}</th>
                        <th scope="col">{words::difference_word()}</th>
                    </tr>
                </thead>
                <tbody>
                    {rows.into_iter().map(|[word, now, then, difference]| view! {
                        <tr><th scope="row">{word}</th><td>{now}</td><td>{then}</td><td>{difference}</td></tr>
                    }).collect_view()}
                </tbody>
            </table>
        })}
        {move || trouble().map(|why| view! { <p class="press-note" role="status">{icon(Icon::Caution)} <span>{why}</span></p> })}
        {move || line().map(|line| view! { <p class="month-note">{line}</p> })}
    }
}

/// How large a sheet may be of which as many lie on a page as are tried.
fn page_line(month: Month) -> impl Fn() -> Option<String> + Copy {
    let desk = use_desk();
    let shop = expect_context::<Shop>();
    let wanted = Memo::new(move |_| month.what_if.with(|what_if| what_if.per_page));
    let line = Memo::new(move |_| {
        let count = usize::try_from(wanted.get()?).ok().filter(|&count| count <= MOST_PLANNED)?;
        let (width, height) = desk.layout.with(|layout| (layout.sheet.width, layout.sheet.height));
        let sheets =
            shop.stock.with(|stock| largest_sheets(stock, width, height, Growing::Both, count)).ok()?;
        let found = sheets.last().filter(|sheet| sheet.count == count);
        let size = |mm: f64| words::length(desk.unit.get(), (mm * 10.0).floor() / 10.0);
        Some(match found {
            Some(sheet) => {
                words::largest_for(count, &size(sheet.width), &size(sheet.height), sheet.is_proved)
            }
            None => words::no_sheet_for(count),
        })
    });
    move || line.get()
}

/// Each figure: its word, now, then, and the difference.
fn rows(settings: &Settings, now: &RunSheet, then: &RunSheet) -> Vec<[String; 4]> {
    let row = |word: &str, look: &dyn Fn(&RunSheet) -> f64, text: &dyn Fn(f64) -> String| {
        let (now, then) = (look(now), look(then));
        [word.to_owned(), text(now), text(then), words::signed(then - now, text)]
    };
    let seconds: &dyn Fn(f64) -> String = &words::duration;
    let mut rows = vec![
        row(words::pages_word(), &|run| run.pages as f64, &words::plain_number),
        row(words::printing_word(), &|run| run.printing_s, seconds),
        row(words::cutting_word(), &|run| run.cutting_s, seconds),
        row(words::done_word(), &|run| run.schedule.done_s, seconds),
        row(words::blade_word(), &|run| run.blade_m, &words::metres),
    ];
    if !now.bill.posts.is_empty() {
        let whole: &dyn Fn(f64) -> String = &|cents| words::money(Cents::rounded(cents), &settings.currency);
        let parts: &dyn Fn(f64) -> String = &|cents| words::money_parts(cents, &settings.currency);
        rows.push(row(words::cost_of_run(), &|run| run.bill.total.0 as f64, whole));
        rows.push(row(words::cost_sheet(), &|run| run.sheet_cents, parts));
        rows.push(row(words::cost_sticker(), &|run| run.sticker_cents, parts));
        rows.push(row(words::price_word(), &|run| run.price.sheet.0 as f64, whole));
    }
    rows
}
