//! Words for keys and gestures: what is pressed, and what it does.

use crate::words::language::pick;

/// What is pressed, and what it does.
type Row = (&'static str, &'static str);

words! {
    keys: "Keys", "Tasten";
    keys_sheet: "While the sheet has the focus", "Solange der Bogen den Fokus hat";
    keys_pointer: "Mouse and pen", "Maus und Stift";
    keys_fingers: "Fingers", "Finger";
    keys_page: "Anywhere", "Überall";
    keys_hint: "On a Mac, Cmd does what Ctrl does here.", "Auf einem Mac tut Cmd, was hier Strg tut.";
    keys_move: "Arrows", "Pfeile";
    keys_turn: "[ and ]", "[ und ]";
    keys_coarse: "with Shift", "mit Umschalt";
    keys_fine: "with Alt", "mit Alt";
}

pub fn sheet_keys() -> [Row; 7] {
    [
        (
            pick("Delete, Backspace", "Entf, Rücktaste"),
            pick("Take the chosen pieces off the sheet", "Gewählte Stücke vom Bogen nehmen"),
        ),
        (
            pick("Ctrl D", "Strg D"),
            pick("One more of each chosen piece", "Noch eins von jedem gewählten Stück"),
        ),
        (pick("Ctrl A", "Strg A"), pick("Choose every piece", "Alle Stücke wählen")),
        (pick("+ and −", "+ und −"), pick("Look closer, look from further away", "Näher heran, weiter weg")),
        ("0", pick("The whole sheet", "Der ganze Bogen")),
        (
            pick("Menu key, Shift F10", "Menütaste, Umschalt F10"),
            pick("What can be done with the chosen pieces", "Was man mit den gewählten Stücken tun kann"),
        ),
        (
            "Esc",
            pick(
                "Give up the drag; else choose nothing; else stop drawing",
                "Das Ziehen aufgeben; sonst nichts wählen; sonst nicht mehr zeichnen",
            ),
        ),
    ]
}

pub fn pointer_keys() -> [Row; 10] {
    [
        (
            pick("Click", "Klicken"),
            pick("Choose a piece; beside them, choose nothing", "Ein Stück wählen; daneben: nichts wählen"),
        ),
        (
            pick("Shift click, Ctrl click", "Umschalt- oder Strg-Klick"),
            pick("Add a piece to the chosen ones, or leave it out", "Ein Stück dazuwählen oder weglassen"),
        ),
        (
            pick("Drag a piece", "Ein Stück ziehen"),
            pick("Move it, and the others that are chosen", "Es schieben, und die anderen gewählten mit"),
        ),
        (
            pick("Drag the handle", "Am Griff ziehen"),
            pick("Turn the chosen pieces", "Gewählte Stücke drehen"),
        ),
        (
            pick("Drag beside the pieces", "Neben den Stücken ziehen"),
            pick("Choose all that the box touches", "Alles wählen, was der Rahmen berührt"),
        ),
        (
            pick("Right click", "Rechtsklick"),
            pick(
                "What can be done with a piece, or the sheet",
                "Was man mit einem Stück oder dem Bogen tun kann",
            ),
        ),
        (
            pick("Double click", "Doppelklick"),
            pick(
                "Look closer at a piece; beside them, the whole sheet",
                "Ein Stück näher ansehen; daneben: der ganze Bogen",
            ),
        ),
        (
            pick("Space and drag, middle button", "Leertaste und ziehen, mittlere Taste"),
            pick("Move the view", "Die Ansicht schieben"),
        ),
        (
            pick("Wheel", "Mausrad"),
            pick(
                "Move the view up and down; with Shift, sideways",
                "Die Ansicht auf und ab schieben; mit Umschalt seitwärts",
            ),
        ),
        (
            pick("Ctrl wheel", "Strg und Mausrad"),
            pick("Look closer, look from further away", "Näher heran, weiter weg"),
        ),
    ]
}

pub fn finger_keys() -> [Row; 9] {
    [
        (
            pick("Tap", "Tippen"),
            pick("Choose a piece; beside them, choose nothing", "Ein Stück wählen; daneben: nichts wählen"),
        ),
        (
            pick("Drag a piece", "Ein Stück ziehen"),
            pick("Move it, and the others that are chosen", "Es schieben, und die anderen gewählten mit"),
        ),
        (
            pick("Drag beside the pieces", "Neben den Stücken ziehen"),
            pick("Move the view", "Die Ansicht schieben"),
        ),
        (
            pick("Press and hold", "Lange drücken"),
            pick(
                "What can be done with a piece, or the sheet",
                "Was man mit einem Stück oder dem Bogen tun kann",
            ),
        ),
        (
            pick("Tap twice", "Zweimal tippen"),
            pick(
                "Look closer at a piece; beside them, the whole sheet",
                "Ein Stück näher ansehen; daneben: der ganze Bogen",
            ),
        ),
        (
            pick("Several, then tap or drag", "Mehrere, dann tippen oder ziehen"),
            pick(
                "Add pieces or leave them out; choose all that the box touches",
                "Stücke dazuwählen oder weglassen; alles wählen, was der Rahmen berührt",
            ),
        ),
        (
            pick("Pinch", "Zwei Finger spreizen"),
            pick("Look closer, look from further away", "Näher heran, weiter weg"),
        ),
        (
            pick("Two fingers on chosen pieces", "Zwei Finger auf gewählten Stücken"),
            pick("Carry and turn them at once", "Sie zugleich tragen und drehen"),
        ),
        (
            pick("Tap with two, with three fingers", "Mit zwei, mit drei Fingern tippen"),
            pick("Undo, redo", "Rückgängig, wiederholen"),
        ),
    ]
}

pub fn page_keys() -> [Row; 5] {
    [
        (pick("Ctrl Z", "Strg Z"), pick("Undo", "Rückgängig")),
        (pick("Ctrl Shift Z, Ctrl Y", "Strg Umschalt Z, Strg Y"), pick("Redo", "Wiederholen")),
        (
            pick("Enter", "Eingabe"),
            pick("Take what was typed in a field", "Übernehmen, was in einem Feld steht"),
        ),
        (
            "Esc",
            pick(
                "Give back what a field said; close a menu, a drawer or a dialog",
                "Einem Feld zurückgeben, was es sagte; ein Menü, eine Lade oder einen Dialog schließen",
            ),
        ),
        ("?", pick("This list", "Diese Liste")),
    ]
}

pub fn moves(length: &str) -> String {
    say!("Move the chosen pieces by {length}", "Gewählte Stücke um {length} schieben")
}

pub fn turns(degrees: &str) -> String {
    say!("Turn the chosen pieces by {degrees}°", "Gewählte Stücke um {degrees}° drehen")
}

pub fn key_step(length: &str, degrees: &str) -> String {
    say!("{length} and {degrees}° instead", "stattdessen {length} und {degrees}°")
}
