//! Attempts of the ladder in a rough setting, at a level where they succeed about every other time.
//!
//! Pieces on a full sheet hardly find other places by pushing, so that the ladder would end on the first hill that it
//! meets. Arranging rough outlines is quick enough to try many others: some pieces are taken up, all find places anew
//! near the best level, pushing turns and parts the true lines, and the way up from there may end higher.

use crate::aims::engine::Engine;
use crate::aims::rung::{Rung, asked};
use crate::body::Body;
use crate::rearrange::rough::Rough;
use crate::rearrange::setting::Setting;
use crate::separate::Outcome;

/// How far above the best level the first attempt is made, in steps of one whole, and at least and at most; and how much
/// further ahead the next is after one that came out well, or behind after one that did not.
const FIRST: f64 = -0.03;
const LEAST: f64 = -0.1;
const MOST: f64 = 0.05;
const CHANGE: f64 = 0.01;

/// The rough setting and how far ahead attempts in it reach.
pub struct Arranging {
    rough: Option<Rough>,
    ahead: f64,
}

impl Arranging {
    /// Before the first attempt.
    pub fn new() -> Arranging {
        Arranging { rough: None, ahead: FIRST }
    }

    /// How far above the best level the next attempt is made, in steps of one whole; negative below.
    pub fn ahead(&self) -> f64 {
        self.ahead
    }

    /// An attempt that starts from these bodies. Outlines and what is held must be the same each time.
    pub fn engine(&mut self, rung: &Rung, bodies: Vec<Body>) -> Engine {
        let asked = asked(&rung.layout);
        let rough = match self.rough.take().filter(|rough| rough.is_good_for(asked)) {
            Some(rough) => rough,
            None => Rough::new(&rung.ground, &bodies, asked),
        };
        Engine::arranging(&rung.ground, self.rough.insert(rough), bodies)
    }

    /// The setting of the last attempt.
    pub fn setting(&self) -> Option<&Setting> {
        self.rough.as_ref().map(|rough| &rough.setting)
    }

    /// Takes note of how an attempt came out.
    pub fn note(&mut self, outcome: Outcome) {
        let change = match outcome {
            Outcome::Open => 0.0,
            Outcome::Solved => CHANGE,
            Outcome::Failed => -CHANGE,
        };
        self.ahead = (self.ahead + change).clamp(LEAST, MOST);
    }
}
