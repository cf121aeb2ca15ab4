//! The check of a carried piece, and a whole move of it, for a browser that takes the time: `tests/browser/drag.mjs`.
//!
//! Compiled to wasm like the page and part of no program of it, so that measuring costs the page nothing.

#![expect(unsafe_code, reason = "what is called from outside keeps its name")]

#[path = "../../../editor/benches/full_sheet/mod.rs"]
mod full_sheet;

use std::cell::RefCell;

use full_sheet::{full_sheet, middle};
use kurbo::{Point, Vec2};
use stickleaf_editor::{Editor, Input, PointerKind, Press};
use stickleaf_sheet::{Layout, check_piece, placed_cut_lines};

/// The piece that is carried: one in the middle.
const CARRIED: usize = 110;

thread_local! {
    static EDITOR: RefCell<Editor> = RefCell::new(carrying());
    static SHEET: RefCell<(Layout, Vec<stickleaf_outline::Outline>)> = RefCell::new({
        let layout = full_sheet();
        let lines = placed_cut_lines(&layout);
        (layout, lines)
    });
}

/// An editor with the piece in its hand.
fn carrying() -> Editor {
    carrying_with(Editor::new(full_sheet()))
}

fn carrying_with(mut editor: Editor) -> Editor {
    let at = on_canvas(&editor, Vec2::ZERO);
    let kind = PointerKind::Touch;
    editor.input(Input::Down(Press { id: 1, kind, at, extend: false, pan: false, time_ms: 0.0 }));
    // Far enough for a tap to become a drag.
    let (x, y) = (at.x + 50.0, at.y);
    editor.input(Input::Move { id: 1, at: Point::new(x, y), time_ms: 0.0 });
    editor
}

fn on_canvas(editor: &Editor, away: Vec2) -> Point {
    editor.view().to_canvas(middle(CARRIED as i32) + away)
}

/// A way round: near its own place, or over the others.
fn away(is_far: u32, step: u32) -> Vec2 {
    let angle = f64::from(step % 64) / 64.0 * core::f64::consts::TAU;
    let (x, y) = if is_far == 0 { (4.0, 4.0) } else { (100.0, 40.0) };
    Vec2::new(x * libm::sin(2.0 * angle), y * libm::sin(3.0 * angle))
}

/// Puts the piece in so many places, and checks it in each; gives how many rules it broke.
#[unsafe(no_mangle)]
pub extern "C" fn check_carried(is_far: u32, times: u32) -> u32 {
    SHEET.with_borrow_mut(|(layout, lines)| {
        let mut broken = 0;
        for step in 0..times {
            let placement = &mut layout.pieces[CARRIED].placement;
            placement.at = middle(CARRIED as i32) + away(is_far, step);
            let sticker = layout.sticker(&layout.pieces[CARRIED].sticker).expect("the sheet has it");
            lines[CARRIED] = sticker.cut_line(&layout.rules).placed(&layout.pieces[CARRIED].placement);
            broken += check_piece(layout, lines, CARRIED).len() as u32;
        }
        broken
    })
}

/// Moves the finger that carries the piece so many times; gives how many rules it broke.
#[unsafe(no_mangle)]
pub extern "C" fn carry(is_far: u32, times: u32) -> u32 {
    EDITOR.with_borrow_mut(|editor| {
        let mut broken = 0;
        for step in 0..times {
            let at = on_canvas(editor, away(is_far, step));
            editor.input(Input::Move { id: 1, at, time_ms: 0.0 });
            broken += editor.live_findings().len() as u32;
        }
        broken
    })
}

/// Lifts the piece, carries it away and lets it go, so many times; gives how many rules are broken on the sheet.
#[unsafe(no_mangle)]
pub extern "C" fn carry_and_let_go(is_far: u32, times: u32) -> u32 {
    EDITOR.with_borrow_mut(|editor| {
        let mut broken = 0;
        for step in 0..times {
            let at = on_canvas(editor, away(is_far, 2 * step + 1));
            editor.input(Input::Move { id: 1, at, time_ms: 0.0 });
            editor.input(Input::Up { id: 1, at, time_ms: 0.0 });
            broken += editor.findings().iter().filter(|finding| finding.is_broken()).count() as u32;
            editor.undo();
            *editor = carrying_with(core::mem::replace(editor, Editor::new(Layout::default())));
        }
        broken
    })
}
