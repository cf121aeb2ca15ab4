//! The most pieces when each weighs something and all together may weigh so much.

use super::kind::Kind;
use super::slack::ROUNDING;

/// What a layout must hold to be spoken of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holding {
    /// Every copy that must be there.
    Wanted,
    /// Whatever it likes.
    Anything,
}

/// The most pieces of these kinds whose weights add up to the capacity or less, no kind beyond its most.
///
/// Nothing if what must be there is too heavy by itself. `usize::MAX` if some weightless kind has no most.
pub fn most_by_weight(kinds: &[Kind], weights: &[f64], capacity: f64, holding: Holding) -> Option<usize> {
    let there = |kind: &Kind| if holding == Holding::Wanted { kind.least } else { 0 };
    let required: f64 = kinds.iter().zip(weights).map(|(kind, weight)| there(kind) as f64 * weight).sum();
    let capacity = capacity * ROUNDING;
    let mut left = capacity - required;
    if left < 0.0 {
        return (holding == Holding::Anything).then_some(0);
    }
    // A little more for each sum that was taken.
    left += capacity * 1e-9;
    let mut count: usize = kinds.iter().map(there).sum();
    let mut order: Vec<(&Kind, f64)> = kinds.iter().zip(weights.iter().copied()).collect();
    order.sort_by(|a, b| a.1.total_cmp(&b.1));
    for (kind, weight) in order {
        let wanted = kind.most.map(|most| most.saturating_sub(there(kind)));
        let fit = if weight > 0.0 { (left / weight).floor().max(0.0) as usize } else { usize::MAX };
        let more = wanted.map_or(fit, |wanted| wanted.min(fit));
        if more == usize::MAX {
            return Some(usize::MAX);
        }
        count = count.saturating_add(more);
        left -= more as f64 * weight;
        // The next kinds are no lighter.
        if more == fit {
            break;
        }
    }
    Some(count)
}

/// The most pieces of these kinds in all; nothing if some kind has no most.
pub fn most_wanted(kinds: &[Kind]) -> Option<usize> {
    kinds.iter().map(|kind| kind.most).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(least: usize, most: Option<usize>) -> Kind {
        Kind { least, most, ..Kind::sample() }
    }

    #[test]
    fn the_lightest_come_first_and_no_more_than_are_wanted() {
        let kinds = [kind(1, None), kind(0, Some(2)), kind(2, Some(2))];
        let weights = [3.0, 1.0, 5.0];
        // Two of 1, and six of 3 in what is left.
        assert_eq!(most_by_weight(&kinds, &weights, 20.0, Holding::Anything), Some(8));
        // 3 + 10 must be there; two of 1, and one more of 3.
        assert_eq!(most_by_weight(&kinds, &weights, 20.0, Holding::Wanted), Some(6));
        assert_eq!(most_by_weight(&kinds, &weights, 12.0, Holding::Wanted), None);
        assert_eq!(most_by_weight(&kinds, &weights, 13.0, Holding::Wanted), Some(3));
        assert_eq!(most_wanted(&kinds), None);
        assert_eq!(most_wanted(&kinds[1..]), Some(4));
    }

    #[test]
    fn what_weighs_nothing_is_not_bounded() {
        assert_eq!(most_by_weight(&[kind(0, None)], &[0.0], 1.0, Holding::Anything), Some(usize::MAX));
        assert_eq!(most_by_weight(&[kind(0, Some(7))], &[0.0], 1.0, Holding::Anything), Some(7));
        // Less than nothing makes room for others.
        let two = [kind(0, Some(2)), kind(0, None)];
        assert_eq!(most_by_weight(&two, &[-1.0, 1.0], 1.0, Holding::Anything), Some(5));
    }
}
