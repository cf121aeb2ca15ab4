//! Why there is no outline.

use stickleaf_outline::path::PathError;
use stickleaf_outline::{LEAST_SIDE, MOST_SIDE, MaskError, OutlineError, PlainShapeError, TraceError};

use super::{Told, either};
use crate::words::{figure, with_decimal_sign};

impl Told for OutlineError {
    fn told(&self) -> String {
        either(self, || {
            match self {
            OutlineError::NoArea => {
                "die Kontur hat keine Fläche; sie braucht mindestens drei Punkte, die nicht auf einer Linie liegen".to_owned()
            }
            OutlineError::NotFinite { index } => {
                format!("Punkt {index} der Kontur ist keine endliche Zahl; gib jede Koordinate in Millimetern an")
            }
            OutlineError::TooFar { index } => format!(
                "Punkt {index} der Kontur ist mehr als 10 m vom Ursprung entfernt; prüfe, ob die Längen in Millimetern sind"
            ),
            OutlineError::Crosses { x, y } => format!(
                "die Kontur kreuzt oder berührt sich selbst bei ({}; {}) mm; zeichne sie als eine Schleife ohne Kreuzungen",
                figure(*x, 2),
                figure(*y, 2)
            ),
        }
        })
    }
}

impl Told for PathError {
    fn told(&self) -> String {
        either(self, || match self {
            PathError::Syntax(what) => format!(
                "das sind keine SVG-Pfaddaten ({what}); schreib Befehle wie M, L, C, A und Z mit einfachen Zahlen"
            ),
            PathError::NotFinite => {
                "im Pfad steht eine Zahl, die keine endliche Länge ist; gib jede Koordinate in Millimetern an"
                    .to_owned()
            }
            PathError::Empty => {
                "der Pfad umschließt keine Fläche; zeichne eine geschlossene Linie um den Aufkleber"
                    .to_owned()
            }
            PathError::Parts { parts } => format!(
                "der Pfad hat {parts} getrennte Teile; eine Kontur ist eine einzige geschlossene Linie, mach also aus jedem \
                 Teil einen eigenen Aufkleber"
            ),
            PathError::Outline(error) => error.told(),
        })
    }
}

impl Told for TraceError {
    fn told(&self) -> String {
        either(self, || {
            match self {
                TraceError::TooRagged => {
                    "der Umriss der Zeichnung hat mehr als eine Million Ecken, wie Rauschen sie hat; säubere das Bild oder \
                     erhöhe die Schwelle"
                }
                TraceError::NoArea => {
                    "die Zeichnung ist kleiner als ein paar Mikrometer; prüfe die wahre Größe des Bildes"
                }
            }
            .to_owned()
        })
    }
}

impl Told for MaskError {
    fn told(&self) -> String {
        either(self, || match self {
            MaskError::Empty => {
                "das Bild hat keine Pixel; Breite und Höhe müssen mindestens 1 sein".to_owned()
            }
            MaskError::WrongLength { width_px, height_px, bytes } => format!(
                "ein Bild von {width_px} x {height_px} Pixeln braucht für jedes ein Byte Deckung, es sind aber {bytes}"
            ),
            MaskError::BadPixel { pixel } => {
                format!("ein Pixel kann nicht {} mm breit sein; gib eine Größe über 0 an", plain(*pixel))
            }
            MaskError::TooLarge { pixel } => format!(
                "mit {} mm je Pixel ist das Bild mehr als 10 m groß; gib ihm eine kleinere wahre Größe",
                plain(*pixel)
            ),
        })
    }
}

impl Told for PlainShapeError {
    fn told(&self) -> String {
        either(self, || match self {
            PlainShapeError::Side { what, value } => {
                let what = if *what == "width" { "Breite" } else { "Höhe" };
                format!(
                    "die {what} ist {} mm; gib eine Länge von {LEAST_SIDE} bis {MOST_SIDE} mm an",
                    plain(*value)
                )
            }
            PlainShapeError::NotRound { width, height } => format!(
                "eine Scheibe ist so hoch wie breit; nimm für {} x {} mm ein Oval",
                plain(*width),
                plain(*height)
            ),
            PlainShapeError::TooNarrow { width, height } => format!(
                "{} x {} mm ist zu schmal für diese Form; mach die kürzere Seite länger",
                plain(*width),
                plain(*height)
            ),
        })
    }
}

/// A number with as many decimals as it has.
fn plain(value: f64) -> String {
    with_decimal_sign(&value.to_string())
}
