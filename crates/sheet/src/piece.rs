//! One copy of a sticker, lying on the sheet.

use stickleaf_outline::Placement;

use crate::carried::Carried;
use crate::sticker::StickerId;

/// Where one copy of a sticker lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Which sticker this is a copy of.
    pub sticker: StickerId,
    /// Where it lies and how it is turned.
    pub placement: Placement,
    /// A locked piece stays where it is, whatever is packed round it.
    pub locked: bool,
    /// What its file says beyond that.
    pub carried: Carried,
}

impl Piece {
    /// A free piece at this place.
    pub fn new(sticker: StickerId, placement: Placement) -> Piece {
        Piece { sticker, placement, locked: false, carried: Carried::default() }
    }
}
