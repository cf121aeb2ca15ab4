//! Making what leaves: guide, composed sheet, print, cut, colour strip, bundle.

use std::collections::BTreeMap;

use js_sys::{ArrayBuffer, Uint8Array};
use kurbo::Size;
use stickleaf_files::bundle;
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::cut::{self, CutOptions, Depths, DesignToCut, PageCut};
use stickleaf_press::guide::{self, Parts};
use stickleaf_press::print::{self, DesignToPrint, PrintOptions, Profile};
use stickleaf_press::{
    Parted, PressError, Progress, SheetOnPage, ink_coverage, parted, strip, write_merged_art,
};
use stickleaf_sheet::{Layout, merged};
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::page::{Stock, plan};

use super::kept_pictures::KeptPictures;
use super::scope::{News, say};
use crate::messages::{CutDepths, CutMade, GuideParts, Made, PictureAnswer, PressOrder};
use crate::words::Told;

/// The ground of a sheet without a background picture: the label stock's own white.
pub(super) const GROUND: [u8; 3] = [255; 3];

/// Makes what was ordered of a layout; gives its facts and its bytes, or a sentence that says why not.
pub fn make(
    layout: &str,
    pictures: &mut KeptPictures,
    order: &PressOrder,
) -> Result<(Made, ArrayBuffer), String> {
    let layout = stickleaf_files::read(layout).map_err(|error| error.told())?;
    with_progress(|progress| match *order {
        PressOrder::Guide(parts) => made_guide(&layout, parts, progress),
        PressOrder::Sheet { bleed_mm } => sheet(&layout, pictures, bleed_mm, progress),
        PressOrder::Print { is_home, stock } => page(&layout, pictures, is_home, &stock, progress),
        PressOrder::Strip => colour_strip(&layout, pictures, progress),
        PressOrder::Cut { page, depths, passes } => cut_lines(&layout, page.as_ref(), depths, passes),
        PressOrder::Bundle { is_whole } => bundled(&layout, pictures, is_whole, progress),
        PressOrder::Merged { pieces } => merged_art(&layout, pictures, pieces, progress),
    })
}

/// Makes something, and tells the page how far it is.
pub(super) fn with_progress<T>(make: impl FnOnce(&mut Progress<'_>) -> T) -> T {
    let mut news = News::default();
    let mut tell = |share: f64| {
        if news.is_due() {
            say(&PictureAnswer::Pressing(share));
        }
        true
    };
    make(&mut Progress::new(&mut tell))
}

/// How far a print's background runs past the card's edge, in millimetres (common practice, no source).
pub(super) const BLEED: f64 = 2.0;

pub(super) fn told(error: PressError) -> String {
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
        bleed: BLEED,
        ground: GROUND,
    };
    let lines = cut::plan(layout, &CutOptions::default());
    let design = DesignToPrint {
        layout,
        plan: &lines,
        pictures,
        resolution_ppi: layout.sheet.resolution_ppi,
        correction: layout.correction.unwrap_or_default(),
    };
    let pages = [SheetOnPage::all_of(&plan)];
    let (bytes, printed) = print::write(&mut [design], &pages, &options, progress).map_err(told)?;
    Ok((Made { sheets: Some(printed.sheets), ..Made::default() }, buffer(&bytes)))
}

/// The cut of a card, or of all sheets of a page.
fn cut_lines(
    layout: &Layout,
    page: Option<&Stock>,
    depths: CutDepths,
    passes: u32,
) -> Result<(Made, ArrayBuffer), String> {
    let depths = match depths {
        CutDepths::All => Depths::All,
        CutDepths::Kiss => Depths::Kiss,
        CutDepths::Through => Depths::Through,
    };
    let lines = cut::plan(layout, &CutOptions { passes, ..CutOptions::default() });
    let has_kiss = depths != Depths::Through;
    let Some(stock) = page else {
        let (nodes, travel_mm, least_travel_mm) = (lines.nodes(), lines.travel, lines.least_travel);
        let cut = has_kiss.then_some(CutMade { nodes, travel_mm, least_travel_mm });
        let made = Made { cut, ..Made::default() };
        return Ok((made, buffer(cut::write(layout, &lines, depths).as_bytes())));
    };
    let plan = plan(stock, layout.sheet.width, layout.sheet.height).map_err(|error| error.told())?;
    let design = DesignToCut { name: &layout.name, sheet: &layout.sheet, plan: &lines };
    let whole = cut::page_cut(&[design], &SheetOnPage::all_of(&plan));
    let cut = has_kiss.then(|| cut_made(&whole));
    let made = Made { sheets: Some(whole.sheets.len()), cut, ..Made::default() };
    let size = Size::new(stock.width, stock.height);
    Ok((made, buffer(cut::write_page(&layout.name, size, &whole, depths).as_bytes())))
}

/// What the cut of a page takes.
pub(super) fn cut_made(cut: &PageCut) -> CutMade {
    CutMade { nodes: cut.nodes(), travel_mm: cut.travel, least_travel_mm: cut.least_travel }
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
pub(super) fn buffer(bytes: &[u8]) -> ArrayBuffer {
    Uint8Array::from(bytes).buffer()
}
