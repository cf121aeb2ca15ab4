//! What can be typed, and what it means.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

/// Measures the packer against published figures and against plain ways to pack.
///
/// Exit status: 0 measured, and every layout is sound; 1 a layout is not sound or lacks pieces; 2 nothing was measured.
#[derive(Debug, Parser)]
#[command(name = "bench", bin_name = "cargo xtask bench", version)]
pub struct Options {
    /// What to measure.
    #[command(subcommand)]
    pub command: Command,
}

/// What can be measured.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Packs published strip instances, all pieces on the shortest strip, and compares with published densities
    Packing(PackingCommand),
    /// Packs in the real page, in one worker: its pace beside the native library's, and strip instances
    Browser(BrowserCommand),
    /// Fills sheets of real drawings, and compares with boxes packed by a library and with grids
    Sheets(SheetsCommand),
    /// Packs equal discs: as many as fit on sheets, as large as fit in a square
    Discs(DiscsCommand),
    /// Spreads the pieces of layouts out, and compares with how far apart they come if they are only placed
    Spread(SpreadCommand),
    /// Tells how fast the search goes with few pieces and with many
    Scale(ScaleCommand),
}

/// `packing`.
#[derive(Debug, Args)]
pub struct PackingCommand {
    /// The folder with the instances, one .json file each; the format is described in crates/bench/README.md
    #[arg(long, value_name = "DIR")]
    pub instances: PathBuf,
    /// Only these instances
    #[arg(long, value_name = "NAME,...", value_delimiter = ',')]
    pub only: Vec<String>,
    /// When to look at the best so far; the longest time is how long an instance is searched for each seed
    #[arg(long, value_name = "S,...", value_delimiter = ',', value_parser = seconds, default_value = "10,60,600")]
    pub seconds: Vec<f64>,
    /// One run for each; a run's searches have the seeds 1000 times this and the numbers that follow
    #[arg(long, value_name = "N,...", value_delimiter = ',', default_value = "1,2,3")]
    pub seeds: Vec<u64>,
    #[command(flatten)]
    pub threads: ThreadsOption,
    #[command(flatten)]
    pub output: OutputOptions,
}

/// `browser`.
#[derive(Debug, Args)]
pub struct BrowserCommand {
    /// Also shorten the strip instances of this folder in the page, one .json file each (crates/bench/README.md)
    #[arg(long, value_name = "DIR")]
    pub instances: Option<PathBuf>,
    /// Only these instances
    #[arg(long, value_name = "NAME,...", value_delimiter = ',', requires = "instances")]
    pub only: Vec<String>,
    /// How long to shorten each instance
    #[arg(long, value_name = "S", value_parser = seconds, default_value = "60")]
    pub seconds: f64,
    /// Where chance starts
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    /// How many times to measure the pace on each layout; the median counts, and 0 leaves the pace out
    #[arg(long, value_name = "N", default_value = "3")]
    pub runs: usize,
    #[command(flatten)]
    pub output: OutputOptions,
}

/// `sheets`.
#[derive(Debug, Args)]
pub struct SheetsCommand {
    /// Only these sheets
    #[arg(long, value_name = "NAME,...", value_delimiter = ',')]
    pub only: Vec<String>,
    /// When to look at the best so far
    #[arg(long, value_name = "S,...", value_delimiter = ',', value_parser = seconds, default_value = "10,60")]
    pub seconds: Vec<f64>,
    #[command(flatten)]
    pub search: SearchOptions,
}

/// `discs`.
#[derive(Debug, Args)]
pub struct DiscsCommand {
    /// Only the sheets, as many as fit
    #[arg(long, conflicts_with = "only_grow")]
    pub only_fill: bool,
    /// Only the squares, as large as fit
    #[arg(long)]
    pub only_grow: bool,
    /// When to look at the best so far
    #[arg(long, value_name = "S,...", value_delimiter = ',', value_parser = seconds, default_value = "10")]
    pub seconds: Vec<f64>,
    #[command(flatten)]
    pub search: SearchOptions,
}

/// `spread`.
#[derive(Debug, Args)]
pub struct SpreadCommand {
    /// The folder with the layouts, one .json file each
    #[arg(long, value_name = "DIR", default_value = "sample-layouts/rooftop-night")]
    pub layouts: PathBuf,
    /// When to look at the best so far
    #[arg(long, value_name = "S,...", value_delimiter = ',', value_parser = seconds, default_value = "10")]
    pub seconds: Vec<f64>,
    #[command(flatten)]
    pub search: SearchOptions,
}

/// `scale`.
#[derive(Debug, Args)]
pub struct ScaleCommand {
    /// How many pieces
    #[arg(
        long,
        value_name = "N,...",
        value_delimiter = ',',
        value_parser = clap::value_parser!(u32).range(1..=5000),
        default_value = "10,30,100,300,1000"
    )]
    pub pieces: Vec<u32>,
    /// How long to search for each
    #[arg(long, value_name = "S", value_parser = seconds, default_value = "10")]
    pub seconds: f64,
    /// Where chance starts
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    #[command(flatten)]
    pub output: TableOption,
}

/// How layouts are searched, and where the answers go.
#[derive(Debug, Args)]
pub struct SearchOptions {
    /// The searches have the seeds 1000 times this and the numbers that follow
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    #[command(flatten)]
    pub threads: ThreadsOption,
    #[command(flatten)]
    pub output: OutputOptions,
}

/// Where the table goes besides standard output.
#[derive(Debug, Args)]
pub struct TableOption {
    /// Also write the table to this file
    #[arg(short, long, value_name = "FILE.md")]
    pub output: Option<PathBuf>,
}

/// How many searches run side by side.
#[derive(Debug, Args)]
pub struct ThreadsOption {
    /// How many searches run side by side; the best counts
    #[arg(long, value_name = "N", default_value = "2", value_parser = clap::value_parser!(u32).range(1..=64))]
    pub threads: u32,
}

/// Where answers go besides standard output.
#[derive(Debug, Args)]
pub struct OutputOptions {
    #[command(flatten)]
    pub table: TableOption,
    /// Also write a picture of the best layouts to this folder
    #[arg(long, value_name = "DIR")]
    pub pictures: Option<PathBuf>,
}

/// Times in rising order, each once.
pub fn rising(seconds: &[f64]) -> Vec<f64> {
    let mut seconds = seconds.to_vec();
    seconds.sort_by(f64::total_cmp);
    seconds.dedup();
    seconds
}

fn seconds(text: &str) -> Result<f64, String> {
    match text.trim().parse::<f64>() {
        Ok(seconds) if seconds > 0.0 && seconds.is_finite() => Ok(seconds),
        _ => Err("give seconds as a number above 0".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn options_are_consistent() {
        Options::command().debug_assert();
    }

    #[test]
    fn lists_and_defaults_are_read() {
        let typed = |line: &str| Options::try_parse_from(line.split_whitespace());
        let Ok(Options { command: Command::Packing(packing) }) =
            typed("bench packing --instances x --only fu,mao")
        else {
            panic!("`packing` is not read");
        };
        assert_eq!(packing.only, ["fu", "mao"]);
        assert_eq!(
            (packing.seconds.as_slice(), packing.seeds.as_slice()),
            ([10.0, 60.0, 600.0].as_slice(), [1, 2, 3].as_slice())
        );
        assert!(typed("bench packing").is_err());
        assert!(typed("bench packing --instances x --seconds 0").is_err());
        assert_eq!(rising(&[60.0, 10.0, 60.0]), [10.0, 60.0]);
    }
}
