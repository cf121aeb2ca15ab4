//! The guide: a see-through picture of the layout, of exactly the drawing's pixel size, to lay under or over a drawing.

pub(crate) mod digits;
mod drawn;
mod parts;
#[cfg(feature = "svg")]
mod pixels;

pub use drawn::write;
pub use parts::Parts;
#[cfg(feature = "svg")]
pub use pixels::write_pixels;
