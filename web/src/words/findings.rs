//! Words for what the check found, and the room that is left.

// Findings

words! {
    findings: "Findings", "Findings";
    no_findings: "Nothing to see to: every rule holds, and nothing is worth a warning.", "Nothing to see to: every rule holds, and nothing is worth a warning.";
    rules_hold_title: "All rules hold", "All rules hold";
}

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

words! {
    empty_room: "Empty room", "Empty room";
    show_empty_room: "Show empty room", "Show empty room";
    looking_for_room: "Looking for room.", "Looking for room.";
    room_after_packing: "It is looked for when packing is done.", "It is looked for when packing is done.";
    room_dots: "Dots that fit", "Dots that fit";
    room_stickers: "Your stickers that fit", "Your stickers that fit";
    room_hint: "Each by itself, at the largest size that was found.", "Each by itself, at the largest size that was found.";
    dot: "Dot", "Dot";
    step_put_dot: "Put a dot there", "Put a dot there";
}

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
