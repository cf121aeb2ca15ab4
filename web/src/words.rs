//! Everything the page says, in one place, so that it can be said in another language some day.
//!
//! Plain, short, in the artist's terms. What the crates say themselves, such as findings and errors, stays with them.

use stickleaf_sheet::{LengthUnit, MM_PER_INCH, RULE_TOLERANCE};

use crate::messages::{PackAim, PackNews};

// The frame of the page

pub const DESK: &str = "Desk";
pub const PRESS: &str = "Press";
pub const PLACES: &str = "Places";
pub const UNDO: &str = "Undo";
pub const REDO: &str = "Redo";
pub const UNDO_THAT: &str = "Take it back";
pub const MORE: &str = "More";
pub const CLOSE: &str = "Close";
pub const OPEN: &str = "Open";
pub const OPEN_SAMPLE: &str = "Open a sample";
pub const START_EMPTY: &str = "Start with an empty sheet";
pub const SHEET_NAME: &str = "Name of this layout";
pub const STEP_RENAME: &str = "Rename";
pub const UNTITLED: &str = "Untitled";
pub const UNIT: &str = "Unit";
pub const MILLIMETRES: &str = "mm";
pub const INCHES: &str = "in";
pub const DROP_HERE: &str = "Let go to bring it in";
pub const DROP_MORE: &str = "Pictures become stickers; a layout or placement file opens.";
pub const PANELS: &str = "Panels";
pub const VIEW: &str = "View";
pub const CLOSER: &str = "Look closer";
pub const FURTHER: &str = "Look from further away";
pub const WHOLE_SHEET: &str = "Whole sheet";
pub const DRAWER_HEIGHT: &str = "Height of this panel";

// The canvas

pub const NO_DRAWING: &str = "This browser draws no pictures. Try a newer one.";

/// The sheet for those who do not see it; the lengths with their units.
pub fn sheet_in_a_sentence(width: &str, height: &str, count: usize, broken: usize) -> String {
    let rules = match broken {
        0 => ALL_RULES_HOLD.to_owned(),
        1 => "1 rule is broken".to_owned(),
        broken => format!("{broken} rules are broken"),
    };
    format!(
        "{width} by {height}, {}, {rules}. \
         Arrows move the chosen piece, square brackets turn it, Delete takes it off.",
        pieces(count)
    )
}

pub fn overlap(square_mm: f64) -> String {
    format!("overlap, {square_mm:.1} mm²")
}

pub fn on_a_zone(square_mm: f64) -> String {
    format!("on a zone, {square_mm:.1} mm²")
}

pub fn past_the_edge(length: &str) -> String {
    format!("{length} past the edge")
}

pub fn too_little(length: &str, limit: &str) -> String {
    format!("{length}, {limit} asked")
}

// Coming and going

pub const LAST_SHEET_IS_BACK: &str = "Your last sheet is back.";
pub const START_FRESH: &str = "Start fresh";
pub const PICTURES_NOT_KEPT: &str =
    "Your last sheet is back. Pictures are not kept between visits yet: drop them again to see them.";
pub const NOT_SAVED: &str =
    "This browser keeps nothing between visits, or has no room left. Save a layout file on the Press.";
pub const SAMPLE_FAILED: &str =
    "The sample could not be opened. Load the page again, or bring your own art in.";

pub fn opened(name: &str) -> String {
    format!("{name} is open.")
}

pub fn could_not_open(file: &str, why: &str) -> String {
    format!("{file} was not opened: {why}. What was on the desk is still there.")
}

pub fn could_not_read(file: &str) -> String {
    format!("{file} could not be read from this device. Choose it again, or copy it to the device first.")
}

pub fn unknown_kind(file: &str) -> String {
    format!(
        "{file} is of a kind that is not understood. Bring PNG or SVG, or open a layout or placement file (.json)."
    )
}

pub fn picture_is_back(file: &str) -> String {
    format!("The picture {file} is back on its stickers.")
}

// Keys and gestures: what is pressed, and what it does

pub const KEYS: &str = "Keys";
pub const KEYS_SHEET: &str = "While the sheet has the focus";
pub const KEYS_POINTER: &str = "Mouse and pen";
pub const KEYS_FINGERS: &str = "Fingers";
pub const KEYS_PAGE: &str = "Anywhere";
pub const KEYS_HINT: &str = "On a Mac, Cmd does what Ctrl does here.";
pub const KEYS_MOVE: &str = "Arrows";
pub const KEYS_TURN: &str = "[ and ]";
pub const KEYS_COARSE: &str = "with Shift";
pub const KEYS_FINE: &str = "with Alt";

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

// The empty desk

pub const EMPTY_TITLE: &str = "An empty sheet";
pub const EMPTY_TEXT: &str = "Drop a picture with a clear background, add a plain shape, or open a sample.";
pub const OPEN_THE_SAMPLE: &str = "Open the sample";
pub const ADD_SHAPE: &str = "Add a shape";

// The tally

pub const TALLY: &str = "Tally";
pub const ALL_RULES_HOLD: &str = "all rules hold";

pub fn placed(count: usize) -> String {
    format!("{count} placed")
}

pub fn at_most(ceiling: usize) -> String {
    format!("at most {ceiling}")
}

pub fn dense(density: f64) -> String {
    // A sum of nothing may be a negative zero.
    format!("{:.0} % dense", (density * 100.0).max(0.0).abs())
}

pub fn smallest_gap(gap: &str) -> String {
    format!("smallest gap {gap}")
}

pub fn rules_broken(count: usize, first: &str) -> String {
    match count {
        1 => first.to_owned(),
        _ => format!("{first}, and {} more", count - 1),
    }
}

// Packing

pub const FILL: &str = "Fill the sheet";
pub const PLACE_THESE: &str = "Place these";
pub const MORE_WAYS: &str = "More ways";
pub const GROW: &str = "As large as fits";
pub const GROW_TEXT: &str = "All of them, as large as possible";
pub const EVEN: &str = "Even the gaps";
pub const EVEN_TEXT: &str = "All of them spread out, the smallest gap as large as possible";
pub const SHORTEN: &str = "Shorten the sheet";
pub const SHORTEN_TEXT: &str = "The lowest sheet that holds all of them";
pub const STOP: &str = "Stop";
pub const PACK_OPTIONS: &str = "How to pack";
pub const REPEATABLE: &str = "Repeatable";
pub const REPEATABLE_HINT: &str =
    "The same layout, rounds and seed give the same sheet again, here and at the command line.";
pub const ROUNDS: &str = "Rounds";
pub const SEED: &str = "Seed";
pub const SECONDS_HINT: &str = "Otherwise it goes on until you stop it, or nothing is left to try.";
pub const WHOLE_NUMBER: &str = "type a whole number above 0";
pub const WHOLE_NUMBER_FROM_0: &str = "type a whole number, 0 or more";
pub const STARTING: &str = "getting ready";
pub const PACKING: &str = "Packing";

pub fn packing_begins(seconds: u64) -> String {
    format!("{STARTING} · {seconds} s")
}

/// How far packing is: what lies there, what was reached or the proven bound, what it is doing, for how long.
pub fn packing(aim: PackAim, news: &PackNews, unit: LengthUnit, seconds: u64) -> String {
    let PackNews { placed, missing, ceiling, doing, .. } = news;
    let so_far = match (reached(aim, news, unit), missing) {
        (None, _) => format!("{placed} placed · at most {ceiling}"),
        (Some(reached), 0) => format!("{placed} placed · {reached}"),
        (Some(_), missing) => format!("{placed} placed · {missing} to go"),
    };
    format!("{so_far} · {doing} · {seconds} s")
}

/// What packing has reached beside the count; nothing for the aims that are about the count alone.
pub fn reached(aim: PackAim, news: &PackNews, unit: LengthUnit) -> Option<String> {
    match aim {
        PackAim::Place | PackAim::Fill => None,
        PackAim::Grow => Some(percent_of_size(news.scale)),
        PackAim::Even => Some(match news.gap {
            Some(gap) => smallest_gap(&tenths(unit, gap)),
            None => placed(news.placed),
        }),
        PackAim::Shorten => Some(format!("sheet {} high", unit.text(news.height))),
    }
}

/// The size in tenths of a per cent, never told larger than it is.
fn percent_of_size(scale: f64) -> String {
    // What is a whole number of steps but for rounding stays so.
    let tenths = (scale * 1000.0 + 1e-6).floor() / 10.0;
    format!("{tenths} % of the size")
}

/// A gap as one reads it at a glance: a tenth of a millimetre, a hundredth of an inch, never rounded up to a limit
/// that it misses.
pub fn tenths(unit: LengthUnit, mm: f64) -> String {
    let step = match unit {
        LengthUnit::Millimetres => 0.1,
        LengthUnit::Inches => 0.01 * MM_PER_INCH,
    };
    unit.text(((mm + RULE_TOLERANCE) / step).floor() * step)
}

/// Names the first few stickers that found no room, and counts the rest.
pub fn not_placed(missing: &[(String, usize)]) -> String {
    const NAMED: usize = 3;
    let name = |(name, count): &(String, usize)| {
        if *count == 1 { name.clone() } else { format!("{count} × {name}") }
    };
    let mut names: Vec<String> = missing.iter().take(NAMED).map(name).collect();
    match missing.len().saturating_sub(NAMED) {
        0 => {}
        1 => names.extend(missing.last().map(name)),
        more => names.push(format!("{more} other stickers")),
    }
    let list = match names.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => names.join(""),
    };
    format!("No room was found for {list}. Give it longer, a smaller spacing or a larger sheet.")
}

pub const NO_ANSWER: &str = "its answer could not be read";

/// An error's text as a sentence of its own: a large letter in front, a full stop behind.
pub fn sentence(error: &str) -> String {
    let mut letters = error.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

pub fn worker_failed(why: &str) -> String {
    format!("The work stopped because of a mistake in Stickleaf ({why}). Your sheet is as it was; try again.")
}

// Stickers

pub const STICKERS: &str = "Stickers";
pub const BRING_ART_IN: &str = "Bring art in";
pub const WANTED: &str = "Wanted";
pub const EXACTLY: &str = "exactly";
pub const AT_LEAST: &str = "at least";
pub const HOW_MANY: &str = "How many";
pub const COPIES: &str = "Copies";
pub const STICKER_NAME: &str = "Name";
pub const TURNS: &str = "May turn";
pub const TURNS_NONE: &str = "Upright";
pub const TURNS_WITHIN: &str = "Tilt";
pub const TURNS_QUARTER: &str = "Quarter turns";
pub const TURNS_ANY: &str = "As it likes";
pub const TURNS_LISTED: &str = "Only these turns";
pub const TILT_DEGREES: &str = "Tilt up to (degrees)";
pub const MAY_BE_FLIPPED: &str = "May be flipped";
pub const OWN_BORDER: &str = "A border of its own";
pub const BORDER: &str = "White border";
pub const PUT_ONE_ON: &str = "Put one on the sheet";
pub const REMOVE_STICKER: &str = "Remove this sticker";
pub const DEGREES_RANGE: &str = "type degrees from 0 to 180";
pub const NO_STICKERS: &str = "No stickers yet.";

pub fn one_more(name: &str) -> String {
    format!("One more {name}")
}

pub fn one_fewer(name: &str) -> String {
    format!("One fewer {name}")
}

pub fn details_of(name: &str) -> String {
    format!("Details of {name}")
}

pub fn count_on_sheet(placed: usize) -> String {
    format!("{placed} placed")
}

pub fn size(width: &str, height: &str, unit: &str) -> String {
    format!("{width} × {height} {unit}")
}

pub const NAME_IT: &str = "give it a name";
pub const TURNS_LIST: &str = "type degrees with spaces between, such as 0 90 180";

pub fn size_with_border(width: &str, height: &str, unit: &str) -> String {
    format!("{width} × {height} {unit} with its border")
}

pub fn sticker_removed(name: &str) -> String {
    format!("{name} and its pieces are gone.")
}

// Sheet and rules

pub const SHEET: &str = "Sheet";
pub const SIZE: &str = "Size";
pub const WIDTH: &str = "Width";
pub const HEIGHT: &str = "Height";
pub const SWAP: &str = "Turn it round";
pub const CORNER_RADIUS: &str = "Corner radius";
pub const RESOLUTION: &str = "Resolution (pixels to the inch)";
pub const DISTANCES: &str = "Distances";
pub const SPACING: &str = "Spacing between cut lines";
pub const MARGIN: &str = "Margin to the edge";
pub const LIMITS: &str = "Limits that warn";
pub const PRINT_TO_CUT: &str = "Print-to-cut error";
pub const THINNEST: &str = "Thinnest part";
pub const SMALLEST: &str = "Smallest sticker";
pub const INNER_RADIUS: &str = "Smallest inward radius";
pub const LEAST_PPI: &str = "Least resolution (pixels to the inch)";
pub const A_NUMBER: &str = "type a number";

pub fn pixels(width: u32, height: u32) -> String {
    format!("A drawing of the whole sheet is {width} × {height} pixels.")
}

// Backgrounds

pub const BACKGROUND: &str = "Background";
pub const NO_BACKGROUND: &str = "No background";
pub const NO_ZONES: &str = "no zones";
pub const ADD_STYLE: &str = "Add a style";
pub const ZONES: &str = "Zones";
pub const ZONES_HINT: &str = "Parts of the sheet that stickers keep out of.";
pub const DRAW_ZONE: &str = "Draw a zone";
pub const DRAWING_ZONE: &str = "Drag on the sheet: a box, or a loop that comes back to its start.";
pub const STOP_DRAWING: &str = "Stop drawing";
pub const STEP_RENAME_ZONE: &str = "Rename a zone";
pub const CLEARANCE: &str = "Clearance";
pub const REMOVE_STYLE: &str = "Remove this style";

pub fn remove_zone(name: &str) -> String {
    format!("Remove {name}")
}

pub fn name_of_zone(name: &str) -> String {
    format!("Name of {name}")
}

pub fn clearance_of(name: &str) -> String {
    format!("Clearance of {name}")
}

pub fn room_left(part: f64) -> String {
    format!("{:.0} % left for stickers", part * 100.0)
}

pub fn zones(count: usize) -> String {
    match count {
        0 => NO_ZONES.to_owned(),
        1 => "1 zone".to_owned(),
        _ => format!("{count} zones"),
    }
}

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

// Bringing art in

pub const IMPORT_TITLE: &str = "Bring art in";
pub const LOOKING: &str = "Looking for drawings";
pub const TRUE_SIZE: &str = "True size";
pub const PIXELS_TO_THE_INCH: &str = "Pixels to the inch";
pub const PICTURE_WIDTH: &str = "Width of the picture";
pub const SMALLEST_KEPT: &str = "Leave out specks smaller than";
pub const JOIN_PARTS: &str = "Join parts that their borders join";
pub const CANCEL: &str = "Cancel";
pub const DROPPED: &str = "Left out";
pub const SIZE_FROM_YOU: &str = "As you set it.";
pub const SIZE_FROM_FILE: &str = "The file says its size.";
pub const SIZE_GUESSED: &str = "The file does not say its size; this is a guess. Set it to the true one.";
pub const STEP_IMPORT: &str = "Bring art in";

pub const ABOVE_ZERO: &str = "type a number above 0";
pub const ZERO_OR_MORE: &str = "type 0 or more";

pub fn looking_in(file: &str) -> String {
    format!("{LOOKING} in {file}")
}

pub fn found(count: usize) -> String {
    if count == 1 { "1 drawing found".to_owned() } else { format!("{count} drawings found") }
}

pub fn add_stickers(count: usize) -> String {
    if count == 1 { "Add 1 sticker".to_owned() } else { format!("Add {count} stickers") }
}

pub fn added(count: usize) -> String {
    if count == 1 {
        "1 sticker is on the tray.".to_owned()
    } else {
        format!("{count} stickers are on the tray.")
    }
}

// The press

pub const PRESS_TITLE: &str = "What leaves";
pub const CAUTIONS: &str = "Cautions";
pub const SAVE_PLACEMENT: &str = "Save placement file";
pub const PLACEMENT_TEXT: &str =
    "Every piece with its place, turn and cut line, for other programs. Opens here again.";
pub const SAVE_TABLE: &str = "Save table";
pub const TABLE_TEXT: &str = "One row a piece: centre in mm and in pixels, turn, bounds. For a spreadsheet.";
pub const SAVE_LAYOUT: &str = "Save layout";
pub const LAYOUT_TEXT: &str = "The whole sheet as it is, to go on with another day or at the command line.";
pub const SAVE_CUT: &str = "Save cut lines";
pub const CUT_TEXT: &str = "Kiss lines of the stickers and the through line of the card, true size, as SVG.";
pub const SAVE_FAILED: &str =
    "The browser did not save the file. Allow downloads for this page and try again.";
pub const NOTHING_ON_SHEET: &str =
    "Nothing lies on the sheet yet. Fill the sheet or put stickers on it first.";
pub const GO_TO_FINDINGS: &str = "Show findings";
pub const CUTTING_PREVIEW: &str = "Cut lines at true proportions";
pub const KISS_LINE: &str = "kiss line, through the face only";
pub const THROUGH_LINE: &str = "through line, the card's edge";

pub fn pieces_and_size(pieces: usize, size: &str) -> String {
    if pieces == 1 { format!("1 piece on {size}") } else { format!("{pieces} pieces on {size}") }
}

pub fn saved(file: &str) -> String {
    format!("{file} is saved where this browser keeps downloads.")
}

pub fn broken_on_press(count: usize) -> String {
    if count == 1 {
        "One rule is broken. The files can be saved all the same; see to it before you cut.".to_owned()
    } else {
        format!("{count} rules are broken. The files can be saved all the same; see to them before you cut.")
    }
}

pub const CAUTION_BLADE: &str = "A cutter’s blade is sharp and moves by itself: hands, hair and pets away while it runs, never leave it running alone, change blades with the plug out. The machine’s manual goes before anything said here.";
pub const CAUTION_PASSES: &str =
    "Several passes can cut through the mat and into the machine: try on a test card first.";
pub const CAUTION_SMALL: &str = "Small stickers are small parts: those that fit the small-parts cylinder (31.7 mm across, 16 CFR 1501) are not for children under three. The law where you sell decides on labels and testing.";
pub fn small_parts(count: usize) -> String {
    if count == 1 {
        "One sticker of this sheet is such a part.".to_owned()
    } else {
        format!("{count} stickers of this sheet are such parts.")
    }
}
