//! Words for the pieces and the hand that moves them.

use crate::words::figure;
use crate::words::language::pick;

// The pieces

words! {
    pieces_list: "Pieces", "Stücke";
    breaks_a_rule: " · breaks a rule", " · verletzt eine Regel";
}

pub fn pieces(count: usize) -> String {
    if count == 1 {
        pick("1 piece", "1 Stück").to_owned()
    } else {
        say!("{count} pieces", "{count} Stücke")
    }
}

pub fn piece_place(x: &str, y: &str, degrees: f64) -> String {
    if degrees.abs() < 0.05 { format!("{x}, {y}") } else { format!("{x}, {y} · {}°", figure(degrees, 1)) }
}

// The hand

words! {
    hand: "Chosen pieces", "Gewählte Stücke";
    hand_hint:
        "Choose a piece to move or turn it from here.",
        "Wähle ein Stück, um es von hier aus zu schieben oder zu drehen.";
    lock: "Lock", "Sperren";
    unlock: "Unlock", "Entsperren";
    turn_left: "Turn left", "Nach links drehen";
    turn_right: "Turn right", "Nach rechts drehen";
    nudge_left: "Nudge left", "Nach links";
    nudge_right: "Nudge right", "Nach rechts";
    nudge_up: "Nudge up", "Nach oben";
    nudge_down: "Nudge down", "Nach unten";
    numbers: "Numbers", "Zahlen";
    duplicate: "Copy", "Kopie";
    remove: "Remove", "Wegnehmen";
    x: "x", "x";
    y: "y", "y";
    turn: "turn °", "Drehung °";
}

pub fn chosen(count: usize) -> String {
    say!("{count} pieces", "{count} Stücke")
}
