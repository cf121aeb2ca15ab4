//! What the hand calls what it makes.

/// The names of new things; those of which there may be several get a number behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Names {
    /// A zone.
    pub zone: &'static str,
    /// A sticker drawn as a blob.
    pub blob: &'static str,
    /// The background that a zone is drawn on if none is chosen.
    pub background: &'static str,
}

impl Default for Names {
    fn default() -> Names {
        Names { zone: "zone", blob: "Blob", background: "My zones" }
    }
}
