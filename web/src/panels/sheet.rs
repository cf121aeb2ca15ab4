//! Size of the sheet, its distances, and the limits that warn.

use leptos::prelude::*;
use stickleaf_sheet::{Rules, SHEET_SIZES, Sheet, refit_styles};

use crate::icons::{Icon, icon};
use crate::panels::fields::{LengthField, NumberField, TextField};
use crate::state::{Desk, use_desk};
use crate::words::{self, Told};

/// What the sheet is and what it is held to.
#[component]
pub fn SheetPanel() -> impl IntoView {
    view! {
        <h2 class="panel-title">{words::sheet()}</h2>
        <NameField />
        <SizeFields />
        <h3>{words::distances()}</h3>
        <DistanceFields />
        <LimitFields />
    }
}

/// The layout's name, where the bar on top has no room for it.
#[component]
fn NameField() -> impl IntoView {
    let desk = use_desk();
    let name = Signal::derive(move || desk.layout.with(|layout| layout.name.clone()));
    let rename = move |name: String| {
        let changed = desk.change(words::step_rename(), |layout| name.trim().clone_into(&mut layout.name));
        changed.map_err(|error| error.told())
    };
    view! { <TextField label=words::sheet_name() text=name take=Callback::new(rename) class="narrow-only" /> }
}

#[component]
fn SizeFields() -> impl IntoView {
    let desk = use_desk();
    let sheet = Memo::new(move |_| desk.layout.with(|layout| layout.sheet));
    let preset = move |(name, width, height): (&'static str, f64, f64)| {
        let is_chosen = move || {
            let sheet = sheet.get();
            (sheet.width, sheet.height) == (width, height) || (sheet.width, sheet.height) == (height, width)
        };
        let choose = move |_| {
            // The card keeps lying or standing as it did.
            let lies = {
                let sheet = sheet.get_untracked();
                sheet.width > sheet.height
            };
            let (width, height) = if lies { (height, width) } else { (width, height) };
            if let Err(why) = resize(desk, |sheet| (sheet.width, sheet.height) = (width, height)) {
                desk.say_error(why);
            }
        };
        view! {
            <button type="button" class="chip" aria-pressed=move || is_chosen().to_string() on:click=choose>{words::with_decimal_sign(name)}</button>
        }
    };
    let swap = move |_| {
        let swapped = resize(desk, |sheet| (sheet.width, sheet.height) = (sheet.height, sheet.width));
        if let Err(why) = swapped {
            desk.say_error(why);
        }
    };
    let of = move |value: fn(&Sheet) -> f64| Signal::derive(move || value(&sheet.get()));
    let set = move |edit: fn(&mut Sheet, f64)| {
        Callback::new(move |value: f64| resize(desk, |sheet| edit(sheet, value)))
    };
    let pixels = move || {
        let sheet = sheet.get();
        let (width, height) = sheet.pixels(sheet.resolution_ppi);
        words::pixels(width, height)
    };
    view! {
        <div class="chips" role="group" aria-label=words::size_name()>
            {SHEET_SIZES.into_iter().map(preset).collect_view()}
        </div>
        <div class="field-row">
            <LengthField label=words::width() mm=of(|sheet| sheet.width) take=set(|sheet, mm| sheet.width = mm) />
            <LengthField label=words::height() mm=of(|sheet| sheet.height) take=set(|sheet, mm| sheet.height = mm) />
        </div>
        <button type="button" class="button" on:click=swap>{icon(Icon::Swap)} <span>{words::swap()}</span></button>
        <div class="field-row">
            <LengthField label=words::corner_radius() mm=of(|sheet| sheet.corner_radius) take=set(|sheet, mm| sheet.corner_radius = mm) />
            <NumberField label=words::resolution() value=of(|sheet| sheet.resolution_ppi) take=set(|sheet, ppi| sheet.resolution_ppi = ppi) />
        </div>
        <p class="hint">{pixels}</p>
    }
}

#[component]
fn DistanceFields() -> impl IntoView {
    view! {
        <RuleField label=words::spacing() get=|rules| rules.spacing set=|rules, mm| rules.spacing = mm />
        <RuleField label=words::margin() get=|rules| rules.margin set=|rules, mm| rules.margin = mm />
        <RuleField label=words::border() get=|rules| rules.border set=|rules, mm| rules.border = mm />
    }
}

#[component]
fn LimitFields() -> impl IntoView {
    let desk = use_desk();
    let least_ppi = Signal::derive(move || desk.layout.with(|layout| layout.rules.least_ppi));
    let set_least_ppi = move |ppi: f64| {
        let changed = desk.change(words::least_ppi(), |layout| layout.rules.least_ppi = ppi);
        changed.map_err(|error| error.told())
    };
    view! {
        <details class="more">
            <summary>{words::limits()} <span class="turner">{icon(Icon::Down)}</span></summary>
            <RuleField label=words::print_to_cut() get=|rules| rules.print_to_cut set=|rules, mm| rules.print_to_cut = mm />
            <RuleField label=words::thinnest() get=|rules| rules.thinnest set=|rules, mm| rules.thinnest = mm />
            <RuleField label=words::smallest() get=|rules| rules.smallest set=|rules, mm| rules.smallest = mm />
            <RuleField label=words::inner_radius() get=|rules| rules.inner_radius set=|rules, mm| rules.inner_radius = mm />
            <NumberField label=words::least_ppi() value=least_ppi take=Callback::new(set_least_ppi) />
        </details>
    }
}

/// A field for one length among the rules.
#[component]
fn RuleField(label: &'static str, get: fn(&Rules) -> f64, set: fn(&mut Rules, f64)) -> impl IntoView {
    let desk = use_desk();
    let mm = Signal::derive(move || desk.layout.with(|layout| get(&layout.rules)));
    let take = move |mm: f64| {
        let changed = desk.change(label, |layout| set(&mut layout.rules, mm));
        changed.map_err(|error| error.told())
    };
    view! { <LengthField label mm take=Callback::new(take) class="line" /> }
}

/// Changes the sheet; background styles that were made for the old size are made again for the new one.
fn resize(desk: Desk, edit: impl FnOnce(&mut Sheet)) -> Result<(), String> {
    let changed = desk.change(words::sheet(), |layout| {
        let (before, rules) = (layout.sheet, layout.rules);
        edit(&mut layout.sheet);
        if layout.sheet.width > 0.0 && layout.sheet.height > 0.0 {
            refit_styles(layout, &before, &rules);
        }
    });
    changed.map_err(|error| error.told())
}
