//! What can be typed, and what it means.

use std::path::PathBuf;

use clap::{ArgGroup, Args, Parser, Subcommand, ValueEnum};
use stickleaf_press::strip;
use stickleaf_press::tone::{Correction, MOST_LIGHTER, MOST_WARMER};
use stickleaf_sheet::{LengthUnit, SHEET_SIZES, Turns, Wanted, read_length};
use stickleaf_shop::page::{PAGE_SIZES, Stock};
use stickleaf_shop::trial::CutOutcome;

/// Lays out sticker sheets: artwork to stickers with an even white border, packed on a card under spacing and margin.
///
/// Exit status: 0 all is done and the hard rules hold; 1 a rule is broken or something asked for did not fit; 2 the
/// command could not do its work, and says what to do. A file named - is standard input or output.
#[derive(Debug, Parser)]
#[command(name = "stickleaf", version)]
pub struct Options {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Makes a layout from artwork: one sticker for each separate drawing
    Trace(TraceCommand),
    /// Packs the stickers of a layout onto its sheet
    Pack(PackCommand),
    /// Lists what breaks a rule, by how much, and where
    Check(CheckCommand),
    /// Counts the pieces; says how dense they lie and how many could fit at most
    Count(CountCommand),
    /// Packs variants of a layout side by side: its background styles, or spacings, borders, sheet sizes
    Compare(CompareCommand),
    /// Finds the empty room: the largest dots that still fit, and which stickers would, how turned and how large
    Room(RoomCommand),
    /// Adds a plain shape to the stickers of a layout, to plan with before anything is drawn
    Rough(RoughCommand),
    /// Plans a page of label stock: how many sheets lie on it, where, and how large they may be
    Page(PageCommand),
    /// Works out a run: pages, time, ink, blades, stock, cost and price
    Run(RunCommand),
    /// Finds the blade's setting: a card of trial cuts, what their outcomes say, and the log of what worked
    Card(CardCommand),
    /// Writes what other programs read: placement, table, cut lines
    Export(ExportCommand),
    /// Prints the JSON Schema of the layout and the placement file
    Schema(SchemaCommand),
}

/// How the answer is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ReportFormat {
    /// A table for people.
    Text,
    /// One JSON object.
    Json,
}

/// The option that every command has.
#[derive(Debug, Args)]
pub struct ReportOption {
    /// Print one JSON object instead of a table
    #[arg(long, value_name = "FORMAT")]
    pub report: Option<ReportFormat>,
}

impl ReportOption {
    /// Whether one JSON object is asked for.
    pub fn is_json(&self) -> bool {
        self.report == Some(ReportFormat::Json)
    }
}

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
    /// Width of the white border
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "1.5")]
    pub border_mm: f64,
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

/// `check`: the findings.
#[derive(Debug, Args)]
pub struct CheckCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `count`: the score.
#[derive(Debug, Args)]
pub struct CountCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `room`: what would still fit.
#[derive(Debug, Args)]
pub struct RoomCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// How many dots at most; none is smaller than the rules' smallest sticker
    #[arg(long, value_name = "N", default_value = "10", value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub count: u32,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `page`: sheets on a page of label stock.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct PageCommand {
    /// The layout or placement file to read; several if sheets of each are wanted
    #[arg(required = true, value_name = "LAYOUT")]
    pub layouts: Vec<PathBuf>,
    /// How many sheets of each layout are wanted, in the same order: tells the fewest pages, and what lies on each
    #[arg(long, value_name = "N,N", value_delimiter = ',', value_parser = clap::value_parser!(u64).range(0..=1_000_000))]
    pub wanted: Vec<u64>,
    /// Write the pages with margin, reach and numbered sheets, as SVG
    #[arg(long, value_name = "F.svg")]
    pub picture: Option<PathBuf>,
    #[command(flatten)]
    pub stock: StockOptions,
    #[command(flatten)]
    pub report: ReportOption,
}

/// The page of label stock.
#[derive(Clone, Debug, Args)]
pub struct StockOptions {
    /// The page: a5, a4, a3, letter, legal or WIDTHxHEIGHT in mm
    #[arg(long, value_name = "SIZE", value_parser = page_size, default_value = "a4")]
    pub page: SheetSize,
    /// The part of the page that the cutter can read and cut, in its middle, as WIDTHxHEIGHT in mm; all of it if left out
    #[arg(long, value_name = "WxH", value_parser = page_size)]
    pub reach: Option<SheetSize>,
    /// What the printer leaves free at every edge
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "5")]
    pub printer_margin_mm: f64,
    /// Between two sheets; 0 for a shared edge
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "0")]
    pub gap_mm: f64,
}

impl StockOptions {
    /// The page that was typed.
    pub fn stock(&self) -> Stock {
        Stock {
            width: self.page.width,
            height: self.page.height,
            printer_margin: self.printer_margin_mm,
            reach: self.reach.map(|reach| (reach.width, reach.height)),
            gap: self.gap_mm,
        }
    }
}

/// `run`: so many sheets of each layout.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub struct RunCommand {
    /// The layout files, placement files or bundles to read
    #[arg(required = true, value_name = "LAYOUT")]
    pub layouts: Vec<PathBuf>,
    /// How many sheets of each, in the same order
    #[arg(long, required = true, value_name = "N,N", value_delimiter = ',', value_parser = clap::value_parser!(u64).range(1..=1_000_000))]
    pub sheets: Vec<u64>,
    /// Machines, prices and times, as JSON; what it leaves out is guessed, prices are 0
    #[arg(long, value_name = "F.json")]
    pub settings: Option<PathBuf>,
    /// How often the card's line is gone over; else as the settings say, or 4
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=20))]
    pub passes: Option<u32>,
    #[command(flatten)]
    pub stock: StockOptions,
    /// So many sheets lie on a page, whatever the plan says
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(1..=10_000))]
    pub sheets_per_page: Option<u64>,
    /// Add this run to the history, as JSON, and begin one if there is none
    #[arg(long, value_name = "F.json")]
    pub history: Option<PathBuf>,
    /// The day of this run in the history, written as you like
    #[arg(long, value_name = "DAY", default_value = "")]
    pub day: String,
    /// Write one row for each run of the history, this one the last, as CSV
    #[arg(long, value_name = "F.csv")]
    pub csv: Option<PathBuf>,
    #[command(flatten)]
    pub report: ReportOption,
}

/// `card`: trial cuts.
///
/// Settings are your machine's own: numbers that rise, passes, or names from the lightest to the strongest. Each is a
/// triangle in a square; print the numbers, give each trial its setting, cut, and say how they came out.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
#[command(group = ArgGroup::new("scale").args(["from", "named"]).multiple(true))]
#[group(id = "settings", required = true, multiple = true, args = ["from", "named", "log"])]
pub struct CardCommand {
    /// The card to write at true size, as SVG: what is printed and what is cut in groups of their own
    #[arg(short, long, value_name = "F.svg", requires = "scale")]
    pub output: Option<PathBuf>,
    /// The lightest setting
    #[arg(long, value_name = "N", value_parser = not_negative, requires = "to")]
    pub from: Option<f64>,
    /// The strongest setting
    #[arg(long, value_name = "N", value_parser = not_negative, requires = "from")]
    pub to: Option<f64>,
    /// How many settings from the lightest to the strongest
    #[arg(long, value_name = "N", default_value = "9", value_parser = clap::value_parser!(u32).range(1..=200))]
    pub steps: u32,
    /// The numbers are passes: each trial's lines are gone over so often
    #[arg(long, requires = "from")]
    pub passes: bool,
    /// Settings that have names, the lightest first
    #[arg(long, value_name = "NAME,NAME", value_delimiter = ',', conflicts_with_all = ["from", "to", "passes"])]
    pub named: Vec<String>,
    /// How trials came out: not-through, clean or too-deep, as in 4=not-through,7=too-deep; a setting may be there often
    #[arg(long, value_name = "SETTING=OUTCOME,…", value_delimiter = ',', value_parser = trial_outcome, requires = "scale")]
    pub outcomes: Vec<TrialOutcome>,
    /// How many trials the card has; all settings at first, then three
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=200))]
    pub trials: Option<u32>,
    /// The side of a trial's square
    #[arg(long, value_name = "MM", value_parser = positive, default_value = "10")]
    pub square_mm: f64,
    /// Between two trials
    #[arg(long, value_name = "MM", value_parser = positive, default_value = "3")]
    pub gap_mm: f64,
    /// How wide the card may be
    #[arg(long, value_name = "MM", value_parser = positive, default_value = "105")]
    pub width_mm: f64,
    /// The blade log, as JSON: what worked before suggests a setting
    #[arg(long, value_name = "F.json")]
    pub log: Option<PathBuf>,
    /// Add the outcomes to the blade log, and begin one if there is none
    #[arg(long, requires = "log", requires = "outcomes", conflicts_with = "passes")]
    pub add: bool,
    /// Your own name for the machine
    #[arg(long, value_name = "NAME", default_value = "")]
    pub machine: String,
    /// Your own name for the blade
    #[arg(long, value_name = "NAME", default_value = "")]
    pub blade: String,
    /// Your own name for the stock
    #[arg(long, value_name = "NAME", default_value = "")]
    pub material: String,
    /// How many metres the blade has cut
    #[arg(long, value_name = "M", value_parser = not_negative, default_value = "0")]
    pub blade_m: f64,
    /// How often the lines are gone over in what is logged
    #[arg(long, value_name = "N", default_value = "1", value_parser = clap::value_parser!(u32).range(1..=20))]
    pub with_passes: u32,
    /// The day to log, written as you like
    #[arg(long, value_name = "DAY", default_value = "")]
    pub day: String,
    #[command(flatten)]
    pub report: ReportOption,
}

/// How a trial came out.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialOutcome {
    /// The setting as it was typed.
    pub setting: String,
    /// The outcome.
    pub outcome: CutOutcome,
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

/// `export`: files for other programs.
#[derive(Debug, Args)]
#[group(id = "what", required = true, multiple = true, args = ["placement", "table", "guide", "sheet", "print", "cut", "bundle", "colours"])]
pub struct ExportCommand {
    /// The layout file, placement file or bundle to read
    pub layout: PathBuf,
    /// Write the placement: everything worked out, as JSON
    #[arg(long, value_name = "F.json")]
    pub placement: Option<PathBuf>,
    /// Write one row for each piece, as CSV
    #[arg(long, value_name = "F.csv")]
    pub table: Option<PathBuf>,
    /// Write a see-through guide to draw on, of exactly the drawing's pixel size, as PNG, or as SVG if the name ends so
    #[arg(long, value_name = "F.png")]
    pub guide: Option<PathBuf>,
    /// What the guide leaves out
    #[arg(long, value_enum, value_name = "PART,PART", value_delimiter = ',')]
    pub guide_without: Vec<GuidePart>,
    /// Write the composed sheet at true size, as PNG: background, white borders, art
    #[arg(long, value_name = "F.png")]
    pub sheet: Option<PathBuf>,
    /// Write a page of label stock with the sheets on it at true size, as PDF
    #[arg(long, value_name = "F.pdf")]
    pub print: Option<PathBuf>,
    /// Who gets the print: shop has the cut lines on layers of their own, home has none, to print oneself
    #[arg(long, value_enum, default_value = "shop", value_name = "WHO")]
    pub profile: ProfileWord,
    /// The print's page is a single card with its bleed, whatever --page says
    #[arg(long)]
    pub card_page: bool,
    #[command(flatten)]
    pub stock: StockOptions,
    /// Pixels to the inch of the composed sheet, the print and the guide; the layout's if left out
    #[arg(long, value_name = "N", value_parser = positive)]
    pub ppi: Option<f64>,
    /// How far the background runs past the card's edge; 0 for the sheet and 2 for the print if left out
    #[arg(long, value_name = "MM", value_parser = not_negative)]
    pub bleed_mm: Option<f64>,
    /// Write the cut lines at true size, as SVG: kiss lines in an order of short travel, then the card
    #[arg(long, value_name = "F.svg")]
    pub cut: Option<PathBuf>,
    /// Which lines go into the cut file; each writes F-kiss.svg and F-through.svg
    #[arg(long, value_enum, default_value = "all", value_name = "WHICH")]
    pub depth: DepthWord,
    /// How often the card's line is gone over, exactly on itself
    #[arg(long, value_name = "N", default_value = "1", value_parser = clap::value_parser!(u32).range(1..=20))]
    pub passes: u32,
    /// How far each line goes on past its start, so that the loop closes
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "0.5")]
    pub overrun_mm: f64,
    /// Write a colour strip to print: the sheet's main colours, each lighter to the right and warmer below; PDF, SVG or PNG by the name's end
    #[arg(long, value_name = "F.pdf")]
    pub colours: Option<PathBuf>,
    /// Sheet and print in the colours of this patch of the strip: its column, then its row; 33 is as it is
    #[arg(long, value_name = "NN", value_parser = patch, conflicts_with_all = ["lighter", "warmer"])]
    pub patch: Option<Correction>,
    /// Sheet and print so much lighter, below 0 darker, of 1 from black to white; white stays white
    #[arg(long, value_name = "X", value_parser = lighter, default_value = "0", allow_negative_numbers = true)]
    pub lighter: f64,
    /// Sheet and print so much warmer, below 0 cooler
    #[arg(long, value_name = "X", value_parser = warmer, default_value = "0", allow_negative_numbers = true)]
    pub warmer: f64,
    /// Write the layout and its pictures as one file, to pass on or to go on with on another device
    #[arg(long, value_name = "F.stickleaf")]
    pub bundle: Option<PathBuf>,
    #[command(flatten)]
    pub report: ReportOption,
}

/// Who gets a print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ProfileWord {
    /// A shop that prints and cuts
    Shop,
    /// The artist's own printer
    Home,
}

/// The parts of a guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum GuidePart {
    /// Kiss lines and the card's edge
    CutLines,
    /// Outlines of the drawings
    Outlines,
    /// A number on each piece
    Numbers,
    /// Zones
    Zones,
    /// The margin
    Margin,
}

/// Which cut lines are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum DepthWord {
    /// Kiss lines, then the card
    All,
    /// Kiss lines only
    Kiss,
    /// The card only
    Through,
    /// One file for each depth
    Each,
}

/// `schema`: what the files look like.
#[derive(Debug, Args)]
pub struct SchemaCommand {
    /// Which file; both in one object if left out
    #[arg(value_enum)]
    pub file: Option<SchemaOf>,
    #[command(flatten)]
    pub report: ReportOption,
}

/// The files that have a schema.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// The layout file
    Layout,
    /// The placement file
    Placement,
}

/// A card's width and height in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
}

fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() && value > 0.0 => Ok(value),
        _ => Err("give a number above 0".to_owned()),
    }
}

fn not_negative(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() && value >= 0.0 => Ok(value),
        _ => Err("give a number of 0 or more".to_owned()),
    }
}

fn patch(text: &str) -> Result<Correction, String> {
    let advice = || "give two digits, each 1 to 5, as in 43".to_owned();
    text.parse().ok().and_then(strip::correction).ok_or_else(advice)
}

fn lighter(text: &str) -> Result<f64, String> {
    shift(text, MOST_LIGHTER)
}

fn warmer(text: &str) -> Result<f64, String> {
    shift(text, MOST_WARMER)
}

fn shift(text: &str, most: f64) -> Result<f64, String> {
    let advice = || format!("give a number from -{most} to {most}, such as 0.02");
    text.parse::<f64>().ok().filter(|value| value.abs() <= most).ok_or_else(advice)
}

fn seconds(text: &str) -> Result<f64, String> {
    // A longer wait than a day is a slip of the hand.
    positive(text)
        .ok()
        .filter(|value| *value <= 86_400.0)
        .ok_or_else(|| "give seconds, 0.1 to 86400".to_owned())
}

fn sheet_size(text: &str) -> Result<SheetSize, String> {
    size(text, &SHEET_SIZES, "give a6, a5, or WIDTHxHEIGHT such as 100x150 (mm) or 4x6in")
}

fn page_size(text: &str) -> Result<SheetSize, String> {
    size(
        text,
        &PAGE_SIZES,
        "give a5, a4, a3, letter, legal, or WIDTHxHEIGHT such as 210x297 (mm) or 8.5x11in",
    )
}

/// A size by its name, or as two lengths.
fn size(text: &str, known: &[(&str, f64, f64)], advice: &str) -> Result<SheetSize, String> {
    let plain = |text: &str| text.to_lowercase().replace('×', "x").replace(' ', "");
    let wanted = plain(text);
    if let Some(&(_, width, height)) = known.iter().find(|(name, _, _)| plain(name) == wanted) {
        return Ok(SheetSize { width, height });
    }
    let advice = || advice.to_owned();
    let (width, height) = wanted.split_once('x').ok_or_else(advice)?;
    // In 4x6in the unit at the end counts for both.
    let unit = height.trim_start_matches(|c: char| c.is_ascii_digit() || ".,/".contains(c));
    let width = if width.ends_with(|c: char| c.is_ascii_digit()) {
        format!("{width}{unit}")
    } else {
        width.to_owned()
    };
    let length = |text: &str| {
        let mm = read_length(text, LengthUnit::Millimetres).map_err(|error| error.to_string())?;
        if mm > 0.0 { Ok(mm) } else { Err(advice()) }
    };
    Ok(SheetSize { width: length(&width)?, height: length(height)? })
}

fn trial_outcome(text: &str) -> Result<TrialOutcome, String> {
    let advice = || "give SETTING=not-through, SETTING=clean or SETTING=too-deep".to_owned();
    let (setting, word) = text.rsplit_once('=').ok_or_else(advice)?;
    let outcome = match word.trim().to_lowercase().replace(['_', ' '], "-").as_str() {
        "not-through" => CutOutcome::NotThrough,
        "clean" => CutOutcome::Clean,
        "too-deep" => CutOutcome::TooDeep,
        _ => return Err(advice()),
    };
    Ok(TrialOutcome { setting: setting.trim().to_owned(), outcome })
}

fn turns(text: &str) -> Result<Turns, String> {
    match text {
        "none" => Ok(Turns::None),
        "any" => Ok(Turns::Any),
        degrees => not_negative(degrees)
            .map(Turns::Within)
            .map_err(|_| "give none, any, or a number of degrees, 0 or more".to_owned()),
    }
}

fn wanted(text: &str) -> Result<Wanted, String> {
    let (number, wanted): (_, fn(u32) -> Wanted) = match text.strip_suffix('+') {
        Some(number) => (number, Wanted::AtLeast),
        None => (text, Wanted::Exactly),
    };
    let advice = || "give a whole number such as 2, or 2+ for at least two".to_owned();
    // A number may have a plus sign in front, which means nothing here.
    let digits = number.chars().all(|c| c.is_ascii_digit());
    number.parse().ok().filter(|_| digits).map(wanted).ok_or_else(advice)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_options_do_not_contradict_each_other() {
        Options::command().debug_assert();
    }

    #[test]
    fn sheets_are_read_as_people_write_them() {
        let size = |text| sheet_size(text).map(|size| (size.width, size.height));
        assert_eq!(size("a6"), Ok((105.0, 148.0)));
        assert_eq!(size("A5"), Ok((148.0, 210.0)));
        assert_eq!(size("100x150"), Ok((100.0, 150.0)));
        assert_eq!(size("100 × 150 mm"), Ok((100.0, 150.0)));
        assert_eq!(size("10x15cm"), Ok((100.0, 150.0)));
        assert_eq!(size("4x6in"), Ok((101.6, 152.399_999_999_999_98)));
        assert_eq!(size("2inx60mm"), Ok((50.8, 60.0)));
        for bad in ["", "b7", "100", "100x", "-5x10", "0x10", "nanx10", "1e9x5"] {
            assert!(size(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn pages_are_read_as_people_write_them() {
        let size = |text| page_size(text).map(|size| (size.width, size.height));
        assert_eq!(size("A4"), Ok((210.0, 297.0)));
        assert_eq!(size("letter"), Ok((215.9, 279.4)));
        assert_eq!(size("13x19in").map(|(width, _)| width), Ok(330.2));
        assert!(size("tabloids").is_err_and(|advice| advice.contains("letter")));
    }

    #[test]
    fn wishes_are_read() {
        assert_eq!(wanted("2"), Ok(Wanted::Exactly(2)));
        assert_eq!(wanted("0+"), Ok(Wanted::AtLeast(0)));
        assert_eq!(turns("7.5"), Ok(Turns::Within(7.5)));
        for bad in ["", "+", "-1", "+2", "2.5", "two"] {
            assert!(wanted(bad).is_err(), "{bad}");
        }
        assert!(turns("-3").is_err() && turns("some").is_err());
    }
}
