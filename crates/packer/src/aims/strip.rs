//! Shorten, for stickers that lie in a few turns only: lower and lower sheets, each a tangle to be taken apart.
//!
//! Exploring, the sheet is lowered a little and the pieces that no longer have room are pushed in; if the tangle cannot be
//! taken apart, the least tangled arrangements seen at this height are kept, one of them is disturbed, and it is tried
//! again. Compressing, every try starts from the best sound arrangement. Whenever a tangle comes apart, all pieces move up
//! together as far as they can go.
//!
//! When neither has led any lower, another way down is tried: a part of the arrangement is thrown about, with more room,
//! and lowered from there. The better of the two ways is followed further.
//!
//! Source: the two phases and the swaps follow J. Gardeyn, G. Vanden Berghe, T. Wauters, "An open-source heuristic to
//! reboot 2D nesting research", arXiv 2509.13329, 2025; moving all pieces together is that of `linear`.

use kurbo::{Point, Rect};
use stickleaf_outline::Placement;
use stickleaf_sheet::{Layout, StickerId, ceiling, placed_cut_lines, usable_region};

use crate::aims::lowering::{Lowering, Phase};
use crate::aims::shorten::{lowest, up};
use crate::aims::{Course, ROUND_WORK, refuse_broken_rules};
use crate::answer::{Place, assembled, is_sound, keeps_rules_in_full, snapped};
use crate::goal::{Demand, counts, demands, missing, wanted, worth};
use crate::ground::{Ground, Kind};
use crate::pack::{Aim, Doing, PackError, Progress};
use crate::random::Chance;
use crate::rearrange::board::{Board, Prices, Spot};
use crate::rearrange::disturb::{repeat_pattern, swap_two, throw_about};
use crate::rearrange::linear::{Bounds, Goal, moved_together};
use crate::rearrange::setting::{Setting, fixed_turns};
use crate::rearrange::untangle::Untangle;
use crate::separate::Outcome;

/// A tangle that comes apart this little above the best height is worth moving up together.
const NEARLY: f64 = 0.003;
/// How much taller the sheet is on which another way down begins, and how much of it is thrown about, as shares of its
/// height.
const LEAST_MORE: f64 = 0.02;
const MOST_MORE: f64 = 0.08;
const LEAST_THROWN: f64 = 0.2;
const MOST_THROWN: f64 = 0.7;
/// What the look-up and the linear program may be off by, in millimetres.
const SLACK: f64 = 5e-7;
/// By how much touching pieces are kept apart in the end where that can be, in millimetres.
///
/// The first is more than rounding to the grid of answers takes away. The second serves where an outline lies turned by
/// an odd angle, whose corners no-fit polygons round to ten nanometres.
const BREATHS: [f64; 2] = [4e-7, 4e-5];
/// The most overlap that a shown layout may have by the look-up, in millimetres: next to nothing.
const OVERLAP: f64 = 2e-9;
/// Spots tried for a piece of the first arrangement, and how much taller the sheet is made if none is free.
const FIRST_TRIES: usize = 300;
const TALLER: f64 = 1.1;
/// How many first arrangements are made if none comes out sound to the last digit.
const MOST_STARTS: usize = 20;

/// The search for the lowest sheet.
pub struct Strip {
    given: Layout,
    demands: Vec<Demand>,
    setting: Setting,
    chance: Chance,
    /// What is shown.
    best: Layout,
    is_whole: bool,
    ceiling: usize,
    /// The way down that is followed at present.
    lowering: Lowering,
    /// The best one so far, while another is tried.
    aside: Option<Lowering>,
    is_done: bool,
    /// The width of a square piece with the pieces' mean area.
    size: f64,
    lowest: f64,
    /// First arrangements made so far.
    starts: usize,
}

/// Whether this search is for a layout: all its stickers lie in a few turns, in one of which each that is wanted fits
/// between the sides, and no round corner is in the way.
pub fn is_for(layout: &Layout, ground: &Ground) -> bool {
    let across = layout.sheet.width - 2.0 * layout.rules.margin + 1e-9;
    let fits_across = |kind: &Kind| {
        let flips: &[bool] = if kind.mirror { &[false, true] } else { &[false] };
        fixed_turns(&kind.turns).iter().any(|&degrees| {
            let placed = |&mirrored: &bool| {
                let placement = Placement { mirrored, ..Placement::turned(0.0, 0.0, degrees) };
                kind.shape.line.placed(&placement).bounds().width() <= across
            };
            flips.iter().any(placed)
        })
    };
    let mut stickers = layout.stickers.iter().zip(&ground.kinds);
    layout.sheet.corner_radius <= layout.rules.margin
        && stickers
            .all(|(sticker, kind)| !kind.turns_freely() && (sticker.wanted.least() == 0 || fits_across(kind)))
}

impl Strip {
    /// A search that starts from this layout.
    ///
    /// Errors: see [`PackError`].
    pub fn new(layout: &Layout, ground: &Ground, seed: u64) -> Result<Strip, PackError> {
        let demands = demands(layout, Aim::Shorten);
        if demands.iter().all(|demand| demand.most == Some(0)) {
            return Err(PackError::NothingToPlace);
        }
        let locked = assembled(layout, &[]);
        refuse_broken_rules(&locked)?;
        let setting = Setting::new(ground, &ground.held(layout), |_| Vec::new());
        let best = if is_sound(layout) { layout.clone() } else { locked };
        let area: f64 =
            demands.iter().zip(&ground.kinds).map(|(d, kind)| d.least as f64 * kind.shape.area).sum();
        let mut strip = Strip {
            ceiling: ceiling(&best),
            chance: Chance::new(seed),
            size: (area / wanted(&demands).max(1) as f64).sqrt(),
            lowest: lowest(layout),
            given: layout.clone(),
            demands,
            setting,
            is_whole: false,
            starts: 0,
            lowering: Lowering::new(None),
            aside: None,
            is_done: false,
            best,
        };
        if worth(&strip.demands, &counts(&strip.best)).wanted == wanted(&strip.demands) {
            let free = strip.best.pieces.iter().filter(|piece| !piece.locked).filter_map(|piece| {
                Some(strip.setting.spot(strip.given.sticker_index(&piece.sticker)?, &piece.placement))
            });
            let board = strip.board_of(strip.best.sheet.height, free.collect());
            strip.is_whole = true;
            strip.lower(board, &mut u64::MAX.clone());
        }
        Ok(strip)
    }

    fn board_of(&self, height: f64, free: Vec<Spot>) -> Board {
        let margin = self.given.rules.margin;
        let room = Rect::new(margin, margin, self.given.sheet.width - margin, height - margin);
        self.setting.board(room, self.given.rules.spacing, free)
    }

    /// The forms of the free pieces that are wanted, largest first.
    fn wanted_forms(&self) -> Vec<usize> {
        let (there, locked) = (counts(&self.given), counts(&assembled(&self.given, &[])));
        let mut forms: Vec<usize> = (0..self.demands.len())
            .flat_map(|kind| {
                vec![kind; self.demands[kind].least.max(there[kind]).saturating_sub(locked[kind])]
            })
            .collect();
        let area = |form: usize| self.setting.lies.list[self.setting.lies.of_form[form].start].bounds.area();
        forms.sort_by(|&a, &b| area(b).total_cmp(&area(a)).then(a.cmp(&b)));
        forms
    }

    /// A first arrangement: piece after piece to the highest of many free spots, the sheet made taller where there is none.
    fn start(&mut self, budget: &mut u64) {
        let lies = &self.setting.lies;
        let forms = self.wanted_forms();
        let tallest = forms.iter().map(|&form| {
            let heights = lies.of_form[form].clone().map(|lie| lies.list[lie].bounds.height());
            heights.fold(f64::INFINITY, f64::min)
        });
        let margins = 2.0 * self.given.rules.margin;
        let mut height = (self.lowest * 1.2).max(tallest.fold(0.0, f64::max) + margins);
        // What has no place yet is far away.
        let away = Point::new(1e7, 1e7);
        let mut free: Vec<Spot> =
            forms.iter().map(|&form| Spot { lie: lies.of_form[form].start, at: away }).collect();
        let mut board = self.board_of(height, free.clone());
        let ones = vec![1.0f32; board.spots.len()];
        for index in 0..free.len() {
            let of_form = lies.of_form[forms[index]].clone();
            loop {
                let mut looked = 0;
                let mut prices = Prices { weights: &ones, looked: &mut looked };
                let mut best: Option<(f64, Spot)> = None;
                for _ in 0..FIRST_TRIES {
                    let lie = of_form.start + self.chance.below(of_form.len());
                    if !board.fits(lies, lie) {
                        continue;
                    }
                    let range = board.range(lies, lie);
                    let x = self.chance.between(range.x0, range.x1);
                    let y = self.chance.between(range.y0, range.y1);
                    let spot = Spot { lie, at: Point::new(x, y) };
                    let bottom = lies.bounds(spot).y1;
                    if best.is_none_or(|(lowest, _)| bottom < lowest)
                        && board.cost(lies, index, spot, &mut prices, 1e-9) == 0.0
                    {
                        best = Some((bottom, spot));
                    }
                }
                *budget = budget.saturating_sub(looked);
                if let Some((_, spot)) = best {
                    free[index] = self.slid(&board, index, spot, &ones);
                    board.put(&self.setting.lies, index, free[index]);
                    break;
                }
                if height > 1e5 {
                    // Wider than the sheet in every turn.
                    self.is_done = true;
                    return;
                }
                height *= TALLER;
                board = self.board_of(height, free.clone());
            }
        }
        self.lower(board, budget);
        self.starts += 1;
        self.is_done = self.lowering.board.is_none() && self.starts == MOST_STARTS;
    }

    /// The spot slid up and to the left until something is in the way.
    fn slid(&self, board: &Board, index: usize, mut spot: Spot, ones: &[f32]) -> Spot {
        let lies = &self.setting.lies;
        for _ in 0..3 {
            for direction in [(0.0, -1.0), (-1.0, 0.0)] {
                let mut step = self.size;
                while step > self.size * 1e-4 {
                    let at = Point::new(spot.at.x + direction.0 * step, spot.at.y + direction.1 * step);
                    let moved = board.inside(lies, Spot { at, ..spot });
                    let mut prices = Prices { weights: ones, looked: &mut 0 };
                    if moved != spot && board.cost(lies, index, moved, &mut prices, 1e-9) == 0.0 {
                        spot = moved;
                    } else {
                        step /= 2.0;
                    }
                }
            }
        }
        spot
    }

    /// Moves the pieces of a sound board up together as far as they can go, and shows them if that is lower than the best.
    fn lower(&mut self, mut board: Board, budget: &mut u64) -> bool {
        let lies = &self.setting.lies;
        let mut height = board.lowest_point(lies);
        for (turn, share) in [0.3, 0.1, 0.1, 0.1, 0.1, 0.1].into_iter().enumerate() {
            let mut next = board.clone();
            let bounds = Bounds { furthest: self.size * share, extra: 0.0 };
            let lacking = moved_together(lies, &mut next, Goal::Lower, bounds, budget);
            if lacking.is_none_or(|lacking| lacking > SLACK) || next.most_lacking(lies) > SLACK {
                break;
            }
            let gain = height - next.lowest_point(lies);
            if gain > 0.0 {
                height -= gain;
                board = next;
            }
            if turn > 0 && gain < 1e-6 * height {
                break;
            }
        }
        BREATHS.into_iter().any(|breath| self.show(&self.hardened(&board, breath, budget)))
    }

    /// The same a breath further apart, so that rounding leaves no overlap however small. Pieces that fit so exactly that
    /// there is no breath left between them stay as they are: exact fits are on the grid of answers.
    fn hardened(&self, board: &Board, breath: f64, budget: &mut u64) -> Board {
        let lies = &self.setting.lies;
        let mut next = board.clone();
        let bounds = Bounds { furthest: self.size * 0.01, extra: breath };
        let lacking = moved_together(lies, &mut next, Goal::Lower, bounds, budget);
        if lacking.is_some() && next.most_lacking(lies) <= OVERLAP { next } else { board.clone() }
    }

    /// Takes a sound board if it is lower than what this way down has come to, and shows it if it is the lowest of all.
    fn show(&mut self, board: &Board) -> bool {
        let margin = self.given.rules.margin;
        // A nanometre for places that are rounded downwards.
        let height = up((board.lowest_point(&self.setting.lies) + margin + 1e-6).max(self.lowest));
        if height >= self.lowering.height {
            return false;
        }
        // As an answer is rounded.
        let free: Vec<Spot> =
            self.places(board).iter().map(|p| self.setting.spot(p.sticker, &p.placement)).collect();
        let rounded = self.board_of(height, free);
        let layout = self.layout_of(board, height);
        if rounded.most_lacking(&self.setting.lies) > OVERLAP || !keeps_rules_in_full(&layout) {
            return false;
        }
        self.lowering.reach(rounded, height);
        if !self.is_whole || height < self.best.sheet.height {
            self.best = layout;
            self.is_whole = true;
            self.ceiling = self.ceiling.max(self.best.pieces.len());
        }
        true
    }

    /// The places of the free pieces of a board, rounded as answers are.
    fn places(&self, board: &Board) -> Vec<Place> {
        let place = |spot: &Spot| {
            let (index, placement) = self.setting.placement(*spot);
            let sticker = &self.given.stickers[index];
            Place { sticker: index, placement: snapped(&placement, &sticker.turns, sticker.mirror) }
        };
        board.spots[..board.free].iter().map(place).collect()
    }

    fn layout_of(&self, board: &Board, height: f64) -> Layout {
        let mut layout = assembled(&self.given, &self.places(board));
        layout.sheet.height = height;
        layout
    }

    /// Begins the next attempt.
    fn begin(&mut self) {
        let Some(best) = &self.lowering.board else { return };
        let margin = self.given.rules.margin;
        let height = (self.lowering.height * (1.0 - self.lowering.step)).max(self.lowest);
        if height >= self.lowering.height {
            self.is_done = true;
            return;
        }
        let bottom = height - margin;
        let is_kept = self.lowering.phase == Phase::Exploring && !self.lowering.kept.is_empty();
        let mut free = best.spots[..best.free].to_vec();
        if is_kept {
            free.copy_from_slice(self.lowering.draw_kept(&mut self.chance));
        } else {
            let cut = self.chance.between(0.0, best.room.y1);
            for spot in free.iter_mut().filter(|spot| spot.at.y > cut) {
                spot.at.y -= best.room.y1 - bottom;
            }
        }
        let mut board = self.board_of(height, free);
        if is_kept {
            let (lies, chance) = (&self.setting.lies, &mut self.chance);
            let repeats = chance.below(2) == 0 && repeat_pattern(lies, &mut board, chance);
            if !repeats {
                swap_two(lies, &mut board, chance);
            }
        }
        for index in 0..board.free {
            let inside = board.inside(&self.setting.lies, board.spots[index]);
            board.put(&self.setting.lies, index, inside);
        }
        let patience = self.lowering.phase.patience();
        self.lowering.attempt = Some(Box::new(Untangle::new(&self.setting.lies, board, patience)));
    }

    /// Whether the least tangled arrangement of an attempt comes apart at a height below the best, all pieces moving.
    fn mend(&mut self, attempt: &Untangle, budget: &mut u64) -> bool {
        let lies = &self.setting.lies;
        let mut board = attempt.board.clone();
        board.put_all(lies, attempt.best().0);
        let mut last = f64::INFINITY;
        for share in [0.3, 0.3, 0.1, 0.1, 0.1, 0.1] {
            let bounds = Bounds { furthest: self.size * share, extra: 0.0 };
            let Some(lacking) = moved_together(lies, &mut board, Goal::Lower, bounds, budget) else {
                return false;
            };
            if lacking <= SLACK && board.most_lacking(lies) <= SLACK {
                let height = board.lowest_point(lies) + self.given.rules.margin;
                return height < self.lowering.height * (1.0 + NEARLY) && self.lower(board, budget);
            }
            if lacking > last * 0.9 {
                return false;
            }
            last = lacking;
        }
        false
    }

    fn work(&mut self, budget: &mut u64) {
        let Some(mut attempt) = self.lowering.attempt.take() else { return self.begin() };
        match attempt.pass(&self.setting.lies, &mut self.chance, budget) {
            Outcome::Open if attempt.has_returned && self.mend(&attempt, budget) => self.lowering.succeed(),
            Outcome::Open => self.lowering.attempt = Some(attempt),
            Outcome::Solved => {
                let board = attempt.board.clone();
                if self.lower(board, budget) { self.lowering.succeed() } else { self.fail(&attempt) }
            }
            Outcome::Failed if self.mend(&attempt, budget) => self.lowering.succeed(),
            Outcome::Failed => self.fail(&attempt),
        }
    }

    fn fail(&mut self, attempt: &Untangle) {
        if self.lowering.board.is_none() {
            self.lowering = self.another_way();
        } else if self.lowering.fail(attempt) {
            match self.aside.take() {
                Some(aside) if aside.height <= self.lowering.height => self.lowering = aside,
                Some(_) => {}
                None => {
                    let other = self.another_way();
                    self.aside = Some(std::mem::replace(&mut self.lowering, other));
                }
            }
        }
    }

    /// A way down that begins with the best arrangement, a part of it thrown about, on a taller sheet.
    fn another_way(&mut self) -> Lowering {
        let best = self.aside.as_ref().unwrap_or(&self.lowering);
        let Some(board) = &best.board else { return Lowering::new(None) };
        let height = best.height * (1.0 + self.chance.between(LEAST_MORE, MOST_MORE));
        let mut board = self.board_of(height, board.spots[..board.free].to_vec());
        let reach = board.room.height() * self.chance.between(LEAST_THROWN, MOST_THROWN) / 2.0;
        let middle = self.chance.between(board.room.y0, board.room.y1);
        throw_about(&self.setting.lies, &mut board, middle - reach..middle + reach, &mut self.chance);
        let untangle = Untangle::new(&self.setting.lies, board, Phase::Exploring.patience());
        Lowering::new(Some(Box::new(untangle)))
    }
}

impl Course for Strip {
    fn round(&mut self) {
        let mut budget = ROUND_WORK;
        while budget > 0 && !self.is_done {
            budget -= 1;
            if self.lowering.has_begun() { self.work(&mut budget) } else { self.start(&mut budget) }
        }
    }

    fn progress(&self) -> Progress {
        let inked: f64 = placed_cut_lines(&self.best).iter().map(|line| line.area()).sum::<f64>() + 0.0;
        let usable = usable_region(&self.best.sheet, &self.best.rules, self.best.zones()).area();
        Progress {
            round: 0,
            placed: self.best.pieces.len(),
            wanted: wanted(&self.demands),
            ceiling: self.ceiling,
            density: inked / usable,
            height: self.best.sheet.height,
            scale: 1.0,
            gap: None,
            doing: if self.is_whole { Doing::Lowering } else { Doing::Placing },
            finished: self.is_done,
        }
    }

    fn best(&self) -> &Layout {
        &self.best
    }

    fn missing(&self) -> Vec<(StickerId, usize)> {
        missing(&self.best, &self.demands)
    }
}
