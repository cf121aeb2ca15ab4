//! What can be typed after `page`, `run` and `card`.

use std::path::PathBuf;

use clap::{ArgGroup, Args};
use stickleaf_shop::page::Stock;
use stickleaf_shop::trial::CutOutcome;

use super::values::{SheetSize, not_negative, page_size, positive, timed_part, trial_outcome};
use super::{CutFile, PrintFile, ReportOption};

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
    pub print: PrintFile,
    #[command(flatten)]
    pub cut: CutFile,
    /// Pixels to the inch of the composed sheets; each layout's own if left out
    #[arg(long, value_name = "N", value_parser = positive)]
    pub ppi: Option<f64>,
    /// How far a background runs past the card's edge
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "2")]
    pub bleed_mm: f64,
    /// Print without the corrections of colours that the layouts have
    #[arg(long)]
    pub no_correction: bool,
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
    /// Two jobs that were timed, without loading: the kiss lines, the through lines or all of one sheet, and the seconds they took. The
    /// machine's speed and lift time follow from them
    #[arg(long, value_name = "LAYOUT:kiss|through|all=SECONDS,…", value_delimiter = ',', value_parser = timed_part)]
    pub timed: Vec<TimedPart>,
    /// Write the settings with what was found from the timed jobs, as JSON
    #[arg(long, value_name = "F.json", requires = "timed")]
    pub write_settings: Option<PathBuf>,
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
    /// From one setting to the next, instead of how many there are
    #[arg(long, value_name = "N", value_parser = positive, requires = "from", conflicts_with_all = ["steps", "passes", "named"])]
    pub step: Option<f64>,
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

/// A sheet, or a part of it, whose cutting was timed.
#[derive(Clone, Debug, PartialEq)]
pub struct TimedPart {
    /// The layout file.
    pub layout: PathBuf,
    /// What was cut of it.
    pub what: TimedWord,
    /// How long it took.
    pub seconds: f64,
}

/// What was cut of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TimedWord {
    /// Kiss lines and the card in all its passes.
    All,
    /// Kiss lines only.
    Kiss,
    /// The card only, in all its passes.
    Through,
}

/// How a trial came out.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialOutcome {
    /// The setting as it was typed.
    pub setting: String,
    /// The outcome.
    pub outcome: CutOutcome,
}
