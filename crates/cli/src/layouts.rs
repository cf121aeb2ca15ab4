//! Layouts in files: alone as JSON, or with their pictures in a bundle.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use stickleaf_files::bundle::{self, is_bundle};
use stickleaf_files::report::BundleFacts;
use stickleaf_press::{Parted, Progress, parted};
use stickleaf_sheet::{Layout, Part};

use crate::{Trouble, disk, output};

/// How the name of a bundle ends.
const BUNDLE: &str = "stickleaf";

/// The layout in a layout file, a placement file or a bundle.
pub fn read(path: &Path) -> Result<Layout, Trouble> {
    let bytes = disk::read(path)?;
    if is_bundle(&bytes) {
        let bundle =
            bundle::read(&bytes).map_err(|source| Trouble::Bundle { file: disk::shown(path), source })?;
        for name in &bundle.passed_over {
            output::tell(&format!(
                "{}: passed over {name}, which the layout does not name",
                disk::shown(path)
            ));
        }
        return Ok(bundle.layout);
    }
    stickleaf_files::read_bytes(&bytes).map_err(|source| Trouble::Layout { file: disk::shown(path), source })
}

/// Writes a layout whose pictures lie where `source` does: with them if the name is that of a bundle, else alone, pointing
/// to where they are.
pub fn write(path: &Path, layout: &Layout, source: &Path) -> Result<(), Trouble> {
    write_with(path, layout, source, &BTreeMap::new())
}

/// The same with pictures that are new to the layout, by the names by which it knows them.
pub fn write_with(
    path: &Path,
    layout: &Layout,
    source: &Path,
    fresh: &BTreeMap<String, Vec<u8>>,
) -> Result<(), Trouble> {
    if is_bundle_name(path) {
        let facts = write_bundle_with(path, layout, source, BundleArt::Parts, fresh)?;
        tell_bundle(path, &facts);
        return Ok(());
    }
    let mut layout = layout.clone();
    let has_moved = !disk::is_standard(path) && !disk::is_standard(source);
    if has_moved && !is_in_one_folder(path, source) && !is_bundle_name(source) {
        for file in art_files(&mut layout) {
            let place = disk::folder_of(source).join(&*file);
            if place.exists() {
                *file = disk::relative_to_folder_of(path, &place);
            }
        }
    }
    if is_bundle_name(source) && art_files(&mut layout).next().is_some() {
        output::tell(&format!(
            "the pictures stay in {}; write a .{BUNDLE} file to have them along",
            disk::shown(source)
        ));
    }
    disk::write(path, &stickleaf_files::write(&layout))
}

/// Which pictures go into a bundle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BundleArt {
    /// Of a picture with several drawings each sticker's part: what belongs to no sticker stays behind.
    Parts,
    /// Pictures as they are.
    Whole,
}

/// Writes a bundle and gives what is in it. A picture that cannot be had is named, and the rest is written.
pub fn write_bundle(
    path: &Path,
    layout: &Layout,
    source: &Path,
    art: BundleArt,
) -> Result<BundleFacts, Trouble> {
    write_bundle_with(path, layout, source, art, &BTreeMap::new())
}

fn write_bundle_with(
    path: &Path,
    layout: &Layout,
    source: &Path,
    art: BundleArt,
    fresh: &BTreeMap<String, Vec<u8>>,
) -> Result<BundleFacts, Trouble> {
    let from = Source::of(source)?;
    let picture = |file: &str| fresh.get(file).cloned().or_else(|| from.bytes(file));
    let whole = || Parted { layout: layout.clone(), parts: BTreeMap::new(), left: Vec::new() };
    let parted = match art {
        // Nobody says stop; if somebody did, whole pictures would be right too.
        BundleArt::Parts => {
            parted(layout, picture, &mut Progress::new(&mut |_| true)).unwrap_or_else(|_| whole())
        }
        BundleArt::Whole => whole(),
    };
    let part_or_picture = |file: &str| parted.parts.get(file).cloned().or_else(|| picture(file));
    let (bytes, missing) = bundle::write(&parted.layout, part_or_picture)
        .map_err(|source| Trouble::Bundle { file: disk::shown(path), source })?;
    for file in &missing {
        output::tell(&format!("{}: {file} is not there, so the bundle goes without it", disk::shown(path)));
    }
    disk::write_bytes(path, &bytes)?;
    let is_left = |part: &Part| parted.left.contains(&part.of);
    let arts = parted.layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref());
    let with_parts = arts.filter(|art| art.part.as_ref().is_some_and(is_left)).count();
    Ok(BundleFacts { with_parts, left: parted.left, missing, bytes: bytes.len() })
}

/// Says which pictures stayed behind.
pub fn tell_bundle(path: &Path, facts: &BundleFacts) {
    for file in &facts.left {
        output::tell(&format!(
            "{}: of {file} the parts of its stickers, pixel for pixel; what is no sticker stays behind",
            disk::shown(path)
        ));
    }
}

/// Whether a file of this name is a bundle.
pub fn is_bundle_name(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(BUNDLE))
}

fn is_in_one_folder(a: &Path, b: &Path) -> bool {
    match (fs::canonicalize(disk::folder_of(a)), fs::canonicalize(disk::folder_of(b))) {
        (Ok(a), Ok(b)) => a == b,
        _ => false,
    }
}

fn art_files(layout: &mut Layout) -> impl Iterator<Item = &mut String> {
    let of_stickers = layout.stickers.iter_mut().filter_map(|sticker| Some(&mut sticker.art.as_mut()?.file));
    let of_backgrounds = layout.backgrounds.iter_mut().filter_map(|background| background.picture.as_mut());
    of_stickers.chain(of_backgrounds)
}

/// Where the pictures of a layout are: beside its file, or in its bundle.
pub enum Source<'a> {
    /// Beside this file.
    Beside(&'a Path),
    /// In this bundle.
    Within(BTreeMap<String, Vec<u8>>),
}

impl Source<'_> {
    /// Where the pictures of the layout in this file are.
    pub fn of(layout: &Path) -> Result<Source<'_>, Trouble> {
        if !is_bundle_name(layout) {
            return Ok(Source::Beside(layout));
        }
        let bytes = disk::read(layout)?;
        let bundle =
            bundle::read(&bytes).map_err(|source| Trouble::Bundle { file: disk::shown(layout), source })?;
        Ok(Source::Within(bundle.pictures))
    }

    fn bytes(&self, file: &str) -> Option<Vec<u8>> {
        match self {
            Source::Beside(layout) => fs::read(disk::folder_of(layout).join(file)).ok(),
            Source::Within(pictures) => pictures.get(file).cloned(),
        }
    }
}
