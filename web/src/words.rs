//! Everything the page says, in one place, so that it can be said in another language some day.
//!
//! Plain, short, in the artist's terms. What the crates say themselves, such as findings and errors, stays with them.

mod coming;
mod compare;
mod findings;
mod frame;
mod hand;
mod keeping;
mod keys;
mod packing;
mod press;
mod rough;
mod sheet;

pub use coming::*;
pub use compare::*;
pub use findings::*;
pub use frame::*;
pub use hand::*;
pub use keeping::*;
pub use keys::*;
pub use packing::*;
pub use press::*;
pub use rough::*;
pub use sheet::*;
