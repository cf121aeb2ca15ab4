//! Evening out the gaps of a layout that leaves room.

use crate::body::Body;
use crate::contact::{Extra, rough_contacts};
use crate::ground::Ground;
use crate::push::Push;

/// Pieces pushed apart by more and more than the rules ask.
pub struct Settle {
    bodies: Vec<Body>,
    push: Push,
    extra: f64,
}

/// The first extra spacing asked, in millimetres, how it grows, and the last.
const FIRST_EXTRA: f64 = 0.4;
const GROWTH: f64 = 1.4;
const LAST_EXTRA: f64 = 40.0;
/// With less missing of the extra spacing than this share of it, more is asked.
const REACHED: f64 = 0.1;
const STEPS: usize = 60;
const SWEEPS: usize = 12;

impl Settle {
    /// Starts from these bodies.
    pub fn new(bodies: Vec<Body>) -> Settle {
        Settle { bodies, push: Push::default(), extra: FIRST_EXTRA }
    }

    /// Spreads the bodies a little more; whether there may be room for yet more.
    ///
    /// What comes back may break rules: the caller checks it.
    pub fn spread(&mut self, ground: &Ground) -> (Vec<Body>, bool) {
        let extra = Extra { spacing: self.extra, margin: self.extra / 2.0 };
        let mut most = f64::INFINITY;
        for _ in 0..STEPS {
            rough_contacts(ground, &self.bodies, extra, 1.0, &mut self.push.contacts);
            most = self.push.missing().most;
            if most < 0.02 {
                break;
            }
            self.push.step(ground, &mut self.bodies, SWEEPS, 1.0);
        }
        let reached = most <= self.extra * REACHED;
        self.extra *= GROWTH;
        (self.bodies.clone(), reached && self.extra < LAST_EXTRA)
    }
}
