//! Taking overlaps apart: pieces in conflict move to where they cost least, and conflicts that stay become dear.
//!
//! Sources: *guided local search*, C. Voudouris, E. Tsang, A. Alsheddy, "Handbook of Metaheuristics", 2010, p. 321; for
//! packing S. Umetani et al., "Solving the irregular strip packing problem via guided local search for overlap
//! minimization", International Transactions in Operational Research 16 (2009); the growth of the weights and going back
//! to the best arrangement when stuck: J. Gardeyn, G. Vanden Berghe, T. Wauters, arXiv 2509.13329, 2025.

use crate::random::Chance;
use crate::rearrange::board::{Board, Prices, Spot};
use crate::rearrange::lies::Lies;
use crate::rearrange::moves::{Scratch, cheapest};
use crate::separate::Outcome;

/// When to give up.
#[derive(Clone, Copy, Debug)]
pub struct Patience {
    /// Passes without progress before going back to the best arrangement.
    pub passes: usize,
    /// Going back so often without progress ends the attempt.
    pub returns: usize,
}

/// What counts as progress: this share of what was lacking.
const PROGRESS: f64 = 0.98;
/// How much dearer a conflict becomes in a pass: the least one, and what the worst one adds to that.
const RISE: f32 = 1.2;
const RISE_OF_WORST: f32 = 0.8;
/// What is left of a weight after a pass without conflict.
const FADE: f32 = 0.95;
/// No pair becomes dearer than this many times its first weight.
const DEAREST: f32 = 1e9;

/// One attempt to take an arrangement apart.
#[derive(Clone, Debug)]
pub struct Untangle {
    /// The pieces as they lie now.
    pub board: Board,
    /// Whether the last pass ended with a return to the best arrangement.
    pub has_returned: bool,
    first_weights: Vec<f32>,
    weights: Vec<f32>,
    lacks: Vec<f32>,
    lacking: f64,
    best: Vec<Spot>,
    best_lacking: f64,
    watched: f64,
    idle: usize,
    returns: usize,
    patience: Patience,
    order: Vec<usize>,
    scratch: Scratch,
}

impl Untangle {
    /// An attempt on the pieces of a board.
    pub fn new(lies: &Lies, board: Board, patience: Patience) -> Untangle {
        let count = board.spots.len();
        let first_weights = first_weights(lies, &board);
        let mut attempt = Untangle {
            has_returned: false,
            weights: first_weights.clone(),
            first_weights,
            lacks: vec![0.0; count * count],
            lacking: 0.0,
            best: board.spots.clone(),
            best_lacking: 0.0,
            watched: 0.0,
            idle: 0,
            returns: 0,
            patience,
            order: Vec::new(),
            scratch: Scratch::default(),
            board,
        };
        attempt.measure(lies);
        (attempt.best_lacking, attempt.watched) = (attempt.lacking, attempt.lacking);
        attempt
    }

    /// The arrangement in which least is lacking so far, and how many millimetres that is, all pairs added up.
    pub fn best(&self) -> (&[Spot], f64) {
        (&self.best, self.best_lacking)
    }

    /// One pass over the pieces in conflict; takes the pairs that were looked up off the budget.
    pub fn pass(&mut self, lies: &Lies, chance: &mut Chance, budget: &mut u64) -> Outcome {
        self.has_returned = false;
        if self.lacking == 0.0 {
            return Outcome::Solved;
        }
        let mut looked = 0;
        self.move_pieces(lies, chance, &mut looked);
        self.measure(lies);
        looked += self.board.spots.len() as u64 * 8;
        *budget = budget.saturating_sub(looked);
        if self.lacking == 0.0 {
            return Outcome::Solved;
        }
        if self.lacking < self.best_lacking {
            self.best_lacking = self.lacking;
            self.best.copy_from_slice(&self.board.spots);
        }
        if self.lacking < self.watched * PROGRESS {
            self.watched = self.lacking;
            (self.idle, self.returns) = (0, 0);
        } else {
            self.idle += 1;
        }
        self.weigh();
        if self.idle > self.patience.passes {
            self.idle = 0;
            self.returns += 1;
            if self.returns >= self.patience.returns {
                return Outcome::Failed;
            }
            self.has_returned = true;
            self.board.put_all(lies, &self.best);
            self.measure(lies);
        }
        Outcome::Open
    }

    /// Each piece in conflict, in random order, to where it costs least.
    fn move_pieces(&mut self, lies: &Lies, chance: &mut Chance, looked: &mut u64) {
        let count = self.board.spots.len();
        let in_conflict =
            |&index: &usize| self.lacks[index * count..][..count].iter().any(|&lack| lack > 0.0);
        let mut order = std::mem::take(&mut self.order);
        order.clear();
        order.extend((0..self.board.free).filter(in_conflict));
        chance.shuffle(&mut order);
        for &index in &order {
            let mut prices = Prices { weights: &self.weights[index * count..][..count], looked };
            let now = self.board.cost(lies, index, self.board.spots[index], &mut prices, f64::INFINITY);
            if now == 0.0 {
                continue;
            }
            let found = cheapest(lies, &self.board, index, &mut prices, chance, &mut self.scratch);
            if found.cost < now {
                self.board.put(lies, index, found.spot);
            }
        }
        self.order = order;
    }

    fn measure(&mut self, lies: &Lies) {
        let count = self.board.spots.len();
        self.lacks.fill(0.0);
        let (lacks, mut lacking) = (&mut self.lacks, 0.0);
        self.board.for_each_lack(lies, |i, j, lack| {
            lacks[i * count + j] = lack as f32;
            lacks[j * count + i] = lack as f32;
            lacking += lack;
        });
        self.lacking = lacking;
    }

    fn weigh(&mut self) {
        let most = self.lacks.iter().copied().fold(f32::MIN_POSITIVE, f32::max);
        for ((weight, &lack), &first) in self.weights.iter_mut().zip(&self.lacks).zip(&self.first_weights) {
            if lack > 0.0 {
                *weight = (*weight * (RISE + RISE_OF_WORST * lack / most)).min(first * DEAREST);
            } else if *weight > first {
                *weight = (*weight * FADE).max(first);
            }
        }
    }
}

/// The weights at the start: large pieces are dear, so that they find their places before small ones do.
fn first_weights(lies: &Lies, board: &Board) -> Vec<f32> {
    let count = board.spots.len();
    let size = |spot: &Spot| lies.list[spot.lie].bounds.area().sqrt();
    let mut sizes: Vec<f64> = board.spots[..board.free].iter().map(size).collect();
    let mean = sizes.iter().sum::<f64>() / sizes.len().max(1) as f64;
    // What is held is no larger a nuisance than a piece.
    sizes.resize(count, mean);
    (0..count * count)
        .map(|pair| (sizes[pair / count] * sizes[pair % count] / (mean * mean)) as f32)
        .collect()
}

#[cfg(test)]
mod tests {
    use kurbo::{Point, Rect};
    use stickleaf_outline::shapes;

    use super::*;
    use crate::rearrange::lies::Form;

    /// Copies of an L in quarter turns, all in the middle of a square room; what comes of taking them apart.
    fn heap(side: f64, copies: usize, spacing: f64) -> (Lies, Untangle, Outcome) {
        let ring = shapes::l(20.0).points().to_vec();
        let turns = vec![0.0, 90.0, 180.0, 270.0];
        let lies = Lies::new(&[Form { ring, turns, mirror: false }], spacing);
        let room = Rect::new(0.0, 0.0, side, side);
        let spots = vec![Spot { lie: 0, at: Point::new(side / 2.0, side / 2.0) }; copies];
        let mut board = Board::new(&lies, room, spots, copies, vec![spacing; copies]);
        for index in 0..copies {
            let inside = board.inside(&lies, board.spots[index]);
            board.put(&lies, index, inside);
        }
        let mut untangle = Untangle::new(&lies, board, Patience { passes: 80, returns: 2 });
        let mut chance = Chance::new(1);
        loop {
            let outcome = untangle.pass(&lies, &mut chance, &mut 0);
            if outcome != Outcome::Open {
                return (lies, untangle, outcome);
            }
        }
    }

    #[test]
    fn a_heap_comes_apart() {
        let (lies, untangle, outcome) = heap(62.0, 6, 2.0);
        assert_eq!(outcome, Outcome::Solved);
        assert_eq!(untangle.board.most_lacking(&lies), 0.0);
        let room = untangle.board.room;
        assert!(
            untangle
                .board
                .spots
                .iter()
                .all(|spot| room.inflate(1e-9, 1e-9).contains_rect(lies.bounds(*spot)))
        );
    }

    #[test]
    fn what_cannot_be_is_given_up() {
        // Three Ls of 222 mm² each in 24 x 24 mm.
        let (_, untangle, outcome) = heap(24.0, 3, 0.0);
        assert_eq!(outcome, Outcome::Failed);
        assert!(untangle.best().1 > 0.0);
    }
}
