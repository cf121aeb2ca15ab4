//! Why two pieces are not made one sticker.

use stickleaf_sheet::{MOST_MERGED_GAP, MergeError};

use super::{Told, either};
use crate::words::figure;

impl Told for MergeError {
    fn told(&self) -> String {
        either(self, || {
            match self {
            MergeError::NotTwo => "wähle zwei Stücke, um einen Aufkleber daraus zu machen".to_owned(),
            MergeError::TooFar { gap } => format!(
                "die beiden Zeichnungen liegen {} mm auseinander; schieb sie auf {MOST_MERGED_GAP:.0} mm zusammen, um einen \
                 Aufkleber daraus zu machen",
                figure(*gap, 1)
            ),
            MergeError::NoOutline => {
                "um beide Zeichnungen führt keine einzelne Linie; schieb eine davon ein wenig und versuch es noch einmal".to_owned()
            }
        }
        })
    }
}
