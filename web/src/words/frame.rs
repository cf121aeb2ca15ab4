//! Words for the frame of the page, the canvas, and the desk while it is empty.

use crate::words::{ALL_RULES_HOLD, pieces};

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

// The copy on this device

pub const READY_OFFLINE: &str = "Ready for offline use.";
pub const NEWER_WAITS: &str = "A newer version is here. Your layout is kept.";
pub const USE_NEWER: &str = "Use the newer version";

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

// The empty desk

pub const EMPTY_TITLE: &str = "An empty sheet";
pub const EMPTY_TEXT: &str = "Drop a picture with a clear background, add a plain shape, or open a sample.";
pub const OPEN_THE_SAMPLE: &str = "Open the sample";
pub const ADD_SHAPE: &str = "Add a shape";
