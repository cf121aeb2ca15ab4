//! What undo calls a step, and why the hand could not do something.

use stickleaf_editor::{BlobError, Label, Names, Refusal, Work, Worked, ZoneWork};

use super::{Told, either};
use crate::words::language::pick;

/// What the hand calls what it makes.
pub fn new_names() -> Names {
    Names {
        zone: pick("zone", "Zone"),
        blob: pick("Blob", "Form"),
        background: pick("My zones", "Meine Zonen"),
    }
}

impl Told for Label {
    fn told(&self) -> String {
        either(self, || match self {
            Label::Given(words) => words.clone(),
            Label::Pack => "Packen".to_owned(),
            Label::DrawZone => "Zone zeichnen".to_owned(),
            Label::DrawBlob => "Form zeichnen".to_owned(),
            Label::Zone(work, name) => {
                let work = match work {
                    ZoneWork::Move => "schieben",
                    ZoneWork::Size => "in der Größe ändern",
                    ZoneWork::Remove => "wegnehmen",
                    ZoneWork::Duplicate => "verdoppeln",
                };
                format!("Zone {name} {work}")
            }
            Label::Pieces(work, pieces) => {
                let work = match work {
                    Work::Move => "schieben",
                    Work::Turn => "drehen",
                    Work::Lock => "sperren",
                    Work::Unlock => "entsperren",
                    Work::Remove => "wegnehmen",
                    Work::Duplicate => "verdoppeln",
                    Work::Place => "auflegen",
                    Work::Mend => "in Ordnung bringen",
                    Work::Align => "ausrichten",
                    Work::SpaceOut => "gleichmäßig verteilen",
                };
                match pieces {
                    Worked::One(name) => format!("{name} {work}"),
                    Worked::Several(count) => format!("{count} Stücke {work}"),
                }
            }
        })
    }
}

impl Told for Refusal {
    fn told(&self) -> String {
        match self {
            Refusal::Layout(error) => error.told(),
            Refusal::Blob(error) => error.told(),
        }
    }
}

impl Told for BlobError {
    fn told(&self) -> String {
        either(self, || {
            match self {
                BlobError::Open => {
                    "die Linie kehrt nicht zu ihrem Anfang zurück; fahr einmal rundherum und hör nahe am Anfang auf"
                }
                BlobError::TooSmall => {
                    "das ist zu klein für einen Aufkleber, unter 3 mm; zeichne es größer oder geh vorher näher heran"
                }
                BlobError::TooLarge => {
                    "das ist größer als ein Meter; zeichne es kleiner oder geh vorher näher heran"
                }
            }
            .to_owned()
        })
    }
}
