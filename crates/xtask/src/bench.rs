//! Measuring.

use std::process::Command;

use crate::browser::Stage;
use crate::trouble::Trouble;
use crate::workspace::Workspace;
use crate::{build, install, programs};

/// Runs every bench of the workspace. The further arguments go to the benches themselves.
///
/// Each bench is asked for by name: a plain `cargo bench` also runs the unit tests' own runner, which does not know
/// the benches' options and would refuse them.
pub fn bench(workspace: &Workspace, further: &[String]) -> Result<(), Trouble> {
    if workspace.benches.is_empty() {
        println!("no crate has a bench yet");
        return Ok(());
    }
    let mut command = programs::cargo(&workspace.root);
    command.arg("bench");
    for (package, bench) in &workspace.benches {
        command.args(["--package", package, "--bench", bench]);
    }
    programs::run(command.arg("--").args(further))
}

/// Measures the packer with the program of `crates/bench`, optimised as the command line is.
///
/// It runs where the task was called, so that the paths typed mean what they say. The drawings that `sheets` reads are
/// fetched first, and the page that `browser` measures is built and served meanwhile.
pub fn measure(workspace: &Workspace, words: &[String]) -> Result<(), Trouble> {
    let mut command = Command::new(programs::cargo(&workspace.root).get_program());
    let is = |name: &str| words.first().is_some_and(|word| word == name);
    let stage = is("browser").then(|| Stage::set_up(workspace)).transpose()?;
    if let Some(stage) = &stage {
        stage.tell(&mut command);
    }
    if is("sheets") {
        let art = workspace.root.join("tests/art");
        install::npm_packages(&art)?;
        command.env("STICKLEAF_ART", art.join("node_modules"));
    }
    command.args(["run", "--release", "--quiet", "--package", "stickleaf-bench", "--manifest-path"]);
    programs::run(command.arg(workspace.root.join("Cargo.toml")).arg("--").args(words))
}

/// Measures the page in Chromium with a script of `tests/browser`.
pub fn measure_page(workspace: &Workspace, script: &str, words: &[String]) -> Result<(), Trouble> {
    let stage = Stage::set_up(workspace)?;
    let mut command = Command::new("node");
    command.arg(workspace.root.join("tests/browser").join(script).with_extension("mjs")).args(words);
    if script == "drag" {
        command.arg("--check").arg(build::carried_check(workspace)?);
    }
    programs::run(stage.tell(&mut command))
}
