//! A small correction of all colours, for a printer that prints them too dark or too cool.

/// The most that colours are made lighter or darker: beyond a quarter two of them could change places.
pub const MOST_LIGHTER: f64 = 0.2;

/// The most that colours are made warmer or cooler.
pub const MOST_WARMER: f64 = 0.2;

/// How colours are shifted in Oklab on their way to the paper. The art stays as it is.
///
/// A middle tone is shifted in full, lighter and darker ones less and less: white stays white, so that a border takes no
/// ink, and black stays black. Shifts beyond the most allowed are taken as that.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Correction {
    /// By how much a middle tone becomes lighter, of 1 for the way from black to white; below 0 darker.
    pub lighter: f64,
    /// By how much it becomes warmer, on the same scale; below 0 cooler.
    pub warmer: f64,
}

impl Correction {
    /// No correction.
    pub const NONE: Correction = Correction { lighter: 0.0, warmer: 0.0 };

    /// Whether it leaves every colour as it is.
    pub fn is_none(&self) -> bool {
        *self == Correction::NONE
    }
}
