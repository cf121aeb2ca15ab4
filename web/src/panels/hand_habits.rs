//! What the artist likes the hand to do: how far it goes at once, and what a finger may move. Kept on the device.

use leptos::prelude::*;
use stickleaf_editor::{Habits, Step};

use crate::state::use_desk;
use crate::words;

/// How far a nudge goes, on a button that goes to the next step.
#[component]
pub fn StepButton() -> impl IntoView {
    let desk = use_desk();
    let step = move || desk.habits.get().step;
    let told = move || words::step_told(&desk.length(step().length()), &degrees(step()));
    let next = move |_| {
        let habits = desk.habits.get_untracked();
        desk.set_habits(Habits { step: habits.step.next(), ..habits });
    };
    view! {
        <button type="button" class="hand-button hand-step" aria-label=told title=told on:click=next>
            <span>{move || desk.length(step().length())}</span>
            <span>{move || format!("{}°", degrees(step()))}</span>
        </button>
    }
}

/// Whether carried pieces slide along others, and whether fingers move pieces at all.
#[component]
pub fn HabitSwitches() -> impl IntoView {
    let desk = use_desk();
    let switch = move |word: &'static str, is_on: fn(&Habits) -> bool, set: fn(&mut Habits, bool)| {
        let take = move |event| {
            let mut habits = desk.habits.get_untracked();
            set(&mut habits, event_target_checked(&event));
            desk.set_habits(habits);
        };
        view! {
            <label class="check">
                <input type="checkbox" role="switch" prop:checked=move || is_on(&desk.habits.get()) on:change=take />
                <span>{word}</span>
            </label>
        }
    };
    view! {
        <div class="hand-habits">
            {switch(words::slide(), |habits| habits.stick, |habits, is_on| habits.stick = is_on)}
            {switch(
                words::fingers_only_look(),
                |habits| habits.fingers_only_look,
                |habits, is_on| habits.fingers_only_look = is_on,
            )}
        </div>
    }
}

fn degrees(step: Step) -> String {
    words::with_decimal_sign(&step.degrees().to_string())
}
