//! Telling how far the work is, and being told to stop.

/// Tells the share of work done, 0 to 1, and asks whether to go on.
pub struct Progress<'a> {
    listener: &'a mut dyn FnMut(f64) -> bool,
}

/// The word back from whoever waits: enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

impl<'a> Progress<'a> {
    /// Progress that is told to `listener`, which answers whether to go on.
    pub fn new(listener: &'a mut dyn FnMut(f64) -> bool) -> Progress<'a> {
        Progress { listener }
    }

    /// Says that this share is done.
    pub fn tell(&mut self, share: f64) -> Result<(), Stopped> {
        if (self.listener)(share.clamp(0.0, 1.0)) { Ok(()) } else { Err(Stopped) }
    }
}
