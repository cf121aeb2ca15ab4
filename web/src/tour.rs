//! The first look round: four hints, one after the other, shown to those who are here for the first time.

use leptos::prelude::*;

use crate::browser::keep::{keep, kept};
use crate::state::{Desk, Place};

const SEEN: &str = "stickleaf.tour";

/// What a hint is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hint {
    /// Where stickers come from.
    Tray,
    /// How they find their places.
    Packing,
    /// How the hand goes on.
    Hand,
    /// Where it all leaves.
    Press,
}

impl Hint {
    /// All of them, in their order.
    pub const ALL: [Hint; 4] = [Hint::Tray, Hint::Packing, Hint::Hand, Hint::Press];

    /// Its place among them, from 1.
    pub fn number(self) -> usize {
        1 + Self::ALL.iter().position(|&hint| hint == self).unwrap_or_default()
    }

    /// For the style sheet, which marks the part of the page that it is about.
    pub fn part(self) -> &'static str {
        match self {
            Hint::Tray => "tray",
            Hint::Packing => "packing",
            Hint::Hand => "hand",
            Hint::Press => "press",
        }
    }
}

/// The hint that is shown, if one is. A handle, given to the parts of the page as context.
#[derive(Clone, Copy)]
pub struct Tour {
    hint: RwSignal<Option<Hint>>,
    /// Whether the artist asked for it; then it takes the focus.
    pub is_asked_for: RwSignal<bool>,
}

impl Tour {
    /// Begins by itself where it was not seen before.
    pub fn new() -> Tour {
        let first = kept(SEEN).is_none().then_some(Hint::Tray);
        Tour { hint: RwSignal::new(first), is_asked_for: RwSignal::new(false) }
    }

    /// The hint that is shown now; follows it.
    pub fn hint(self) -> Option<Hint> {
        self.hint.get()
    }

    /// Begins again, on the desk, which it is about.
    pub fn begin(self, desk: Desk) {
        desk.place.set(Place::Desk);
        self.is_asked_for.set(true);
        self.hint.set(Some(Hint::Tray));
    }

    /// The next hint; after the last one it is over.
    pub fn next(self) {
        let next = self.hint.get_untracked().and_then(|hint| Hint::ALL.get(hint.number()).copied());
        match next {
            Some(hint) => self.hint.set(Some(hint)),
            None => self.end(),
        }
    }

    /// Over and not shown again by itself. Without storage it comes again with the next visit.
    pub fn end(self) {
        keep(SEEN, "seen");
        self.hint.set(None);
        self.is_asked_for.set(false);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hints_are_counted_from_one() {
        assert_eq!(Hint::ALL.map(Hint::number), [1, 2, 3, 4]);
    }
}
