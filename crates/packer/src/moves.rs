//! The best small moves of all bodies at once.
//!
//! With the places where pieces come near each other fixed, how far apart they are there changes nearly in proportion to
//! small moves, so that the best of them are the answer to a linear program.

use std::collections::BTreeMap;

use kurbo::Point;
use stickleaf_sheet::Turns;

use crate::body::Body;
use crate::ground::Ground;
use crate::linear::{AIM, Row, solved};
use crate::touch::Touch;

/// Rows are added to a program as long as the answer breaks more; at most so often.
const PASSES: usize = 6;

/// What is asked of the moves at a touch.
pub struct Need {
    /// Where.
    pub touch: Touch,
    /// What the distance must have gained after the moves, in millimetres; negative where it may lose.
    pub least: f64,
    /// How much more than that for each millimetre that is won.
    pub rate: f64,
}

/// How far moves may go.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// No body moves further than this along, across or, at its rim, round: millimetres.
    pub trust: f64,
    /// What may be won at least and at most, in millimetres.
    pub won: (f64, f64),
    /// Whether bodies may turn, those that do so freely.
    pub may_turn: bool,
    /// By how many millimetres needs may be missed.
    pub tolerance: f64,
}

/// Moves of all free bodies.
pub struct Moves {
    /// What is won by them, in millimetres.
    pub won: f64,
    /// For each free body in order: along, down, and round at its rim, in millimetres.
    each: Vec<[f64; 3]>,
}

impl Moves {
    /// Makes them.
    pub fn make(&self, ground: &Ground, bodies: &mut [Body]) {
        for (body, &[x, y, t]) in bodies.iter_mut().filter(|body| !body.held).zip(&self.each) {
            let kind = &ground.kinds[body.kind];
            let turned = || kind.nearest_turn(body.degrees + (t / kind.shape.reach).to_degrees());
            let degrees = if t == 0.0 { body.degrees } else { turned() };
            body.lie(ground, Point::new(body.at.x + x, body.at.y + y), degrees, body.mirrored);
        }
    }
}

/// The moves that win most, if there are any that meet all needs; and what finding them cost, in points looked up.
pub fn best_moves(ground: &Ground, bodies: &[Body], needs: &[Need], limits: &Limits) -> (Option<Moves>, u64) {
    let trust = limits.trust;
    // The first of three columns of each free body.
    let mut columns = vec![None; bodies.len()];
    let mut ranges = vec![limits.won];
    for (index, body) in bodies.iter().enumerate().filter(|(_, body)| !body.held) {
        columns[index] = Some(ranges.len());
        ranges.extend([(-trust, trust); 2]);
        ranges.push(if limits.may_turn { turn_range(ground, body, trust) } else { (0.0, 0.0) });
    }
    let mut rows: Vec<(usize, Row)> = Vec::new();
    let mut groups: BTreeMap<(usize, usize, u8), usize> = BTreeMap::new();
    for need in needs {
        let row = row(ground, bodies, need, &columns);
        if row.can_break(&ranges) {
            let count = groups.len();
            rows.push((*groups.entry(group_of(&need.touch)).or_insert(count), row));
        }
    }
    let (values, work) = solved_in_passes(&ranges, &rows, groups.len(), limits.tolerance);
    let moves = values.map(|values| Moves {
        won: values[AIM],
        each: values[1..].chunks_exact(3).map(|part| [part[0], part[1], part[2]]).collect(),
    });
    (moves, work)
}

/// The answer to a program of all these rows, found by way of programs with few of them.
///
/// Of each group of rows one is taken at first, then whatever the answer breaks, until it breaks no more than the
/// tolerance.
fn solved_in_passes(
    ranges: &[(f64, f64)],
    rows: &[(usize, Row)],
    groups: usize,
    tolerance: f64,
) -> (Option<Vec<f64>>, u64) {
    let mut is_taken = vec![false; rows.len()];
    let mut taken: Vec<Row> = Vec::new();
    let mut values = vec![0.0; ranges.len()];
    let mut work = rows.len() as u64;
    for pass in 0..PASSES {
        // Of each group, the row that the last answer breaks most; at first, the one with the least room.
        let mut worst: Vec<Option<(f64, usize)>> = vec![None; groups];
        for (index, (group, row)) in rows.iter().enumerate().filter(|&(index, _)| !is_taken[index]) {
            let broken = row.least - row.sum(&values);
            let slot = &mut worst[*group];
            if (pass == 0 || broken > tolerance) && slot.is_none_or(|(most, _)| broken > most) {
                *slot = Some((broken, index));
            }
        }
        let before = taken.len();
        for (_, index) in worst.into_iter().flatten() {
            is_taken[index] = true;
            taken.push(rows[index].1.clone());
        }
        if taken.len() == before && pass > 0 {
            break;
        }
        let Some(found) = solved(ranges, &taken) else { return (None, work + 1000) };
        work += found.work;
        values = found.values;
    }
    (Some(values), work)
}

/// How far a body may turn, as millimetres at its rim.
fn turn_range(ground: &Ground, body: &Body, trust: f64) -> (f64, f64) {
    let kind = &ground.kinds[body.kind];
    if !kind.turns_freely() {
        return (0.0, 0.0);
    }
    let Turns::Within(degrees) = kind.turns else { return (-trust, trust) };
    let left = |limit: f64| ((limit - body.degrees).to_radians() * kind.shape.reach).clamp(-trust, trust);
    (left(-degrees).min(0.0), left(degrees).max(0.0))
}

/// A need as a row: what the distance gains, less `rate` of what is won, is at least `least`.
fn row(ground: &Ground, bodies: &[Body], need: &Need, columns: &[Option<usize>]) -> Row {
    let Touch { a, b, normal, on_a, on_b, .. } = need.touch;
    let mut terms = vec![(AIM, -need.rate)];
    let mut add = |index: usize, point: Point, sign: f64| {
        let Some(first) = columns[index] else { return };
        terms.extend([(first, sign * normal.x), (first + 1, sign * normal.y)]);
        let kind = &ground.kinds[bodies[index].kind];
        if kind.turns_freely() {
            let lever = (point - bodies[index].at).cross(normal);
            terms.push((first + 2, sign * lever / kind.shape.reach));
        }
    };
    add(a, on_a, 1.0);
    if let Some(b) = b {
        add(b, on_b, -1.0);
    }
    Row { terms, least: need.least }
}

/// Touches of the same two bodies, or of a body and the same side, of which one row may do for all.
fn group_of(touch: &Touch) -> (usize, usize, u8) {
    let side = match (touch.b, touch.normal.x, touch.normal.y) {
        (Some(_), _, _) => 0,
        (None, 1.0, _) => 1,
        (None, -1.0, _) => 2,
        (None, _, 1.0) => 3,
        (None, _, -1.0) => 4,
        _ => 5,
    };
    (touch.a, touch.b.unwrap_or(usize::MAX), side)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;
    use crate::touch::touches;

    #[test]
    fn two_boxes_in_a_row_share_what_is_won() {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 30.0, height: 20.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 2.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        });
        let body = |x: f64| Body::new(&ground, 0, &Placement::at(x, 10.0), false);
        let mut bodies = vec![body(9.0), body(21.0)];
        let mut found = Vec::new();
        touches(&ground, &bodies, 3.0, &mut found);
        // 30 = 2 margins + 20 + the gap, so that the gap can become 6 mm; it is 2 mm.
        let need = |touch: &Touch| {
            let (asked, rate) = if touch.b.is_some() { (2.0, 1.0) } else { (2.0, 0.0) };
            Need { touch: *touch, least: asked - touch.distance, rate }
        };
        let needs: Vec<Need> = found.iter().map(need).collect();
        let limits = Limits { trust: 5.0, won: (-1.0, 10.0), may_turn: false, tolerance: 1e-7 };
        let moves = best_moves(&ground, &bodies, &needs, &limits).0.unwrap();
        assert!((moves.won - 4.0).abs() < 1e-6, "{}", moves.won);
        moves.make(&ground, &mut bodies);
        assert!((bodies[0].at.x - 7.0).abs() < 1e-6 && (bodies[1].at.x - 23.0).abs() < 1e-6);
    }
}
