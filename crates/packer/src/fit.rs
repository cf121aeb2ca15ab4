//! Layouts that lack a few micrometres, brought to where they lack nothing.
//!
//! Pushing never quite reaches what fits exactly: boxes that tile a sheet leave no room to push. So the search asks a
//! little less than the rules, and what it finds is mended here by moving pieces together: those round the place that
//! lacks most, then round the next, one linear program at a time.

use crate::body::Body;
use crate::build::on_grid;
use crate::ground::Ground;
use crate::moves::{Limits, Need, best_moves};
use crate::overlap::are_apart;
use crate::separate::Outcome;
use crate::touch::{Touch, touches};

/// How much less than the rules the search asks at each place, in millimetres.
const LOOSE: f64 = 0.005;
/// How far pieces may move to be mended, in one program after the other, in millimetres; in the first ones they may turn.
const TRUST: [f64; 5] = [0.1, 0.05, 0.02, 0.02, 0.02];
const TURNING: usize = 2;
/// Beyond what the moves can reach, in millimetres.
const BEYOND: f64 = 0.02;
/// What may be won beyond what is asked, in millimetres.
const MOST_WON: f64 = 0.001;
/// What may be missing in the end, in millimetres: with what rounding takes away it is below [`crate::build::NOISE`].
const SLACK: f64 = 3e-7;
/// What an answer may miss, in millimetres.
const EXACTLY: f64 = 1e-8;
/// No more pieces than this move in one program, so that it takes no longer than a round or two. What lacks where only
/// more of them together could make room is not mended.
const MOST_MOVING: usize = 48;
/// How many places are mended at most: some, and one more for so many pieces.
const PLACES: usize = 4;
const PIECES_FOR_A_PLACE: usize = 8;
/// Near a piece is what is no further from it than this, in millimetres, beyond what they must keep.
const NEAR: f64 = 1.0;

/// Does something on a ground whose rules ask a little less.
pub fn loosely<T>(ground: &mut Ground, work: impl FnOnce(&Ground) -> T) -> T {
    let (spacing, margin) = (ground.spacing, ground.margin);
    let clearances: Vec<Option<f64>> = ground.kinds.iter().map(|kind| kind.clearance).collect();
    ground.spacing -= LOOSE;
    ground.margin -= LOOSE;
    for clearance in ground.kinds.iter_mut().filter_map(|kind| kind.clearance.as_mut()) {
        *clearance -= LOOSE;
    }
    let outcome = work(ground);
    (ground.spacing, ground.margin) = (spacing, margin);
    for (kind, clearance) in ground.kinds.iter_mut().zip(clearances) {
        kind.clearance = clearance;
    }
    outcome
}

/// Bodies that are moved a little so that they keep the rules where answers are rounded to.
pub struct Fitting {
    /// The bodies as they lie now.
    pub bodies: Vec<Body>,
    place: Option<Mending>,
    /// How many more places may be mended.
    places_left: usize,
}

/// The pieces round a place that lacks something, and what is near them.
struct Mending {
    /// Their positions in the list of all bodies: first those that move, then those that only are in the way.
    members: Vec<usize>,
    /// The same as bodies, of which all that do not move are held.
    bodies: Vec<Body>,
    /// How many of the [`TRUST`]s have been used up.
    programs: usize,
}

impl Fitting {
    /// Begins with these bodies, which lack little.
    pub fn new(bodies: Vec<Body>) -> Fitting {
        let places_left = PLACES + bodies.len() / PIECES_FOR_A_PLACE;
        Fitting { bodies, place: None, places_left }
    }

    /// Works until decided or until the budget is used up, one program at a time; takes the points looked up off it.
    pub fn work(&mut self, ground: &Ground, budget: &mut u64) -> Outcome {
        let mut outcome = Outcome::Open;
        while outcome == Outcome::Open && *budget > 0 {
            let work;
            (outcome, work) = match self.place.take() {
                None => self.find_place(ground),
                Some(mending) => self.mend(ground, mending),
            };
            *budget = budget.saturating_sub(work.max(1));
        }
        outcome
    }

    /// Looks for the place that lacks most.
    fn find_place(&mut self, ground: &Ground) -> (Outcome, u64) {
        for body in self.bodies.iter_mut().filter(|body| !body.held) {
            *body = on_grid(ground, body);
        }
        let mut found: Vec<Touch> = Vec::new();
        let work = touches(ground, &self.bodies, BEYOND, &mut found);
        let lack = |touch: &Touch| need(ground, &self.bodies, *touch).least;
        let worst = found.iter().map(|touch| (lack(touch), touch)).max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, touch)) = worst.filter(|&(lack, _)| lack > SLACK) else {
            return (Outcome::Solved, work);
        };
        if self.places_left == 0 {
            return (Outcome::Failed, work);
        }
        self.places_left -= 1;
        self.place = Some(Mending::new(ground, &self.bodies, touch));
        (Outcome::Open, work)
    }

    /// One program; what has been mended is put back.
    fn mend(&mut self, ground: &Ground, mut mending: Mending) -> (Outcome, u64) {
        let (outcome, work) = mending.step(ground, &self.bodies);
        match outcome {
            Outcome::Solved => {
                for (&index, body) in mending.members.iter().zip(mending.bodies) {
                    if !body.held {
                        self.bodies[index] = body;
                    }
                }
                (Outcome::Open, work)
            }
            Outcome::Open => {
                self.place = Some(mending);
                (Outcome::Open, work)
            }
            Outcome::Failed => (Outcome::Failed, work),
        }
    }
}

impl Mending {
    /// The free pieces nearest to a touch by way of pieces that are near each other, no more than [`MOST_MOVING`].
    fn new(ground: &Ground, bodies: &[Body], touch: &Touch) -> Mending {
        let are_near = |a: &Body, b: &Body| !are_apart(ground, a, b, ground.need(a, b) + NEAR);
        let mut is_member = vec![false; bodies.len()];
        let mut members: Vec<usize> = Vec::new();
        for index in [Some(touch.a), touch.b].into_iter().flatten().filter(|&index| !bodies[index].held) {
            is_member[index] = true;
            members.push(index);
        }
        let mut from = 0;
        let mut in_the_way: Vec<usize> = Vec::new();
        while from < members.len() {
            for (index, body) in bodies.iter().enumerate() {
                if is_member[index] || !are_near(&bodies[members[from]], body) {
                    continue;
                }
                is_member[index] = true;
                let moves = !body.held && members.len() < MOST_MOVING;
                if moves { &mut members } else { &mut in_the_way }.push(index);
            }
            from += 1;
        }
        let moving = members.len();
        members.extend(in_the_way);
        let mut bodies: Vec<Body> = members.iter().map(|&index| bodies[index].clone()).collect();
        for body in &mut bodies[moving..] {
            body.held = true;
        }
        Mending { members, bodies, programs: 0 }
    }

    /// The next program. Solved means that nothing is lacking round here that the pieces can mend.
    fn step(&mut self, ground: &Ground, all: &[Body]) -> (Outcome, u64) {
        let Mending { members, bodies, programs } = self;
        if *programs >= TURNING {
            for body in bodies.iter_mut().filter(|body| !body.held) {
                *body = on_grid(ground, body);
            }
        }
        let trust = TRUST.get(*programs).copied();
        let mut found: Vec<Touch> = Vec::new();
        let mut work = touches(ground, bodies, 2.5 * trust.unwrap_or(0.0) + BEYOND, &mut found);
        let stays_for_now = |touch: &Touch| touch.b.is_some_and(|b| bodies[b].held && !all[members[b]].held);
        let asked = |&touch: &Touch| {
            let need = need(ground, bodies, touch);
            // What lacks to a piece that does not move now is left for when it does.
            if stays_for_now(&touch) { Need { least: need.least.min(0.0), ..need } } else { need }
        };
        let needs: Vec<Need> = found.iter().map(asked).collect();
        let missing = most_missing(&needs);
        if missing <= SLACK && *programs >= TURNING {
            return (Outcome::Solved, work);
        }
        let Some(trust) = trust else { return (Outcome::Failed, work) };
        let won = (-2.0 * missing, MOST_WON);
        let limits = Limits { trust, won, may_turn: *programs < TURNING, tolerance: EXACTLY };
        let (moves, spent) = best_moves(ground, bodies, &needs, &limits);
        work += spent;
        let Some(moves) = moves else { return (Outcome::Failed, work) };
        moves.make(ground, bodies);
        *programs += 1;
        (Outcome::Open, work)
    }
}

/// What the rules ask at this touch.
fn need(ground: &Ground, bodies: &[Body], touch: Touch) -> Need {
    let asked = touch.b.map_or(ground.margin, |b| ground.need(&bodies[touch.a], &bodies[b]));
    Need { least: asked - touch.distance, rate: 1.0, touch }
}

/// What the rules ask at these touches.
pub fn needs(ground: &Ground, bodies: &[Body], touches: &[Touch]) -> Vec<Need> {
    touches.iter().map(|touch| need(ground, bodies, *touch)).collect()
}

/// The most that is missing where something is, in millimetres.
pub fn most_missing(needs: &[Need]) -> f64 {
    needs.iter().map(|need| need.least).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;
    use crate::build::placement_on_grid;

    fn ground(width: f64) -> Ground {
        Ground::new(&Layout {
            sheet: Sheet { width, height: 18.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        })
    }

    fn fitted(ground: &Ground, places: &[(f64, f64)]) -> Option<Vec<f64>> {
        let body = |&(x, y): &(f64, f64)| Body::new(ground, 0, &Placement::at(x, y), false);
        let mut fitting = Fitting::new(places.iter().map(body).collect());
        let mut budget = u64::MAX;
        let is_solved = fitting.work(ground, &mut budget) == Outcome::Solved;
        is_solved.then(|| fitting.bodies.iter().map(|body| placement_on_grid(ground, body).at.x).collect())
    }

    fn boxes(width: f64) -> Option<Vec<f64>> {
        fitted(&ground(width), &[(9.003, 9.0), (20.998, 9.002), (32.996, 8.999)])
    }

    #[test]
    fn boxes_that_fit_exactly_come_to_their_exact_places() {
        assert_eq!(boxes(42.0), Some(vec![9.0, 21.0, 33.0]));
        assert!(boxes(42.01).is_some());
    }

    #[test]
    fn what_lacks_a_micrometre_is_not_mended() {
        assert_eq!(boxes(41.999), None);
    }

    #[test]
    fn a_row_longer_than_what_moves_at_once_is_mended_place_by_place() {
        let count = 3 * MOST_MOVING;
        // Two lacks, and some room not far from each.
        let steps = [(20, 0.01), (40, -0.004), (100, -0.004), (120, 0.01)];
        let shift = |index: usize| -> f64 {
            steps.iter().filter(|&&(from, _)| index >= from).map(|&(_, step)| step).sum()
        };
        let places: Vec<(f64, f64)> =
            (0..count).map(|index| (9.0 + 12.0 * index as f64 + shift(index), 9.0)).collect();
        let ground = ground(12.0 * count as f64 + 6.0 + shift(count));
        let found = fitted(&ground, &places).unwrap();
        assert!(found.windows(2).all(|pair| pair[1] - pair[0] >= 12.0 - 2e-6));
        assert!(found[0] >= 9.0 - 1e-6 && found[count - 1] <= ground.sheet.width - 9.0 + 1e-6);
    }
}
