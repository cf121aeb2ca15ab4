//! Measures the packer: against densities that others have published, and against plain ways to pack.
//!
//! Run by `cargo xtask bench packing …`. Each command is a module of its own: `packing`. They stand on `run` (searches
//! side by side, by the clock), `verify` (a second look that shares nothing with the packer), `table`, `picture` and
//! `output`. Published figures are in `published`, with their source beside them.

mod instance;
mod options;
mod output;
mod packing;
mod picture;
mod published;
mod run;
mod strip;
mod table;
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
