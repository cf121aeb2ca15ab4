//! What a run costs, and what to ask for a sheet.

mod bill;
mod price;

pub use bill::{Bill, Post, Usage, bill};
pub use price::{Price, price};
