//! What an undo step is called.

use std::fmt;

/// What a step did: as its caller called it, or what the hand did to pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Label {
    /// In its caller's words.
    Given(String),
    /// Packing was taken over.
    Pack,
    /// A zone was drawn.
    DrawZone,
    /// A rough sticker was drawn.
    DrawBlob,
    /// Pieces were worked on.
    Pieces(Work, Worked),
    /// The zone of this name was worked on.
    Zone(ZoneWork, String),
}

/// What the hand does to a zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZoneWork {
    /// Puts it elsewhere.
    Move,
    /// Makes it larger or smaller.
    Size,
    /// Takes it off the background.
    Remove,
    /// Puts another one like it beside it.
    Duplicate,
}

/// What the hand does to pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Puts them elsewhere.
    Move,
    /// Turns them.
    Turn,
    /// Makes them stay.
    Lock,
    /// Lets them move again.
    Unlock,
    /// Takes them off the sheet.
    Remove,
    /// Puts one more of each on the sheet.
    Duplicate,
    /// Puts one on the sheet.
    Place,
    /// Mends a broken rule.
    Mend,
    /// Brings them in line.
    Align,
    /// Makes the gaps between them equal.
    SpaceOut,
}

/// The pieces that were worked on: one by its name, several by their number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Worked {
    /// The piece of this name.
    One(String),
    /// So many.
    Several(usize),
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Label::Given(words) => f.write_str(words),
            Label::Pack => f.write_str("Pack"),
            Label::DrawZone => f.write_str("Draw a zone"),
            Label::DrawBlob => f.write_str("Draw a blob"),
            Label::Pieces(Work::SpaceOut, pieces) => write!(f, "Space out {pieces}"),
            Label::Pieces(work, pieces) => write!(f, "{work:?} {pieces}"),
            Label::Zone(work, name) => write!(f, "{work:?} zone {name}"),
        }
    }
}

impl fmt::Display for Worked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Worked::One(name) => f.write_str(name),
            Worked::Several(count) => write!(f, "{count} pieces"),
        }
    }
}

impl From<&str> for Label {
    fn from(words: &str) -> Label {
        Label::Given(words.to_owned())
    }
}
