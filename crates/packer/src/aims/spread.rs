//! Pieces that are not what holds the others up, each in the middle of its own room.
//!
//! The smallest gap of a layout is that of a few pieces in a tight place; all others are free to lie anywhere that keeps
//! it. Piece after piece goes to where its own smallest gap is largest. No gap becomes smaller than the smallest gap of
//! the piece that moves was, so the smallest of all stays.

use crate::aims::measure::Measure;
use crate::aims::stand::{SLACK, Stand, Wish};

/// How often every piece gets its turn.
const SWEEPS: usize = 4;
/// How far a piece moves at once, at first and at least, in millimetres, and how often at most.
const FIRST_TRUST: f64 = 1.0;
const LEAST_TRUST: f64 = 0.005;
const MOST_STEPS: usize = 12;
/// A gain below this is none, in millimetres.
const LEAST_GAIN: f64 = 0.001;

/// The pieces of a layout, one after the other on their way to the middle of their room.
pub struct Spread {
    /// Where they are now. The rung is above the level, so that larger gaps can be told.
    pub stand: Stand,
    next: usize,
    sweep: usize,
    has_moved: bool,
}

impl Spread {
    /// The pieces as they stand.
    pub fn new(stand: Stand) -> Spread {
        Spread { stand, next: 0, sweep: 0, has_moved: false }
    }

    /// Moves the next piece; false if all have come to rest. Also returns what it cost, in points looked up.
    pub fn step<M: Measure>(&mut self, measure: &M) -> (bool, u64) {
        let free: Vec<usize> = (0..self.stand.bodies.len()).filter(|&i| !self.stand.bodies[i].held).collect();
        if self.next >= free.len() {
            (self.next, self.sweep) = (0, self.sweep + 1);
            if self.sweep >= SWEEPS || !std::mem::take(&mut self.has_moved) {
                return (false, 1);
            }
        }
        let Some(&index) = free.get(self.next) else { return (false, 1) };
        self.next += 1;
        for &other in free.iter().filter(|&&other| other != index) {
            self.stand.bodies[other].held = true;
        }
        let work = self.move_one(measure, index);
        for &other in &free {
            self.stand.bodies[other].held = false;
        }
        (true, work)
    }

    fn move_one<M: Measure>(&mut self, measure: &M, index: usize) -> u64 {
        let mut trust = FIRST_TRUST;
        let (level, mut work) = self.own_level(measure, trust);
        let mut own = level.min(self.stand.rung.level);
        for _ in 0..MOST_STEPS {
            if trust < LEAST_TRUST || own >= self.stand.rung.level {
                break;
            }
            self.stand.level = own;
            let (moves, spent) = self.stand.moves(measure, trust, Wish::Shift);
            work += spent;
            let Some(moves) = moves.filter(|moves| moves.won > LEAST_GAIN) else { break };
            let before = self.stand.bodies[index].clone();
            self.stand.make(&moves);
            let (level, spent) = self.own_level(measure, trust);
            work += spent;
            let gained = (level.min(self.stand.rung.level) - own) * measure.millimetres();
            if gained > LEAST_GAIN {
                own = level.min(self.stand.rung.level);
                self.has_moved = true;
            } else {
                self.stand.bodies[index] = before;
                work += self.stand.look(measure, trust);
                trust *= 0.4;
            }
        }
        work
    }

    /// The level up to which the only free body keeps what is asked; nothing to speak of if what is asked at every level
    /// is missing. Also what it cost.
    fn own_level<M: Measure>(&mut self, measure: &M, trust: f64) -> (f64, u64) {
        self.stand.level = self.stand.rung.level;
        let work = self.stand.look(measure, trust);
        let asks = measure.asks(&self.stand.rung);
        let mut own = f64::INFINITY;
        for touch in &self.stand.touches {
            for asked in asks.of(&self.stand.rung.ground, &self.stand.bodies, touch) {
                let missing = self.stand.asked_now(asked, 0.0) - touch.distance;
                if asked.rate > 0.0 {
                    own = own.min(self.stand.rung.level - missing / asked.rate);
                } else if missing > SLACK {
                    own = f64::NEG_INFINITY;
                }
            }
        }
        (own, work)
    }
}
