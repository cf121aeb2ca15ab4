//! How many boxes there can be at most, proved in no time.
//!
//! A dual feasible function stretches lengths, each a share of the whole, so that lengths whose sum was at most 1 still
//! have a sum of at most 1. If one is applied to all widths and another to all heights, boxes that lay side by side in the
//! unit square can still do so; so their areas after stretching sum to at most 1, and that bounds their number. The
//! identity gives the plain bound of areas.
//!
//! Source: S. P. Fekete, J. Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
//! Mathematical Methods of Operations Research 60 (2004), theorem 3 and section 3.

use crate::page::instance::Instance;

/// Functions that round to multiples of 1/k are tried up to this k.
const MOST_STEPS: i64 = 24;

/// A fraction; its denominator is above 0.
type Fraction = (i128, i128);

/// A way of stretching lengths.
#[derive(Clone, Copy, Debug)]
enum Stretch {
    /// Leaves them as they are.
    Not,
    /// Rounds to multiples of 1/k: down, but x with a whole (k + 1) x stays. Fekete and Schepers' u(k).
    Steps(i64),
    /// Makes what is longer than the whole less this share the whole, and what is shorter than this share nothing; the
    /// share is a fraction of at most a half. Fekete and Schepers' U(ε).
    Ends(i64, i64),
}

impl Stretch {
    /// The stretched length, as a share of the whole.
    fn of(self, length: i64, whole: i64) -> Fraction {
        let (length, whole) = (i128::from(length), i128::from(whole));
        match self {
            Stretch::Not => (length, whole),
            Stretch::Steps(k) => {
                let k = i128::from(k);
                if (k + 1) * length % whole == 0 { (length, whole) } else { ((k + 1) * length / whole, k) }
            }
            Stretch::Ends(part, all) => {
                let (part, all) = (i128::from(part), i128::from(all));
                if length * all > whole * (all - part) {
                    (1, 1)
                } else if length * all < whole * part {
                    (0, 1)
                } else {
                    (length, whole)
                }
            }
        }
    }
}

/// No plan holds more boxes than this.
pub(crate) fn most(instance: &Instance) -> usize {
    let tight = instance.tightened();
    if tight.width == 0 || tight.height == 0 {
        return 0;
    }
    let stretches = |length: i64| {
        let ends = [tight.box_width, tight.box_height]
            .into_iter()
            .filter(move |&side| 2 * side <= length)
            .map(move |side| Stretch::Ends(side, length));
        [Stretch::Not].into_iter().chain((1..=MOST_STEPS).map(Stretch::Steps)).chain(ends)
    };
    let across: Vec<Stretch> = stretches(tight.width).collect();
    let down: Vec<Stretch> = stretches(tight.height).collect();
    let bounds = across.iter().flat_map(|&x| down.iter().map(move |&y| bound(&tight, x, y)));
    bounds.flatten().min().unwrap_or(0)
}

/// The bound that two functions give; nothing if they make a box vanish.
fn bound(instance: &Instance, across: Stretch, down: Stretch) -> Option<usize> {
    let areas = [false, true].map(|is_turned| {
        let (width, height) = instance.sides(is_turned);
        if width > instance.width || height > instance.height {
            // No box lies this way round.
            return None;
        }
        let ((wide, of_wide), (high, of_high)) =
            (across.of(width, instance.width), down.of(height, instance.height));
        Some((wide * high, of_wide * of_high))
    });
    let least = match areas {
        [Some(upright), Some(turned)] => {
            if upright.0.checked_mul(turned.1)? <= turned.0.checked_mul(upright.1)? {
                upright
            } else {
                turned
            }
        }
        [Some(only), None] | [None, Some(only)] => only,
        [None, None] => return Some(0),
    };
    (least.0 > 0).then(|| usize::try_from(least.1 / least.0).unwrap_or(usize::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instance(width: i64, height: i64, box_width: i64, box_height: i64) -> Instance {
        Instance { width, height, box_width, box_height }
    }

    #[test]
    fn it_is_at_most_the_bound_of_areas() {
        for (width, height, a, b) in [(14, 10, 3, 2), (141, 71, 13, 8), (297, 210, 90, 55), (10, 10, 11, 2)] {
            let instance = instance(width, height, a, b);
            assert!(most(&instance) <= (width * height / (a * b)) as usize);
        }
    }

    #[test]
    fn it_sees_what_areas_do_not() {
        // Four boxes of 5 x 5 lie in 11 x 11, and not five, though 121 / 25 is 4.84: nor in 14 x 14, where areas say 7.
        assert_eq!(most(&instance(14, 14, 5, 5)), 4);
        // Longer than half of it either way: one above the other only.
        assert_eq!(most(&instance(10, 10, 6, 5)), 2);
        assert_eq!(most(&instance(10, 10, 11, 12)), 0);
    }

    #[test]
    fn stretched_lengths_keep_their_promise() {
        // Any lengths with a sum of at most the whole: 60 in parts of every size.
        for stretch in
            (1..=MOST_STEPS).map(Stretch::Steps).chain([Stretch::Ends(7, 60), Stretch::Ends(30, 60)])
        {
            for part in 1..=60_i64 {
                let (numerator, denominator) = stretch.of(part, 60);
                let copies = i128::from(60 / part);
                let rest = stretch.of(60 % part, 60);
                let sum = copies * numerator * rest.1 + rest.0 * denominator;
                assert!(sum <= denominator * rest.1, "{stretch:?} of {part}");
            }
        }
    }
}
