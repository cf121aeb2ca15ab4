//! Page plans against an integer program, solved by a library that knows nothing of pages.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolutionStatus, SolveOutcome};
use stickleaf_shop::page::{Stock, WantedSheets, plan, plan_several};

/// The most boxes of the last kind, of whole sides, beside so many of the first in a rectangle of whole sides; nothing if
/// not even the first lie in it. One yes or no for each place and way round, and no unit square covered twice.
fn most_by_program(
    (width, height): (usize, usize),
    first: Option<((usize, usize), usize)>,
    last: (usize, usize),
) -> Option<usize> {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let mut covering = vec![Vec::new(); width * height];
    let mut add = |problem: &mut Problem, sides: (usize, usize), worth: f64| {
        let mut all = Vec::new();
        let ways = if sides.0 == sides.1 { vec![sides] } else { vec![sides, (sides.1, sides.0)] };
        for (wide, high) in ways {
            for x in 0..(width + 1).saturating_sub(wide) {
                for y in 0..(height + 1).saturating_sub(high) {
                    let lies = problem.add_binary_var(worth);
                    all.push((lies, 1.0));
                    for square in (x..x + wide).flat_map(|x| (y..y + high).map(move |y| x * height + y)) {
                        covering[square].push((lies, 1.0));
                    }
                }
            }
        }
        all
    };
    add(&mut problem, last, 1.0);
    if let Some((sides, count)) = first.filter(|(_, count)| *count > 0) {
        let all = add(&mut problem, sides, 0.0);
        if all.is_empty() {
            return None;
        }
        problem.add_constraint(&all[..], ComparisonOp::Ge, count as f64);
    }
    for square in covering {
        problem.add_constraint(&square[..], ComparisonOp::Le, 1.0);
    }
    let Ok(SolveOutcome::Solution(solved)) = problem.solve() else { return None };
    assert_eq!(solved.status(), SolutionStatus::Optimal);
    Some(solved.objective().round() as usize)
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
        let most = most_by_program((width, height), None, sides).unwrap();
        let stock = bare(width, height);
        let (found, proved) = plan(&stock, sides.0 as f64, sides.1 as f64)
            .map_or((0, 0), |plan| (plan.positions.len(), plan.proven_most));
        assert_eq!((found, proved), (most, most), "{sides:?} in {width} x {height}");
    }
}

/// The fewest pages for so many of two kinds, if a page holds `beside[n]` of the second beside n of the first.
fn fewest_pages(beside: &[usize], (first, second): (usize, usize)) -> usize {
    let mut fewest = vec![vec![0; second + 1]; first + 1];
    for a in 0..=first {
        for b in (0..=second).filter(|b| a + b > 0) {
            fewest[a][b] = beside
                .iter()
                .enumerate()
                .filter(|&(n, &most)| (n > 0 && a > 0) || (most > 0 && b > 0))
                .map(|(n, &most)| 1 + fewest[a.saturating_sub(n)][b.saturating_sub(most)])
                .min()
                .unwrap();
        }
    }
    fewest[first][second]
}

#[test]
fn two_designs_need_as_few_pages_as_an_integer_program_and_a_table_say() {
    let mut chance = Chance(7);
    for _ in 0..60 {
        let (width, height) = (chance.between(6, 9), chance.between(6, 8));
        let sides = [(); 2].map(|()| (chance.between(2, 6), chance.between(2, 5)));
        let counts = (chance.between(0, 9), chance.between(0, 9));
        let beside: Vec<usize> =
            (0..).map_while(|n| most_by_program((width, height), Some((sides[0], n)), sides[1])).collect();
        let designs: Vec<WantedSheets> = sides
            .iter()
            .zip([counts.0, counts.1])
            .map(|(side, count)| WantedSheets {
                width: side.0 as f64,
                height: side.1 as f64,
                count: count as u64,
            })
            .collect();
        let plan = plan_several(&bare(width, height), &designs).unwrap();
        let fewest = fewest_pages(&beside, counts) as u64;
        assert_eq!((plan.count(), plan.proven_least), (fewest, fewest), "{designs:?} on {width} x {height}");
    }
}

fn bare(width: usize, height: usize) -> Stock {
    Stock { width: width as f64, height: height as f64, printer_margin: 0.0, reach: None, gap: 0.0 }
}
