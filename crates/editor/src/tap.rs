//! Two taps that belong together.

use kurbo::Point;

use crate::gesture::{Deed, Scene, Target};
use crate::input::PointerKind;

/// How soon after a tap another one must follow to make a double tap, in milliseconds.
///
/// Common practice, no source.
const DOUBLE_TAP_MS: f64 = 350.0;

/// How far apart the two taps of a double tap may be, in pixels: a finger does not come down twice on the same spot.
///
/// Common practice, no source.
const DOUBLE_TAP_PX: f64 = 28.0;

/// A tap that another one may follow.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LastTap {
    pub kind: PointerKind,
    pub at: Point,
    pub time_ms: f64,
    pub on: Target,
}

impl LastTap {
    /// What this tap does as the second of two; nothing if it is none.
    pub fn twice(&self, first: &LastTap, extend: bool, scene: &Scene) -> Option<Deed> {
        let is_second = self.kind == first.kind
            && self.on == first.on
            && (0.0..=DOUBLE_TAP_MS).contains(&(self.time_ms - first.time_ms))
            && (self.at - first.at).hypot2() <= DOUBLE_TAP_PX * DOUBLE_TAP_PX;
        match self.on {
            _ if !is_second || scene.tool.is_drawing() => None,
            // Two taps that add pieces and leave them out are just that.
            Target::Piece(piece) if !extend => Some(Deed::LookAtPiece(piece)),
            Target::Ground | Target::Zone(_) => Some(Deed::Fit),
            _ => None,
        }
    }
}
