//! Words for the frame of the page, the canvas, and the desk while it is empty.

use crate::words::{all_rules_hold, pieces};

// The frame of the page

words! {
    desk: "Desk", "Desk";
    press: "Press", "Press";
    places: "Places", "Places";
    undo: "Undo", "Undo";
    redo: "Redo", "Redo";
    undo_that: "Take it back", "Take it back";
    more_of_it: "More", "More";
    close: "Close", "Close";
    open: "Open", "Open";
    open_sample: "Open a sample", "Open a sample";
    start_empty: "Start with an empty sheet", "Start with an empty sheet";
    sheet_name: "Name of this layout", "Name of this layout";
    step_rename: "Rename", "Rename";
    untitled: "Untitled", "Untitled";
    language_name: "Language", "Sprache";
    language_not_kept: "This browser keeps nothing here, so the language stays. Allow storage for this page and try again.", "Dieser Browser merkt sich hier nichts, daher bleibt die Sprache. Erlaube dieser Seite zu speichern und versuch es noch einmal.";
    unit: "Unit", "Einheit";
    millimetres: "mm", "mm";
    inches: "in", "in";
    drop_here: "Let go to bring it in", "Let go to bring it in";
    drop_more: "Pictures become stickers; a layout or placement file opens.", "Pictures become stickers; a layout or placement file opens.";
    panels: "Panels", "Panels";
    view: "View", "View";
    closer: "Look closer", "Look closer";
    further: "Look from further away", "Look from further away";
    whole_sheet: "Whole sheet", "Whole sheet";
    drawer_height: "Height of this panel", "Height of this panel";
}

// The copy on this device

words! {
    ready_offline: "Ready for offline use.", "Ready for offline use.";
    newer_waits: "A newer version is here. Your layout is kept.", "A newer version is here. Your layout is kept.";
    use_newer: "Use the newer version", "Use the newer version";
}

// The canvas

words! {
    no_drawing: "This browser draws no pictures. Try a newer one.", "This browser draws no pictures. Try a newer one.";
}

/// The sheet for those who do not see it; the lengths with their units.
pub fn sheet_in_a_sentence(width: &str, height: &str, count: usize, broken: usize) -> String {
    let rules = match broken {
        0 => all_rules_hold().to_owned(),
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

words! {
    empty_title: "An empty sheet", "An empty sheet";
    empty_text: "Drop a picture with a clear background, draw a blob, or open the sample.", "Drop a picture with a clear background, draw a blob, or open the sample.";
    open_the_sample: "Open the sample", "Open the sample";
}
