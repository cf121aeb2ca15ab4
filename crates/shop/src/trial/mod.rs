//! Finding the setting that cuts through the face and not through the backing: a card of trial cuts, what their outcomes
//! say, and the log of what worked. No machine is known by name; settings are what the artist's own machine calls them.

mod advice;
mod belief;
mod card;
mod isotonic;
mod log;
mod scale;
mod session;
mod strokes;
mod suggestion;
mod svg;

pub use advice::{Advice, SURE, Verdict, advice};
pub use belief::{CutOutcome, MISREAD, Trial};
pub use card::{Card, CardOptions, Cell};
pub use isotonic::{Isotonic, isotonic};
pub use log::{BladeLog, LogEntry};
pub use scale::{MOST_SETTINGS, Scale, ScaleError};
pub use session::{AskedScale, Cut, ScaleKind, Session};
pub use suggestion::{Suggestion, Work, is_same_work, nearest_name, suggestion};
pub use svg::{CAUTIONS, write as card_svg};
