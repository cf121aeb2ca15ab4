//! Telling how far the work is, and being told to stop.

use thiserror::Error;

/// The word back from whoever waits: enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("reading was stopped")]
pub struct Stopped;

/// Tells the share of work done, 0 to 1, and asks whether to go on.
///
/// Work that has parts gives each a [`stage`](Progress::stage): a progress of its own from 0 to 1.
pub struct Progress<'a> {
    listener: &'a mut dyn FnMut(f64) -> bool,
    from: f64,
    to: f64,
}

impl<'a> Progress<'a> {
    /// Progress that is told to `listener`, which answers whether to go on.
    pub fn new(listener: &'a mut dyn FnMut(f64) -> bool) -> Progress<'a> {
        Progress { listener, from: 0.0, to: 1.0 }
    }

    /// The part of the work from one share to another.
    pub fn stage(&mut self, from: f64, to: f64) -> Progress<'_> {
        let along = |share: f64| self.from + (self.to - self.from) * share;
        let (from, to) = (along(from), along(to));
        Progress { listener: &mut *self.listener, from, to }
    }

    /// Says that this share is done.
    pub fn tell(&mut self, share: f64) -> Result<(), Stopped> {
        let whole = self.from + (self.to - self.from) * share.clamp(0.0, 1.0);
        if (self.listener)(whole) { Ok(()) } else { Err(Stopped) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stages_fill_their_part_and_a_no_stops() {
        let mut heard = Vec::new();
        let mut listener = |share| {
            heard.push(share);
            share < 0.6
        };
        let mut progress = Progress::new(&mut listener);
        assert_eq!(progress.stage(0.25, 0.75).tell(0.5), Ok(()));
        assert_eq!(progress.stage(0.5, 1.0).stage(0.0, 0.5).tell(2.0), Err(Stopped));
        assert_eq!(heard, [0.5, 0.75]);
    }
}
