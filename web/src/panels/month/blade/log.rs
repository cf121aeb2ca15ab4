//! The blade log: what it suggests now, cuts noted by hand, and its entries.

use leptos::prelude::*;
use stickleaf_shop::trial::LogEntry;

use crate::browser::download::download;
use crate::icons::{Icon, icon};
use crate::panels::fields::TextField;
use crate::panels::month::blade::cards::OUTCOMES;
use crate::state::use_desk;
use crate::trials::{Suggested, Trials};
use crate::words;

/// What the log says of the work that is named above it.
#[component]
pub fn Log() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let entries = Memo::new(move |_| trials.entries());
    let has_any = move || trials.log.with(|log| !log.entries.is_empty());
    view! {
        <h3>{words::suggested_title()}</h3>
        <div class="trial-said" role="status">
            {move || match trials.suggested.get() {
                Some(suggested) => said(&suggested).into_iter().map(|line| view! { <p>{line}</p> }).collect_view().into_any(),
                None => view! { <p>{words::nothing_logged()}</p> }.into_any(),
            }}
        </div>
        <ByHand />
        <Show when=move || entries.with(|entries| !entries.is_empty())>
            <h3>{words::entries_title()}</h3>
            <ul class="entries" role="list">
                {move || entries.get().into_iter().map(|(place, entry)| entry_view(place, &entry)).collect_view()}
            </ul>
        </Show>
        <Show when=has_any>
            <SaveLog />
        </Show>
    }
}

fn said(suggested: &Suggested) -> Vec<String> {
    let found = &suggested.found;
    let setting = words::setting_text(found.setting);
    let mut lines = vec![match &suggested.name {
        Some(name) => words::suggested_name(name, &setting, found.entries),
        None => words::suggested(&setting, found.entries),
    }];
    lines.push(match found.range {
        Some((from, to)) => words::suggested_range(&words::setting_text(from), &words::setting_text(to)),
        None => words::too_few_to_say().to_owned(),
    });
    if found.is_beyond {
        lines.push(words::beyond_the_log().to_owned());
    }
    if found.against > 0 {
        lines.push(words::against(found.against));
    }
    lines
}

/// A cut that is on no card: a number or a name, and how it came out.
#[component]
fn ByHand() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let setting: RwSignal<String> = RwSignal::new(String::new());
    let take = move |text: String| {
        read_setting(trials, &text).map(|_| setting.set(text)).ok_or_else(|| words::a_setting().to_owned())
    };
    let note = move |outcome| {
        let read = read_setting(trials, &setting.get_untracked());
        if let Some((number, name)) = read {
            trials.log_one(number, name, outcome);
            setting.set(String::new());
        }
    };
    let has_none = move || setting.with(String::is_empty);
    view! {
        <div class="by-hand">
            <TextField label=words::setting_by_hand() text=setting take=Callback::new(take) />
            <div class="choice outcomes" role="group" aria-label=words::came_out()>
                {OUTCOMES.map(|(outcome, word)| view! {
                    <button type="button" class="choice-option" disabled=has_none on:click=move |_| note(outcome)>{word()}</button>
                }).collect_view()}
            </div>
        </div>
    }
}

/// A number, or a name that the log or the scale knows by its place.
fn read_setting(trials: Trials, text: &str) -> Option<(f64, String)> {
    let number: Option<f64> = words::with_decimal_point(text.trim()).parse().ok();
    if let Some(number) = number.filter(|number| number.is_finite() && *number >= 0.0) {
        return Some((number, String::new()));
    }
    let scale = trials.session.with_untracked(|session| session.asked.scale()).ok()?;
    let place = scale.find(text)?;
    Some((scale.label(place).parse().ok()?, scale.name(place).to_owned()))
}

fn entry_view(place: usize, entry: &LogEntry) -> impl IntoView + use<> {
    let trials = expect_context::<Trials>();
    let setting = match entry.setting_name.as_str() {
        "" => words::setting_text(entry.setting),
        name => name.to_owned(),
    };
    let outcome =
        OUTCOMES.iter().find(|(outcome, _)| *outcome == entry.outcome).map_or("", |(_, word)| word());
    let text = words::entry(&setting, outcome, entry.blade_m);
    let label = words::remove_entry(&text);
    view! {
        <li class="entry">
            <span>{text}</span>
            <span class="month-note">{entry.day.clone()}</span>
            <button type="button" class="button bare" aria-label=label on:click=move |_| trials.remove(place)>{icon(Icon::Remove)}</button>
        </li>
    }
}

#[component]
fn SaveLog() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let desk = use_desk();
    let save = move |_| {
        let file = "blade-log.json";
        let text = trials.log.with_untracked(|log| serde_json::to_string_pretty(log).unwrap_or_default());
        match download(file, "application/json", &(text + "\n")) {
            Ok(()) => desk.say(words::saved(file), None),
            Err(_) => desk.say_trouble(words::save_failed()),
        }
    };
    view! {
        <button type="button" class="button" on:click=save>{icon(Icon::Save)} <span>{words::save_log()}</span></button>
        <p class="month-note">{words::save_log_text()}</p>
    }
}
