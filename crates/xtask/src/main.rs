//! Builds, serves, tests and measures Stickleaf: `cargo xtask`.
//!
//! Each command is a module of its own; `options` says what was typed, `install` what has to be on the machine.
//! Everything runs with plain cargo, and with node and Chromium for the browser stories.

mod bench;
mod browser;
mod build;
mod dist;
mod install;
mod names;
mod offline;
mod optimise;
mod options;
mod programs;
mod samples;
mod serve;
mod site;
mod test;
mod trouble;
mod workspace;

use std::process::ExitCode;

use options::Task;
use trouble::Trouble;
use workspace::Workspace;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("xtask: {trouble}");
            ExitCode::from(trouble.exit_code())
        }
    }
}

fn run() -> Result<(), Trouble> {
    let task = options::read(std::env::args().skip(1))?;
    if let Task::Help = task {
        println!("{}", options::USAGE);
        return Ok(());
    }
    let workspace = Workspace::find()?;
    match task {
        Task::Help => Ok(()),
        Task::Build(profile) => build::build(&workspace, profile).map(drop),
        Task::Serve(how) => serve::serve(&workspace, &how),
        Task::Test(how) => test::test(&workspace, &how),
        Task::Bench(further) => bench::bench(&workspace, &further),
        Task::Measure(words) => bench::measure(&workspace, &words),
        Task::MeasurePage(script, words) => bench::measure_page(&workspace, &script, &words),
    }
}
