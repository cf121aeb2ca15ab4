//! Words for what leaves.

use crate::words::language::pick;

words! {
    press_title: "What leaves", "Was hinausgeht";
    cautions: "Cautions", "Vorsicht";
    save_placement: "Save placement file", "Platzierungsdatei sichern";
    placement_text:
        "Every piece with its place, turn and cut line, for other programs. Opens here again.",
        "Jedes Stück mit Ort, Drehung und Schnittlinie, für andere Programme. Lässt sich hier wieder öffnen.";
    save_table: "Save table", "Tabelle sichern";
    table_text:
        "One row a piece: centre in mm and in pixels, turn, bounds. For a spreadsheet.",
        "Eine Zeile je Stück: Mitte in mm und in Pixeln, Drehung, Ausmaße. Für die Tabellenkalkulation.";
    save_layout: "Save layout", "Layout sichern";
    layout_text:
        "The whole sheet as it is, to go on with another day or at the command line.",
        "Der ganze Bogen, wie er ist, um an einem anderen Tag oder in der Kommandozeile weiterzumachen.";
    save_cut: "Make the cut lines", "Schnittlinien erzeugen";
    cut_text:
        "Kiss lines of the stickers, then the through line of the card, true size, as SVG. Every pass is the same line to the last digit. On the whole page the sheets lie where the print has them.",
        "Anritzlinien der Aufkleber, dann die Durchschnittlinie der Karte, in wahrer Größe, als SVG. Jeder Durchgang ist bis zur letzten Stelle dieselbe Linie. Auf der ganzen Seite liegen die Bögen, wo der Druck sie hat.";
    cut_of: "Cut of", "Schnitt für";
    cut_one_card: "One card", "Eine Karte";
    cut_whole_page: "The whole page", "Die ganze Seite";
    cut_lines_word: "Lines", "Linien";
    cut_all_lines: "Kiss, then through", "Anritzen, dann durch";
    cut_kiss_only: "Kiss lines only", "Nur Anritzlinien";
    cut_card_only: "Through lines only", "Nur Durchschnitt";
    passes_asked: "Type a whole number from 1 to 20.", "Gib eine ganze Zahl von 1 bis 20 ein.";
    save_failed:
        "The browser did not save the file. Allow downloads for this page and try again.",
        "Der Browser hat die Datei nicht gesichert. Erlaube dieser Seite Downloads und versuch es noch einmal.";
    nothing_on_sheet:
        "Nothing lies on the sheet yet. Fill the sheet or put stickers on it first.",
        "Auf dem Bogen liegt noch nichts. Füll ihn oder leg zuerst Aufkleber darauf.";
    go_to_findings: "Show findings", "Funde zeigen";
    cutting_preview: "Cut lines at true proportions", "Schnittlinien in wahren Verhältnissen";
    kiss_line: "kiss line, through the face only", "Anritzlinie, nur durch die Deckschicht";
    through_line: "through line, the card's edge", "Durchschnittlinie, die Kante der Karte";
}

pub fn pieces_and_size(pieces: usize, size: &str) -> String {
    if pieces == 1 {
        say!("1 piece on {size}", "1 Stück auf {size}")
    } else {
        say!("{pieces} pieces on {size}", "{pieces} Stücke auf {size}")
    }
}

/// What is in a cut: so many kiss lines, and so many cards with so many passes.
pub fn cut_holds(kiss: Option<usize>, through: Option<(usize, u32)>) -> String {
    let kiss = kiss.map(|count| match count {
        1 => say!("1 kiss line", "1 Anritzlinie"),
        _ => say!("{count} kiss lines", "{count} Anritzlinien"),
    });
    let through = through.map(|(cards, passes)| {
        let cards = match cards {
            1 => say!("1 card", "1 Karte"),
            _ => say!("{cards} cards", "{cards} Karten"),
        };
        match passes {
            1 => say!("{cards} in one pass", "{cards} in einem Durchgang"),
            _ => say!("{cards} in {passes} passes", "{cards} in {passes} Durchgängen"),
        }
    });
    kiss.into_iter().chain(through).collect::<Vec<_>>().join(pick(", then ", ", dann "))
}

pub fn saved(file: &str) -> String {
    say!(
        "{file} is saved where this browser keeps downloads.",
        "{file} liegt jetzt bei den Downloads dieses Browsers."
    )
}

pub fn broken_on_press(count: usize) -> String {
    if count == 1 {
        pick(
            "One rule is broken. The files can be saved all the same; see to it before you cut.",
            "Eine Regel ist verletzt. Sichern geht trotzdem; bring es in Ordnung, bevor du schneidest.",
        )
        .to_owned()
    } else {
        say!(
            "{count} rules are broken. The files can be saved all the same; see to them before you cut.",
            "{count} Regeln sind verletzt. Sichern geht trotzdem; bring es in Ordnung, bevor du schneidest."
        )
    }
}

words! {
    caution_blade:
        "A cutter’s blade is sharp and moves by itself: hands, hair and pets away while it runs, never leave it \
         running alone, change blades with the plug out. The machine’s manual goes before anything said here.",
        "Die Klinge eines Schneidegeräts ist scharf und bewegt sich von selbst: Hände, Haare und Tiere fernhalten, \
         solange es läuft, nie unbeaufsichtigt lassen, Klingen nur mit gezogenem Stecker wechseln. Die Anleitung \
         des Geräts geht allem vor, was hier steht.";
    caution_passes:
        "Several passes can cut through the mat and into the machine: try on a test card first.",
        "Mehrere Durchgänge können durch die Matte bis ins Gerät schneiden: Probier es zuerst an einer Testkarte.";
    caution_small:
        "Small stickers are small parts: those that fit the small-parts cylinder (31.7 mm across, 16 CFR 1501) are \
         not for children under three. The law where you sell decides on labels and testing.",
        "Kleine Aufkleber sind Kleinteile: Die, die in den Kleinteilezylinder passen (31,7 mm weit, 16 CFR 1501), \
         sind nichts für Kinder unter drei Jahren. Über Kennzeichnung und Prüfung entscheidet das Recht dort, wo \
         du verkaufst.";
}

pub fn small_parts(count: usize) -> String {
    if count == 1 {
        pick("One sticker of this sheet is such a part.", "Ein Aufkleber dieses Bogens ist so ein Teil.")
            .to_owned()
    } else {
        say!(
            "{count} stickers of this sheet are such parts.",
            "{count} Aufkleber dieses Bogens sind solche Teile."
        )
    }
}
