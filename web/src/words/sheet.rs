//! Words for stickers, the sheet with its rules, and backgrounds.

use stickleaf_sheet::{LengthUnit, Zone};

use super::figures::number;
use crate::words::language::pick;

// Stickers

words! {
    stickers: "Stickers", "Aufkleber";
    bring_art_in: "Bring art in", "Bilder holen";
    wanted: "Wanted", "Gewünscht";
    exactly: "exactly", "genau";
    at_least: "at least", "mindestens";
    how_many: "How many", "Wie viele";
    copies: "Copies", "Exemplare";
    sticker_name: "Name", "Name";
    may_turn: "May turn", "Darf sich drehen";
    turns_none: "Upright", "Aufrecht";
    turns_within: "Tilt", "Neigen";
    turns_quarter: "Quarter turns", "Vierteldrehungen";
    turns_any: "As it likes", "Beliebig";
    turns_listed: "Only these turns", "Nur diese Drehungen";
    tilt_degrees: "Tilt up to (degrees)", "Neigen bis (Grad)";
    may_be_flipped: "May be flipped", "Darf gespiegelt werden";
    own_border: "A border of its own", "Eigener weißer Rand";
    border: "White border", "Weißer Rand";
    put_one_on: "Put one on the sheet", "Eins auf den Bogen legen";
    remove_sticker: "Remove this sticker", "Diesen Aufkleber entfernen";
    degrees_range: "type degrees from 0 to 180", "gib Grad von 0 bis 180 ein";
    no_stickers: "No stickers yet.", "Noch keine Aufkleber.";
}

pub fn one_more(name: &str) -> String {
    say!("One more {name}", "Eins mehr: {name}")
}

pub fn one_fewer(name: &str) -> String {
    say!("One fewer {name}", "Eins weniger: {name}")
}

pub fn details_of(name: &str) -> String {
    say!("Details of {name}", "Einzelheiten: {name}")
}

pub fn count_on_sheet(placed: usize) -> String {
    super::placed(placed)
}

pub fn size(width: &str, height: &str, unit: &str) -> String {
    format!("{width} × {height} {unit}")
}

words! {
    name_it: "give it a name", "gib ihm einen Namen";
    turns_list:
        "type degrees with spaces between, such as 0 90 180",
        "gib Grad mit Leerzeichen dazwischen ein, etwa 0 90 180";
}

pub fn size_with_border(width: &str, height: &str, unit: &str) -> String {
    say!("{width} × {height} {unit} with its border", "{width} × {height} {unit} mit weißem Rand")
}

pub fn sticker_removed(name: &str) -> String {
    say!("{name} and its pieces are gone.", "{name} und die Stücke davon sind weg.")
}

// Sheet and rules

words! {
    sheet: "Sheet", "Bogen";
    size_name: "Size", "Größe";
    width: "Width", "Breite";
    height: "Height", "Höhe";
    swap: "Turn it round", "Quer oder hoch";
    corner_radius: "Corner radius", "Eckenradius";
    resolution: "Resolution (pixels to the inch)", "Auflösung (Pixel je Zoll)";
    distances: "Distances", "Abstände";
    spacing: "Spacing between cut lines", "Abstand zwischen Schnittlinien";
    margin: "Margin to the edge", "Rand zur Kante";
    limits: "Limits that warn", "Warngrenzen";
    print_to_cut: "Print-to-cut error", "Versatz von Druck und Schnitt";
    thinnest: "Thinnest part", "Dünnstes Teil";
    smallest: "Smallest sticker", "Kleinster Aufkleber";
    inner_radius: "Smallest inward radius", "Kleinster Innenradius";
    least_ppi: "Least resolution (pixels to the inch)", "Geringste Auflösung (Pixel je Zoll)";
    a_number: "type a number", "gib eine Zahl ein";
}

pub fn pixels(width: u32, height: u32) -> String {
    say!(
        "A drawing of the whole sheet is {width} × {height} pixels.",
        "Eine Zeichnung des ganzen Bogens hat {width} × {height} Pixel."
    )
}

// Backgrounds

words! {
    background: "Background", "Hintergrund";
    no_background: "No background", "Kein Hintergrund";
    no_zones: "no zones", "keine Zonen";
    add_style: "Add a style", "Stil hinzufügen";
    zones_name: "Zones", "Zonen";
    zones_hint: "Parts of the sheet that stickers keep out of.", "Teile des Bogens, die frei von Aufklebern bleiben.";
    draw_zone: "Draw a zone", "Zone zeichnen";
    drawing_zone:
        "Drag on the sheet: a box, or a loop that comes back to its start.",
        "Zieh auf dem Bogen: ein Rechteck oder eine Schleife, die zum Anfang zurückkehrt.";
    stop_drawing: "Stop drawing", "Fertig";
    step_rename_zone: "Rename a zone", "Zone umbenennen";
    clearance: "Clearance", "Freiraum";
    remove_style: "Remove this style", "Diesen Stil entfernen";
    duplicate_style: "Duplicate this style", "Diesen Stil verdoppeln";
    style_earlier: "Move this style up", "Diesen Stil nach oben";
    style_later: "Move this style down", "Diesen Stil nach unten";
    step_rename_style: "Rename a style", "Stil umbenennen";
    step_order_styles: "Reorder styles", "Stile umordnen";
    name_of_style: "Name of this style", "Name dieses Stils";
    style_name_taken: "another style is called so; choose another name", "so heißt schon ein anderer Stil; nimm einen anderen Namen";
    backdrop: "Picture behind", "Bild dahinter";
    backdrop_hint:
        "As wide as the sheet, from its top edge down; it is printed below the stickers.",
        "So breit wie der Bogen, von der Oberkante abwärts; es wird unter den Aufklebern gedruckt.";
    choose_backdrop: "Choose a picture", "Bild wählen";
    other_backdrop: "Choose another picture", "Anderes Bild wählen";
    remove_backdrop: "Remove the picture", "Bild entfernen";
    backdrop_opacity: "Opacity", "Deckkraft";
    zones_of_picture: "Zones from a picture", "Zonen aus einem Bild";
    zone_larger: "Larger", "Größer";
    zone_smaller: "Smaller", "Kleiner";
    zone_width: "Width", "Breite";
    zone_height: "Height", "Höhe";
}

pub fn change_zone(name: &str) -> String {
    say!("Change {name} on the sheet", "{name} auf dem Bogen ändern")
}

/// So many of a hundred.
pub fn out_of_hundred(value: f64) -> String {
    say!("{value:.0} %", "{value:.0} %")
}

pub fn zones_made(count: usize) -> String {
    match count {
        1 => pick("One zone made of what is drawn.", "Eine Zone aus dem Gezeichneten gemacht.").to_owned(),
        _ => say!("{count} zones made of what is drawn.", "{count} Zonen aus dem Gezeichneten gemacht."),
    }
}

pub fn nothing_drawn(file: &str) -> String {
    say!(
        "{file}: nothing is drawn there that is large enough for a zone. Choose a picture with a clear ground.",
        "{file}: Dort ist nichts gezeichnet, was groß genug für eine Zone ist. Nimm ein Bild mit durchsichtigem Grund."
    )
}

pub fn no_zones_in(file: &str, why: &str) -> String {
    say!("No zones from {file}: {why}.", "Keine Zonen aus {file}: {why}.")
}

/// What the bar of a chosen zone is called.
pub fn zone_called(name: &str) -> String {
    say!("Zone {name}", "Zone {name}")
}

/// Which zone is chosen, where it lies and how large it is, to be read out.
pub fn zone_told(zone: &Zone, unit: LengthUnit) -> String {
    let bounds = zone.outline.bounds();
    let [x, y] = [bounds.x0, bounds.y0].map(|mm| number(unit, mm));
    let size = super::size(&number(unit, bounds.width()), &number(unit, bounds.height()), unit.symbol());
    say!(
        "Zone {}, {size}, {x} from the left, {y} from the top",
        "Zone {}, {size}, {x} von links, {y} von oben",
        zone.name
    )
}

pub fn remove_zone(name: &str) -> String {
    say!("Remove {name}", "{name} entfernen")
}

pub fn name_of_zone(name: &str) -> String {
    say!("Name of {name}", "Name von {name}")
}

pub fn clearance_of(name: &str) -> String {
    say!("Clearance of {name}", "Freiraum um {name}")
}

pub fn room_left(part: f64) -> String {
    say!("{:.0} % left for stickers", "{:.0} % frei für Aufkleber", part * 100.0)
}

pub fn zones(count: usize) -> String {
    match count {
        0 => no_zones().to_owned(),
        1 => pick("1 zone", "1 Zone").to_owned(),
        _ => say!("{count} zones", "{count} Zonen"),
    }
}
