//! Why something that the hand did on the canvas could not be done.

use stickleaf_sheet::LayoutError;
use thiserror::Error;

use crate::blob::BlobError;

/// The reason, as a sentence that says what to do.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Refusal {
    /// The layout would make no sense.
    #[error(transparent)]
    Layout(#[from] LayoutError),
    /// What was drawn is no blob.
    #[error(transparent)]
    Blob(#[from] BlobError),
}
