//! The files: the only crate that knows a file format of ours.
//!
//! Start reading at [`layout_file`]. Text or bytes go in and come out; this crate opens no file. Everything read is
//! either a layout that makes sense or a [`ReadError`] that names the place in the file and what to do; nothing that
//! is read causes a panic.
//!
//! Conventions everywhere: JSON and SVG in UTF-8; lengths in millimetres, x to the right, y down, the sheet's top left
//! corner at (0, 0); angles in degrees, clockwise as seen. A number in another unit says so in its name.
//!
//! ```
//! let text = r#"{"format": "stickleaf-layout", "version": 1,
//!     "sheet": {"width_mm": 105, "height_mm": 148},
//!     "stickers": [{"id": "dot", "outline": "M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z"}]}"#;
//! let layout = stickleaf_files::read(text)?;
//! assert_eq!(layout.rules.spacing, 2.0);
//! assert_eq!(stickleaf_files::read(&stickleaf_files::write(&layout))?, layout);
//! # Ok::<(), stickleaf_files::ReadError>(())
//! ```

mod art_shape;
pub mod bundle;
mod carry;
pub mod comparison;
pub mod comparison_picture;
mod convert;
mod correction_shape;
mod header;
pub mod layout_file;
mod number;
pub mod packed;
pub mod page_picture;
mod piece_facts;
pub mod placement_file;
mod pretty;
mod read_error;
pub mod report;
#[cfg(not(target_arch = "wasm32"))]
pub mod schema;
mod shape;
mod svg_text;
pub mod table;

pub use comparison::Compared;
pub use layout_file::{read, read_bytes, write};
pub use packed::Packed;
pub use piece_facts::{PieceFacts, piece_facts};
pub use pretty::pretty;
pub use read_error::{ReadError, ValueError};
