//! Rows of one sticker at even steps: what is best, or near it, when many copies of one shape fill a sheet.
//!
//! Every second row may be shifted, and turned by half a turn where that is allowed (a *double lattice*). Steps are the
//! least that keep the spacing at the true lines, or stretched so that a row just fills the sheet, which lets shifted
//! rows move closer. Some of the last rows may stand straight above each other instead. Rows run across and down.

use kurbo::{Rect, Vec2};
use stickleaf_outline::{Outline, Placement, Turn, gap_within};

use crate::ground::Ground;

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
const MOST_APPROACHES: usize = 80;
/// Shifts of the second row tried for shapes that are not round, as parts of a step.
const SHIFTS: u32 = 8;
/// Layouts that come back.
const KEPT: usize = 4;

/// The fullest lattices of a kind on the empty sheet with its first piece turned like this, fullest first.
///
/// Pieces keep the spacing among themselves and the margin of straight sides; zones, locked pieces and round corners are
/// not looked at.
pub fn lattices(ground: &Ground, kind: usize, degrees: f64) -> Vec<Vec<Placement>> {
    let mut found: Vec<Vec<Placement>> = Vec::new();
    for columns in [false, true] {
        for pattern in patterns(ground, kind, degrees, columns) {
            for straight_from in 0..=MOST_ALTERNATING {
                let places = filled(ground, &pattern, straight_from);
                if found.iter().all(|other| other.len() != places.len()) {
                    found.push(places);
                }
            }
        }
    }
    found.sort_by_key(|places| std::cmp::Reverse(places.len()));
    found.truncate(KEPT);
    found
}

/// Numbers of alternating rows tried before rows stand straight above each other.
const MOST_ALTERNATING: usize = 40;

fn patterns(ground: &Ground, kind: usize, degrees: f64, columns: bool) -> Vec<Pattern> {
    let shape = &ground.kinds[kind].shape;
    let placed = |degrees: f64| shape.line.placed(&Placement::turned(0.0, 0.0, degrees));
    let line = placed(degrees);
    let along = axis(columns);
    let inner = ground.inner();
    let room = length(inner, columns) - length(line.bounds(), columns);
    if room < -1e-6 || length(inner, !columns) - length(line.bounds(), !columns) < -1e-6 {
        return Vec::new();
    }
    let least = clear_step(&line, &line, Vec2::ZERO, along, ground.spacing);
    let mut second_turns = vec![degrees];
    let half = degrees + 180.0;
    if !shape.is_round && ground.kinds[kind].turns.allow(Turn::degrees(half)) {
        second_turns.push(half);
    }
    let shifts: Vec<f64> = if shape.is_round {
        vec![0.5]
    } else {
        (0..SHIFTS).map(|part| f64::from(part) / f64::from(SHIFTS)).collect()
    };
    let mut list = Vec::new();
    for step in steps(room, least) {
        for &second in &second_turns {
            let second_line = placed(second);
            for &share in &shifts {
                let shift = share * step;
                list.push(pattern(ground, (degrees, &line), (second, &second_line), step, shift, columns));
            }
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
            list.extend([room / count, room / (count + 0.5)]);
        }
    }
    list.retain(|&step| step >= least);
    list
}

fn pattern(
    ground: &Ground,
    (first_degrees, first): (f64, &Outline),
    (second_degrees, second): (f64, &Outline),
    step: f64,
    shift: f64,
    columns: bool,
) -> Pattern {
    let (along, across) = (axis(columns), axis(!columns));
    // The rise from one row to another clears every piece of it that could be in the way.
    let rise = |from: &Outline, to: &Outline, shift: f64| {
        (-3..=3)
            .map(|m| clear_step(from, to, along * (shift + f64::from(m) * step), across, ground.spacing))
            .fold(0.0, f64::max)
    };
    let rises = [
        rise(first, second, shift),
        rise(second, first, -shift),
        rise(first, first, 0.0),
        rise(second, second, 0.0),
    ];
    Pattern {
        first: Row { degrees: first_degrees, bounds: first.bounds(), shift: 0.0 },
        second: Row { degrees: second_degrees, bounds: second.bounds(), shift },
        step,
        rises,
        columns,
    }
}

/// Rows as far as they fit: alternating until `straight_from` rows stand, then first rows only.
fn filled(ground: &Ground, pattern: &Pattern, straight_from: usize) -> Vec<Placement> {
    let inner = ground.inner();
    let (low, high) = range(inner, pattern.columns);
    let (near, far) = range(inner, !pattern.columns);
    let origin = low - range(pattern.first.bounds, pattern.columns).0;
    let mut places = Vec::new();
    // Where the last two rows stand, and whether they are second rows.
    let mut rows: Vec<(f64, bool)> = Vec::new();
    loop {
        let is_second = rows.len() % 2 == 1 && rows.len() < straight_from;
        let row = if is_second { &pattern.second } else { &pattern.first };
        let bounds = range(row.bounds, !pattern.columns);
        let mut height = near - bounds.0;
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
        // A gap beyond the step left is as good as none.
        let Some(gap) = gap_within(still, &moved, need + step + 1.0) else { return 0.0 };
        let room = gap.distance - need;
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
        lattices(&ground, 0, 0.0).first().map_or(0, Vec::len)
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
