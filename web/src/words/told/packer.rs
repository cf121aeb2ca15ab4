//! What packing does, and why nothing can be packed.

use stickleaf_packer::{Doing, PackError};
use stickleaf_sheet::LengthUnit;

use super::{Told, either, finding};
use crate::words::language::pick;

impl Told for Doing {
    fn told(&self) -> String {
        let german = match self {
            Doing::Starting => "es geht los",
            Doing::Placing => "legt Stücke auf freie Stellen",
            Doing::Separating => "schiebt gedrängte Stücke auseinander",
            Doing::Adding => "sucht Platz für noch eins",
            Doing::Settling => "gleicht die Lücken an",
            Doing::Growing => "lässt alle Stücke wachsen",
            Doing::Spreading => "verteilt die Stücke",
            Doing::Lowering => "macht den Bogen niedriger",
        };
        pick(self.text(), german).to_owned()
    }
}

impl Told for PackError {
    fn told(&self) -> String {
        either(self, || {
            match self {
            PackError::NothingToPlace => {
                "es sind keine Exemplare gewünscht; sag, wie viele es von jedem Aufkleber geben soll, oder füll den Bogen mit \
                 Aufklebern, von denen mehr willkommen sind"
                    .to_owned()
            }
            PackError::LockedPiecesBreakRules { finding: broken, locked } => format!(
                "{}, und gesperrte Stücke bleiben, wo sie sind; entsperre oder verschiebe eins davon",
                finding(broken, locked, LengthUnit::Millimetres)
            ),
            PackError::Layout(error) => error.told(),
        }
        })
    }
}
