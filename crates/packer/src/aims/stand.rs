//! Bodies at a level, and the best small moves from there.

use crate::aims::measure::{Asked, Asks, Measure};
use crate::aims::rung::{Lie, Rung};
use crate::body::Body;
use crate::build::on_grid;
use crate::moves::{Limits, Moves, Need, best_moves};
use crate::touch::{Touch, touches};

/// What an answer may miss: as a share of the moves on the way up, and in millimetres when mending.
const ROUGHLY: f64 = 0.02;
const EXACTLY: f64 = 1e-8;
/// How far beyond what can be reached by moves touches are looked for, in millimetres.
const BEYOND: f64 = 0.05;
/// What may be missing in what is to be shown, in millimetres: rounding places adds less than this again, and both
/// together are below [`NOISE`](crate::build::NOISE).
pub const SLACK: f64 = 3e-7;
/// What is asked beyond the rules at most when moves are to mend, in millimetres.
const MEND: f64 = 0.001;
/// How far a level may change in one program, in trusted moves: up, and down.
const MOST_UP: f64 = 10.0;
const MOST_DOWN: f64 = 100.0;

/// Bodies at a level.
pub struct Stand {
    /// The rung for which outlines and rules have been made ready.
    pub rung: Rung,
    /// The bodies as they lie now.
    pub bodies: Vec<Body>,
    /// The level that they have reached. Where it is not the rung's, what changes with the level is reckoned with.
    pub level: f64,
    /// Where they are near each other and the edge.
    pub touches: Vec<Touch>,
    /// Millimetres missing at most.
    pub missing: f64,
}

/// What moves are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// A better level.
    Rise,
    /// The same level, with nothing missing, without turning: turns have been rounded.
    Mend,
    /// A better level, without turning.
    Shift,
}

impl Stand {
    /// Bodies at the level of a rung.
    pub fn new(rung: Rung, bodies: Vec<Body>) -> Stand {
        Stand { level: rung.level, rung, bodies, touches: Vec::new(), missing: 0.0 }
    }

    /// Whether every rule holds at the true lines of the rung.
    pub fn is_sound(&self) -> bool {
        self.missing <= SLACK && self.level == self.rung.level
    }

    /// How the free bodies lie.
    pub fn lies(&self) -> Vec<Lie> {
        self.rung.lies_of(&self.bodies)
    }

    /// How far the level is above the rung's.
    fn above(&self) -> f64 {
        self.level - self.rung.level
    }

    /// Measures the touches that moves of so many millimetres can lead to, and what is missing.
    ///
    /// Returns what that cost, in points looked up.
    pub fn look<M: Measure>(&mut self, measure: &M, trust: f64) -> u64 {
        let within = 2.5 * trust + BEYOND + (self.above() * measure.millimetres()).max(0.0);
        let work = touches(&self.rung.ground, &self.bodies, within, &mut self.touches);
        let asks = measure.asks(&self.rung);
        let missing = self.touches.iter().flat_map(|touch| self.needs_of(measure, &asks, touch, Wish::Mend));
        self.missing = missing.map(|need| need.least).fold(0.0, f64::max);
        work
    }

    /// The distance asked of a touch, told as if it were measured at the rung.
    pub fn asked_now(&self, asked: Asked, closing: f64) -> f64 {
        asked.least + (asked.rate + closing) * self.above()
    }

    fn needs_of<M: Measure>(
        &self,
        measure: &M,
        asks: &Asks,
        touch: &Touch,
        wish: Wish,
    ) -> impl Iterator<Item = Need> {
        let closing = asks.closing(&self.rung, &self.bodies, touch);
        let need = move |asked: Asked| Need {
            touch: *touch,
            least: self.asked_now(asked, closing) - touch.distance,
            rate: if wish == Wish::Mend { 1.0 } else { (asked.rate + closing) / measure.millimetres() },
        };
        asks.of(&self.rung.ground, &self.bodies, touch).map(need)
    }

    /// The best moves of no more than `trust` millimetres, if there are any, and what they cost to find, in points looked
    /// up.
    pub fn moves<M: Measure>(&self, measure: &M, trust: f64, wish: Wish) -> (Option<Moves>, u64) {
        let asks = measure.asks(&self.rung);
        let needs = self.touches.iter().flat_map(|touch| self.needs_of(measure, &asks, touch, wish));
        let to_the_last = (measure.last() - self.level) * measure.millimetres();
        let most = if wish == Wish::Mend { MEND } else { to_the_last.clamp(0.0, MOST_UP * trust) };
        let limits = Limits {
            trust,
            won: (-MOST_DOWN * trust - 2.0 * self.missing, most),
            may_turn: wish == Wish::Rise,
            tolerance: if wish == Wish::Mend { EXACTLY } else { ROUGHLY * trust },
        };
        best_moves(&self.rung.ground, &self.bodies, &needs.collect::<Vec<_>>(), &limits)
    }

    /// Rounds places and turns as answers are.
    pub fn round(&mut self) {
        for body in self.bodies.iter_mut().filter(|body| !body.held) {
            *body = on_grid(&self.rung.ground, body);
        }
    }

    /// Makes moves.
    pub fn make(&mut self, moves: &Moves) {
        moves.make(&self.rung.ground, &mut self.bodies);
    }
}
