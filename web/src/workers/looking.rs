//! Looking for the drawings of a picture.

use crate::words::{self, Told};
use js_sys::{ArrayBuffer, Uint8Array};
use kurbo::Point;
use stickleaf_art::{Drawing, ImportOptions, Note, TrueSize, import_with};
use stickleaf_outline::Radii;
use stickleaf_sheet::{Art, Layout, MM_PER_INCH, Sticker, Turns, Wanted};

use super::scope::{News, say};
use crate::messages::{ImportWishes, Imported, PictureAnswer};

/// How many dropped specks are named; the rest is counted.
const SPECKS_NAMED: usize = 3;

/// Browsers count 96 pixels to the inch (CSS Values and Units).
const CSS_PPI: f64 = 96.0;

/// The stickers of one file; if there are none, the reason.
pub fn look_at(name: &str, buffer: &ArrayBuffer, wishes: &ImportWishes) -> Imported {
    let bytes = Uint8Array::new(buffer).to_vec();
    let size = match (wishes.width_mm, wishes.ppi) {
        (Some(width), _) => TrueSize::WidthMm(width),
        (None, Some(ppi)) => TrueSize::Ppi(ppi),
        (None, None) => TrueSize::FromFile,
    };
    let options = ImportOptions {
        file_name: name.to_owned(),
        size,
        min_size_mm: wishes.smallest_mm,
        border_mm: wishes.border_mm,
        join: wishes.join,
        ..ImportOptions::default()
    };
    let mut news = News::default();
    let mut tell = |part: f64| {
        if news.is_due() {
            say(&PictureAnswer::Importing { name: name.to_owned(), part });
        }
        true
    };
    let import = match import_with(&bytes, &options, &mut tell) {
        Ok(import) => import,
        Err(error) => {
            return Imported { name: name.to_owned(), trouble: Some(error.told()), ..Imported::default() };
        }
    };
    let drawn_mm = if import.pixels_per_mm.is_some() || size == TrueSize::FromFile {
        (import.width_mm, import.height_mm)
    } else {
        let as_drawn = import_with(&bytes, &ImportOptions { size: TrueSize::FromFile, ..options }, &mut tell);
        as_drawn.map_or((import.width_mm, import.height_mm), |import| (import.width_mm, import.height_mm))
    };
    // A drawing without pixels that was made larger or smaller: its pixels are those that browsers count.
    let is_resized = (drawn_mm.0 - import.width_mm).abs() > 1e-6 * import.width_mm;
    let resized = is_resized.then(|| CSS_PPI / MM_PER_INCH * drawn_mm.0 / import.width_mm);
    let pixels_per_mm = import.pixels_per_mm.or(resized);
    let radii = Radii { inner: wishes.inner_radius_mm, outer: wishes.outer_radius_mm };
    let stickers = import
        .drawings
        .iter()
        .enumerate()
        .map(|(i, drawing)| sticker(i, drawing, name, pixels_per_mm, radii));
    let layout = Layout { stickers: stickers.collect(), ..Layout::default() };
    let mut dropped: Vec<String> = import
        .dropped
        .iter()
        .take(SPECKS_NAMED)
        .map(|speck| words::speck(speck.size, speck.at.x, speck.at.y))
        .collect();
    let more = import.dropped_count.saturating_sub(dropped.len() as u64);
    if more > 0 {
        dropped.push(words::more_specks(more));
    }
    Imported {
        name: name.to_owned(),
        layout: stickleaf_files::write(&layout),
        width_mm: import.width_mm,
        height_mm: import.height_mm,
        drawn_mm,
        pixels: import.width_px.zip(import.height_px),
        is_size_known: !import.notes.iter().any(|note| matches!(note, Note::SizeAssumed { .. })),
        dropped,
        notes: import.notes.iter().map(Told::told).collect(),
        trouble: None,
    }
}

fn sticker(index: usize, drawing: &Drawing, file: &str, pixels_per_mm: Option<f64>, radii: Radii) -> Sticker {
    // Ids are made unique by the page, which knows the stickers that are there already.
    let mut sticker =
        Sticker::new(format!("drawing-{}", index + 1), drawing.name.clone(), drawing.outline.clone());
    sticker.wanted = Wanted::AtLeast(1);
    sticker.turns = Turns::Within(15.0);
    sticker.radii = radii;
    sticker.art = Some(Art::new(file, Point::new(-drawing.centre.x, -drawing.centre.y), pixels_per_mm));
    sticker
}
