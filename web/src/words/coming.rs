//! Words for what comes in and goes out: opening, saving, bringing art in.

use crate::words::figure;
use crate::words::language::pick;

// Coming and going

words! {
    last_sheet_is_back: "Your last sheet is back.", "Dein letzter Bogen ist wieder da.";
    start_fresh: "Start fresh", "Neu anfangen";
    sample_failed:
        "The sample could not be opened. Load the page again, or bring your own art in.",
        "Das Beispiel ließ sich nicht öffnen. Lade die Seite neu oder hol deine eigenen Bilder herein.";
}

pub fn opened(name: &str) -> String {
    say!("{name} is open.", "{name} ist geöffnet.")
}

pub fn could_not_open(file: &str, why: &str) -> String {
    say!(
        "{file} was not opened: {why}. What was on the desk is still there.",
        "{file} wurde nicht geöffnet: {why}. Was auf dem Tisch lag, ist noch da."
    )
}

pub fn could_not_read(file: &str) -> String {
    say!(
        "{file} could not be read from this device. Choose it again, or copy it to the device first.",
        "{file} ließ sich von diesem Gerät nicht lesen. Wähl die Datei noch einmal oder kopier sie zuerst aufs Gerät."
    )
}

pub fn unknown_kind(file: &str) -> String {
    say!(
        "{file} is of a kind that is not understood. Bring PNG or SVG, or open a bundle (.stickleaf) or a layout or placement file (.json).",
        "Diese Art von Datei wird nicht verstanden: {file}. Hol PNG oder SVG herein oder öffne ein Bündel (.stickleaf) oder eine Layout- oder Platzierungsdatei (.json)."
    )
}

pub fn picture_is_back(file: &str) -> String {
    say!("The picture {file} is back on its stickers.", "Das Bild {file} ist wieder auf seinen Aufklebern.")
}

// Bringing art in

words! {
    import_title: "Bring art in", "Bilder holen";
    true_size: "True size", "Wahre Größe";
    pixels_to_the_inch: "Pixels to the inch", "Pixel je Zoll";
    picture_width: "Width of the picture", "Breite des Bildes";
    smallest_kept: "Leave out specks smaller than", "Flecken weglassen, die kleiner sind als";
    join_parts: "Join parts that their borders join", "Teile verbinden, deren weiße Ränder sich berühren";
    cancel: "Cancel", "Abbrechen";
    dropped: "Left out", "Weggelassen";
    size_from_you: "As you set it.", "Wie von dir festgelegt.";
    size_from_file: "The file says its size.", "Die Größe steht in der Datei.";
    size_guessed:
        "The file does not say its size; this is a guess. Set it to the true one.",
        "In der Datei steht keine Größe; das hier ist geschätzt. Stell die wahre ein.";
    step_import: "Bring art in", "Bilder holen";

    above_zero: "type a number above 0", "gib eine Zahl über 0 ein";
    zero_or_more: "type 0 or more", "gib 0 oder mehr ein";
}

pub fn looking_in(file: &str) -> String {
    say!("Looking for drawings in {file}", "Suche Zeichnungen in {file}")
}

pub fn found(count: usize) -> String {
    if count == 1 {
        pick("1 drawing found", "1 Zeichnung gefunden").to_owned()
    } else {
        say!("{count} drawings found", "{count} Zeichnungen gefunden")
    }
}

/// A speck that was left out: how large, and where from the left and from the top, in millimetres.
pub fn speck(size: f64, x: f64, y: f64) -> String {
    let size = figure(size, 2);
    say!("a speck of {size} mm at {x:.0}, {y:.0} mm", "ein Fleck von {size} mm bei {x:.0}; {y:.0} mm")
}

pub fn more_specks(count: u64) -> String {
    say!("{count} more specks", "{count} weitere Flecken")
}

pub fn add_stickers(count: usize) -> String {
    if count == 1 {
        pick("Add 1 sticker", "1 übernehmen").to_owned()
    } else {
        say!("Add {count} stickers", "{count} übernehmen")
    }
}

pub fn added(count: usize) -> String {
    if count == 1 {
        pick("1 sticker is on the tray.", "1 Aufkleber liegt in der Ablage.").to_owned()
    } else {
        say!("{count} stickers are on the tray.", "{count} Aufkleber liegen in der Ablage.")
    }
}
