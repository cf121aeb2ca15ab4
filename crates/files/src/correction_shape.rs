//! The correction of colours as it stands in a file, and the way from there to a correction and back.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use stickleaf_sheet::{Correction, MOST_LIGHTER, MOST_WARMER};

use crate::carry::{self, Fields};
use crate::number::Number;
use crate::read_error::{ReadError, ValueError};
use crate::shape::zero;

/// How all colours are shifted on their way to the paper: in Oklab, middle tones in full, white and black not at all.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(expecting = "an object such as {\"lighter\": 0.03, \"warmer\": 0}")]
#[schemars(rename = "Correction")]
pub(crate) struct CorrectionShape {
    /// By how much a middle tone becomes lighter, of 1 for the way from black to white; below 0 darker.
    #[serde(default = "zero")]
    #[schemars(range(min = -0.2, max = 0.2))]
    pub lighter: Number,
    /// By how much it becomes warmer, on the same scale; below 0 cooler.
    #[serde(default = "zero")]
    #[schemars(range(min = -0.2, max = 0.2))]
    pub warmer: Number,
    #[serde(flatten)]
    pub more: Fields,
}

/// The correction; what its file says beyond that goes along with the layout.
pub(crate) fn correction_of(shape: CorrectionShape, more: &mut Fields) -> Result<Correction, ReadError> {
    let shift = |number: Number, most: f64, place: &str| {
        let source = ValueError::Correction;
        let is_small = number.0.abs() <= most;
        is_small.then_some(number.0).ok_or_else(|| ReadError::Value { place: place.to_owned(), source })
    };
    let correction = Correction {
        lighter: shift(shape.lighter, MOST_LIGHTER, "correction.lighter")?,
        warmer: shift(shape.warmer, MOST_WARMER, "correction.warmer")?,
    };
    carry::tuck(more, "correction", shape.more);
    Ok(correction)
}

/// The shape in which a correction is written, with what its file said beyond that.
pub(crate) fn correction_shape(correction: Correction, more: Fields) -> CorrectionShape {
    CorrectionShape { lighter: Number(correction.lighter), warmer: Number(correction.warmer), more }
}
