//! Words for stickers, the sheet with its rules, and backgrounds.

// Stickers

words! {
    stickers: "Stickers", "Stickers";
    bring_art_in: "Bring art in", "Bring art in";
    wanted: "Wanted", "Wanted";
    exactly: "exactly", "exactly";
    at_least: "at least", "at least";
    how_many: "How many", "How many";
    copies: "Copies", "Copies";
    sticker_name: "Name", "Name";
    may_turn: "May turn", "May turn";
    turns_none: "Upright", "Upright";
    turns_within: "Tilt", "Tilt";
    turns_quarter: "Quarter turns", "Quarter turns";
    turns_any: "As it likes", "As it likes";
    turns_listed: "Only these turns", "Only these turns";
    tilt_degrees: "Tilt up to (degrees)", "Tilt up to (degrees)";
    may_be_flipped: "May be flipped", "May be flipped";
    own_border: "A border of its own", "A border of its own";
    border: "White border", "White border";
    put_one_on: "Put one on the sheet", "Put one on the sheet";
    remove_sticker: "Remove this sticker", "Remove this sticker";
    degrees_range: "type degrees from 0 to 180", "type degrees from 0 to 180";
    no_stickers: "No stickers yet.", "No stickers yet.";
}

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

words! {
    name_it: "give it a name", "give it a name";
    turns_list: "type degrees with spaces between, such as 0 90 180", "type degrees with spaces between, such as 0 90 180";
}

pub fn size_with_border(width: &str, height: &str, unit: &str) -> String {
    format!("{width} × {height} {unit} with its border")
}

pub fn sticker_removed(name: &str) -> String {
    format!("{name} and its pieces are gone.")
}

// Sheet and rules

words! {
    sheet: "Sheet", "Sheet";
    size_name: "Size", "Size";
    width: "Width", "Width";
    height: "Height", "Height";
    swap: "Turn it round", "Turn it round";
    corner_radius: "Corner radius", "Corner radius";
    resolution: "Resolution (pixels to the inch)", "Resolution (pixels to the inch)";
    distances: "Distances", "Distances";
    spacing: "Spacing between cut lines", "Spacing between cut lines";
    margin: "Margin to the edge", "Margin to the edge";
    limits: "Limits that warn", "Limits that warn";
    print_to_cut: "Print-to-cut error", "Print-to-cut error";
    thinnest: "Thinnest part", "Thinnest part";
    smallest: "Smallest sticker", "Smallest sticker";
    inner_radius: "Smallest inward radius", "Smallest inward radius";
    least_ppi: "Least resolution (pixels to the inch)", "Least resolution (pixels to the inch)";
    a_number: "type a number", "type a number";
}

pub fn pixels(width: u32, height: u32) -> String {
    format!("A drawing of the whole sheet is {width} × {height} pixels.")
}

// Backgrounds

words! {
    background: "Background", "Background";
    no_background: "No background", "No background";
    no_zones: "no zones", "no zones";
    add_style: "Add a style", "Add a style";
    zones_name: "Zones", "Zones";
    zones_hint: "Parts of the sheet that stickers keep out of.", "Parts of the sheet that stickers keep out of.";
    draw_zone: "Draw a zone", "Draw a zone";
    drawing_zone: "Drag on the sheet: a box, or a loop that comes back to its start.", "Drag on the sheet: a box, or a loop that comes back to its start.";
    stop_drawing: "Stop drawing", "Stop drawing";
    step_rename_zone: "Rename a zone", "Rename a zone";
    clearance: "Clearance", "Clearance";
    remove_style: "Remove this style", "Remove this style";
}

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
        0 => no_zones().to_owned(),
        1 => "1 zone".to_owned(),
        _ => format!("{count} zones"),
    }
}
