//! How much ink a sheet takes, measured from its composed picture.

use stickleaf_sheet::Layout;
use stickleaf_shop::ink::{Coverage, InkMeter};

use crate::compose::{ComposeOptions, compose};
use crate::picture::Pictures;
use crate::progress::Progress;
use crate::trouble::PressError;

/// How finely the sheet is composed to be measured, in pixels to the inch: its areas are right to a few parts in a thousand.
const MEASURED_PPI: f64 = 100.0;

/// How much ink covers the composed sheet, its colours corrected as the layout says, bleed left out. What is printed on label stock without a background is the art
/// alone: the ground is the stock's own white.
pub fn coverage(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    progress: &mut Progress<'_>,
) -> Result<Coverage, PressError> {
    let options = ComposeOptions {
        resolution_ppi: MEASURED_PPI,
        bleed: 0.0,
        ground: [255; 3],
        correction: layout.correction.unwrap_or_default(),
    };
    let mut meter = InkMeter::default();
    let mut take = |rows: &[u8]| {
        meter.take(rows);
        Ok(())
    };
    compose(layout, pictures, &options, progress, &mut take)?;
    Ok(meter.coverage())
}
