//! The scale that is searched, and what the outcomes say so far.

use leptos::prelude::*;
use stickleaf_shop::trial::{AskedScale, MISREAD, ScaleKind, Session, Verdict};

use crate::panels::fields::{Choice, NumberField, TextField};
use crate::trials::Trials;
use crate::words::{self, Told};

/// From where to where, and in what steps. Another scale begins another search.
#[component]
pub fn ScaleFields() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let kind = Memo::new(move |_| trials.session.with(|session| session.asked.kind));
    let number = move |look: fn(&AskedScale) -> f64| {
        Signal::derive(move || trials.session.with(|session| look(&session.asked)))
    };
    let take = move |set: fn(&mut AskedScale, f64)| {
        Callback::new(move |number: f64| {
            trials.begin(|asked| set(asked, number)).map_err(|error| words::sentence(&error.told()))
        })
    };
    let names = Signal::derive(move || trials.session.with(|session| session.asked.names.join(", ")));
    let take_names = move |text: String| {
        let names: Vec<String> =
            text.split(',').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect();
        trials.begin(|asked| asked.names = names).map_err(|error| words::sentence(&error.told()))
    };
    let choose = move |kind: ScaleKind| {
        let begun = trials.begin(|asked| {
            asked.kind = kind;
            if kind == ScaleKind::Names && asked.names.is_empty() {
                asked.names = words::usual_names().split(", ").map(str::to_owned).collect();
            }
        });
        debug_assert!(begun.is_ok(), "what is kept of each kind makes a scale");
    };
    let kinds = vec![
        (ScaleKind::Numbers, words::scale_numbers()),
        (ScaleKind::Passes, words::passes_kind()),
        (ScaleKind::Names, words::scale_names()),
    ];
    view! {
        <Choice label=words::scale_kind() options=kinds chosen=Signal::derive(move || Some(kind.get())) take=Callback::new(choose) />
        <div class="figure-group">
            {move || match kind.get() {
                ScaleKind::Numbers => view! {
                    <NumberField label=words::lightest() value=number(|asked| asked.from) take=take(|asked, n| asked.from = n) />
                    <NumberField label=words::strongest() value=number(|asked| asked.to) take=take(|asked, n| asked.to = n) />
                    <NumberField label=words::scale_step() value=number(|asked| asked.step) take=take(|asked, n| asked.step = n) />
                }.into_any(),
                ScaleKind::Passes => view! {
                    <NumberField
                        label=words::fewest_passes()
                        value=number(|asked| asked.least_passes.into())
                        take=take(|asked, n| asked.least_passes = whole(n))
                    />
                    <NumberField
                        label=words::most_passes()
                        value=number(|asked| asked.most_passes.into())
                        take=take(|asked, n| asked.most_passes = whole(n))
                    />
                }.into_any(),
                ScaleKind::Names => view! {
                    <TextField label=words::setting_names() text=names take=Callback::new(take_names) class="wide" />
                }.into_any(),
            }}
        </div>
    }
}

/// A whole number; 0, which is no number of passes, for anything else.
fn whole(number: f64) -> u32 {
    if number.fract() == 0.0 { number as u32 } else { 0 }
}

/// What is known so far, how sure it is, what speaks against it, and what is next.
#[component]
pub fn Said() -> impl IntoView {
    let trials = expect_context::<Trials>();
    let said = Memo::new(move |_| trials.session.with(said));
    let chances = Memo::new(move |_| trials.session.with(chances));
    let next = Memo::new(move |_| trials.session.with(Session::next));
    let unlogged = Memo::new(move |_| trials.session.with(Session::unlogged));
    let has_unlogged = move || unlogged.get() > 0;
    let is_passes = move || trials.session.with(|session| session.asked.kind == ScaleKind::Passes);
    let is_begun = Memo::new(move |_| trials.session.with(|session| !session.trials().is_empty()));
    view! {
        <div class="trial-said" role="status">
            {move || said.get().into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
        </div>
        <Show when=move || chances.with(|chances| !chances.is_empty())>
            <table class="chances">
                <caption>{words::chances_title()}</caption>
                <tbody>
                    {move || chances.get().into_iter().map(|(name, chance)| view! {
                        <tr>
                            <th scope="row">{name}</th>
                            <td class="chance-bar" aria-hidden="true"><span style=format!("width: {:.1}%", 100.0 * chance)></span></td>
                            <td>{words::percent(chance)}</td>
                        </tr>
                    }).collect_view()}
                </tbody>
            </table>
            <p class="month-note">{words::chances_text(MISREAD)}</p>
        </Show>
        <div class="trial-deeds">
            <Show when=move || next.with(|next| !next.is_empty())>
                <button type="button" class="button primary" on:click=move |_| trials.go_on()>{words::next_card()}</button>
            </Show>
            <Show when=has_unlogged>
                <button type="button" class="button" on:click=move |_| trials.log_outcomes()>
                    {move || words::log_outcomes(unlogged.get())}
                </button>
            </Show>
            <Show when=move || is_begun.get()>
                // The scale is the one that the search had.
                <button type="button" class="button" on:click=move |_| { let _ = trials.begin(|_| ()); }>{words::begin_again()}</button>
            </Show>
        </div>
        <Show when=is_passes>
            <p class="month-note">{words::passes_not_logged()}</p>
        </Show>
    }
}

/// The verdict in sentences.
fn said(session: &Session) -> Vec<String> {
    let Some((scale, advice)) = session.asked.scale().ok().zip(session.advice().ok()) else {
        return Vec::new();
    };
    let trials = session.trials();
    if trials.is_empty() {
        return vec![words::no_outcomes().to_owned()];
    }
    let name = |setting: usize| words::with_decimal_sign(scale.name(setting));
    let chance = advice.clean_chances.iter().copied().fold(0.0, f64::max);
    let mut lines = vec![match advice.verdict {
        Verdict::Clean { setting, chance } => words::is_clean(&name(setting), chance),
        Verdict::Open { .. } | Verdict::Unclear if chance >= 0.5 => {
            words::most_likely(&name(advice.likeliest), chance)
        }
        Verdict::Open { from, to } if from == to => words::only_one(&name(from)),
        Verdict::Open { from, to } => words::between(&name(from), &name(to)),
        Verdict::NoneBetween { below } => words::none_between(&name(below), &name(below + 1)),
        Verdict::AllNotThrough => words::all_not_through().to_owned(),
        Verdict::AllTooDeep => words::all_too_deep().to_owned(),
        Verdict::Unclear => words::all_unclear().to_owned(),
    }];
    if !advice.contradicting.is_empty() {
        let against: Vec<String> = advice.contradicting.iter().map(|&i| name(trials[i].setting)).collect();
        lines.push(words::contradicting(&against.join(", ")));
    }
    let next: Vec<String> = session.next().into_iter().map(name).collect();
    if !next.is_empty() {
        lines.push(words::try_next(&next.join(", ")));
    }
    lines
}

/// The settings that may well be clean, each with its chance; none before something is known.
fn chances(session: &Session) -> Vec<(String, f64)> {
    let Some((scale, advice)) = session.asked.scale().ok().zip(session.advice().ok()) else {
        return Vec::new();
    };
    if session.trials().is_empty() {
        return Vec::new();
    }
    let likely = advice.clean_chances.iter().enumerate().filter(|&(_, &chance)| chance >= 0.005);
    likely.map(|(setting, &chance)| (words::with_decimal_sign(scale.name(setting)), chance)).collect()
}
