//! Place and fill: lattices, a first layout built piece by piece, then one attempt after the other to make room for one
//! more: from the best layout, or from the arrangement with one more that has come nearest so far.

use stickleaf_outline::Placement;
use stickleaf_sheet::{Layout, StickerId, ceiling, placed_cut_lines, smallest_gap, usable_region};

use crate::aims::{Course, ROUND_WORK, refuse_broken_rules};
use crate::answer::{Place, assembled, is_sound, keeps_rules_in_full};
use crate::body::Body;
use crate::build::{Lean, NOISE, free_spot, is_free, on_grid, placement_on_grid};
use crate::fit::{Fitting, loosely};
use crate::goal::{Demand, Worth, counts, demands, missing, wanted, worth};
use crate::ground::Ground;
use crate::hop::{Hop, Hopping, SHARE};
use crate::laid::Laid;
use crate::lattice::Lattices;
use crate::overlap::overlap;
use crate::pack::{Aim, Doing, PackError, Progress};
use crate::proof::Proof;
use crate::random::Chance;
use crate::rearrange::attempt::{Rearrangement, setting_for};
use crate::rearrange::setting::Setting;
use crate::separate::{Attempt, Outcome};
use crate::settle::Settle;
use crate::shake::{ENTRY, disturb, scatter, swap};
use crate::spots::{Weights, best_spot};
use crate::squeeze::{ENOUGH, Squeeze};

/// Jumps of an attempt before it is given up.
const JUMPS: usize = 40;
/// Failed attempts to add a wanted copy before welcome ones get a turn too.
const HOPE: usize = 6;
/// Failed attempts in a row before placing gives up where it is proved that not all can be placed.
const PATIENCE: usize = 12;
/// With no more than this missing, in millimetres, an arrangement is worth another attempt.
const NEARLY: f64 = 0.1;
/// How dear it is to lie on a copy that is only welcome, for one that is wanted: the other one is taken away.
const GIVING_WAY: f64 = 0.05;

/// The search for a layout that holds as many as asked.
pub struct Count {
    aim: Aim,
    layout: Layout,
    ground: Ground,
    held: Vec<Body>,
    /// The ways to lie in a few turns, unless there are too many to be made ready.
    setting: Option<Setting>,
    demands: Vec<Demand>,
    best: Best,
    stage: Stage,
    chance: Chance,
    usable_area: f64,
    doing: Doing,
    ceiling: usize,
    /// Whether the ceiling is that of all layouts, not only of those that hold all that is wanted.
    is_ceiling_of_any: bool,
    /// For each sticker, how many attempts to add one failed since the best layout changed.
    failures: Vec<usize>,
    attempts: usize,
    /// How much can be there at most; worked out once something has found no place.
    proof: Option<Proof>,
    /// The arrangement with one more that came nearest to keeping the rules since the best layout changed.
    near: Option<Near>,
    /// The search of round stickers for one more since the best layout changed.
    hopping: Option<Hopping>,
    /// What hopping has cost, and all other attempts, in points looked up.
    spent: [u64; 2],
}

/// An arrangement that nearly keeps the rules.
struct Near {
    bodies: Vec<Body>,
    /// What is missing where most is, in millimetres.
    missing: f64,
    /// Of which one more is there.
    kind: usize,
}

struct Best {
    layout: Layout,
    worth: Worth,
}

enum Stage {
    Lattices { kind: usize, turns: Vec<f64>, now: Option<Lattices> },
    Building(Building),
    Attempting(Box<Attempt>, usize),
    Squeezing(Box<Squeeze>, usize),
    Fitting(Fit, usize),
    Rearranging(Box<Rearrangement>, usize),
    Hopping,
    Settling(Settle, f64),
    Done,
}

/// Bodies that are brought to where they keep every rule.
struct Fit {
    fitting: Fitting,
    /// As they lay before.
    before: Vec<Body>,
    /// What was missing then, in millimetres, if they have been squeezed already.
    missing: Option<f64>,
}

impl Fit {
    fn new(before: Vec<Body>, missing: Option<f64>) -> Fit {
        Fit { fitting: Fitting::new(before.clone()), before, missing }
    }
}

/// A layout that is being built piece by piece.
struct Building {
    laid: Laid,
    /// For each sticker, how many wanted copies are still to be tried.
    left: Vec<usize>,
    /// For each sticker, whether no spot was found for a further copy.
    full: Vec<bool>,
    lean: Lean,
}

impl Count {
    /// A search that starts from this layout. `aim` is [`Aim::Place`] or [`Aim::Fill`].
    ///
    /// Errors: see [`PackError`].
    ///
    /// Cost: some milliseconds for each sticker.
    pub fn new(layout: &Layout, aim: Aim, seed: u64) -> Result<Count, PackError> {
        layout.validate()?;
        let demands = demands(layout, aim);
        if demands.iter().all(|demand| demand.most == Some(0)) {
            return Err(PackError::NothingToPlace);
        }
        let locked = assembled(layout, &[]);
        refuse_broken_rules(&locked)?;
        let start = if is_sound(layout) { layout.clone() } else { locked };
        let ground = Ground::new(layout);
        let start_worth = worth(&demands, &counts(&start));
        let wanted = wanted(&demands);
        let held = ground.held(layout);
        let in_play: Vec<bool> = demands.iter().map(|demand| demand.most != Some(0)).collect();
        let mut count = Count {
            is_ceiling_of_any: start_worth.placed > 0 && start_worth.wanted < wanted,
            aim,
            setting: setting_for(&ground, &held, &in_play),
            held,
            failures: vec![0; layout.stickers.len()],
            chance: Chance::new(seed),
            usable_area: usable_region(&layout.sheet, &layout.rules, layout.zones()).area(),
            doing: Doing::Starting,
            ceiling: ceiling(&start),
            best: Best { worth: start_worth, layout: start },
            stage: Stage::Done,
            attempts: 0,
            proof: None,
            near: None,
            hopping: None,
            spent: [0; 2],
            layout: layout.clone(),
            ground,
            demands,
        };
        count.stage = if count.has_met_its_aim() { Stage::Done } else { count.first_stage() };
        Ok(count)
    }

    /// Whether every wanted copy has its place.
    pub fn has_all(&self) -> bool {
        self.best.worth.wanted == self.wanted()
    }

    fn wanted(&self) -> usize {
        wanted(&self.demands)
    }

    fn has_met_its_aim(&self) -> bool {
        self.has_all() && (self.aim == Aim::Place || self.best.worth.placed >= self.ceiling)
    }

    /// Whether placing is proved to be in vain, and what could be placed has been or has failed for long.
    fn has_done_what_it_can(&self) -> bool {
        let in_vain = self.proof.as_ref().filter(|proof| self.aim == Aim::Place && proof.is_too_little);
        in_vain.is_some_and(|proof| {
            self.best.worth.wanted >= proof.pieces || self.failures.iter().sum::<usize>() >= PATIENCE
        })
    }

    fn first_stage(&self) -> Stage {
        let asked: Vec<usize> =
            (0..self.demands.len()).filter(|&kind| self.demands[kind].most != Some(0)).collect();
        match asked[..] {
            [kind] => {
                let mut turns = self.ground.kinds[kind].restful.clone();
                turns.reverse();
                Stage::Lattices { kind, turns, now: None }
            }
            _ => Stage::Building(self.building(Lean::TOP_LEFT)),
        }
    }

    /// The free pieces of the best layout as bodies, then what is held.
    fn best_bodies(&self) -> Vec<Body> {
        let layout = &self.best.layout;
        let free = layout.pieces.iter().filter(|piece| !piece.locked).filter_map(|piece| {
            let kind = layout.sticker_index(&piece.sticker)?;
            Some(Body::new(&self.ground, kind, &piece.placement, false))
        });
        free.chain(self.held.iter().cloned()).collect()
    }

    /// How many of each sticker these bodies are.
    fn counts_of(&self, bodies: &[Body]) -> Vec<usize> {
        let mut counts = vec![0; self.demands.len()];
        for body in bodies.iter().filter(|body| body.kind < self.ground.stickers) {
            counts[body.kind] += 1;
        }
        counts
    }

    /// Shows the bodies if they keep every rule and are worth more than the best so far.
    fn offer(&mut self, bodies: &[Body]) -> bool {
        let offered = worth(&self.demands, &self.counts_of(bodies));
        offered > self.best.worth && self.offer_equal(bodies, |_| true)
    }

    /// Shows the bodies if they keep every rule, are worth as much as the best so far, and please.
    fn offer_equal(&mut self, bodies: &[Body], please: impl Fn(&Layout) -> bool) -> bool {
        let places: Vec<Place> = bodies
            .iter()
            .filter(|body| !body.held)
            .map(|body| Place { sticker: body.kind, placement: placement_on_grid(&self.ground, body) })
            .collect();
        let layout = assembled(&self.layout, &places);
        let offered = worth(&self.demands, &counts(&layout));
        if offered < self.best.worth || !please(&layout) || !keeps_rules_in_full(&layout) {
            return false;
        }
        let had_all = self.best.worth.wanted == self.wanted();
        self.best = Best { layout, worth: offered };
        self.failures.fill(0);
        (self.near, self.hopping) = (None, None);
        // The bound for an empty sheet is the one for layouts with all that is wanted. It takes long to work out.
        let has_all = offered.wanted == self.wanted();
        if offered.placed > self.ceiling || (has_all && !had_all && self.is_ceiling_of_any) {
            self.ceiling = ceiling(&self.best.layout);
            self.is_ceiling_of_any = !has_all;
        }
        true
    }

    // The stages.

    fn try_lattices(
        &mut self,
        kind: usize,
        mut turns: Vec<f64>,
        now: Option<Lattices>,
        budget: &mut u64,
    ) -> Stage {
        self.doing = Doing::Placing;
        let started = now.or_else(|| Some(Lattices::new(&self.ground, kind, turns.pop()?)));
        let Some(mut lattices) = started else { return Stage::Building(self.building(Lean::TOP_LEFT)) };
        let (found, mut work) = lattices.step(&self.ground);
        *budget = budget.saturating_sub(work);
        let Some(found) = found else {
            return Stage::Lattices { kind, turns, now: Some(lattices) };
        };
        let held = Laid::new(&self.ground, &self.held);
        for places in found {
            let mut bodies = self.held.clone();
            let room = self.room_for(&bodies, kind);
            for placement in places.iter().take(room) {
                let body = on_grid(&self.ground, &Body::new(&self.ground, kind, placement, false));
                if is_free(&self.ground, &held, &body, NOISE, &mut work) {
                    bodies.push(body);
                }
            }
            self.offer(&bodies);
        }
        *budget = budget.saturating_sub(work);
        if self.has_met_its_aim() {
            self.after_success(budget)
        } else {
            Stage::Lattices { kind, turns, now: None }
        }
    }

    /// How many more of a kind may be put down.
    fn room_for(&self, bodies: &[Body], kind: usize) -> usize {
        let count = bodies.iter().filter(|body| body.kind == kind).count();
        self.demands[kind].most.map_or(usize::MAX, |most| most.saturating_sub(count))
    }

    fn building(&self, lean: Lean) -> Building {
        let counts = self.counts_of(&self.held);
        let left =
            self.demands.iter().zip(&counts).map(|(demand, &count)| demand.least.saturating_sub(count));
        Building {
            laid: Laid::new(&self.ground, &self.held),
            left: left.collect(),
            full: vec![false; self.demands.len()],
            lean,
        }
    }

    /// The kind to be placed next: what is wanted, largest first, then what is welcome, smallest first.
    fn next_to_build(&self, building: &Building) -> Option<usize> {
        let area = |kind: usize| self.ground.kinds[kind].shape.area;
        let kinds = || 0..self.demands.len();
        let by_area = |&a: &usize, &b: &usize| area(a).total_cmp(&area(b));
        let open = |kind: usize| !building.full[kind];
        let wanted = kinds().filter(|&kind| open(kind) && building.left[kind] > 0).max_by(by_area);
        let welcome = |&kind: &usize| open(kind) && self.room_for(&building.laid.bodies, kind) > 0;
        wanted.or_else(|| kinds().filter(welcome).min_by(by_area).filter(|_| self.aim == Aim::Fill))
    }

    /// Places a piece.
    fn build_on(&mut self, mut building: Building, budget: &mut u64) -> Stage {
        self.doing = Doing::Placing;
        let Some(kind) = self.next_to_build(&building) else {
            self.offer(&building.laid.bodies);
            return self.after_success(budget);
        };
        let (found, work) = free_spot(&self.ground, &building.laid, kind, building.lean, &mut self.chance);
        *budget = budget.saturating_sub(work);
        building.left[kind] = building.left[kind].saturating_sub(1);
        match found {
            Some(body) => building.laid.put(&self.ground, body),
            None => building.full[kind] = true,
        }
        if *budget == 0 {
            self.offer(&building.laid.bodies);
        }
        Stage::Building(building)
    }

    fn after_success(&mut self, budget: &mut u64) -> Stage {
        if !self.has_met_its_aim() {
            return self.next_attempt(budget);
        }
        if self.aim == Aim::Place {
            let gap = smallest_gap(&placed_cut_lines(&self.best.layout)).unwrap_or(0.0);
            return Stage::Settling(Settle::new(&self.ground, self.best_bodies()), gap);
        }
        Stage::Done
    }

    /// The kind of which one more is tried next: what is wanted first, then what failed least often, then the smallest.
    fn next_kind(&self) -> Option<usize> {
        let counts = counts(&self.best.layout);
        let most = |kind: usize| self.proof.as_ref().map_or(usize::MAX, |proof| proof.copies[kind]);
        let lacks = |kind: usize| counts[kind] < self.demands[kind].least.min(most(kind));
        let is_met = |kind: usize| counts[kind] >= self.demands[kind].least;
        let welcome =
            |kind: usize| is_met(kind) && self.demands[kind].most.is_none_or(|most| counts[kind] < most);
        let rank = |kind: usize| (self.failures[kind] / 3, self.ground.kinds[kind].shape.area);
        let cheapest = |kinds: &mut dyn Iterator<Item = usize>| {
            kinds.min_by(|&a, &b| rank(a).0.cmp(&rank(b).0).then(rank(a).1.total_cmp(&rank(b).1)))
        };
        let kinds = || 0..self.demands.len();
        // What has failed often gives others a turn.
        let hopeful = |kind: usize| self.failures[kind] < HOPE || self.attempts.is_multiple_of(3);
        cheapest(&mut kinds().filter(|&kind| lacks(kind) && hopeful(kind)))
            .or_else(|| cheapest(&mut kinds().filter(|&kind| lacks(kind) && self.aim == Aim::Place)))
            .or_else(|| cheapest(&mut kinds().filter(|&kind| welcome(kind))))
            .or_else(|| cheapest(&mut kinds().filter(|&kind| lacks(kind))))
    }

    fn next_attempt(&mut self, budget: &mut u64) -> Stage {
        if self.proof.is_none() && !self.has_all() {
            self.proof = Some(Proof::new(&assembled(&self.layout, &[]), &self.demands));
        }
        if self.has_done_what_it_can() {
            return Stage::Done;
        }
        let Some(kind) = self.next_kind() else { return Stage::Done };
        if self.spent[0] <= SHARE * self.spent[1] && self.can_hop(kind) {
            return Stage::Hopping;
        }
        self.attempts += 1;
        self.doing = Doing::Adding;
        if self.setting.is_none()
            && !self.attempts.is_multiple_of(3)
            && let Some(stage) = self.attempt_from_near(budget)
        {
            return stage;
        }
        let mut bodies = self.best_bodies();
        let work = match self.attempts % 8 {
            3 | 6 => disturb(&self.ground, &mut bodies, &mut self.chance),
            7 => scatter(&self.ground, &mut bodies, &mut self.chance),
            _ => 0,
        };
        *budget = budget.saturating_sub(work);
        bodies.insert(0, Body::new(&self.ground, kind, &Placement::at(0.0, 0.0), false));
        let mut weights = Weights::new(bodies.len());
        let counts = self.counts_of(&bodies);
        let is_wanted = counts[kind] <= self.demands[kind].least;
        let gives_way =
            |body: &Body| is_wanted && !body.held && counts[body.kind] > self.demands[body.kind].least;
        for (index, body) in bodies.iter().enumerate().skip(1) {
            if gives_way(body) {
                *weights.of_mut(0, Some(index)) = GIVING_WAY;
            }
        }
        let (spot, work) = best_spot(&self.ground, &bodies, 0, &weights, ENTRY, &mut self.chance);
        *budget = budget.saturating_sub(work);
        bodies[0].lie(&self.ground, spot.at, spot.degrees, spot.mirrored);
        let entering = bodies[0].clone();
        let spacing = self.ground.spacing;
        let mut spare: Vec<usize> = self
            .demands
            .iter()
            .zip(&counts)
            .map(|(demand, &count)| count.saturating_sub(demand.least))
            .collect();
        bodies.retain(|body| {
            let in_the_way = gives_way(body)
                && spare[body.kind] > 0
                && overlap(&self.ground, &entering, body, spacing) > 0.0
                && body.at != entering.at;
            if in_the_way {
                spare[body.kind] -= 1;
            }
            !in_the_way
        });
        match &self.setting {
            Some(setting) if self.attempts % 4 != 1 => {
                let rearrangement = Rearrangement::new(&self.ground, setting, &bodies);
                Stage::Rearranging(Box::new(rearrangement), kind)
            }
            _ => Stage::Attempting(Box::new(Attempt::new(&self.ground, bodies, JUMPS)), kind),
        }
    }

    fn rearrange_on(&mut self, mut attempt: Box<Rearrangement>, kind: usize, budget: &mut u64) -> Stage {
        self.doing = Doing::Separating;
        let Some(setting) = &self.setting else { return Stage::Done };
        let outcome = attempt.work(setting, &mut self.chance, budget);
        if outcome == Outcome::Open {
            return Stage::Rearranging(attempt, kind);
        }
        let bodies = attempt.bodies(&self.ground, setting, &self.held);
        if outcome == Outcome::Solved && self.offer(&bodies) {
            return self.after_success(budget);
        }
        self.failures[kind] += 1;
        self.next_attempt(budget)
    }

    /// Sees to it that there is a search for one more of this kind, if all that may move is round.
    fn can_hop(&mut self, kind: usize) -> bool {
        if self.hopping.as_ref().is_none_or(|hopping| hopping.kind != kind) {
            self.hopping = Hopping::new(&self.ground, self.best_bodies(), kind, &mut self.chance);
        }
        self.hopping.is_some()
    }

    fn hop_on(&mut self, budget: &mut u64) -> Stage {
        self.doing = Doing::Adding;
        let Some(hopping) = &mut self.hopping else { return self.next_attempt(budget) };
        let hop = hopping.work(&self.ground, budget);
        if matches!(hop, Hop::Open) {
            return Stage::Hopping;
        }
        let (bodies, kind) = (hopping.bodies.clone(), hopping.kind);
        *budget = budget.saturating_sub(hopping.hop(&self.ground, &mut self.chance));
        match hop {
            Hop::Solved => Stage::Fitting(Fit::new(bodies, None), kind),
            Hop::Nearer => self.squeeze(&bodies, kind, budget),
            _ => self.next_attempt(budget),
        }
    }

    fn attempt_on(&mut self, mut attempt: Box<Attempt>, kind: usize, budget: &mut u64) -> Stage {
        self.doing = Doing::Separating;
        let outcome = loosely(&mut self.ground, |ground| attempt.work(ground, &mut self.chance, budget));
        if outcome == Outcome::Open {
            return Stage::Attempting(attempt, kind);
        }
        if outcome == Outcome::Solved {
            return Stage::Fitting(Fit::new(attempt.bodies, None), kind);
        }
        self.squeeze(attempt.closest(), kind, budget)
    }

    fn fit_on(&mut self, mut fit: Fit, kind: usize, budget: &mut u64) -> Stage {
        self.doing = Doing::Separating;
        let outcome = fit.fitting.work(&self.ground, budget);
        if outcome == Outcome::Open {
            return Stage::Fitting(fit, kind);
        }
        if outcome == Outcome::Solved && self.offer(&fit.fitting.bodies) {
            return self.after_success(budget);
        }
        match fit.missing {
            None => self.squeeze(&fit.before, kind, budget),
            Some(missing) => self.after_failure(Near { bodies: fit.before, missing, kind }, budget),
        }
    }

    /// Goes on to take a little more out of what nearly keeps the rules.
    fn squeeze(&mut self, bodies: &[Body], kind: usize, budget: &mut u64) -> Stage {
        match Squeeze::new(&self.ground, bodies) {
            Some(squeeze) => Stage::Squeezing(Box::new(squeeze), kind),
            None => {
                self.failures[kind] += 1;
                self.next_attempt(budget)
            }
        }
    }

    fn squeeze_on(&mut self, mut squeeze: Box<Squeeze>, kind: usize, budget: &mut u64) -> Stage {
        self.doing = Doing::Separating;
        if squeeze.work(&self.ground, budget) == Outcome::Open {
            return Stage::Squeezing(squeeze, kind);
        }
        let Squeeze { bodies, missing, .. } = *squeeze;
        if missing <= ENOUGH {
            return Stage::Fitting(Fit::new(bodies, Some(missing)), kind);
        }
        self.after_failure(Near { bodies, missing, kind }, budget)
    }

    fn after_failure(&mut self, near: Near, budget: &mut u64) -> Stage {
        self.failures[near.kind] += 1;
        if self.near.as_ref().is_none_or(|nearest| near.missing < nearest.missing) {
            self.near = Some(near);
        }
        self.next_attempt(budget)
    }

    /// An attempt from the arrangement with one more that came nearest, with some pieces put down anew.
    fn attempt_from_near(&mut self, budget: &mut u64) -> Option<Stage> {
        let near = self.near.as_ref().filter(|near| near.missing <= NEARLY)?;
        let (mut bodies, kind) = (near.bodies.clone(), near.kind);
        let shaken = if self.chance.below(2) == 0 { disturb } else { swap };
        *budget = budget.saturating_sub(shaken(&self.ground, &mut bodies, &mut self.chance));
        Some(Stage::Attempting(Box::new(Attempt::new(&self.ground, bodies, JUMPS)), kind))
    }

    fn settle_on(&mut self, mut settle: Settle, gap: f64, budget: &mut u64) -> Stage {
        self.doing = Doing::Settling;
        *budget = budget.saturating_sub(ROUND_WORK / 2);
        let (bodies, more) = settle.spread(&self.ground);
        let gap_of = |layout: &Layout| smallest_gap(&placed_cut_lines(layout)).unwrap_or(0.0);
        let shown = self.offer_equal(&bodies, |layout| gap_of(layout) >= gap);
        let gap = if shown { gap_of(&self.best.layout) } else { gap };
        if more { Stage::Settling(settle, gap) } else { Stage::Done }
    }
}

impl Course for Count {
    fn round(&mut self) {
        let mut budget = ROUND_WORK;
        while budget > 0 && !matches!(self.stage, Stage::Done) {
            let stage = std::mem::replace(&mut self.stage, Stage::Done);
            let (before, is_other) = (budget, !matches!(stage, Stage::Hopping));
            self.stage = match stage {
                Stage::Lattices { kind, turns, now } => self.try_lattices(kind, turns, now, &mut budget),
                Stage::Building(building) => self.build_on(building, &mut budget),
                Stage::Attempting(attempt, kind) => self.attempt_on(attempt, kind, &mut budget),
                Stage::Squeezing(squeeze, kind) => self.squeeze_on(squeeze, kind, &mut budget),
                Stage::Fitting(fit, kind) => self.fit_on(fit, kind, &mut budget),
                Stage::Rearranging(attempt, kind) => self.rearrange_on(attempt, kind, &mut budget),
                Stage::Hopping => self.hop_on(&mut budget),
                Stage::Settling(settle, gap) => self.settle_on(settle, gap, &mut budget),
                Stage::Done => Stage::Done,
            };
            self.spent[usize::from(is_other)] += before - budget;
        }
    }

    fn progress(&self) -> Progress {
        let inked: f64 = counts(&self.best.layout)
            .iter()
            .zip(&self.ground.kinds)
            .map(|(&count, kind)| count as f64 * kind.shape.area)
            .sum();
        Progress {
            round: 0,
            placed: self.best.layout.pieces.len(),
            wanted: self.wanted(),
            ceiling: self.ceiling,
            density: inked / self.usable_area,
            height: self.layout.sheet.height,
            scale: 1.0,
            gap: None,
            doing: self.doing,
            finished: matches!(self.stage, Stage::Done),
        }
    }

    fn best(&self) -> &Layout {
        &self.best.layout
    }

    fn missing(&self) -> Vec<(StickerId, usize)> {
        missing(&self.best.layout, &self.demands)
    }
}
