//! What can be done with what lies under the finger, as a menu: where it opens, and what it is about.

use kurbo::{Point, Rect};
use leptos::prelude::*;
use web_sys::Element;

use crate::state::Desk;

/// An open menu.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choices {
    /// What it hangs on, in CSS pixels of the page: the point that was pressed, or the button.
    pub by: Rect,
    /// Whether it is about the chosen pieces; else about the sheet.
    pub about_pieces: bool,
    /// Whether the focus goes back to the sheet when it closes; else to the button of the hand bar.
    pub from_sheet: bool,
    /// Whether the press that opened it is still held: until then other pointers reach the sheet.
    pub is_held: RwSignal<bool>,
}

/// Opens it over the canvas: about the chosen pieces if it is on one of them, about this piece, which is chosen then, or
/// about the sheet.
///
/// `at` is in pixels of the canvas; without it the menu opens at the chosen pieces, or in the middle. `is_held` says that a
/// press opened it that goes on.
pub fn open(desk: Desk, canvas: &Element, at: Option<Point>, on: Option<usize>, is_held: bool) {
    let about_pieces = on.filter(|_| !desk.peek(stickleaf_editor::Editor::is_previewing));
    if let Some(piece) = about_pieces {
        desk.act(|editor| {
            if !editor.selection().contains(&piece) {
                editor.select(vec![piece]);
            }
        });
    }
    let at = at.unwrap_or_else(|| {
        desk.peek(|editor| {
            let view = editor.view();
            let line = editor.selection().first().map(|&piece| editor.lines()[piece].bounds().center());
            let middle = (view.canvas / 2.0).to_vec2().to_point();
            line.map(|centre| view.to_canvas(centre))
                .filter(|&at| view.canvas.to_rect().contains(at))
                .unwrap_or(middle)
        })
    });
    let corner = canvas.get_bounding_client_rect();
    let at = Point::new(at.x + corner.left(), at.y + corner.top());
    let by = Rect::from_points(at, at);
    let (about_pieces, is_held) = (about_pieces.is_some(), RwSignal::new(is_held));
    desk.choices.set(Some(Choices { by, about_pieces, from_sheet: true, is_held }));
}

/// Opens it over a button of the hand bar, about the chosen pieces.
pub fn open_over(desk: Desk, button: &Element) {
    let bounds = button.get_bounding_client_rect();
    let by = Rect::new(bounds.left(), bounds.top(), bounds.right(), bounds.bottom());
    let is_held = RwSignal::new(false);
    desk.choices.set(Some(Choices { by, about_pieces: true, from_sheet: false, is_held }));
}

/// The press that opened it is lifted.
pub fn let_go(desk: Desk) {
    if let Some(choices) = desk.choices.get_untracked() {
        choices.is_held.set(false);
    }
}
