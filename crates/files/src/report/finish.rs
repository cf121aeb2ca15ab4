//! What `finish` and `merge` print.

use serde::Serialize;

use super::{FindingReport, Spot};

/// The answer of `finish`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FinishReport {
    /// The layout file that was written.
    pub layout: String,
    /// The stickers that were asked for, in the order of the layout.
    pub stickers: Vec<FinishedReport>,
    /// Broken rules and warnings of the layout as it is now.
    pub findings: Vec<FindingReport>,
}

/// The answer of `merge`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MergeReport {
    /// The layout file that was written.
    pub layout: String,
    /// The id of the new sticker.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The picture that was made of both, as the layout names it; null if none had to be made.
    pub picture: Option<String>,
    /// How wide it is without its border.
    pub width_mm: f64,
    /// How high it is without its border.
    pub height_mm: f64,
    /// Broken rules and warnings of the layout as it is now.
    pub findings: Vec<FindingReport>,
}

/// How a sticker's cut line is finished.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FinishedReport {
    /// Its id in the layout.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The smallest radius of corners that point inward; 0 where they may be sharp.
    pub inner_radius_mm: f64,
    /// The smallest radius of corners that point outward; 0 where they may be sharp.
    pub outer_radius_mm: f64,
    /// At how many spots the line is made wider.
    pub wide_spots: usize,
    /// The furthest that the line has moved outward from where the border alone would have it; it never moves inward.
    pub moved_mm: f64,
    /// Where that is, in the sticker's own millimetres; null if it has not moved.
    pub moved_at: Option<Spot>,
    /// The area that the line has gained.
    pub gained_mm2: f64,
    /// The width of the border, below which it is nowhere.
    pub least_border_mm: f64,
}
