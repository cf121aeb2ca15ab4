//! Where attempts start, and how far ahead they try to get.

use crate::aims::rung::{Lie, Rung};
use crate::body::Body;
use crate::random::Chance;
use crate::shake::{disturb, scatter, swap};

/// What an attempt starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// The best layout as it is.
    Carried,
    /// The best layout with the pieces round some point put down anew.
    Disturbed,
    /// The best layout with two pieces in each other's place.
    Swapped,
    /// Nothing but the pieces.
    Scattered,
}

/// At which level an attempt is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Height {
    /// A step above the best one.
    Above,
    /// Some steps below it, to climb from there on another way.
    Below,
    /// Near it, where rough outlines can be arranged.
    Arranged,
}

/// What is tried one after the other, again and again, where nothing can be arranged.
pub const PLANS: [(Start, Height); 6] = [
    (Start::Carried, Height::Above),
    (Start::Disturbed, Height::Above),
    (Start::Swapped, Height::Above),
    (Start::Disturbed, Height::Above),
    (Start::Scattered, Height::Above),
    (Start::Disturbed, Height::Below),
];

/// The same where rough outlines can be arranged. Other ways hardly ever gain there, measured.
pub const ARRANGING_PLANS: [(Start, Height); 1] = [(Start::Disturbed, Height::Arranged)];

/// The bodies that an attempt starts with, from the best layout; and what that cost, in points looked up.
pub fn bodies(start: Start, rung: &Rung, lies: &[Lie], chance: &mut Chance) -> (Vec<Body>, u64) {
    let mut bodies = rung.bodies(lies);
    rung.bring_back(&mut bodies);
    let work = match start {
        Start::Carried => 0,
        Start::Disturbed => disturb(&rung.ground, &mut bodies, chance),
        Start::Swapped => swap(&rung.ground, &mut bodies, chance),
        Start::Scattered => scatter(&rung.ground, &mut bodies, chance),
    };
    (bodies, work)
}
