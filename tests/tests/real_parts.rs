//! Drawings by real artists on one picture, cut into parts for a bundle: `tests/art/README.md` says whose they are.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::Point;
use stickleaf_art::{ImportOptions, TrueSize, import};
use stickleaf_files::bundle;
use stickleaf_outline::{Placement, Turn};
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::{NoPicture, Picture, Pictures, Progress, parted, read_png};
use stickleaf_sheet::{Art, Correction, Layout, MatchedBy, Piece, Sheet, Sticker, reimport};
use tests::art::{Picture as Raster, openmoji, rendered};

/// Drawings in a row, and rows.
const GRID: (u32, u32) = (6, 7);

/// Pixels from one drawing to the next, and of a drawing.
const STEP_PX: u32 = 270;
const DRAWN_PX: u32 = 240;

const PPI: f64 = 300.0;

/// A picture with drawings side by side, clear between them.
fn sheet_of_drawings() -> Raster {
    let (width_px, height_px) = (GRID.0 * STEP_PX, GRID.1 * STEP_PX);
    let mut rgba = vec![0; (width_px * height_px * 4) as usize];
    for (number, drawing) in openmoji((GRID.0 * GRID.1) as usize).iter().enumerate() {
        let picture = rendered(drawing, DRAWN_PX);
        let (column, row) = (number as u32 % GRID.0, number as u32 / GRID.0);
        let rows = picture.rgba.chunks_exact(picture.width_px as usize * 4);
        for (y, line) in rows.enumerate() {
            let start = ((row * STEP_PX + 15 + y as u32) * width_px + column * STEP_PX + 15) as usize * 4;
            rgba[start..start + line.len()].copy_from_slice(line);
        }
    }
    Raster { width_px, height_px, rgba }
}

/// The stickers of the picture, one piece of each as it lies in it, every second one turned.
fn layout(bytes: &[u8]) -> Layout {
    let options = ImportOptions { size: TrueSize::Ppi(PPI), border_mm: 1.0, ..ImportOptions::default() };
    let found = import(bytes, &options).expect("drawings");
    let mut layout = Layout::default();
    layout.rules.border = 1.0;
    layout.sheet = Sheet { width: found.width_mm, height: found.height_mm, ..layout.sheet };
    for (number, drawing) in found.drawings.iter().enumerate() {
        let mut sticker = Sticker::new(format!("d{number}"), &*drawing.name, drawing.outline.clone());
        let at = Point::new(-drawing.centre.x, -drawing.centre.y);
        sticker.art = Some(Art::new("moji.png", at, found.pixels_per_mm));
        let turn = Turn::degrees(if number % 2 == 0 { 0.0 } else { 13.0 * number as f64 });
        let placement = Placement { turn, ..Placement::at(drawing.centre.x, drawing.centre.y) };
        layout.pieces.push(Piece::new(sticker.id.clone(), placement));
        layout.stickers.push(sticker);
    }
    layout
}

struct Files<'a>(&'a BTreeMap<String, Vec<u8>>);

impl Pictures for Files<'_> {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        let bytes = self.0.get(file).ok_or_else(|| NoPicture::Missing("is not there".to_owned()))?;
        read_png(bytes).map(|pixels| Picture::Pixels(Arc::new(pixels))).map_err(NoPicture::Damaged)
    }
}

fn composed(layout: &Layout, files: &BTreeMap<String, Vec<u8>>, resolution_ppi: f64) -> Vec<u8> {
    let options =
        ComposeOptions { resolution_ppi, bleed: 2.0, ground: [255; 3], correction: Correction::NONE };
    let mut bytes = Vec::new();
    let mut go_on = |_| true;
    write_sheet(layout, &mut Files(files), &options, &mut Progress::new(&mut go_on), &mut bytes)
        .expect("a composed sheet");
    bytes
}

#[test]
fn a_bundle_of_parts_prints_as_the_picture_does_and_finds_its_way_back_to_it() {
    let picture = sheet_of_drawings().png(Some(11811));
    let files = BTreeMap::from([("moji.png".to_owned(), picture.clone())]);
    let layout = layout(&picture);
    assert!(layout.stickers.len() >= (GRID.0 * GRID.1) as usize);
    let mut go_on = |_| true;
    let parted = parted(&layout, |file| files.get(file).cloned(), &mut Progress::new(&mut go_on)).unwrap();
    assert_eq!(parted.left, ["moji.png"]);
    let (bytes, missing) = bundle::write(&parted.layout, |file| parted.parts.get(file).cloned()).unwrap();
    assert!(missing.is_empty());
    let bundle = bundle::read(&bytes).unwrap();
    for resolution_ppi in [72.0, 150.0, PPI, 600.0] {
        let (before, after) = (
            composed(&layout, &files, resolution_ppi),
            composed(&bundle.layout, &bundle.pictures, resolution_ppi),
        );
        assert!(before == after, "at {resolution_ppi} pixels to the inch");
    }
    // About as large as it would be with the whole picture.
    let (whole, _) = bundle::write(&layout, |file| files.get(file).cloned()).unwrap();
    assert!(bytes.len() as f64 <= 1.1 * whole.len() as f64, "{} and {}", bytes.len(), whole.len());
    // The same picture, brought in again, is known by its places.
    let mut drawings = layout.stickers.clone();
    for art in drawings.iter_mut().filter_map(|drawing| drawing.art.as_mut()) {
        art.file = "new.png".to_owned();
    }
    let found = reimport(&bundle.layout, "moji.png", &drawings);
    assert_eq!((found.matched.len(), found.new.len(), found.gone.len()), (layout.stickers.len(), 0, 0));
    assert!(found.matched.iter().all(|one| one.is_unchanged() && one.by == MatchedBy::Place));
}
