//! The menu of what can be done with the chosen pieces, or with the sheet.

use kurbo::{Point, Rect, Size};
use leptos::html::Div;
use leptos::prelude::*;
use stickleaf_editor::{Align, Editor, SpaceOut, Tool};
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, KeyboardEvent};

use crate::canvas::focus_sheet;
use crate::choices::Choices;
use crate::icons::{Icon, icon};
use crate::rough::toggle_blob_tool;
use crate::state::{Desk, Panel, use_desk};
use crate::words;

/// How far the menu keeps from the edges of the page, in pixels.
const FROM_EDGE: f64 = 8.0;

/// One choice: its word, its icon, and what it does.
type Choice = (&'static str, Icon, fn(Desk));

fn align() -> [Choice; 6] {
    [
        (words::align_left(), Icon::AlignLeft, |desk| desk.act(|editor| editor.align(Align::Left))),
        (words::align_centre(), Icon::AlignCentre, |desk| desk.act(|editor| editor.align(Align::Centre))),
        (words::align_right(), Icon::AlignRight, |desk| desk.act(|editor| editor.align(Align::Right))),
        (words::align_top(), Icon::AlignTop, |desk| desk.act(|editor| editor.align(Align::Top))),
        (words::align_middle(), Icon::AlignMiddle, |desk| desk.act(|editor| editor.align(Align::Middle))),
        (words::align_bottom(), Icon::AlignBottom, |desk| desk.act(|editor| editor.align(Align::Bottom))),
    ]
}

/// Shows the menu that is open, if one is.
#[component]
pub fn ChoicesMenu() -> impl IntoView {
    let desk = use_desk();
    view! { {move || desk.choices.get().map(|choices| view! { <Menu choices /> })} }
}

/// Over all else: a press beside it, Escape and Tab close it. Arrows, Home and End walk.
#[component]
fn Menu(choices: Choices) -> impl IntoView {
    let desk = use_desk();
    let menu = NodeRef::<Div>::new();
    let title = desk.peek(|editor| title(editor, choices.about_pieces));
    Effect::new(move |_| {
        let Some(menu) = menu.get() else { return };
        // At once: a key pressed before it is placed is meant for it already.
        walk(&menu, |_, _| 0);
        request_animation_frame(move || {
            let size = Size::new(f64::from(menu.offset_width()), f64::from(menu.offset_height()));
            let at = beside(choices.by, size, page_size());
            for (side, px) in [("left", at.x), ("top", at.y)] {
                // A length in pixels is never refused.
                let _ = HtmlElement::style(&menu).set_property(side, &format!("{px}px"));
            }
        });
    });
    let keys = move |event: KeyboardEvent| {
        let Some(menu) = menu.get_untracked() else { return };
        match &*event.key() {
            "Escape" | "Tab" => close(desk, choices),
            "ArrowDown" | "ArrowRight" => {
                walk(&menu, |here, count| here.map_or(0, |here| (here + 1) % count))
            }
            "ArrowUp" | "ArrowLeft" => {
                walk(&menu, |here, count| here.map_or(0, |here| (here + count - 1) % count))
            }
            "Home" => walk(&menu, |_, _| 0),
            "End" => walk(&menu, |_, count| count - 1),
            _ => return,
        }
        event.prevent_default();
        event.stop_propagation();
    };
    let items = if choices.about_pieces {
        about_pieces(desk, choices).into_any()
    } else {
        about_sheet(desk, choices).into_any()
    };
    view! {
        <div
            class="choices-under"
            class:held=move || choices.is_held.get()
            on:pointerdown=move |event| {
                event.prevent_default();
                close(desk, choices);
            }
            on:contextmenu=move |event| event.prevent_default()
        ></div>
        <div
            node_ref=menu
            class="choices"
            role="menu"
            aria-label=title.clone()
            tabindex="-1"
            on:keydown=keys
            on:contextmenu=move |event| event.prevent_default()
        >
            {items}
        </div>
    }
}

/// What the menu is called.
fn title(editor: &Editor, about_pieces: bool) -> String {
    match editor.selection() {
        _ if !about_pieces => words::sheet_choices().to_owned(),
        [only] => words::piece_choices(&words::piece_name(editor.layout(), *only)),
        chosen => words::piece_choices(&words::chosen(chosen.len())),
    }
}

/// What is known of the chosen pieces.
struct Chosen {
    count: usize,
    are_locked: bool,
    may_turn: bool,
    may_move: bool,
    /// The sticker that all of them are copies of.
    sticker: Option<String>,
}

impl Chosen {
    fn of(editor: &Editor) -> Chosen {
        let pieces = &editor.layout().pieces;
        let chosen = editor.selection();
        let first = chosen.first().map(|&piece| &pieces[piece].sticker);
        let is_same = chosen.iter().all(|&piece| Some(&pieces[piece].sticker) == first);
        Chosen {
            count: chosen.len(),
            are_locked: chosen.iter().all(|&piece| pieces[piece].locked),
            may_turn: editor.turn_handle().is_some(),
            may_move: chosen.iter().any(|&piece| !pieces[piece].locked),
            sticker: first.filter(|_| is_same).map(ToString::to_string),
        }
    }
}

fn about_pieces(desk: Desk, choices: Choices) -> impl IntoView {
    let Chosen { count, are_locked, may_turn, may_move, sticker } = desk.peek(Chosen::of);
    let item = move |choice: Choice, is_off: bool| item(desk, choices, choice, is_off);
    let turn: [Choice; 2] = [
        (words::turn_left(), Icon::TurnLeft, |desk| {
            desk.act(|editor| editor.turn_by(-editor.habits.step.degrees()))
        }),
        (words::turn_right(), Icon::TurnRight, |desk| {
            desk.act(|editor| editor.turn_by(editor.habits.step.degrees()))
        }),
    ];
    let lock: Choice = if are_locked {
        (words::unlock(), Icon::Unlock, |desk| desk.act(Editor::unlock))
    } else {
        (words::lock(), Icon::Lock, |desk| desk.act(Editor::lock))
    };
    let edit = move |id: String| {
        let choose = move |_| {
            close(desk, choices);
            desk.panel.set(Some(Panel::Sticker(id.clone())));
        };
        view! {
            <button type="button" class="choices-item" role="menuitem" tabindex="-1" on:click=choose>
                {icon(Icon::Tune)} <span>{words::edit_sticker()}</span>
            </button>
        }
    };
    let is_one_kind = sticker.is_some();
    view! {
        {turn.map(|choice| item(choice, !may_turn)).into_iter().collect_view()}
        {item(lock, false)}
        {item((words::duplicate(), Icon::Duplicate, |desk| desk.act(Editor::duplicate)), false)}
        {item((words::remove(), Icon::Remove, |desk| desk.act(Editor::remove)), !may_move)}
        {(count == 1 || is_one_kind).then(|| view! { <div class="choices-line" role="separator"></div> })}
        {(count == 1).then(|| item((words::look_closer(), Icon::Closer, |desk| desk.act(|editor| {
            if let &[piece] = editor.selection() {
                editor.look_at_piece(piece);
            }
        })), false))}
        {is_one_kind.then(|| item((words::choose_same(), Icon::Several, |desk| desk.act(choose_same)), false))}
        {sticker.map(edit)}
        {(count > 1).then(|| view! { <Arrange choices count may_move /> })}
    }
}

/// In line, and evenly spaced: small buttons with names.
#[component]
fn Arrange(choices: Choices, count: usize, may_move: bool) -> impl IntoView {
    let desk = use_desk();
    let small = move |(word, picture, deed): Choice, is_off: bool| {
        view! {
            <button
                type="button"
                class="choices-item small"
                role="menuitem"
                tabindex="-1"
                aria-label=word
                title=word
                disabled=is_off
                on:click=move |_| {
                    close(desk, choices);
                    deed(desk);
                }
            >
                {icon(picture)}
            </button>
        }
    };
    let space: [Choice; 2] = [
        (words::space_across(), Icon::SpaceAcross, |desk| {
            desk.act(|editor| editor.space_out(SpaceOut::Across))
        }),
        (words::space_down(), Icon::SpaceDown, |desk| desk.act(|editor| editor.space_out(SpaceOut::Down))),
    ];
    view! {
        <div class="choices-line" role="separator"></div>
        <div class="choices-group" role="group" aria-label=words::align()>
            <span class="choices-name" aria-hidden="true">{words::align()}</span>
            <div class="choices-row">{align().map(|choice| small(choice, !may_move)).into_iter().collect_view()}</div>
        </div>
        <div class="choices-group" role="group" aria-label=words::space_out()>
            <span class="choices-name" aria-hidden="true">{words::space_out()}</span>
            <div class="choices-row">{space.map(|choice| small(choice, count < 3 || !may_move)).into_iter().collect_view()}</div>
        </div>
    }
}

fn about_sheet(desk: Desk, choices: Choices) -> impl IntoView {
    let (is_bare, is_packing) =
        desk.peek(|editor| (editor.layout().pieces.is_empty(), editor.is_previewing()));
    let item = move |choice: Choice, is_off: bool| item(desk, choices, choice, is_off);
    view! {
        {item((words::whole_sheet(), Icon::Fit, |desk| desk.act(Editor::fit)), false)}
        {item((words::choose_all(), Icon::PlaceThese, |desk| desk.act(|editor| {
            editor.select((0..editor.layout().pieces.len()).collect());
        })), is_bare || is_packing)}
        {item((words::choose_several(), Icon::Several, |desk| desk.act(|editor| editor.set_tool(Tool::Choose))), is_bare || is_packing)}
        <div class="choices-line" role="separator"></div>
        {item((words::draw_zone(), Icon::Background, |desk| desk.act(|editor| editor.set_tool(Tool::DrawZone))), is_packing)}
        {item((words::draw_blob(), Icon::Draw, toggle_blob_tool), is_packing)}
    }
}

fn item(desk: Desk, choices: Choices, (word, picture, deed): Choice, is_off: bool) -> impl IntoView {
    view! {
        <button
            type="button"
            class="choices-item"
            role="menuitem"
            tabindex="-1"
            disabled=is_off
            on:click=move |_| {
                close(desk, choices);
                deed(desk);
            }
        >
            {icon(picture)} <span>{word}</span>
        </button>
    }
}

/// Chooses every piece of the sticker that the first chosen one is a copy of.
fn choose_same(editor: &mut Editor) {
    let pieces = &editor.layout().pieces;
    let Some(sticker) = editor.selection().first().map(|&piece| pieces[piece].sticker.clone()) else {
        return;
    };
    let same = (0..pieces.len()).filter(|&piece| pieces[piece].sticker == sticker).collect();
    editor.select(same);
}

/// Closes the menu and gives the focus back to where it was opened from.
fn close(desk: Desk, choices: Choices) {
    desk.choices.set(None);
    let button = document().query_selector(".hand-more").ok().flatten();
    match button.and_then(|button| button.dyn_into::<HtmlElement>().ok()).filter(|_| !choices.from_sheet) {
        Some(button) => {
            // What is not shown passes the focus over.
            let _ = button.focus();
        }
        None => focus_sheet(),
    }
}

/// Gives the focus to another choice: `to` is told which has it now, and how many there are.
fn walk(menu: &HtmlElement, to: impl FnOnce(Option<u32>, u32) -> u32) {
    let Ok(items) = menu.query_selector_all("[role=menuitem]:not(:disabled)") else { return };
    let element = |nth| items.item(nth).and_then(|item| item.dyn_into::<HtmlElement>().ok());
    let focused = document().active_element();
    let here = (0..items.length()).find(|&nth| element(nth).map(Into::into) == focused);
    if items.length() > 0
        && let Some(item) = element(to(here, items.length()))
    {
        let _ = item.focus();
    }
}

fn page_size() -> Size {
    let px = |value: Result<wasm_bindgen::JsValue, _>| value.ok().and_then(|px| px.as_f64()).unwrap_or(0.0);
    Size::new(px(window().inner_width()), px(window().inner_height()))
}

/// Where a menu of this size hangs on what it belongs to: below and to the right, else above, and always on the page.
fn beside(by: Rect, menu: Size, page: Size) -> Point {
    let within = |at: f64, length: f64, room: f64| at.min(room - length - FROM_EDGE).max(FROM_EDGE);
    let below = by.y1 + FROM_EDGE;
    let above = by.y0 - FROM_EDGE - menu.height;
    let fits_below = below + menu.height + FROM_EDGE <= page.height;
    let top = if fits_below || above < FROM_EDGE { below } else { above };
    Point::new(within(by.x0, menu.width, page.width), within(top, menu.height, page.height))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_menu_hangs_below_else_above_and_never_off_the_page() {
        let (menu, page) = (Size::new(200.0, 300.0), Size::new(390.0, 844.0));
        let at = |x: f64, y: f64| beside(Rect::new(x, y, x, y), menu, page);
        assert_eq!(at(50.0, 100.0), Point::new(50.0, 108.0));
        assert_eq!(at(300.0, 100.0), Point::new(182.0, 108.0));
        assert_eq!(at(50.0, 800.0), Point::new(50.0, 492.0));
        assert_eq!(
            beside(Rect::new(0.0, 0.0, 9.0, 9.0), Size::new(500.0, 900.0), page),
            Point::new(8.0, 8.0)
        );
    }
}
