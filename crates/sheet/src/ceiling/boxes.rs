//! The bounds by boxes, for stickers that stay upright or turn by quarters.
//!
//! Grown by half the spacing, pieces do not overlap, so upright boxes inside them do not either, and all of them lie in
//! the box about the ground, W wide and H high. A piece that may lie any way still holds the upright square in its disc.
//!
//! **In a grid.** If all the boxes are w × h, no more than ⌊W/w⌋ ⌊H/h⌋ of them fit; W and H are less by what a box is away
//! from the edge of its own piece. Source: the next bound, with k = ⌊W/w⌋ and m = ⌊H/h⌋.
//!
//! **By dual feasible functions.** A function u from shares to shares is *dual feasible* if whatever adds up to 1 or less
//! still does once u is applied to every summand. If u and v are, the sum of u(w/W) v(h/H) over boxes w × h that lie in
//! W × H is 1 or less. Taken here: the share itself; (⌈(k + 1) share⌉ - 1) / k, which lets shares a little above 1/(k + 1)
//! count as 1/k; and, for a threshold t up to 1/2, nothing for shares below t, all for shares above 1 - t, since no share
//! that counts fits beside one of these, and the share itself between. Source: S. Fekete and J. Schepers, "New classes of
//! fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), and "A general framework for bounds for
//! higher-dimensional orthogonal packing problems", Mathematical Methods of Operations Research 60 (2004). Each sticker
//! takes the best of the boxes in it.
//!
//! **On a pallet.** If all the boxes are a × b or b × a, they are made up of rods that are a long and as thin as one likes.
//! Colour the point (x, y) by the rest of x + y after division by a: every rod holds all colours alike, and so does the
//! covered part. It holds no more of each than the whole has of its rarest colour, and what is left stays uncovered. Let r
//! and q be the rests of W and H after division by a. But for a part that falls into rods, the whole is r × q. If
//! r + q ≤ a, that lacks a colour, and r q stays uncovered. Otherwise the rarest colour has r + q - a, and
//! r q - a (r + q - a) = (a - r)(a - q) does. That is the smaller of the two in either case. The same holds for b. Source:
//! F. Barnes, "Packing the maximum number of m × n tiles in a large p × q rectangle", Discrete Mathematics 26 (1979).

use kurbo::Size;

use super::kind::{InnerBox, Kind, Manner};
use super::slack::ROUNDING;
use super::weights::{Holding, most_by_weight};

/// The largest k of the functions tried, with few and with many kinds.
const MOST_STEPS: (usize, usize) = (12, 6);

/// More kinds than this are many.
const MANY: usize = 16;

/// No more thresholds than this are tried.
const MOST_THRESHOLDS: usize = 6;

/// The most pieces of these kinds by boxes; nothing if what must be there is too much by itself.
///
/// `around` is the size of the box about the ground.
pub fn most_by_boxes(kinds: &[Kind], around: Size, holding: Holding) -> Option<usize> {
    // Squares in discs alone say less than the discs themselves.
    if kinds.iter().all(|kind| kind.manner == Manner::Free) {
        return Some(usize::MAX);
    }
    let alike = most_in_grid(kinds, around).min(most_on_pallet(kinds, around));
    Some(by_functions(kinds, around, holding)?.min(alike))
}

/// A dual feasible function of shares.
#[derive(Clone, Copy, Debug)]
enum Measure {
    /// The share itself.
    Share,
    /// So many steps.
    Steps(usize),
    /// Nothing below the threshold, which is half or less, and all above its complement.
    Threshold(f64),
}

impl Measure {
    fn of(self, share: f64) -> f64 {
        match self {
            Measure::Share => share,
            // A share exactly on a step may stay itself, which is more than a step less.
            Measure::Steps(steps) => ((share * (steps + 1) as f64) / ROUNDING).floor() / steps as f64,
            Measure::Threshold(threshold) if share < threshold => 0.0,
            Measure::Threshold(threshold) if share > (1.0 - threshold) * ROUNDING => 1.0,
            Measure::Threshold(_) => share,
        }
    }
}

fn by_functions(kinds: &[Kind], around: Size, holding: Holding) -> Option<usize> {
    let mut best = usize::MAX;
    let down = measures(kinds, |inner| inner.height / around.height);
    for across in measures(kinds, |inner| inner.width / around.width) {
        for down in &down {
            let weigh =
                |size: Size| across.of(size.width / around.width) * down.of(size.height / around.height);
            let weights: Vec<f64> = kinds.iter().map(|kind| weight(kind, &weigh)).collect();
            best = best.min(most_by_weight(kinds, &weights, 1.0, holding)?);
        }
    }
    Some(best)
}

/// The functions worth a try; the thresholds are the largest shares of the boxes.
fn measures(kinds: &[Kind], share: impl Fn(&InnerBox) -> f64) -> Vec<Measure> {
    let steps = if kinds.len() > MANY { MOST_STEPS.1 } else { MOST_STEPS.0 };
    let largest = |kind: &Kind| kind.boxes.iter().map(&share).fold(0.0, f64::max);
    let mut thresholds: Vec<f64> =
        kinds.iter().map(largest).filter(|share| (0.05..=0.5).contains(share)).collect();
    thresholds.sort_by(f64::total_cmp);
    thresholds.dedup();
    thresholds.truncate(MOST_THRESHOLDS);
    let steps = (1..=steps).map(Measure::Steps);
    [Measure::Share].into_iter().chain(steps).chain(thresholds.into_iter().map(Measure::Threshold)).collect()
}

/// The weight of the best box in a sticker, at the turn where that is least.
fn weight(kind: &Kind, weigh: &impl Fn(Size) -> f64) -> f64 {
    let best =
        |size: fn(&InnerBox) -> Size| kind.boxes.iter().map(|inner| weigh(size(inner))).fold(0.0, f64::max);
    let upright = best(|inner| Size::new(inner.width, inner.height));
    match kind.manner {
        Manner::Quarter => upright.min(best(|inner| Size::new(inner.height, inner.width))),
        _ => upright,
    }
}

/// The best bound by a box of one size, upright on the sheet, that all kinds hold.
fn most_in_grid(kinds: &[Kind], around: Size) -> usize {
    let widths = kinds.iter().flat_map(|kind| kind.boxes.iter().map(|inner| inner.width));
    widths.filter_map(|width| in_grid(kinds, around, width)).min().unwrap_or(usize::MAX)
}

fn in_grid(kinds: &[Kind], around: Size, width: f64) -> Option<usize> {
    let mut height = f64::INFINITY;
    for kind in kinds {
        height = height.min(kind.boxes.iter().find(|inner| inner.width >= width)?.height);
        if kind.manner == Manner::Quarter {
            height = height.min(kind.boxes.iter().rfind(|inner| inner.height >= width)?.width);
        }
    }
    let (mut left, mut top, mut right, mut bottom) = [f64::INFINITY; 4].into();
    for kind in kinds {
        let turned = (kind.manner == Manner::Quarter).then_some((height, width));
        for (width, height) in [Some((width, height)), turned].into_iter().flatten() {
            let inner = kind.boxes.iter().find(|inner| inner.width >= width)?;
            let (spare_x, spare_y) = ((inner.width - width) / 2.0, (inner.height - height) / 2.0);
            left = left.min(inner.left + spare_x);
            right = right.min(inner.right + spare_x);
            top = top.min(inner.top + spare_y);
            bottom = bottom.min(inner.bottom + spare_y);
        }
    }
    let fit = |length: f64, step: f64| (length / step * ROUNDING).floor().max(0.0) as usize;
    Some(fit(around.width - left - right, width) * fit(around.height - top - bottom, height))
}

/// The best bound by a box of one size that all kinds hold, lying one way or the other.
fn most_on_pallet(kinds: &[Kind], around: Size) -> usize {
    let widths = kinds.iter().flat_map(|kind| kind.boxes.iter().map(|inner| inner.width));
    let sizes = widths.filter_map(|a| {
        let other = |kind: &Kind| {
            let upright = kind.boxes.iter().find(|inner| inner.width >= a).map(|inner| inner.height);
            let lying = kind.boxes.iter().rfind(|inner| inner.height >= a).map(|inner| inner.width);
            upright.into_iter().chain(lying).reduce(f64::max)
        };
        kinds.iter().map(other).reduce(|x, y| Some(x?.min(y?))).flatten().map(|b| (a, b))
    });
    let most = |(a, b): (f64, f64)| {
        let waste = uncovered(around, a).max(uncovered(around, b));
        ((around.area() - waste) / (a * b) * ROUNDING).floor().max(0.0) as usize
    };
    sizes.map(most).min().unwrap_or(usize::MAX)
}

/// The area that rods of this length leave uncovered at least.
fn uncovered(around: Size, rod: f64) -> f64 {
    let (r, q) = (around.width % rod, around.height % rod);
    (r * q).min((rod - r) * (rod - q))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn boxes(sizes: &[(f64, f64)], manner: Manner) -> Kind {
        let inner =
            |&(width, height)| InnerBox { width, height, left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 };
        Kind { manner, boxes: sizes.iter().map(inner).collect(), ..Kind::sample() }
    }

    #[test]
    fn upright_boxes_are_counted_in_rows_and_columns() {
        let kinds = [boxes(&[(40.0, 30.0)], Manner::Upright)];
        // 3 x 6; the area would allow 23.
        let around = Size::new(142.0, 204.0);
        assert_eq!(most_in_grid(&kinds, around), 18);
        assert_eq!(most_by_boxes(&kinds, around, Holding::Anything), Some(18));
        assert_eq!(by_functions(&kinds, around, Holding::Anything), Some(18));
    }

    #[test]
    fn boxes_away_from_the_edge_of_their_piece_have_less_room() {
        let mut kind = boxes(&[(10.0, 10.0)], Manner::Upright);
        assert_eq!(most_in_grid(&[kind.clone()], Size::new(42.0, 10.0)), 4);
        (kind.boxes[0].left, kind.boxes[0].right) = (1.5, 1.0);
        assert_eq!(most_in_grid(&[kind.clone()], Size::new(42.0, 10.0)), 3);
        // One that comes nearer on both sides spoils it.
        assert_eq!(most_in_grid(&[kind, boxes(&[(11.0, 12.0)], Manner::Upright)], Size::new(42.0, 12.0)), 4);
    }

    #[test]
    fn a_large_and_many_small_boxes_share_the_room() {
        let large = Kind { least: 1, most: Some(1), ..boxes(&[(60.0, 60.0)], Manner::Upright) };
        let small = boxes(&[(40.0, 40.0)], Manner::Upright);
        // Nothing else fits beside 60 x 60 in 99 x 99, though the area would allow three.
        let kinds = [large, small];
        assert_eq!(most_by_boxes(&kinds, Size::new(99.0, 99.0), Holding::Wanted), Some(1));
        assert_eq!(most_by_boxes(&kinds, Size::new(101.0, 101.0), Holding::Wanted), Some(4));
    }

    #[test]
    fn rods_leave_a_rest() {
        // 1 x 4 in 6 x 6: nine by area, but rods of 4 leave 2 x 2 uncovered.
        assert_eq!(uncovered(Size::new(6.0, 6.0), 4.0), 4.0);
        assert_eq!(uncovered(Size::new(7.0, 7.0), 4.0), 1.0);
        let kinds = [boxes(&[(4.0, 1.0)], Manner::Quarter)];
        assert_eq!(most_by_boxes(&kinds, Size::new(6.0, 6.0), Holding::Anything), Some(8));
    }

    /// The rectangle cut across its longer side again and again.
    fn cut(size: Size, shares: &[f64]) -> Vec<Size> {
        let [share, rest @ ..] = shares else { return vec![size] };
        let (one, other) = if size.width > size.height {
            (Size::new(size.width * share, size.height), Size::new(size.width * (1.0 - share), size.height))
        } else {
            (Size::new(size.width, size.height * share), Size::new(size.width, size.height * (1.0 - share)))
        };
        let (near, far) = rest.split_at(rest.len() / 2);
        [cut(one, near), cut(other, far)].concat()
    }

    proptest! {
        /// The parts of a rectangle fit into it.
        #[test]
        fn the_parts_of_a_rectangle_are_within_the_bound(
            width in 50.0..150.0f64,
            height in 50.0..150.0f64,
            shares in proptest::collection::vec(0.2..0.8f64, 1..12),
            is_even in any::<bool>(),
            manner in prop_oneof![Just(Manner::Upright), Just(Manner::Quarter)],
        ) {
            let around = Size::new(width, height);
            let shares = if is_even { vec![0.5; shares.len()] } else { shares };
            let parts = cut(around, &shares);
            let kinds: Vec<Kind> = parts
                .iter()
                .map(|size| Kind { least: 1, most: Some(1), ..boxes(&[(size.width, size.height)], manner) })
                .collect();
            prop_assert!(most_by_boxes(&kinds, around, Holding::Wanted) == Some(parts.len()));
            // The same, if each may be there as often as it likes.
            let kinds: Vec<Kind> = kinds.into_iter().map(|kind| Kind { least: 0, most: None, ..kind }).collect();
            let most = most_by_boxes(&kinds, around, Holding::Anything);
            prop_assert!(most.is_some_and(|most| most >= parts.len()));
        }
    }
}
