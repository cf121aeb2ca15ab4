//! Words for roughing in: blobs, plain shapes, and the art that takes their place.

use stickleaf_outline::{LEAST_SIDE, MOST_SIDE, PlainShape};
use stickleaf_sheet::LengthUnit;

use crate::words::language::pick;
use crate::words::length;

// Roughing in

words! {
    rough_in: "Rough in", "Skizze";
    rough_in_text:
        "Plan before anything is drawn: pick a shape of about the right size. Finished art takes its place later.",
        "Plane, bevor etwas gezeichnet ist: Nimm eine Form in etwa der richtigen Größe. Das fertige Bild kommt \
         später an ihre Stelle.";
    draw_blob: "Draw a blob", "Form zeichnen";
    drawing_blob:
        "Draw once round on the sheet; the line closes itself.",
        "Fahr auf dem Bogen einmal rundherum; die Linie schließt sich von selbst.";
    shape_name: "Shape", "Form";
    across: "Across", "Durchmesser";
    put_on_sheet: "Put it on the sheet", "Auf den Bogen legen";
    rough: "rough", "Skizze";
    rough_hint:
        "A rough sticker stands for a drawing that is still to be made.",
        "Eine Skizze steht für eine Zeichnung, die es noch nicht gibt.";
    size_without_border: "Size without its border", "Größe ohne weißen Rand";
    step_resize: "Size", "Größe";
    no_such_size:
        "at this size nothing is left of the outline; type other lengths",
        "in dieser Größe bleibt von der Kontur nichts übrig; gib andere Längen ein";
}

pub fn shape(shape: PlainShape) -> &'static str {
    match shape {
        PlainShape::Disc => pick("Disc", "Scheibe"),
        PlainShape::Oval => pick("Oval", "Oval"),
        PlainShape::RoundedBox => pick("Box", "Rechteck"),
        PlainShape::Heart => pick("Heart", "Herz"),
        PlainShape::Star => pick("Star", "Stern"),
        PlainShape::Ribbon => pick("Ribbon", "Band"),
    }
}

pub fn step_rough_in(name: &str) -> String {
    say!("Rough in {name}", "{name} skizzieren")
}

pub fn sides_allowed(unit: LengthUnit) -> String {
    say!(
        "type a length from {} to {}",
        "gib eine Länge von {} bis {} ein",
        length(unit, LEAST_SIDE),
        length(unit, MOST_SIDE)
    )
}

pub fn roughed_in(name: &str) -> String {
    say!("{name} is on the sheet.", "{name} liegt auf dem Bogen.")
}

pub fn roughed_in_of(name: &str, wanted: u32) -> String {
    say!(
        "{name} is on the sheet, one of {wanted} wanted. Place these puts the others on.",
        "{name} liegt auf dem Bogen, 1 von {wanted} gewünschten. „Diese legen“ legt die übrigen dazu."
    )
}

pub fn no_free_spot(name: &str) -> String {
    say!(
        "{name} is on the tray only: there is no free spot of its size on the sheet.",
        "{name} liegt nur in der Ablage: Auf dem Bogen ist kein Platz dieser Größe frei."
    )
}

pub fn rough_on_press(count: usize) -> String {
    match count {
        1 => pick(
            "1 piece is rough: it stands for a drawing that is still to be made.",
            "1 Stück ist eine Skizze: Es steht für eine Zeichnung, die es noch nicht gibt.",
        )
        .to_owned(),
        _ => say!(
            "{count} pieces are rough: they stand for drawings that are still to be made.",
            "{count} Stücke sind Skizzen: Sie stehen für Zeichnungen, die es noch nicht gibt."
        ),
    }
}

// Art in its place

words! {
    replace_by_art: "Replace by art", "Durch Bild ersetzen";
    replace_hint:
        "Pieces, name, turns and how many are wanted stay as they are.",
        "Stücke, Name, Drehung und gewünschte Anzahl bleiben, wie sie sind.";
    which_drawing: "Which drawing", "Welche Zeichnung";
    how_large: "How large", "Wie groß";
    as_drawn: "True size", "Wahre Größe";
    as_it_was: "Fit the old size", "In alter Größe";
    fit_hint:
        "Art that is fitted no longer has the scale of its picture.",
        "Ein eingepasstes Bild hat nicht mehr den Maßstab seiner Vorlage.";
    replace: "Replace", "Ersetzen";
    too_fine:
        "The drawing is too fine for that size. Take it at its true size.",
        "Die Zeichnung ist für diese Größe zu fein. Nimm sie in wahrer Größe.";
    sticker_is_gone:
        "The sticker that it was for is no longer there. Nothing was replaced.",
        "Den Aufkleber, um den es ging, gibt es nicht mehr. Nichts wurde ersetzt.";
}

pub fn replace_title(name: &str) -> String {
    say!("Replace {name} by art", "{name} durch ein Bild ersetzen")
}

pub fn take_name(name: &str) -> String {
    say!("Take the drawing's name, {name}", "Den Namen der Zeichnung nehmen: {name}")
}

/// How the size changes; widths and heights as numbers in the unit.
pub fn was(now: (&str, &str), before: (&str, &str), unit: &str) -> String {
    say!(
        "{} × {} {unit}, was {} × {} {unit}",
        "{} × {} {unit}, vorher {} × {} {unit}",
        now.0,
        now.1,
        before.0,
        before.1
    )
}

pub fn replaced(name: &str, sizes: &str, broken: usize) -> String {
    let findings = match broken {
        0 => String::new(),
        1 => pick(
            " 1 rule is broken now; the findings say which.",
            " 1 Regel ist jetzt verletzt; die Funde sagen, welche.",
        )
        .to_owned(),
        _ => say!(
            " {broken} rules are broken now; the findings say which.",
            " {broken} Regeln sind jetzt verletzt; die Funde sagen, welche."
        ),
    };
    format!("{name}: {sizes}.{findings}")
}
