//! Words for what is made for the printer, and for the groups of what leaves.

use stickleaf_press::strip::{AS_IT_IS, patch_of};
use stickleaf_sheet::{Correction, Sheet};

use super::figure;
use crate::messages::Made;
use crate::update::plain_name;
use crate::words::language::pick;

words! {
    to_print: "To print", "Zum Drucken";
    to_cut: "To cut", "Zum Schneiden";
    to_keep: "To keep and pass on", "Zum Aufheben und Weitergeben";
    save_sheet: "Make the sheet", "Bogen erzeugen";
    sheet_text: "The whole sheet as one picture: background, white borders and drawings at true size, as PNG.", "Der ganze Bogen als ein Bild: Hintergrund, weiße Ränder und Zeichnungen in wahrer Größe, als PNG.";
    bleed: "Past the edge", "Über die Kante";
    no_bleed: "Card only", "Nur die Karte";
    with_bleed: "2 mm bleed", "2 mm Beschnitt";
    to_draw_on: "To draw on", "Zum Zeichnen";
    save_guide: "Make the guide", "Zeichenhilfe erzeugen";
    guide_text: "A see-through picture to lay over or under your drawing, of exactly its size in pixels. Not to be printed.", "Ein durchsichtiges Bild zum Über- oder Unterlegen, genau so viele Pixel groß wie deine Zeichnung. Nicht zum Drucken.";
    save_guide_svg: "Save it as SVG", "Als SVG sichern";
    fineness_title: "How fine the pictures print", "Wie fein die Bilder gedruckt werden";
    each_picture: "Each picture", "Jedes Bild";
    guide_shows: "What the guide shows", "Was die Zeichenhilfe zeigt";
    guide_cut_lines: "cut lines", "Schnittlinien";
    guide_outlines: "outlines", "Konturen";
    guide_numbers: "numbers", "Nummern";
    guide_zones: "zones", "Zonen";
    guide_margin: "margin", "Rand";
    save_print: "Make the page", "Seite erzeugen";
    print_text: "A page of label stock with the sheets on it, true size, as PDF. Print it at 100 %, not fitted to the page; if there is a ruler on it, it is 100 mm long.", "Eine Seite Etikettenpapier mit den Bögen darauf, in wahrer Größe, als PDF. Drucke sie mit 100 %, nicht an die Seite angepasst; ein Lineal darauf ist 100 mm lang.";
    who_prints: "Who prints", "Wer druckt";
    prints_at_home: "I do, no cut lines", "Ich, ohne Linien";
    prints_in_shop: "A shop, with cut lines", "Druckerei, mit Linien";
    page_size: "Page", "Seite";
    page_width: "Page width", "Seitenbreite";
    page_height: "Page height", "Seitenhöhe";
    printer_margin: "Printer margin", "Druckerrand";
    sheet_gap: "Between sheets", "Zwischen Bögen";
    reach_width: "Cutter reaches, across", "Plotter erreicht, quer";
    reach_height: "Cutter reaches, down", "Plotter erreicht, längs";
    save_strip: "Make the colour strip", "Farbstreifen erzeugen";
    strip_text: "If prints come out too dark or too cool: the main colours of the sheet in patches, lighter to the right and warmer below, as PDF. Print it as you print the sheets, find the patch that looks as on the screen, and choose its column and row here. The art stays as it is, and white stays white.", "Wenn Drucke zu dunkel oder zu kühl werden: die Hauptfarben des Bogens in Feldern, nach rechts heller und nach unten wärmer, als PDF. Drucke ihn wie die Bögen, such das Feld, das aussieht wie auf dem Bildschirm, und wähle hier Spalte und Zeile. Die Zeichnungen bleiben, wie sie sind, und Weiß bleibt Weiß.";
    strip_column: "Column, lighter to the right", "Spalte, nach rechts heller";
    strip_row: "Row, warmer below", "Zeile, nach unten wärmer";
    strip_on_screen: "The colours on the screen: left as drawn, right as they are sent to the printer", "Die Farben auf dem Bildschirm: links wie gezeichnet, rechts wie sie zum Drucker gehen";
    strip_as_it_is: "Colours go to the printer as drawn.", "Die Farben gehen zum Drucker, wie sie gezeichnet sind.";
    strip_none: "As drawn again", "Wieder wie gezeichnet";
    strip_is_empty: "The sheet has no colours, so the strip is empty. Put stickers with pictures or a background on it first.", "Der Bogen hat keine Farben, also ist der Streifen leer. Leg zuerst Aufkleber mit Bildern oder einen Hintergrund darauf.";
    save_bundle: "Save everything in one file", "Alles in einer Datei speichern";
    bundle_text: "The layout and the pictures of its stickers at full resolution, to go on with on another device or to keep. Opens here again.", "Das Layout und die Bilder seiner Aufkleber in voller Auflösung, um auf einem anderen Gerät weiterzumachen oder zum Aufheben. Lässt sich hier wieder öffnen.";
    share_bundle: "Hand it on", "Weitergeben";
    whole_pictures: "Pictures whole, with what is no sticker", "Bilder ganz, auch was kein Aufkleber ist";
    being_made: "being made", "entsteht gerade";
}

/// How many pixels a picture of the sheet has.
pub fn pixels_of(sheet: &Sheet) -> String {
    let ppi = sheet.resolution_ppi;
    let (width, height) = sheet.pixels(ppi);
    say!("{width} x {height} pixels, {ppi} to the inch", "{width} x {height} Pixel, {ppi} auf einen Zoll")
}

/// That a file is saved, and what it is.
pub fn made(file: &str, made: &Made) -> String {
    let place = say!(
        "{file} is saved where this browser keeps downloads",
        "{file} liegt jetzt bei den Downloads dieses Browsers"
    );
    if let Some(cut) = &made.cut {
        let (nodes, travel, least) = (cut.nodes, figure(cut.travel_mm, 0), figure(cut.least_travel_mm, 0));
        return say!(
            "{place}: kiss lines with {nodes} points; between them the lifted blade travels {travel} mm, and no order needs less than {least} mm.",
            "{place}: Anritzlinien mit {nodes} Punkten; dazwischen legt die angehobene Klinge {travel} mm zurück, keine Reihenfolge braucht weniger als {least} mm."
        );
    }
    match (made.pixels, made.sheets) {
        (Some((width, height)), _) => {
            say!("{place}: {width} x {height} pixels.", "{place}: {width} x {height} Pixel.")
        }
        (None, Some(1)) => say!("{place}: one sheet on the page.", "{place}: ein Bogen auf der Seite."),
        (None, Some(sheets)) => {
            say!("{place}: {sheets} sheets on the page.", "{place}: {sheets} Bögen auf der Seite.")
        }
        (None, None) => format!("{place}."),
    }
}

pub fn on_a_page_proved(sheets: usize, waste_percent: f64) -> String {
    let waste = figure(waste_percent, 0);
    if sheets == 1 {
        return say!(
            "One sheet on a page, and no more fit: proven. {waste} % of the page is left over.",
            "Ein Bogen auf der Seite, und mehr passen nicht: bewiesen. {waste} % der Seite bleiben übrig."
        );
    }
    say!(
        "{sheets} sheets on a page, and no more fit: proven. {waste} % of the page is left over.",
        "{sheets} Bögen auf der Seite, und mehr passen nicht: bewiesen. {waste} % der Seite bleiben übrig."
    )
}

pub fn on_a_page(sheets: usize, most: usize, waste_percent: f64) -> String {
    let waste = figure(waste_percent, 0);
    say!(
        "{sheets} sheets on a page; at most {most} by proof. {waste} % of the page is left over.",
        "{sheets} Bögen auf der Seite; bewiesen sind höchstens {most}. {waste} % der Seite bleiben übrig."
    )
}

/// The coarsest and the finest picture of pixels at their sizes on the sheet, and how many drawings have none.
pub fn fineness(ends: Option<(f64, f64)>, drawings: usize) -> String {
    let of_pixels = ends.map(|(least, most)| {
        let (least, most) = (figure(least, 0), figure(most, 0));
        if least == most {
            say!(
                "{least} pixels to the inch at the size on the sheet.",
                "{least} Pixel auf einen Zoll in der Größe auf dem Bogen."
            )
        } else {
            say!(
                "{least} to {most} pixels to the inch at the sizes on the sheet.",
                "{least} bis {most} Pixel auf einen Zoll in den Größen auf dem Bogen."
            )
        }
    });
    let of_none = match drawings {
        0 => None,
        1 => Some(say!(
            "1 picture without pixels is sharp at any size.",
            "1 Bild ohne Pixel ist in jeder Größe scharf."
        )),
        _ => Some(say!(
            "{drawings} pictures without pixels are sharp at any size.",
            "{drawings} Bilder ohne Pixel sind in jeder Größe scharf."
        )),
    };
    of_pixels.into_iter().chain(of_none).collect::<Vec<_>>().join(" ")
}

/// One picture in the list of them.
pub fn printed_at(ppi: Option<f64>) -> String {
    match ppi {
        Some(ppi) => say!("{} to the inch", "{} auf einen Zoll", figure(ppi, 0)),
        None => pick("sharp at any size", "in jeder Größe scharf").to_owned(),
    }
}

/// How many pictures have fewer pixels to the inch than the rules ask.
pub fn prints_soft(count: usize, least: f64) -> String {
    let least = figure(least, 0);
    if count == 1 {
        return say!(
            "1 picture has fewer than {least} pixels to the inch and prints soft. Make it smaller, or bring a finer one in.",
            "1 Bild hat weniger als {least} Pixel auf einen Zoll und wird unscharf gedruckt. Mach es kleiner oder hol ein feineres."
        );
    }
    say!(
        "{count} pictures have fewer than {least} pixels to the inch and print soft. Make them smaller, or bring finer ones in.",
        "{count} Bilder haben weniger als {least} Pixel auf einen Zoll und werden unscharf gedruckt. Mach sie kleiner oder hol feinere."
    )
}

/// That sheet and page are printed in the colours of a patch, or with a correction that no patch has.
pub fn corrected(correction: Correction) -> String {
    if let Some(patch) = patch_of(correction) {
        return say!(
            "Colours go to the printer as in patch {patch} of the colour strip.",
            "Die Farben gehen zum Drucker wie in Feld {patch} des Farbstreifens."
        );
    }
    let (lighter, warmer) = (figure(correction.lighter, 3), figure(correction.warmer, 3));
    say!(
        "Colours go to the printer lighter by {lighter} and warmer by {warmer}, which no patch of the colour strip is.",
        "Die Farben gehen um {lighter} heller und um {warmer} wärmer zum Drucker; so ist kein Feld des Farbstreifens."
    )
}

pub fn step_correction(patch: u32) -> String {
    if patch == AS_IT_IS {
        return pick("Colours as drawn", "Farben wie gezeichnet").to_owned();
    }
    say!("Colours as in patch {patch}", "Farben wie in Feld {patch}")
}

pub fn strip_last(patch: u32) -> String {
    say!("Patch {patch}, as last time", "Feld {patch}, wie zuletzt")
}

/// That a bundle is made, and of which pictures it holds the stickers' parts only.
pub fn made_of_parts(done: &str, left: &[String]) -> String {
    let files: Vec<&str> = left.iter().map(|file| plain_name(file)).collect();
    let files = files.join(", ");
    say!(
        "{done} Of {files} it holds what its stickers need, pixel for pixel; what is no sticker is not in it.",
        "{done} Von {files} ist darin, was die Aufkleber brauchen, Pixel für Pixel; was kein Aufkleber ist, fehlt darin."
    )
}

/// How many pictures go into a bundle, and whether only what their stickers need of them does.
pub fn pictures_along(pictures: usize, are_parts: bool) -> String {
    match (pictures, are_parts) {
        (0, _) => say!("no pictures to go along", "keine Bilder dabei"),
        (1, false) => say!("one picture goes along", "ein Bild kommt mit"),
        (_, false) => say!("{pictures} pictures go along", "{pictures} Bilder kommen mit"),
        (1, true) => say!(
            "of one picture each sticker's part goes along",
            "von einem Bild kommt der Teil jedes Aufklebers mit"
        ),
        (_, true) => say!(
            "of {pictures} pictures what the stickers need goes along",
            "von {pictures} Bildern kommt mit, was die Aufkleber brauchen"
        ),
    }
}

pub fn opened_without(file: &str, missing: usize) -> String {
    if missing == 1 {
        return say!(
            "{file} is open; one of its pictures is not in it. Bring that picture in, and its stickers have it back.",
            "{file} ist offen; eines der Bilder ist nicht darin. Hol dieses Bild herein, dann haben seine Aufkleber es wieder."
        );
    }
    say!(
        "{file} is open; {missing} of its pictures are not in it. Bring them in, and their stickers have them back.",
        "{file} ist offen; {missing} der Bilder sind nicht darin. Hol sie herein, dann haben ihre Aufkleber sie wieder."
    )
}

/// That a bundle is made, and which pictures are not in it.
pub fn made_without(done: &str, missing: &[String]) -> String {
    let files = missing.join(", ");
    say!(
        "{done} These pictures are not on this device and so not in it: {files}. Bring them in, then save the bundle again.",
        "{done} Diese Bilder sind nicht auf diesem Gerät und also nicht darin: {files}. Hol sie herein, dann sichere das Bündel noch einmal."
    )
}

pub fn opened_passing_over(file: &str, entries: usize) -> String {
    if entries == 1 {
        return say!(
            "{file} is open; one file in it was passed over, since the layout does not name it.",
            "{file} ist offen; eine Datei darin wurde übergangen, weil das Layout sie nicht nennt."
        );
    }
    say!(
        "{file} is open; {entries} files in it were passed over, since the layout does not name them.",
        "{file} ist offen; {entries} Dateien darin wurden übergangen, weil das Layout sie nicht nennt."
    )
}
