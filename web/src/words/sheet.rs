//! Words for stickers, the sheet with its rules, and backgrounds.

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
