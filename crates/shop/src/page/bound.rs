//! Proved bounds on the number of equal boxes in a rectangle.
//!
//! *Scales.* Let the long side weigh f and the short side f' so that no row along the width weighs more than F, and
//! likewise g, g' and G along the height. Then boxes with their long side along the width, each of weight f g', and
//! those with the short side along it, each of f' g, weigh no more than F G together. Each corner of the sets of such
//! weights gives an inequality for the two counts; the bound is their greatest whole sum under all of them.
//! Source: "conservative scales", S. P. Fekete and J. Schepers, "A general framework for bounds for higher-dimensional
//! orthogonal packing problems", Mathematical Methods of Operations Research 60, 2004; with one scale for both
//! directions this is the bound by equivalent problems of Dowsland 1984 (see `partition.rs`).
//!
//! *Bars.* A box of whole sides is made of bars 1 wide and as long as one of its sides. Colour the unit squares along
//! the diagonals with p colours: a bar of length p covers each colour once, so the rarest colour limits the bars.
//! Source: F. W. Barnes, "Packing the maximum number of m × n tiles in a large p × q rectangle", Discrete Mathematics
//! 26, 1979. It is asked of many problems whose rectangle is as large as needed for the same rows.

use crate::page::pallet::Pallet;
use crate::page::partition::Rows;

/// Whole numbers that stand for the sides of a box when bars are counted.
const LARGEST_BAR: i64 = 48;

/// No layout holds more boxes than this.
pub(crate) fn most(pallet: &Pallet) -> usize {
    let rows = pallet.rows();
    let bounds = [
        by_bars(pallet.width, pallet.height, pallet.long, pallet.short),
        by_scales(&rows),
        by_bars_of_relaxed(&rows),
    ];
    usize::try_from(bounds.into_iter().min().unwrap_or(0)).unwrap_or(0)
}

/// The weights of the long and the short side, and the most that a row weighs.
type Scale = (i64, i64, i64);

fn by_scales([wide, high]: &[Rows; 2]) -> i64 {
    let (along, across) = (scales(wide), scales(high));
    // Weight of a lying box, of a standing box, and of all together.
    let limits: Vec<(i64, i64, i64)> =
        along.iter().flat_map(|f| across.iter().map(move |g| (f.0 * g.1, f.1 * g.0, f.2 * g.2))).collect();
    let most_lying =
        limits.iter().filter(|limit| limit.0 > 0).map(|limit| limit.2 / limit.0).min().unwrap_or(0);
    (0..=most_lying)
        .map(|lying| {
            let standing =
                limits.iter().filter(|limit| limit.1 > 0).map(|limit| (limit.2 - lying * limit.0) / limit.1);
            lying + standing.min().unwrap_or(0)
        })
        .max()
        .unwrap_or(0)
}

/// The corners of the set of weights: one for each edge of the rows' convex hull, and either side alone.
fn scales(rows: &Rows) -> Vec<Scale> {
    let mut hull: Vec<(i64, i64)> = Vec::new();
    for &(i, j) in rows.list() {
        while let [.., a, b] = hull[..]
            && (b.0 - a.0) * (j - a.1) >= (b.1 - a.1) * (i - a.0)
        {
            hull.pop();
        }
        hull.push((i, j));
    }
    let edge = |ends: &[(i64, i64)]| {
        let (long, short) = (ends[0].1 - ends[1].1, ends[1].0 - ends[0].0);
        (long, short, ends[0].0 * long + ends[0].1 * short)
    };
    let most = |side: fn(&(i64, i64)) -> i64| rows.list().iter().map(side).max().unwrap_or(0);
    let alone = [(1, 0, most(|row| row.0)), (0, 1, most(|row| row.1))];
    hull.windows(2).map(edge).chain(alone).collect()
}

/// Barnes' bound for whole sides.
fn by_bars(width: i64, height: i64, long: i64, short: i64) -> i64 {
    let waste = |bar: i64| {
        let (r, s) = (width % bar, height % bar);
        (r * s).min((bar - r) * (bar - s))
    };
    (width * height - waste(long).max(waste(short))) / (long * short)
}

fn by_bars_of_relaxed([wide, high]: &[Rows; 2]) -> i64 {
    let pairs = (1..=LARGEST_BAR).flat_map(|long| (1..=long).map(move |short| (long, short)));
    let bound = |(long, short)| by_bars(wide.longest(long, short), high.longest(long, short), long, short);
    pairs.map(bound).min().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bound(width: i64, height: i64, long: i64, short: i64) -> usize {
        most(&Pallet { width, height, long, short })
    }

    #[test]
    fn it_sees_what_areas_do_not() {
        // Areas say 7; two squares side by side, and two of these above each other.
        assert_eq!(bound(14, 14, 5, 5), 4);
        // Longer than half of it either way: one above the other only.
        assert_eq!(bound(10, 10, 6, 5), 2);
        assert_eq!((bound(10, 10, 12, 11), bound(10, 3, 12, 2)), (0, 0));
        assert_eq!(bound(10, 10, 11, 2), 0);
    }

    #[test]
    fn bars_leave_squares_of_the_rarest_colours_empty() {
        // Bars of 3 in 4 x 4: colours of 6, 5 and 5 squares, so five bars, where the area has room for 5 and a third.
        assert_eq!(by_bars(4, 4, 3, 1), 5);
        // Bars of 4 in 6 x 6, a known exercise: 8, and not 9.
        assert_eq!(by_bars(6, 6, 4, 1), 8);
    }

    #[test]
    fn a_scale_weighs_no_row_above_its_most() {
        let rows = Rows::of(118, 18, 11);
        let scales = scales(&rows);
        assert!(scales.len() > 2);
        for (long, short, most) in scales {
            let heaviest = rows.list().iter().map(|&(i, j)| i * long + j * short).max();
            assert_eq!(heaviest, Some(most));
        }
    }
}
