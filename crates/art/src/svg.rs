//! SVG bytes to drawings.
//!
//! The text is read twice: once as plain XML for names, ids and what cannot be cut ([`source`]), once by the library
//! that resolves styles, units, references and transforms to plain paths ([`painted`]). What is painted is put together
//! to parts, the parts to drawings, and these are named ([`names`]).

mod clip;
mod names;
mod painted;
mod source;

use std::collections::BTreeMap;

use kurbo::{Point, Rect};
use stickleaf_outline::{GRID, MOST_COORDINATE, Region, path::FLATTENING_TOLERANCE, sealed};
use thiserror::Error;

use crate::drawing::{Drawing, Part, grouped, numbered};
use crate::import::{Import, ImportError, ImportOptions, MOST_DRAWINGS, TrueSize, drawing, stem};
use crate::kinds::Emptiness;
use crate::note::Note;
use crate::progress::Progress;
use painted::{Painted, painted};
use source::{Source, source};

/// How many px units make an inch. Source: CSS Values and Units Level 3, section 6.2; SVG 2, section 8.9.
const PX_PER_INCH: f64 = 96.0;

const MM_PER_INCH: f64 = 25.4;

/// Why bytes are not an SVG to cut.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SvgError {
    /// Bytes that are no UTF-8 text.
    #[error("the SVG is not UTF-8 text; save it again as plain SVG in UTF-8")]
    NotUtf8,
    /// Text that is no sound XML.
    #[error("the SVG is not sound XML at {row}:{column} ({reason}); export it again")]
    Malformed {
        /// The line, counted from 1.
        row: u32,
        /// The letter in the line, counted from 1.
        column: u32,
        /// What the parser found.
        reason: String,
    },
    /// XML of another kind.
    #[error("this is XML, but not SVG: it starts with <{found}>; export the drawing as SVG")]
    NotSvg {
        /// The name of its first element.
        found: String,
    },
    /// A width or height that is no size.
    #[error("the SVG has no sound width and height; set the size of the page in your drawing app")]
    NoSize,
    /// Too deep, too many or too elaborate elements.
    #[error(
        "the SVG has too many elements, groups within groups, or points; simplify it in your drawing app"
    )]
    TooComplex,
    /// Shapes further out than outlines may be.
    #[error(
        "the SVG holds shapes more than 10 m from its corner; check its size, or remove what lies far outside"
    )]
    TooLarge,
}

impl From<SvgError> for ImportError {
    fn from(error: SvgError) -> ImportError {
        ImportError::Svg(error)
    }
}

/// Whether bytes look like XML: a mark of UTF-8 and blanks aside, they start with `<`.
pub(crate) fn looks_like_svg(bytes: &[u8]) -> bool {
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    text.trim_ascii_start().first() == Some(&b'<')
}

/// The drawings of an SVG; see [`import`](crate::import).
pub(crate) fn from_svg(
    bytes: &[u8],
    options: &ImportOptions,
    progress: &mut Progress<'_>,
) -> Result<Import, ImportError> {
    let text = std::str::from_utf8(bytes).map_err(|_| SvgError::NotUtf8)?;
    let source = source(text.trim_start_matches('\u{feff}'))?;
    let tree = tree(&source)?;
    progress.tell(0.2)?;
    let (width_px, height_px) = (f64::from(tree.size().width()), f64::from(tree.size().height()));
    let mm_per_px = match options.size {
        TrueSize::FromFile => MM_PER_INCH / PX_PER_INCH,
        TrueSize::Ppi(per_inch) => MM_PER_INCH / per_inch,
        TrueSize::WidthMm(width) => width / width_px,
    };
    let page = Rect::new(0.0, 0.0, width_px * mm_per_px, height_px * mm_per_px);
    if page.x1.max(page.y1) > MOST_COORDINATE {
        return Err(SvgError::TooLarge.into());
    }
    let mut notes = Vec::new();
    if options.size == TrueSize::FromFile && !source.says_size {
        let (width, height) = (page.x1, page.y1);
        notes.push(Note::SizeAssumed { per_inch: PX_PER_INCH, width, height });
    }
    let flattening = FLATTENING_TOLERANCE.min(options.detail_mm / 3.0);
    let painted = painted(&tree, mm_per_px, flattening)?;
    progress.tell(0.5)?;
    let parts = parts(&painted, &mut progress.stage(0.5, 0.9))?;
    let (parts, off_page) = on_page(parts, page);
    if parts.len() > MOST_DRAWINGS {
        return Err(ImportError::TooManyParts { count: parts.len() });
    }
    let detail = options.detail_mm - flattening - GRID;
    let border = options.join.then_some(options.border_mm);
    let (groups, dropped) = grouped(&parts, detail, options.min_size_mm, border);
    if groups.is_empty() {
        return Err(nothing(&source, off_page, dropped.len(), options));
    }
    let named = names::named(&painted, &source, &parts, &groups);
    let stem = stem(&options.file_name).unwrap_or("drawing");
    let names: Vec<String> =
        named.names.into_iter().map(|name| name.unwrap_or_else(|| stem.to_owned())).collect();
    let drawings: Vec<Drawing> =
        groups.iter().zip(numbered(&names)).map(|(group, name)| drawing(name, group, &parts)).collect();
    for (element, count) in named.split {
        notes.push(Note::GroupSplit { name: element, drawings: count });
    }
    for (group, shapes) in named.merged {
        notes.push(Note::Merged { name: drawings[group].name.clone(), shapes });
    }
    let counted = [
        (off_page, Note::OffPage { count: off_page }),
        (source.texts, Note::Text { count: source.texts }),
        (source.pictures, Note::Pictures { count: source.pictures }),
        (painted.masks, Note::Masks { count: painted.masks }),
        (painted.effects, Note::Effects { count: painted.effects }),
    ];
    notes.extend(counted.into_iter().filter(|(count, _)| *count > 0).map(|(_, note)| note));
    Ok(Import {
        drawings,
        dropped_count: dropped.len() as u64,
        dropped,
        notes,
        width_mm: page.x1,
        height_mm: page.y1,
        pixels_per_mm: None,
        width_px: None,
        height_px: None,
    })
}

/// The SVG with styles, units and references resolved. Pictures and other files it names are not opened.
fn tree(source: &Source) -> Result<usvg::Tree, SvgError> {
    let options = usvg::Options {
        image_href_resolver: usvg::ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..usvg::Options::default()
    };
    usvg::Tree::from_str(&source.text, &options).map_err(|error| match error {
        usvg::Error::NotAnUtf8Str | usvg::Error::SvgzFeatureNotEnabled | usvg::Error::MalformedGZip => {
            SvgError::NotUtf8
        }
        usvg::Error::ElementsLimitReached => SvgError::TooComplex,
        usvg::Error::InvalidSize => SvgError::NoSize,
        usvg::Error::ParsingFailed(error) => source::malformed(&error),
    })
}

/// The connected parts of what each owner paints, seams between its shapes closed.
fn parts(painted: &Painted, progress: &mut Progress<'_>) -> Result<Vec<Part>, ImportError> {
    let mut by_owner: BTreeMap<usize, Vec<&[Point]>> = BTreeMap::new();
    for patch in &painted.patches {
        by_owner.entry(patch.owner).or_default().push(&patch.ring);
    }
    let owners = by_owner.len();
    let mut parts = Vec::new();
    for (i, (owner, rings)) in by_owner.into_iter().enumerate() {
        for outline in sealed(&Region::from_rings(rings)) {
            parts.push(Part { covered_mm2: outline.area(), outline, pixel_bounds: None, owner });
        }
        progress.tell((i + 1) as f64 / owners as f64)?;
    }
    Ok(parts)
}

/// The parts that lie on the page at least in part, and how many do not.
fn on_page(parts: Vec<Part>, page: Rect) -> (Vec<Part>, usize) {
    let before = parts.len();
    let visible: Vec<Part> = parts
        .into_iter()
        .filter(|part| {
            let bounds = part.outline.bounds();
            bounds.x0 < page.x1 && bounds.x1 > page.x0 && bounds.y0 < page.y1 && bounds.y1 > page.y0
        })
        .collect();
    let off_page = before - visible.len();
    (visible, off_page)
}

fn nothing(source: &Source, off_page: usize, dropped: usize, options: &ImportOptions) -> ImportError {
    let hint = if source.texts > 0 {
        Emptiness::OnlyText
    } else if source.pictures > 0 {
        Emptiness::OnlyPictures
    } else if off_page > 0 {
        Emptiness::OffPage
    } else if dropped > 0 {
        return ImportError::AllTooSmall { count: dropped as u64, least: options.min_size_mm };
    } else {
        Emptiness::NothingPainted
    };
    ImportError::NothingToCut { hint }
}
