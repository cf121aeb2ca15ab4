//! What the crates say, in the language spoken.
//!
//! The crates know by kind and number what they have to say, and say it in English themselves, for the command line
//! too. Here the same kinds become sentences in the other language, a file for each crate: a new kind does not compile
//! before it has its words.

mod art;
mod changes;
mod editor;
mod files;
mod findings;
mod layout;
mod merge;
mod outline;
mod packer;
mod press;
mod shop;

use std::fmt::Display;

pub use changes::*;
pub use editor::*;
pub use findings::*;

use crate::words::language::{Language, spoken};

/// What can be told in every language of the page. No large letter in front, no full stop behind.
pub trait Told {
    /// The same in the language spoken.
    fn told(&self) -> String;
}

/// What was told already, as by a worker.
impl Told for String {
    fn told(&self) -> String {
        self.clone()
    }
}

/// What a crate says itself, or the same in German.
fn either(english: &impl Display, german: impl FnOnce() -> String) -> String {
    match spoken() {
        Language::English => english.to_string(),
        Language::German => german(),
    }
}
