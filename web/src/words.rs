//! Everything the page says, in one place and in every language that it speaks.
//!
//! Plain, short, in the artist's terms. Each phrase stands here once for each language, side by side: a phrase that
//! lacks a language does not compile. Words without a gap are lines of [`words!`]; those with numbers or names in them
//! are functions that [`say!`] them. Plurals are the function's own business, for languages differ in them.

/// Words without a gap: `name: "in English", "auf Deutsch";` becomes a function that gives them in the language spoken.
macro_rules! words {
    ($($(#[$about:meta])* $name:ident: $english:expr, $german:expr;)*) => {
        $($(#[$about])*
        pub fn $name() -> &'static str {
            $crate::words::language::pick($english, $german)
        })*
    };
}

/// A phrase with gaps, as `format!` takes it: first in English, then in German, then what both leave unnamed.
macro_rules! say {
    ($english:literal, $german:literal $(, $value:expr)* $(,)?) => {
        match $crate::words::language::spoken() {
            $crate::words::language::Language::English => format!($english $(, $value)*),
            $crate::words::language::Language::German => format!($german $(, $value)*),
        }
    };
}

mod blade;
mod coming;
mod compare;
mod figures;
mod findings;
mod finishing;
mod frame;
mod hand;
mod keeping;
mod keys;
pub mod language;
mod month;
mod packing;
mod press;
mod pressing;
mod rough;
mod run;
mod sheet;
mod told;
mod tour;

pub use blade::*;
pub use coming::*;
pub use compare::*;
pub use figures::*;
pub use findings::*;
pub use finishing::*;
pub use frame::*;
pub use hand::*;
pub use keeping::*;
pub use keys::*;
pub use month::*;
pub use packing::*;
pub use press::*;
pub use pressing::*;
pub use rough::*;
pub use run::*;
pub use sheet::*;
pub use told::*;
pub use tour::*;
