//! The smallest gaps of a sheet, kept in step while single pieces move.

use stickleaf_outline::{Outline, gap_within};

/// So many are known: more than one piece can have of the smallest, so that the others' are known when it is lifted.
const KNOWN: usize = 24;

/// The pairs of pieces that lie nearest to each other, and how near.
///
/// Promise: a pair that is not among them is at least as far apart as `rest`.
#[derive(Clone, Debug)]
pub(crate) struct Gaps {
    /// Nearest first.
    pairs: Vec<Pair>,
    /// In millimetres; infinite if all pairs are known.
    rest: f64,
}

#[derive(Clone, Copy, Debug)]
struct Pair {
    gap: f64,
    of: (usize, usize),
}

impl Pair {
    fn touches(&self, pieces: &[usize]) -> bool {
        pieces.contains(&self.of.0) || pieces.contains(&self.of.1)
    }
}

impl Gaps {
    /// The smallest gaps of these cut lines.
    ///
    /// Cost: every pair by its boxes, and near ones edge by edge.
    pub fn of(lines: &[Outline]) -> Gaps {
        Gaps::among(lines, &[])
    }

    /// The smallest gap of all; nothing with fewer than two pieces.
    pub fn smallest(&self) -> Option<f64> {
        self.pairs.first().map(|pair| pair.gap)
    }

    /// The smallest gap between pieces other than these; infinite if there are fewer than two.
    pub fn without(&self, pieces: &[usize], lines: &[Outline]) -> f64 {
        match self.pairs.iter().find(|pair| !pair.touches(pieces)) {
            Some(pair) => pair.gap,
            None if self.rest == f64::INFINITY => f64::INFINITY,
            None => Gaps::among(lines, pieces).smallest().unwrap_or(f64::INFINITY),
        }
    }

    /// These pieces lie elsewhere now, as the lines have it.
    ///
    /// Cost: each of them against all others.
    pub fn moved(&mut self, pieces: &[usize], lines: &[Outline]) {
        self.pairs.retain(|pair| !pair.touches(pieces));
        for (nth, &piece) in pieces.iter().enumerate() {
            let others = (0..lines.len()).filter(|&other| other != piece && !pieces[..nth].contains(&other));
            others.for_each(|other| self.look_at(lines, piece.min(other), piece.max(other)));
        }
        if self.pairs.is_empty() && self.rest < f64::INFINITY {
            *self = Gaps::of(lines);
        }
    }

    fn among(lines: &[Outline], without: &[usize]) -> Gaps {
        let mut gaps = Gaps { pairs: Vec::new(), rest: f64::INFINITY };
        let stay: Vec<usize> = (0..lines.len()).filter(|piece| !without.contains(piece)).collect();
        for (nth, &first) in stay.iter().enumerate() {
            stay[nth + 1..].iter().for_each(|&second| gaps.look_at(lines, first, second));
        }
        gaps
    }

    fn look_at(&mut self, lines: &[Outline], first: usize, second: usize) {
        let Some(gap) = gap_within(&lines[first], &lines[second], self.rest) else { return };
        let place = self.pairs.partition_point(|pair| pair.gap <= gap.distance);
        self.pairs.insert(place, Pair { gap: gap.distance, of: (first, second) });
        if self.pairs.len() > KNOWN
            && let Some(last) = self.pairs.pop()
        {
            self.rest = last.gap;
        }
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::smallest_gap;

    use super::*;

    /// Squares of 10 mm in rows of eight, the gaps to the right of each a little larger than the one before.
    fn squares(count: usize) -> Vec<Outline> {
        let at = |i: usize| {
            let (column, row) = ((i % 8) as f64, (i / 8) as f64);
            Placement::at(12.0 * column + 0.01 * column * column + row, 13.0 * row)
        };
        (0..count).map(|i| shapes::square(10.0).placed(&at(i))).collect()
    }

    #[test]
    fn moves_keep_the_smallest_gap_and_that_of_the_others() {
        let mut lines = squares(60);
        let mut gaps = Gaps::of(&lines);
        // A walk over the sheet, two pieces at a time now and then, until all that was known at first is gone.
        for step in 0..200_usize {
            let moved =
                if step % 5 == 0 { vec![step % 60, (7 * step + 1) % 60] } else { vec![(11 * step) % 60] };
            let others: Vec<Outline> =
                (0..60).filter(|i| !moved.contains(i)).map(|i| lines[i].clone()).collect();
            assert_eq!(gaps.without(&moved, &lines), smallest_gap(&others).unwrap(), "{step}");
            for &piece in &moved {
                let (x, y) = (((37 * step) % 120) as f64, ((53 * step) % 90) as f64 + 0.5 * piece as f64);
                lines[piece] = shapes::square(10.0).placed(&Placement::at(x, y));
            }
            gaps.moved(&moved, &lines);
            assert_eq!(gaps.smallest(), smallest_gap(&lines), "{step}");
        }
    }

    #[test]
    fn a_pair_is_known_as_long_as_both_are_there() {
        let lines = squares(2);
        let mut gaps = Gaps::of(&lines);
        assert_eq!(gaps.without(&[1], &lines), f64::INFINITY);
        gaps.moved(&[0, 1], &lines);
        assert_eq!(gaps.smallest(), smallest_gap(&lines));
        assert_eq!(Gaps::of(&lines[..1]).smallest(), None);
    }
}
