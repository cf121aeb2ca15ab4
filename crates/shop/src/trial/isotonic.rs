//! A curve that never falls, as near as can be to points.

/// A line from point to point that never falls; level before the first and after the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Isotonic {
    /// The points, from left to right.
    points: Vec<(f64, f64)>,
}

/// The rising values with the least sum of squares to the points; nothing without points.
///
/// Points of one place count as their mean, with their number as its weight. Method: pool adjacent violators, Ayer and
/// others, Annals of Mathematical Statistics 26 (1955).
pub fn isotonic(points: &[(f64, f64)]) -> Option<Isotonic> {
    let mut points: Vec<(f64, f64)> =
        points.iter().copied().filter(|p| p.0.is_finite() && p.1.is_finite()).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Blocks of places with one value: the places with their weights, the sum of values, the weight.
    let mut blocks: Vec<(Vec<f64>, f64, f64)> = Vec::new();
    for same in points.chunk_by(|a, b| a.0 == b.0) {
        let sum: f64 = same.iter().map(|point| point.1).sum();
        let mut block = (vec![same[0].0], sum, same.len() as f64);
        while let Some(before) = blocks.pop_if(|before| before.1 / before.2 >= block.1 / block.2) {
            block = ([before.0, block.0].concat(), before.1 + block.1, before.2 + block.2);
        }
        blocks.push(block);
    }
    let level = |(places, sum, weight): &(Vec<f64>, f64, f64)| -> Vec<(f64, f64)> {
        places.iter().map(|&place| (place, sum / weight)).collect()
    };
    let points: Vec<(f64, f64)> = blocks.iter().flat_map(level).collect();
    (!points.is_empty()).then_some(Isotonic { points })
}

impl Isotonic {
    /// The value at a place; on the straight line between two points.
    pub fn at(&self, place: f64) -> f64 {
        let after = self.points.partition_point(|point| point.0 < place);
        match (after.checked_sub(1).and_then(|i| self.points.get(i)), self.points.get(after)) {
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (place - a.0) / (b.0 - a.0),
            (Some(only), None) | (None, Some(only)) => only.1,
            (None, None) => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn fitted(values: &[f64]) -> Vec<f64> {
        let points: Vec<(f64, f64)> =
            values.iter().enumerate().map(|(i, &value)| (i as f64, value)).collect();
        let curve = isotonic(&points).unwrap();
        (0..values.len()).map(|i| curve.at(i as f64)).collect()
    }

    /// The examples of scikit-learn's own tests, `test_isotonic_regression` and `test_isotonic_regression_ties_min`.
    #[test]
    fn published_examples_come_out() {
        assert_eq!(fitted(&[3.0, 7.0, 5.0, 9.0, 8.0, 7.0, 10.0]), [3.0, 6.0, 6.0, 8.0, 8.0, 8.0, 10.0]);
        assert_eq!(fitted(&[10.0, 0.0, 2.0]), [4.0, 4.0, 4.0]);
        let ties =
            isotonic(&[(1.0, 1.0), (1.0, 2.0), (2.0, 3.0), (3.0, 4.0), (4.0, 5.0), (5.0, 6.0)]).unwrap();
        assert_eq!([1.0, 2.0, 3.0, 4.0, 5.0].map(|place| ties.at(place)), [1.5, 3.0, 4.0, 5.0, 6.0]);
    }

    #[test]
    fn between_points_it_is_straight_and_beyond_them_level() {
        let curve = isotonic(&[(10.0, 4.0), (0.0, 2.0)]).unwrap();
        assert_eq!([-5.0, 2.5, 10.0, 99.0].map(|place| curve.at(place)), [2.0, 2.5, 4.0, 4.0]);
        assert_eq!(isotonic(&[(f64::NAN, 1.0)]), None);
    }

    proptest! {
        /// The conditions of Karush, Kuhn and Tucker for this least square: it rises, keeps the sum, and errors add up to
        /// nothing more on the left of any place than on its right.
        #[test]
        fn it_is_the_nearest_rising_curve(values in prop::collection::vec(-50.0..50.0_f64, 1..30)) {
            let fit = fitted(&values);
            prop_assert!(fit.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9));
            let mut sum = 0.0;
            for i in 0..values.len() {
                sum += values[i] - fit[i];
                prop_assert!(sum >= -1e-6);
                if i + 1 < fit.len() && fit[i + 1] > fit[i] + 1e-9 {
                    prop_assert!(sum.abs() < 1e-6);
                }
            }
            prop_assert!(sum.abs() < 1e-6);
        }
    }
}
