//! A first sound layout: piece by piece, each to the free spot nearest to one corner of the sheet.
//!
//! Spots are tried where the box round a piece meets the boxes of pieces that lie there, so that pieces which fit exactly
//! do; then at random. A free spot is improved by sliding until the true lines are at the exact distance.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::Placement;

use crate::answer::snapped;
use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::laid::Laid;
use crate::meeting::Meetings;
use crate::overlap::{are_apart, edge_overlap, overlap};
use crate::polish::is_clear;
use crate::random::Chance;
use crate::spots::lie_anywhere;
use crate::turns::random_turn;

/// What may be missing in a place that is shown, in millimetres: the noise of arithmetic, a thousandth of the grid.
///
/// The slack that the check allows is left whole, for lines that another program or a later version rounds otherwise.
pub const NOISE: f64 = 1e-6;
/// Random spots tried for a piece besides those where boxes meet.
const RANDOM_SPOTS: usize = 24;

/// Towards which corner pieces are put, and whether rows or columns fill first.
#[derive(Clone, Copy, Debug)]
pub struct Lean {
    /// To the right instead of the left.
    pub right: bool,
    /// To the bottom instead of the top.
    pub down: bool,
    /// Columns first instead of rows.
    pub columns: bool,
}

/// What a millimetre across the rows counts beside one along them.
const SECOND_SHARE: f64 = 0.1;

impl Lean {
    /// To the top left, row by row.
    pub const TOP_LEFT: Lean = Lean { right: false, down: false, columns: false };

    /// How far the far side of a box is from the corner: less is better.
    pub fn rank(self, ground: &Ground, bounds: Rect) -> f64 {
        let sheet = ground.sheet;
        let across = if self.right { sheet.width - bounds.x0 } else { bounds.x1 };
        let along = if self.down { sheet.height - bounds.y0 } else { bounds.y1 };
        let (first, second) = if self.columns { (across, along) } else { (along, across) };
        first + SECOND_SHARE * second
    }

    /// By how much a rank changes at most with a box that moves so far across and along, in millimetres.
    pub fn most_change(across: f64, along: f64) -> f64 {
        across.max(along) * (1.0 + SECOND_SHARE)
    }

    /// The two directions in which pieces slide.
    fn directions(self) -> [Vec2; 2] {
        let across = Vec2::new(if self.right { 1.0 } else { -1.0 }, 0.0);
        let along = Vec2::new(0.0, if self.down { 1.0 } else { -1.0 });
        if self.columns { [across, along] } else { [along, across] }
    }
}

/// The free spot for a piece of this kind that lies furthest towards the corner; nothing if none is found.
///
/// The body that comes back lies on the grid that answers are rounded to, and keeps the rules there. Also returns how
/// many points were looked up.
pub fn free_spot(
    ground: &Ground,
    laid: &Laid,
    kind: usize,
    lean: Lean,
    chance: &mut Chance,
) -> (Option<Body>, u64) {
    let shape = &ground.kinds[kind].shape;
    let radius = shape.discs.first().map_or(0.0, |disc| disc.radius);
    let room = &laid.room;
    let open = room.open_points(radius);
    let mut work = room.size() / 64;
    if open.len() == 0 {
        return (None, work);
    }
    let mut probe = Body::new(ground, kind, &Placement::at(0.0, 0.0), false);
    let mut best: Option<(f64, Body)> = None;
    for (degrees, mirrored) in lies_to_try(&ground.kinds[kind], chance) {
        probe.lie(ground, Point::ZERO, degrees, mirrored);
        let discs = probe.discs.clone();
        let mut spots = Meetings::new(ground, laid, &probe, lean);
        for (rank, at) in &mut spots {
            if best.as_ref().is_some_and(|(least, _)| rank >= *least) {
                break;
            }
            if room.is_too_small_for(&discs, at.to_vec2()) {
                continue;
            }
            probe.lie(ground, at, degrees, mirrored);
            if let Some(body) = settled(ground, laid, &probe, lean, &mut work) {
                best = better(best, lean.rank(ground, body.bounds), body);
                break;
            }
        }
        work += spots.looked;
    }
    for _ in 0..if shape.is_round && best.is_some() { 0 } else { RANDOM_SPOTS } {
        lie_anywhere(ground, &mut probe, chance);
        let pole = probe.discs.first().map_or(Vec2::ZERO, |disc| disc.centre - probe.at);
        let (degrees, mirrored) = (probe.degrees, probe.mirrored);
        let Some(point) = open.get(chance.below(open.len())) else { continue };
        probe.lie(ground, room.point_near(point, chance) - pole, degrees, mirrored);
        work += probe.points.len() as u64 / 2;
        let rank = lean.rank(ground, probe.bounds);
        if best.as_ref().is_some_and(|(least, _)| rank >= *least + shape.reach / 2.0) {
            continue;
        }
        if let Some(body) = settled(ground, laid, &probe, lean, &mut work) {
            best = better(best, lean.rank(ground, body.bounds), body);
        }
    }
    (best.map(|(_, body)| body), work)
}

/// Turns in degrees worth trying, flipped and not where that is allowed.
fn lies_to_try(kind: &Kind, chance: &mut Chance) -> Vec<(f64, bool)> {
    let mut turns = kind.restful.clone();
    if kind.turns_freely() {
        turns.extend([random_turn(kind, chance), random_turn(kind, chance)]);
    }
    let sides: &[bool] = if kind.mirror { &[false, true] } else { &[false] };
    turns.iter().flat_map(|&turn| sides.iter().map(move |&mirrored| (turn, mirrored))).collect()
}

fn better(best: Option<(f64, Body)>, rank: f64, body: Body) -> Option<(f64, Body)> {
    match best {
        Some((least, kept)) if least <= rank => Some((least, kept)),
        _ => Some((rank, body)),
    }
}

/// The body slid towards the corner and put on the grid, if it is free where it lies.
fn settled(ground: &Ground, laid: &Laid, body: &Body, lean: Lean, work: &mut u64) -> Option<Body> {
    let mut settled = on_grid(ground, body);
    if !is_free(ground, laid, &settled, NOISE, work) {
        return None;
    }
    let mut moved = settled.clone();
    for _ in 0..2 {
        for direction in lean.directions() {
            // Halved from 16 mm, the last step is two micrometres.
            for halving in 0..14 {
                let step = direction * (16.384 / f64::from(1 << halving));
                if laid.room.is_too_small_for(&settled.discs, step) {
                    continue;
                }
                moved.lie(ground, settled.at + step, settled.degrees, settled.mirrored);
                moved = on_grid(ground, &moved);
                if is_free(ground, laid, &moved, NOISE, work) {
                    std::mem::swap(&mut settled, &mut moved);
                }
            }
        }
    }
    Some(settled)
}

/// Where an answer would show the body.
pub fn placement_on_grid(ground: &Ground, body: &Body) -> Placement {
    let kind = &ground.kinds[body.kind];
    snapped(&body.placement(ground), &kind.turns, kind.mirror)
}

/// The body as an answer would show it.
pub fn on_grid(ground: &Ground, body: &Body) -> Body {
    Body::new(ground, body.kind, &placement_on_grid(ground, body), body.held)
}

/// Whether a body keeps every rule against the others: roughly first, at the true lines where that leaves a doubt.
pub fn is_free(ground: &Ground, laid: &Laid, body: &Body, slack: f64, work: &mut u64) -> bool {
    if edge_overlap(ground, body) > slack {
        return false;
    }
    let mut doubtful: Vec<&Body> = Vec::new();
    let mut is_in_the_way = false;
    laid.near(body.bounds, |other| {
        let doubt = doubt(ground, body, other);
        let need = ground.need(body, other) + doubt;
        if are_apart(ground, body, other, need) {
            return false;
        }
        *work += body.points.len() as u64 / 2;
        let missing = overlap(ground, body, other, need);
        is_in_the_way = missing > 2.0 * doubt;
        if missing > 0.0 {
            doubtful.push(other);
        }
        is_in_the_way
    });
    if is_in_the_way {
        return false;
    }
    *work += (1 + 4 * doubtful.len()) as u64 * body.points.len() as u64;
    is_clear(ground, body, &doubtful, slack)
}

/// How far the rough measure of two bodies may be off, in millimetres.
fn doubt(ground: &Ground, a: &Body, b: &Body) -> f64 {
    let of = |body: &Body| ground.kinds[body.kind].shape.field.doubt();
    of(a).max(of(b))
}
