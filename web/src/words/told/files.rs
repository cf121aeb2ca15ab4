//! Why a file is no layout. What a reader of JSON found stays in its own words.

use stickleaf_files::ReadError;
use stickleaf_files::bundle::BundleError;

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
            ReadError::Value { place, what } => format!("{place}: Das passt nicht ({what})"),
            ReadError::Layout(error) => error.told(),
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
