//! What can go wrong, one case for each cause.

use std::io;
use std::path::{Path, PathBuf};

use stickleaf_packer::PackError;
use thiserror::Error;

use crate::instance::InstanceError;
use crate::strip::StripError;

/// Why nothing was measured.
#[derive(Debug, Error)]
pub enum Trouble {
    /// A file or folder could not be read or written.
    #[error("cannot {deed} {}: {source}", path.display())]
    File {
        /// `read`, `write`, or `make the folder`.
        deed: &'static str,
        /// Which.
        path: PathBuf,
        /// The system's answer.
        source: io::Error,
    },
    /// A folder without instances.
    #[error("{} holds no .json files; crates/bench/README.md says where instances come from", .0.display())]
    NoInstances(PathBuf),
    /// A folder without layouts.
    #[error("{} holds no layout files", .0.display())]
    NoLayouts(PathBuf),
    /// An instance or sheet was asked for that is not there.
    #[error("there is no \"{name}\"; there are: {there}")]
    NoSuch {
        /// The name asked for.
        name: String,
        /// The names that are there.
        there: String,
    },
    /// A file is no instance.
    #[error("{}: {source}", path.display())]
    Instance {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        source: InstanceError,
    },
    /// An instance makes no layout.
    #[error("{}: {source}", path.display())]
    Strip {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        source: StripError,
    },
    /// A drawing makes no sticker.
    #[error("{}: {what}", path.display())]
    Art {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        what: String,
    },
    /// The packer refuses a layout.
    #[error("{name}: {source}")]
    Pack {
        /// Which layout.
        name: String,
        /// What it says.
        source: PackError,
    },
    /// The program that drives the page does not run.
    #[error("cannot drive the page: {0}; run it as `cargo xtask bench browser`")]
    Driver(io::Error),
    /// The page does not do what it should.
    #[error("{name} in the page: {what}")]
    Page {
        /// Which layout.
        name: String,
        /// What went wrong.
        what: String,
    },
}

impl Trouble {
    /// Wraps the system's answer, with what was being done to which file.
    pub fn file(deed: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Trouble {
        let path = path.to_owned();
        move |source| Trouble::File { deed, path, source }
    }
}
