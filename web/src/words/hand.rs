//! Words for the pieces and the hand that moves them.

use crate::words::figure;
use crate::words::language::pick;

// The pieces

words! {
    pieces_list: "Pieces", "Stücke";
    is_locked: " · locked", " · gesperrt";
    piece_keys:
        "Up and down walk through the list. Square brackets turn, L locks, Delete takes off. Enter chooses a piece, and once \
         more goes to the sheet, where arrows move it.",
        "Auf und ab gehen durch die Liste. Eckige Klammern drehen, L sperrt, Entf nimmt weg. Eingabe wählt ein Stück und geht \
         beim zweiten Mal zum Bogen, wo Pfeiltasten es schieben.";
    chosen_piece: "Chosen piece", "Gewähltes Stück";
    breaks_a_rule: " · breaks a rule", " · verletzt eine Regel";
}

pub fn pieces(count: usize) -> String {
    if count == 1 {
        pick("1 piece", "1 Stück").to_owned()
    } else {
        say!("{count} pieces", "{count} Stücke")
    }
}

pub fn piece_place(x: &str, y: &str, degrees: f64) -> String {
    if degrees.abs() < 0.05 { format!("{x}, {y}") } else { format!("{x}, {y} · {}°", figure(degrees, 1)) }
}

/// A piece read out: what it is, where it lies, and every rule that it breaks.
pub fn piece_told(name: &str, place: &str, is_locked: bool, broken: &[String]) -> String {
    let locked = if is_locked { pick(", locked", ", gesperrt") } else { "" };
    let rules = if broken.is_empty() { super::all_rules_hold().to_owned() } else { broken.join("; ") };
    format!("{name}: {place}{locked}. {}", super::sentence(&rules))
}

// The hand

words! {
    hand: "Chosen pieces", "Gewählte Stücke";
    hand_hint:
        "Choose a piece to move or turn it from here.",
        "Wähle ein Stück, um es von hier aus zu schieben oder zu drehen.";
    lock: "Lock", "Sperren";
    unlock: "Unlock", "Entsperren";
    turn_left: "Turn left", "Nach links drehen";
    turn_right: "Turn right", "Nach rechts drehen";
    nudge_left: "Nudge left", "Nach links";
    nudge_right: "Nudge right", "Nach rechts";
    nudge_up: "Nudge up", "Nach oben";
    nudge_down: "Nudge down", "Nach unten";
    numbers: "Numbers", "Zahlen";
    duplicate: "Copy", "Kopie";
    remove: "Remove", "Wegnehmen";
    x: "x", "x";
    y: "y", "y";
    turn: "turn °", "Drehung °";
}

words! {
    only_the_pen:
        "Let only the pen move stickers? Fingers then move the view.",
        "Soll nur der Stift Aufkleber bewegen? Finger schieben dann die Ansicht.";
    yes_only_the_pen: "Yes, only the pen", "Ja, nur der Stift";
    no_fingers_too: "No, fingers too", "Nein, auch Finger";
    several: "Several", "Mehrere";
    choosing_several:
        "Tap pieces, or drag a box round them.",
        "Tippe Stücke an oder ziehe einen Rahmen um sie.";
    done_choosing: "Done", "Fertig";
    more_choices: "More", "Mehr";
    more_for_chosen: "More for what is chosen", "Mehr für das Gewählte";
}

// The menu

words! {
    sheet_choices: "Sheet: what to do", "Bogen: was tun";
    choose_all: "Choose all", "Alle wählen";
    choose_several: "Choose several", "Mehrere wählen";
    look_closer: "Look closer", "Näher ansehen";
    choose_same: "Choose all of this kind", "Alle von dieser Art wählen";
    edit_sticker: "Edit the sticker", "Aufkleber bearbeiten";
    align: "Align", "Ausrichten";
    align_left: "Left sides", "Linke Seiten";
    align_centre: "Centres", "Mitten senkrecht";
    align_right: "Right sides", "Rechte Seiten";
    align_top: "Upper sides", "Obere Seiten";
    align_middle: "Middles", "Mitten waagrecht";
    align_bottom: "Lower sides", "Untere Seiten";
    space_out: "Space out evenly", "Gleichmäßig verteilen";
    space_across: "Side by side", "Nebeneinander";
    space_down: "One above the other", "Untereinander";
}

/// What the menu of chosen pieces is called.
pub fn piece_choices(chosen: &str) -> String {
    say!("{chosen}: what to do", "{chosen}: was tun")
}

words! {
    slide: "Slide along neighbours", "An Nachbarn entlanggleiten";
    fingers_only_look: "Fingers only move the view", "Finger schieben nur die Ansicht";
}

/// How far a nudge goes, and that there are other steps.
pub fn step_told(length: &str, degrees: &str) -> String {
    say!(
        "Steps of {length} and {degrees}°; press for the next",
        "Schritte von {length} und {degrees}°; drücken für den nächsten"
    )
}

pub fn chosen(count: usize) -> String {
    say!("{count} pieces", "{count} Stücke")
}
