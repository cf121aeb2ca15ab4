//! What to do at the foot: fill, place, more ways, stop, and how far it is.

use std::time::Duration;

use leptos::prelude::*;

use crate::browser::time;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::messages::PackAim;
use crate::packing::PackState;
use crate::panels::fields::TextField;
use crate::panels::ways::Ways;
use crate::state::use_desk;
use crate::words;

/// Packing: its buttons, its progress, and how it is done.
#[component]
pub fn Actions() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let is_open = RwSignal::new(false);
    let is_busy = move || job.is_packing();
    let has_no_stickers = Memo::new(move |_| desk.layout.with(|layout| layout.stickers.is_empty()));
    let aim = move |aim: PackAim, word: &'static str, picture: Icon, class: &'static str| {
        view! {
            <button
                type="button"
                class=format!("button {class}")
                disabled=move || has_no_stickers.get()
                on:click=move |_| job.pack(aim)
            >
                {icon(picture)} <span>{word}</span>
            </button>
        }
    };
    view! {
        <section class="actions" aria-label=words::packing_name() class:busy=is_busy>
            <Show when=is_busy fallback=move || view! {
                <div class="action-buttons">
                    {aim(PackAim::Fill, words::fill(), Icon::Fill, "primary")}
                    {aim(PackAim::Place, words::place_these(), Icon::PlaceThese, "")}
                    <Ways how_is_open=is_open is_off=has_no_stickers />
                </div>
            }>
                <Progress />
            </Show>
            <Show when=move || is_open.get() && !is_busy()>
                <HowToPack />
            </Show>
        </section>
    }
}

#[component]
fn Progress() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let now_ms = RwSignal::new(time::now_ms());
    let clock = set_interval_with_handle(move || now_ms.set(time::now_ms()), Duration::from_millis(500)).ok();
    on_cleanup(move || {
        if let Some(clock) = clock {
            clock.clear();
        }
    });
    let line = move || {
        let Some(PackState { aim, since_ms, news, .. }) = job.packing.state.get() else {
            return String::new();
        };
        let seconds = ((now_ms.get() - since_ms) / 1000.0).max(0.0) as u64;
        match news {
            None => words::packing_begins(seconds),
            Some(news) => words::packing(aim, &news, desk.unit.get(), seconds),
        }
    };
    // Only a count has a proven bound to come near to.
    let is_count = Memo::new(move |_| {
        let state = job.packing.state.read();
        state.as_ref().is_some_and(|state| matches!(state.aim, PackAim::Place | PackAim::Fill))
    });
    let part = move || {
        let (placed, ceiling) =
            desk.read_at_rest(|editor| (editor.score().placed, editor.score().ceiling.most));
        placed as f64 / ceiling.max(1) as f64
    };
    let is_stopping =
        move || job.packing.state.with(|state| state.as_ref().is_some_and(|state| state.is_stopping));
    view! {
        <div class="progress">
            <Show when=move || is_count.get()>
                <div class="progress-bar" aria-hidden="true">
                    <span style:width=move || format!("{:.1}%", 100.0 * part().min(1.0))></span>
                </div>
            </Show>
            <span class="progress-line">{line}</span>
            <button type="button" class="button stop" disabled=is_stopping on:click=move |_| job.packing.stop()>
                {icon(Icon::Stop)} <span>{words::stop()}</span>
            </button>
        </div>
    }
}

/// Whether packing can be done again, from which seed, and for how many rounds.
#[component]
pub fn HowToPack() -> impl IntoView {
    let how = expect_context::<Job>().packing.how;
    let rounds = Signal::derive(move || how.get().rounds.to_string());
    let seed = Signal::derive(move || how.get().seed.to_string());
    let set_rounds = move |text: String| {
        let rounds = text.trim().parse().ok().filter(|&rounds: &u64| rounds > 0);
        let rounds = rounds.ok_or_else(|| words::whole_number().to_owned())?;
        how.update(|how| how.rounds = rounds);
        Ok(())
    };
    let set_seed = move |text: String| {
        let seed = text.trim().parse().map_err(|_| words::whole_number_from_0().to_owned())?;
        how.update(|how| how.seed = seed);
        Ok(())
    };
    view! {
        <div class="how">
            <label class="check">
                <input
                    type="checkbox"
                    prop:checked=move || how.get().is_repeatable
                    on:change=move |event| how.update(|how| how.is_repeatable = event_target_checked(&event))
                />
                <span>{words::repeatable()}</span>
            </label>
            <TextField label=words::rounds() text=rounds take=Callback::new(set_rounds) keys="numeric" class="short" />
            <TextField label=words::seed() text=seed take=Callback::new(set_seed) keys="numeric" class="short" />
            <p class="hint">
                {move || if how.get().is_repeatable { words::repeatable_hint() } else { words::seconds_hint() }}
            </p>
        </div>
    }
}
