//! From the layout to print and cut, at true size: the composed sheet, the guide to draw on, the print, the cut lines.
//!
//! Bytes go in and bytes come out; no file is opened here. Pictures are given by whoever calls ([`Pictures`]).
//!
//! Conventions everywhere: millimetres, x to the right, y down, the sheet's top left corner at (0, 0). A number in
//! another unit says so in its name.

mod art;
mod colour;
pub mod compose;
mod coverage;
pub mod cut;
mod frame;
pub mod guide;
mod ink;
mod merged_art;
mod parts;
mod picture;
mod png_out;
pub mod print;
mod progress;
mod resample;
mod resolution;
mod sheet_on_page;
pub mod strip;
#[cfg(feature = "svg")]
mod svg;
pub mod tone;
mod trouble;
mod unit_cost;

pub use frame::Frame;
pub use ink::coverage as ink_coverage;
pub use merged_art::{MergedArt, write_merged_art};
pub use parts::{Parted, parted};
pub use picture::{Drawing, NoPicture, Picture, Pictures, Pixels, read_png};
pub use png_out::RowTaker;
pub use progress::{Progress, Stopped};
pub use resolution::{PrintedPicture, Subject, printed_pictures};
pub use sheet_on_page::SheetOnPage;
#[cfg(feature = "svg")]
pub use svg::SvgDrawing;
pub use trouble::PressError;
pub use unit_cost::unit_cost;
