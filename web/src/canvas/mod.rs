//! The sheet on its desk: drawn on two layers, moved by hand.
//!
//! The still layer shows what the hand does not hold: the card, its zones and its pieces. The moving layer lies on it
//! and shows what changes with every move: chosen pieces, handles, distances. Start reading at `element.rs`.
//!
//! Drawing reads; it never decides. Whether a rule is broken, the check has said already.

mod element;
mod flash;
mod glide;
mod input;
mod label_places;
mod labels;
mod layer;
mod measures;
mod miniature;
mod moving;
mod painter;
mod palette;
mod room;
mod rough;
mod shapes;
mod sheet_picture;
mod still;
mod zone;

pub use element::{SheetCanvas, focus_sheet};
pub use flash::Flash;
pub use miniature::Miniature;
pub use rough::draw_rough;
pub use sheet_picture::SheetPicture;
