//! How many pages there must be, proved by prices.
//!
//! Give the sheets of each class a price, so that no pattern is worth more than a page. Then as many pages are needed as
//! all sheets wanted are worth. The best prices are those of a linear program, solved exactly in whole numbers. Sources:
//! the dual of Gilmore and Gomory 1961 (see `mod.rs`); pivoting in whole numbers with one common denominator, J. Edmonds,
//! "Systems of distinct representatives and linear algebra", Journal of Research of the National Bureau of Standards 71B,
//! 1967; the choice of the pivot, R. G. Bland, "New finite pivoting rules for the simplex method", Mathematics of
//! Operations Research 2, 1977.

/// The best prices.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Prices {
    /// The price of a sheet of each class, in parts of a page.
    pub of: Vec<i128>,
    /// How many parts make a page; more than 0.
    pub page: i128,
    /// How often each pattern is printed in the program's own optimum, in the same parts.
    pub times: Vec<i128>,
}

impl Prices {
    /// The least number of pages for so many sheets of each class.
    pub(crate) fn least_pages(&self, wanted: &[u64]) -> u64 {
        u64::try_from(self.worth(wanted).div_ceil(self.page.unsigned_abs())).unwrap_or(u64::MAX)
    }

    /// What so many sheets are worth, in parts of a page.
    pub(crate) fn worth(&self, wanted: &[u64]) -> u128 {
        self.of.iter().zip(wanted).map(|(&price, &count)| price.unsigned_abs() * u128::from(count)).sum()
    }
}

/// The prices that make what is wanted worth most, while no pattern is worth more than a page. Nothing if the numbers grow
/// beyond what is counted in, or a class is in no pattern.
pub(crate) fn prices(patterns: &[&[usize]], wanted: &[u64]) -> Option<Prices> {
    let (rows, columns) = (patterns.len(), wanted.len());
    // One row for each pattern, one for what all is worth; the last column is what they may come to.
    let mut table: Vec<Vec<i128>> = patterns
        .iter()
        .map(|pattern| pattern.iter().map(|&count| count as i128).chain([1]).collect())
        .collect();
    table.push(wanted.iter().map(|&count| -i128::from(count)).chain([0]).collect());
    // Prices are the variables 0.., slacks of the patterns those after them.
    let mut in_row: Vec<usize> = (columns..columns + rows).collect();
    let mut in_column: Vec<usize> = (0..columns).collect();
    let mut denominator = 1;
    while let Some(column) =
        (0..columns).filter(|&column| table[rows][column] < 0).min_by_key(|&column| in_column[column])
    {
        let row = (0..rows).filter(|&row| table[row][column] > 0).min_by(|&a, &b| {
            let (left, right) = (table[a][columns] * table[b][column], table[b][columns] * table[a][column]);
            left.cmp(&right).then(in_row[a].cmp(&in_row[b]))
        })?;
        denominator = exchange(&mut table, row, column, denominator)?;
        std::mem::swap(&mut in_row[row], &mut in_column[column]);
    }
    let mut prices = Prices { of: vec![0; columns], page: denominator, times: vec![0; rows] };
    for (row, &variable) in in_row.iter().enumerate().filter(|(_, variable)| **variable < columns) {
        prices.of[variable] = table[row][columns];
    }
    for (column, &variable) in in_column.iter().enumerate().filter(|(_, variable)| **variable >= columns) {
        prices.times[variable - columns] = table[rows][column];
    }
    Some(prices)
}

/// Exchanges a row's variable for a column's; the new denominator comes back. Every division is without remainder.
fn exchange(table: &mut [Vec<i128>], row: usize, column: usize, denominator: i128) -> Option<i128> {
    let pivot = table[row][column];
    let chosen = table[row].clone();
    for (index, line) in table.iter_mut().enumerate() {
        if index == row {
            line[column] = denominator;
            continue;
        }
        let factor = line[column];
        for (place, number) in line.iter_mut().enumerate() {
            *number = if place == column {
                -factor
            } else {
                number.checked_mul(pivot)?.checked_sub(factor.checked_mul(chosen[place])?)? / denominator
            };
        }
    }
    Some(pivot)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_are_those_of_the_program() {
        // A page holds 2 large or 5 small sheets, or 1 and 3. 3 large and 5 small: 3 a + 5 b is most at a = 1/2, b = 1/6
        // (2 a = 1, a + 3 b = 1, and 5 b is below): 3/2 + 5/6 = 7/3, so three pages.
        let patterns: [&[usize]; 3] = [&[2, 0], &[0, 5], &[1, 3]];
        let best = prices(&patterns, &[3, 5]).unwrap();
        assert_eq!((6 * best.of[0] / best.page, 6 * best.of[1] / best.page), (3, 1));
        assert_eq!(best.least_pages(&[3, 5]), 3);
        // Printed 2/3 and 5/3 times: 2 * 2/3 + 5/3 = 3 large, 3 * 5/3 = 5 small.
        assert_eq!(best.times.iter().map(|&times| 3 * times / best.page).collect::<Vec<_>>(), [2, 0, 5]);
    }

    #[test]
    fn one_class_is_a_division() {
        let best = prices(&[&[4]], &[9]).unwrap();
        assert_eq!(best.least_pages(&[9]), 3);
        assert_eq!(prices(&[&[0]], &[9]), None);
    }
}
