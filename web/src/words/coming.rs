//! Words for what comes in and goes out: opening, saving, bringing art in.

// Coming and going

pub const LAST_SHEET_IS_BACK: &str = "Your last sheet is back.";
pub const START_FRESH: &str = "Start fresh";
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
