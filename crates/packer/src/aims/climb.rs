//! To the top from where one stands: all places, all turns and the level at once, by linear programs.
//!
//! The best small moves are made again and again, each no longer than can be trusted, until nothing can be gained by them
//! (sequential linear programming with a trust region, as A. M. Gomes and J. F. Oliveira use it for compaction in
//! "Solving irregular strip packing problems by hybridising simulated annealing and linear programming", European
//! Journal of Operational Research 171, 2006). In the end the layout is mended at a level a hair below, so that every
//! rule holds after rounding.

use crate::aims::measure::Measure;
use crate::aims::rung::{Lie, Rung};
use crate::aims::stand::{Stand, Wish};
use crate::body::Body;
use crate::moves::Moves;

/// How far a piece may move in one step at first, as a share of its size, and at most, in millimetres.
const FIRST_TRUST: f64 = 0.1;
const MOST_TRUST: f64 = 1.0;
/// A shorter step is not worth making, nor one that gains less, in millimetres.
const LEAST_TRUST: f64 = 0.000_05;
const LEAST_GAIN: f64 = 0.000_01;
/// Steps that gain less, in a row, before the top counts as reached.
const WEAK_STEPS: usize = 2;
/// Steps before a rest, at which what has been gained is mended and can be shown; and rests.
const STEPS: usize = 16;
const RESTS: usize = 6;
/// Steps whose gain is looked at to tell whether the goal can be reached, and how many times as much may be hoped for.
const RECENT: usize = 3;
const HOPE: f64 = 3.0;
/// How much a millimetre missing weighs against a millimetre gained.
const WEIGHT: f64 = 2.0;
/// Outlines are made anew once they have grown by so many millimetres; until then, growing is reckoned with.
const STRETCH: f64 = 0.25;
/// With outlines that have been stretched by less, the top is the true one.
const TRUE_ENOUGH: f64 = 0.002;
/// How far below the top the layout is mended, in millimetres: more each time it does not succeed.
const BELOW: [f64; 6] = [0.0, 0.000_001, 0.000_01, 0.000_1, 0.001, 0.005];
/// Programs that mend at one level.
const MENDING_STEPS: usize = 3;
/// How a climb stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Climbed {
    /// There may be more to gain.
    Open,
    /// There may be more to gain; what has been gained so far has been mended.
    Rest,
    /// Nothing more to gain; what was found has been mended.
    Top,
    /// The goal is out of reach, or what was found could not be mended.
    Lost,
}

/// One way up.
pub struct Climb {
    /// Where the bodies are now.
    pub stand: Stand,
    trust: f64,
    recent: [f64; RECENT],
    weak: usize,
    steps: usize,
    rests: usize,
    is_at_the_top: bool,
    /// How often it has been mended, at a rest or at the top.
    mended: Option<usize>,
}

impl Climb {
    /// A climb from bodies that keep the rules at this rung, or nearly.
    pub fn new<M: Measure>(measure: &M, rung: Rung, bodies: Vec<Body>) -> Climb {
        let free = || bodies.iter().filter(|body| !body.held);
        let reach: f64 = free().map(|body| rung.ground.kinds[body.kind].shape.reach).sum();
        let trust = (FIRST_TRUST * reach / free().count().max(1) as f64).clamp(LEAST_TRUST, MOST_TRUST);
        let mut climb = Climb {
            stand: Stand::new(rung, bodies),
            trust,
            recent: [f64::INFINITY; RECENT],
            weak: 0,
            steps: 0,
            rests: 0,
            is_at_the_top: false,
            mended: None,
        };
        climb.stand.look(measure, trust);
        climb
    }

    /// No climb at all: what has been reached is mended, so that it can be shown.
    pub fn brief<M: Measure>(measure: &M, rung: Rung, bodies: Vec<Body>) -> Climb {
        let mut climb = Climb::new(measure, rung, bodies);
        (climb.is_at_the_top, climb.mended) = (true, Some(0));
        climb
    }

    /// One step towards a level above `goal`; also returns what it cost, in points looked up.
    pub fn step<M: Measure>(&mut self, measure: &M, goal: f64) -> (Climbed, u64) {
        if let Some(times) = self.mended {
            let (climbed, work) = self.mend(measure, times);
            return (climbed, work + self.stand.rung.work_done());
        }
        self.steps += 1;
        let (moves, work) = self.stand.moves(measure, self.trust, Wish::Rise);
        let is_over = match moves {
            Some(moves) if self.has_gained(measure, &moves) => self.weak >= WEAK_STEPS,
            _ => {
                self.trust *= 0.4;
                self.trust < LEAST_TRUST
            }
        };
        let ahead = (goal - self.stand.level) * measure.millimetres();
        if self.steps > RECENT + 1 && self.recent.iter().sum::<f64>() * HOPE < ahead {
            return (Climbed::Lost, work + self.stand.rung.work_done());
        }
        if is_over {
            self.come_to_an_end(measure);
        } else if self.steps.is_multiple_of(STEPS) {
            self.mended = Some(0);
        }
        (Climbed::Open, work + self.stand.rung.work_done() + self.stand.touches.len() as u64)
    }

    /// Makes true what was reckoned; then the top is reached if that has changed little.
    fn come_to_an_end<M: Measure>(&mut self, measure: &M) {
        let stretched = (self.stand.level - self.stand.rung.level).abs() * measure.millimetres();
        let lies = self.stand.lies();
        if stretched <= TRUE_ENOUGH || !self.go_to(measure, self.stand.level, &lies, true) {
            self.is_at_the_top = true;
            self.mended = Some(0);
            return;
        }
        self.weak = 0;
        self.trust = (10.0 * self.stand.missing).clamp(10.0 * LEAST_TRUST, MOST_TRUST);
    }

    /// Makes the moves if they are worth it.
    fn has_gained<M: Measure>(&mut self, measure: &M, moves: &Moves) -> bool {
        let (level, missing) = (self.stand.level, self.stand.missing);
        let next = measure.rounded((level + moves.won / measure.millimetres()).min(measure.last()));
        let before = self.stand.lies();
        self.stand.make(moves);
        let after = self.stand.lies();
        let gone = self.go_to(measure, next, &after, false);
        let gained = (next - level) * measure.millimetres();
        let worth = gained - WEIGHT * (self.stand.missing - missing);
        if !gone || worth <= 0.0 {
            self.go_to(measure, level, &before, false);
            return false;
        }
        self.recent[self.steps % RECENT] = gained;
        self.weak = if worth < LEAST_GAIN { self.weak + 1 } else { 0 };
        if self.stand.missing < 0.2 * moves.won {
            self.trust = (self.trust * 1.5).min(MOST_TRUST);
        }
        true
    }

    /// Sees to it that nothing is missing a hair below what has been reached.
    fn mend<M: Measure>(&mut self, measure: &M, times: usize) -> (Climbed, u64) {
        if self.stand.is_sound() {
            return (self.mended_well(), 1);
        }
        let Some(below) = BELOW.get(times) else { return (Climbed::Lost, 1) };
        self.mended = Some(times + 1);
        let level = measure.rounded(self.stand.level - below / measure.millimetres());
        let lies = self.stand.lies();
        if !self.go_to(measure, level, &lies, true) {
            return (Climbed::Lost, 1);
        }
        self.stand.round();
        let mut work = 1 + self.stand.look(measure, self.trust);
        let trust = (4.0 * self.stand.missing).max(LEAST_TRUST);
        for _ in 0..MENDING_STEPS {
            if self.stand.is_sound() {
                break;
            }
            let (moves, spent) = self.stand.moves(measure, trust, Wish::Mend);
            work += spent;
            let Some(moves) = moves else { break };
            self.stand.make(&moves);
            work += self.stand.look(measure, self.trust);
        }
        (if self.stand.is_sound() { self.mended_well() } else { Climbed::Open }, work)
    }

    /// At the top, or at a rest, after which the climb goes on.
    fn mended_well(&mut self) -> Climbed {
        self.mended = None;
        self.rests += 1;
        if self.is_at_the_top || self.rests >= RESTS { Climbed::Top } else { Climbed::Rest }
    }

    /// Goes to another level with pieces that lie like this; false if there is no such level.
    ///
    /// Unless the outlines must be true, those of the rung are kept for a while if they change with the level.
    fn go_to<M: Measure>(&mut self, measure: &M, level: f64, lies: &[Lie], is_true: bool) -> bool {
        let stretched = (level - self.stand.rung.level).abs() * measure.millimetres();
        if is_true || !M::RESHAPES || stretched > STRETCH {
            let Some(layout) = measure.layout_at(level) else { return false };
            self.stand.rung.move_to(measure, level, layout);
        }
        self.stand.level = level;
        self.stand.bodies = self.stand.rung.bodies(lies);
        self.stand.look(measure, self.trust);
        true
    }
}
