//! What can go wrong, one case for each cause.

use std::path::{Path, PathBuf};
use std::{io, process::ExitStatus};

use thiserror::Error;

/// Why a task came to an end before its work was done.
#[derive(Debug, Error)]
pub enum Trouble {
    /// The command line was not understood.
    #[error("{what}\n\n{}", crate::options::USAGE)]
    Usage {
        /// What about it, and what would have been right.
        what: String,
    },
    /// A program is not on this machine, or is too old.
    #[error("{what} is needed and not on this machine: {remedy}")]
    Missing {
        /// The program, with its least version where that matters.
        what: &'static str,
        /// How to come by it.
        remedy: &'static str,
    },
    /// A program is there and would not start.
    #[error("`{command}` does not start: {source}")]
    Start {
        /// The command line, as one would type it.
        command: String,
        /// The system's answer.
        source: io::Error,
    },
    /// A program ran and reported failure; it has said why itself, just above.
    #[error("`{command}` ended with {status}; its own words are above")]
    Failed {
        /// The command line, as one would type it.
        command: String,
        /// How it ended.
        status: ExitStatus,
    },
    /// A file or folder could not be read, written or moved.
    #[error("cannot {deed} {}: {source}", path.display())]
    File {
        /// What was being done: "read", "write", "move".
        deed: &'static str,
        /// The file or folder.
        path: PathBuf,
        /// The system's answer.
        source: io::Error,
    },
    /// The compiled page could not be given its JavaScript side.
    #[error("cannot write the JavaScript for {}: {reason}", path.display())]
    Bindgen {
        /// The compiled page.
        path: PathBuf,
        /// What the library said.
        reason: String,
    },
    /// A file that should lead to another one does not.
    #[error(
        "{file} does not mention \"{name}\"; the page would not find that file, so write the reference back"
    )]
    Unreferenced {
        /// The file that should hold the reference.
        file: String,
        /// The name which it should hold, in quotes.
        name: String,
    },
    /// A script has no place for what the build writes into it.
    #[error("{file} has no line `{blank}` for the build to fill in; write that line back")]
    NoBlank {
        /// The script.
        file: &'static str,
        /// The line that it should hold.
        blank: &'static str,
    },
    /// Every port that was tried is taken.
    #[error("no port from {first} to {last} is free; name another one with --port")]
    Ports {
        /// The first port that was tried.
        first: u16,
        /// The last port that was tried.
        last: u16,
    },
    /// What cargo told about the workspace has an unknown shape.
    #[error("cargo's description of the workspace has no {field}; is this cargo 1.95 or later?")]
    Metadata {
        /// The field that was looked for.
        field: &'static str,
    },
    /// A step of the tests failed.
    #[error("the step \"{step}\" failed: {reason}")]
    Step {
        /// The step's name, as `--only` takes it.
        step: &'static str,
        /// What went wrong in it.
        reason: Box<Trouble>,
    },
}

impl Trouble {
    /// The exit status that goes with this: 2 if nothing was tried, else 1.
    pub fn exit_code(&self) -> u8 {
        match self {
            Trouble::Usage { .. } => 2,
            _ => 1,
        }
    }

    /// Wraps the system's answer, with what was being done to which file.
    pub fn file(deed: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Trouble {
        let path = path.to_owned();
        move |source| Trouble::File { deed, path, source }
    }
}
