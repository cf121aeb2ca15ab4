//! The answer of `compare`.

use serde::Serialize;

use crate::comparison::{Compared, differences};

/// The answer of `compare`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CompareReport {
    /// What packing aimed for.
    pub aim: String,
    /// The seed that every search was given.
    pub seed: u64,
    /// How long each variant was searched at most; null if by rounds alone.
    pub seconds_each: Option<f64>,
    /// How many rounds each variant was searched at most; null if by the clock.
    pub rounds_each: Option<u64>,
    /// In what costs are told; null if none were asked for.
    pub currency: Option<String>,
    /// The variants, in their order.
    pub variants: Vec<VariantReport>,
}

/// One variant.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct VariantReport {
    /// What it is called.
    pub name: String,
    /// Copies on the sheet; null where it was not packed, as are the others.
    pub placed: Option<usize>,
    /// How many more than on the first variant; negative for fewer.
    pub difference: Option<i64>,
    /// Wanted copies without a place.
    pub missing: Option<usize>,
    /// No layout under these rules holds more; proven.
    pub ceiling: Option<usize>,
    /// Area inside the cut lines over the usable area.
    pub density: Option<f64>,
    /// The smallest gap of any two cut lines; null with fewer than two pieces.
    pub smallest_gap_mm: Option<f64>,
    /// How large the largest round cut line is across that would still fit; null if not even a dot would.
    pub largest_dot_mm: Option<f64>,
    /// What a sheet costs, ink aside, in cents and parts of them; null where that is not known.
    pub sheet_cents: Option<f64>,
    /// What a sticker of it costs, likewise.
    pub sticker_cents: Option<f64>,
    /// Why it was not packed.
    pub not_packed: Option<String>,
    /// What one should know about it.
    pub remarks: Vec<String>,
}

impl VariantReport {
    /// The reports on these variants, in their order.
    pub fn list(variants: &[Compared]) -> Vec<VariantReport> {
        let report = |(variant, difference): (&Compared, Option<i64>)| {
            let summary = variant.result.as_ref().ok();
            VariantReport {
                name: variant.name.clone(),
                placed: summary.map(|summary| summary.placed),
                difference,
                missing: summary.map(|summary| summary.missing),
                ceiling: summary.map(|summary| summary.ceiling),
                density: summary.map(|summary| summary.density),
                smallest_gap_mm: summary.and_then(|summary| summary.smallest_gap),
                largest_dot_mm: summary.and_then(|summary| summary.largest_dot),
                sheet_cents: variant.cost.map(|cost| cost.sheet_cents),
                sticker_cents: variant.cost.map(|cost| cost.sticker_cents),
                not_packed: variant.result.as_ref().err().cloned(),
                remarks: variant.remarks.clone(),
            }
        };
        variants.iter().zip(differences(variants)).map(report).collect()
    }
}
