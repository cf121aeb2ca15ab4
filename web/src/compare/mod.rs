//! Variants of the sheet packed side by side, to see what each costs in stickers.
//!
//! The page's end, [`CompareJob`], makes the variants, shares them out to workers and shows what comes back as a
//! [`Comparison`]; [`Rota`] is what each worker does. What was found stays until the next comparison, whatever happens
//! on the desk meanwhile.

mod comparison;
mod export;
mod job;
mod rota;

mod wishes;

pub use comparison::{Card, Comparison};
pub use export::{picture, table};
pub use job::CompareJob;
pub use rota::Rota;
pub use wishes::{MOST_CARDS, Wishes, offered};
