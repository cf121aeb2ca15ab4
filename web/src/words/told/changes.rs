//! What variants are called, what one should know about them, and background styles.

use stickleaf_sheet::{Change, LengthUnit, Remark, Style};

use crate::words::language::{Language, pick, spoken};
use crate::words::{length, no_background, with_decimal_sign};

/// What a variant is called: `Frame`, `2 mm spacing`, `A6 lying`.
pub fn change(change: &Change, unit: LengthUnit) -> String {
    if spoken() == Language::English {
        return change.name(unit);
    }
    match change {
        Change::Background(None) => no_background().to_owned(),
        Change::Background(Some(name)) => name.clone(),
        Change::Spacing(mm) => format!("{} Abstand", length(unit, *mm)),
        Change::Border(mm) => format!("{} weißer Rand", length(unit, *mm)),
        Change::SheetSize { .. } => {
            let name = change.name(unit);
            match name.strip_suffix(" lying") {
                Some(size) => format!("{size} quer"),
                None if name.contains('×') => with_decimal_sign(&name),
                None => name,
            }
        }
    }
}

/// What one should know about a variant.
pub fn remark(remark: &Remark, unit: LengthUnit) -> String {
    if spoken() == Language::English {
        return remark.sentence(unit);
    }
    match remark {
        Remark::OwnBorders(1) => "1 Aufkleber behält seinen eigenen weißen Rand".to_owned(),
        Remark::OwnBorders(count) => format!("{count} Aufkleber behalten ihren eigenen weißen Rand"),
        Remark::BorderBelowError { error } => {
            format!(
                "der weiße Rand ist schmaler als der Versatz von Druck und Schnitt, {}",
                length(unit, *error)
            )
        }
        Remark::ZonesKept(name) => {
            format!("die Zonen von {name} bleiben, wie sie für eine andere Kartengröße gezeichnet wurden")
        }
    }
}

/// What a background style is called.
pub fn style(style: Style) -> &'static str {
    match style {
        Style::Plain => pick("Plain", "Schlicht"),
        Style::TitleBand => pick("Title band", "Titelband"),
        Style::TitleAndMotifs => pick("Title and motifs", "Titel und Motive"),
        Style::Frame => pick("Frame", "Rahmen"),
        Style::SceneWithWindows => pick("Scene with windows", "Szene mit Fenstern"),
    }
}

/// What a zone is called that a style made under this name; nothing for a name that no style gives.
pub fn style_zone(name: &str) -> Option<&'static str> {
    Some(match name {
        "title" => pick("title", "Titel"),
        "left motif" => pick("left motif", "linkes Motiv"),
        "right motif" => pick("right motif", "rechtes Motiv"),
        "top of the frame" => pick("top of the frame", "Rahmen oben"),
        "right of the frame" => pick("right of the frame", "Rahmen rechts"),
        "foot of the frame" => pick("foot of the frame", "Rahmen unten"),
        "left of the frame" => pick("left of the frame", "Rahmen links"),
        "sky" => pick("sky", "Himmel"),
        "ground" => pick("ground", "Boden"),
        "left side" => pick("left side", "linke Seite"),
        "right side" => pick("right side", "rechte Seite"),
        "ledge" => pick("ledge", "Sims"),
        "post" => pick("post", "Pfosten"),
        _ => return None,
    })
}
