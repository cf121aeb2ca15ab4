//! Stickleaf at the command line.
//!
//! Reads what was typed, runs one command, and turns what became of it into the exit status: 0 when all is done and
//! the hard rules hold, 1 when a rule is broken or something asked for did not fit, 2 when the command could not do
//! its work.

mod card;
mod check;
mod columns;
mod compare;
mod count;
mod disk;
mod export;
mod finish;
mod history;
mod layouts;
mod merge;
mod options;
mod output;
mod pack;
mod page;
mod pictures;
mod room;
mod rough;
mod run;
mod schema;
mod search;
mod trace;
mod trouble;

use std::process::ExitCode;

use clap::Parser;

use crate::options::{Command, Options};
use crate::trouble::Trouble;

/// How a command ended that did its work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// All is done and the hard rules hold.
    Done,
    /// A hard rule is broken, or something asked for did not fit.
    Lacking,
}

fn main() -> ExitCode {
    match run(&Options::parse().command) {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::Lacking) => ExitCode::from(1),
        Err(trouble) => {
            output::tell(&trouble.to_string());
            ExitCode::from(2)
        }
    }
}

fn run(command: &Command) -> Result<Outcome, Trouble> {
    match command {
        Command::Trace(typed) => trace::run(typed),
        Command::Pack(typed) => pack::run(typed),
        Command::Check(typed) => check::run(typed),
        Command::Count(typed) => count::run(typed),
        Command::Compare(typed) => compare::run(typed),
        Command::Room(typed) => room::run(typed),
        Command::Rough(typed) => rough::run(typed),
        Command::Finish(typed) => finish::run(typed),
        Command::Merge(typed) => merge::run(typed),
        Command::Page(typed) => page::run(typed),
        Command::Run(typed) => run::run(typed),
        Command::Card(typed) => card::run(typed),
        Command::Export(typed) => export::run(typed),
        Command::Schema(typed) => schema::run(typed),
    }
}
