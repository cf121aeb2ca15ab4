//! What the crates know by kind and number, told in the language spoken.
//!
//! The crates tell it in English for the command line. Here the same kinds become sentences again, a file for each
//! crate, so that a new kind does not compile before it has its words.

mod lengths;

pub use lengths::*;
