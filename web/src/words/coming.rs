//! Words for what comes in and goes out: opening, saving, bringing art in.

// Coming and going

words! {
    last_sheet_is_back: "Your last sheet is back.", "Your last sheet is back.";
    start_fresh: "Start fresh", "Start fresh";
    sample_failed: "The sample could not be opened. Load the page again, or bring your own art in.", "The sample could not be opened. Load the page again, or bring your own art in.";
}

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

words! {
    import_title: "Bring art in", "Bring art in";
    true_size: "True size", "True size";
    pixels_to_the_inch: "Pixels to the inch", "Pixels to the inch";
    picture_width: "Width of the picture", "Width of the picture";
    smallest_kept: "Leave out specks smaller than", "Leave out specks smaller than";
    join_parts: "Join parts that their borders join", "Join parts that their borders join";
    cancel: "Cancel", "Cancel";
    dropped: "Left out", "Left out";
    size_from_you: "As you set it.", "As you set it.";
    size_from_file: "The file says its size.", "The file says its size.";
    size_guessed: "The file does not say its size; this is a guess. Set it to the true one.", "The file does not say its size; this is a guess. Set it to the true one.";
    step_import: "Bring art in", "Bring art in";

    above_zero: "type a number above 0", "type a number above 0";
    zero_or_more: "type 0 or more", "type 0 or more";
}

pub fn looking_in(file: &str) -> String {
    say!("Looking for drawings in {file}", "Suche Zeichnungen in {file}")
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
