//! Packing beside the page, in one worker or in several that search from different seeds.
//!
//! The page's end, [`PackJob`], starts the workers, shows who is ahead, and takes the best to the desk; [`Packing`] is
//! what each worker does. Workers share nothing: each has its own program, seed and layout, and all are ended with the
//! packing.

mod aim;
mod contest;
mod job;
mod search;
mod take_over;

pub use aim::file_word;
pub use contest::most_searches;
pub use job::{PackHow, PackJob, PackState};
pub use search::{Packing, Step};
