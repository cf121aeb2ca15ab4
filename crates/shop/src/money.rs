//! Money in whole cents, and shares of it that lose none.

use core::ops::{Add, AddAssign};

use serde::{Deserialize, Serialize};

/// An amount of money in whole cents, or whatever the hundredth part of the currency is called.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Cents(pub i64);

impl Cents {
    /// `count` times a price for `per` of them, rounded once, half a cent up; 0 for nothing to divide by.
    ///
    /// A whole run is priced by one such product and not by adding up rounded shares, so that nothing drifts.
    pub fn of(price: Cents, count: u64, per: u64) -> Cents {
        if per == 0 {
            return Cents(0);
        }
        let (product, per) = (i128::from(price.0) * i128::from(count), i128::from(per));
        Cents(clamped((2 * product + per).div_euclid(2 * per)))
    }

    /// The nearest whole cents, half a cent up; 0 for what is no number.
    pub fn rounded(cents: f64) -> Cents {
        // A float that is too large ends at the largest whole number, and what is none becomes 0.
        Cents((cents + 0.5).floor() as i64)
    }

    /// The amount in equal shares that together are the amount again: the first ones are a cent larger where they must be.
    pub fn shares(self, count: u64) -> impl Iterator<Item = Cents> {
        let parts = i64::try_from(count).unwrap_or(i64::MAX).max(1);
        let (share, over) = (self.0.div_euclid(parts), self.0.rem_euclid(parts));
        (0..if count == 0 { 0 } else { parts }).map(move |i| Cents(share + i64::from(i < over)))
    }

    /// The amount for one of so many, in cents and parts of them; 0 for none.
    pub fn each(self, count: u64) -> f64 {
        if count == 0 { 0.0 } else { self.0 as f64 / count as f64 }
    }

    /// The amount with its sign in front, such as `€ 12.30`; negative amounts have a minus before everything.
    pub fn text(self, currency: &str) -> String {
        let minus = if self.0 < 0 { "-" } else { "" };
        let (whole, cents) = (self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100);
        let gap = if currency.is_empty() { "" } else { " " };
        format!("{minus}{currency}{gap}{whole}.{cents:02}")
    }
}

fn clamped(cents: i128) -> i64 {
    i64::try_from(cents).unwrap_or(if cents < 0 { i64::MIN } else { i64::MAX })
}

impl Add for Cents {
    type Output = Cents;

    fn add(self, other: Cents) -> Cents {
        Cents(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Cents {
    fn add_assign(&mut self, other: Cents) {
        *self = *self + other;
    }
}

impl core::iter::Sum for Cents {
    fn sum<I: Iterator<Item = Cents>>(amounts: I) -> Cents {
        amounts.fold(Cents(0), Add::add)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_run_is_rounded_once() {
        // A pack of 25 pages for 7.99: one page is 31.96 cents, 300 pages are 95.88 and not 300 times 0.32 = 96.00.
        assert_eq!(Cents::of(Cents(799), 1, 25), Cents(32));
        assert_eq!(Cents::of(Cents(799), 300, 25), Cents(9588));
        assert_eq!(Cents::of(Cents(1), 1, 2), Cents(1));
        assert_eq!(Cents::of(Cents(799), 5, 0), Cents(0));
    }

    #[test]
    fn amounts_are_written_with_any_sign() {
        assert_eq!(Cents(1230).text("€"), "€ 12.30");
        assert_eq!(Cents(-5).text("kr"), "-kr 0.05");
        assert_eq!(Cents(100).text(""), "1.00");
        assert_eq!((Cents::rounded(10.5), Cents::rounded(f64::NAN)), (Cents(11), Cents(0)));
    }

    proptest! {
        #[test]
        fn shares_add_up_to_the_cent(cents in -1_000_000..1_000_000_i64, count in 1..500_u64) {
            let shares: Vec<Cents> = Cents(cents).shares(count).collect();
            prop_assert_eq!(shares.len() as u64, count);
            prop_assert_eq!(shares.iter().copied().sum::<Cents>(), Cents(cents));
            let (least, most) = (shares.iter().min().unwrap(), shares.iter().max().unwrap());
            prop_assert!(most.0 - least.0 <= 1);
        }
    }
}
