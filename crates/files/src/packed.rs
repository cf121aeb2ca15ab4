//! How the pieces of a layout were placed: enough to do it again.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use stickleaf_sheet::Layout;

use crate::carry::Fields;

/// The name of the generator of chance that packing uses.
pub const GENERATOR: &str = "pcg32";

/// The field of a layout file that holds the note.
pub(crate) const FIELD: &str = "packed";

/// A note that packing leaves in the layout: the same layout, aim, seed and rounds give the same pieces again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"aim\": \"fill\", \"seed\": 1, \"rounds\": 100}")]
pub struct Packed {
    /// What packing aimed for: `place` or `fill`.
    pub aim: String,
    /// The generator of chance, [`GENERATOR`].
    pub generator: String,
    /// The seed that it was given.
    pub seed: u64,
    /// How many rounds were run.
    pub rounds: u64,
    /// The version of the program that packed.
    pub program_version: String,
    /// What this version does not know.
    #[serde(flatten)]
    pub more: Fields,
}

impl Packed {
    /// The note on a packing with this aim, seed and number of rounds.
    pub fn new(aim: impl Into<String>, seed: u64, rounds: u64, program_version: impl Into<String>) -> Packed {
        Packed {
            aim: aim.into(),
            generator: GENERATOR.to_owned(),
            seed,
            rounds,
            program_version: program_version.into(),
            more: Fields::new(),
        }
    }
}

/// The note on how the layout was packed; nothing if its pieces were placed by hand.
///
/// The note stays when pieces are moved by hand afterwards: it tells where the arrangement came from.
pub fn packed(layout: &Layout) -> Option<Packed> {
    let (_, text) = layout.carried.0.iter().find(|(name, _)| name == FIELD)?;
    serde_json::from_str(text).ok()
}

/// Leaves the note in the layout, in place of an earlier one.
pub fn note(layout: &mut Layout, packed: &Packed) {
    let fields = &mut layout.carried.0;
    fields.retain(|(name, _)| name != FIELD);
    // Text, whole numbers and JSON values always make JSON.
    if let Ok(text) = serde_json::to_string(packed) {
        fields.insert(0, (FIELD.to_owned(), text));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_note_counts_and_is_written_to_the_file() {
        let mut layout = Layout::default();
        assert_eq!(packed(&layout), None);
        note(&mut layout, &Packed::new("place", 1, 10, "0.1.0"));
        let last = Packed::new("fill", u64::MAX, 20, "0.1.0");
        note(&mut layout, &last);
        assert_eq!(packed(&layout), Some(last.clone()));
        let read = crate::read(&crate::write(&layout)).unwrap();
        assert_eq!(packed(&read), Some(last));
        assert_eq!(read, layout);
    }
}
