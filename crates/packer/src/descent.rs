//! Steps down a smooth energy of many numbers.
//!
//! Limited-memory quasi-Newton steps: D. C. Liu, J. Nocedal, "On the limited memory BFGS method for large scale
//! optimization", Mathematical Programming 45, 1989, pp. 503–528, with the step halved until the energy falls.

use std::collections::VecDeque;

/// Steps whose change of slope is remembered.
const REMEMBERED: usize = 7;
/// How often a step is halved, and the share of the expected fall that it must bring.
const HALVINGS: usize = 12;
const EXPECTED: f64 = 1e-4;
/// The first step as a share of the slope.
const FIRST_STEP: f64 = 0.15;

/// Numbers on their way down.
pub struct Descent {
    /// The numbers.
    pub values: Vec<f64>,
    /// Their energy.
    pub energy: f64,
    slope: Vec<f64>,
    past: VecDeque<Past>,
    /// No number changes by more than this in one step.
    stride: f64,
}

/// What a step changed.
struct Past {
    step: Vec<f64>,
    bend: Vec<f64>,
    product: f64,
}

impl Descent {
    /// Begins with these numbers. `energy_at` puts the slope at the numbers given into its second argument.
    pub fn new(
        values: Vec<f64>,
        stride: f64,
        energy_at: &mut impl FnMut(&[f64], &mut [f64]) -> f64,
    ) -> Descent {
        let mut slope = vec![0.0; values.len()];
        let energy = energy_at(&values, &mut slope);
        Descent { values, energy, slope, past: VecDeque::new(), stride }
    }

    /// One step; false if none goes down.
    pub fn step(&mut self, energy_at: &mut impl FnMut(&[f64], &mut [f64]) -> f64) -> bool {
        let direction = self.direction();
        let fall = dot(&direction, &self.slope);
        let mut tried = vec![0.0; self.values.len()];
        let mut slope = vec![0.0; self.values.len()];
        let mut share = 1.0;
        for _ in 0..HALVINGS {
            for (tried, (&value, &way)) in tried.iter_mut().zip(self.values.iter().zip(&direction)) {
                *tried = value - share * way;
            }
            let energy = energy_at(&tried, &mut slope);
            if fall > 0.0 && energy <= self.energy - EXPECTED * share * fall {
                self.remember(&tried, &slope);
                (self.values, self.slope, self.energy) = (tried, slope, energy);
                return true;
            }
            share *= 0.5;
        }
        // What is remembered may have misled.
        let misled = !self.past.is_empty();
        self.past.clear();
        misled
    }

    /// The way to go, against which the energy rises, no longer than the stride.
    fn direction(&self) -> Vec<f64> {
        let mut way = self.slope.clone();
        let mut shares = Vec::with_capacity(REMEMBERED);
        for past in self.past.iter().rev() {
            let share = dot(&past.step, &way) / past.product;
            add(&mut way, -share, &past.bend);
            shares.push(share);
        }
        let scale = self.past.back().map_or(FIRST_STEP, |last| last.product / dot(&last.bend, &last.bend));
        way.iter_mut().for_each(|way| *way *= scale);
        for (past, share) in self.past.iter().zip(shares.into_iter().rev()) {
            let back = dot(&past.bend, &way) / past.product;
            add(&mut way, share - back, &past.step);
        }
        let longest = way.iter().fold(0.0, |most: f64, way| most.max(way.abs()));
        if longest > self.stride {
            way.iter_mut().for_each(|way| *way *= self.stride / longest);
        }
        way
    }

    fn remember(&mut self, values: &[f64], slope: &[f64]) {
        let less = |new: &[f64], old: &[f64]| new.iter().zip(old).map(|(new, old)| new - old).collect();
        let (step, bend): (Vec<f64>, Vec<f64>) = (less(values, &self.values), less(slope, &self.slope));
        let product = dot(&step, &bend);
        if product > 1e-14 {
            if self.past.len() == REMEMBERED {
                self.past.pop_front();
            }
            self.past.push_back(Past { step, bend, product });
        }
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn add(sum: &mut [f64], factor: f64, terms: &[f64]) {
    for (sum, term) in sum.iter_mut().zip(terms) {
        *sum += factor * term;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bent_valley_is_followed_to_its_end() {
        // H. H. Rosenbrock, The Computer Journal 3, 1960: least, 0, at (1, 1).
        let mut valley = |at: &[f64], slope: &mut [f64]| {
            let (x, y) = (at[0], at[1]);
            slope[0] = -400.0 * x * (y - x * x) - 2.0 * (1.0 - x);
            slope[1] = 200.0 * (y - x * x);
            100.0 * (y - x * x) * (y - x * x) + (1.0 - x) * (1.0 - x)
        };
        let mut descent = Descent::new(vec![-1.2, 1.0], 1.0, &mut valley);
        let steps = (0..200).take_while(|_| descent.energy > 1e-18 && descent.step(&mut valley)).count();
        assert!(descent.energy <= 1e-18, "{} after {steps}", descent.energy);
        assert!(descent.values.iter().all(|value| (value - 1.0).abs() < 1e-6));
    }
}
