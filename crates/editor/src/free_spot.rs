//! Places that keep every hard rule: the nearest one, or a short push away.

use std::borrow::Borrow;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Outline, Placement, Turn, gap_within};
use stickleaf_sheet::{Layout, RULE_TOLERANCE, Sticker, Turns};

use crate::nudge::kept_place;

/// The first look round for a free spot is this coarse, in millimetres.
const COARSE_STEP: f64 = 2.0;

/// The look round the best coarse spot is this fine, in millimetres.
const FINE_STEP: f64 = 0.25;

/// Touching is never a free spot, even where no distance is asked.
const CONTACT: f64 = 1e-9;

/// A push goes this much further than asked, in millimetres: rounding the place to the micrometre takes less away.
const OVER: f64 = 0.001;

/// A piece that lies on another is pushed out in steps of this length, in millimetres.
const OUT_OF_OVERLAP: f64 = 0.4;

/// After so many pushes there is taken to be no room.
const MOST_PUSHES: usize = 120;

/// The lines of all pieces but one.
pub(crate) fn others(lines: &[Outline], piece: usize) -> Vec<&Outline> {
    let other = |&(i, _): &(usize, &Outline)| i != piece;
    lines.iter().enumerate().filter(other).map(|(_, line)| line).collect()
}

/// Whether a cut line lying here keeps every hard rule against these others.
///
/// As strict as the check, and stricter where no distance is asked: there touching is not free.
pub(crate) fn is_free(layout: &Layout, others: &[impl Borrow<Outline>], line: &Outline) -> bool {
    let sheet = &layout.sheet;
    let margin = layout.rules.margin - RULE_TOLERANCE;
    let bounds = line.bounds();
    if !sheet.bounds().inset(-margin).contains_rect(bounds) {
        return false;
    }
    let limit = (layout.rules.spacing - RULE_TOLERANCE).max(CONTACT);
    line.points().iter().all(|&point| sheet.distance_to_edge(point) >= margin)
        && others.iter().all(|other| gap_within(line, other.borrow(), limit).is_none())
        && layout.zones().iter().all(|zone| {
            gap_within(line, &zone.outline, (zone.clearance - RULE_TOLERANCE).max(CONTACT)).is_none()
        })
}

/// The free place nearest to `wanted` with the same turn, on whole steps of 0.25 mm from it; nothing if none is found.
///
/// Cost: a look at every second millimetre of the sheet at worst.
pub(crate) fn nearest_free(
    layout: &Layout,
    others: &[Outline],
    cut_line: &Outline,
    wanted: &Placement,
) -> Option<Placement> {
    let turned = cut_line.placed(&Placement { at: Point::ZERO, ..*wanted });
    let room = layout.sheet.bounds().inset(-layout.rules.margin);
    let bounds = turned.bounds();
    let free = |at: Point| {
        let placement = Placement { at, ..*wanted };
        is_free(layout, others, &cut_line.placed(&placement)).then_some(placement)
    };
    let within = |at: &Point| {
        at.x + bounds.x0 >= room.x0 - RULE_TOLERANCE
            && at.x + bounds.x1 <= room.x1 + RULE_TOLERANCE
            && at.y + bounds.y0 >= room.y0 - RULE_TOLERANCE
            && at.y + bounds.y1 <= room.y1 + RULE_TOLERANCE
    };
    let nearest = |from: Point, step: f64, reach: i32| {
        let mut spots: Vec<Point> = (-reach..=reach)
            .flat_map(|row| (-reach..=reach).map(move |column| (f64::from(column), f64::from(row))))
            .map(|(column, row)| kept_place(from + Vec2::new(column, row) * step, &layout.sheet))
            .filter(within)
            .collect();
        spots.sort_by(|a, b| (*a - wanted.at).hypot2().total_cmp(&(*b - wanted.at).hypot2()));
        spots.into_iter().find_map(free)
    };
    let far = layout.sheet.width.max(layout.sheet.height);
    let reach = ((far / COARSE_STEP).ceil() as i32).min(400);
    let coarse = nearest(kept_place(wanted.at, &layout.sheet), COARSE_STEP, reach)?;
    nearest(coarse.at, FINE_STEP, (COARSE_STEP / FINE_STEP) as i32).or(Some(coarse))
}

/// The free place for one more copy of a sticker that is nearest to `near`: upright if that can be, else at another
/// allowed turn; nothing if none is found.
pub(crate) fn free_for(
    layout: &Layout,
    lines: &[Outline],
    sticker: &Sticker,
    near: Point,
) -> Option<Placement> {
    let cut_line = sticker.cut_line(&layout.rules);
    turns_to_try(&sticker.turns)
        .into_iter()
        .map(|turn| Placement { at: near, turn, mirrored: false })
        .find_map(|wanted| nearest_free(layout, lines, &cut_line, &wanted))
}

/// Turns worth trying for a new copy, upright first.
fn turns_to_try(turns: &Turns) -> Vec<Turn> {
    let wanted: Vec<f64> = match turns {
        Turns::None => vec![0.0],
        Turns::Any => (0..8).map(|eighth| f64::from(eighth) * 45.0).collect(),
        Turns::Within(degrees) => vec![0.0, *degrees, -degrees],
        Turns::Only(list) => list.clone(),
    };
    let mut tried: Vec<Turn> =
        wanted.into_iter().map(|degrees| turns.nearest(Turn::degrees(degrees))).collect();
    tried.dedup();
    if tried.is_empty() { vec![Turn::NONE] } else { tried }
}

/// A piece pushed a little, again and again out of whatever is worst, until it keeps every hard rule against the others;
/// nothing if that takes it further away than `most` millimetres.
///
/// A piece that comes too near to a neighbour so slides along it.
pub(crate) fn eased(
    layout: &Layout,
    others: &[&Outline],
    cut_line: &Outline,
    placement: &Placement,
    most: f64,
) -> Option<Placement> {
    let shifted = |shift: Vec2| {
        let moved = Placement { at: kept_place(placement.at + shift, &layout.sheet), ..*placement };
        (moved, cut_line.placed(&moved))
    };
    let mut shift = Vec2::ZERO;
    let (mut moved, mut line) = shifted(shift);
    // Others are out of reach wherever it is pushed.
    let reach = most + layout.rules.spacing + OVER;
    let room = line.bounds().inflate(reach, reach);
    let near: Vec<&Outline> = others.iter().copied().filter(|other| other.bounds().overlaps(room)).collect();
    for _ in 0..MOST_PUSHES {
        let Some(push) = worst_push(layout, &near, &line) else {
            return is_free(layout, &near, &line).then_some(moved);
        };
        shift += push;
        if shift.hypot2() > most * most {
            return None;
        }
        (moved, line) = shifted(shift);
    }
    None
}

/// The way that takes a line out of what it breaks worst; nothing if it breaks nothing.
fn worst_push(layout: &Layout, others: &[&Outline], line: &Outline) -> Option<Vec2> {
    let mut worst: Option<(f64, Vec2)> = None;
    let mut consider = |missing: f64, push: Vec2| {
        if worst.is_none_or(|(most, _)| missing > most) {
            worst = Some((missing, push));
        }
    };
    let spacing = layout.rules.spacing;
    let neighbours = others
        .iter()
        .map(|&other| (other, spacing))
        .chain(layout.zones().iter().map(|zone| (&*zone.outline, zone.clearance)));
    for (other, limit) in neighbours {
        let Some(gap) = gap_within(line, other, (limit - RULE_TOLERANCE).max(CONTACT)) else { continue };
        let (here, there) = gap.between;
        let missing = limit - gap.distance + OVER;
        if gap.distance > CONTACT {
            consider(missing, (here - there) * (missing / gap.distance));
        } else {
            let away = unit(line.centroid() - other.centroid());
            consider(missing + OUT_OF_OVERLAP, away * OUT_OF_OVERLAP);
        }
    }
    let sheet = &layout.sheet;
    let inside = |point: &Point| sheet.distance_to_edge(*point);
    let nearest = *line.points().iter().min_by(|a, b| inside(a).total_cmp(&inside(b)))?;
    let missing = layout.rules.margin - inside(&nearest);
    if missing > RULE_TOLERANCE {
        let edge = sheet.nearest_on_edge(nearest);
        let way = if inside(&nearest) >= 0.0 { nearest - edge } else { edge - nearest };
        let inward = if way.hypot2() > CONTACT { unit(way) } else { unit(sheet.bounds().center() - nearest) };
        consider(missing, inward * (missing + OVER));
    }
    worst.map(|(_, push)| push)
}

fn unit(way: Vec2) -> Vec2 {
    let length = way.hypot2().sqrt();
    if length > 0.0 { way / length } else { Vec2::new(1.0, 0.0) }
}
