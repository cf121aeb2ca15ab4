//! A crowded layout in which little is missing, taken apart by moving and turning all pieces at once.
//!
//! Pushing moves each piece by what its own contacts miss and gets stuck where only a long row of pieces, each giving way
//! a little, makes room. A linear program sees the whole row: the best small moves of all pieces, those that leave least
//! missing where most is, again and again, no longer than can be trusted (sequential linear programming with a trust
//! region, as in A. M. Gomes and J. F. Oliveira, European Journal of Operational Research 171, 2006).

use crate::body::Body;
use crate::fit::{most_missing, needs};
use crate::ground::Ground;
use crate::moves::{Limits, Need, best_moves};
use crate::separate::Outcome;
use crate::touch::{Touch, touches};

/// How far a piece moves in one step at first, and at least, in millimetres.
const FIRST_TRUST: f64 = 1.0;
const LEAST_TRUST: f64 = 0.005;
/// Steps at most, and in how many of them what is missing must have become less by which share.
const STEPS: usize = 40;
const WATCHED: usize = 6;
const PROGRESS: f64 = 0.8;
/// With so little missing it is left to a finer hand, in millimetres.
pub const ENOUGH: f64 = 0.002;
/// More than this missing, in millimetres, and it is not worth beginning.
const MOST: f64 = 2.0;
/// Beyond what the moves can reach, in millimetres; what an answer may miss, as a share of the moves.
const BEYOND: f64 = 0.05;
const ROUGHLY: f64 = 0.02;

/// More free pieces than this make the programs so long that a round would be.
const MOST_MOVING: usize = 64;

/// Bodies that are moved and turned so that as little as possible is missing.
pub struct Squeeze {
    /// The bodies as they lie now.
    pub bodies: Vec<Body>,
    /// What is missing where most is, in millimetres: [`ENOUGH`] or less if it has succeeded.
    pub missing: f64,
    touches: Vec<Touch>,
    needs: Vec<Need>,
    trust: f64,
    steps: usize,
    /// What was missing when it was last looked at whether there is progress.
    watched: f64,
}

impl Squeeze {
    /// Begins with these bodies; nothing if they are so many that it would take long.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Option<Squeeze> {
        if bodies.iter().filter(|body| !body.held).count() > MOST_MOVING {
            return None;
        }
        let mut squeeze = Squeeze {
            bodies: bodies.to_vec(),
            missing: 0.0,
            touches: Vec::new(),
            needs: Vec::new(),
            trust: FIRST_TRUST,
            steps: 0,
            watched: f64::INFINITY,
        };
        touches(ground, bodies, 2.5 * FIRST_TRUST + BEYOND, &mut squeeze.touches);
        squeeze.needs = needs(ground, bodies, &squeeze.touches);
        squeeze.missing = most_missing(&squeeze.needs);
        Some(squeeze)
    }

    /// Works until decided or until the budget is used up, one program at a time; takes the points looked up off it.
    pub fn work(&mut self, ground: &Ground, budget: &mut u64) -> Outcome {
        while *budget > 0 {
            if self.missing <= ENOUGH {
                return Outcome::Solved;
            }
            if self.missing > MOST || self.trust < LEAST_TRUST || self.steps == STEPS || self.is_stuck() {
                return Outcome::Failed;
            }
            self.steps += 1;
            let (goes_on, work) = self.step(ground);
            *budget = budget.saturating_sub(work.max(1));
            if !goes_on {
                return Outcome::Failed;
            }
        }
        Outcome::Open
    }

    fn is_stuck(&mut self) -> bool {
        self.steps.is_multiple_of(WATCHED)
            && self.missing > std::mem::replace(&mut self.watched, self.missing) * PROGRESS
    }

    /// One program; false if it is not solved.
    fn step(&mut self, ground: &Ground) -> (bool, u64) {
        let trust = self.trust;
        let won = (-2.0 * self.missing, 0.0);
        let limits = Limits { trust, won, may_turn: true, tolerance: ROUGHLY * trust };
        let (moves, mut work) = best_moves(ground, &self.bodies, &self.needs, &limits);
        let Some(moves) = moves else { return (false, work) };
        let mut moved = self.bodies.clone();
        moves.make(ground, &mut moved);
        work += touches(ground, &moved, 2.5 * trust + BEYOND, &mut self.touches);
        let now = needs(ground, &moved, &self.touches);
        let missing = most_missing(&now);
        if missing < self.missing * 0.99 {
            (self.bodies, self.needs, self.missing) = (moved, now, missing);
        } else {
            self.trust *= 0.4;
        }
        (true, work)
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    fn row_of_boxes(width: f64) -> Squeeze {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width, height: 18.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        });
        // Four boxes of which the first two lack 1.5 mm, and room at the far end only.
        let body = |x: f64| Body::new(&ground, 0, &Placement::at(x, 9.0), false);
        let bodies = [body(9.0), body(19.5), body(31.5), body(43.5)];
        let mut squeeze = Squeeze::new(&ground, &bodies).expect("four are few");
        assert_ne!(squeeze.work(&ground, &mut u64::MAX.clone()), Outcome::Open);
        squeeze
    }

    #[test]
    fn a_whole_row_gives_way() {
        let squeezed = row_of_boxes(54.1);
        assert!(squeezed.missing <= ENOUGH, "{}", squeezed.missing);
        let apart = squeezed.bodies.windows(2).map(|two| two[1].at.x - two[0].at.x);
        assert!(apart.into_iter().all(|apart| apart > 12.0 - 1.01 * ENOUGH));
    }

    #[test]
    fn what_has_no_room_is_shared_out() {
        // Four boxes, three spacings and two margins are 54 mm; spacings and margins share what is missing.
        let missing = row_of_boxes(53.0).missing;
        assert!((missing - 1.0 / 5.0).abs() < 1e-3, "{missing}");
    }
}
