//! What `trace --update` prints.

use serde::Serialize;

use super::{DroppedReport, FindingReport, NoteReport};

/// The answer of `trace --update`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UpdateReport {
    /// The layout file that was written.
    pub layout: String,
    /// The pictures of the layout that were replaced, as it called them, one for each artwork.
    pub replaced: Vec<String>,
    /// What became of each of their stickers, and the drawings that belong to none; artwork by artwork.
    pub stickers: Vec<FateReport>,
    /// What was left out because it is too small: the first thousand of each picture at most.
    pub dropped: Vec<DroppedReport>,
    /// What the artist should know.
    pub notes: Vec<NoteReport>,
    /// Broken rules and warnings of the layout as it is now.
    pub findings: Vec<FindingReport>,
}

/// What became of a sticker when its picture was brought in again.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FateReport {
    /// Its id in the layout; null for a new drawing that was left out.
    pub id: Option<String>,
    /// What it is called.
    pub name: String,
    /// `updated`, `unchanged` (the outline; its drawing is taken anew), `new`, or `gone` (kept as it was, and flagged).
    pub fate: &'static str,
    /// `place` or `shape`: by what its drawing was found; null for new and gone ones.
    pub found_by: Option<&'static str>,
    /// Its copies on the sheet, all where they were.
    pub pieces: usize,
    /// The area within its outline as it was; null for new ones.
    pub area_before_mm2: Option<f64>,
    /// The area within its outline as it is now; null for gone ones.
    pub area_after_mm2: Option<f64>,
    /// The area that only one of the two holds; null for new and gone ones.
    pub area_moved_mm2: Option<f64>,
}
