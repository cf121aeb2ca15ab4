//! What a cut takes: time by a simple model of the machine, and the blade's metres.

mod fitted;
mod machine;
mod work;

pub use fitted::{FitError, TimedJob, fitted};
pub use machine::CutMachine;
pub use work::{CutWork, straight_stretches};
