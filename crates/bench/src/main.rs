//! Measures the packer: against densities that others have published, and against plain ways to pack.
//!
//! Run by `cargo xtask bench packing …` and its like. Each command is a module of its own: `packing` (with `cases`,
//! `instance` and `strip`), `browser` (the same cases in the page), `sheets` (with `themes`, `art`, and the plain ways
//! `boxes`, `grids` and `free`), `discs`, `spread`, and `scale` (with `phases`). They stand on `run` (searches side by side,
//! by the clock), `verify` (a second look that shares nothing with the packer), `table`, `picture` and `output`. Figures to
//! be held against are in `published` and `reference_discs`, with their sources beside them.

mod art;
mod boxes;
mod browser;
mod cases;
mod chance;
mod discs;
mod free;
mod grids;
mod instance;
mod options;
mod output;
mod packing;
mod phases;
mod picture;
mod published;
mod reference_discs;
mod run;
mod scale;
mod sheets;
mod spread;
mod strip;
mod table;
mod themes;
mod trouble;
mod verify;

use std::process::ExitCode;

use clap::Parser;

use options::{Command, Options};

/// What a measurement came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// Every layout is sound and complete.
    Sound,
    /// A layout is not sound, or lacks pieces.
    Lacking,
}

fn main() -> ExitCode {
    let measured = match Options::parse().command {
        Command::Packing(typed) => packing::run(&typed),
        Command::Browser(typed) => browser::run(&typed),
        Command::Sheets(typed) => sheets::run(&typed),
        Command::Discs(typed) => discs::run(&typed),
        Command::Spread(typed) => spread::run(&typed),
        Command::Scale(typed) => scale::run(&typed),
    };
    match measured {
        Ok(Outcome::Sound) => ExitCode::SUCCESS,
        Ok(Outcome::Lacking) => ExitCode::from(1),
        Err(trouble) => {
            eprintln!("bench: {trouble}");
            ExitCode::from(2)
        }
    }
}
