//! How one attempt at a fixed size, gap or height is made.

use crate::body::Body;
use crate::ground::Ground;
use crate::random::Chance;
use crate::rearrange::attempt::{Rearrangement, Tangle};
use crate::rearrange::rough::Rough;
use crate::rearrange::setting::Setting;
use crate::separate::{Attempt, Outcome};

/// Jumps of an attempt before it is given up.
const JUMPS: usize = 40;
/// The same for one that starts from what has been arranged roughly.
const JUMPS_TO_MEND: usize = 10;

/// An attempt to bring bodies into places in which they keep every rule. Another way of searching is another variant.
pub enum Engine {
    /// Pushing and jumping apart.
    Separation(Box<Attempt>),
    /// Arranging rough outlines in a few turns, from which pushing goes on.
    Rearrangement(Box<Rearrangement>, Vec<Body>),
}

impl Engine {
    /// An attempt by pushing that starts from these bodies, which may lie on each other.
    pub fn pushing(ground: &Ground, bodies: Vec<Body>) -> Engine {
        Engine::Separation(Box::new(Attempt::new(ground, bodies, JUMPS)))
    }

    /// The same by arranging them first in a rough setting.
    pub fn arranging(ground: &Ground, rough: &Rough, bodies: Vec<Body>) -> Engine {
        Engine::Rearrangement(Box::new(rough.attempt(ground, &bodies)), bodies)
    }

    /// The same, starting from an arrangement that could not be taken apart; of the bodies only those that are held count.
    pub fn arranging_again(
        ground: &Ground,
        rough: &Rough,
        tangle: Tangle,
        bodies: Vec<Body>,
        chance: &mut Chance,
    ) -> Engine {
        let attempt = Rearrangement::again(ground, &rough.setting, tangle, chance);
        Engine::Rearrangement(Box::new(attempt), bodies)
    }

    /// The least tangled arrangement, while one is looked for.
    pub fn tangle(&self) -> Option<Tangle> {
        match self {
            Engine::Separation(_) => None,
            Engine::Rearrangement(attempt, _) => Some(attempt.tangle()),
        }
    }

    /// Works until decided or until the budget is used up. The setting is the one that it was made with.
    pub fn work(
        &mut self,
        ground: &Ground,
        setting: Option<&Setting>,
        chance: &mut Chance,
        budget: &mut u64,
    ) -> Outcome {
        if let (Engine::Rearrangement(attempt, bodies), Some(setting)) = (&mut *self, setting) {
            let outcome = attempt.work(setting, chance, budget);
            if outcome != Outcome::Solved {
                return outcome;
            }
            let held: Vec<Body> = bodies.iter().filter(|body| body.held).cloned().collect();
            let bodies = attempt.bodies(ground, setting, &held);
            *self = Engine::Separation(Box::new(Attempt::new(ground, bodies, JUMPS_TO_MEND)));
        }
        match self {
            Engine::Separation(attempt) => attempt.work(ground, chance, budget),
            Engine::Rearrangement(..) => Outcome::Failed,
        }
    }

    /// The bodies as they lie now; those that are being arranged, as they lay at first.
    pub fn bodies(&self) -> &[Body] {
        match self {
            Engine::Separation(attempt) => &attempt.bodies,
            Engine::Rearrangement(_, bodies) => bodies,
        }
    }
}
