//! Why something could not be made, and what to do about it.

use thiserror::Error;

use crate::progress::Stopped;

/// What ends the making of a sheet, guide, print or cut file.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PressError {
    /// A picture that the layout names is not there.
    #[error("the picture {file} {why}; put it there, or give the sticker or background another picture")]
    Missing {
        /// The file that the layout names.
        file: String,
        /// What the system or the bundle says.
        why: String,
    },
    /// A picture that cannot be read.
    #[error("the picture {file} cannot be read: {reason}; copy or export it again")]
    Damaged {
        /// The file that the layout names.
        file: String,
        /// What is wrong with it.
        reason: String,
    },
    /// A picture that does not reach round its sticker's drawing any more.
    #[error(
        "the picture {file} is {width_mm:.1} x {height_mm:.1} mm and ends {short_mm:.1} mm short of the outline of {sticker}; it \
         seems to be of another size than the one that was traced: trace it again, or bring back the first one"
    )]
    OtherSize {
        /// The sticker's name.
        sticker: String,
        /// The file that the layout names.
        file: String,
        /// How wide the picture is in its place.
        width_mm: f64,
        /// How high the picture is in its place.
        height_mm: f64,
        /// By how much it is too short.
        short_mm: f64,
    },
    /// A background picture of another shape than the card.
    #[error(
        "the background picture {file} is {width} x {height}, which is not the shape of the card, {sheet_width} x \
         {sheet_height} mm; crop it to that shape"
    )]
    OtherShape {
        /// The file that the layout names.
        file: String,
        /// The picture's width in its own units.
        width: f64,
        /// The picture's height in its own units.
        height: f64,
        /// The card's width.
        sheet_width: f64,
        /// The card's height.
        sheet_height: f64,
    },
    /// More pixels than can be held in a file of this kind.
    #[error(
        "at {ppi} pixels to the inch the sheet has {width_px} x {height_px} pixels, more than 400 million; lower the resolution"
    )]
    TooManyPixels {
        /// The resolution.
        ppi: f64,
        /// Pixels in a row.
        width_px: u32,
        /// Rows.
        height_px: u32,
    },
    /// The card does not fit on the page.
    #[error(
        "the card of {width} x {height} mm does not fit on the page: {page_width} x {page_height} mm less {margin} mm on each side \
         for {what}; take a larger page or less room round it"
    )]
    SheetTooLarge {
        /// The card's width.
        width: f64,
        /// The card's height.
        height: f64,
        /// The page's width.
        page_width: f64,
        /// The page's height.
        page_height: f64,
        /// How much is kept free on each side.
        margin: f64,
        /// What for.
        what: &'static str,
    },
    /// The caller asked to stop.
    #[error("it was stopped")]
    Stopped,
    /// What was made could not be written.
    #[error("it could not be written: {0}")]
    Unwritten(String),
}

impl From<Stopped> for PressError {
    fn from(_: Stopped) -> PressError {
        PressError::Stopped
    }
}
