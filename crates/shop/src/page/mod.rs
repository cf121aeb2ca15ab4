//! The page plan: how sheets lie on a page of label stock.
//!
//! Start reading at `plan.rs`, which asks the others: `blocks.rs` finds good plans at once, `bound.rs` proves how many
//! there can be at most, and `search.rs` closes the gap between the two. `largest.rs` says how large a sheet may be.
//!
//! Inside this folder lengths are whole micrometres, so that nothing drifts and sheets may share an edge.

mod blocks;
mod bound;
mod instance;
mod largest;
mod plan;
mod search;
mod stock;

pub use largest::{Growing, Largest, largest_sheets};
pub use plan::{Plan, Position, plan};
pub use stock::{PAGE_SIZES, PageError, Stock, page_size};
