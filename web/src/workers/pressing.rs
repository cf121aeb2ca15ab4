//! Making what leaves: the composed sheet.

use crate::words::Told;
use js_sys::{ArrayBuffer, Uint8Array};
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::tone::Correction;
use stickleaf_press::{Pictures, Progress};
use stickleaf_sheet::Layout;

use super::scope::{News, say};
use crate::messages::{Made, PictureAnswer, PressOrder};

/// The ground of a sheet without a background picture: the label stock's own white.
const GROUND: [u8; 3] = [255; 3];

/// Makes what was ordered of a layout; gives its facts and its bytes, or a sentence that says why not.
pub fn make(
    layout: &str,
    pictures: &mut dyn Pictures,
    order: &PressOrder,
) -> Result<(Made, ArrayBuffer), String> {
    let layout = stickleaf_files::read(layout).map_err(|error| error.told())?;
    let mut news = News::default();
    let mut tell = |share: f64| {
        if news.is_due() {
            say(&PictureAnswer::Pressing(share));
        }
        true
    };
    let mut progress = Progress::new(&mut tell);
    match *order {
        PressOrder::Sheet { bleed_mm } => sheet(&layout, pictures, bleed_mm, &mut progress),
    }
}

fn sheet(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    bleed: f64,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let options = ComposeOptions {
        resolution_ppi: layout.sheet.resolution_ppi,
        bleed,
        ground: GROUND,
        correction: Correction::NONE,
    };
    let mut bytes = Vec::new();
    let frame =
        write_sheet(layout, pictures, &options, progress, &mut bytes).map_err(|error| error.told())?;
    Ok((Made { pixels: Some((frame.width_px, frame.height_px)) }, buffer(&bytes)))
}

/// A copy of the bytes that can be given away.
fn buffer(bytes: &[u8]) -> ArrayBuffer {
    Uint8Array::from(bytes).buffer()
}
