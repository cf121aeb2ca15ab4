//! Why a command could not do its work: the file, what is wrong with it, and what to do next.

use std::io;

use stickleaf_art::ImportError;
use stickleaf_files::ReadError;
use stickleaf_files::bundle::BundleError;
use stickleaf_outline::PlainShapeError;
use stickleaf_packer::PackError;
use stickleaf_press::PressError;
use stickleaf_sheet::{LayoutError, MergeError};
use stickleaf_shop::cutting::FitError;
use stickleaf_shop::page::PageError;
use stickleaf_shop::settings::SettingsError;
use stickleaf_shop::trial::ScaleError;
use thiserror::Error;

/// What ends a command with exit status 2.
#[derive(Debug, Error)]
pub enum Trouble {
    /// A file that the system does not give.
    #[error("could not read {file}: {}; check the name", plainly(source))]
    Read {
        /// The file.
        file: String,
        /// Why.
        source: io::Error,
    },
    /// A file that is no layout.
    #[error("could not read {file}: {source}")]
    Layout {
        /// The file.
        file: String,
        /// Why.
        source: ReadError,
    },
    /// A bundle that cannot be read or written.
    #[error("{file}: {source}")]
    Bundle {
        /// The file.
        file: String,
        /// Why.
        source: BundleError,
    },
    /// Artwork without drawings.
    #[error("could not trace {file}: {source}")]
    Art {
        /// The file.
        file: String,
        /// Why.
        source: ImportError,
    },
    /// Drawings that make no layout.
    #[error("could not make the layout: {0}")]
    Sheet(LayoutError),
    /// A changed picture that none of the layout's stickers came from.
    #[error(
        "no sticker of the layout has its drawing in {asked}; say with --replaces which picture it is for: {}",
        if known.is_empty() { "none of the stickers has one".to_owned() } else { known.join(", ") }
    )]
    NoSuchPicture {
        /// The picture that was looked for.
        asked: String,
        /// The pictures that there are.
        known: Vec<String>,
    },
    /// A sticker that the layout does not have.
    #[error("there is no sticker {asked}; the stickers are {}", known.join(", "))]
    NoSuchSticker {
        /// The id that was typed.
        asked: String,
        /// The ids that there are.
        known: Vec<String>,
    },
    /// Two pieces that cannot be made one sticker.
    #[error("could not merge: {0}; give two numbers, as in --pieces 0,1")]
    Merge(MergeError),
    /// A plain shape that cannot be.
    #[error("could not make the shape: {0}")]
    Shape(PlainShapeError),
    /// A layout that cannot be packed.
    #[error("could not pack {file}: {source}")]
    Pack {
        /// The file.
        file: String,
        /// Why.
        source: PackError,
    },
    /// A page that cannot be planned.
    #[error("could not plan a page for {file}: {source}")]
    Page {
        /// The layout's file.
        file: String,
        /// Why.
        source: PageError,
    },
    /// As many counts of sheets as layouts were asked for.
    #[error(
        "{counts} counts of sheets for {layouts} layouts; give --sheets one number for each layout, as in --sheets 300,120"
    )]
    SheetCounts {
        /// How many layouts were given.
        layouts: usize,
        /// How many counts.
        counts: usize,
    },
    /// As many counts as layouts were asked for.
    #[error(
        "{counts} numbers wanted for {layouts} layouts; give --wanted one number for each layout, as in --wanted 30,12"
    )]
    WantedCounts {
        /// How many layouts were given.
        layouts: usize,
        /// How many counts.
        counts: usize,
    },
    /// A settings file that cannot be read.
    #[error("could not read the settings in {file}: {reason}; mend that place, or leave the field out")]
    SettingsFile {
        /// The file.
        file: String,
        /// What is wrong, and where.
        reason: String,
    },
    /// A blade log or a history that cannot be read.
    #[error("could not read {file}: {reason}; mend that place, it was left as it is")]
    Kept {
        /// The file.
        file: String,
        /// What is wrong, and where.
        reason: String,
    },
    /// Settings to try that make no scale.
    #[error("could not make the test card: {0}")]
    Scale(ScaleError),
    /// An outcome of a setting that is not on the scale.
    #[error("there is no setting {name}; the settings are {known}")]
    Setting {
        /// What was typed.
        name: String,
        /// The settings that there are.
        known: String,
    },
    /// Settings that make no sense.
    #[error("the settings do not make sense: {0}")]
    Settings(SettingsError),
    /// Jobs that were timed, but not two.
    #[error("{count} timed jobs are given; give two, with commas between them")]
    TimedCount {
        /// How many.
        count: usize,
    },
    /// Timed jobs that give no figures.
    #[error("nothing follows from the timed jobs: {0}")]
    Timed(FitError),
    /// A sheet that cannot be composed.
    #[error("could not make {file}: {source}")]
    Press {
        /// The file that was to be written.
        file: String,
        /// Why.
        source: PressError,
    },
    /// A file that cannot be written.
    #[error("could not write {file}: {}; check the folder and the name", plainly(source))]
    Write {
        /// The file.
        file: String,
        /// Why.
        source: io::Error,
    },
    /// A file that would be lost.
    #[error(
        "{file} is needed as it is, so nothing was written over it; give another name for what is written"
    )]
    WouldOverwrite {
        /// The file.
        file: String,
    },
    /// Two answers for one place.
    #[error("both the file and the report would go to standard output; give the file a name")]
    OutputTwice,
}

/// What the system says, without its number.
fn plainly(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound if error.raw_os_error().is_some() => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "the system does not allow it".to_owned(),
        _ => error.to_string(),
    }
}
