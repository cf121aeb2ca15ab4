//! Running other programs.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use crate::trouble::Trouble;

/// The first of these programs that is on the search path, if any.
pub fn find(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    names.iter().find_map(|name| {
        let file = format!("{name}{}", env::consts::EXE_SUFFIX);
        env::split_paths(&path).map(|folder| folder.join(&file)).find(|program| program.is_file())
    })
}

/// The cargo that runs this task, so that both are of one toolchain.
pub fn cargo(folder: &Path) -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(folder);
    command
}

/// Runs a program to its end. What it prints goes straight to the terminal.
pub fn run(command: &mut Command) -> Result<(), Trouble> {
    let status = command.status().map_err(|source| Trouble::Start { command: as_typed(command), source })?;
    if status.success() { Ok(()) } else { Err(Trouble::Failed { command: as_typed(command), status }) }
}

/// Runs a program to its end and gives what it printed. Its complaints go straight to the terminal.
pub fn output(command: &mut Command) -> Result<Vec<u8>, Trouble> {
    let Output { status, stdout, .. } = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|source| Trouble::Start { command: as_typed(command), source })?;
    if status.success() { Ok(stdout) } else { Err(Trouble::Failed { command: as_typed(command), status }) }
}

/// The command line as one would type it, with the program's folder left out.
fn as_typed(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let mut line = program.file_name().unwrap_or(command.get_program()).to_string_lossy().into_owned();
    for argument in command.get_args() {
        line.push(' ');
        line.push_str(&argument.to_string_lossy());
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_program_that_fails_is_named_with_its_arguments() {
        let folder = env::current_dir().unwrap();
        let mut command = cargo(&folder);
        command.args(["there-is-no-such-command", "--at-all"]).stderr(Stdio::null());
        let trouble = run(&mut command).unwrap_err().to_string();
        assert!(trouble.contains("there-is-no-such-command --at-all"), "{trouble}");
    }

    #[test]
    fn a_program_that_is_not_there_is_not_found() {
        assert_eq!(find(&["no-program-has-this-name"]), None);
    }
}
