//! Page plans against an integer program, solved by a library that knows nothing of pages.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolutionStatus, SolveOutcome};
use stickleaf_shop::page::{Stock, plan};

/// The most boxes of whole sides in a rectangle of whole sides: one yes or no for each place and way round, and no unit
/// square covered twice.
fn most_by_program(width: usize, height: usize, sides: (usize, usize)) -> usize {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let mut covering = vec![Vec::new(); width * height];
    let ways = if sides.0 == sides.1 { vec![sides] } else { vec![sides, (sides.1, sides.0)] };
    for (wide, high) in ways {
        for x in 0..(width + 1).saturating_sub(wide) {
            for y in 0..(height + 1).saturating_sub(high) {
                let lies = problem.add_binary_var(1.0);
                for square in (x..x + wide).flat_map(|x| (y..y + high).map(move |y| x * height + y)) {
                    covering[square].push((lies, 1.0));
                }
            }
        }
    }
    for square in covering {
        problem.add_constraint(&square[..], ComparisonOp::Le, 1.0);
    }
    let Ok(SolveOutcome::Solution(solved)) = problem.solve() else { panic!("the program has solutions") };
    assert_eq!(solved.status(), SolutionStatus::Optimal);
    solved.objective().round() as usize
}

/// Numbers by a linear congruential generator. Source of its constants: D. E. Knuth, MMIX.
struct Chance(u64);

impl Chance {
    fn between(&mut self, least: usize, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + (self.0 >> 33) as usize % (most - least + 1)
    }
}

#[test]
fn two_hundred_random_pages_hold_what_an_integer_program_finds() {
    let mut chance = Chance(1);
    for _ in 0..200 {
        let (width, height) = (chance.between(4, 14), chance.between(4, 11));
        let sides = (chance.between(2, 6), chance.between(2, 5));
        let most = most_by_program(width, height, sides);
        let stock =
            Stock { width: width as f64, height: height as f64, printer_margin: 0.0, reach: None, gap: 0.0 };
        let (found, proved) = plan(&stock, sides.0 as f64, sides.1 as f64)
            .map_or((0, 0), |plan| (plan.positions.len(), plan.proven_most));
        assert_eq!((found, proved), (most, most), "{sides:?} in {width} x {height}");
    }
}
