//! The loop that grow, even and shorten share: all pieces at a level, then at a better one, and so on.
//!
//! A level is a size, a gap or a height told so that more is better. From the best sound layout so far an attempt is made
//! at a level a step further; if it fails, other starts are tried and the step is halved. What is shown always passed the
//! check.

use stickleaf_sheet::{Layout, StickerId, Wanted, ceiling, placed_cut_lines, smallest_gap, usable_region};

use crate::aims::count::Count;
use crate::aims::engine::Engine;
use crate::aims::rung::{Lie, Rung};
use crate::aims::{Course, ROUND_WORK};
use crate::answer::{Place, assembled, is_sound, keeps_rules_in_full};
use crate::goal::{Demand, demands, missing, wanted};
use crate::pack::{Aim, Doing, PackError, Progress};
use crate::random::Chance;
use crate::separate::Outcome;
use crate::shake::{disturb, scatter};
use crate::together::{At, Growth, Together};

/// What the levels of a ladder mean.
pub trait Measure: Send {
    /// What its rounds do.
    const DOING: Doing;

    /// The level of the layout as it was given.
    fn first(&self) -> f64;

    /// A level to start from instead, where more fits; nothing if there is none, or none within reason.
    fn easier(&self, level: f64) -> Option<f64>;

    /// A level beyond which none can be, proven.
    fn last(&self) -> f64;

    /// The layout to search for at this level; nothing if it cannot be.
    fn layout_at(&self, level: f64) -> Option<Layout>;

    /// The layout to show: what was searched for, with the rules as they were given.
    fn shown(&self, searched: &Layout) -> Layout;

    /// The level that the pieces of this layout, searched for at a level, have reached without being moved.
    fn reached(&self, searched: &Layout, level: f64) -> f64 {
        let _ = searched;
        level
    }

    /// By how much a level changes in a step of one whole.
    fn unit(&self, level: f64) -> f64;

    /// The scale of the stickers at a level.
    fn scale(&self, _level: f64) -> f64 {
        1.0
    }

    /// How everything grows with the level, if the last step can be made by moving all pieces together.
    fn growth(&self, _level: f64) -> Option<Growth> {
        None
    }

    /// Whether the smallest gap is worth telling.
    const TELLS_GAP: bool = false;
}

/// The first step, and the last, as shares of a whole.
const FIRST_STEP: f64 = 0.05;
const LAST_STEP: f64 = 0.000_1;
/// Attempts at one step before it is halved.
const TRIES: usize = 3;
/// Attempts without a gain before the search ends.
const PATIENCE: usize = 120;
/// The same where each attempt is brought to the highest level near it: there, far fewer are spent on steps.
const LONG_PATIENCE: usize = 600;
/// A success at a step smaller than this is followed by moving all pieces together.
const SMALL_STEP: f64 = 0.01;
/// How far below the best level new starts are tried, as shares of a step of one whole: at most and at least.
const STEP_BACK: (f64, f64) = (0.06, 0.02);
/// What counts as a gain of such a start, as a share of a step of one whole.
const LEAST_RISE: f64 = 1e-6;
/// One new start in so many throws all pieces anywhere.
const SCATTERED: usize = 3;
/// Rounds in which all pieces must have found a place before an easier level is tried.
const PLACING_ROUNDS: u64 = 40;

/// The search for the best level.
pub struct Ladder<M> {
    measure: M,
    given: Layout,
    demands: Vec<Demand>,
    best: Best,
    stage: Stage,
    chance: Chance,
    rung: Option<Rung>,
    step: f64,
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
    /// Whether moving all pieces together leads no further.
    is_risen: bool,
}

enum Stage {
    /// Finding a place for every piece at a level, in so many more rounds.
    Placing {
        count: Box<Count>,
        level: f64,
        rounds_left: u64,
    },
    Trying(Engine),
    /// Moving all pieces together.
    Rising(Box<Together>),
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
        let mut ladder = Ladder {
            best: Best::new::<M>(count.best().clone(), level, false, Vec::new()),
            demands: demands(layout, Aim::Place),
            given: layout.clone(),
            stage: Stage::Placing { count: Box::new(count), level, rounds_left: PLACING_ROUNDS },
            chance: Chance::new(seed),
            rung: None,
            step: FIRST_STEP,
            tries: 0,
            idle: 0,
            ceiling: 0,
            measure,
        };
        ladder.best.layout.stickers = layout.stickers.clone();
        ladder.ceiling = ceiling(&ladder.best.layout);
        ladder.see_whether_whole();
        Ok(ladder)
    }

    /// Takes what the placing has come to; goes on to the steps if every piece has its place.
    fn see_whether_whole(&mut self) {
        let Stage::Placing { count, level, .. } = &self.stage else { return };
        let (level, is_whole) = (*level, count.has_all());
        let is_first = level == self.measure.first();
        let placed = count.best().pieces.clone();
        if !is_whole && (!is_first || placed == self.best.layout.pieces) {
            return;
        }
        let Some(frame) = self.measure.layout_at(level) else { return };
        let mut searched = Layout { pieces: placed, ..frame };
        let level = if is_whole { self.measure.reached(&searched, level) } else { level };
        if is_whole && let Some(frame) = self.measure.layout_at(level) {
            let pieces = searched.pieces;
            searched = Layout { pieces, ..frame };
        }
        let rung = self.rung_at(level, searched);
        let layout = self.measure.shown(&rung.layout);
        if is_sound(&layout) {
            let lies = rung.lies(&layout);
            self.best = Best::new::<M>(layout, level, is_whole, lies);
            self.ceiling = self.ceiling.max(ceiling(&self.best.layout));
            if is_whole {
                self.stage = Stage::Next;
            }
        }
        self.rung = Some(rung);
    }

    /// The rung of a layout, made from the last one where that saves work.
    fn rung_at(&mut self, level: f64, layout: Layout) -> Rung {
        match self.rung.take() {
            Some(rung) => rung.moved_to(level, layout),
            None => Rung::new(level, layout),
        }
    }

    fn place_on(&mut self, mut count: Box<Count>, level: f64, rounds_left: u64) {
        count.round();
        let easier = if rounds_left > 1 { None } else { self.measure.easier(level) };
        let next = easier.and_then(|level| {
            let layout = self.measure.layout_at(level)?;
            let seed = self.chance.below(1 << 30) as u64;
            let free = Layout { pieces: self.given.pieces.clone(), ..layout };
            Some((Count::new(&all_of_it(&free), Aim::Place, seed).ok()?, level))
        });
        let is_whole = count.has_all();
        self.stage = Stage::Placing { count, level, rounds_left: rounds_left.saturating_sub(1).max(1) };
        self.see_whether_whole();
        if let Some((count, level)) = next.filter(|_| !is_whole) {
            self.stage = Stage::Placing { count: Box::new(count), level, rounds_left: PLACING_ROUNDS };
            self.see_whether_whole();
        }
    }

    /// Begins the next attempt.
    fn next_try(&mut self, budget: &mut u64) -> Stage {
        *budget = budget.saturating_sub(1);
        if self.best.is_risen {
            return self.next_start(budget);
        }
        if self.tries >= TRIES {
            self.tries = 0;
            self.step = if self.step > LAST_STEP { self.step / 2.0 } else { FIRST_STEP / 4.0 };
        }
        if self.idle >= PATIENCE {
            return Stage::Done;
        }
        let from = self.best.level;
        let last = self.measure.last();
        let level = (from + self.step * self.measure.unit(from)).min(last);
        let layout = if level > from { self.measure.layout_at(level) } else { None };
        let Some(layout) = layout else {
            self.fail();
            return if from >= last { Stage::Done } else { Stage::Next };
        };
        let rung = self.rung_at(level, layout);
        let mut bodies = rung.bodies(&self.best.lies);
        let work = match self.tries {
            0 => 0,
            _ if self.idle % 12 == 11 => {
                scatter(&rung.ground, &mut bodies, &mut self.chance);
                0
            }
            _ => disturb(&rung.ground, &mut bodies, &mut self.chance),
        };
        *budget = budget.saturating_sub(work);
        let engine = Engine::new(&rung.ground, bodies);
        self.rung = Some(rung);
        Stage::Trying(engine)
    }

    /// Begins an attempt from another start, a little below the best level.
    fn next_start(&mut self, budget: &mut u64) -> Stage {
        let best = self.best.level;
        if self.idle >= LONG_PATIENCE || best >= self.measure.last() {
            return Stage::Done;
        }
        let unit = self.measure.unit(best);
        let back = |share: f64| (best - share * unit).max(0.0);
        // What is ready for such a level is used again: making it takes longer than an attempt.
        let level = match &self.rung {
            Some(rung) if (back(STEP_BACK.0)..=back(STEP_BACK.1)).contains(&rung.level) => rung.level,
            _ => back((STEP_BACK.0 * 2.0 + STEP_BACK.1) / 3.0),
        };
        let Some(layout) = self.measure.layout_at(level) else { return Stage::Done };
        let rung = match self.rung.take() {
            Some(rung) if rung.level == level => rung,
            rung => {
                self.rung = rung;
                self.rung_at(level, layout)
            }
        };
        let mut bodies = rung.bodies(&self.best.lies);
        if self.idle % SCATTERED == SCATTERED - 1 {
            scatter(&rung.ground, &mut bodies, &mut self.chance);
        } else {
            *budget = budget.saturating_sub(disturb(&rung.ground, &mut bodies, &mut self.chance));
        }
        let engine = Engine::new(&rung.ground, bodies);
        self.rung = Some(rung);
        Stage::Trying(engine)
    }

    /// What is searched for at a level, and how it grows.
    fn at(&self, level: f64) -> Option<At> {
        let frame = self.measure.layout_at(level)?;
        let layout = Layout { pieces: self.given.pieces.clone(), ..frame };
        Some(At { layout, growth: self.measure.growth(level)? })
    }

    /// Moves these places together, if that is known to lead on.
    fn rise_from(&self, level: f64, places: &[Place]) -> Option<Stage> {
        let at = self.at(level)?;
        Some(Stage::Rising(Box::new(Together::new(level, places, &at))))
    }

    fn rise_on(&mut self, mut together: Box<Together>, budget: &mut u64) -> Stage {
        if together.step(|level| self.at(level), budget) {
            return Stage::Rising(together);
        }
        let before = self.best.level;
        if let Some(at) = self.at(together.level).filter(|_| !together.places.is_empty()) {
            self.offer(together.level, &at.layout, &together.places);
        }
        // What is gained below the noise of rounding would let the search go on for ever.
        let gained = self.best.level - before > LEAST_RISE * self.measure.unit(before);
        self.idle = if gained { 0 } else { self.idle + 1 };
        self.tries = 0;
        self.best.is_risen = true;
        Stage::Next
    }

    fn fail(&mut self) {
        self.tries += 1;
        self.idle += 1;
    }

    fn try_on(&mut self, mut engine: Engine, budget: &mut u64) -> Stage {
        let Some(rung) = self.rung.take() else { return Stage::Next };
        let outcome = engine.work(&rung.ground, &mut self.chance, budget);
        if outcome == Outcome::Open {
            self.rung = Some(rung);
            return Stage::Trying(engine);
        }
        let is_solved = outcome == Outcome::Solved;
        let places = if is_solved { rung.places(engine.bodies()) } else { Vec::new() };
        let (level, layout) = (rung.level, rung.layout.clone());
        self.rung = Some(rung);
        if self.best.is_risen {
            self.idle += usize::from(!is_solved);
            return self.rise_from(level, &places).filter(|_| is_solved).unwrap_or(Stage::Next);
        }
        if is_solved && self.offer(level, &layout, &places) {
            (self.tries, self.idle) = (0, 0);
            self.step = (self.step * 1.5).min(FIRST_STEP);
        } else {
            self.fail();
        }
        if self.step < SMALL_STEP
            && let Some(rising) = self.rise_from_best()
        {
            return rising;
        }
        Stage::Next
    }

    fn rise_from_best(&self) -> Option<Stage> {
        let free = self.best.layout.pieces.iter().filter(|piece| !piece.locked);
        let places = free.filter_map(|piece| {
            let sticker = self.best.layout.sticker_index(&piece.sticker)?;
            Some(Place { sticker, placement: piece.placement })
        });
        self.rise_from(self.best.level, &places.collect::<Vec<_>>())
    }

    /// Shows the places if they keep every rule at their level, and it is better than the best so far.
    fn offer(&mut self, level: f64, layout: &Layout, places: &[Place]) -> bool {
        let frame = Layout { pieces: self.given.pieces.clone(), ..layout.clone() };
        let searched = assembled(&frame, places);
        let layout = self.measure.shown(&searched);
        if level <= self.best.level || !keeps_rules_in_full(&searched) || !keeps_rules_in_full(&layout) {
            return false;
        }
        // How pieces lie is where the next attempt starts; the size they were measured at matters little.
        let lies = self.rung.as_ref().map_or_else(Vec::new, |rung| rung.lies(&layout));
        let is_risen = self.best.is_risen;
        self.best = Best { is_risen, ..Best::new::<M>(layout, level, true, lies) };
        true
    }
}

impl Best {
    fn new<M: Measure>(layout: Layout, level: f64, is_whole: bool, lies: Vec<Lie>) -> Best {
        let lines = placed_cut_lines(&layout);
        let inked: f64 = lines.iter().map(|line| line.area()).sum::<f64>() + 0.0;
        let usable = usable_region(&layout.sheet, &layout.rules, layout.zones()).area();
        let gap = if M::TELLS_GAP { smallest_gap(&lines) } else { None };
        Best { density: inked / usable, gap, layout, level, is_whole, lies, is_risen: false }
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
                Stage::Trying(engine) => self.try_on(engine, &mut budget),
                Stage::Rising(together) => self.rise_on(together, &mut budget),
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
