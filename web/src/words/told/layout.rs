//! Why a layout makes no sense, and why a text is no length.

use stickleaf_sheet::{LayoutError, LengthTextError, Named, Quantity};

use super::{Told, either};
use crate::words::with_decimal_sign;

impl Told for LayoutError {
    fn told(&self) -> String {
        let plain = |value: &f64| with_decimal_sign(&value.to_string());
        either(self, || {
            match self {
            LayoutError::NotPositive { what, value } => {
                format!("{} ist {}; es muss eine Zahl über 0 sein", quantity(what), plain(value))
            }
            LayoutError::Negative { what, value } => {
                format!("{} ist {}; es muss 0 oder mehr sein", quantity(what), plain(value))
            }
            LayoutError::NoShare { what, value } => {
                format!("{} ist {}; es muss zwischen 0 und 1 liegen", quantity(what), plain(value))
            }
            LayoutError::CornersTooRound { radius, half } => format!(
                "der Eckenradius von {} mm ist mehr als die halbe kürzere Seite des Bogens, {} mm; mach ihn kleiner",
                plain(radius),
                plain(half)
            ),
            LayoutError::NoUsablePart => {
                "Rand und Zonen lassen vom Bogen nichts übrig; mach den Rand oder die Zonen kleiner oder den Bogen größer"
                    .to_owned()
            }
            LayoutError::MissingSticker { index, sticker } => format!(
                "Stück {index} gehört zum Aufkleber „{sticker}“, der nicht in der Liste der Aufkleber steht; füg ihn hinzu \
                 oder entferne das Stück"
            ),
            LayoutError::MissingBackground { name } => {
                format!("der gewählte Hintergrund „{name}“ steht nicht in der Liste; wähle einen davon")
            }
            LayoutError::Twice { what: Named::Stickers, name } => {
                format!("es gibt zwei Aufkleber mit der Kennung „{name}“; gib jedem eine eigene")
            }
            LayoutError::Twice { what: Named::Backgrounds, name } => {
                format!("es gibt zwei Hintergründe mit dem Namen „{name}“; gib jedem einen eigenen")
            }
            LayoutError::PlaceNotFinite { index } => {
                format!("der Ort von Stück {index} ist keine endliche Zahl; gib Millimeter und Grad an")
            }
        }
        })
    }
}

fn quantity(what: &Quantity) -> String {
    let name = match what {
        Quantity::SheetWidth => "die Breite des Bogens",
        Quantity::SheetHeight => "die Höhe des Bogens",
        Quantity::Resolution => "die Auflösung",
        Quantity::CornerRadius => "der Eckenradius",
        Quantity::Spacing => "der Abstand",
        Quantity::Margin => "der Rand",
        Quantity::Border => "der weiße Rand",
        Quantity::PrintToCut => "der Versatz von Druck und Schnitt",
        Quantity::Thinnest => "das dünnste Teil",
        Quantity::Smallest => "die kleinste Größe",
        Quantity::InnerRadius => "der Innenradius",
        Quantity::LeastResolution => "die geringste Auflösung",
        Quantity::ClearanceOf(zone) => return format!("der Freiraum um die Zone „{zone}“"),
        Quantity::BorderOf(sticker) => return format!("der weiße Rand von „{sticker}“"),
        Quantity::OpacityOf(background) => return format!("die Deckkraft des Bildes von „{background}“"),
        Quantity::TurnOf(sticker) => return format!("die Drehung von „{sticker}“"),
    };
    name.to_owned()
}

impl Told for LengthTextError {
    fn told(&self) -> String {
        either(self, || match self {
            LengthTextError::Empty => "gib eine Länge ein, etwa 2 oder 1/8 in".to_owned(),
            LengthTextError::NotANumber(text) => {
                format!("„{text}“ ist keine Zahl; gib eine Länge ein wie 2, 2,5 mm oder 1/8 in")
            }
            LengthTextError::UnknownUnit(unit) => {
                format!("„{unit}“ ist keine Einheit; nimm mm, cm, in oder pt")
            }
            LengthTextError::Ambiguous(text) => {
                format!("„{text}“ lässt sich auf zwei Arten lesen; schreib nur ein Komma")
            }
            LengthTextError::DividesByZero(text) => format!("„{text}“ teilt durch null"),
        })
    }
}
