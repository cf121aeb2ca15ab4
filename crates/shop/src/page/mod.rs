//! The page plan: how sheets lie on a page of label stock.
//!
//! Start reading at `plan.rs`, which asks `pallet.rs` how many equal boxes lie in a rectangle: `blocks.rs` finds good
//! layouts at once, `bound.rs` proves how many there can be at most, and `skyline.rs` closes the gap between the two.
//! `largest.rs` says how large a sheet may be, `several/mod.rs` puts several designs on the fewest pages.
//!
//! Inside this folder lengths are whole micrometres, so that nothing drifts and sheets may share an edge.

mod blocks;
mod bound;
mod colours;
mod largest;
mod pallet;
mod partition;
mod plan;
mod several;
mod skyline;
mod stock;

pub use largest::{Growing, Largest, largest_sheets};
pub use plan::{Plan, Position, plan};
pub use several::{MOST_WANTED, PlanOfSeveral, PrintedPage, SheetOfSeveral, WantedSheets, plan_several};
pub use stock::{PAGE_SIZES, PageError, Stock, page_size};
