//! The sheets that are composed, printed and cut here.

use std::collections::HashMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use kurbo::Point;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use stickleaf_outline::{Placement, path};
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::{NoPicture, Picture, Pictures, Pixels, Progress};
use stickleaf_sheet::{Art, Correction, Layout, Piece, Sheet, Sticker};

/// Pictures by the name of their file.
#[derive(Default)]
pub struct Drawn(pub HashMap<String, Arc<Pixels>>);

impl Pictures for Drawn {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        let found = self.0.get(file).cloned();
        found.map(Picture::Pixels).ok_or_else(|| NoPicture::Missing("is not drawn".to_owned()))
    }
}

/// A sample sheet, its drawings turned into pixels at the sheet's resolution by another's renderer.
pub fn sample(file: &str, resolution_ppi: f64) -> (Layout, Drawn) {
    let folder = samples();
    let text = fs::read_to_string(folder.join(file)).expect("a sample");
    let mut layout = stickleaf_files::read(&text).expect("a layout");
    layout.sheet.resolution_ppi = resolution_ppi;
    let per_mm = resolution_ppi / 25.4;
    let mut drawn = Drawn::default();
    let arts = layout.stickers.iter_mut().filter_map(|sticker| sticker.art.as_mut());
    for art in arts {
        // A drawing counts 96 units to the inch: CSS Values and Units Level 3, section 6.2.
        let pixels = rendered(&folder.join(&art.file), |(width, height)| {
            (
                (width * resolution_ppi / 96.0).ceil(),
                (height * resolution_ppi / 96.0).ceil(),
                resolution_ppi / 96.0,
            )
        });
        art.pixels_per_mm = Some(per_mm);
        drawn.0.insert(art.file.clone(), Arc::new(pixels));
    }
    let size = layout.sheet.pixels(resolution_ppi);
    for file in layout.backgrounds.iter().filter_map(|background| background.picture.as_ref()) {
        let pixels = rendered(&folder.join(file), |(width, _)| {
            (f64::from(size.0), f64::from(size.1), f64::from(size.0) / width)
        });
        drawn.0.insert(file.clone(), Arc::new(pixels));
    }
    (layout, drawn)
}

/// The composed sheet on white, without bleed, as a PNG.
pub fn composed_png(layout: &Layout, drawn: &mut Drawn, resolution_ppi: f64) -> Vec<u8> {
    let options =
        ComposeOptions { resolution_ppi, bleed: 0.0, ground: [255; 3], correction: Correction::NONE };
    let mut png = Vec::new();
    let mut yes = |_| true;
    write_sheet(layout, drawn, &options, &mut Progress::new(&mut yes), &mut png).expect("a composed sheet");
    png
}

/// A card of 50 x 38 mm with black stickers to their very cut line: a box, an arrow and a disc, each at a turn of its own.
pub fn black_stickers(resolution_ppi: f64) -> (Layout, Drawn) {
    let shapes = [
        ("box", "M-5 -4H5V4H-5Z", Placement::turned(10.0, 11.0, 23.0)),
        ("arrow", "M-7 -2H1V-5L8 0L1 5V2H-7Z", Placement::turned(35.0, 12.0, 190.0)),
        ("disc", "M-5.5 0A5.5 5.5 0 1 1 5.5 0A5.5 5.5 0 1 1 -5.5 0Z", Placement::turned(14.3, 27.7, 77.0)),
        (
            "comma",
            "M-6 -1C-6 -6 6 -6 6 -1C6 4 1 7 -4 6C0 4 1 3 1 1C-2 4 -6 3 -6 -1Z",
            Placement::turned(36.0, 27.0, 315.0),
        ),
    ];
    let mut drawn = Drawn::default();
    let mut layout = Layout {
        name: "Black".to_owned(),
        sheet: Sheet { width: 50.0, height: 38.0, corner_radius: 3.0, resolution_ppi },
        ..Layout::default()
    };
    for (name, data, placement) in shapes {
        let outline = path::parse(data).expect("an outline");
        let bounds = outline.bounds().inflate(1.0, 1.0);
        let per_mm = resolution_ppi / 25.4;
        let (width_px, height_px) =
            ((bounds.width() * per_mm).ceil() as u32, (bounds.height() * per_mm).ceil() as u32);
        let rgba = [0, 0, 0, 255].repeat((width_px * height_px) as usize);
        let pixels = Pixels { width_px, height_px, rgba, pixels_per_mm: None, has_profile: false };
        drawn.0.insert(name.to_owned(), Arc::new(pixels));
        let mut sticker = Sticker::new(name, name, outline);
        sticker.border = Some(0.0);
        sticker.art = Some(Art::new(name, Point::new(bounds.x0, bounds.y0), Some(per_mm)));
        layout.stickers.push(sticker);
        layout.pieces.push(Piece::new(name.into(), placement));
    }
    (layout, drawn)
}

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../sample-layouts/rooftop-night")
}

/// A drawing as resvg paints it; the function gives width, height and scale from the drawing's own size.
fn rendered(file: &Path, size: impl Fn((f64, f64)) -> (f64, f64, f64)) -> Pixels {
    let svg = fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let tree = Tree::from_str(&svg, &Options::default()).expect("a drawing");
    let (width, height, scale) = size((f64::from(tree.size().width()), f64::from(tree.size().height())));
    let mut pixmap = Pixmap::new(width as u32, height as u32).expect("a picture with pixels");
    resvg::render(&tree, Transform::from_scale(scale as f32, scale as f32), &mut pixmap.as_mut());
    let (width_px, height_px) = (pixmap.width(), pixmap.height());
    Pixels { width_px, height_px, rgba: pixmap.take_demultiplied(), pixels_per_mm: None, has_profile: false }
}
