//! One way down to a low sheet: where it has come to, and how the next attempt is made.
//!
//! Source of the two phases: J. Gardeyn, G. Vanden Berghe, T. Wauters, "An open-source heuristic to reboot 2D nesting
//! research", arXiv 2509.13329, 2025.

use crate::random::Chance;
use crate::rearrange::board::{Board, Spot};
use crate::rearrange::untangle::{Patience, Untangle};

/// How much a sheet is lowered at first, and at least, while exploring; as a share of its height.
const FIRST_STEP: f64 = 0.01;
const LEAST_STEP: f64 = 0.001;
/// The same while compressing.
const FIRST_FINE_STEP: f64 = 0.000_5;
const LEAST_FINE_STEP: f64 = 0.000_02;
/// When an attempt is given up.
const EXPLORING: Patience = Patience { passes: 80, returns: 2 };
const COMPRESSING: Patience = Patience { passes: 40, returns: 2 };
/// Failures at the least step before compressing begins, and failures before exploring begins again.
const FAILURES_EXPLORING: usize = 30;
const FAILURES_COMPRESSING: usize = 10;
/// How many arrangements that could not be taken apart are kept.
const KEPT: usize = 20;

/// How the next attempt is begun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// From what nearly came apart, disturbed.
    Exploring,
    /// From the best sound arrangement.
    Compressing,
}

impl Phase {
    /// When an attempt of this phase is given up.
    pub fn patience(self) -> Patience {
        match self {
            Phase::Exploring => EXPLORING,
            Phase::Compressing => COMPRESSING,
        }
    }
}

/// A way down.
pub struct Lowering {
    /// The lowest sound arrangement, once there is one. Its room ends where the sheet does.
    pub board: Option<Board>,
    /// The height of its sheet in millimetres; infinite before.
    pub height: f64,
    /// How the next attempt is begun.
    pub phase: Phase,
    /// How much lower the next attempt is, as a share of the height.
    pub step: f64,
    /// The attempt that is being made.
    pub attempt: Option<Box<Untangle>>,
    /// The arrangements that could not be taken apart at the present height, with what was lacking, least first.
    pub kept: Vec<(f64, Vec<Spot>)>,
    failures: usize,
    /// Whether it has come lower since exploring last began anew.
    has_gained: bool,
}

impl Lowering {
    /// A way that begins with this attempt, if any, at whatever height it comes apart.
    pub fn new(attempt: Option<Box<Untangle>>) -> Lowering {
        Lowering {
            board: None,
            height: f64::INFINITY,
            phase: Phase::Exploring,
            step: FIRST_STEP,
            attempt,
            kept: Vec::new(),
            failures: 0,
            has_gained: false,
        }
    }

    /// Whether there is an arrangement or an attempt at one.
    pub fn has_begun(&self) -> bool {
        self.board.is_some() || self.attempt.is_some()
    }

    /// Takes a lower sound arrangement.
    pub fn reach(&mut self, board: Board, height: f64) {
        (self.board, self.height) = (Some(board), height);
        self.kept.clear();
        self.has_gained = true;
    }

    /// One of the arrangements kept, the least tangled ones most often. There must be one.
    pub fn draw_kept(&self, chance: &mut Chance) -> &[Spot] {
        let mut draw = || chance.below(self.kept.len());
        let index = draw().min(draw()).min(draw());
        &self.kept[index].1
    }

    /// Notes that an attempt has led to a lower arrangement.
    pub fn succeed(&mut self) {
        self.failures = 0;
        if self.phase == Phase::Exploring {
            self.step = (self.step * 0.98).max(LEAST_STEP);
        }
    }

    /// Notes that an attempt has not; whether both phases have been gone through with that, without a gain.
    pub fn fail(&mut self, attempt: &Untangle) -> bool {
        self.failures += 1;
        match self.phase {
            Phase::Exploring if self.step > LEAST_STEP => {
                self.step = (self.step * 0.5).max(LEAST_STEP);
                self.failures = 0;
            }
            Phase::Exploring if self.failures < FAILURES_EXPLORING => {
                let (spots, lacking) = attempt.best();
                let rank = self.kept.partition_point(|(other, _)| *other < lacking);
                self.kept.insert(rank, (lacking, spots[..attempt.board.free].to_vec()));
                self.kept.truncate(KEPT);
            }
            Phase::Exploring => {
                (self.phase, self.step, self.failures) = (Phase::Compressing, FIRST_FINE_STEP, 0);
            }
            Phase::Compressing if self.failures < FAILURES_COMPRESSING => {
                self.step = (self.step * 0.7).max(LEAST_FINE_STEP);
            }
            Phase::Compressing => {
                (self.phase, self.step, self.failures) = (Phase::Exploring, LEAST_STEP, 0);
                return !std::mem::take(&mut self.has_gained);
            }
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use kurbo::{Point, Rect};
    use stickleaf_outline::shapes;

    use super::*;
    use crate::rearrange::lies::{Form, Lies};

    fn tangle() -> Untangle {
        let form = Form { ring: shapes::l(20.0).points().to_vec(), turns: vec![0.0], mirror: false };
        let lies = Lies::new(&[form], 0.0);
        let spots = vec![Spot { lie: 0, at: Point::new(15.0, 15.0) }; 2];
        let board = Board::new(&lies, Rect::new(0.0, 0.0, 30.0, 30.0), spots, 2, vec![0.0; 2]);
        Untangle::new(&lies, board, Phase::Exploring.patience())
    }

    /// Failures until the way is over.
    fn failures(lowering: &mut Lowering, tangle: &Untangle) -> usize {
        (1..).find(|_| lowering.fail(tangle)).expect("it ends")
    }

    #[test]
    fn a_way_is_over_when_both_phases_have_gone_by_without_a_gain() {
        let tangle = tangle();
        let mut lowering = Lowering::new(None);
        // The step is halved four times from one per cent to a tenth of that.
        let both = FAILURES_EXPLORING + FAILURES_COMPRESSING;
        assert_eq!(failures(&mut lowering, &tangle), 4 + both);
        assert_eq!((lowering.phase, lowering.step), (Phase::Exploring, LEAST_STEP));
        lowering.reach(tangle.board.clone(), 30.0);
        assert!(lowering.kept.is_empty());
        assert_eq!(failures(&mut lowering, &tangle), 2 * both);
        assert_eq!(lowering.kept.len(), KEPT.min(FAILURES_EXPLORING - 1));
    }
}
