//! The entry: bytes of artwork in, drawings out.

use kurbo::Point;
use stickleaf_outline::{
    HALF_COVER, Islands, Mask, MaskError, TraceError, TraceOptions, USUAL_DETAIL, islands, trace,
};
use thiserror::Error;

use crate::drawing::{Drawing, Group, Part, centred, grouped, numbered};
use crate::kinds::{Emptiness, FileKind};
use crate::note::{Note, Speck};
use crate::png::{self, Picture, PngError, read_png};
use crate::progress::{Progress, Stopped};
use crate::svg::{self, SvgError};

/// The pixels to the inch of a picture that does not say: the least that prints well (common practice, no source).
pub const USUAL_PER_INCH: f64 = 300.0;

/// What counts as a speck when nothing else is asked: shorter than one millimetre on both sides. A stray touch of the
/// pen is smaller, a dot drawn on purpose is not (common practice, no source).
pub const USUAL_SMALLEST: f64 = 1.0;

/// The most parts that artwork may fall into; a sheet has some dozens, noise has millions.
pub const MOST_DRAWINGS: usize = 10_000;

const MM_PER_INCH: f64 = 25.4;

/// How large the artwork really is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum TrueSize {
    /// As the file says; a picture that does not say has [`USUAL_PER_INCH`].
    #[default]
    FromFile,
    /// So many pixels to the inch; of an SVG, so many of its px units, where 96 is the standard.
    Ppi(f64),
    /// The whole artwork is so many millimetres wide.
    WidthMm(f64),
}

/// How artwork is read.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportOptions {
    /// The name of the file, which names drawings that have no name of their own. May be empty.
    pub file_name: String,
    /// How large the artwork really is.
    pub size: TrueSize,
    /// The cover from which a pixel counts as drawn, 1 to 255, and 0 counts as 1; of pictures only.
    pub alpha_threshold: u8,
    /// How far an outline may stray from the artwork's edge, in millimetres.
    pub detail_mm: f64,
    /// Parts shorter than this on both sides are dropped, in millimetres.
    pub min_size_mm: f64,
    /// The width of the white border that decides which parts belong on one sticker, in millimetres.
    pub border_mm: f64,
    /// Whether parts that one border surrounds become one drawing; else each becomes its own.
    pub join: bool,
}

impl Default for ImportOptions {
    fn default() -> ImportOptions {
        ImportOptions {
            file_name: String::new(),
            size: TrueSize::FromFile,
            alpha_threshold: HALF_COVER,
            detail_mm: USUAL_DETAIL,
            min_size_mm: USUAL_SMALLEST,
            border_mm: 1.5,
            join: true,
        }
    }
}

/// What was found in the artwork.
#[derive(Clone, Debug, PartialEq)]
pub struct Import {
    /// The drawings in reading order; at least one.
    pub drawings: Vec<Drawing>,
    /// What was left out because it is too small: the first thousand at most.
    pub dropped: Vec<Speck>,
    /// How many parts were left out because they are too small.
    pub dropped_count: u64,
    /// What the artist should know.
    pub notes: Vec<Note>,
    /// The width of the whole artwork in millimetres.
    pub width_mm: f64,
    /// The height of the whole artwork in millimetres.
    pub height_mm: f64,
    /// How many pixels make a millimetre; nothing for an SVG.
    pub pixels_per_mm: Option<f64>,
    /// Pixels in a row; nothing for an SVG.
    pub width_px: Option<u32>,
    /// Rows of pixels; nothing for an SVG.
    pub height_px: Option<u32>,
}

/// Why artwork gives no drawings.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum ImportError {
    /// No bytes at all.
    #[error("the file is empty; export it again")]
    Empty,
    /// Neither PNG nor SVG.
    #[error(
        "this is {found}, neither PNG nor SVG; export it as PNG with a transparent background, or as SVG"
    )]
    WrongKind {
        /// What it looks like.
        found: FileKind,
    },
    /// A number among the options that makes no sense.
    #[error("{what} is {value}; give a number {wanted}")]
    BadOption {
        /// Which one.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What it should be.
        wanted: &'static str,
    },
    /// A PNG that cannot be read.
    #[error(transparent)]
    Png(PngError),
    /// An SVG that cannot be read.
    #[error(transparent)]
    Svg(SvgError),
    /// Nothing in it is drawn.
    #[error("there is nothing to cut in this file; {hint}")]
    NothingToCut {
        /// What may be the cause.
        hint: Emptiness,
    },
    /// All that is drawn is too small.
    #[error(
        "all {count} parts of the drawing are smaller than {least} mm; check the true size, or lower the smallest size"
    )]
    AllTooSmall {
        /// How many parts there are.
        count: u64,
        /// The smallest size asked for.
        least: f64,
    },
    /// More parts than [`MOST_DRAWINGS`].
    #[error(
        "the artwork falls into {count} separate parts, as noise does; clean it, or raise the smallest size or the \
         threshold"
    )]
    TooManyParts {
        /// How many.
        count: usize,
    },
    /// A size that no sheet has.
    #[error(transparent)]
    Size(#[from] MaskError),
    /// A part without an outline.
    #[error(transparent)]
    Trace(#[from] TraceError),
    /// The caller asked to stop.
    #[error("reading was stopped")]
    Stopped,
}

impl From<Stopped> for ImportError {
    fn from(_: Stopped) -> ImportError {
        ImportError::Stopped
    }
}

impl From<PngError> for ImportError {
    fn from(error: PngError) -> ImportError {
        if error == PngError::Stopped { ImportError::Stopped } else { ImportError::Png(error) }
    }
}

/// The drawings in the bytes of a PNG or SVG; which of the two is seen by their content.
///
/// Of a picture every connected part of covered pixels is a drawing, and parts that one white border surrounds are one
/// drawing. Of an SVG every group or shape at the top is a drawing; shapes that overlap are one; parts of a group that
/// no border joins become drawings of their own. A single group round everything, as drawing apps write a layer, does
/// not count as one drawing.
///
/// The same bytes and options give the same drawings on every platform; an SVG up to the rounding to the micrometre
/// grid.
pub fn import(bytes: &[u8], options: &ImportOptions) -> Result<Import, ImportError> {
    import_with(bytes, options, &mut |_| true)
}

/// As [`import`], telling `go_on` the share of the work done, 0 to 1; when it answers no, reading stops with
/// [`ImportError::Stopped`].
pub fn import_with(
    bytes: &[u8],
    options: &ImportOptions,
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Result<Import, ImportError> {
    checked(options)?;
    let mut progress = Progress::new(go_on);
    progress.tell(0.0)?;
    let import = if bytes.is_empty() {
        Err(ImportError::Empty)
    } else if bytes.starts_with(&png::SIGNATURE) {
        from_png(bytes, options, &mut progress)
    } else if svg::looks_like_svg(bytes) {
        svg::from_svg(bytes, options, &mut progress)
    } else {
        Err(ImportError::WrongKind { found: FileKind::of(bytes) })
    }?;
    progress.tell(1.0)?;
    Ok(import)
}

fn checked(options: &ImportOptions) -> Result<(), ImportError> {
    let positive = |what, value: f64| {
        let sound = value.is_finite() && value > 0.0;
        if sound { Ok(()) } else { Err(ImportError::BadOption { what, value, wanted: "above 0" }) }
    };
    let not_negative = |what, value: f64| {
        let sound = value.is_finite() && value >= 0.0;
        if sound { Ok(()) } else { Err(ImportError::BadOption { what, value, wanted: "of 0 or more" }) }
    };
    match options.size {
        TrueSize::FromFile => {}
        TrueSize::Ppi(per_inch) => positive("the number of pixels to the inch", per_inch)?,
        TrueSize::WidthMm(width) => positive("the true width", width)?,
    }
    positive("the detail", options.detail_mm)?;
    not_negative("the smallest size", options.min_size_mm)?;
    not_negative("the border", options.border_mm)
}

/// What other bytes look like, by the marks that such files start with.
fn from_png(
    bytes: &[u8],
    options: &ImportOptions,
    progress: &mut Progress<'_>,
) -> Result<Import, ImportError> {
    let picture = read_png(bytes, &mut progress.stage(0.0, 0.7))?;
    let mut notes = Vec::new();
    let per_mm = pixels_per_mm(&picture, options.size, &mut notes);
    let Picture { width_px, height_px, cover, .. } = picture;
    let mask = Mask::new(width_px, height_px, 1.0 / per_mm, cover)?;
    let found = islands(&mask, options.alpha_threshold, options.min_size_mm);
    progress.tell(0.8)?;
    if found.islands.len() > MOST_DRAWINGS {
        return Err(ImportError::TooManyParts { count: found.islands.len() });
    }
    let parts = traced(&mask, &found, options, &mut progress.stage(0.8, 0.95))?;
    // What is too small has been sorted out among the pixels.
    let (groups, _) = grouped(&parts, 0.0, 0.0, options.join.then_some(options.border_mm));
    if groups.is_empty() {
        return Err(match found.speck_count {
            0 => ImportError::NothingToCut { hint: Emptiness::AllClear },
            count => ImportError::AllTooSmall { count, least: options.min_size_mm },
        });
    }
    let stem = stem(&options.file_name).unwrap_or("drawing");
    let names = numbered(&vec![stem.to_owned(); groups.len()]);
    let drawings: Vec<Drawing> =
        groups.iter().zip(names).map(|(group, name)| drawing(name, group, &parts)).collect();
    notes.extend(edge_notes(&drawings, &mask, &found));
    let (dropped, hidden) = outside_of(&groups, &found, mask.pixel());
    Ok(Import {
        drawings,
        dropped,
        dropped_count: found.speck_count - hidden,
        notes,
        width_mm: f64::from(width_px) / per_mm,
        height_mm: f64::from(height_px) / per_mm,
        pixels_per_mm: Some(per_mm),
        width_px: Some(width_px),
        height_px: Some(height_px),
    })
}

fn pixels_per_mm(picture: &Picture, size: TrueSize, notes: &mut Vec<Note>) -> f64 {
    match (size, picture.pixels_per_mm) {
        (TrueSize::Ppi(per_inch), _) => per_inch / MM_PER_INCH,
        (TrueSize::WidthMm(width), _) => f64::from(picture.width_px) / width,
        (TrueSize::FromFile, Some((across, down))) => {
            // Rounding to whole pixels per metre alone makes no more of a difference than that.
            if (across / down - 1.0).abs() > 0.001 {
                notes.push(Note::PixelsNotSquare);
            }
            across
        }
        (TrueSize::FromFile, None) => {
            let per_mm = USUAL_PER_INCH / MM_PER_INCH;
            let (width, height) =
                (f64::from(picture.width_px) / per_mm, f64::from(picture.height_px) / per_mm);
            notes.push(Note::SizeAssumed { per_inch: USUAL_PER_INCH, width, height });
            per_mm
        }
    }
}

fn traced(
    mask: &Mask,
    found: &Islands,
    options: &ImportOptions,
    progress: &mut Progress<'_>,
) -> Result<Vec<Part>, ImportError> {
    let how = TraceOptions { threshold: options.alpha_threshold, detail: options.detail_mm };
    let mut parts = Vec::with_capacity(found.islands.len());
    for (i, island) in found.islands.iter().enumerate() {
        parts.push(Part {
            outline: trace(mask, island, &how)?,
            covered_mm2: island.covered_px as f64 * mask.pixel() * mask.pixel(),
            pixel_bounds: Some(island.bounds),
            owner: 0,
        });
        progress.tell((i + 1) as f64 / found.islands.len() as f64)?;
    }
    Ok(parts)
}

/// The drawing of a group of parts.
pub(crate) fn drawing(name: String, group: &Group, parts: &[Part]) -> Drawing {
    let (outline, centre) = centred(&group.outline);
    let covered_mm2 = group.parts.iter().map(|&part| parts[part].covered_mm2).sum();
    let pixel_bounds = group.parts.iter().filter_map(|&part| parts[part].pixel_bounds);
    let pixel_bounds = pixel_bounds.reduce(|a, b| a.union(&b));
    Drawing { name, outline, centre, covered_mm2, pixel_bounds }
}

fn edge_notes(drawings: &[Drawing], mask: &Mask, found: &Islands) -> Vec<Note> {
    let (width_px, height_px) = (mask.width_px(), mask.height_px());
    if found.islands.iter().any(|island| island.covered_px == mask.cover().len() as u64) {
        return vec![Note::FullyCovered];
    }
    let touching = drawings.iter().filter(|drawing| {
        drawing.pixel_bounds.is_some_and(|bounds| {
            bounds.x0 == 0 || bounds.y0 == 0 || bounds.x1 == width_px || bounds.y1 == height_px
        })
    });
    touching.map(|drawing| Note::TouchesEdge { name: drawing.name.clone() }).collect()
}

/// The specks that lie outside of all drawings, and how many of those listed lie inside and so are not lost.
fn outside_of(groups: &[Group], found: &Islands, pixel: f64) -> (Vec<Speck>, u64) {
    let specks = found.specks.iter().map(|speck| {
        let bounds = speck.bounds;
        let middle = |a: u32, b: u32| (f64::from(a) + f64::from(b)) / 2.0 * pixel;
        let at = Point::new(middle(bounds.x0, bounds.x1), middle(bounds.y0, bounds.y1));
        Speck { at, size: f64::from(bounds.longer_side_px()) * pixel }
    });
    let (inside, outside): (Vec<Speck>, Vec<Speck>) =
        specks.partition(|speck| groups.iter().any(|group| group.outline.contains(speck.at)));
    (outside, inside.len() as u64)
}

/// The file's name without folders and ending.
pub(crate) fn stem(file_name: &str) -> Option<&str> {
    let name = file_name.rsplit(['/', '\\']).next().unwrap_or(file_name);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem).trim();
    (!stem.is_empty()).then_some(stem)
}
