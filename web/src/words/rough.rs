//! Words for roughing in: blobs, plain shapes, and the art that takes their place.

use stickleaf_outline::{LEAST_SIDE, MOST_SIDE, PlainShape};
use stickleaf_sheet::LengthUnit;

// Roughing in

pub const ROUGH_IN: &str = "Rough in";
pub const ROUGH_IN_TEXT: &str = "Plan before anything is drawn: pick a shape of about the right size. Finished art takes its place later.";
pub const DRAW_BLOB: &str = "Draw a blob";
pub const DRAWING_BLOB: &str = "Draw once round on the sheet; the line closes itself.";
pub const SHAPE: &str = "Shape";
pub const ACROSS: &str = "Across";
pub const PUT_ON_SHEET: &str = "Put it on the sheet";
pub const ROUGH: &str = "rough";
pub const ROUGH_HINT: &str = "A rough sticker stands for a drawing that is still to be made.";
pub const SIZE_WITHOUT_BORDER: &str = "Size without its border";
pub const STEP_RESIZE: &str = "Size";
pub const NO_SUCH_SIZE: &str = "at this size nothing is left of the outline; type other lengths";

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
    format!("{ROUGH_IN} {name}")
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

pub const REPLACE_BY_ART: &str = "Replace by art";
pub const REPLACE_HINT: &str = "Pieces, name, turns and how many are wanted stay as they are.";
pub const WHICH_DRAWING: &str = "Which drawing";
pub const HOW_LARGE: &str = "How large";
pub const AS_DRAWN: &str = "True size";
pub const AS_IT_WAS: &str = "Fit the old size";
pub const FIT_HINT: &str = "Art that is fitted no longer has the scale of its picture.";
pub const REPLACE: &str = "Replace";
pub const TOO_FINE: &str = "The drawing is too fine for that size. Take it at its true size.";
pub const STICKER_IS_GONE: &str = "The sticker that it was for is no longer there. Nothing was replaced.";

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
