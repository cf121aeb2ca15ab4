//! Words for the pieces and the hand that moves them.

// The pieces

pub const PIECES: &str = "Pieces";
pub const BREAKS_A_RULE: &str = " · breaks a rule";

pub fn pieces(count: usize) -> String {
    if count == 1 { "1 piece".to_owned() } else { format!("{count} pieces") }
}

pub fn piece_place(x: &str, y: &str, degrees: f64) -> String {
    if degrees.abs() < 0.05 { format!("{x}, {y}") } else { format!("{x}, {y} · {degrees:.1}°") }
}

// The hand

pub const HAND: &str = "Chosen pieces";
pub const HAND_HINT: &str = "Choose a piece to move or turn it from here.";
pub const LOCK: &str = "Lock";
pub const UNLOCK: &str = "Unlock";
pub const TURN_LEFT: &str = "Turn left";
pub const TURN_RIGHT: &str = "Turn right";
pub const NUDGE_LEFT: &str = "Nudge left";
pub const NUDGE_RIGHT: &str = "Nudge right";
pub const NUDGE_UP: &str = "Nudge up";
pub const NUDGE_DOWN: &str = "Nudge down";
pub const NUMBERS: &str = "Numbers";
pub const DUPLICATE: &str = "Copy";
pub const REMOVE: &str = "Remove";
pub const X: &str = "x";
pub const Y: &str = "y";
pub const TURN: &str = "turn °";

pub fn chosen(count: usize) -> String {
    format!("{count} pieces")
}
