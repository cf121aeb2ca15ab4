//! The search itself, cut into rounds.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, Turn, gap_within};
use stickleaf_sheet::{
    Layout, LengthUnit, StickerId, Turns, ceiling, check_pieces, placed_cut_lines, usable_region,
};

use crate::answer::{Place, assembled, is_sound, snapped};
use crate::goal::{Demand, counts, demands, missing, worth};
use crate::pack::{Aim, Doing, PackError, PackOptions, Progress};
use crate::random::Chance;

/// Spots tried in a round.
const SPOTS: usize = 300;

/// A search for the best layout, one round at a time. It owns its data and can be sent to another thread.
pub struct Search {
    aim: Aim,
    best: Layout,
    demands: Vec<Demand>,
    chance: Chance,
    usable_area: f64,
    round: u64,
    doing: Doing,
    ceiling: usize,
}

impl Search {
    /// A search that starts from this layout.
    ///
    /// Errors: see [`PackError`].
    pub fn new(layout: &Layout, options: &PackOptions) -> Result<Search, PackError> {
        layout.validate()?;
        let demands = demands(layout, options.aim);
        if demands.iter().all(|demand| demand.most == Some(0)) {
            return Err(PackError::NothingToPlace);
        }
        let locked = assembled(layout, &[]);
        if let Some(finding) = check_pieces(&locked, &placed_cut_lines(&locked)).first() {
            return Err(PackError::LockedPiecesBreakRules {
                sentence: finding.sentence(&locked, LengthUnit::Millimetres),
            });
        }
        let best = if is_sound(layout) { layout.clone() } else { locked };
        Ok(Search {
            aim: options.aim,
            demands,
            chance: Chance::new(options.seed),
            usable_area: usable_region(&layout.sheet, &layout.rules, layout.zones()).area(),
            round: 0,
            doing: Doing::Starting,
            ceiling: ceiling(&best),
            best,
        })
    }

    /// Works for some milliseconds and says how far the search is.
    ///
    /// The work of a round is counted, not timed, so the answer after so many rounds is always the same.
    pub fn round(&mut self) -> Progress {
        self.round += 1;
        if self.progress().finished {
            return self.progress();
        }
        self.doing = Doing::Placing;
        let mut lines = placed_cut_lines(&self.best);
        for _ in 0..SPOTS {
            let counts = counts(&self.best);
            let lacking = (0..counts.len()).filter(|&i| counts[i] < self.demands[i].least);
            let welcome =
                (0..counts.len()).filter(|&i| self.demands[i].most.is_none_or(|most| counts[i] < most));
            let area = |i: usize| self.best.stickers[i].cut_line(&self.best.rules).area();
            let next = lacking.max_by(|&a, &b| area(a).total_cmp(&area(b)));
            let Some(sticker) = next.or_else(|| welcome.min_by(|&a, &b| area(a).total_cmp(&area(b)))) else {
                break;
            };
            if let Some((place, line)) = self.try_spot(sticker, &lines) {
                self.best = with_place(&self.best, place);
                lines.push(line);
            }
        }
        self.ceiling = ceiling(&self.best);
        self.progress()
    }

    fn try_spot(&mut self, sticker: usize, lines: &[Outline]) -> Option<(Place, Outline)> {
        let layout = &self.best;
        let at = Point::new(
            self.chance.between(0.0, layout.sheet.width),
            self.chance.between(0.0, layout.sheet.height),
        );
        let turn = match &layout.stickers[sticker].turns {
            Turns::None => Turn::NONE,
            Turns::Any => Turn::degrees(self.chance.between(0.0, 360.0)),
            Turns::Within(degrees) => Turn::degrees(self.chance.between(-degrees, *degrees)),
            Turns::Only(list) if list.is_empty() => Turn::NONE,
            Turns::Only(list) => Turn::degrees(list[self.chance.below(list.len())]),
        };
        let placement = snapped(&Placement { at, turn, mirrored: false }, &layout.stickers[sticker]);
        let line = layout.stickers[sticker].cut_line(&layout.rules).placed(&placement);
        let inside = |point: &Point| layout.sheet.distance_to_edge(*point) >= layout.rules.margin;
        let free = line.points().iter().all(inside)
            && layout.zones().iter().all(|zone| gap_within(&line, &zone.outline, zone.clearance).is_none())
            && lines.iter().all(|other| gap_within(&line, other, layout.rules.spacing).is_none());
        let place = Place { sticker, placement };
        (free && is_sound(&with_place(layout, place))).then_some((place, line))
    }

    /// How far the search is.
    pub fn progress(&self) -> Progress {
        let counts = counts(&self.best);
        let worth = worth(&self.demands, &counts);
        let wanted = self.demands.iter().map(|demand| demand.least).sum();
        let inked: f64 = counts
            .iter()
            .zip(&self.best.stickers)
            .map(|(&count, sticker)| count as f64 * sticker.cut_line(&self.best.rules).area())
            .sum();
        Progress {
            round: self.round,
            placed: worth.placed,
            wanted,
            ceiling: self.ceiling,
            density: inked / self.usable_area,
            doing: self.doing,
            finished: (self.aim == Aim::Place && worth.wanted == wanted)
                || (worth.wanted == wanted && worth.placed >= self.ceiling),
        }
    }

    /// The best layout so far. It keeps every hard rule.
    pub fn best(&self) -> Layout {
        self.best.clone()
    }

    /// Stickers of which wanted copies have found no place yet, and how many.
    pub fn missing(&self) -> Vec<(StickerId, usize)> {
        missing(&self.best, &self.demands)
    }
}

fn with_place(layout: &Layout, place: Place) -> Layout {
    let mut layout = layout.clone();
    let id = layout.stickers[place.sticker].id.clone();
    layout.pieces.push(stickleaf_sheet::Piece::new(id, place.placement));
    layout
}
