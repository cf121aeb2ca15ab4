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
    #[error("{place}: {what}")]
    Value {
        /// Where in the document.
        place: String,
        /// What is wrong and what would do.
        what: &'static str,
    },
    /// Every part can be read, but together they make no sense.
    #[error(transparent)]
    Layout(#[from] LayoutError),
}
