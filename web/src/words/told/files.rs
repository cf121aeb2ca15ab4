//! Why a file is no layout. What a reader of JSON found stays in its own words.

use stickleaf_files::bundle::BundleError;
use stickleaf_files::{ReadError, ValueError};

use super::{Told, either};

impl Told for ReadError {
    fn told(&self) -> String {
        either(self, || match self {
            ReadError::Empty => "die Datei ist leer; nimm eine frühere Kopie".to_owned(),
            ReadError::NotText { at } => format!(
                "Byte {at} ist kein UTF-8-Text, also ist das kein Layout; öffne die .json-Datei und hol Bilder über „Bilder \
                 holen“ herein"
            ),
            ReadError::NotJson { line, column, what } => format!(
                "Zeile {line}, Spalte {column}: Das ist kein JSON ({what}); bring es dort in Ordnung oder nimm eine frühere \
                 Kopie"
            ),
            ReadError::NotOurs { found } => format!(
                "das ist kein Stickleaf-Layout: „format“ ist {found}; es muss „stickleaf-layout“ oder „stickleaf-placement“ \
                 sein"
            ),
            ReadError::Newer { version } => format!(
                "diese Datei hat Version {version}: Ein neueres Stickleaf hat sie geschrieben; öffne sie damit"
            ),
            ReadError::NoSuchVersion { version } => format!("„version“ ist {version}; sie muss 1 sein"),
            ReadError::Misfit { line, column, place, what } => {
                format!(
                    "Zeile {line}, Spalte {column}, {place}: Das passt nicht ({what}); bring es dort in Ordnung"
                )
            }
            ReadError::Outline { place, source } => format!("{place}: {}", source.told()),
            ReadError::Value { place, source } => format!("{place}: {}", source.told()),
            ReadError::Layout(error) => error.told(),
        })
    }
}

impl Told for ValueError {
    fn told(&self) -> String {
        either(self, || {
            match self {
                ValueError::TooLong => "das ist mehr als 10 m; gib Längen in Millimetern an",
                ValueError::EmptyId => "das ist leer; gib dem Aufkleber einen kurzen Namen",
                ValueError::Wanted => "sag entweder {\"exactly\": n} oder {\"at_least\": n}",
                ValueError::Radius => "gib einen Radius von 0 bis 100 mm an",
                ValueError::Width => "gib eine Breite über 0 und bis 200 mm an",
                ValueError::PixelsPerMm => "das muss über 0 sein; lass es bei einer Zeichnung ohne Pixel weg",
                ValueError::PartWithoutSize => "ein Teil eines Bildes braucht diese Zahl",
                ValueError::Correction => "das ist keine kleine Korrektur; gib eine Zahl von -0.2 bis 0.2 an",
            }
            .to_owned()
        })
    }
}

impl Told for BundleError {
    fn told(&self) -> String {
        either(self, || {
            match self {
            BundleError::NotABundle(why) => {
                format!("das ist kein Bündel, oder es ist beschädigt ({why}); nimm eine frühere Kopie oder speichere es neu")
            }
            BundleError::NoLayout => {
                "in dieser Zip-Datei ist keine layout.json, sie ist also kein Bündel; öffne eine .stickleaf-Datei".to_owned()
            }
            BundleError::Layout(error) => format!("seine layout.json: {}", error.told()),
            BundleError::TooLarge { .. } => {
                "das Bündel enthält mehr, als je gebraucht wird; es ist beschädigt oder soll schaden und wird nicht geöffnet".to_owned()
            }
        }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::language::{Language, speak};

    #[test]
    fn values_that_cannot_be_are_told_in_german_with_their_place() {
        let file = |sticker: &str| {
            format!(
                "{{\"format\":\"stickleaf-layout\",\"version\":1,\"sheet\":{{\"width_mm\":105,\"height_mm\":148}},\
                 \"stickers\":[{{\"outline\":\"M0 0H9V9H0Z\",{sticker}}}]}}"
            )
        };
        let told = |sticker: &str| stickleaf_files::read(&file(sticker)).unwrap_err().told();
        speak(Language::German);
        for (sticker, what) in [
            ("\"id\":\"\"", "stickers[0].id: das ist leer"),
            ("\"id\":\"a\",\"wanted\":{}", "stickers[0].wanted: sag entweder"),
            ("\"id\":\"a\",\"border_mm\":1e300", "stickers[0].border_mm: das ist mehr als 10 m"),
            (
                "\"id\":\"a\",\"art\":{\"file\":\"a\",\"pixels_per_mm\":0}",
                "pixels_per_mm: das muss über 0 sein",
            ),
            ("\"id\":\"a\",\"radii\":{\"inner_mm\":101}", "gib einen Radius von 0 bis 100 mm an"),
            (
                "\"id\":\"a\",\"wide_spots\":[{\"x_mm\":0,\"y_mm\":0,\"width_mm\":0}]",
                "gib eine Breite über 0",
            ),
        ] {
            let told = told(sticker);
            assert!(told.contains(what), "{sticker}: {told}");
        }
        speak(Language::English);
    }
}
