//! What can be typed, and what it means.

mod export;
mod packing;
mod shop;
mod values;

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

pub use export::*;
pub use packing::*;
pub use shop::*;

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
    /// Finishes cut lines for a drag blade: rounds corners, widens thin parts, always outward
    Finish(FinishCommand),
    /// Makes one sticker of two pieces that lie near each other
    Merge(MergeCommand),
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

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_options_do_not_contradict_each_other() {
        Options::command().debug_assert();
    }
}
