//! What a file is that cannot be cut, and why there is nothing in one that could.

use std::fmt;

/// A kind of file that is neither PNG nor SVG, by its first bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A JPEG picture.
    Jpeg,
    /// A GIF picture.
    Gif,
    /// A WebP picture.
    WebP,
    /// A HEIC or AVIF picture.
    Heif,
    /// A PDF.
    Pdf,
    /// A gzip file; SVG is sometimes kept so.
    Compressed,
    /// A zip archive.
    Zip,
    /// Text in two bytes a letter.
    WideText,
    /// Anything else.
    Unknown,
}

impl FileKind {
    /// What these bytes look like.
    pub(crate) fn of(bytes: &[u8]) -> FileKind {
        let at = |start: usize, mark: &[u8]| bytes.get(start..).is_some_and(|rest| rest.starts_with(mark));
        if at(0, &[0xff, 0xd8, 0xff]) {
            FileKind::Jpeg
        } else if at(0, b"GIF8") {
            FileKind::Gif
        } else if at(0, b"RIFF") && at(8, b"WEBP") {
            FileKind::WebP
        } else if at(4, b"ftyp") {
            FileKind::Heif
        } else if at(0, b"%PDF") {
            FileKind::Pdf
        } else if at(0, &[0x1f, 0x8b]) {
            FileKind::Compressed
        } else if at(0, b"PK\x03\x04") {
            FileKind::Zip
        } else if at(0, &[0xff, 0xfe]) || at(0, &[0xfe, 0xff]) {
            FileKind::WideText
        } else {
            FileKind::Unknown
        }
    }
}

impl fmt::Display for FileKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            FileKind::Jpeg => "a JPEG picture",
            FileKind::Gif => "a GIF picture",
            FileKind::WebP => "a WebP picture",
            FileKind::Heif => "a HEIC or AVIF picture",
            FileKind::Pdf => "a PDF",
            FileKind::Compressed => "a compressed file (perhaps a compressed SVG)",
            FileKind::Zip => "a zip archive",
            FileKind::WideText => "text that is not UTF-8",
            FileKind::Unknown => "an unknown kind of file",
        })
    }
}

/// Why nothing in a sound file can be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Emptiness {
    /// Every pixel is clear or nearly so.
    AllClear,
    /// There is text, which is not drawn without its font.
    OnlyText,
    /// There are pictures, which are not traced.
    OnlyPictures,
    /// All shapes lie outside of the page.
    OffPage,
    /// Nothing is filled or stroked.
    NothingPainted,
}

impl fmt::Display for Emptiness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Emptiness::AllClear => "every pixel of the picture is clear or nearly so",
            Emptiness::OnlyText => "it holds text; convert text to outlines in your drawing app",
            Emptiness::OnlyPictures => {
                "it holds pictures only; export it as PNG with a transparent background"
            }
            Emptiness::OffPage => "all shapes lie outside of the page; move them onto it",
            Emptiness::NothingPainted => "it has no visible shape with a fill or stroke",
        })
    }
}
