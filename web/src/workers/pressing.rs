//! Making what leaves: guide, composed sheet, print, colour strip, bundle.

use std::collections::BTreeMap;

use js_sys::{ArrayBuffer, Uint8Array};
use stickleaf_files::bundle;
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::cut::{self, CutOptions};
use stickleaf_press::guide::{self, Parts};
use stickleaf_press::print::{self, PlacedSheet, PrintOptions, Profile};
use stickleaf_press::{Parted, PressError, Progress, ink_coverage, parted, strip, write_merged_art};
use stickleaf_sheet::{Layout, merged};
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::page::{Stock, plan};

use super::kept_pictures::KeptPictures;
use super::scope::{News, say};
use crate::messages::{GuideParts, Made, PictureAnswer, PressOrder};
use crate::words::Told;

/// The ground of a sheet without a background picture: the label stock's own white.
const GROUND: [u8; 3] = [255; 3];

/// Makes what was ordered of a layout; gives its facts and its bytes, or a sentence that says why not.
pub fn make(
    layout: &str,
    pictures: &mut KeptPictures,
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
        PressOrder::Guide(parts) => made_guide(&layout, parts, &mut progress),
        PressOrder::Sheet { bleed_mm } => sheet(&layout, pictures, bleed_mm, &mut progress),
        PressOrder::Print { is_home, stock } => page(&layout, pictures, is_home, &stock, &mut progress),
        PressOrder::Strip => colour_strip(&layout, pictures, &mut progress),
        PressOrder::Bundle { is_whole } => bundled(&layout, pictures, is_whole, &mut progress),
        PressOrder::Merged { pieces } => merged_art(&layout, pictures, pieces, &mut progress),
    }
}

/// How far a print's background runs past the card's edge, in millimetres (common practice, no source).
const BLEED: f64 = 2.0;

fn told(error: PressError) -> String {
    error.told()
}

fn made_guide(
    layout: &Layout,
    parts: GuideParts,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let GuideParts { cut_lines, outlines, numbers, zones, margin } = parts;
    let parts = Parts { cut_lines, outlines, numbers, zones, margin };
    let mut bytes = Vec::new();
    let ppi = layout.sheet.resolution_ppi;
    let frame = guide::write_pixels(layout, parts, ppi, progress, &mut bytes).map_err(told)?;
    Ok((Made { pixels: Some((frame.width_px, frame.height_px)), ..Made::default() }, buffer(&bytes)))
}

fn page(
    layout: &Layout,
    pictures: &mut KeptPictures,
    is_home: bool,
    stock: &Stock,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let plan = plan(stock, layout.sheet.width, layout.sheet.height).map_err(|error| error.told())?;
    let options = PrintOptions {
        profile: if is_home { Profile::Home } else { Profile::Shop },
        page_width: stock.width,
        page_height: stock.height,
        printer_margin: stock.printer_margin,
        sheets: PlacedSheet::all_of(&plan),
        bleed: BLEED,
        resolution_ppi: layout.sheet.resolution_ppi,
        ground: GROUND,
        correction: layout.correction.unwrap_or_default(),
    };
    let lines = cut::plan(layout, &CutOptions::default());
    let (bytes, printed) = print::write(layout, &lines, pictures, &options, progress).map_err(told)?;
    Ok((Made { sheets: Some(printed.sheets), ..Made::default() }, buffer(&bytes)))
}

fn merged_art(
    layout: &Layout,
    pictures: &mut KeptPictures,
    pieces: [usize; 2],
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let merged = merged(layout, pieces, "merged".into(), String::new()).map_err(|error| error.told())?;
    let mut bytes = Vec::new();
    let ppi = layout.sheet.resolution_ppi;
    let art = write_merged_art(&merged.parts, ppi, pictures, progress, &mut bytes).map_err(told)?;
    let made = Made {
        pixels: Some((art.width_px, art.height_px)),
        placed: Some((art.at.x, art.at.y, art.pixels_per_mm)),
        ..Made::default()
    };
    Ok((made, buffer(&bytes)))
}

fn colour_strip(
    layout: &Layout,
    pictures: &mut KeptPictures,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let strip = strip::of_layout(layout, pictures, progress).map_err(told)?;
    Ok((Made { colours: Some(strip.colours().collect()), ..Made::default() }, buffer(&strip.pdf())))
}

fn bundled(
    layout: &Layout,
    pictures: &KeptPictures,
    is_whole: bool,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let Parted { layout, parts, left } = if is_whole {
        Parted { layout: layout.clone(), parts: BTreeMap::new(), left: Vec::new() }
    } else {
        parted(layout, |file| pictures.bytes(file), progress).map_err(|stopped| told(stopped.into()))?
    };
    let part_or_picture = |file: &str| parts.get(file).cloned().or_else(|| pictures.bytes(file));
    let (bytes, missing) = bundle::write(&layout, part_or_picture).map_err(|error| error.told())?;
    Ok((Made { missing, left, ..Made::default() }, buffer(&bytes)))
}

/// How much ink covers the sheet of a layout; or a sentence that says why that cannot be measured.
pub fn ink(layout: &str, pictures: &mut KeptPictures) -> Result<Coverage, String> {
    let layout = stickleaf_files::read(layout).map_err(|error| error.told())?;
    let mut go_on = |_| true;
    ink_coverage(&layout, pictures, &mut Progress::new(&mut go_on)).map_err(told)
}

fn sheet(
    layout: &Layout,
    pictures: &mut KeptPictures,
    bleed: f64,
    progress: &mut Progress<'_>,
) -> Result<(Made, ArrayBuffer), String> {
    let options = ComposeOptions {
        resolution_ppi: layout.sheet.resolution_ppi,
        bleed,
        ground: GROUND,
        correction: layout.correction.unwrap_or_default(),
    };
    let mut bytes = Vec::new();
    let frame = write_sheet(layout, pictures, &options, progress, &mut bytes).map_err(told)?;
    Ok((Made { pixels: Some((frame.width_px, frame.height_px)), ..Made::default() }, buffer(&bytes)))
}

/// A copy of the bytes that can be given away.
fn buffer(bytes: &[u8]) -> ArrayBuffer {
    Uint8Array::from(bytes).buffer()
}
