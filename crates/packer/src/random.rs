//! Numbers from a seed, the same on every platform.

use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg32;

/// A stream of chance.
///
/// Drawn as 32 and 64 bit numbers only: a `usize` has another width in the browser and would give another stream.
#[derive(Clone)]
pub struct Chance(Pcg32);

impl Chance {
    /// The stream of this seed.
    pub fn new(seed: u64) -> Chance {
        Chance(Pcg32::seed_from_u64(seed))
    }

    /// A number of at least 0 and below 1.
    pub fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A number of at least `from` and below `to`.
    pub fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    /// A whole number below `count`, which must be above zero and below 2³².
    ///
    /// Some numbers come up more often than others by one part in 2³² at most.
    pub fn below(&mut self, count: usize) -> usize {
        ((u64::from(self.0.next_u32()) * count as u64) >> 32) as usize
    }

    /// The items in another order, each order as likely.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            items.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_depends_on_the_seed_only() {
        let draw = |seed| {
            let mut chance = Chance::new(seed);
            (chance.below(1000), chance.unit(), chance.between(-3.0, 4.0))
        };
        assert_eq!(draw(7), draw(7));
        assert_ne!(draw(7), draw(8));
    }

    #[test]
    fn whole_numbers_cover_their_range_evenly() {
        let mut chance = Chance::new(1);
        let mut counts = [0; 6];
        for _ in 0..6000 {
            counts[chance.below(6)] += 1;
        }
        // Five standard deviations of a binomial count with n = 6000, p = 1/6: 5 sqrt(n p (1 - p)) = 144.
        assert!(counts.iter().all(|count| (856..=1144).contains(count)), "{counts:?}");
    }

    #[test]
    fn shuffling_keeps_every_item() {
        let mut items: Vec<usize> = (0..20).collect();
        Chance::new(3).shuffle(&mut items);
        assert_ne!(items, (0..20).collect::<Vec<_>>());
        items.sort_unstable();
        assert_eq!(items, (0..20).collect::<Vec<_>>());
    }
}
