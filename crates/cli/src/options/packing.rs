//! What can be typed after `trace`, `pack`, `compare`, `rough`, `finish` and `merge`.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use stickleaf_sheet::{Turns, Wanted};

use super::ReportOption;
use super::shop::StockOptions;
use super::values::{SheetSize, not_negative, positive, radius, seconds, sheet_size, turns, wanted};

/// `trace`: artwork in, a layout out.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct TraceCommand {
    /// PNG pictures with a clear background, or SVG drawings
    #[arg(required = true, value_name = "ART")]
    pub art: Vec<PathBuf>,
    /// The layout file to write, or a bundle if the name ends with .stickleaf
    #[arg(short, long, value_name = "LAYOUT")]
    pub output: PathBuf,
    /// True size: so many pixels to the inch
    #[arg(long, value_name = "N", value_parser = positive, conflicts_with = "width_mm")]
    pub ppi: Option<f64>,
    /// True size: the whole picture is so many millimetres wide
    #[arg(long, value_name = "W", value_parser = positive)]
    pub width_mm: Option<f64>,
    /// A layout that was made from an earlier version of the pictures: its stickers get the new outlines and drawings, and
    /// keep their places, turns, counts and names
    #[arg(long, value_name = "LAYOUT", conflicts_with_all = ["keep_positions", "sheet"])]
    pub update: Option<PathBuf>,
    /// With --update: the picture of the layout that is replaced, if it is not the one of the same name or the only one
    #[arg(long, value_name = "NAME", requires = "update")]
    pub replaces: Option<String>,
    /// With --update: leave out drawings that belong to no sticker
    #[arg(long, requires = "update")]
    pub no_new: bool,
    /// Width of the white border [default: 1.5, or that of the layout to update]
    #[arg(long, value_name = "MM", value_parser = not_negative)]
    pub border_mm: Option<f64>,
    /// Round inward corners of the cut lines to this radius at least, outward into the notch; 0 leaves them sharp
    #[arg(long, value_name = "MM", value_parser = radius, default_value = "0")]
    pub inner_radius_mm: f64,
    /// Round outward corners of the cut lines to this radius at least, round the outside; 0 leaves them sharp
    #[arg(long, value_name = "MM", value_parser = radius, default_value = "0")]
    pub outer_radius_mm: f64,
    /// How far the traced line may stray from the drawing's edge
    #[arg(long, value_name = "MM", value_parser = positive)]
    pub detail_mm: Option<f64>,
    /// Parts shorter than this on both sides are dropped, and said so
    #[arg(long, value_name = "MM", value_parser = not_negative)]
    pub min_size_mm: Option<f64>,
    /// Cover from which a pixel counts as drawn, 1 to 255
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..))]
    pub alpha: Option<u8>,
    /// Parts that one border surrounds become one sticker; this is the default
    #[arg(long, overrides_with = "no_join")]
    pub join: bool,
    /// Every separate part becomes a sticker of its own
    #[arg(long)]
    pub no_join: bool,
    /// Put one piece on the sheet where each drawing is in its picture
    #[arg(long)]
    pub keep_positions: bool,
    /// The card: a6, a5, 4x6in, 5x7in, 4.25x6.5in or WIDTHxHEIGHT in mm; else the size of a single picture with several
    /// drawings if that is a card's, else A6
    #[arg(long, value_name = "SIZE", value_parser = sheet_size)]
    pub sheet: Option<SheetSize>,
    /// Which turns packing may give: none, any, or up to N degrees to either side
    #[arg(long, value_name = "none|any|N", value_parser = turns, default_value = "15")]
    pub turns: Turns,
    /// How many copies of each: N for exactly, N+ for at least
    #[arg(long, value_name = "N|N+", value_parser = wanted, default_value = "1+")]
    pub wanted: Wanted,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `pack`: a layout in, a fuller layout out.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct PackCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// The layout file to write, or a bundle if the name ends with .stickleaf
    #[arg(short, long, value_name = "OUT")]
    pub output: PathBuf,
    /// What to aim for
    #[arg(long, value_enum, default_value = "place")]
    pub aim: AimWord,
    /// How long to search; 10 unless rounds are given
    #[arg(long, value_name = "S", value_parser = seconds)]
    pub seconds: Option<f64>,
    /// How many rounds to search; the same layout, seed, rounds and threads give the same answer
    #[arg(long, value_name = "N")]
    pub rounds: Option<u64>,
    /// Where chance starts; another seed searches another way
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    /// How many searches run side by side, with the seeds that follow; the best counts
    #[arg(long, value_name = "N", default_value = "1", value_parser = clap::value_parser!(u32).range(1..=64))]
    pub threads: u32,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `compare`: variants of a layout, and what each holds.
///
/// Each is packed from a bare sheet, on which only locked pieces lie, with the same aim, seed and time or rounds.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct CompareCommand {
    /// The layout file, placement file or bundle to read; it stays as it is
    pub layout: PathBuf,
    /// Compare no background and every background style of the layout; this is done if nothing else is asked for
    #[arg(long)]
    pub backgrounds: bool,
    /// Compare these spacings between cut lines
    #[arg(long, alias = "spacings", value_name = "MM,MM", value_delimiter = ',', value_parser = not_negative)]
    pub spacings_mm: Vec<f64>,
    /// Compare these white borders
    #[arg(long, alias = "borders", value_name = "MM,MM", value_delimiter = ',', value_parser = not_negative)]
    pub borders_mm: Vec<f64>,
    /// Compare these cards: a6, a5, 4x6in, 5x7in, 4.25x6.5in or WIDTHxHEIGHT in mm
    #[arg(long, value_name = "SIZE,SIZE", value_delimiter = ',', value_parser = sheet_size)]
    pub sheets: Vec<SheetSize>,
    /// What to aim for
    #[arg(long, value_enum, default_value = "fill")]
    pub aim: CompareAim,
    /// How long to search for each; 10 unless rounds are given
    #[arg(long, value_name = "S", value_parser = seconds)]
    pub seconds: Option<f64>,
    /// How many rounds to search for each; the same layout, seed, rounds and threads give the same answer
    #[arg(long, value_name = "N")]
    pub rounds: Option<u64>,
    /// Where chance starts, for each
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    /// How many searches run side by side for each, with the seeds that follow; the best counts
    #[arg(long, value_name = "N", default_value = "1", value_parser = clap::value_parser!(u32).range(1..=64))]
    pub threads: u32,
    /// Write one row for each variant, as CSV
    #[arg(long, value_name = "F.csv")]
    pub table: Option<PathBuf>,
    /// Write the sheets with their figures side by side, as SVG
    #[arg(long, value_name = "F.svg")]
    pub picture: Option<PathBuf>,
    /// The shop's prices and times, as JSON: tells what a sheet and a sticker of each cost, ink aside
    #[arg(long, value_name = "F.json")]
    pub settings: Option<PathBuf>,
    /// With --settings: how many sheets are made in the run that tells the costs
    #[arg(long, value_name = "N", default_value = "100", requires = "settings", value_parser = clap::value_parser!(u64).range(1..=1_000_000))]
    pub run: u64,
    #[command(flatten)]
    pub stock: StockOptions,
    #[command(flatten)]
    pub report: ReportOption,
}

/// What variants can be packed for, to be held against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum CompareAim {
    /// As many as fit
    Fill,
    /// These, all of them
    Place,
}

/// What packing can aim for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum AimWord {
    /// These, all of them
    Place,
    /// As many as fit
    Fill,
    /// All of them, as large as possible
    Grow,
    /// All of them, the smallest gap as large as possible
    Even,
    /// All of them, on the lowest sheet
    Shorten,
}

/// `rough`: a plain shape to plan with.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct RoughCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// The layout file to write, or a bundle if the name ends with .stickleaf
    #[arg(short, long, value_name = "OUT")]
    pub output: PathBuf,
    /// Which shape
    #[arg(long, value_enum)]
    pub shape: ShapeWord,
    /// How wide, without its border; a usual width if left out
    #[arg(long, value_name = "W", value_parser = positive)]
    pub width_mm: Option<f64>,
    /// How high, without its border; what suits the width if left out
    #[arg(long, value_name = "H", value_parser = positive)]
    pub height_mm: Option<f64>,
    /// What it is called; the shape's name if left out
    #[arg(long)]
    pub name: Option<String>,
    /// Which turns packing may give: none, any, or up to N degrees to either side
    #[arg(long, value_name = "none|any|N", value_parser = turns, default_value = "15")]
    pub turns: Turns,
    /// How many copies: N for exactly, N+ for at least
    #[arg(long, value_name = "N|N+", value_parser = wanted, default_value = "1+")]
    pub wanted: Wanted,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `finish`: cut lines that a drag blade can follow.
///
/// Lines only ever move outward, so no border becomes narrower. A radius that was asked for stays with the sticker, and
/// is met again after its border or its picture have changed.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct FinishCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// The layout file to write, or a bundle if the name ends with .stickleaf
    #[arg(short, long, value_name = "OUT")]
    pub output: PathBuf,
    /// Only these stickers, by their ids; all of them if left out
    #[arg(long, value_name = "ID,ID", value_delimiter = ',')]
    pub sticker: Vec<String>,
    /// Smallest radius of corners that point inward; 0 takes it back
    #[arg(long, value_name = "MM", value_parser = radius)]
    pub inner_radius_mm: Option<f64>,
    /// Smallest radius of corners that point outward; 0 takes it back
    #[arg(long, value_name = "MM", value_parser = radius)]
    pub outer_radius_mm: Option<f64>,
    /// Widen every part that is thinner than the rules' thinnest
    #[arg(long)]
    pub thicken: bool,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `merge`: two pieces made one sticker.
///
/// One outline goes round both drawings as they lie on the sheet, with a bridge between them. Where they do not lie as in one
/// and the same picture, a picture of both is written beside the layout, or into the bundle.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct MergeCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// The layout file to write, or a bundle if the name ends with .stickleaf
    #[arg(short, long, value_name = "OUT")]
    pub output: PathBuf,
    /// The two pieces, by their position in the layout, counted from 0 as in reports
    #[arg(long, value_name = "N,N", value_delimiter = ',', required = true)]
    pub pieces: Vec<usize>,
    /// What the sticker is called; both names if left out
    #[arg(long)]
    pub name: Option<String>,
    #[command(flatten)]
    pub report: ReportOption,
}

/// The plain shapes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ShapeWord {
    /// As wide as it is high
    Disc,
    /// An ellipse
    Oval,
    /// A box with round corners
    Box,
    /// A heart, tip down
    Heart,
    /// A star with five tips
    Star,
    /// A banner with forked ends
    Ribbon,
}
