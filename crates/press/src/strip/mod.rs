//! The colour strip: the main colours of a sheet, each in a ladder of lighter and warmer patches, to print and compare.
//!
//! A patch is named by two digits, its column and its row. All patches of one name have had the same correction, which a
//! sheet or print then takes ([`correction`]); 33 is the sheet as it is.

mod drawn;
mod pdf;
#[cfg(feature = "svg")]
mod pixels;
mod svg;

pub use drawn::{Patch, Strip};

use stickleaf_sheet::{Correction, Layout};

use crate::compose::{ComposeOptions, compose};
use crate::picture::Pictures;
use crate::progress::Progress;
use crate::tone::ColourCounter;
use crate::trouble::PressError;

/// How many columns and rows of patches a colour has.
pub const STEPS: u32 = 5;

/// The patch in the middle, which is the sheet as it is.
pub const AS_IT_IS: u32 = 11 * STEPS.div_ceil(2);

/// By how much a column is lighter than the one before it. Our choice: one step is seen, and five reach far enough.
const LIGHTER_STEP: f64 = 0.03;

/// By how much a row is warmer than the one before it; likewise.
const WARMER_STEP: f64 = 0.015;

/// The most colours of a strip.
const MOST_COLOURS: usize = 6;

/// How finely the sheet is composed for its colours, in pixels to the inch.
const MEASURED_PPI: f64 = 100.0;

/// The strip of a layout: colours of art and background by how much of the sheet they cover. Without any it has no patches.
pub fn of_layout(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    progress: &mut Progress<'_>,
) -> Result<Strip, PressError> {
    let options = ComposeOptions {
        resolution_ppi: MEASURED_PPI,
        bleed: 0.0,
        ground: [255; 3],
        correction: Correction::NONE,
    };
    let mut counter = ColourCounter::default();
    let mut take = |rows: &[u8]| {
        counter.take(rows);
        Ok(())
    };
    compose(layout, pictures, &options, progress, &mut take)?;
    Ok(Strip::new(&counter.main_colours(MOST_COLOURS)))
}

/// The correction that patches of this name have had; nothing if there is no such name.
pub fn correction(patch: u32) -> Option<Correction> {
    let (column, row) = (patch / 10, patch % 10);
    let is_there = |place: u32| (1..=STEPS).contains(&place);
    let steps = |place: u32| f64::from(place) - f64::from(STEPS.div_ceil(2));
    (is_there(column) && is_there(row))
        .then(|| Correction { lighter: steps(column) * LIGHTER_STEP, warmer: steps(row) * WARMER_STEP })
}

/// The patch whose correction this is; nothing if no patch has had it.
pub fn patch_of(wanted: Correction) -> Option<u32> {
    let is_near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let is_it = |patch: &u32| {
        let found = correction(*patch);
        found.is_some_and(|one| is_near(one.lighter, wanted.lighter) && is_near(one.warmer, wanted.warmer))
    };
    (11..=11 * STEPS).find(is_it)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lighter_to_the_right_and_rows_warmer_below() {
        assert_eq!((AS_IT_IS, correction(AS_IT_IS)), (33, Some(Correction::NONE)));
        assert_eq!(correction(53), Some(Correction { lighter: 0.06, warmer: 0.0 }));
        assert_eq!(correction(31), Some(Correction { lighter: 0.0, warmer: -0.03 }));
        for none in [0, 3, 30, 36, 63, 133] {
            assert_eq!(correction(none), None, "{none}");
        }
        let patches = (11..=55).filter(|&patch| correction(patch).is_some());
        assert!(patches.into_iter().all(|patch| correction(patch).and_then(patch_of) == Some(patch)));
        assert_eq!(patch_of(Correction { lighter: 0.01, warmer: 0.0 }), None);
    }
}
