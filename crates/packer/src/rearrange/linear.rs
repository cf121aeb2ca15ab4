//! Moving all pieces at once as far as they can go: a linear program over all places.
//!
//! About where the pieces lie, each two neighbours are kept apart by half planes of their no-fit polygon, so the places
//! that keep all distances are described by linear inequalities as long as no piece moves far. The best of them is found
//! exactly, and again from there, until nothing is gained.
//!
//! Source: A. M. Gomes, J. F. Oliveira, "Solving irregular strip packing problems by hybridising simulated annealing and
//! linear programming", European Journal of Operational Research 171 (2006).

use core::f64::consts::SQRT_2;

use kurbo::Vec2;

use crate::linear::{AIM, Row, solved};
use crate::rearrange::board::{Board, Spot};
use crate::rearrange::lies::Lies;

/// What the pieces move for, once nothing is lacking that can be helped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Goal {
    /// Nothing more.
    Part,
    /// The lowest of them as high up as possible, even beyond the bottom of the room.
    Lower,
}

/// How far pieces may move and what is asked of them.
#[derive(Clone, Copy, Debug)]
pub struct Bounds {
    /// How far a piece may move in each direction, in millimetres.
    pub furthest: f64,
    /// What is asked beyond the distances, in millimetres. Then no pair comes to lack more than it does already, or than
    /// this.
    pub extra: f64,
}

/// What a lacking millimetre costs, in millimetres of height.
const DEAR: f64 = 100.0;
/// Beyond all sums of what may lack, in millimetres.
const VERY_MUCH: f64 = 1e7;

/// Moves all pieces at once; what is still lacking by the linear reckoning, in millimetres, all pairs added up. Nothing
/// moves and nothing comes back if the program is not solved.
///
/// Takes the work off the budget.
pub fn moved_together(
    lies: &Lies,
    board: &mut Board,
    goal: Goal,
    bounds: Bounds,
    budget: &mut u64,
) -> Option<f64> {
    let Bounds { furthest, extra } = bounds;
    let free = board.free;
    let (across, down) = (|piece: usize| 1 + 2 * piece, |piece: usize| 2 + 2 * piece);
    // The aim, then how far each piece moves across and down, then how far the bottom of them all does if that counts,
    // then what is lacking.
    let mut limits = vec![(-VERY_MUCH, VERY_MUCH)];
    for spot in &board.spots[..free] {
        let range = board.range(lies, spot.lie);
        let deepest = if goal == Goal::Lower { f64::INFINITY } else { range.y1 };
        limits.push(limits_of(spot.at.x, range.x0, range.x1, furthest));
        limits.push(limits_of(spot.at.y, range.y0, deepest, furthest));
    }
    let mut rows: Vec<Row> = Vec::new();
    let mut loss: Vec<(usize, f64)> = vec![(AIM, -1.0)];
    if goal == Goal::Lower {
        let bottom = limits.len();
        limits.push((-2.0 * furthest, 2.0 * furthest));
        loss.push((bottom, -1.0));
        let lowest = board.lowest_point(lies);
        rows.extend(board.spots[..free].iter().enumerate().map(|(piece, spot)| Row {
            terms: vec![(bottom, 1.0), (down(piece), -1.0)],
            least: lies.bounds(*spot).y1 - lowest,
        }));
    }
    // Two pieces may come nearer by twice as far.
    let reach = furthest * 2.0 * SQRT_2;
    let most_need = board.needs.iter().copied().fold(0.0, f64::max) + extra;
    let first_lack = limits.len();
    let mut planes: Vec<(Vec2, f64)> = Vec::new();
    board.for_each_near(lies, most_need + reach, |i, j| {
        let (a, b) = (board.spots[i], board.spots[j]);
        let by = b.at - a.at;
        planes.clear();
        lies.half_planes((a.lie, b.lie), by, board.needs[j] + extra, reach, &mut planes);
        for &(direction, least) in &planes {
            let missing = least - by.dot(direction);
            if missing <= -reach {
                continue;
            }
            let mut terms = vec![(across(i), -direction.x), (down(i), -direction.y)];
            if j < free {
                terms.extend([(across(j), direction.x), (down(j), direction.y)]);
            }
            if missing > 0.0 {
                let lack = limits.len();
                limits.push((0.0, if extra > 0.0 { missing.max(extra) } else { VERY_MUCH }));
                loss.push((lack, -DEAR));
                terms.push((lack, 1.0));
            }
            rows.push(Row { terms, least: missing });
        }
    });
    rows.push(Row { terms: loss, least: 0.0 });
    let Some(solved) = solved(&limits, &rows) else {
        *budget = budget.saturating_sub(rows.len() as u64 * WORK_OF_ROW);
        return None;
    };
    *budget = budget.saturating_sub(solved.work);
    for piece in 0..free {
        let spot = board.spots[piece];
        let step = Vec2::new(solved.values[across(piece)], solved.values[down(piece)]);
        board.put(lies, piece, Spot { at: spot.at + step, ..spot });
    }
    Some(solved.values[first_lack..].iter().sum())
}

/// What a row of a program that is not solved counts for, in points looked up.
const WORK_OF_ROW: u64 = 120;

/// How far a coordinate may move within its range; towards it if it lies outside.
fn limits_of(at: f64, low: f64, high: f64, furthest: f64) -> (f64, f64) {
    let (from, to) = ((low - at).max(-furthest), (high - at).min(furthest));
    if from <= to { (from, to) } else { ((from + to) / 2.0, (from + to) / 2.0) }
}

#[cfg(test)]
mod tests {
    use kurbo::{Point, Rect};

    use super::*;
    use crate::rearrange::lies::Form;

    /// Squares of 10 mm with their centres there, in a room 30 mm wide.
    fn squares(centres: &[(f64, f64)], spacing: f64) -> (Lies, Board) {
        let ring = [(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)].map(Point::from).to_vec();
        let lies = Lies::new(&[Form { ring, turns: vec![0.0], mirror: false }], spacing);
        let spots: Vec<Spot> = centres.iter().map(|&at| Spot { lie: 0, at: at.into() }).collect();
        let (room, needs) = (Rect::new(0.0, 0.0, 30.0, 60.0), vec![spacing; spots.len()]);
        let board = Board::new(&lies, room, spots, centres.len(), needs);
        (lies, board)
    }

    const NEAR: Bounds = Bounds { furthest: 4.0, extra: 0.0 };

    #[test]
    fn pieces_on_each_other_part_exactly() {
        let (lies, mut board) = squares(&[(10.0, 10.0), (18.0, 11.0), (14.0, 19.0)], 1.0);
        let lacking = moved_together(&lies, &mut board, Goal::Part, NEAR, &mut 0).unwrap();
        assert!(lacking.abs() < 1e-9, "{lacking}");
        assert!(board.most_lacking(&lies) < 1e-8);
    }

    #[test]
    fn a_loose_stack_moves_up_as_far_as_it_goes() {
        let (lies, mut board) = squares(&[(8.0, 6.0), (9.0, 18.5), (7.0, 31.0)], 2.0);
        for _ in 0..4 {
            moved_together(&lies, &mut board, Goal::Lower, NEAR, &mut 0).unwrap();
        }
        // Three squares and two spacings.
        assert!((board.lowest_point(&lies) - 34.0).abs() < 1e-8, "{}", board.lowest_point(&lies));
        assert!(board.most_lacking(&lies) < 1e-8);
    }

    #[test]
    fn an_extra_that_there_is_no_room_for_is_taken_from_nobody() {
        // Three squares fill the width of the room; a fourth has room below.
        let (lies, mut board) = squares(&[(5.0, 5.0), (15.0, 5.0), (25.0, 5.0), (15.0, 15.0)], 0.0);
        let bounds = Bounds { furthest: 1.0, extra: 0.01 };
        moved_together(&lies, &mut board, Goal::Part, bounds, &mut 0).unwrap();
        assert!(board.most_lacking(&lies) < 1e-8, "{}", board.most_lacking(&lies));
        let below = board.spots[3].at.y - board.spots[..3].iter().map(|spot| spot.at.y).fold(0.0, f64::max);
        assert!((below - 10.01).abs() < 1e-8, "{below}");
    }

    #[test]
    fn what_is_out_of_reach_is_said_to_be_lacking() {
        let (lies, mut board) = squares(&[(15.0, 15.0), (15.0, 15.1)], 0.0);
        let little = Bounds { furthest: 1.0, extra: 0.0 };
        let lacking = moved_together(&lies, &mut board, Goal::Part, little, &mut 0).unwrap();
        assert!((lacking - 7.9).abs() < 1e-6, "{lacking}");
    }
}
