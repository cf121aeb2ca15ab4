//! A bundle: a layout and its pictures in one file, a zip with `layout.json` and `art/…`.
//!
//! Pictures are stored as they are, for their formats are packed already; the layout's text is too, since it is small
//! beside them. The same layout and pictures give the same bytes everywhere: entries stand in order, and all carry the
//! earliest date that the format knows.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};

use stickleaf_sheet::Layout;
use thiserror::Error;
use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

use crate::{ReadError, layout_file};

/// The name of the layout's entry.
const LAYOUT: &str = "layout.json";

/// The folder of the pictures.
const ART: &str = "art/";

/// No bundle has more entries than this.
const MOST_ENTRIES: usize = 10_000;

/// No entry is larger than this when it is unpacked, in bytes.
const MOST_ENTRY: u64 = 512 << 20;

/// All entries together are not larger than this, in bytes.
const MOST_BYTES: u64 = 1 << 30;

/// The bytes with which every zip begins that has an entry. Source: PKWARE's APPNOTE.TXT, 4.3.7.
const MAGIC: &[u8] = b"PK\x03\x04";

/// A layout and its pictures, by the names by which the layout knows them.
#[derive(Clone, Debug, PartialEq)]
pub struct Bundle {
    /// The layout.
    pub layout: Layout,
    /// The pictures' bytes.
    pub pictures: BTreeMap<String, Vec<u8>>,
    /// Entries that were passed over, because no layout of this version names them.
    pub passed_over: Vec<String>,
}

/// Why a bundle could not be read or written.
#[derive(Debug, Error)]
pub enum BundleError {
    /// Not a zip, or one that is damaged.
    #[error("this is no bundle, or it is damaged ({0}); take an earlier copy, or save it again")]
    NotABundle(String),
    /// A zip without a layout.
    #[error("this zip has no {LAYOUT}, so it is no bundle; open a .stickleaf file")]
    NoLayout,
    /// The layout in it makes no sense.
    #[error("its {LAYOUT}: {0}")]
    Layout(ReadError),
    /// More than is ever needed.
    #[error("the bundle holds {what}; it is damaged or made to do harm, and is not opened")]
    TooLarge {
        /// What there is too much of.
        what: String,
    },
}

/// Whether these bytes are a zip, and so may be a bundle.
pub fn is_bundle(bytes: &[u8]) -> bool {
    bytes.starts_with(MAGIC)
}

/// The bundle of a layout and of those of its pictures that `picture` has, by the names by which the layout knows them; and
/// the names that it has not.
///
/// In the bundle pictures lie in `art/`, each under its own file name, with a number in front where two are called the same.
pub fn write(
    layout: &Layout,
    picture: impl FnMut(&str) -> Option<Vec<u8>>,
) -> Result<(Vec<u8>, Vec<String>), BundleError> {
    let mut layout = layout.clone();
    let (pictures, missing) = gathered(&mut layout, picture);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut entry = |name: &str, bytes: &[u8]| -> Result<(), ZipError> {
        zip.start_file(name, options)?;
        zip.write_all(bytes)?;
        Ok(())
    };
    entry(LAYOUT, layout_file::write(&layout).as_bytes()).map_err(damaged)?;
    for (name, bytes) in &pictures {
        entry(name, bytes).map_err(damaged)?;
    }
    let bytes = zip.finish().map_err(damaged)?.into_inner();
    Ok((bytes, missing))
}

/// The pictures that a layout names, under new names in `art/` by which the layout knows them from then on; and the names
/// of those that are not to be had, which stay as they are, and which no other picture gets.
fn gathered(
    layout: &mut Layout,
    mut picture: impl FnMut(&str) -> Option<Vec<u8>>,
) -> (BTreeMap<String, Vec<u8>>, Vec<String>) {
    let mut missing = Vec::new();
    let mut found = Vec::new();
    for file in named(layout) {
        match picture(&file) {
            Some(bytes) => found.push((file, bytes)),
            None => missing.push(file),
        }
    }
    let (mut pictures, mut renamed) = (BTreeMap::new(), BTreeMap::new());
    for (file, bytes) in found {
        let name =
            unused_name(&file, |name| pictures.contains_key(name) || missing.iter().any(|file| file == name));
        pictures.insert(name.clone(), bytes);
        renamed.insert(file, name);
    }
    let of_stickers = layout.stickers.iter_mut().filter_map(|sticker| Some(&mut sticker.art.as_mut()?.file));
    let of_backgrounds = layout.backgrounds.iter_mut().filter_map(|background| background.picture.as_mut());
    for file in of_stickers.chain(of_backgrounds) {
        if let Some(name) = renamed.get(file) {
            file.clone_from(name);
        }
    }
    (pictures, missing)
}

/// A name in `art/` for this file that is not used.
fn unused_name(file: &str, is_used: impl Fn(&str) -> bool) -> String {
    let own: String =
        file.rsplit(['/', '\\']).next().unwrap_or_default().chars().filter(|c| is_safe(*c)).collect();
    let own = if own.trim_matches('.').is_empty() { "picture".to_owned() } else { own };
    let numbered = (2..).map(|number| format!("{ART}{number}-{own}"));
    std::iter::once(format!("{ART}{own}")).chain(numbered).find(|name| !is_used(name)).unwrap_or_default()
}

/// Whether a letter may stand in a file name on every system.
fn is_safe(c: char) -> bool {
    !c.is_control() && !"<>:\"|?*".contains(c)
}

/// The layout and the pictures in a bundle.
pub fn read(bytes: &[u8]) -> Result<Bundle, BundleError> {
    let mut zip = ZipArchive::new(Cursor::new(bytes)).map_err(damaged)?;
    if zip.len() > MOST_ENTRIES {
        return Err(BundleError::TooLarge { what: format!("{} entries", zip.len()) });
    }
    let text = match entry(&mut zip, LAYOUT, MOST_BYTES)? {
        Some(text) => text,
        None => return Err(BundleError::NoLayout),
    };
    let layout = layout_file::read_bytes(&text).map_err(BundleError::Layout)?;
    let mut left = MOST_BYTES - text.len() as u64;
    let mut pictures = BTreeMap::new();
    for file in named(&layout) {
        if let Some(bytes) = entry(&mut zip, &file, left)? {
            left -= bytes.len() as u64;
            pictures.insert(file, bytes);
        }
    }
    let is_used = |name: &str| name == LAYOUT || name.ends_with('/') || pictures.contains_key(name);
    let names = zip.file_names().flatten().map(|name| name.into_owned());
    let passed_over = names.filter(|name| !is_used(name)).collect();
    Ok(Bundle { layout, pictures, passed_over })
}

/// The picture files that a layout names, each once.
fn named(layout: &Layout) -> Vec<String> {
    let of_stickers = layout.stickers.iter().filter_map(|sticker| Some(sticker.art.as_ref()?.file.clone()));
    let of_backgrounds = layout.backgrounds.iter().filter_map(|background| background.picture.clone());
    let mut files: Vec<String> = of_stickers.chain(of_backgrounds).collect();
    files.sort();
    files.dedup();
    files
}

/// The bytes of an entry, at most so many; nothing if there is none of this name.
fn entry(zip: &mut ZipArchive<Cursor<&[u8]>>, name: &str, most: u64) -> Result<Option<Vec<u8>>, BundleError> {
    let entry = match zip.by_name(name) {
        Ok(entry) => entry,
        Err(ZipError::FileNotFound) => return Ok(None),
        Err(error) => return Err(damaged(error)),
    };
    let most = most.min(MOST_ENTRY);
    let too_large = || BundleError::TooLarge { what: format!("more than {most} bytes in {name}") };
    if entry.size() > most {
        return Err(too_large());
    }
    // What an entry says of its size need not be true.
    let mut bytes = Vec::new();
    let read = entry.take(most + 1).read_to_end(&mut bytes);
    read.map_err(|error| BundleError::NotABundle(error.to_string()))?;
    if bytes.len() as u64 > most { Err(too_large()) } else { Ok(Some(bytes)) }
}

fn damaged(error: impl ToString) -> BundleError {
    BundleError::NotABundle(error.to_string())
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Art, Background, Sticker};

    use super::*;

    fn layout(files: &[&str]) -> Layout {
        let sticker = |(i, file): (usize, &&str)| {
            let outline = path::parse("M0 0H10V10H0Z").unwrap();
            let mut sticker = Sticker::new(format!("s{i}"), format!("S{i}"), outline);
            sticker.art = Some(Art::new(*file, (0.0, 0.0).into(), Some(10.0)));
            sticker
        };
        Layout { stickers: files.iter().enumerate().map(sticker).collect(), ..Layout::default() }
    }

    fn bytes_of(file: &str) -> Option<Vec<u8>> {
        (!file.contains("gone")).then(|| format!("the bytes of {file}").into_bytes())
    }

    #[test]
    fn what_is_written_is_read_back() {
        let mut before = layout(&["pool/crab.png", "../sea/crab.png", "pool/crab.png", "gone.png"]);
        let background = Background { picture: Some("sky?.svg".to_owned()), ..Background::default() };
        before.backgrounds.push(Background { name: "Sky".to_owned(), ..background });
        let (bytes, missing) = write(&before, bytes_of).unwrap();
        assert!(is_bundle(&bytes));
        assert_eq!(missing, ["gone.png"]);
        let bundle = read(&bytes).unwrap();
        let files: Vec<&str> =
            bundle.layout.stickers.iter().map(|s| &*s.art.as_ref().unwrap().file).collect();
        // In the order of their names: the one in the sea comes first.
        assert_eq!(files, ["art/2-crab.png", "art/crab.png", "art/2-crab.png", "gone.png"]);
        assert_eq!(bundle.layout.backgrounds[0].picture.as_deref(), Some("art/sky.svg"));
        assert_eq!(bundle.pictures["art/crab.png"], b"the bytes of ../sea/crab.png");
        assert_eq!(bundle.pictures.len(), 3);
        assert!(bundle.passed_over.is_empty());
    }

    #[test]
    fn no_picture_takes_the_name_of_one_that_is_missing() {
        let (bytes, missing) = write(&layout(&["art/gone.png", "pool/gone.png"]), |file| {
            (file == "pool/gone.png").then(|| b"there".to_vec())
        })
        .unwrap();
        let bundle = read(&bytes).unwrap();
        let files: Vec<&str> =
            bundle.layout.stickers.iter().map(|s| &*s.art.as_ref().unwrap().file).collect();
        assert_eq!(
            (files, missing),
            (vec!["art/gone.png", "art/2-gone.png"], vec!["art/gone.png".to_owned()])
        );
    }

    #[test]
    fn the_same_gives_the_same_bytes_also_the_second_time_round() {
        let (first, _) = write(&layout(&["a.png", "b.png"]), bytes_of).unwrap();
        let bundle = read(&first).unwrap();
        let (second, _) = write(&bundle.layout, |file| bundle.pictures.get(file).cloned()).unwrap();
        assert_eq!(first, second);
    }

    #[test]
    fn other_files_are_refused_with_a_reason() {
        assert!(matches!(read(b"no zip at all"), Err(BundleError::NotABundle(_))));
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        zip.start_file("notes.txt", SimpleFileOptions::default()).unwrap();
        let bytes = zip.finish().unwrap().into_inner();
        assert!(matches!(read(&bytes), Err(BundleError::NoLayout)));
        let (whole, _) = write(&layout(&["a.png"]), bytes_of).unwrap();
        for length in 0..whole.len() {
            assert!(read(&whole[..length]).is_err(), "cut after {length} bytes");
        }
    }

    #[test]
    fn a_layout_that_makes_no_sense_is_refused() {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        zip.start_file(LAYOUT, SimpleFileOptions::default()).unwrap();
        zip.write_all(b"{}").unwrap();
        let bytes = zip.finish().unwrap().into_inner();
        let error = read(&bytes).unwrap_err();
        assert!(error.to_string().starts_with("its layout.json: "), "{error}");
    }

    #[test]
    fn what_lies_outside_of_the_layout_is_said_and_never_unpacked() {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        for (name, bytes) in
            [(LAYOUT, layout_file::write(&layout(&[])).into_bytes()), ("../evil.sh", vec![1])]
        {
            zip.start_file(name, SimpleFileOptions::default()).unwrap();
            zip.write_all(&bytes).unwrap();
        }
        let bundle = read(&zip.finish().unwrap().into_inner()).unwrap();
        assert_eq!(bundle.passed_over, ["../evil.sh"]);
        assert!(bundle.pictures.is_empty());
    }
}
