//! The empty room: what would still fit on the sheet.
//!
//! The page's end asks a worker of its own, so that neither packing nor the hand waits for it; [`look`] is what that
//! worker does. What was found is shown on the canvas and in the panel of findings, and [`put`] takes it up.

mod finder;
mod look;
mod put;

pub use finder::RoomFinder;
pub use look::look;
pub use put::{put_dot, put_fit, shown_diameter};
