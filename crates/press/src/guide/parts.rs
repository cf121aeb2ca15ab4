//! What a guide can show.

/// What a guide shows; each part can be left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Parts {
    /// The kiss lines, and the card's edge.
    pub cut_lines: bool,
    /// The outlines of the drawings, within the white border.
    pub outlines: bool,
    /// A number on each piece: its place in the list of stickers.
    pub numbers: bool,
    /// The zones that stickers keep out of.
    pub zones: bool,
    /// The margin along the card's edge.
    pub margin: bool,
}

impl Parts {
    /// All of them.
    pub const ALL: Parts =
        Parts { cut_lines: true, outlines: true, numbers: true, zones: true, margin: true };
    /// None of them.
    pub const NONE: Parts =
        Parts { cut_lines: false, outlines: false, numbers: false, zones: false, margin: false };
}

impl Default for Parts {
    fn default() -> Parts {
        Parts::ALL
    }
}
