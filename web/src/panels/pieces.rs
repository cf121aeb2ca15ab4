//! Every piece as a line of text: the sheet for those who do not see it, and for keys.

use leptos::prelude::*;
use stickleaf_editor::{Editor, Input, Key, Stride};
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, KeyboardEvent};

use crate::canvas::focus_sheet;
use crate::icons::{Icon, icon};
use crate::state::{Desk, use_desk};
use crate::words;

/// The pieces in their order; one that is pressed is chosen, pressed once more it is looked for on the sheet.
///
/// Up, down, Home and End walk; square brackets turn, L locks, Delete takes off.
#[component]
pub fn Pieces() -> impl IntoView {
    let desk = use_desk();
    let is_open = RwSignal::new(false);
    let count = Memo::new(move |_| desk.layout.with(|layout| layout.pieces.len()));
    let lines = Memo::new(move |_| {
        if !is_open.get() {
            return Vec::new();
        }
        let unit = desk.unit.get();
        desk.read_at_rest(|editor| {
            let layout = editor.layout();
            let line = |index: usize| {
                let piece = &layout.pieces[index];
                let is_broken = editor
                    .findings()
                    .iter()
                    .any(|finding| finding.is_broken() && finding.pieces.contains(&index));
                let place = words::piece_place(
                    &words::number(unit, piece.placement.at.x),
                    &words::length(unit, piece.placement.at.y),
                    piece.placement.turn.to_signed_degrees(),
                );
                Line {
                    index,
                    name: words::piece_name(layout, index),
                    place,
                    is_broken,
                    is_locked: piece.locked,
                    is_chosen: editor.selection().contains(&index),
                }
            };
            (0..layout.pieces.len()).map(line).collect::<Vec<_>>()
        })
    });
    let line = move |line: Line| {
        view! {
            <li>
                <button
                    type="button"
                    class="piece-line"
                    aria-pressed=line.is_chosen.to_string()
                    on:click=move |_| choose(desk, line.index)
                    on:keydown=move |event| keys(desk, line.index, &event)
                >
                    <span class="piece-name">{line.name}</span>
                    <span class="piece-place">
                        {line.place} {line.is_locked.then_some(words::is_locked())}
                        {line.is_broken.then_some(words::breaks_a_rule())}
                    </span>
                </button>
            </li>
        }
    };
    view! {
        <details
            class="more"
            // A panel that comes back may take up the element of the one before, and with it whether it was open.
            prop:open=move || is_open.get()
            on:toggle=move |event| is_open.set(event_target::<web_sys::Element>(&event).has_attribute("open"))
        >
            <summary>{move || words::pieces(count.get())} <span class="turner">{icon(Icon::Down)}</span></summary>
            <ul role="list" class="piece-list" aria-label=words::pieces_list() aria-describedby="piece-keys">
                {move || lines.get().into_iter().map(line).collect_view()}
            </ul>
            <p class="hint" id="piece-keys">{words::piece_keys()}</p>
        </details>
    }
}

/// A piece as it stands in the list.
#[derive(Clone, PartialEq)]
struct Line {
    index: usize,
    name: String,
    place: String,
    is_broken: bool,
    is_locked: bool,
    is_chosen: bool,
}

/// Chooses a piece; if it is the one that is chosen, the keys that follow are the sheet's.
fn choose(desk: Desk, index: usize) {
    if desk.peek(|editor| editor.selection() == [index]) {
        focus_sheet();
    } else {
        desk.act(|editor| editor.select(vec![index]));
    }
}

/// What a key does in the line of a piece.
fn keys(desk: Desk, index: usize, event: &KeyboardEvent) {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    let last = desk.peek(|editor| editor.layout().pieces.len()).saturating_sub(1);
    match &*event.key() {
        "ArrowDown" => focus_line((index + 1).min(last)),
        "ArrowUp" => focus_line(index.saturating_sub(1)),
        "Home" => focus_line(0),
        "End" => focus_line(last),
        "[" | "{" => on_piece(desk, index, |editor| press(editor, Key::TurnLeft, event)),
        "]" | "}" => on_piece(desk, index, |editor| press(editor, Key::TurnRight, event)),
        "l" | "L" => on_piece(desk, index, |editor| {
            if editor.layout().pieces[index].locked { editor.unlock() } else { editor.lock() }
        }),
        "Delete" | "Backspace" => {
            on_piece(desk, index, |editor| press(editor, Key::Remove, event));
            // Once the line is gone that had the focus.
            request_animation_frame(move || focus_line(index.min(last.saturating_sub(1))));
        }
        _ => return,
    }
    event.prevent_default();
    event.stop_propagation();
}

/// Does something with this piece alone.
fn on_piece(desk: Desk, index: usize, deed: impl FnOnce(&mut Editor)) {
    desk.act(|editor| {
        if editor.selection() != [index] {
            editor.select(vec![index]);
        }
        deed(editor);
    });
}

/// A key as the sheet would hear it.
fn press(editor: &mut Editor, key: Key, event: &KeyboardEvent) {
    let stride = if event.shift_key() { Stride::Coarse } else { Stride::Plain };
    editor.input(Input::Key { key, stride, time_ms: event.time_stamp() });
}

fn focus_line(index: usize) {
    focus(&format!(".piece-list > li:nth-child({}) > button", index + 1));
}

fn focus(selector: &str) {
    let element = document().query_selector(selector).ok().flatten();
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        // What is not shown passes the focus over.
        let _ = element.focus();
    }
}
