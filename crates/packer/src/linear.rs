//! Linear programs: the most that one number can be while sums of others keep their limits.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions};

/// The number in this column is to be as large as possible; the other columns only have their limits.
pub const AIM: usize = 0;

/// A sum that must not be less than `least`.
#[derive(Clone, Debug)]
pub struct Row {
    /// Columns and what they are multiplied by. No column comes up twice.
    pub terms: Vec<(usize, f64)>,
    /// The least that the sum may be.
    pub least: f64,
}

impl Row {
    /// The sum with these values.
    pub fn sum(&self, values: &[f64]) -> f64 {
        self.terms.iter().map(|&(column, factor)| values[column] * factor).sum()
    }

    /// Whether values within these limits can make the sum too small.
    pub fn can_break(&self, limits: &[(f64, f64)]) -> bool {
        let lowest = |&(column, factor): &(usize, f64)| {
            let (low, high) = limits[column];
            (low * factor).min(high * factor)
        };
        self.terms.iter().map(lowest).sum::<f64>() < self.least
    }
}

/// What a program came to.
pub struct Solved {
    /// The value of each column.
    pub values: Vec<f64>,
    /// What the work cost, in points looked up.
    pub work: u64,
}

/// Values are rounded to this many parts of one, some trillionths: what the last bits say differs from platform to
/// platform where logarithms do, and the search must not.
const PARTS: f64 = 1_073_741_824.0;
/// Rows are kept to this.
const FEASIBLE: f64 = 1e-9;
/// What a pivot costs for each row, in points looked up; measured.
const WORK: u64 = 1;

/// The values that make column [`AIM`] largest, each within its limits and every row at least what it must be; nothing if
/// there are none, or if the numbers are beyond what the solver can tell.
///
/// Cost: 3 ms for a hundred rows and columns, 25 ms for four hundred and a hundred and thirty.
pub fn solved(limits: &[(f64, f64)], rows: &[Row]) -> Option<Solved> {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let gain = |column: usize| if column == AIM { 1.0 } else { 0.0 };
    let columns: Vec<_> =
        limits.iter().enumerate().map(|(column, &limits)| problem.add_var(gain(column), limits)).collect();
    for row in rows {
        let terms: Vec<_> = row.terms.iter().map(|&(column, factor)| (columns[column], factor)).collect();
        problem.add_constraint(&terms[..], ComparisonOp::Ge, row.least);
    }
    let mut options = SolveOptions::default();
    options.presolve = false;
    options.tolerances.feasibility = FEASIBLE;
    let solution = problem.solve_with(options).ok()?.into_solution().ok()?;
    let values = columns.iter().map(|&column| (solution.var_value(column) * PARTS).round() / PARTS);
    let pivots = solution.stats().lp_iterations;
    Some(Solved { values: values.collect(), work: (pivots + 4) * (rows.len() as u64 + 8) * WORK })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_corner_is_found() {
        // Most x with x + y <= 4, x - y <= 1, y >= 0: x = 2.5, y = 1.5.
        let rows = [
            Row { terms: vec![(0, -1.0), (1, -1.0)], least: -4.0 },
            Row { terms: vec![(0, -1.0), (1, 1.0)], least: -1.0 },
        ];
        let solved = solved(&[(-10.0, 10.0), (0.0, 10.0)], &rows).unwrap();
        assert!((solved.values[0] - 2.5).abs() < 1e-9 && (solved.values[1] - 1.5).abs() < 1e-9);
    }

    #[test]
    fn what_contradicts_itself_has_no_answer() {
        let rows = [Row { terms: vec![(0, 1.0)], least: 2.0 }];
        assert!(solved(&[(0.0, 1.0)], &rows).is_none());
    }
}
