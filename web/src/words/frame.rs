//! Words for the frame of the page, the canvas, and the desk while it is empty.

use crate::words::language::pick;
use crate::words::{all_rules_hold, figure, pieces};

// The frame of the page

words! {
    desk: "Desk", "Tisch";
    press: "Press", "Ausgabe";
    month: "Month", "Monat";
    places: "Places", "Orte";
    undo: "Undo", "Rückgängig";
    redo: "Redo", "Wiederholen";
    undo_that: "Take it back", "Zurücknehmen";
    more_of_it: "More", "Mehr";
    close: "Close", "Schließen";
    open: "Open", "Öffnen";
    open_sample: "Open a sample", "Beispiel öffnen";
    start_empty: "Start with an empty sheet", "Mit leerem Bogen anfangen";
    sheet_name: "Name of this layout", "Name dieses Layouts";
    step_rename: "Rename", "Umbenennen";
    untitled: "Untitled", "Ohne Namen";
    language_name: "Language", "Sprache";
    language_not_kept:
        "This browser keeps nothing here, so the language stays. Allow storage for this page and try again.",
        "Dieser Browser merkt sich hier nichts, daher bleibt die Sprache. Erlaube dieser Seite zu speichern und \
         versuch es noch einmal.";
    unit: "Unit", "Einheit";
    millimetres: "mm", "mm";
    inches: "in", "in";
    inch_fractions: "in ½", "in ½";
    drop_here: "Let go to bring it in", "Loslassen, um es hereinzuholen";
    drop_more:
        "Pictures become stickers; a layout or placement file opens.",
        "Bilder werden zu Aufklebern; eine Layout- oder Platzierungsdatei wird geöffnet.";
    panels: "Panels", "Leisten";
    view: "View", "Ansicht";
    closer: "Look closer", "Näher heran";
    further: "Look from further away", "Weiter weg";
    whole_sheet: "Whole sheet", "Ganzer Bogen";
    drawer_height: "Height of this panel", "Höhe dieser Leiste";
}

// The copy on this device

words! {
    ready_offline: "Ready for offline use.", "Bereit auch ohne Netz.";
    newer_waits:
        "A newer version is here. Your layout is kept.",
        "Eine neuere Version ist da. Dein Layout bleibt erhalten.";
    use_newer: "Use the newer version", "Neuere Version nehmen";
}

// The canvas

words! {
    no_drawing:
        "This browser draws no pictures. Try a newer one.",
        "Dieser Browser kann hier nicht zeichnen. Nimm einen neueren.";
}

/// The sheet for those who do not see it; the lengths with their units.
pub fn sheet_in_a_sentence(width: &str, height: &str, count: usize, broken: usize) -> String {
    let rules = match broken {
        0 => all_rules_hold().to_owned(),
        1 => pick("1 rule is broken", "1 Regel ist verletzt").to_owned(),
        broken => say!("{broken} rules are broken", "{broken} Regeln sind verletzt"),
    };
    say!(
        "{width} by {height}, {}, {rules}. \
         Arrows move the chosen piece, square brackets turn it, Delete takes it off.",
        "{width} mal {height}, {}, {rules}. Pfeiltasten schieben das gewählte Stück, eckige Klammern drehen es, Entf nimmt es weg.",
        pieces(count)
    )
}

pub fn overlap(square_mm: f64) -> String {
    say!("overlap, {} mm²", "Überlappung, {} mm²", figure(square_mm, 1))
}

pub fn on_a_zone(square_mm: f64) -> String {
    say!("on a zone, {} mm²", "auf einer Zone, {} mm²", figure(square_mm, 1))
}

pub fn past_the_edge(length: &str) -> String {
    say!("{length} past the edge", "{length} über die Kante")
}

pub fn too_little(length: &str, limit: &str) -> String {
    say!("{length}, {limit} asked", "{length}, gefordert {limit}")
}

// The empty desk

words! {
    empty_title: "An empty sheet", "Ein leerer Bogen";
    empty_text:
        "Drop a picture with a clear background, draw a blob, or open the sample.",
        "Zieh ein Bild mit durchsichtigem Grund hierher, zeichne eine Form oder öffne das Beispiel.";
    open_the_sample: "Open the sample", "Beispiel öffnen";
}
