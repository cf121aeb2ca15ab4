//! The loop that grow, even and shorten share: all pieces at a level, then at a better one, and so on.
//!
//! A level is a size, a gap or a height told so that more is better. From the best sound layout so far an attempt is made
//! at a level a step above; if it fails, other starts are tried and steps become shorter. What an attempt finds is taken
//! as far up as small moves lead. What is shown always passed the check.

use stickleaf_sheet::{Layout, StickerId, Wanted, ceiling, placed_cut_lines, smallest_gap, usable_region};

use crate::aims::arranging::Arranging;
use crate::aims::climb::{Climb, Climbed};
use crate::aims::count::Count;
use crate::aims::engine::Engine;
use crate::aims::measure::Measure;
use crate::aims::rung::{Lie, Rung};
use crate::aims::spread::Spread;
use crate::aims::stand::Stand;
use crate::aims::start::{self, ARRANGING_PLANS, Height, PLANS, Start};
use crate::aims::{Course, ROUND_WORK};
use crate::answer::{assembled, is_sound, keeps_rules_in_full};
use crate::body::Body;
use crate::build::NOISE;
use crate::fit::loosely;
use crate::goal::{Demand, demands, missing, wanted};
use crate::pack::{Aim, PackError, Progress};
use crate::random::Chance;
use crate::separate::Outcome;

/// The first step, and the last, as shares of a whole; a step after one that failed, and after one that did not.
const FIRST_STEP: f64 = 0.05;
const LAST_STEP: f64 = 0.000_1;
const SHORTER: f64 = 0.9;
const LONGER: f64 = 1.5;
/// What a longer step finds is a stage on the way, not worth taking as far as it leads.
const SMALL_STEP: f64 = 0.01;
/// How far below the best level other ways up begin.
const STEPS_BELOW: f64 = 0.03;
/// Gains below this share of a whole are no reason to go on.
const LEAST_GAIN: f64 = 0.000_01;
/// Attempts without a gain before the search ends.
const PATIENCE: usize = 120;
/// Rounds in which all pieces must have found a place before an easier level is tried.
const PLACING_ROUNDS: u64 = 40;
/// Pieces with room to spare are told apart up to gaps this much larger than the smallest.
const ROOMY: f64 = 1.6;
/// Attempts without a gain before the pieces of the best layout are given the middle of their room.
const LULL: usize = 4;

/// The search for the best level.
pub struct Ladder<M> {
    measure: M,
    given: Layout,
    demands: Vec<Demand>,
    best: Best,
    stage: Stage,
    /// The last rung, whose outlines may serve again.
    rung: Option<Rung>,
    arranging: Arranging,
    chance: Chance,
    step: f64,
    /// Whether the pieces of the best layout have been given the middle of their room, as far as that is worth it.
    is_spread: bool,
    /// Attempts so far, and those since something was gained.
    tries: usize,
    idle: usize,
    ceiling: usize,
}

/// What is shown, and what is told of it.
struct Best {
    layout: Layout,
    level: f64,
    /// Whether all pieces are there.
    is_whole: bool,
    lies: Vec<Lie>,
    density: f64,
    gap: Option<f64>,
}

enum Stage {
    /// Finding a place for every piece at a level, in so many more rounds.
    Placing {
        count: Box<Count>,
        level: f64,
        rounds_left: u64,
    },
    /// An attempt at the level of the rung.
    Trying(Engine, Height),
    /// From the outcome of an attempt upwards.
    Climbing(Box<Climb>, Height),
    /// Giving each piece the middle of its room.
    Spreading(Box<Spread>),
    /// Between two attempts.
    Next,
    Done,
}

impl<M: Measure> Ladder<M> {
    /// A search that starts from this layout.
    ///
    /// Errors: see [`PackError`].
    pub fn new(layout: &Layout, measure: M, seed: u64) -> Result<Ladder<M>, PackError> {
        let count = Count::new(&all_of_it(layout), Aim::Place, seed)?;
        let level = measure.first();
        let start = Layout { pieces: count.best().pieces.clone(), ..layout.clone() };
        let mut ladder = Ladder {
            ceiling: ceiling(&start),
            best: Best::new::<M>(start, level, false, Vec::new()),
            demands: demands(layout, Aim::Place),
            given: layout.clone(),
            stage: Stage::Placing { count: Box::new(count), level, rounds_left: PLACING_ROUNDS },
            rung: None,
            arranging: Arranging::new(),
            chance: Chance::new(seed),
            step: FIRST_STEP,
            is_spread: !M::TELLS_GAP,
            tries: 0,
            idle: 0,
            measure,
        };
        ladder.take_what_is_placed();
        Ok(ladder)
    }

    /// A round of placing, at an easier level if it has lasted too long.
    fn place_on(&mut self, mut count: Box<Count>, level: f64, rounds_left: u64) {
        count.round();
        let has_all = count.has_all();
        let is_in_vain = !has_all && count.progress().finished;
        self.stage = Stage::Placing { count, level, rounds_left: rounds_left.saturating_sub(1) };
        self.take_what_is_placed();
        if has_all || !(is_in_vain || rounds_left == 1) {
            return;
        }
        let seed = u64::from(self.chance.below(1 << 30) as u32);
        let easier = self.measure.easier(level).and_then(|level| {
            let layout = Layout { pieces: self.given.pieces.clone(), ..self.measure.layout_at(level)? };
            Some((Count::new(&all_of_it(&layout), Aim::Place, seed).ok()?, level))
        });
        if let Some((count, level)) = easier {
            self.stage = Stage::Placing { count: Box::new(count), level, rounds_left: PLACING_ROUNDS };
            self.take_what_is_placed();
        } else if is_in_vain {
            self.stage = Stage::Done;
        }
    }

    /// Shows what the placing has come to, and goes on from there if every piece has its place.
    fn take_what_is_placed(&mut self) {
        let Stage::Placing { count, level, .. } = &self.stage else { return };
        let mut level = *level;
        let is_whole = count.has_all() && (!M::SETTLES_FIRST || count.progress().finished);
        let pieces = count.best().pieces.clone();
        // Of layouts that lack pieces only those are shown whose stickers and sheet are as they were given.
        if !is_whole && (level != self.measure.first() || pieces == self.best.layout.pieces) {
            return;
        }
        let with_pieces =
            |layout: Option<Layout>| layout.map(|layout| Layout { pieces: pieces.clone(), ..layout });
        let mut searched = with_pieces(self.measure.layout_at(level));
        if is_whole && let Some(layout) = &searched {
            level = self.measure.reached(layout, level);
            searched = with_pieces(self.measure.layout_at(level));
        }
        let Some(searched) = searched else { return };
        let layout = self.measure.shown(&searched);
        if !is_sound(&layout) {
            return;
        }
        let rung = self.rung_at(level, searched);
        self.best = Best::new::<M>(layout, level, is_whole, rung.lies(&rung.layout));
        self.ceiling = self.ceiling.max(ceiling(&self.best.layout));
        if is_whole {
            let bodies = rung.bodies(&self.best.lies);
            self.stage = Stage::Climbing(Box::new(Climb::new(&self.measure, rung, bodies)), Height::Above);
        } else {
            self.rung = Some(rung);
        }
    }

    /// The rung of a layout, made from the last one where that saves work.
    fn rung_at(&mut self, level: f64, layout: Layout) -> Rung {
        let Some(mut rung) = self.rung.take() else { return Rung::new(&self.measure, level, layout) };
        rung.move_to(&self.measure, level, layout);
        rung
    }

    /// Begins the next attempt.
    fn next_try(&mut self, budget: &mut u64) -> Stage {
        if !self.is_spread
            && self.idle >= LULL
            && let Some(rung) = self.rung.take()
        {
            return self.spread_from(rung);
        }
        let last = self.measure.last();
        if self.idle >= PATIENCE || self.best.level >= last {
            return Stage::Done;
        }
        let plans: &[_] = if M::ARRANGES { &ARRANGING_PLANS } else { &PLANS };
        let (start, height) = plans[self.tries % plans.len()];
        self.tries += 1;
        let steps = match height {
            Height::Above => self.step,
            Height::Below => -STEPS_BELOW,
            Height::Arranged => self.arranging.ahead(),
        };
        let level = (self.best.level + steps * self.measure.unit(self.best.level)).min(last);
        let level = self.measure.rounded(level);
        let Some(layout) = self.measure.layout_at(level) else {
            *budget = budget.saturating_sub(1);
            self.gain_nothing(height);
            return Stage::Next;
        };
        let mut rung = self.rung_at(level, layout);
        let start = match height {
            Height::Arranged if self.arranging.has_kept() => Start::Carried,
            _ => start,
        };
        let (bodies, work) = start::bodies(start, &rung, &self.best.lies, &mut self.chance);
        *budget = budget.saturating_sub(work + rung.work_done());
        let engine = match height {
            Height::Arranged => self.arranging.engine(&rung, bodies, &mut self.chance),
            _ => Engine::pushing(&rung.ground, bodies),
        };
        self.rung = Some(rung);
        Stage::Trying(engine, height)
    }

    fn gain_nothing(&mut self, height: Height) {
        self.idle += 1;
        if height == Height::Above {
            self.step = if self.step > LAST_STEP { self.step * SHORTER } else { FIRST_STEP };
        }
    }

    fn try_on(&mut self, mut engine: Engine, height: Height, budget: &mut u64) -> Stage {
        let Some(mut rung) = self.rung.take() else { return Stage::Next };
        // What is missing then is mended on the way up.
        let setting = self.arranging.setting();
        let outcome =
            loosely(&mut rung.ground, |ground| engine.work(ground, setting, &mut self.chance, budget));
        if height == Height::Arranged {
            self.arranging.note(outcome);
        }
        match outcome {
            Outcome::Open => {
                self.rung = Some(rung);
                Stage::Trying(engine, height)
            }
            Outcome::Solved => {
                let bodies = engine.bodies().to_vec();
                let is_far = height == Height::Above && self.step > SMALL_STEP;
                let begin = if is_far { Climb::brief } else { Climb::new };
                Stage::Climbing(Box::new(begin(&self.measure, rung, bodies)), height)
            }
            Outcome::Failed => {
                if height == Height::Arranged {
                    self.arranging.keep(&engine);
                }
                self.rung = Some(rung);
                self.gain_nothing(height);
                Stage::Next
            }
        }
    }

    fn climb_on(&mut self, mut climb: Box<Climb>, height: Height, budget: &mut u64) -> Stage {
        let (climbed, work) = climb.step(&self.measure, self.best.level);
        *budget = budget.saturating_sub(work);
        let stand = &climb.stand;
        let has_gained = matches!(climbed, Climbed::Rest | Climbed::Top)
            && self.offer(stand.level, &stand.rung, &stand.bodies);
        if matches!(climbed, Climbed::Open | Climbed::Rest) {
            return Stage::Climbing(climb, height);
        }
        if !has_gained {
            self.gain_nothing(height);
        }
        self.rung = Some(climb.stand.rung);
        Stage::Next
    }

    /// Begins to give the pieces of the best layout the middle of their room.
    fn spread_from(&mut self, mut rung: Rung) -> Stage {
        self.is_spread = true;
        let roomy = self.measure.rounded(self.best.level * ROOMY);
        let Some(layout) = self.measure.layout_at(roomy) else {
            self.rung = Some(rung);
            return Stage::Next;
        };
        rung.move_to(&self.measure, roomy, layout);
        let bodies = rung.bodies(&self.best.lies);
        Stage::Spreading(Box::new(Spread::new(Stand::new(rung, bodies))))
    }

    fn spread_on(&mut self, mut spread: Box<Spread>, budget: &mut u64) -> Stage {
        let (goes_on, work) = spread.step(&self.measure);
        *budget = budget.saturating_sub(work + spread.stand.rung.work_done());
        if goes_on {
            return Stage::Spreading(spread);
        }
        let Stand { rung, bodies, .. } = spread.stand;
        self.show(self.best.level, &rung, &bodies);
        self.rung = Some(rung);
        Stage::Next
    }

    /// Shows the bodies if their level is better than the best so far and they keep every rule there.
    fn offer(&mut self, level: f64, rung: &Rung, bodies: &[Body]) -> bool {
        let gained = level - self.best.level;
        if gained <= 0.0 || !self.show(level, rung, bodies) {
            return false;
        }
        self.is_spread = !M::TELLS_GAP;
        if gained > LEAST_GAIN * self.measure.unit(level) {
            self.idle = 0;
            self.step = (self.step * LONGER).min(FIRST_STEP);
        }
        true
    }

    /// Shows the bodies if they keep every rule at this level.
    fn show(&mut self, level: f64, rung: &Rung, bodies: &[Body]) -> bool {
        let frame =
            if rung.level == level { Some(rung.layout.clone()) } else { self.measure.layout_at(level) };
        let Some(frame) = frame else { return false };
        let frame = Layout { pieces: self.given.pieces.clone(), ..frame };
        let searched = assembled(&frame, &rung.places(bodies));
        let layout = self.measure.shown(&searched);
        let keeps_rules =
            keeps_rules_in_full(&searched) && (layout == searched || keeps_rules_in_full(&layout));
        if !keeps_rules {
            return false;
        }
        let shown = Best::new::<M>(layout, level, true, rung.lies_of(bodies));
        // What was placed may have a larger gap, but too near the edge to count for the level.
        if shown.gap.is_some_and(|gap| self.best.gap.is_some_and(|before| gap < before - NOISE)) {
            (self.best.level, self.best.lies) = (level, shown.lies);
        } else {
            self.best = shown;
        }
        true
    }
}

impl Best {
    fn new<M: Measure>(layout: Layout, level: f64, is_whole: bool, lies: Vec<Lie>) -> Best {
        let lines = placed_cut_lines(&layout);
        // The sum of nothing is minus zero; adding zero tidies that away.
        let inked: f64 = lines.iter().map(|line| line.area()).sum::<f64>() + 0.0;
        let usable = usable_region(&layout.sheet, &layout.rules, layout.zones()).area();
        let gap = if M::TELLS_GAP { smallest_gap(&lines) } else { None };
        Best { density: inked / usable, gap, layout, level, is_whole, lies }
    }
}

impl<M: Measure> Course for Ladder<M> {
    fn round(&mut self) {
        let mut budget = ROUND_WORK;
        while budget > 0 && !matches!(self.stage, Stage::Done) {
            self.stage = match std::mem::replace(&mut self.stage, Stage::Done) {
                Stage::Placing { count, level, rounds_left } => {
                    self.place_on(count, level, rounds_left);
                    return;
                }
                Stage::Trying(engine, height) => self.try_on(engine, height, &mut budget),
                Stage::Climbing(climb, height) => self.climb_on(climb, height, &mut budget),
                Stage::Spreading(spread) => self.spread_on(spread, &mut budget),
                Stage::Next => self.next_try(&mut budget),
                Stage::Done => Stage::Done,
            };
        }
    }

    fn progress(&self) -> Progress {
        let doing = match &self.stage {
            Stage::Placing { count, .. } => count.progress().doing,
            _ => M::DOING,
        };
        Progress {
            round: 0,
            placed: self.best.layout.pieces.len(),
            wanted: wanted(&self.demands),
            ceiling: self.ceiling,
            density: self.best.density,
            height: self.best.layout.sheet.height,
            scale: if self.best.is_whole { self.measure.scale(self.best.level) } else { 1.0 },
            gap: self.best.gap,
            doing,
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

/// The layout with exactly so many copies wanted of each sticker as are wanted or lie there, whichever is more.
fn all_of_it(layout: &Layout) -> Layout {
    let mut all = layout.clone();
    for sticker in &mut all.stickers {
        let there = u32::try_from(layout.placed(&sticker.id)).unwrap_or(u32::MAX);
        sticker.wanted = Wanted::Exactly(sticker.wanted.least().max(there));
    }
    all
}
