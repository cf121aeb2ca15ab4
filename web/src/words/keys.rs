//! Words for keys and gestures: what is pressed, and what it does.

words! {
    keys: "Keys", "Keys";
    keys_sheet: "While the sheet has the focus", "While the sheet has the focus";
    keys_pointer: "Mouse and pen", "Mouse and pen";
    keys_fingers: "Fingers", "Fingers";
    keys_page: "Anywhere", "Anywhere";
    keys_hint: "On a Mac, Cmd does what Ctrl does here.", "On a Mac, Cmd does what Ctrl does here.";
    keys_move: "Arrows", "Arrows";
    keys_turn: "[ and ]", "[ and ]";
    keys_coarse: "with Shift", "with Shift";
    keys_fine: "with Alt", "with Alt";
}

pub const SHEET_KEYS: [(&str, &str); 6] = [
    ("Delete, Backspace", "Take the chosen pieces off the sheet"),
    ("Ctrl D", "One more of each chosen piece"),
    ("Ctrl A", "Choose every piece"),
    ("+ and −", "Look closer, look from further away"),
    ("0", "The whole sheet"),
    ("Esc", "Give up the drag; else choose nothing; else stop drawing"),
];

pub const POINTER_KEYS: [(&str, &str); 8] = [
    ("Click", "Choose a piece; beside them, choose nothing"),
    ("Shift click, Ctrl click", "Add a piece to the chosen ones, or leave it out"),
    ("Drag a piece", "Move it, and the others that are chosen"),
    ("Drag the handle", "Turn the chosen piece"),
    ("Drag beside the pieces", "Choose all that the box touches"),
    ("Space and drag, middle button", "Move the view"),
    ("Wheel", "Move the view up and down; with Shift, sideways"),
    ("Ctrl wheel", "Look closer, look from further away"),
];

pub const FINGER_KEYS: [(&str, &str); 6] = [
    ("Tap", "Choose a piece; beside them, choose nothing"),
    ("Drag a piece", "Move it, and the others that are chosen"),
    ("Drag beside the pieces", "Move the view"),
    ("Pinch", "Look closer, look from further away"),
    ("Two fingers on the chosen piece", "Carry and turn it"),
    ("Tap with two, with three fingers", "Undo, redo"),
];

pub const PAGE_KEYS: [(&str, &str); 5] = [
    ("Ctrl Z", "Undo"),
    ("Ctrl Shift Z, Ctrl Y", "Redo"),
    ("Enter", "Take what was typed in a field"),
    ("Esc", "Give back what a field said; close a menu, a drawer or a dialog"),
    ("?", "This list"),
];

pub fn moves(length: &str) -> String {
    format!("Move the chosen pieces by {length}")
}

pub fn turns(degrees: f64) -> String {
    format!("Turn the chosen pieces by {degrees}°")
}

pub fn key_step(length: &str, degrees: f64) -> String {
    format!("{length} and {degrees}° instead")
}
