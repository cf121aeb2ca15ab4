//! Words for changed pictures, and for cut lines that a blade can follow.

use crate::update::Fates;
use crate::words::figure;
use crate::words::language::pick;

// A changed picture

words! {
    what_for: "What it is for", "Wofür es ist";
    update_stickers: "Update stickers", "Aufkleber aktualisieren";
    add_as_new: "Add as new", "Als neu übernehmen";
    changed_version_of: "Changed version of", "Geänderte Fassung von";
    of_none: "none; its drawings are new", "keine; die Zeichnungen sind neu";
    picture_is_left:
        "no drawing matches a sticker of that picture, so nothing is done with it",
        "keine Zeichnung passt zu einem Aufkleber dieses Bildes, also geschieht damit nichts";
    update_hint:
        "Places, turns, counts and names stay; outlines and drawings are taken from the new picture.",
        "Lage, Drehung, Anzahl und Namen bleiben; Umrisse und Zeichnungen kommen aus dem neuen Bild.";
    before_and_after: "Faint: before. Bold: after.", "Blass: vorher. Kräftig: nachher.";
    what_becomes: "What becomes of the stickers", "Was aus den Aufklebern wird";
    fate_unchanged: "same outline", "gleicher Umriss";
    fate_gone: "no longer in the picture; stays, with a warning", "nicht mehr im Bild; bleibt, mit einer Warnung";
    found_by_shape: "known by its shape, elsewhere in the picture", "an der Form erkannt, an anderer Stelle im Bild";
    nothing_matches:
        "No drawing is where one of its stickers was, and none has the shape of one. Choose another picture, or add them as new.",
        "Keine Zeichnung liegt dort, wo ein Aufkleber war, und keine hat die Form von einem. Wähl ein anderes Bild oder übernimm sie als neu.";
    gone_hint:
        "Its drawing was not found when its picture was brought in again.",
        "Seine Zeichnung wurde nicht gefunden, als das Bild neu geholt wurde.";
    keep_it: "Keep it anyway", "Trotzdem behalten";
}

/// A new outline: its area, what it was, and the area that only one of the two holds, in square millimetres.
pub fn fate_updated(after: f64, before: f64, moved: f64) -> String {
    let (after, before, moved) = (figure(after, 1), figure(before, 1), figure(moved, 1));
    say!(
        "new outline: {after} mm², was {before} mm²; {moved} mm² differ",
        "neuer Umriss: {after} mm², vorher {before} mm²; {moved} mm² weichen ab"
    )
}

pub fn is_changed_version_of(file: &str) -> String {
    say!("{file}: changed version of", "{file}: geänderte Fassung von")
}

pub fn fate_new(area: f64) -> String {
    say!("new drawing of {} mm²", "neue Zeichnung von {} mm²", figure(area, 1))
}

pub fn fates(fates: Fates) -> String {
    let Fates { updated, unchanged, new, gone } = fates;
    say!(
        "{updated} with a new outline, {unchanged} with the same, {new} new, {gone} gone",
        "{updated} mit neuem Umriss, {unchanged} mit gleichem, {new} neu, {gone} nicht mehr da"
    )
}

pub fn take_new(count: usize) -> String {
    if count == 1 {
        pick("Add the new drawing as a sticker", "Die neue Zeichnung als Aufkleber übernehmen").to_owned()
    } else {
        say!(
            "Add the {count} new drawings as stickers",
            "Die {count} neuen Zeichnungen als Aufkleber übernehmen"
        )
    }
}

pub fn update_count(count: usize) -> String {
    if count == 1 {
        pick("Update 1 sticker", "1 aktualisieren").to_owned()
    } else {
        say!("Update {count} stickers", "{count} aktualisieren")
    }
}

pub fn step_update(file: &str) -> String {
    say!("Update from {file}", "Aus {file} aktualisieren")
}

/// What became of the stickers; `more` is how many more rules are broken now.
pub fn updated(file: &str, count: Fates, takes_new: bool, more: usize) -> String {
    let left_out = if count.new > 0 && !takes_new {
        pick("; the new ones were left out", "; die neuen wurden weggelassen")
    } else {
        ""
    };
    format!("{file}: {}{left_out}.{}", fates(count), now_broken(more))
}

/// How many more rules are broken now, as a sentence; nothing if none is.
fn now_broken(more: usize) -> String {
    match more {
        0 => String::new(),
        1 => pick(
            " 1 rule is broken now; the findings say which.",
            " 1 Regel ist jetzt verletzt; die Funde sagen, welche.",
        )
        .to_owned(),
        _ => say!(
            " {more} rules are broken now; the findings say which.",
            " {more} Regeln sind jetzt verletzt; die Funde sagen, welche."
        ),
    }
}

// Two made one

words! {
    merge: "Make one", "Verbinden";
    merge_title:
        "Make one sticker of the two chosen pieces",
        "Aus den beiden gewählten Stücken einen Aufkleber machen";
    merge_overtaken:
        "The sheet was changed meanwhile, so the two pieces stay as they are. Try again.",
        "Der Bogen wurde inzwischen geändert, deshalb bleiben die beiden Stücke, wie sie sind. Versuch es noch einmal.";
}

pub fn merging(name: &str) -> String {
    say!("Making one picture of {name}.", "Mache ein Bild aus {name}.")
}

pub fn merged(name: &str) -> String {
    say!("{name} is one sticker now.", "{name} ist jetzt ein Aufkleber.")
}

pub fn step_merge(name: &str) -> String {
    say!("Make one: {name}", "Verbinden: {name}")
}

// Cut lines for the blade

words! {
    cut_line: "Cut line", "Schnittlinie";
    round_for_blade: "Round its corners for the blade", "Ecken für die Klinge runden";
    rounded_inward: "Smallest radius inward", "Kleinster Radius innen";
    rounded_outward: "Smallest radius outward", "Kleinster Radius außen";
    radius_range: "type a radius from 0 to 100 mm", "gib einen Radius von 0 bis 100 mm ein";
    step_round: "Round the cut line", "Schnittlinie runden";
    line_stays: "The line is that round already; nothing moves.", "Die Linie ist schon so rund; nichts bewegt sich.";
    thicken_here: "Thicken here", "Hier verbreitern";
    nothing_is_thin:
        "No part of this sticker is too thin any more. Nothing was changed.",
        "Kein Teil dieses Aufklebers ist mehr zu dünn. Nichts wurde geändert.";
    take_wide_back: "Take the widening back", "Verbreiterung zurücknehmen";
}

/// How far a line moved; lengths with their unit, the area in square millimetres.
pub fn line_moved(most: &str, area: f64, border: &str) -> String {
    let area = figure(area, 2);
    say!(
        "The line moves outward by {most} at most and takes in {area} mm² more. The border stays {border} or wider.",
        "Die Linie rückt höchstens {most} nach außen und umschließt {area} mm² mehr. Der weiße Rand bleibt {border} breit oder breiter."
    )
}

pub fn thin_here(width: &str, limit: &str) -> String {
    say!(
        "A part is only {width} wide; under {limit} it may tear.",
        "Ein Teil ist nur {width} breit; unter {limit} kann es reißen."
    )
}

pub fn wide_spots(count: usize) -> String {
    if count == 1 {
        pick("1 spot is made wider.", "1 Stelle ist verbreitert.").to_owned()
    } else {
        say!("{count} spots are made wider.", "{count} Stellen sind verbreitert.")
    }
}

pub fn thicken_of(name: &str) -> String {
    say!("Thicken here: {name}", "Hier verbreitern: {name}")
}

pub fn step_thicken(name: &str) -> String {
    say!("Thicken {name}", "{name} verbreitern")
}

/// How far the line moved at most, as a length; `more` is how many more rules are broken now.
pub fn thickened(name: &str, most: &str, more: usize) -> String {
    let said = say!(
        "{name} is wider there: the cut line moved outward by {most} at most.",
        "{name} ist dort breiter: Die Schnittlinie ist höchstens {most} nach außen gerückt."
    );
    format!("{said}{}", now_broken(more))
}
