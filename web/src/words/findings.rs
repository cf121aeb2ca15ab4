//! Words for what the check found, and the room that is left.

use crate::words::figure;
use crate::words::language::pick;

// Findings

words! {
    findings: "Findings", "Funde";
    no_findings:
        "Nothing to see to: every rule holds, and nothing is worth a warning.",
        "Nichts zu tun: Alle Regeln sind eingehalten, und nichts gibt Anlass zu einer Warnung.";
    rules_hold_title: "All rules hold", "Alle Regeln eingehalten";
    fix_all: "Fix all", "Alles in Ordnung bringen";
    no_fix_locked:
        "Every piece of it is locked. Unlock one to move it.",
        "Alle Stücke daran sind gesperrt. Entsperre eines, um es zu schieben.";
}

pub fn less_than(length: &str) -> String {
    say!("less than {length}", "weniger als {length}")
}

pub fn mend(name: &str, distance: &str, is_moved: bool, degrees: f64) -> String {
    if is_moved {
        say!("Move {name} by {distance}", "{name} um {distance} schieben")
    } else {
        say!("Turn {name} by {}°", "{name} um {}° drehen", figure(degrees, 1))
    }
}

/// Why there is no offer to move a piece.
pub fn no_fix_near(reach: &str) -> String {
    say!(
        "No free place within {reach}. Fix all looks on the whole sheet; packing begins anew.",
        "Kein freier Platz im Umkreis von {reach}. „Alles in Ordnung bringen“ sucht auf dem ganzen Bogen, Packen fängt neu an."
    )
}

pub fn mended_all(moved: usize) -> String {
    match moved {
        1 => pick("Moved one piece; all rules hold.", "Ein Stück verschoben; alle Regeln sind eingehalten.")
            .to_owned(),
        more => say!(
            "Moved {more} pieces; all rules hold.",
            "{more} Stücke verschoben; alle Regeln sind eingehalten."
        ),
    }
}

/// What Fix all could not do, and what else there is.
pub fn mended_some(moved: usize, left: usize) -> String {
    let moved = match moved {
        0 => pick("No piece had a free place to go to", "Für kein Stück war ein freier Platz da").to_owned(),
        1 => pick("Moved one piece", "Ein Stück verschoben").to_owned(),
        more => say!("Moved {more} pieces", "{more} Stücke verschoben"),
    };
    let left = match left {
        1 => pick("one rule is still broken", "eine Regel ist noch verletzt").to_owned(),
        more => say!("{more} rules are still broken", "{more} Regeln sind noch verletzt"),
    };
    say!(
        "{moved}; {left}. Pack the sheet anew, unlock pieces, or take some off.",
        "{moved}; {left}. Packe den Bogen neu, entsperre Stücke oder nimm welche weg."
    )
}

/// What a group of warnings about several stickers is called.
pub fn warning_group(rule: stickleaf_sheet::Rule, count: usize) -> String {
    use stickleaf_sheet::Rule;
    let many = |one: &str, more: &str| format!("{count} {}", if count == 1 { one } else { more });
    match rule {
        Rule::Turn => many(
            pick("piece is turned further than allowed", "Stück ist weiter gedreht als erlaubt"),
            pick("pieces are turned further than allowed", "Stücke sind weiter gedreht als erlaubt"),
        ),
        Rule::Border => many(
            pick(
                "border may let the cut clip the drawing",
                "weißer Rand ist so schmal, dass der Schnitt die Zeichnung treffen kann",
            ),
            pick(
                "borders may let the cut clip the drawing",
                "weiße Ränder sind so schmal, dass der Schnitt die Zeichnung treffen kann",
            ),
        ),
        Rule::ThinPart => many(
            pick("sticker has a thin part that may tear", "Aufkleber hat ein dünnes Teil, das reißen kann"),
            pick("stickers have thin parts that may tear", "Aufkleber haben dünne Teile, die reißen können"),
        ),
        Rule::InnerCorner => many(
            pick("sticker has a sharp inward corner", "Aufkleber hat eine scharfe Innenecke"),
            pick("stickers have sharp inward corners", "Aufkleber haben scharfe Innenecken"),
        ),
        Rule::Size => many(
            pick("sticker is hard to handle", "Aufkleber ist schwer zu fassen"),
            pick("stickers are hard to handle", "Aufkleber sind schwer zu fassen"),
        ),
        Rule::Resolution => many(
            pick("sticker prints soft", "Aufkleber wird unscharf gedruckt"),
            pick("stickers print soft", "Aufkleber werden unscharf gedruckt"),
        ),
        Rule::SmallPart => many(
            pick(
                "sticker is a small part: not for children under three",
                "Aufkleber ist ein Kleinteil: nicht für Kinder unter drei Jahren",
            ),
            pick(
                "stickers are small parts: not for children under three",
                "Aufkleber sind Kleinteile: nicht für Kinder unter drei Jahren",
            ),
        ),
        Rule::Gone => many(
            pick("drawing is not in its picture any more", "Zeichnung ist nicht mehr in ihrem Bild"),
            pick("drawings are not in their picture any more", "Zeichnungen sind nicht mehr in ihrem Bild"),
        ),
        Rule::Overlap | Rule::Spacing | Rule::Margin | Rule::Zone | Rule::Clearance => {
            many(pick("broken rule", "verletzte Regel"), pick("broken rules", "verletzte Regeln"))
        }
    }
}

// The empty room

words! {
    empty_room: "Empty room", "Freier Platz";
    show_empty_room: "Show empty room", "Freien Platz zeigen";
    looking_for_room: "Looking for room.", "Suche freien Platz.";
    room_after_packing: "It is looked for when packing is done.", "Gesucht wird, wenn das Packen fertig ist.";
    room_dots: "Dots that fit", "Punkte, die passen";
    room_stickers: "Your stickers that fit", "Deine Aufkleber, die passen";
    room_hint:
        "Each by itself, at the largest size that was found.",
        "Jeder für sich, in der größten Größe, die gefunden wurde.";
    dot: "Dot", "Punkt";
    step_put_dot: "Put a dot there", "Einen Punkt dorthin legen";
}

pub fn step_put(name: &str) -> String {
    say!("Put {name} there", "{name} dorthin legen")
}

pub fn dot_of(length: &str) -> String {
    say!("Dot of {length}", "Punkt von {length}")
}

/// How a sticker fits at full size.
pub fn fits_full(name: &str, degrees: f64, is_flipped: bool) -> String {
    let turned = if degrees.abs() < 0.5 {
        String::new()
    } else {
        say!(", turned {degrees:.0}°", ", um {degrees:.0}° gedreht")
    };
    let flipped = if is_flipped { pick(", flipped", ", gespiegelt") } else { "" };
    say!("{name} at full size{turned}{flipped}", "{name} in voller Größe{turned}{flipped}")
}

/// How a sticker fits that is too large; its size is never told larger than found.
pub fn fits_smaller(name: &str, scale: f64) -> String {
    say!("{name} at {:.0} %", "{name} zu {:.0} %", (scale * 100.0).floor())
}

/// What fits, in a sentence; `least` is the smallest dot that counts.
pub fn room_found(dots: usize, least: &str, full: usize, smaller: usize) -> String {
    let dots = match dots {
        0 => say!("No dot of {least} or more fits", "Kein Punkt ab {least} passt"),
        1 => say!("One dot of {least} or more fits", "Ein Punkt ab {least} passt"),
        several => say!("{several} dots of {least} or more fit", "{several} Punkte ab {least} passen"),
    };
    let stickers = match (full, smaller) {
        (0, 0) => pick(
            "none of your stickers was found to fit, even at half its size",
            "für keinen deiner Aufkleber wurde Platz gefunden, auch nicht in halber Größe",
        )
        .to_owned(),
        (0, 1) => pick(
            "one of your stickers would fit if it were smaller",
            "einer deiner Aufkleber würde kleiner passen",
        )
        .to_owned(),
        (0, several) => say!(
            "{several} of your stickers would fit if they were smaller",
            "{several} deiner Aufkleber würden kleiner passen"
        ),
        (1, 0) => pick("one of your stickers fits", "einer deiner Aufkleber passt").to_owned(),
        (several, 0) => say!("{several} of your stickers fit", "{several} deiner Aufkleber passen"),
        (1, more) => say!(
            "one of your stickers fits, {more} more would if smaller",
            "einer deiner Aufkleber passt, kleiner noch {more}"
        ),
        (several, more) => say!(
            "{several} of your stickers fit, {more} more would if smaller",
            "{several} deiner Aufkleber passen, kleiner noch {more}"
        ),
    };
    format!("{dots}; {stickers}.")
}

pub fn more(count: usize) -> String {
    say!("{count} more", "{count} weitere")
}
