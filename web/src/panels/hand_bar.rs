//! The hand bar: what can be done with the chosen pieces without dragging.

use leptos::prelude::*;
use stickleaf_editor::{Editor, Tool};
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::Piece;
use wasm_bindgen::JsCast;
use web_sys::Element;

use crate::choices;
use crate::icons::{Icon, icon};
use crate::merge::merge_chosen;
use crate::panels::fields::{LengthField, NumberField};
use crate::panels::hand_habits::{HabitSwitches, StepButton};
use crate::panels::zone_bar::ZoneBar;
use crate::state::{Desk, use_desk};
use crate::words;

/// A row of its own below the sheet. Its buttons are there while pieces are chosen, and its height never changes with
/// that: the sheet stays where it is when a piece is touched.
#[component]
pub fn HandBar() -> impl IntoView {
    let desk = use_desk();
    let is_shown = Memo::new(move |_| {
        desk.read_at_rest(|editor| !editor.selection().is_empty() && !editor.is_previewing())
    });
    let has_zone = Memo::new(move |_| {
        desk.read_at_rest(|editor| editor.chosen_zone().is_some() && !editor.is_previewing())
    });
    let is_exact = RwSignal::new(false);
    let is_several = Memo::new(move |_| desk.read_at_rest(|editor| editor.tool() == Tool::Choose));
    let is_hint = Memo::new(move |_| {
        desk.read_at_rest(|editor| {
            editor.selection().is_empty()
                && editor.chosen_zone().is_none()
                && !editor.is_previewing()
                && !editor.layout().pieces.is_empty()
        })
    });
    view! {
        <div
            class="hand-row"
            class:idle=move || !is_shown.get() && !has_zone.get()
            class:with-zone=move || has_zone.get()
        >
            <Hand is_exact />
            <Show when=move || has_zone.get()>
                <ZoneBar />
            </Show>
            <Show when=move || is_hint.get()>
                <div class="hand-hint">
                    <p>{move || if is_several.get() { words::choosing_several() } else { words::hand_hint() }}</p>
                    <SeveralSwitch />
                </div>
            </Show>
        </div>
    }
}

#[component]
fn Hand(is_exact: RwSignal<bool>) -> impl IntoView {
    let desk = use_desk();
    let only = Memo::new(move |_| desk.read_on_beat(|editor| only_chosen(editor).cloned()));
    let title = Memo::new(move |_| {
        desk.read_at_rest(|editor| match editor.selection() {
            [only] => words::piece_name(editor.layout(), *only),
            [] => String::new(),
            chosen => words::chosen(chosen.len()),
        })
    });
    let is_locked = Memo::new(move |_| {
        desk.read_at_rest(|editor| {
            let is_locked = |&piece: &usize| editor.layout().pieces[piece].locked;
            !editor.selection().is_empty() && editor.selection().iter().all(is_locked)
        })
    });
    let are_two = Memo::new(move |_| desk.read_at_rest(|editor| editor.selection().len() == 2));
    let button = move |word: &'static str, picture: Icon, deed: fn(Desk)| {
        view! {
            <button type="button" class="hand-button" aria-label=word title=word on:click=move |_| deed(desk)>
                {icon(picture)}
            </button>
        }
    };
    view! {
        <div class="hand" role="toolbar" aria-label=words::hand()>
            <span class="hand-title">{move || title.get()}</span>
            <div class="hand-group">
                {button(words::nudge_left(), Icon::Left, |desk| nudge(desk, -1.0, 0.0))}
                {button(words::nudge_up(), Icon::Up, |desk| nudge(desk, 0.0, -1.0))}
                {button(words::nudge_down(), Icon::Down, |desk| nudge(desk, 0.0, 1.0))}
                {button(words::nudge_right(), Icon::Right, |desk| nudge(desk, 1.0, 0.0))}
            </div>
            <div class="hand-group">
                {button(words::turn_left(), Icon::TurnLeft, |desk| turn(desk, -1.0))}
                {button(words::turn_right(), Icon::TurnRight, |desk| turn(desk, 1.0))}
            </div>
            <StepButton />
            <div class="hand-group words">
                <button type="button" class="hand-button" on:click=move |_| desk.act(|editor| if is_locked.get_untracked() { editor.unlock() } else { editor.lock() })>
                    {move || icon(if is_locked.get() { Icon::Unlock } else { Icon::Lock })}
                    <span>{move || if is_locked.get() { words::unlock() } else { words::lock() }}</span>
                </button>
                <button type="button" class="hand-button" on:click=move |_| desk.act(Editor::duplicate)>
                    {icon(Icon::Duplicate)} <span>{words::duplicate()}</span>
                </button>
                <button type="button" class="hand-button" on:click=move |_| desk.act(Editor::remove)>
                    {icon(Icon::Remove)} <span>{words::remove()}</span>
                </button>
                <Show when=move || are_two.get()>
                    <button type="button" class="hand-button" title=words::merge_title() on:click=move |_| merge_chosen(desk)>
                        {icon(Icon::Merge)} <span>{words::merge()}</span>
                    </button>
                </Show>
                <button
                    type="button"
                    class="hand-button"
                    aria-expanded=move || is_exact.get().to_string()
                    on:click=move |_| is_exact.update(|exact| *exact = !*exact)
                >
                    {icon(Icon::Tune)} <span>{words::numbers()}</span>
                </button>
                <SeveralSwitch />
                <button
                    type="button"
                    class="hand-button hand-more"
                    aria-label=words::more_for_chosen()
                    aria-haspopup="menu"
                    aria-expanded=move || desk.choices.with(Option::is_some).to_string()
                    on:click=move |event| choices::open_over(desk, &button_of(&event))
                >
                    {icon(Icon::More)} <span>{words::more_choices()}</span>
                </button>
            </div>
            <Show when=move || is_exact.get()>
                <PlaceFields only />
                <HabitSwitches />
            </Show>
        </div>
    }
}

/// Whether taps add to what is chosen, and a finger beside the pieces draws a box that chooses.
#[component]
fn SeveralSwitch() -> impl IntoView {
    let desk = use_desk();
    let is_on = Memo::new(move |_| desk.read_at_rest(|editor| editor.tool() == Tool::Choose));
    let switch = move |_| {
        desk.act(|editor| editor.set_tool(if is_on.get_untracked() { Tool::Move } else { Tool::Choose }))
    };
    view! {
        <button
            type="button"
            class="hand-button hand-several"
            aria-pressed=move || is_on.get().to_string()
            title=words::choosing_several()
            on:click=switch
        >
            {icon(Icon::Several)} <span>{words::several()}</span>
        </button>
    }
}

/// Moves the chosen pieces by so many steps to the right and down.
fn nudge(desk: Desk, right: f64, down: f64) {
    desk.act(|editor| {
        let mm = editor.habits.step.length();
        editor.nudge(right * mm, down * mm);
    });
}

/// Turns the chosen pieces by so many steps clockwise.
fn turn(desk: Desk, steps: f64) {
    desk.act(|editor| editor.turn_by(steps * editor.habits.step.degrees()));
}

/// Where the one chosen piece lies, as numbers to type.
#[component]
fn PlaceFields(only: Memo<Option<Piece>>) -> impl IntoView {
    let desk = use_desk();
    let of = move |value: fn(&Piece) -> f64| {
        Signal::derive(move || only.with(|piece| piece.as_ref().map_or(0.0, value)))
    };
    let put = move |edit: fn(&mut Piece, f64)| {
        Callback::new(move |value: f64| {
            let chosen = desk.peek(|editor| editor.selection().first().copied());
            if let (Some(chosen), Some(mut piece)) = (chosen, only.get_untracked()) {
                edit(&mut piece, value);
                let Placement { at, turn, .. } = piece.placement;
                desk.act(|editor| editor.set_place(chosen, at.x, at.y, turn.to_degrees()));
            }
            Ok(())
        })
    };
    view! {
        <div class="hand-fields" class:idle=move || only.with(Option::is_none)>
            <LengthField label=words::x() mm=of(|piece| piece.placement.at.x) take=put(|piece, mm| piece.placement.at.x = mm) class="tiny" />
            <LengthField label=words::y() mm=of(|piece| piece.placement.at.y) take=put(|piece, mm| piece.placement.at.y = mm) class="tiny" />
            <NumberField label=words::turn() value=of(|piece| piece.placement.turn.to_signed_degrees()) take=put(|piece, degrees| piece.placement.turn = Turn::degrees(degrees)) class="tiny" />
        </div>
    }
}

/// The button that was pressed; what was hit may be its icon.
fn button_of(event: &web_sys::MouseEvent) -> Element {
    event.current_target().expect("an event has its listener's element").unchecked_into()
}

fn only_chosen(editor: &Editor) -> Option<&Piece> {
    match editor.selection() {
        [only] => editor.layout().pieces.get(*only),
        _ => None,
    }
}
