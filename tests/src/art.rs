//! Drawings by other people, fetched from npm into `art/node_modules`; see `art/README.md`.

use std::path::{Path, PathBuf};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

/// A drawing as its author drew it.
pub struct Drawing {
    /// Its file without the folder.
    pub name: String,
    /// The SVG text.
    pub svg: String,
}

/// So many colour drawings of OpenMoji (72 units wide and high), picked evenly from all of them by name.
pub fn openmoji(count: usize) -> Vec<Drawing> {
    picked("openmoji/color/svg", count)
}

/// So many drawings of Twemoji (36 units wide and high), picked evenly from all of them by name.
pub fn twemoji(count: usize) -> Vec<Drawing> {
    picked("@twemoji/svg", count)
}

/// The folder with the packages: `STICKLEAF_ART`, or `art/node_modules` beside this crate.
fn folder() -> PathBuf {
    let beside = || Path::new(env!("CARGO_MANIFEST_DIR")).join("art/node_modules");
    std::env::var_os("STICKLEAF_ART").map_or_else(beside, PathBuf::from)
}

fn picked(package: &str, count: usize) -> Vec<Drawing> {
    let folder = folder().join(package);
    let entries = std::fs::read_dir(&folder).unwrap_or_else(|error| {
        panic!(
            "the drawings that this test reads are not in {} ({error}); run the tests with `cargo xtask test`, which \
             fetches them first",
            folder.display()
        )
    });
    let mut files: Vec<PathBuf> = entries
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .filter(|file| file.extension().is_some_and(|extension| extension == "svg"))
        .collect();
    files.sort();
    assert!(files.len() >= count, "only {} drawings in {}", files.len(), folder.display());
    (0..count)
        .map(|i| {
            let file = &files[i * files.len() / count];
            let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let svg = std::fs::read_to_string(file).unwrap_or_else(|error| panic!("{name}: {error}"));
            Drawing { name, svg }
        })
        .collect()
}

/// A picture of a drawing: eight bits for each of red, green, blue and alpha, not premultiplied.
pub struct Picture {
    /// Pixels in a row.
    pub width_px: u32,
    /// Rows.
    pub height_px: u32,
    /// Four bytes a pixel, row by row from the top.
    pub rgba: Vec<u8>,
}

impl Picture {
    /// The alpha of each pixel.
    pub fn alpha(&self) -> Vec<u8> {
        self.rgba.chunks_exact(4).map(|pixel| pixel[3]).collect()
    }

    /// The picture as a PNG file that says how many pixels make a metre, if anything.
    pub fn png(&self, per_metre: Option<u32>) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, self.width_px, self.height_px);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_pixel_dims(per_metre.map(|per_metre| png::PixelDimensions {
            xppu: per_metre,
            yppu: per_metre,
            unit: png::Unit::Meter,
        }));
        let mut writer = encoder.write_header().expect("a header fits in memory");
        writer.write_image_data(&self.rgba).expect("four bytes a pixel");
        writer.finish().expect("an end fits in memory");
        bytes
    }
}

/// The drawing as resvg draws it, so many pixels wide.
pub fn rendered(drawing: &Drawing, width_px: u32) -> Picture {
    let tree = Tree::from_str(&drawing.svg, &Options::default())
        .unwrap_or_else(|error| panic!("{}: {error}", drawing.name));
    let scale = width_px as f32 / tree.size().width();
    let height_px = (tree.size().height() * scale).ceil() as u32;
    let mut pixmap = Pixmap::new(width_px, height_px).expect("a picture with pixels");
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    Picture { width_px, height_px, rgba: pixmap.take_demultiplied() }
}
