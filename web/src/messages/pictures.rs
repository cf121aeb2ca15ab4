//! What the page asks of the worker that reads and makes pictures, and its answers.

use serde::{Deserialize, Serialize};
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::page::Stock;

/// What the page asks of the worker for pictures.
#[derive(Debug, Serialize, Deserialize)]
pub enum PictureAsk {
    /// Find the separate drawings of pictures; their bytes go along, in this order.
    Import {
        /// The files' names.
        names: Vec<String>,
        /// How to look at them.
        wishes: ImportWishes,
    },
    /// Take a bundle apart; its bytes go along.
    Unpack,
    /// Measure the ink of a sheet; the bytes of the pictures that are there go along, in this order.
    Ink {
        /// The text of the layout file.
        layout: String,
        /// The names by which the layout knows the pictures.
        pictures: Vec<String>,
    },
    /// Make something that leaves; the bytes of the pictures that are there go along, in this order.
    Press {
        /// The text of the layout file.
        layout: String,
        /// The names by which the layout knows the pictures.
        pictures: Vec<String>,
        /// What to make.
        order: PressOrder,
    },
    /// Make something of the pages that several layouts share; the bytes of all their pictures go along, layout by layout.
    Pages {
        /// The layouts.
        designs: Vec<DesignAsk>,
        /// The page.
        stock: Stock,
        /// What to make.
        order: PagesOrder,
    },
}

/// A layout of several, and how many sheets of it are wanted.
#[derive(Debug, Serialize, Deserialize)]
pub struct DesignAsk {
    /// The text of the layout file.
    pub layout: String,
    /// The names by which the layout knows those of its pictures that are there.
    pub pictures: Vec<String>,
    /// How many sheets.
    pub wanted: u64,
}

/// What to make of pages that several layouts share.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PagesOrder {
    /// All pages that differ, as PDF.
    Print {
        /// Whether the artist prints it; then there are no cut lines in it.
        is_home: bool,
    },
    /// The cut lines of one of them, as SVG.
    Cut {
        /// Which page, by its position.
        page: usize,
        /// How often a card's line is gone over.
        passes: u32,
    },
}

/// What the worker for pictures answers.
#[derive(Debug, Serialize, Deserialize)]
pub enum PictureAnswer {
    /// How far the search for drawings is, 0 to 1, and in which file.
    Importing {
        /// The file's name.
        name: String,
        /// 0 to 1.
        part: f64,
    },
    /// The drawings of all files.
    Imported(Vec<Imported>),
    /// What was in the bundle; the bytes of the pictures go along, in this order.
    Unpacked(Unpacked),
    /// How much ink covers the sheet.
    Inked(Coverage),
    /// How far the making is, 0 to 1.
    Pressing(f64),
    /// It is made; its bytes go along.
    Pressed(Made),
    /// It could not be done; a sentence that says what to do.
    Refused(String),
}

/// What was in a bundle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Unpacked {
    /// The text of the layout file.
    pub layout: String,
    /// Its pictures.
    pub pictures: Vec<UnpackedPicture>,
    /// Entries that no layout of this version names.
    pub passed_over: Vec<String>,
}

/// A picture of a bundle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnpackedPicture {
    /// The name by which the layout knows it.
    pub name: String,
    /// Its width and height in pixels, in CSS pixels for a drawing without pixels; nothing if it does not say.
    pub size_px: Option<(f64, f64)>,
}

/// What to make of a layout.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum PressOrder {
    /// The guide to draw on, as PNG.
    Guide(GuideParts),
    /// The composed sheet as PNG.
    Sheet {
        /// How far it reaches past the card's edge, in millimetres.
        bleed_mm: f64,
    },
    /// A page with sheets on it, as PDF.
    Print {
        /// Whether the artist prints it; then there are no cut lines in it.
        is_home: bool,
        /// The page.
        stock: Stock,
    },
    /// The colour strip, as PDF.
    Strip,
    /// The cut lines, as SVG.
    Cut {
        /// The page whose sheets are cut together; nothing for a single card.
        page: Option<Stock>,
        /// Which lines.
        depths: CutDepths,
        /// How often the card's line is gone over.
        passes: u32,
    },
    /// The layout and its pictures in one file.
    Bundle {
        /// Whether pictures go along whole, and not only the parts of them that stickers have.
        is_whole: bool,
    },
    /// One picture of two drawings that become one sticker.
    Merged {
        /// The two pieces, by their position in the layout.
        pieces: [usize; 2],
    },
}

/// Which lines a cut has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CutDepths {
    /// Kiss lines, then the through lines.
    All,
    /// Kiss lines only.
    Kiss,
    /// Through lines only.
    Through,
}

/// What a guide shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct GuideParts {
    /// Kiss lines and the card's edge.
    pub cut_lines: bool,
    /// Outlines of the drawings.
    pub outlines: bool,
    /// A number on each piece.
    pub numbers: bool,
    /// Zones.
    pub zones: bool,
    /// The margin.
    pub margin: bool,
}

/// What was made.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Made {
    /// Width and height in pixels, if it is a picture of pixels.
    pub pixels: Option<(u32, u32)>,
    /// Where a picture lies on its sticker, if it was made for one: its left and top edge in millimetres, and how many pixels
    /// make one.
    pub placed: Option<(f64, f64, f64)>,
    /// How many sheets lie on the page, if it is a print.
    pub sheets: Option<usize>,
    /// The pictures that a bundle should hold and does not, by the names by which the layout knows them.
    pub missing: Vec<String>,
    /// The pictures of which a bundle holds only the parts that stickers have, by the names by which the layout knows them.
    pub left: Vec<String>,
    /// The main colours of the sheet, if it is a colour strip.
    pub colours: Option<Vec<[u8; 3]>>,
    /// What it takes, if it is a cut.
    pub cut: Option<CutMade>,
}

/// What a cut takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutMade {
    /// Through how many points the kiss lines go.
    pub nodes: usize,
    /// The way of the lifted blade between them, in millimetres.
    pub travel_mm: f64,
    /// What no order can undercut.
    pub least_travel_mm: f64,
}

/// How pictures are looked at.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ImportWishes {
    /// Pixels to the inch; nothing to believe the file.
    pub ppi: Option<f64>,
    /// The width of the whole picture in millimetres, in place of that.
    pub width_mm: Option<f64>,
    /// The white border in millimetres, which joins parts.
    pub border_mm: f64,
    /// What is smaller is left out, in millimetres.
    pub smallest_mm: f64,
    /// The smallest radius of inward corners of the cut lines in millimetres; 0 leaves them sharp.
    pub inner_radius_mm: f64,
    /// The same of outward corners.
    pub outer_radius_mm: f64,
    /// Whether parts whose borders meet are one sticker.
    pub join: bool,
}

/// What was found in one file.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Imported {
    /// The file's name.
    pub name: String,
    /// The stickers, as the text of a layout file.
    pub layout: String,
    /// The width of the whole picture in millimetres.
    pub width_mm: f64,
    /// Its height.
    pub height_mm: f64,
    /// The size that the file itself gives a drawing without pixels, in millimetres.
    pub drawn_mm: (f64, f64),
    /// Its width and height in pixels; nothing for a drawing without pixels.
    pub pixels: Option<(u32, u32)>,
    /// Whether the file said its size itself.
    pub is_size_known: bool,
    /// What was left out.
    pub dropped: Vec<String>,
    /// What else is worth knowing, a sentence each.
    pub notes: Vec<String>,
    /// Why nothing could be had from the file.
    pub trouble: Option<String>,
}
