//! Why a text is no layout.

use stickleaf_outline::path::PathError;
use stickleaf_sheet::LayoutError;
use thiserror::Error;

/// Why a file could not be read: one case, one cause. Lines and columns count from 1, list entries from 0.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ReadError {
    /// Nothing in it but blanks.
    #[error("the file is empty; take an earlier copy, or make a layout from art with trace")]
    Empty,
    /// Bytes that are no text.
    #[error(
        "byte {at} is not UTF-8 text, so this is not a layout; open the .json file, and bring pictures in with trace"
    )]
    NotText {
        /// The first byte that is none, counted from 0.
        at: usize,
    },
    /// Not JSON, or cut off.
    #[error("line {line}, column {column}: this is not JSON: {what}; mend it there or take an earlier copy")]
    NotJson {
        /// The line.
        line: usize,
        /// The column.
        column: usize,
        /// What the reader found.
        what: String,
    },
    /// JSON, but of something else.
    #[error(
        "this is not a Stickleaf layout: \"format\" is {found}; it must be \"stickleaf-layout\" or \"stickleaf-placement\""
    )]
    NotOurs {
        /// What stands there, or `missing`.
        found: String,
    },
    /// From a version to come.
    #[error("this file has version {version}: it was written by a newer Stickleaf; open it with that one")]
    Newer {
        /// The version as it stands in the file.
        version: String,
    },
    /// A version that never was.
    #[error("\"version\" is {version}; it must be 1")]
    NoSuchVersion {
        /// The version as it stands in the file, or `missing`.
        version: String,
    },
    /// A value of the wrong kind, or a field that is missing.
    #[error("line {line}, column {column}, {place}: {what}; correct it there")]
    Misfit {
        /// The line.
        line: usize,
        /// The column.
        column: usize,
        /// Where in the document, for example `stickers[2].wanted`.
        place: String,
        /// What does not fit.
        what: String,
    },
    /// An outline that is none.
    #[error("{place}: {source}")]
    Outline {
        /// Where in the document, for example `stickers[2].outline`.
        place: String,
        /// Why.
        source: PathError,
    },
    /// A value that is of the right kind but cannot be.
    #[error("{place}: {source}")]
    Value {
        /// Where in the document.
        place: String,
        /// What is wrong and what would do.
        source: ValueError,
    },
    /// Every part can be read, but together they make no sense.
    #[error(transparent)]
    Layout(#[from] LayoutError),
}

/// A value that cannot be, and what would do in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum ValueError {
    /// A length or a place that no sheet has.
    #[error("this is more than 10 m; give lengths in millimetres")]
    TooLong,
    /// A sticker without an id.
    #[error("this is empty; give the sticker a short name")]
    EmptyId,
    /// Neither or both of the two ways to say how many are wanted.
    #[error("say either {{\"exactly\": n}} or {{\"at_least\": n}}")]
    Wanted,
    /// A radius that no corner has.
    #[error("give a radius from 0 to 100 mm")]
    Radius,
    /// A width that no spot can be given.
    #[error("give a width above 0 and up to 200 mm")]
    Width,
    /// Art with no pixels to the millimetre, or fewer.
    #[error("this must be above 0; leave it out for a drawing without pixels")]
    PixelsPerMm,
    /// A part of a picture that does not say how large its pixels are.
    #[error("a part of a picture needs this number")]
    PartWithoutSize,
    /// A shift of colours so large that two of them could change places.
    #[error("this is no small correction; give a number from -0.2 to 0.2")]
    Correction,
}
