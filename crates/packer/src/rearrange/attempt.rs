//! An attempt at a layout of bodies: turned into the allowed few turns, taken apart, and turned back into bodies.

use stickleaf_outline::Outline;
use stickleaf_sheet::Turns;

use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::random::Chance;
use crate::rearrange::board::{Board, Spot};
use crate::rearrange::disturb::{repeat_pattern, swap_two};
use crate::rearrange::linear::{Bounds, Goal, moved_together};
use crate::rearrange::setting::{Setting, fixed_turns};
use crate::rearrange::untangle::{Patience, Untangle};
use crate::separate::Outcome;

/// When an attempt is given up.
const PATIENCE: Patience = Patience { passes: 80, returns: 2 };
/// What may be lacking in the end, in millimetres.
const SLACK: f64 = 1e-7;
/// How many no-fit polygons may be made, as the products of their outlines' corners added up. They are made when first
/// asked for, all within the first rounds, so this many must cost no more than some tenths of a second: measured, one
/// such product takes a microsecond or more.
const MOST_WORK: f64 = 1e5;

/// An arrangement that was not taken apart.
#[derive(Clone, Debug)]
pub struct Tangle {
    spots: Vec<Spot>,
    size: f64,
    /// What is lacking in millimetres, all pairs added up.
    pub lacking: f64,
}

/// One attempt to bring bodies into places in which they keep every rule, each in one of a few turns.
pub struct Rearrangement {
    untangle: Untangle,
    /// The width of a square piece with the pieces' mean area.
    size: f64,
}

impl Rearrangement {
    /// An attempt that starts from these bodies, which may lie on each other: the free ones first, then what is held.
    pub fn new(ground: &Ground, setting: &Setting, bodies: &[Body]) -> Rearrangement {
        let free: Vec<Spot> = bodies
            .iter()
            .filter(|body| !body.held)
            .map(|body| setting.spot(body.kind, &body.placement(ground)))
            .collect();
        let areas: f64 = bodies.iter().filter(|b| !b.held).map(|b| ground.kinds[b.kind].shape.area).sum();
        let size = (areas / free.len().max(1) as f64).sqrt();
        Rearrangement::on(setting, setting.board_on(ground, free), size)
    }

    /// An attempt that starts from an arrangement that could not be taken apart, disturbed.
    pub fn again(ground: &Ground, setting: &Setting, tangle: Tangle, chance: &mut Chance) -> Rearrangement {
        let lies = &setting.lies;
        let mut board = setting.board_on(ground, tangle.spots);
        let repeats = chance.below(2) == 0 && repeat_pattern(lies, &mut board, chance);
        if !repeats {
            swap_two(lies, &mut board, chance);
        }
        Rearrangement::on(setting, board, tangle.size)
    }

    fn on(setting: &Setting, mut board: Board, size: f64) -> Rearrangement {
        for index in 0..board.free {
            let inside = board.inside(&setting.lies, board.spots[index]);
            board.put(&setting.lies, index, inside);
        }
        Rearrangement { untangle: Untangle::new(&setting.lies, board, PATIENCE), size }
    }

    /// The least tangled arrangement so far.
    pub fn tangle(&self) -> Tangle {
        let (spots, lacking) = self.untangle.best();
        Tangle { spots: spots[..self.untangle.board.free].to_vec(), size: self.size, lacking }
    }

    /// Works until decided or until the budget is used up.
    pub fn work(&mut self, setting: &Setting, chance: &mut Chance, budget: &mut u64) -> Outcome {
        while *budget > 0 {
            let outcome = self.untangle.pass(&setting.lies, chance, budget);
            let is_time_to_mend = outcome == Outcome::Failed || self.untangle.has_returned;
            if is_time_to_mend && self.mend(setting, budget) {
                return Outcome::Solved;
            }
            if outcome != Outcome::Open {
                return outcome;
            }
        }
        Outcome::Open
    }

    /// Whether the least tangled arrangement comes apart if all pieces move at once.
    fn mend(&mut self, setting: &Setting, budget: &mut u64) -> bool {
        let lies = &setting.lies;
        let mut board = self.untangle.board.clone();
        board.put_all(lies, self.untangle.best().0);
        let mut last = f64::INFINITY;
        for share in [0.3, 0.3, 0.1, 0.1] {
            let bounds = Bounds { furthest: self.size * share, extra: 0.0 };
            let Some(lacking) = moved_together(lies, &mut board, Goal::Part, bounds, budget) else {
                return false;
            };
            if lacking <= SLACK && board.most_lacking(lies) <= SLACK {
                self.untangle.board = board;
                return true;
            }
            if lacking > last * 0.9 {
                return false;
            }
            last = lacking;
        }
        false
    }

    /// The free pieces as bodies, as they lie now; then these that are held.
    pub fn bodies(&self, ground: &Ground, setting: &Setting, held: &[Body]) -> Vec<Body> {
        let board = &self.untangle.board;
        let body = |spot: &Spot| {
            let (kind, placement) = setting.placement(*spot);
            Body::new(ground, kind, &placement, false)
        };
        board.spots[..board.free].iter().map(body).chain(held.iter().cloned()).collect()
    }
}

/// The setting for these stickers, if their no-fit polygons are made soon enough.
pub fn setting_for(ground: &Ground, held: &[Body], in_play: &[bool]) -> Option<Setting> {
    let kinds = || {
        ground.kinds[..ground.stickers].iter().zip(in_play).filter(|(_, play)| **play).map(|(kind, _)| kind)
    };
    let freely = kinds().filter(|kind| kind.turns_freely()).count();
    let steps = match freely {
        0..=2 => 24,
        3..=6 => 8,
        _ => 4,
    };
    let turns = |kind: &Kind| free_turns(&kind.turns, steps);
    let lies = |kind: &Kind| {
        let count = if kind.turns_freely() { turns(kind).len() } else { fixed_turns(&kind.turns).len() };
        count * if kind.mirror { 2 } else { 1 }
    };
    let corners = |line: &Outline| line.points().len() as f64;
    let all: Vec<(f64, f64)> = kinds().map(|kind| (corners(&kind.shape.line), lies(kind) as f64)).collect();
    let mut work = 0.0;
    for (index, &(corners_a, lies_a)) in all.iter().enumerate() {
        for &(corners_b, lies_b) in &all[..=index] {
            work += corners_a * corners_b * lies_a.max(lies_b);
        }
        for body in held {
            work += corners_a * lies_a * corners(&ground.kinds[body.kind].shape.line);
        }
    }
    (work <= MOST_WORK).then(|| Setting::new(ground, held, turns))
}

/// Some of the turns of a sticker that turns freely, in degrees.
fn free_turns(turns: &Turns, steps: u32) -> Vec<f64> {
    match turns {
        Turns::Within(degrees) => vec![0.0, *degrees, -degrees, degrees / 2.0, -degrees / 2.0],
        _ => (0..steps).map(|step| 360.0 * f64::from(step) / f64::from(steps)).collect(),
    }
}
