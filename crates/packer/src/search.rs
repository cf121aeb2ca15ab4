//! The search from outside: one round after the other, whatever the aim.

use stickleaf_sheet::{Layout, StickerId};

use crate::aims::{Course, course};
use crate::pack::{PackError, PackOptions, Progress};

/// A search for the best layout, one round at a time. It owns its data and can be sent to another thread.
pub struct Search {
    course: Box<dyn Course>,
    round: u64,
}

impl Search {
    /// A search that starts from this layout.
    ///
    /// Errors: see [`PackError`].
    ///
    /// Cost: some milliseconds for each sticker.
    pub fn new(layout: &Layout, options: &PackOptions) -> Result<Search, PackError> {
        Ok(Search { course: course(layout, options)?, round: 0 })
    }

    /// Works for some milliseconds and says how far the search is.
    ///
    /// The work of a round is counted, not timed, so the answer after so many rounds is always the same. Once the
    /// search is finished, a round does nothing.
    pub fn round(&mut self) -> Progress {
        self.round += 1;
        self.course.round();
        self.progress()
    }

    /// How far the search is.
    pub fn progress(&self) -> Progress {
        Progress { round: self.round, ..self.course.progress() }
    }

    /// The best layout so far. It keeps every hard rule.
    ///
    /// Under [`Aim::Shorten`](crate::Aim::Shorten) its sheet has the height reached, under
    /// [`Aim::Grow`](crate::Aim::Grow) its stickers have the size reached.
    pub fn best(&self) -> Layout {
        self.course.best().clone()
    }

    /// Stickers of which wanted copies have found no place yet, and how many.
    pub fn missing(&self) -> Vec<(StickerId, usize)> {
        self.course.missing()
    }
}
