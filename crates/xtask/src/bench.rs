//! Measuring.

use crate::programs;
use crate::trouble::Trouble;
use crate::workspace::Workspace;

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
