//! How many long and short sides lie side by side in a row.
//!
//! Source: "efficient partitions", K. Dowsland, "The three-dimensional pallet chart: an analysis of the factors
//! affecting the set of feasible layouts for a class of two-dimensional packing problems", Journal of the Operational
//! Research Society 35, 1984. Two problems whose rows hold the same partitions hold the same layouts.

/// The fullest rows of a length: so many long sides, and the most short sides that lie beside them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Rows(Vec<(i64, i64)>);

impl Rows {
    /// The fullest rows of sides `long` and `short` in `room`, from no long side to as many as fit.
    ///
    /// Both sides are positive; a room below nothing holds none.
    pub(crate) fn of(room: i64, long: i64, short: i64) -> Rows {
        let room = room.max(0);
        Rows((0..=room / long).map(|count| (count, (room - count * long) / short)).collect())
    }

    /// The rows: long sides, short sides.
    pub(crate) fn list(&self) -> &[(i64, i64)] {
        &self.0
    }

    /// How long the longest row is with sides of other lengths.
    pub(crate) fn longest(&self, long: i64, short: i64) -> i64 {
        self.0.iter().map(|&(i, j)| i * long + j * short).max().unwrap_or(0)
    }
}

/// All lengths of rows up to `room`, sorted, from zero: where a box can begin that is pushed against its neighbours.
///
/// Source: "normal patterns", N. Christofides and C. Whitlock, "An algorithm for two-dimensional cutting problems",
/// Operations Research 25, 1977. Nothing comes back if there are more than `most` of them.
pub(crate) fn row_lengths(room: i64, sides: &[i64], most: usize) -> Option<Vec<i64>> {
    let mut lengths = vec![0];
    for &side in sides {
        // Every length so far, with this side added as often as it goes.
        let mut longer = Vec::new();
        for &length in &lengths {
            longer.extend((0..=(room - length) / side).map(|count| length + count * side));
            if longer.len() > most.saturating_mul(64) {
                return None;
            }
        }
        longer.sort_unstable();
        longer.dedup();
        lengths = longer;
    }
    (lengths.len() <= most).then_some(lengths)
}

/// The greatest of the sorted lengths that is at most `room`; zero if there is none.
pub(crate) fn fullest(lengths: &[i64], room: i64) -> i64 {
    let above = lengths.partition_point(|&length| length <= room);
    above.checked_sub(1).map_or(0, |last| lengths[last])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_as_full_as_can_be() {
        // 22 = 2 * 5 + 3 * 4 and 4 * 5 leaves room for none.
        assert_eq!(Rows::of(22, 5, 4).list(), [(0, 5), (1, 4), (2, 3), (3, 1), (4, 0)]);
        assert_eq!(Rows::of(22, 5, 4).longest(5, 4), 22);
        assert_eq!(Rows::of(-3, 5, 4).list(), [(0, 0)]);
    }

    #[test]
    fn lengths_of_rows_are_sorted_sums() {
        let lengths = row_lengths(14, &[5, 4], 100).unwrap();
        assert_eq!(lengths, [0, 4, 5, 8, 9, 10, 12, 13, 14]);
        assert_eq!((fullest(&lengths, 11), fullest(&lengths, 3), fullest(&lengths, -1)), (10, 0, 0));
        assert_eq!(row_lengths(1_000_000, &[7, 3], 100), None);
    }
}
