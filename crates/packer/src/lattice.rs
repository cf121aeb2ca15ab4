//! Rows of one sticker at even steps: what is best, or near it, when many copies of one shape fill a sheet.
//!
//! Every second row may be shifted, and turned by half a turn where that is allowed (a *double lattice*). Steps are the
//! least that keep the spacing at the true lines, or stretched so that a row just fills the sheet, which lets shifted
//! rows move closer. Some of the last rows may stand straight above each other instead. Rows run across and down.

use kurbo::{Rect, Vec2};
use stickleaf_outline::{Outline, Placement, Turn, gap_within};

use crate::answer::PARTS;
use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::overlap::{are_apart, deepest};

/// What a lattice is made of.
struct Pattern {
    /// The piece of the first, third … row at the origin, and its turn.
    first: Row,
    /// The piece of the second, fourth … row, shifted along the row.
    second: Row,
    /// From piece to piece along a row.
    step: f64,
    /// From a first row to a second, to the next first, from first to first, from second to second.
    rises: [f64; 4],
    /// Whether rows run down the sheet instead of across.
    columns: bool,
}

struct Row {
    degrees: f64,
    bounds: Rect,
    shift: f64,
}

/// How far above the exact step a computed one may be, in millimetres, and how many approaches are made at most.
const APPROACH: f64 = 0.000_2;
const ROUGH_APPROACH: f64 = 0.02;
/// The longest approach in one go, in millimetres.
const STRIDE: f64 = 1.0;
const MOST_APPROACHES: usize = 80;
/// Shifts of the second row tried for shapes that are not round, as parts of a step.
const SHIFTS: u32 = 8;
/// Layouts that come back.
const KEPT: usize = 4;

/// The fullest lattices of a kind on the empty sheet with its first piece turned like this, found part by part.
///
/// Pieces keep the spacing among themselves and the margin of straight sides; zones, locked pieces and round corners are
/// not looked at.
pub struct Lattices {
    kind: usize,
    degrees: f64,
    /// What is still to be measured roughly: whether rows run down, and the turn of second rows.
    parts: Vec<(bool, f64)>,
    /// Patterns and how many pieces they hold by the rough measure.
    rough: Vec<(usize, Pattern)>,
    /// How many of them have been measured at the true lines.
    measured: usize,
    found: Vec<Vec<Placement>>,
}

impl Lattices {
    /// Nothing found yet.
    pub fn new(ground: &Ground, kind: usize, degrees: f64) -> Lattices {
        let turns = second_turns(ground, kind, degrees);
        let mut parts: Vec<(bool, f64)> = [false, true]
            .iter()
            .flat_map(|&columns| turns.iter().map(move |&turn| (columns, turn)))
            .collect();
        parts.reverse();
        Lattices { kind, degrees, parts, rough: Vec::new(), measured: 0, found: Vec::new() }
    }

    /// Works a little on it; the lattices, fullest first, once there is nothing left to do. Also returns what that cost,
    /// in points looked up.
    ///
    /// Cost: some dozen patterns are measured roughly, or one at the true lines: some milliseconds, thirty with the most
    /// intricate shapes.
    pub fn step(&mut self, ground: &Ground) -> (Option<Vec<Vec<Placement>>>, u64) {
        let shape = &ground.kinds[self.kind].shape;
        if let Some((columns, turn)) = self.parts.pop() {
            let patterns = patterns(ground, self.kind, (self.degrees, turn), columns);
            let work = patterns.len() * shape.samples.len() * ROUGH_WORK;
            for pattern in patterns {
                let count = (0..=MOST_ALTERNATING).map(|rows| filled(ground, &pattern, rows).len()).max();
                self.rough.push((count.unwrap_or(0), pattern));
            }
            if self.parts.is_empty() {
                self.rough.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
                self.rough.truncate(MEASURED);
            }
            return (None, work as u64);
        }
        if let Some((_, pattern)) = self.rough.get_mut(self.measured) {
            self.measured += 1;
            measure(ground, self.kind, pattern);
            for straight_from in 0..=MOST_ALTERNATING {
                let places = filled(ground, pattern, straight_from);
                if self.found.iter().all(|other| other.len() != places.len()) {
                    self.found.push(places);
                }
            }
            return (None, (shape.corners.len() * TRUE_WORK) as u64);
        }
        self.found.sort_by_key(|places| std::cmp::Reverse(places.len()));
        self.found.truncate(KEPT);
        (Some(std::mem::take(&mut self.found)), 1)
    }
}

/// Numbers of alternating rows tried before rows stand straight above each other.
const MOST_ALTERNATING: usize = 40;
/// What it costs to measure a pattern, in points looked up: roughly for each sample of the shape, and at the true lines
/// for each corner.
const ROUGH_WORK: usize = 16;
const TRUE_WORK: usize = 80;
/// Patterns whose steps are measured at the true lines.
const MEASURED: usize = 8;

/// How second rows may be turned, in degrees.
fn second_turns(ground: &Ground, kind: usize, degrees: f64) -> Vec<f64> {
    let half = degrees + 180.0;
    let Kind { shape, turns, .. } = &ground.kinds[kind];
    if !shape.is_round && turns.allow(Turn::degrees(half)) { vec![degrees, half] } else { vec![degrees] }
}

/// The patterns with rows across or down, for a first and a second turn in degrees.
fn patterns(
    ground: &Ground,
    kind: usize,
    (degrees, second_degrees): (f64, f64),
    columns: bool,
) -> Vec<Pattern> {
    let shape = &ground.kinds[kind].shape;
    let line = placed(ground, kind, degrees);
    let along = axis(columns);
    let inner = ground.inner();
    let room = length(inner, columns) - length(line.bounds(), columns);
    if room < -1e-6 || length(inner, !columns) - length(line.bounds(), !columns) < -1e-6 {
        return Vec::new();
    }
    let least = up(clear_step(&line, &line, Vec2::ZERO, along, ground.spacing));
    let shifts: Vec<f64> = if shape.is_round {
        vec![0.5]
    } else {
        (0..SHIFTS).map(|part| f64::from(part) / f64::from(SHIFTS)).collect()
    };
    let body = |degrees: f64| Body::new(ground, kind, &Placement::turned(0.0, 0.0, degrees), false);
    let first = body(degrees);
    let second = body(second_degrees);
    let second_bounds = placed(ground, kind, second_degrees).bounds();
    let mut list = Vec::new();
    for step in steps(room, least) {
        for &share in &shifts {
            let mut pattern = Pattern {
                first: Row { degrees, bounds: line.bounds(), shift: 0.0 },
                second: Row { degrees: second_degrees, bounds: second_bounds, shift: up(share * step) },
                step,
                rises: [0.0; 4],
                columns,
            };
            pattern.rises = rises(&pattern, |from_second, to_second, base, across| {
                let of = |is_second: bool| if is_second { &second } else { &first };
                rough_clear_step(ground, of(from_second), of(to_second), base, across)
            });
            list.push(pattern);
        }
    }
    list
}

/// The least step, and steps that fill the row exactly with rows of one length, or of two that differ by half a step.
fn steps(room: f64, least: f64) -> Vec<f64> {
    let most = ((room + 1e-6) / least).floor();
    let mut list = vec![least];
    for count in [most, most - 1.0] {
        if count >= 1.0 {
            list.extend([down(room / count), down(room / (count + 0.5))]);
        }
    }
    list.retain(|&step| step >= least);
    list
}

/// The four rises of a pattern: each clears every piece of the row below that could be in the way.
///
/// `clear` is asked how far a piece must go across, from a base, to clear another: whether each of the two is of a
/// second row, the base, and the direction across.
fn rises(pattern: &Pattern, clear: impl Fn(bool, bool, Vec2, Vec2) -> f64) -> [f64; 4] {
    let (along, across) = (axis(pattern.columns), axis(!pattern.columns));
    let shift = pattern.second.shift;
    let rise = |from: bool, to: bool, shift: f64| {
        let from_base = |m: i32| clear(from, to, along * (shift + f64::from(m) * pattern.step), across);
        (-3..=3).map(from_base).fold(0.0, f64::max)
    };
    [rise(false, true, shift), rise(true, false, -shift), rise(false, false, 0.0), rise(true, true, 0.0)]
        .map(up)
}

/// Brings the rises of a pattern from rough to true.
fn measure(ground: &Ground, kind: usize, pattern: &mut Pattern) {
    let first = placed(ground, kind, pattern.first.degrees);
    let second = placed(ground, kind, pattern.second.degrees);
    pattern.rises = rises(pattern, |from_second, to_second, base, across| {
        let of = |is_second: bool| if is_second { &second } else { &first };
        clear_step(of(from_second), of(to_second), base, across, ground.spacing)
    });
}

fn placed(ground: &Ground, kind: usize, degrees: f64) -> Outline {
    ground.kinds[kind].shape.line.placed(&Placement::turned(0.0, 0.0, degrees))
}

/// The same as [`clear_step`] by the rough measure.
fn rough_clear_step(ground: &Ground, still: &Body, moving: &Body, base: Vec2, direction: Vec2) -> f64 {
    let need = ground.spacing;
    let far_end = still.bounds.x1 * direction.x + still.bounds.y1 * direction.y;
    let near_end = moving.bounds.x0 * direction.x + moving.bounds.y0 * direction.y;
    let mut step = (far_end - near_end + need).max(0.0);
    let mut moved = moving.clone();
    for _ in 0..MOST_APPROACHES {
        moved.lie(ground, moving.at + base + direction * step, moving.degrees, moving.mirrored);
        // Fields reach a little further than the spacing; beyond, it is safe to come that much nearer.
        let limit = need + STRIDE;
        let apart = if are_apart(ground, still, &moved, limit) {
            limit
        } else {
            let value =
                |a: &Body, b: &Body| deepest(ground, a, b, limit).map_or(limit, |deepest| deepest.value);
            value(still, &moved).min(value(&moved, still))
        };
        let room = apart - need;
        if room <= ROUGH_APPROACH {
            break;
        }
        step -= room;
        if step <= 0.0 {
            return 0.0;
        }
    }
    step
}

/// Rows as far as they fit: alternating until `straight_from` rows stand, then first rows only.
fn filled(ground: &Ground, pattern: &Pattern, straight_from: usize) -> Vec<Placement> {
    let inner = ground.inner();
    let (low, high) = range(inner, pattern.columns);
    let (near, far) = range(inner, !pattern.columns);
    let origin = up(low - range(pattern.first.bounds, pattern.columns).0);
    let mut places = Vec::new();
    // Where the last two rows stand, and whether they are second rows.
    let mut rows: Vec<(f64, bool)> = Vec::new();
    loop {
        let is_second = rows.len() % 2 == 1 && rows.len() < straight_from;
        let row = if is_second { &pattern.second } else { &pattern.first };
        let bounds = range(row.bounds, !pattern.columns);
        let mut height = up(near - bounds.0);
        for &(below, was_second) in rows.iter().rev().take(2) {
            let rise = match (was_second, is_second) {
                (false, true) => pattern.rises[0],
                (true, false) => pattern.rises[1],
                (false, false) => pattern.rises[2],
                (true, true) => pattern.rises[3],
            };
            height = height.max(below + rise);
        }
        if height + bounds.1 > far + 1e-6 {
            return places;
        }
        rows.push((height, is_second));
        let (left, right) = range(row.bounds, pattern.columns);
        let start = origin + row.shift;
        let first = ((low - left - start) / pattern.step - 1e-6).ceil();
        let last = ((high - right - start) / pattern.step + 1e-6).floor();
        let mut number = first;
        while number <= last {
            let across = start + number * pattern.step;
            let (x, y) = if pattern.columns { (height, across) } else { (across, height) };
            places.push(Placement::turned(x, y, row.degrees));
            number += 1.0;
        }
    }
}

/// The least distance along `direction` from `base` beyond which `moving` keeps `need` millimetres from `still`, however
/// much further it goes; not below zero.
///
/// Come upon from outside: the gap says how far it is safe to come nearer.
fn clear_step(still: &Outline, moving: &Outline, base: Vec2, direction: Vec2, need: f64) -> f64 {
    let far_end = |bounds: Rect| bounds.x1 * direction.x + bounds.y1 * direction.y;
    let near_end = |bounds: Rect| bounds.x0 * direction.x + bounds.y0 * direction.y;
    let mut step = far_end(still.bounds()) - near_end(moving.bounds()) + need;
    step = step.max(0.0);
    for _ in 0..MOST_APPROACHES {
        let shift = base + direction * step;
        let moved = moving.placed(&Placement::at(shift.x, shift.y));
        // Gaps are only measured where they are small: it costs far less.
        let room = gap_within(still, &moved, need + STRIDE).map_or(STRIDE, |gap| gap.distance - need);
        if room <= APPROACH {
            break;
        }
        step -= room;
        if step <= 0.0 {
            return 0.0;
        }
    }
    step
}

/// The length rounded up to the grid of answers, so that rounding the places later takes nothing away.
fn up(mm: f64) -> f64 {
    (mm * PARTS - 1e-5).ceil() / PARTS
}

/// The length rounded down to the grid of answers.
fn down(mm: f64) -> f64 {
    (mm * PARTS + 1e-5).floor() / PARTS
}

fn axis(columns: bool) -> Vec2 {
    if columns { Vec2::new(0.0, 1.0) } else { Vec2::new(1.0, 0.0) }
}

fn range(rect: Rect, columns: bool) -> (f64, f64) {
    if columns { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) }
}

fn length(rect: Rect, columns: bool) -> f64 {
    let (low, high) = range(rect, columns);
    high - low
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns};

    use super::*;

    fn most(data: &str, turns: Turns, (width, height): (f64, f64), margin: f64) -> usize {
        let mut sticker = Sticker::new("s", "S", path::parse(data).unwrap());
        sticker.turns = turns;
        let ground = Ground::new(&Layout {
            sheet: Sheet { width, height, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin, spacing: 2.0, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        });
        let mut lattices = Lattices::new(&ground, 0, 0.0);
        let found = std::iter::repeat_with(|| lattices.step(&ground)).find_map(|(found, _)| found);
        found.and_then(|found| found.first().map(Vec::len)).unwrap_or(0)
    }

    fn disc(diameter: f64) -> String {
        let r = diameter / 2.0;
        format!("M-{r} 0A{r} {r} 0 1 1 {r} 0A{r} {r} 0 1 1 -{r} 0Z")
    }

    #[test]
    fn boxes_that_just_fit_all_fit() {
        // 4 x 6 boxes of 10 mm and their spacing: 46 x 70 mm, margin 4.
        assert_eq!(most("M-5 -5H5V5H-5Z", Turns::None, (54.0, 78.0), 4.0), 24);
    }

    #[test]
    fn discs_reach_the_best_simple_lattice() {
        // Worked out from the steps of square and hexagonal rows on a 100 x 150 mm sheet, spacing 2 mm.
        for (margin, diameter, expected) in [
            (3.0, 10.0, 104),
            (3.0, 15.0, 48),
            (3.0, 20.0, 28),
            (3.0, 30.0, 13),
            (5.0, 12.0, 68),
            (5.0, 25.0, 16),
        ] {
            let found = most(&disc(diameter), Turns::None, (100.0, 150.0), margin);
            assert!(found >= expected, "{found} discs of {diameter} mm, {expected} expected");
        }
    }

    #[test]
    fn triangles_that_may_turn_round_interlock() {
        let triangle = "M-8 7L0 -7L8 7Z";
        let upright = most(triangle, Turns::None, (105.0, 148.0), 4.0);
        let turned = most(triangle, Turns::Only(vec![0.0, 180.0]), (105.0, 148.0), 4.0);
        assert!(turned > upright, "{turned} not above {upright}");
    }
}
