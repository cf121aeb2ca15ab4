//! The cut: which lines, as which curves, in which order, how often, of a sheet and of a whole page; and what it takes.

mod card;
mod fit;
mod order;
mod overrun;
mod page;
mod plan;
mod start;
mod svg;
mod work;

pub use fit::CutLine;
pub use page::{DesignToCut, PageCut, SheetCut, ThroughLine, page_cut};
pub use plan::{CutOptions, CutPlan, KissCut, plan};
pub use svg::{CAUTIONS, Depths, write, write_page};
pub(crate) use svg::{escaped, number};
pub use work::{work, work_of};
