//! Words for roughing in: blobs, plain shapes, and the art that takes their place.

use stickleaf_outline::{LEAST_SIDE, MOST_SIDE, PlainShape};
use stickleaf_sheet::LengthUnit;

// Roughing in

words! {
    rough_in: "Rough in", "Rough in";
    rough_in_text: "Plan before anything is drawn: pick a shape of about the right size. Finished art takes its place later.", "Plan before anything is drawn: pick a shape of about the right size. Finished art takes its place later.";
    draw_blob: "Draw a blob", "Draw a blob";
    drawing_blob: "Draw once round on the sheet; the line closes itself.", "Draw once round on the sheet; the line closes itself.";
    shape_name: "Shape", "Shape";
    across: "Across", "Across";
    put_on_sheet: "Put it on the sheet", "Put it on the sheet";
    rough: "rough", "rough";
    rough_hint: "A rough sticker stands for a drawing that is still to be made.", "A rough sticker stands for a drawing that is still to be made.";
    size_without_border: "Size without its border", "Size without its border";
    step_resize: "Size", "Size";
    no_such_size: "at this size nothing is left of the outline; type other lengths", "at this size nothing is left of the outline; type other lengths";
}

pub fn shape(shape: PlainShape) -> &'static str {
    match shape {
        PlainShape::Disc => "Disc",
        PlainShape::Oval => "Oval",
        PlainShape::RoundedBox => "Box",
        PlainShape::Heart => "Heart",
        PlainShape::Star => "Star",
        PlainShape::Ribbon => "Ribbon",
    }
}

pub fn step_rough_in(name: &str) -> String {
    say!("Rough in {name}", "{name} skizzieren")
}

pub fn sides_allowed(unit: LengthUnit) -> String {
    format!("type a length from {} to {}", unit.text(LEAST_SIDE), unit.text(MOST_SIDE))
}

pub fn roughed_in(name: &str) -> String {
    format!("{name} is on the sheet.")
}

pub fn roughed_in_of(name: &str, wanted: u32) -> String {
    format!("{name} is on the sheet, one of {wanted} wanted. Place these puts the others on.")
}

pub fn no_free_spot(name: &str) -> String {
    format!("{name} is on the tray only: there is no free spot of its size on the sheet.")
}

pub fn rough_on_press(count: usize) -> String {
    match count {
        1 => "1 piece is rough: it stands for a drawing that is still to be made.".to_owned(),
        _ => format!("{count} pieces are rough: they stand for drawings that are still to be made."),
    }
}

// Art in its place

words! {
    replace_by_art: "Replace by art", "Replace by art";
    replace_hint: "Pieces, name, turns and how many are wanted stay as they are.", "Pieces, name, turns and how many are wanted stay as they are.";
    which_drawing: "Which drawing", "Which drawing";
    how_large: "How large", "How large";
    as_drawn: "True size", "True size";
    as_it_was: "Fit the old size", "Fit the old size";
    fit_hint: "Art that is fitted no longer has the scale of its picture.", "Art that is fitted no longer has the scale of its picture.";
    replace: "Replace", "Replace";
    too_fine: "The drawing is too fine for that size. Take it at its true size.", "The drawing is too fine for that size. Take it at its true size.";
    sticker_is_gone: "The sticker that it was for is no longer there. Nothing was replaced.", "The sticker that it was for is no longer there. Nothing was replaced.";
}

pub fn replace_title(name: &str) -> String {
    format!("Replace {name} by art")
}

pub fn take_name(name: &str) -> String {
    format!("Take the drawing's name, {name}")
}

/// How the size changes; widths and heights as numbers in the unit.
pub fn was(now: (&str, &str), before: (&str, &str), unit: &str) -> String {
    format!("{} × {} {unit}, was {} × {} {unit}", now.0, now.1, before.0, before.1)
}

pub fn replaced(name: &str, sizes: &str, broken: usize) -> String {
    let findings = match broken {
        0 => String::new(),
        1 => " 1 rule is broken now; the findings say which.".to_owned(),
        _ => format!(" {broken} rules are broken now; the findings say which."),
    };
    format!("{name}: {sizes}.{findings}")
}
