//! Chance from a seed, for the plain ways to pack.

use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg32;

/// A stream of chance.
pub struct Chance(Pcg32);

impl Chance {
    /// The stream of this seed.
    pub fn new(seed: u64) -> Chance {
        Chance(Pcg32::seed_from_u64(seed))
    }

    /// A number of at least 0 and below 1.
    pub fn unit(&mut self) -> f64 {
        f64::from(self.0.next_u32()) / 4_294_967_296.0
    }

    /// A whole number below `count`, which must be above zero.
    pub fn below(&mut self, count: usize) -> usize {
        (self.unit() * count as f64) as usize
    }
}
