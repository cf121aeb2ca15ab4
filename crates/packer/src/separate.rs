//! Taking a layout in which pieces lie too near each other to one in which none do.
//!
//! Two moves take turns. All pieces push each other apart a little at a time; when that gets stuck, a piece that is in
//! the way jumps to where it costs least. What a pair costs grows while the pair stays in conflict (*guided local
//! search*, C. Voudouris, E. Tsang, A. Alsheddy, "Handbook of Metaheuristics", 2010, p. 321), so that stuck pieces
//! become dear to everyone near them. Once little is missing, the true cut lines are brought to the exact distance.

use kurbo::Point;

use crate::body::Body;
use crate::contact::{Extra, rough_contacts};
use crate::ground::Ground;
use crate::polish::exact_contacts;
use crate::push::{Missing, Push};
use crate::random::Chance;
use crate::spots::{Tries, Weights, best_spot};

/// What may be missing at the true lines in the end, in millimetres.
pub const EXACT_SLACK: f64 = 0.000_1;

/// What is asked beyond the rules at the true lines: what rounding places and turns to their grid may take away, and
/// [`EXACT_SLACK`] with it.
///
/// A place moves by 0.07 micrometres at most, the rim of a 60 mm piece turns by another 0.03; two pieces by twice that.
const FOR_ROUNDING: Extra = Extra { spacing: 0.000_3, margin: 0.000_2 };
/// With so little missing by the rough measure, the true lines are looked at.
const ROUGH_SLACK: f64 = 0.03;
/// The same where all pieces are round, whose rough measure is good.
const ROUND_SLACK: f64 = 0.003;
/// Contacts with so much room left have their say, in millimetres.
const NEAR: f64 = 0.5;
/// No piece moves further than this in one step, in millimetres: roughly, and at the true lines.
const ROUGH_MOVE: f64 = 1.5;
const EXACT_MOVE: f64 = 0.1;
/// Pushes at every contact in a step.
const SWEEPS: usize = 25;
/// Steps without progress after which pushing is given up for a while.
const PATIENCE: usize = 12;
/// What counts as progress: this share of what was missing.
const PROGRESS: f64 = 0.97;
const TRIES: Tries = Tries { anywhere: 60, nearby: 20, refined: 3 };

/// How an attempt stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Not decided yet.
    Open,
    /// Every rule holds at the true lines, before rounding.
    Solved,
    /// Given up.
    Failed,
}

/// One attempt to separate bodies.
pub struct Attempt {
    /// The bodies as they lie now.
    pub bodies: Vec<Body>,
    weights: Weights,
    push: Push,
    rings: Vec<Vec<Point>>,
    exact: bool,
    least: f64,
    idle: usize,
    jumps_left: usize,
    rough_slack: f64,
    /// The bodies as they lay when least was missing at a place where pushing got stuck, and how much in all.
    closest: (f64, Vec<Body>),
}

impl Attempt {
    /// An attempt on these bodies that gives up after so many jumps.
    pub fn new(ground: &Ground, bodies: Vec<Body>, jumps: usize) -> Attempt {
        let round = |body: &Body| ground.kinds[body.kind].shape.is_round;
        let rough_slack = if bodies.iter().all(round) { ROUND_SLACK } else { ROUGH_SLACK };
        Attempt {
            weights: Weights::new(bodies.len()),
            bodies,
            push: Push::default(),
            rings: Vec::new(),
            exact: false,
            least: f64::INFINITY,
            idle: 0,
            jumps_left: jumps,
            rough_slack,
            closest: (f64::INFINITY, Vec::new()),
        }
    }

    /// Works until decided or until so many points have been looked up; takes what was looked up off the budget.
    pub fn work(&mut self, ground: &Ground, chance: &mut Chance, budget: &mut u64) -> Outcome {
        while *budget > 0 {
            let spent = if self.exact { self.exact_step(ground) } else { self.rough_step(ground, chance) };
            match spent {
                Ok(spent) => *budget = budget.saturating_sub(spent),
                Err(outcome) => return outcome,
            }
        }
        Outcome::Open
    }

    /// The bodies as they lay when least was missing at a place where pushing got stuck; none before that.
    pub fn closest(&self) -> &[Body] {
        &self.closest.1
    }

    fn rough_step(&mut self, ground: &Ground, chance: &mut Chance) -> Result<u64, Outcome> {
        let mut work = rough_contacts(ground, &self.bodies, Extra::default(), NEAR, &mut self.push.contacts);
        let missing = self.push.missing();
        if missing.most <= self.rough_slack {
            self.exact = true;
            self.start_watching();
            return Ok(work);
        }
        if self.is_stuck(missing) {
            if missing.total < self.closest.0 {
                self.closest = (missing.total, self.bodies.clone());
            }
            if self.jumps_left == 0 {
                return Err(Outcome::Failed);
            }
            self.jumps_left -= 1;
            work += self.jump(ground, chance);
            self.start_watching();
            return Ok(work);
        }
        self.push.step(ground, &mut self.bodies, SWEEPS, ROUGH_MOVE);
        Ok(work + (self.push.contacts.len() * SWEEPS / 4) as u64)
    }

    fn exact_step(&mut self, ground: &Ground) -> Result<u64, Outcome> {
        let Attempt { bodies, push, rings, .. } = self;
        let work = exact_contacts(ground, bodies, FOR_ROUNDING, rings, &mut push.contacts);
        let missing = push.missing();
        if missing.most <= EXACT_SLACK {
            return Err(Outcome::Solved);
        }
        if self.is_stuck(missing) {
            // The rough measure would call it done again: only a jump leads on.
            self.exact = false;
            self.idle = PATIENCE;
            self.rough_slack = (self.rough_slack * 0.7).max(ROUND_SLACK);
            return Ok(work);
        }
        self.push.step(ground, &mut self.bodies, SWEEPS * 2, EXACT_MOVE);
        Ok(work / 2 + (self.push.contacts.len() * SWEEPS / 4) as u64)
    }

    fn start_watching(&mut self) {
        self.least = f64::INFINITY;
        self.idle = 0;
    }

    fn is_stuck(&mut self, missing: Missing) -> bool {
        if missing.total < self.least * PROGRESS {
            self.least = missing.total;
            self.idle = 0;
        } else {
            self.idle += 1;
        }
        self.idle > PATIENCE
    }

    /// Makes conflicts dearer and sends one or two pieces in conflict to where they cost least.
    fn jump(&mut self, ground: &Ground, chance: &mut Chance) -> u64 {
        let most = self.push.missing().most.max(1e-9);
        self.weights.fade(0.95);
        let mut burden = vec![0.0; self.bodies.len()];
        for contact in self.push.contacts.iter().filter(|contact| contact.depth > 0.0) {
            let weight = self.weights.of_mut(contact.a, contact.b);
            // Between a little and twice as dear, the worst most.
            *weight *= 1.2 + 0.8 * contact.depth / most;
            for index in [Some(contact.a), contact.b].into_iter().flatten() {
                if !self.bodies[index].held {
                    burden[index] += contact.depth * *weight;
                }
            }
        }
        let mut work = 0;
        for _ in 0..1 + chance.below(2) {
            let Some(index) = drawn(&burden, chance) else { break };
            burden[index] = 0.0;
            let (spot, spent) = best_spot(ground, &self.bodies, index, &self.weights, TRIES, chance);
            self.bodies[index].lie(ground, spot.at, spot.degrees, spot.mirrored);
            work += spent;
        }
        work
    }
}

/// An index, each as likely as its burden is large; nothing if there are none.
fn drawn(burdens: &[f64], chance: &mut Chance) -> Option<usize> {
    let total: f64 = burdens.iter().sum();
    let mut left = chance.unit() * total;
    let mut last = None;
    for (index, &burden) in burdens.iter().enumerate().filter(|&(_, &burden)| burden > 0.0) {
        last = Some(index);
        left -= burden;
        if left <= 0.0 {
            break;
        }
    }
    last
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns};

    use super::*;
    use crate::polish::is_clear;

    fn attempt(side: f64, copies: usize) -> (Ground, Attempt, Outcome) {
        let mut sticker = Sticker::new("s", "S", shapes::l(20.0));
        sticker.turns = Turns::Any;
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: side, height: side, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        });
        let middle = Placement::at(side / 2.0, side / 2.0);
        let bodies = vec![Body::new(&ground, 0, &middle, false); copies];
        let mut attempt = Attempt::new(&ground, bodies, 40);
        let outcome = attempt.work(&ground, &mut Chance::new(1), &mut 20_000_000);
        (ground, attempt, outcome)
    }

    #[test]
    fn a_heap_of_pieces_comes_apart() {
        let (ground, attempt, outcome) = attempt(70.0, 6);
        assert_eq!(outcome, Outcome::Solved);
        for (index, body) in attempt.bodies.iter().enumerate() {
            let others: Vec<&Body> = attempt.bodies[..index].iter().collect();
            assert!(is_clear(&ground, body, &others, EXACT_SLACK));
        }
    }

    #[test]
    fn what_cannot_be_is_given_up() {
        // Three Ls of 222 mm² each in 24 x 24 mm.
        assert_eq!(attempt(32.0, 3).2, Outcome::Failed);
    }
}
