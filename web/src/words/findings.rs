//! Words for what the check found, and the room that is left.

// Findings

pub const FINDINGS: &str = "Findings";
pub const NO_FINDINGS: &str = "Nothing to see to: every rule holds, and nothing is worth a warning.";
pub const RULES_HOLD_TITLE: &str = "All rules hold";

pub fn less_than(length: &str) -> String {
    format!("less than {length}")
}

pub fn mend(name: &str, distance: &str, is_moved: bool, degrees: f64) -> String {
    if is_moved { format!("Move {name} by {distance}") } else { format!("Turn {name} by {degrees:.1}°") }
}

/// What a group of warnings about several stickers is called.
pub fn warning_group(rule: stickleaf_sheet::Rule, count: usize) -> String {
    use stickleaf_sheet::Rule;
    let many =
        |one: &str, more: &str| if count == 1 { format!("1 {one}") } else { format!("{count} {more}") };
    match rule {
        Rule::Turn => many("piece is turned further than allowed", "pieces are turned further than allowed"),
        Rule::Border => {
            many("border may let the cut clip the drawing", "borders may let the cut clip the drawing")
        }
        Rule::ThinPart => {
            many("sticker has a thin part that may tear", "stickers have thin parts that may tear")
        }
        Rule::InnerCorner => many("sticker has a sharp inward corner", "stickers have sharp inward corners"),
        Rule::Size => many("sticker is hard to handle", "stickers are hard to handle"),
        Rule::Resolution => many("sticker prints soft", "stickers print soft"),
        Rule::SmallPart => many(
            "sticker is a small part: not for children under three",
            "stickers are small parts: not for children under three",
        ),
        Rule::Overlap | Rule::Spacing | Rule::Margin | Rule::Zone | Rule::Clearance => {
            many("broken rule", "broken rules")
        }
    }
}

// The empty room

pub const EMPTY_ROOM: &str = "Empty room";
pub const SHOW_EMPTY_ROOM: &str = "Show empty room";
pub const LOOKING_FOR_ROOM: &str = "Looking for room.";
pub const ROOM_AFTER_PACKING: &str = "It is looked for when packing is done.";
pub const ROOM_DOTS: &str = "Dots that fit";
pub const ROOM_STICKERS: &str = "Your stickers that fit";
pub const ROOM_HINT: &str = "Each by itself, at the largest size that was found.";
pub const DOT: &str = "Dot";
pub const STEP_PUT_DOT: &str = "Put a dot there";

pub fn step_put(name: &str) -> String {
    format!("Put {name} there")
}

pub fn dot_of(length: &str) -> String {
    format!("Dot of {length}")
}

/// How a sticker fits at full size.
pub fn fits_full(name: &str, degrees: f64, is_flipped: bool) -> String {
    let turned = if degrees.abs() < 0.5 { String::new() } else { format!(", turned {degrees:.0}°") };
    let flipped = if is_flipped { ", flipped" } else { "" };
    format!("{name} at full size{turned}{flipped}")
}

/// How a sticker fits that is too large; its size is never told larger than found.
pub fn fits_smaller(name: &str, scale: f64) -> String {
    format!("{name} at {:.0} %", (scale * 100.0).floor())
}

/// What fits, in a sentence; `least` is the smallest dot that counts.
pub fn room_found(dots: usize, least: &str, full: usize, smaller: usize) -> String {
    let dots = match dots {
        0 => format!("No dot of {least} or more fits"),
        1 => format!("One dot of {least} or more fits"),
        several => format!("{several} dots of {least} or more fit"),
    };
    let stickers = match (full, smaller) {
        (0, 0) => "none of your stickers was found to fit, even at half its size".to_owned(),
        (0, 1) => "one of your stickers would fit if it were smaller".to_owned(),
        (0, several) => format!("{several} of your stickers would fit if they were smaller"),
        (1, 0) => "one of your stickers fits".to_owned(),
        (several, 0) => format!("{several} of your stickers fit"),
        (1, more) => format!("one of your stickers fits, {more} more would if smaller"),
        (several, more) => format!("{several} of your stickers fit, {more} more would if smaller"),
    };
    format!("{dots}; {stickers}.")
}

pub fn more(count: usize) -> String {
    format!("{count} more")
}
