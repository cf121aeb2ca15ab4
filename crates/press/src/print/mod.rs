//! The print: PDF pages of label stock with sheets of one or more designs on them at true size, each picture embedded once.
//!
//! The shop profile carries the cut lines as vectors on two layers of their own, which say what they are by ISO 19593-1
//! processing-steps metadata; the home profile leaves them out. Start reading at `document.rs`.

mod content;
mod design;
mod document;
mod icc;
mod layers;
mod page;
mod picture;
mod place;

pub use design::DesignToPrint;
pub use document::{PrintOptions, Printed, Profile, write};

pub(crate) use content::{matrix, path};
pub(crate) use document::packed_stream;
pub(crate) use icc::srgb as srgb_profile;
pub(crate) use place::{UNITS_PER_MM, to_units};
