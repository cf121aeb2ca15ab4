//! How one attempt at a fixed size, gap or height is made.

use crate::body::Body;
use crate::ground::Ground;
use crate::random::Chance;
use crate::separate::{Attempt, Outcome};

/// Jumps of an attempt before it is given up.
const JUMPS: usize = 40;

/// An attempt to bring bodies into places in which they keep every rule. Another way of searching is another variant.
pub enum Engine {
    /// Pushing and jumping apart.
    Separation(Box<Attempt>),
}

impl Engine {
    /// An attempt that starts from these bodies, which may lie on each other.
    pub fn new(ground: &Ground, bodies: Vec<Body>) -> Engine {
        Engine::Separation(Box::new(Attempt::new(ground, bodies, JUMPS)))
    }

    /// Works until decided or until the budget is used up.
    pub fn work(&mut self, ground: &Ground, chance: &mut Chance, budget: &mut u64) -> Outcome {
        match self {
            Engine::Separation(attempt) => attempt.work(ground, chance, budget),
        }
    }

    /// The bodies as they lie now.
    pub fn bodies(&self) -> &[Body] {
        match self {
            Engine::Separation(attempt) => &attempt.bodies,
        }
    }
}
