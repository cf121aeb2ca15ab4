//! Why a page cannot be planned, a run not be worked out, or settings be no scale.

use stickleaf_shop::cutting::FitError;
use stickleaf_shop::page::PageError;
use stickleaf_shop::settings::SettingsError;
use stickleaf_shop::shop_file::ShopFileError;
use stickleaf_shop::trial::{MOST_SETTINGS, ScaleError};

use super::{Told, either};
use crate::words::with_decimal_sign;

impl Told for PageError {
    fn told(&self) -> String {
        let plain = |value: &f64| with_decimal_sign(&value.to_string());
        either(self, || match self {
            PageError::Length { mm, .. } => {
                format!("{} mm geht hier nicht; gib mehr als 0 und höchstens 10000 mm an", plain(mm))
            }
            PageError::NoRoom { margin, width, height } => format!(
                "ein Druckerrand von {} mm ringsum lässt von einer Seite von {} x {} mm nichts übrig; gib einen kleineren an",
                plain(margin),
                plain(width),
                plain(height)
            ),
            PageError::Reach { reach_width, reach_height, width, height } => format!(
                "eine Reichweite von {} x {} mm ist größer als die Seite von {} x {} mm; gib an, was der Plotter davon schneiden \
                 kann",
                plain(reach_width),
                plain(reach_height),
                plain(width),
                plain(height)
            ),
            PageError::TooMany { count, most } => {
                format!(
                    "{count} Bögen eines Entwurfs sind zu viele für einen Plan; gib höchstens {most} auf einmal an"
                )
            }
            PageError::SheetTooLarge { sheet_width, sheet_height, width, height } => format!(
                "der Bogen von {} x {} mm passt weder hochkant noch quer in die {} x {} mm der Seite, die gedruckt und \
                 geschnitten werden können; nimm eine größere Seite, kleinere Ränder oder einen kleineren Bogen",
                plain(sheet_width),
                plain(sheet_height),
                plain(width),
                plain(height)
            ),
        })
    }
}

impl Told for SettingsError {
    fn told(&self) -> String {
        let value = with_decimal_sign(&self.value.to_string());
        either(&self.asked, || format!("{value} ergibt hier keinen Sinn"))
    }
}

impl Told for ShopFileError {
    fn told(&self) -> String {
        match self {
            ShopFileError::Settings(error) => error.told(),
            ShopFileError::Page(error) => error.told(),
            _ => either(self, || match self {
                ShopFileError::NotJson { line, column } => format!(
                    "Zeile {line}, Spalte {column}: Das ist kein JSON; bring es dort in Ordnung oder nimm eine frühere Kopie"
                ),
                ShopFileError::Field(what) => {
                    format!("ein Feld passt nicht ({what}); bring es in Ordnung oder lass es weg")
                }
                _ => "in dieser Datei sind keine Zahlen eines Ladens; öffne eine, die hier gesichert wurde"
                    .to_owned(),
            }),
        }
    }
}

impl Told for ScaleError {
    fn told(&self) -> String {
        let plain = |value: &f64| with_decimal_sign(&value.to_string());
        either(self, || match self {
            ScaleError::Count(count) => {
                format!("{count} Einstellungen sind keine Skala; gib 1 bis {MOST_SETTINGS} an")
            }
            ScaleError::Order { from, to } => {
                format!(
                    "die Einstellungen von {} bis {} steigen nicht; gib die leichteste zuerst an",
                    plain(from),
                    plain(to)
                )
            }
            ScaleError::Step(step) => {
                format!(
                    "ein Schritt von {} führt von keiner Einstellung zur nächsten; gib mehr als 0 an",
                    plain(step)
                )
            }
            ScaleError::Twice(name) => {
                format!("die Einstellung {name} kommt zweimal vor; gib weniger Schritte oder andere Namen an")
            }
        })
    }
}

impl Told for FitError {
    fn told(&self) -> String {
        either(self, || {
            match self {
                FitError::Nothing => {
                    "ein Schnitt ohne Linien oder ohne Zeit sagt nichts; gib an, was geschnitten wurde und wie lange das gedauert \
                     hat"
                }
                FitError::Alike => {
                    "beide Schnitte sind sich zu ähnlich: je Linie ist etwa gleich viel zu schneiden; stoppe einen mit wenigen \
                     langen Linien und einen mit vielen kurzen"
                }
                FitError::Contradicting => {
                    "kein Tempo passt zu beiden Zeiten: Eine ist zu kurz oder zu lang für das, was geschnitten wurde; sieh nach, ob \
                     beide vom selben Gerät mit derselben Einstellung sind und ohne Einlegen"
                }
            }
            .to_owned()
        })
    }
}
