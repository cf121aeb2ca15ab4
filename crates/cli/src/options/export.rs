//! What can be typed after `export`.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use stickleaf_press::cut::{CutOptions, Depths};
use stickleaf_press::print::Profile;
use stickleaf_sheet::Correction;

use super::values::{lighter, not_negative, patch, positive, warmer};
use super::{ReportOption, StockOptions};

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
    #[command(flatten)]
    pub print: PrintFile,
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
    #[command(flatten)]
    pub cut: CutFile,
    /// The cut file is of the whole page, its sheets where the print has them, in place of a single card
    #[arg(long, requires = "cut", conflicts_with = "card_page")]
    pub whole_page: bool,
    /// Write a colour strip to print: the sheet's main colours, each lighter to the right and warmer below; PDF, SVG or PNG by the name's end
    #[arg(long, value_name = "F.pdf")]
    pub colours: Option<PathBuf>,
    /// Sheet and print in the colours of this patch of the strip, whatever the layout says: its column, then its row; 33 is as
    /// it is
    #[arg(long, value_name = "NN", value_parser = patch, conflicts_with_all = ["lighter", "warmer", "no_correction"])]
    pub patch: Option<Correction>,
    /// Sheet and print so much lighter, below 0 darker, of 1 from black to white; white stays white
    #[arg(long, value_name = "X", value_parser = lighter, allow_negative_numbers = true)]
    pub lighter: Option<f64>,
    /// Sheet and print so much warmer, below 0 cooler
    #[arg(long, value_name = "X", value_parser = warmer, allow_negative_numbers = true)]
    pub warmer: Option<f64>,
    /// Sheet and print without the correction of colours that the layout has
    #[arg(long, conflicts_with_all = ["lighter", "warmer"])]
    pub no_correction: bool,
    /// Write the layout and its pictures as one file, to pass on or to go on with on another device
    #[arg(long, value_name = "F.stickleaf")]
    pub bundle: Option<PathBuf>,
    /// The bundle takes pictures whole, what is no sticker too; else of a picture with several drawings each sticker's part
    #[arg(long, requires = "bundle")]
    pub whole_pictures: bool,
    #[command(flatten)]
    pub report: ReportOption,
}

/// The print to write, and who gets it.
#[derive(Debug, Args)]
pub struct PrintFile {
    /// Write the page of label stock with the sheets on it at true size, as PDF
    #[arg(id = "print", long = "print", value_name = "F.pdf")]
    pub file: Option<PathBuf>,
    /// Who gets the print: shop has the cut lines on layers of their own, home has none, to print oneself
    #[arg(long, value_enum, default_value = "shop", value_name = "WHO")]
    pub profile: ProfileWord,
}

/// The cut file to write, and how.
#[derive(Debug, Args)]
pub struct CutFile {
    /// Write the cut lines at true size, as SVG: kiss lines in an order of short travel, then the card
    #[arg(id = "cut", long = "cut", value_name = "F.svg")]
    pub file: Option<PathBuf>,
    /// Which lines go into the cut file; each writes F-kiss.svg and F-through.svg
    #[arg(long, value_enum, default_value = "all", value_name = "WHICH")]
    pub depth: DepthWord,
    /// How often the card's line is gone over, exactly on itself
    #[arg(long, value_name = "N", default_value = "1", value_parser = clap::value_parser!(u32).range(1..=20))]
    pub passes: u32,
    /// How far each line goes on past its start, so that the loop closes
    #[arg(long, value_name = "MM", value_parser = not_negative, default_value = "0.5")]
    pub overrun_mm: f64,
}

impl CutFile {
    /// How the lines are made.
    pub fn options(&self) -> CutOptions {
        CutOptions { passes: self.passes, overrun: self.overrun_mm, ..CutOptions::default() }
    }

    /// The files to write, and which lines go into each; none if no cut is asked for.
    pub fn files(&self) -> Vec<(PathBuf, Depths)> {
        let Some(file) = &self.file else { return Vec::new() };
        match self.depth {
            DepthWord::All => vec![(file.clone(), Depths::All)],
            DepthWord::Kiss => vec![(file.clone(), Depths::Kiss)],
            DepthWord::Through => vec![(file.clone(), Depths::Through)],
            DepthWord::Each => {
                vec![(beside(file, "kiss"), Depths::Kiss), (beside(file, "through"), Depths::Through)]
            }
        }
    }
}

/// The file's own name with a word behind it.
pub fn beside(file: &Path, word: &str) -> PathBuf {
    let stem = file.file_stem().unwrap_or_default().to_string_lossy();
    let ending = file.extension().map_or(String::new(), |ending| format!(".{}", ending.to_string_lossy()));
    file.with_file_name(format!("{stem}-{word}{ending}"))
}

/// Who gets a print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ProfileWord {
    /// A shop that prints and cuts
    Shop,
    /// The artist's own printer
    Home,
}

impl ProfileWord {
    /// The profile that was typed.
    pub fn profile(self) -> Profile {
        match self {
            ProfileWord::Shop => Profile::Shop,
            ProfileWord::Home => Profile::Home,
        }
    }
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
