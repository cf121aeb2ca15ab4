//! Findings as sentences, and the names of pieces in them.

use stickleaf_sheet::{Finding, Layout, LengthUnit, Rule};

use crate::words::language::{Language, spoken};
use crate::words::{figure, length, with_decimal_sign};

/// A piece by its sticker's name, and its number if there are several of it.
pub fn piece_name(layout: &Layout, piece: usize) -> String {
    let name = layout.piece_name(piece);
    match spoken() {
        Language::English => name,
        // Only a name that ends with a figure is parted from the number so.
        Language::German => name.replace(" no. ", " Nr. "),
    }
}

/// The finding as a sentence without its full stop, lengths in the unit asked for.
pub fn finding(finding: &Finding, layout: &Layout, unit: LengthUnit) -> String {
    if spoken() == Language::English {
        return finding.sentence(layout, unit);
    }
    let piece = |i: usize| finding.pieces.get(i).map_or_else(String::new, |&index| piece_name(layout, index));
    let zone = finding.zone.as_deref().unwrap_or_default();
    let sticker = finding.sticker.as_deref().unwrap_or_default();
    let sticker = layout.sticker(sticker).map_or(sticker, |sticker| &sticker.name);
    let (measured, limit) = finding.lengths(unit);
    let (measured, limit) = (with_decimal_sign(&measured), with_decimal_sign(&limit));
    match finding.rule {
        Rule::Overlap => {
            format!("{} und {} überlappen sich um {} mm²", piece(0), piece(1), figure(finding.measured, 2))
        }
        Rule::Spacing => {
            format!("{} ist {measured} von {} entfernt; gefordert sind {limit}", piece(0), piece(1))
        }
        Rule::Margin if finding.measured < 0.0 => {
            format!("{} ragt {} über die Kante des Bogens", piece(0), length(unit, -finding.measured))
        }
        Rule::Margin => {
            format!("{} ist {measured} von der Kante des Bogens entfernt; gefordert sind {limit}", piece(0))
        }
        Rule::Zone => format!("{} bedeckt {} mm² von {zone}", piece(0), figure(finding.measured, 2)),
        Rule::Clearance => format!("{} ist {measured} von {zone} entfernt; gefordert sind {limit}", piece(0)),
        Rule::Turn => format!(
            "{} ist {}° weiter gedreht, als der Aufkleber erlaubt; die nächste erlaubte Drehung ist {}°",
            piece(0),
            figure(finding.measured, 1),
            figure(finding.limit, 1)
        ),
        Rule::Border => format!(
            "der weiße Rand von {sticker} ist {measured} breit; der Schnitt kann um {limit} neben dem Druck liegen und so die \
             Zeichnung treffen"
        ),
        Rule::ThinPart => {
            format!("{sticker} hat ein Teil, das nur {measured} breit ist; unter {limit} kann es reißen")
        }
        Rule::InnerCorner => format!(
            "{sticker} hat eine Innenecke mit Radius {measured}; unter {limit} kann die Klinge sie einreißen"
        ),
        Rule::Size => format!("{sticker} ist {measured} groß; unter {limit} ist er schwer zu fassen"),
        Rule::Resolution => format!(
            "{sticker} hat in dieser Größe {} Pixel je Zoll; unter {} wird der Druck unscharf",
            figure(finding.measured, 0),
            figure(finding.limit, 0)
        ),
        Rule::SmallPart => format!(
            "{sticker} ist ein Kleinteil: {measured} breit, passt also in einen Zylinder von {limit}; nicht für Kinder unter \
             drei Jahren"
        ),
        Rule::Gone => format!(
            "die Zeichnung von {sticker} ist nicht mehr in ihrem Bild; entferne den Aufkleber, gib ihm eine andere Zeichnung oder \
             behalte ihn"
        ),
    }
}
