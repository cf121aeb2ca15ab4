//! The cut: which lines, as which curves, in which order, how often; and what it takes.

mod card;
mod fit;
mod order;
mod overrun;
mod plan;
mod start;
mod svg;
mod work;

pub use fit::CutLine;
pub use plan::{CutOptions, CutPlan, KissCut, plan};
pub use svg::{CAUTIONS, Depths, write};
pub(crate) use svg::{escaped, number};
pub use work::{work, work_of};
