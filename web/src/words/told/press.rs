//! Why something that leaves could not be made.

use stickleaf_press::PressError;

use super::{Told, either};
use crate::words::{figure, with_decimal_sign};

impl Told for PressError {
    fn told(&self) -> String {
        let plain = |value: &f64| with_decimal_sign(&value.to_string());
        either(self, || match self {
            // The only place where the page looks is this device.
            PressError::Missing { file, .. } => format!(
                "das Bild {file} ist nicht auf diesem Gerät; hol es herein, oder gib dem Aufkleber oder Hintergrund ein anderes"
            ),
            PressError::Damaged { file, reason } => format!(
                "das Bild {file} ist nicht zu lesen ({reason}); kopiere oder exportiere es noch einmal"
            ),
            PressError::OtherSize { sticker, file, width_mm, height_mm, short_mm } => format!(
                "das Bild {file} ist {} x {} mm groß und endet {} mm vor der Kontur von {sticker}; es scheint eine andere Größe \
                 zu haben als das, aus dem sie entstand: Hol es neu herein oder nimm wieder das erste",
                figure(*width_mm, 1),
                figure(*height_mm, 1),
                figure(*short_mm, 1)
            ),
            PressError::OtherShape { file, width, height, sheet_width, sheet_height } => format!(
                "das Hintergrundbild {file} ist {} x {} groß; das ist nicht die Form der Karte, {} x {} mm: Beschneide es auf \
                 diese Form",
                plain(width),
                plain(height),
                plain(sheet_width),
                plain(sheet_height)
            ),
            PressError::TooManyPixels { ppi, width_px, height_px } => format!(
                "mit {} Pixeln je Zoll hat der Bogen {width_px} x {height_px} Pixel, mehr als 400 Millionen; verringere die \
                 Auflösung",
                plain(ppi)
            ),
            PressError::SheetTooLarge { width, height, page_width, page_height, margin, .. } => format!(
                "die Karte von {} x {} mm passt nicht auf die Seite: {} x {} mm, und auf jeder Seite gehen {} mm ab; nimm eine \
                 größere Seite oder weniger Raum darum",
                plain(width),
                plain(height),
                plain(page_width),
                plain(page_height),
                plain(margin)
            ),
            PressError::Stopped => "es wurde angehalten".to_owned(),
            PressError::Unwritten(why) => format!("es ließ sich nicht schreiben ({why})"),
        })
    }
}
