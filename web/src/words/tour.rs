//! Words for the first look round.

use crate::tour::Hint;
use crate::words::language::pick;

words! {
    tour: "A first look round", "Ein erster Rundgang";
    next_hint: "Next", "Weiter";
    skip_tour: "Skip", "Überspringen";
    end_tour: "Begin", "Anfangen";
}

pub fn hint_count(number: usize, count: usize) -> String {
    say!("{number} of {count}.", "{number} von {count}.")
}

pub fn hint(hint: Hint) -> &'static str {
    match hint {
        Hint::Tray => pick(
            "Bring your drawings in here: each becomes a sticker with an even white border. Or rough shapes in first.",
            "Hol hier deine Zeichnungen herein: Jede wird ein Aufkleber mit gleichmäßigem weißem Rand. Oder skizziere erst \
             Formen.",
        ),
        Hint::Packing => pick(
            "Fill the sheet looks for places for as many as fit. Watch it, and stop when you like.",
            "„Bogen füllen“ sucht Platz für so viele, wie passen. Sieh zu und halte an, wann du willst.",
        ),
        Hint::Hand => pick(
            "Drag a piece, or turn it at its handle. The line above the sheet says at once when two are too close.",
            "Zieh ein Stück oder dreh es an seinem Griff. Die Zeile über dem Bogen sagt sofort, wenn zwei zu nah sind.",
        ),
        Hint::Press => pick(
            "When it is right, everything leaves from the Press: the sheet to print and the lines to cut.",
            "Wenn alles stimmt, geht es in der Ausgabe hinaus: der Bogen zum Drucken und die Linien zum Schneiden.",
        ),
    }
}
