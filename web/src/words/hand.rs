//! Words for the pieces and the hand that moves them.

// The pieces

words! {
    pieces_list: "Pieces", "Pieces";
    breaks_a_rule: " · breaks a rule", " · breaks a rule";
}

pub fn pieces(count: usize) -> String {
    if count == 1 { "1 piece".to_owned() } else { format!("{count} pieces") }
}

pub fn piece_place(x: &str, y: &str, degrees: f64) -> String {
    if degrees.abs() < 0.05 { format!("{x}, {y}") } else { format!("{x}, {y} · {degrees:.1}°") }
}

// The hand

words! {
    hand: "Chosen pieces", "Chosen pieces";
    hand_hint: "Choose a piece to move or turn it from here.", "Choose a piece to move or turn it from here.";
    lock: "Lock", "Lock";
    unlock: "Unlock", "Unlock";
    turn_left: "Turn left", "Turn left";
    turn_right: "Turn right", "Turn right";
    nudge_left: "Nudge left", "Nudge left";
    nudge_right: "Nudge right", "Nudge right";
    nudge_up: "Nudge up", "Nudge up";
    nudge_down: "Nudge down", "Nudge down";
    numbers: "Numbers", "Numbers";
    duplicate: "Copy", "Copy";
    remove: "Remove", "Remove";
    x: "x", "x";
    y: "y", "y";
    turn: "turn °", "turn °";
}

pub fn chosen(count: usize) -> String {
    format!("{count} pieces")
}
