//! The last step to a size or a gap: all pieces moved at once, by linear programs at the true cut lines.
//!
//! About where the pieces lie, what is missing at each contact is nearly linear in the moves, the turns and the level, so
//! the highest level within reach is that of a linear program; where it leads is measured and the level lowered by what
//! is missing there. A reach that leads nowhere is made smaller (a *sequential linear program* with a *trust region*, R.
//! Fletcher, "Practical Methods of Optimization", 1987, chapter 12). For convex pieces that do not turn, the distance is
//! convex in all of these, so the program never asks too little.

mod measured;

use kurbo::{Point, Vec2};
use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions, Variable};
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{Layout, Turns};

use crate::answer::{Place, snapped};
use crate::build::NOISE;
use measured::{Scene, Touch};

/// By how much everything grows for a level higher by one.
pub struct Growth {
    /// The size of each sticker, as a share of the size it has.
    pub sizes: Vec<f64>,
    /// The spacing, in millimetres.
    pub spacing: f64,
    /// The margin, in millimetres.
    pub margin: f64,
    /// The clearance of each zone, in millimetres.
    pub clearances: Vec<f64>,
}

/// What is searched for at a level, and how it changes there.
pub struct At {
    /// The layout with its rules, sheet and stickers; its locked pieces stay.
    pub layout: Layout,
    /// Its growth.
    pub growth: Growth,
}

/// Free pieces on the way to the highest level that is near.
pub struct Together {
    /// The level reached: nothing is missing there.
    pub level: f64,
    /// Where the free pieces lie at that level, rounded as answers are; nothing before the first step.
    pub places: Vec<Place>,
    lies: Vec<Lying>,
    reach: f64,
    steps_left: usize,
}

/// A free piece, told by the middle of the box round its cut line, which stays in place while its size changes.
#[derive(Clone, Copy, Debug)]
struct Lying {
    sticker: usize,
    middle: Point,
    degrees: f64,
    mirrored: bool,
}

/// The first reach, as a share of the mean width of a piece, and the last, in millimetres.
const FIRST_REACH: f64 = 0.05;
const LAST_REACH: f64 = 1e-6;
/// A gain promised below this, in millimetres, ends the work.
const LEAST_GAIN: f64 = 1e-7;
const MOST_STEPS: usize = 40;
/// The level is lowered so often for what is missing after a move.
const CORRECTIONS: usize = 6;
/// Inequalities are kept to this, in millimetres.
const FEASIBLE: f64 = 1e-9;
/// What an inequality counts for, in points looked up: as in `rearrange::linear`.
const WORK_OF_INEQUALITY: u64 = 120;

impl Together {
    /// Starts from these places at a level, which may miss a little there.
    pub fn new(level: f64, places: &[Place], at: &At) -> Together {
        let lies: Vec<Lying> = places
            .iter()
            .map(|place| {
                let line = at.layout.stickers[place.sticker].cut_line(&at.layout.rules);
                Lying {
                    sticker: place.sticker,
                    middle: place.placement.apply(line.bounds().center()),
                    degrees: place.placement.turn.to_degrees(),
                    mirrored: place.placement.mirrored,
                }
            })
            .collect();
        let width = |lying: &Lying| {
            let sticker = &at.layout.stickers[lying.sticker];
            sticker.cut_line(&at.layout.rules).bounds().size().to_vec2().hypot2().sqrt()
        };
        let mean = lies.iter().map(width).sum::<f64>() / lies.len().max(1) as f64;
        Together { level, places: Vec::new(), lies, reach: mean * FIRST_REACH, steps_left: MOST_STEPS }
    }

    /// Moves everything once; whether there may be more to gain. `layout_at` tells what is searched for at a level.
    ///
    /// Takes a measure of the work off the budget.
    pub fn step(&mut self, layout_at: impl Fn(f64) -> Option<At>, budget: &mut u64) -> bool {
        if self.steps_left == 0 || self.reach < LAST_REACH {
            return false;
        }
        self.steps_left -= 1;
        let Some(at) = layout_at(self.level) else { return false };
        let scene = Scene::new(&at.layout, &places_of(&self.lies, &at.layout));
        let mut touches = Vec::new();
        *budget = budget.saturating_sub(scene.touches(&at, self.reach * 7.0, &mut touches));
        *budget = budget.saturating_sub(touches.len() as u64 * WORK_OF_INEQUALITY);
        let Some((rise, moved)) = self.moved(&scene, &touches, &at.layout) else { return false };
        let steepest = steepest(&touches);
        if rise * steepest < LEAST_GAIN && !self.places.is_empty() {
            return false;
        }
        let wished = self.level + rise;
        let floor = if self.places.is_empty() { f64::NEG_INFINITY } else { self.level };
        match settled(&moved, wished, floor, steepest, &layout_at, budget) {
            Some((level, places)) => {
                let gained = level - self.level;
                (self.level, self.places, self.lies) = (level, places, moved);
                if gained < rise - 0.7 * rise.abs() {
                    self.reach /= 3.0;
                }
            }
            None => self.reach /= 4.0,
        }
        true
    }

    /// The highest rise of the level within reach, and where the pieces lie then.
    fn moved(&self, scene: &Scene, touches: &[Touch], layout: &Layout) -> Option<(f64, Vec<Lying>)> {
        let reach = self.reach;
        let steepest = steepest(touches);
        let mut problem = Problem::new(OptimizationDirection::Maximize);
        let most = 2.0 * reach / steepest;
        let rise = problem.add_var(1.0, (-most, most));
        let moves: Vec<(Variable, Variable, Option<Variable>)> = self
            .lies
            .iter()
            .enumerate()
            .map(|(index, lying)| {
                let mut shift = || problem.add_var(0.0, (-reach, reach));
                let (x, y) = (shift(), shift());
                let turn = turn_range(&layout.stickers[lying.sticker].turns, lying.degrees);
                let turn = turn.filter(|_| !scene.items[index].is_round).map(|(low, high)| {
                    let size = scene.items[index].size;
                    problem.add_var(0.0, ((low * size).max(-reach), (high * size).min(reach)))
                });
                (x, y, turn)
            })
            .collect();
        let mut terms: Vec<(Variable, f64)> = Vec::new();
        for touch in touches {
            terms.clear();
            terms.push((rise, -touch.rate));
            let ends = [(Some(touch.a), 1.0, touch.lever_a), (touch.b, -1.0, touch.lever_b)];
            for (index, sign, lever) in ends {
                let Some(&(x, y, turn)) = index.and_then(|index| moves.get(index)) else { continue };
                terms.extend([(x, sign * touch.normal.x), (y, sign * touch.normal.y)]);
                let size = scene.items[index.unwrap_or(0)].size;
                terms.extend(turn.map(|turn| (turn, sign * lever / size)));
            }
            problem.add_constraint(&terms, ComparisonOp::Ge, touch.depth);
        }
        let mut options = SolveOptions::default();
        options.tolerances.feasibility = FEASIBLE;
        let solution = problem.solve_with(options).ok()?.into_solution().ok()?;
        let value = |variable: Variable| solution.var_value(variable);
        let lies = self.lies.iter().zip(&moves).enumerate().map(|(index, (lying, &(x, y, turn)))| {
            let radians = turn.map_or(0.0, value) / scene.items[index].size;
            Lying {
                middle: lying.middle + Vec2::new(value(x), value(y)),
                degrees: lying.degrees + radians.to_degrees(),
                ..*lying
            }
        });
        Some((value(rise), lies.collect()))
    }
}

/// The highest level up to `wished` at which pieces that lie like this miss nothing, and their places; nothing if it is
/// not above `floor`.
fn settled(
    lies: &[Lying],
    wished: f64,
    floor: f64,
    steepest: f64,
    layout_at: impl Fn(f64) -> Option<At>,
    budget: &mut u64,
) -> Option<(f64, Vec<Place>)> {
    let mut level = wished;
    let mut touches = Vec::new();
    for correction in 0..CORRECTIONS {
        let at = layout_at(level)?;
        let places = places_of(lies, &at.layout);
        *budget = budget.saturating_sub(Scene::new(&at.layout, &places).touches(&at, 0.0, &mut touches));
        let missing = touches.iter().filter(|touch| touch.depth > NOISE / 2.0);
        let lower = missing.map(|touch| touch.depth / touch.rate.max(1e-6 * steepest)).fold(0.0, f64::max);
        if lower == 0.0 {
            return Some((level, places));
        }
        // Corners lie on a grid, so what is missing jumps a little with the size.
        level -= lower + correction as f64 * NOISE / steepest;
        if level <= floor {
            return None;
        }
    }
    None
}

/// The most that a contact misses for a level higher by one.
fn steepest(touches: &[Touch]) -> f64 {
    touches.iter().map(|touch| touch.rate).fold(1e-3, f64::max)
}

/// The places of pieces that lie like this, rounded as answers are.
fn places_of(lies: &[Lying], layout: &Layout) -> Vec<Place> {
    let place = |lying: &Lying| {
        let sticker = &layout.stickers[lying.sticker];
        let turn = Turn::degrees(lying.degrees);
        let mut placement = Placement { at: Point::ZERO, turn, mirrored: lying.mirrored };
        placement = snapped(&placement, &sticker.turns, sticker.mirror);
        let middle = sticker.cut_line(&layout.rules).bounds().center();
        placement.at = (lying.middle - placement.apply(middle)).to_point();
        Place { sticker: lying.sticker, placement: snapped(&placement, &sticker.turns, sticker.mirror) }
    };
    lies.iter().map(place).collect()
}

/// How far a piece may still turn either way, in radians; nothing if it does not turn freely.
fn turn_range(turns: &Turns, degrees: f64) -> Option<(f64, f64)> {
    match turns {
        Turns::Any => Some((-1.0, 1.0)),
        Turns::Within(most) => {
            let signed = Turn::degrees(degrees).to_signed_degrees();
            let (low, high) = ((-most - signed).to_radians(), (most - signed).to_radians());
            (low < high).then_some((low.min(0.0), high.max(0.0)))
        }
        Turns::None | Turns::Only(_) => None,
    }
}
