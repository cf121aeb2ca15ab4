//! Attempts of the ladder in a rough setting, at a level where they succeed about every other time.
//!
//! Pieces on a full sheet hardly find other places by pushing, so that the ladder would end on the first hill that it
//! meets. Arranging rough outlines is quick enough to try many others: some pieces are taken up, all find places anew
//! near the best level, pushing turns and parts the true lines, and the way up from there may end higher. Once some
//! arrangements could not be taken apart, the next attempts start from the least tangled of those, disturbed.
//!
//! Source of going on from failures: J. Gardeyn, G. Vanden Berghe, T. Wauters, "An open-source heuristic to reboot 2D
//! nesting research", arXiv 2509.13329, 2025, who do so while they shorten a strip.

use crate::aims::engine::Engine;
use crate::aims::rung::{Rung, asked};
use crate::body::Body;
use crate::random::Chance;
use crate::rearrange::attempt::Tangle;
use crate::rearrange::rough::Rough;
use crate::rearrange::setting::Setting;
use crate::separate::Outcome;

/// How far above the best level the first attempt is made, in steps of one whole, and at least and at most; and how much
/// further ahead the next is after one that came out well, or behind after one that did not.
const FIRST: f64 = -0.03;
const LEAST: f64 = -0.1;
const MOST: f64 = 0.05;
const CHANGE: f64 = 0.01;

/// How many arrangements that could not be taken apart are kept.
const KEPT: usize = 10;

/// The rough setting and how far ahead attempts in it reach.
pub struct Arranging {
    rough: Option<Rough>,
    ahead: f64,
    /// Arrangements that could not be taken apart, the least tangled first.
    kept: Vec<Tangle>,
}

impl Arranging {
    /// Before the first attempt.
    pub fn new() -> Arranging {
        Arranging { rough: None, ahead: FIRST, kept: Vec::new() }
    }

    /// How far above the best level the next attempt is made, in steps of one whole; negative below.
    pub fn ahead(&self) -> f64 {
        self.ahead
    }

    /// Whether there is an arrangement to go on from.
    pub fn has_kept(&self) -> bool {
        !self.kept.is_empty()
    }

    /// An attempt that goes on from an arrangement kept, a little tangled one more likely; if there is none, it starts from
    /// these bodies. Outlines and what is held must be the same each time.
    pub fn engine(&mut self, rung: &Rung, bodies: Vec<Body>, chance: &mut Chance) -> Engine {
        let asked = asked(&rung.layout);
        let rough = match self.rough.take().filter(|rough| rough.is_good_for(asked)) {
            Some(rough) => rough,
            None => {
                self.kept.clear();
                Rough::new(&rung.ground, &bodies, asked)
            }
        };
        let rough = self.rough.insert(rough);
        if self.kept.is_empty() {
            return Engine::arranging(&rung.ground, rough, bodies);
        }
        let index = chance.below(self.kept.len()).min(chance.below(self.kept.len()));
        let tangle = self.kept[index].clone();
        Engine::arranging_again(&rung.ground, rough, tangle, bodies, chance)
    }

    /// Keeps what an attempt could not take apart.
    pub fn keep(&mut self, engine: &Engine) {
        let Some(tangle) = engine.tangle() else { return };
        let rank = self.kept.partition_point(|other| other.lacking < tangle.lacking);
        self.kept.insert(rank, tangle);
        self.kept.truncate(KEPT);
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
