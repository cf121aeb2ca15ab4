//! Why artwork gives no drawings, and what one should know about it.

use stickleaf_art::{Emptiness, FileKind, ImportError, Note, PngError, SvgError};

use super::{Told, either};
use crate::words::{figure, with_decimal_sign};

impl Told for ImportError {
    fn told(&self) -> String {
        either(self, || match self {
            ImportError::Empty => "die Datei ist leer; exportiere sie noch einmal".to_owned(),
            ImportError::WrongKind { found } => format!(
                "das ist {}, weder PNG noch SVG; exportiere es als PNG mit durchsichtigem Hintergrund oder als SVG",
                kind(*found)
            ),
            ImportError::BadOption { value, .. } => {
                format!("mit der Angabe {value} geht es nicht; gib eine Zahl über 0 ein")
            }
            ImportError::Png(error) => error.told(),
            ImportError::Svg(error) => error.told(),
            ImportError::NothingToCut { hint } => {
                format!("in dieser Datei ist nichts zum Schneiden; {}", emptiness(*hint))
            }
            ImportError::AllTooSmall { count, least } => format!(
                "alle {count} Teile der Zeichnung sind kleiner als {} mm; prüfe die wahre Größe oder lass kleinere zu",
                with_decimal_sign(&least.to_string())
            ),
            ImportError::TooManyParts { count } => format!(
                "das Bild zerfällt in {count} getrennte Teile, wie Rauschen es tut; säubere es oder lass nur größere Teile zu"
            ),
            ImportError::Size(error) => error.told(),
            ImportError::Trace(error) => error.told(),
            ImportError::Stopped => "das Lesen wurde angehalten".to_owned(),
        })
    }
}

fn kind(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Jpeg => "ein JPEG-Bild",
        FileKind::Gif => "ein GIF-Bild",
        FileKind::WebP => "ein WebP-Bild",
        FileKind::Heif => "ein HEIC- oder AVIF-Bild",
        FileKind::Pdf => "ein PDF",
        FileKind::Compressed => "eine gepackte Datei (vielleicht ein gepacktes SVG)",
        FileKind::Zip => "ein ZIP-Archiv",
        FileKind::WideText => "Text, der nicht UTF-8 ist",
        FileKind::Unknown => "eine unbekannte Art von Datei",
    }
}

fn emptiness(hint: Emptiness) -> &'static str {
    match hint {
        Emptiness::AllClear => "alle Pixel des Bildes sind ganz oder fast durchsichtig",
        Emptiness::OnlyText => "sie enthält Text; wandle ihn in deinem Zeichenprogramm in Pfade um",
        Emptiness::OnlyPictures => {
            "sie enthält nur Bilder; exportiere sie als PNG mit durchsichtigem Hintergrund"
        }
        Emptiness::OffPage => "alle Formen liegen neben der Zeichenfläche; schieb sie darauf",
        Emptiness::NothingPainted => "sie hat keine sichtbare Form mit Füllung oder Linie",
    }
}

impl Told for PngError {
    fn told(&self) -> String {
        either(self, || match self {
            PngError::CutShort => {
                "das Bild hört mittendrin auf; kopiere oder exportiere es noch einmal".to_owned()
            }
            PngError::Damaged { reason } => {
                format!("das Bild ist beschädigt ({reason}); kopiere oder exportiere es noch einmal")
            }
            PngError::TooManyPixels { width_px, height_px } => format!(
                "das Bild hat {width_px} x {height_px} Pixel, mehr als 200 Millionen; exportiere es mit geringerer Auflösung"
            ),
            PngError::NoTransparency => {
                "dieses Bild hat nichts Durchsichtiges; sichere es als PNG mit durchsichtigem Hintergrund"
                    .to_owned()
            }
            PngError::Stopped => "das Lesen wurde angehalten".to_owned(),
        })
    }
}

impl Told for SvgError {
    fn told(&self) -> String {
        either(self, || {
            match self {
            SvgError::NotUtf8 => {
                "das SVG ist kein UTF-8-Text; sichere es noch einmal als einfaches SVG in UTF-8".to_owned()
            }
            SvgError::Malformed { row, column, reason } => {
                format!("das SVG ist bei {row}:{column} kein sauberes XML ({reason}); exportiere es noch einmal")
            }
            SvgError::NotSvg { found } => {
                format!("das ist XML, aber kein SVG: Es beginnt mit <{found}>; exportiere die Zeichnung als SVG")
            }
            SvgError::NoSize => "das SVG hat keine brauchbare Breite und Höhe; leg in deinem Zeichenprogramm die Größe der \
                                 Zeichenfläche fest"
                .to_owned(),
            SvgError::TooComplex => {
                "das SVG hat zu viele Elemente, Gruppen in Gruppen oder Punkte; vereinfache es in deinem Zeichenprogramm"
                    .to_owned()
            }
            SvgError::TooLarge => "im SVG liegen Formen mehr als 10 m von der Ecke entfernt; prüfe die Größe oder entferne, \
                                   was weit draußen liegt"
                .to_owned(),
        }
        })
    }
}

impl Told for Note {
    fn told(&self) -> String {
        let counted = |count: usize, one: &str, several: &str| {
            format!("{count} {}", if count == 1 { one } else { several })
        };
        either(self, || {
            match self {
            Note::SizeAssumed { per_inch, width, height } => format!(
                "in der Datei steht nicht, wie groß sie ist; mit {} Pixeln je Zoll sind es {} x {} mm, gib also die wahre \
                 Breite an, falls das nicht stimmt",
                with_decimal_sign(&per_inch.to_string()),
                figure(*width, 1),
                figure(*height, 1)
            ),
            Note::PixelsNotSquare => "laut Datei sind die Pixel nicht quadratisch; sie wurden nach ihrer Breite als Quadrate \
                                      genommen"
                .to_owned(),
            Note::FullyCovered => "kein Pixel des Bildes ist durchsichtig, darum ist die Kontur sein Rand; willst du das nicht, \
                                   blende die Hintergrundebene aus und exportiere noch einmal"
                .to_owned(),
            Note::TouchesEdge { name } => format!(
                "{name} berührt den Rand des Bildes und ist dort vielleicht abgeschnitten; lass ringsum etwas Platz"
            ),
            Note::GroupSplit { name, drawings } => format!(
                "die Teile von {name} liegen für einen gemeinsamen weißen Rand zu weit auseinander, darum wurden {drawings} \
                 Aufkleber daraus; rück sie zusammen oder verbreitere den Rand, damit sie zusammenbleiben"
            ),
            Note::Merged { name, shapes } => format!(
                "{shapes} Formen, die sich überlappen, wurden zu einem Aufkleber, {name}; rück sie auseinander, um jede für \
                 sich zu schneiden"
            ),
            Note::OffPage { count } => format!(
                "{} neben der Zeichenfläche weggelassen; schieb darauf, was du schneiden willst",
                counted(*count, "Teil wurde", "Teile wurden")
            ),
            Note::Text { count } => format!(
                "{} weggelassen; wandle Text in deinem Zeichenprogramm in Pfade um",
                counted(*count, "Text wurde", "Texte wurden")
            ),
            Note::Pictures { count } => format!(
                "{} in der Zeichnung weggelassen; exportiere sie als PNG mit durchsichtigem Hintergrund, um Konturen zu \
                 bekommen",
                counted(*count, "Bild wurde", "Bilder wurden")
            ),
            Note::Masks { count } => format!(
                "{} nicht beachtet; die Kontur läuft um alles darunter, schneide also die Formen selbst zurecht",
                counted(*count, "Maske wurde", "Masken wurden")
            ),
            Note::Effects { count } => format!(
                "{} wie Unschärfe oder Schatten nicht mitgezählt; die Kontur läuft nur um die Formen",
                counted(*count, "Effekt wurde", "Effekte wurden")
            ),
        }
        })
    }
}
