//! One piece to where it costs least: spots by chance, the best of them improved step by step.
//!
//! Source of the sampling: J. Gardeyn, G. Vanden Berghe, T. Wauters, "An open-source heuristic to reboot 2D nesting
//! research", arXiv 2509.13329, 2025; a third of the spots lie against another piece, which chance alone never hits and
//! where pieces of a tight layout are. The descent is another one: what a piece lacks to a neighbour is a piecewise linear
//! function of its place, so a minimum lies where two of the lines cross at which something changes, and those few
//! crossings are tried.

use kurbo::{Point, Rect, Vec2};

use crate::random::Chance;
use crate::rearrange::board::{Board, Prices, Slope, Spot, within};
use crate::rearrange::lies::Lies;

/// Spots tried anywhere on the sheet, against another piece, and near where the piece lies.
const ANYWHERE: usize = 30;
const AGAINST: usize = 20;
const NEARBY: usize = 20;
/// How many of the best are improved.
const IMPROVED: usize = 3;
/// How far from where the piece lies "near" is, and how far a first step may go, as shares of its narrower side.
const NEAR_SHARE: f64 = 0.5;
const FIRST_RADIUS: f64 = 0.3;
/// No step is worth while below this share of the narrower side, or for less than this share of the cost.
const LAST_RADIUS: f64 = 0.001;
const LEAST_GAIN: f64 = 0.001;
const MOST_STEPS: usize = 8;
/// A spot that leaves the sheet by no more than rounding counts as one at its edge, in millimetres.
const EDGE: f64 = 1e-6;

/// A spot and what it costs.
#[derive(Clone, Copy, Debug)]
pub struct Priced {
    /// Where.
    pub spot: Spot,
    /// For how much.
    pub cost: f64,
}

/// Lists that are used again and again.
#[derive(Clone, Debug, Default)]
pub struct Scratch {
    slopes: Vec<Slope>,
    lines: Vec<(Vec2, f64)>,
    best: Vec<Priced>,
}

/// The cheapest spot found for a piece, at most as dear as where it lies.
pub fn cheapest(
    lies: &Lies,
    board: &Board,
    index: usize,
    prices: &mut Prices,
    chance: &mut Chance,
    scratch: &mut Scratch,
) -> Priced {
    let here = board.spots[index];
    let of_form = lies.of_form[lies.list[here.lie].form].clone();
    let bounds = lies.list[here.lie].bounds;
    let narrow = bounds.width().min(bounds.height());
    let mut best = std::mem::take(&mut scratch.best);
    best.clear();
    best.push(Priced { spot: here, cost: board.cost(lies, index, here, prices, f64::INFINITY) });
    let mut offer = |spot: Spot| {
        let limit = if best.len() < IMPROVED { f64::INFINITY } else { best[best.len() - 1].cost };
        let cost = board.cost(lies, index, spot, prices, limit);
        if cost < limit {
            let rank = best.partition_point(|priced| priced.cost <= cost);
            best.insert(rank, Priced { spot, cost });
            best.truncate(IMPROVED);
        }
    };
    for _ in 0..ANYWHERE {
        let lie = of_form.start + chance.below(of_form.len());
        let range = board.range(lies, lie);
        let at = Point::new(chance.between(range.x0, range.x1), chance.between(range.y0, range.y1));
        offer(Spot { lie, at });
    }
    for _ in 0..AGAINST {
        let lie = of_form.start + chance.below(of_form.len());
        let other = chance.below(board.spots.len());
        let beside = board.spots[other];
        let at = beside.at + lies.contact((beside.lie, lie), board.need(index, other), chance);
        let range = board.range(lies, lie).inflate(EDGE, EDGE);
        if other != index && range.contains(at) {
            offer(Spot { lie, at: within(board.range(lies, lie), at) });
        }
    }
    for _ in 0..NEARBY {
        let keeps_lie = chance.below(4) > 0;
        let lie = if keeps_lie { here.lie } else { of_form.start + chance.below(of_form.len()) };
        let reach = narrow * NEAR_SHARE;
        let (x, y) = (chance.between(-reach, reach), chance.between(-reach, reach));
        offer(Spot { lie, at: within(board.range(lies, lie), here.at + Vec2::new(x, y)) });
    }
    let mut cheapest = best[0];
    for &priced in &best {
        if cheapest.cost == 0.0 {
            break;
        }
        let improved = improved(lies, board, index, prices, (priced, narrow), scratch);
        if improved.cost < cheapest.cost {
            cheapest = improved;
        }
    }
    scratch.best = best;
    cheapest
}

/// Descends from a spot: what the piece lacks is taken as linear, it goes to the cheapest place under that, and on.
fn improved(
    lies: &Lies,
    board: &Board,
    index: usize,
    prices: &mut Prices,
    (from, narrow): (Priced, f64),
    scratch: &mut Scratch,
) -> Priced {
    let range = board.range(lies, from.spot.lie);
    let mut best = from;
    let mut radius = narrow * FIRST_RADIUS;
    for _ in 0..MOST_STEPS {
        if best.cost == 0.0 || radius < narrow * LAST_RADIUS {
            break;
        }
        board.slopes(lies, index, best.spot, prices, radius, &mut scratch.slopes);
        let Some(step) = scratch.best_step(best.spot.at, range, radius, best.cost) else { break };
        let spot = Spot { at: within(range, best.spot.at + step), ..best.spot };
        let cost = board.cost(lies, index, spot, prices, best.cost);
        if cost < best.cost {
            let gain = best.cost - cost;
            best = Priced { spot, cost };
            if gain < LEAST_GAIN * cost {
                break;
            }
        } else {
            radius = radius.min(step.hypot2().sqrt()) * 0.4;
        }
    }
    best
}

impl Scratch {
    /// The step of at most `radius` after which the linear cost is least; nothing if none costs less than `limit`.
    fn best_step(&mut self, at: Point, range: Rect, radius: f64, limit: f64) -> Option<Vec2> {
        let Scratch { slopes, lines, .. } = self;
        // Lines on which the cost has a kink, as n · step = c: pieces that just touch, and the borders of the range.
        lines.clear();
        lines.extend(slopes.iter().map(|slope| (slope.outward, slope.lack)));
        let borders = [
            (Vec2::new(1.0, 0.0), range.x0 - at.x),
            (Vec2::new(-1.0, 0.0), at.x - range.x1),
            (Vec2::new(0.0, 1.0), range.y0 - at.y),
            (Vec2::new(0.0, -1.0), at.y - range.y1),
        ];
        lines.extend(borders.into_iter().filter(|&(_, c)| c > -radius));
        let allowed = (range - at.to_vec2()).inflate(1e-9, 1e-9);
        let mut best = (limit * (1.0 - 1e-6), None);
        let mut offer = |step: Vec2| {
            if step.hypot2() > radius * radius || !allowed.contains(step.to_point()) {
                return;
            }
            let mut cost = 0.0;
            for slope in slopes.iter() {
                let lack = slope.lack - slope.outward.dot(step);
                if lack > 1e-9 {
                    cost += lack * slope.weight;
                    if cost >= best.0 {
                        return;
                    }
                }
            }
            if cost < best.0 {
                best = (cost, Some(step));
            }
        };
        for (i, &(n, c)) in lines.iter().enumerate() {
            offer(n * c);
            for &(m, d) in &lines[..i] {
                let determinant = n.cross(m);
                if determinant.abs() > 1e-6 {
                    offer(Vec2::new(c * m.y - d * n.y, d * n.x - c * m.x) / determinant);
                }
            }
        }
        best.1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_step_goes_to_where_two_neighbours_just_touch() {
        let slope = |lack: f64, x: f64, y: f64| Slope { lack, outward: Vec2::new(x, y), weight: 1.0 };
        let mut scratch =
            Scratch { slopes: vec![slope(1.0, 1.0, 0.0), slope(0.5, 0.0, 1.0)], ..Scratch::default() };
        let range = Rect::new(-10.0, -10.0, 10.0, 10.0);
        let step = scratch.best_step(Point::ORIGIN, range, 5.0, 1.5);
        assert_eq!(step, Some(Vec2::new(1.0, 0.5)));
        // Too far for the radius: one of the two is served.
        assert_eq!(scratch.best_step(Point::ORIGIN, range, 1.05, 1.5), Some(Vec2::new(1.0, 0.0)));
        // Nothing is cheaper than nothing.
        assert_eq!(scratch.best_step(Point::ORIGIN, range, 5.0, 0.0), None);
    }
}
