//! What the browser says happened, as input for the editor.

use kurbo::Point;
use stickleaf_editor::{Input, Key, PointerKind, Press, Stride};
use web_sys::{KeyboardEvent, PointerEvent, WheelEvent};

/// A line of text, for wheels that count in lines, in pixels.
const LINE_PX: f64 = 18.0;

/// The button of a mouse that pans.
const MIDDLE: i16 = 1;

/// A pointer coming down; nothing if it is a button that does nothing here. `pan` says that the space bar is held.
pub fn pressed(event: &PointerEvent, at: Point, pan: bool) -> Option<Input> {
    let kind = match &*event.pointer_type() {
        "touch" => PointerKind::Touch,
        "pen" => PointerKind::Pen,
        _ => PointerKind::Mouse,
    };
    if !matches!(event.button(), 0 | MIDDLE) {
        return None;
    }
    Some(Input::Down(Press {
        id: id(event),
        kind,
        at,
        extend: event.shift_key() || event.ctrl_key() || event.meta_key(),
        pan: pan || event.button() == MIDDLE,
        time_ms: event.time_stamp(),
    }))
}

/// A pointer that moved.
pub fn moved(event: &PointerEvent, at: Point) -> Input {
    Input::Move { id: id(event), at, time_ms: event.time_stamp() }
}

/// A pointer that was lifted.
pub fn lifted(event: &PointerEvent, at: Point) -> Input {
    Input::Up { id: id(event), at, time_ms: event.time_stamp() }
}

/// A pointer that the system took away.
pub fn cancelled(event: &PointerEvent) -> Input {
    Input::Cancel { id: id(event) }
}

/// A turn of the wheel. With Ctrl, or Cmd, or a pinch on a trackpad, which browsers tell as Ctrl, it zooms.
pub fn wheeled(event: &WheelEvent, at: Point) -> Input {
    let unit = match event.delta_mode() {
        WheelEvent::DOM_DELTA_LINE => LINE_PX,
        WheelEvent::DOM_DELTA_PAGE => 20.0 * LINE_PX,
        _ => 1.0,
    };
    let (dx, dy) = (event.delta_x() * unit, event.delta_y() * unit);
    let zoom = event.ctrl_key() || event.meta_key();
    // A pinch tells small numbers for the same way of the fingers.
    let dy = if zoom && dy.abs() < 20.0 { dy * 5.0 } else { dy };
    let (dx, dy) = if event.shift_key() && dx == 0.0 { (dy, 0.0) } else { (dx, dy) };
    Input::Wheel { at, dx, dy, zoom }
}

/// What a key asks for; nothing if it is none of the canvas's keys.
pub fn key(event: &KeyboardEvent) -> Option<Input> {
    let command = event.ctrl_key() || event.meta_key();
    let shift = event.shift_key();
    let code = event.code();
    let key = match (command, &*event.key()) {
        (true, "z" | "Z") => {
            if shift {
                Key::Redo
            } else {
                Key::Undo
            }
        }
        (true, "y") => Key::Redo,
        (true, "a") => Key::ChooseAll,
        (true, "d") => Key::Duplicate,
        (true, _) => return None,
        (false, "ArrowLeft") => Key::Left,
        (false, "ArrowRight") => Key::Right,
        (false, "ArrowUp") => Key::Up,
        (false, "ArrowDown") => Key::Down,
        (false, "[" | "{") => Key::TurnLeft,
        (false, "]" | "}") => Key::TurnRight,
        // With Alt held some keyboards write other signs there.
        (false, _) if event.alt_key() && code == "BracketLeft" => Key::TurnLeft,
        (false, _) if event.alt_key() && code == "BracketRight" => Key::TurnRight,
        (false, "Delete" | "Backspace") => Key::Remove,
        (false, "+" | "=") => Key::ZoomIn,
        (false, "-") => Key::ZoomOut,
        (false, "0") => Key::Fit,
        (false, "Escape") => Key::Escape,
        _ => return None,
    };
    let stride = match (shift, event.alt_key()) {
        (true, _) => Stride::Coarse,
        (false, true) => Stride::Fine,
        (false, false) => Stride::Plain,
    };
    Some(Input::Key { key, stride, time_ms: event.time_stamp() })
}

/// The number of a pointer, as the editor knows it.
pub fn id(event: &PointerEvent) -> u64 {
    // Some browsers count pointers from below zero; what matters is that each keeps its own number.
    u64::from(event.pointer_id().cast_unsigned())
}
