//! A first sound layout: piece by piece, each to the free spot nearest to one corner of the sheet.
//!
//! Spots are tried where the box round a piece meets the boxes of pieces that lie there, so that pieces which fit exactly
//! do; then at random. A free spot is improved by sliding until the true lines are at the exact distance.

use kurbo::{Point, Vec2};
use stickleaf_outline::Placement;

use crate::answer::snapped;
use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::overlap::{are_apart, edge_overlap, overlap};
use crate::polish::is_clear;
use crate::random::Chance;
use crate::room::Room;
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

impl Lean {
    /// To the top left, row by row.
    pub const TOP_LEFT: Lean = Lean { right: false, down: false, columns: false };

    /// How far the far side of a box is from the corner: less is better.
    fn rank(self, ground: &Ground, body: &Body) -> f64 {
        let (sheet, bounds) = (ground.sheet, body.bounds);
        let across = if self.right { sheet.width - bounds.x0 } else { bounds.x1 };
        let along = if self.down { sheet.height - bounds.y0 } else { bounds.y1 };
        let (first, second) = if self.columns { (across, along) } else { (along, across) };
        first + 0.1 * second
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
/// many points were looked up. `room` is what the bodies leave.
pub fn free_spot(
    ground: &Ground,
    bodies: &[Body],
    room: &Room,
    kind: usize,
    lean: Lean,
    chance: &mut Chance,
) -> (Option<Body>, u64) {
    let shape = &ground.kinds[kind].shape;
    let radius = shape.discs.first().map_or(0.0, |disc| disc.radius);
    let open = room.open_points(radius);
    let mut work = room.size() / 16;
    if open.is_empty() {
        return (None, work);
    }
    let mut probe = Body::new(ground, kind, &Placement::at(0.0, 0.0), false);
    let mut best: Option<(f64, Body)> = None;
    for (degrees, mirrored) in lies_to_try(&ground.kinds[kind], chance) {
        probe.lie(ground, Point::ZERO, degrees, mirrored);
        let pole = probe.discs.first().map_or(Vec2::ZERO, |disc| disc.centre.to_vec2());
        let mut spots = meeting_spots(ground, bodies, (room, &open), &probe, lean);
        work += spots.len() as u64 / 4;
        spots.retain(|&(_, at)| !room.is_too_small(at + pole, radius));
        spots.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (rank, at) in spots {
            if best.as_ref().is_some_and(|(least, _)| rank >= *least) {
                break;
            }
            probe.lie(ground, at, degrees, mirrored);
            if let Some(body) = settled(ground, bodies, &probe, lean, &mut work) {
                best = better(best, lean.rank(ground, &body), body);
                break;
            }
        }
    }
    for _ in 0..if shape.is_round && best.is_some() { 0 } else { RANDOM_SPOTS } {
        lie_anywhere(ground, &mut probe, chance);
        let pole = probe.discs.first().map_or(Vec2::ZERO, |disc| disc.centre - probe.at);
        let (degrees, mirrored) = (probe.degrees, probe.mirrored);
        probe.lie(ground, room.point_near(open[chance.below(open.len())], chance) - pole, degrees, mirrored);
        work += probe.points.len() as u64 / 2;
        let rank = lean.rank(ground, &probe);
        if best.as_ref().is_some_and(|(least, _)| rank >= *least + shape.reach / 2.0) {
            continue;
        }
        if let Some(body) = settled(ground, bodies, &probe, lean, &mut work) {
            best = better(best, lean.rank(ground, &body), body);
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

/// Centres at which the box round the probe (which lies at the origin) meets the margin or another's box, with ranks.
///
/// Only those for which the room about the probe's largest disc is not surely too small, judged by each coordinate.
fn meeting_spots(
    ground: &Ground,
    bodies: &[Body],
    (room, open): (&Room, &[Point]),
    probe: &Body,
    lean: Lean,
) -> Vec<(f64, Point)> {
    let (inner, bounds) = (ground.inner(), probe.bounds);
    let pole = probe.discs.first().map_or(Vec2::ZERO, |disc| disc.centre.to_vec2());
    let mut xs = vec![if lean.right { inner.x1 - bounds.x1 } else { inner.x0 - bounds.x0 }];
    let mut ys = vec![if lean.down { inner.y1 - bounds.y1 } else { inner.y0 - bounds.y0 }];
    for other in bodies {
        let need = ground.need(probe, other);
        xs.push(if lean.right {
            other.bounds.x0 - need - bounds.x1
        } else {
            other.bounds.x1 + need - bounds.x0
        });
        ys.push(if lean.down {
            other.bounds.y0 - need - bounds.y1
        } else {
            other.bounds.y1 + need - bounds.y0
        });
    }
    for list in [&mut xs, &mut ys] {
        list.sort_by(f64::total_cmp);
        list.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    }
    let slack = NOISE;
    xs.retain(|x| x + bounds.x0 >= inner.x0 - slack && x + bounds.x1 <= inner.x1 + slack);
    ys.retain(|y| y + bounds.y0 >= inner.y0 - slack && y + bounds.y1 <= inner.y1 + slack);
    room.keep_open(&mut xs, open.iter().map(|point| point.x), pole.x);
    room.keep_open(&mut ys, open.iter().map(|point| point.y), pole.y);
    let mut moved = probe.clone();
    let mut spots = Vec::with_capacity(xs.len() * ys.len());
    for &x in &xs {
        for &y in &ys {
            moved.bounds = bounds + Vec2::new(x, y);
            spots.push((lean.rank(ground, &moved), Point::new(x, y)));
        }
    }
    spots
}

/// The body slid towards the corner and put on the grid, if it is free where it lies.
fn settled(ground: &Ground, bodies: &[Body], body: &Body, lean: Lean, work: &mut u64) -> Option<Body> {
    let mut settled = on_grid(ground, body);
    if !is_free(ground, bodies, &settled, NOISE, work) {
        return None;
    }
    let mut moved = settled.clone();
    for _ in 0..2 {
        for direction in lean.directions() {
            // Halved from 16 mm, the last step is two micrometres.
            for halving in 0..14 {
                let step = 16.384 / f64::from(1 << halving);
                moved.lie(ground, settled.at + direction * step, settled.degrees, settled.mirrored);
                moved = on_grid(ground, &moved);
                if is_free(ground, bodies, &moved, NOISE, work) {
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
pub fn is_free(ground: &Ground, bodies: &[Body], body: &Body, slack: f64, work: &mut u64) -> bool {
    if edge_overlap(ground, body) > slack {
        return false;
    }
    let mut doubtful: Vec<&Body> = Vec::new();
    for other in bodies {
        let doubt = doubt(ground, body, other);
        let need = ground.need(body, other) + doubt;
        if are_apart(ground, body, other, need) {
            continue;
        }
        *work += body.points.len() as u64 / 2;
        let missing = overlap(ground, body, other, need);
        if missing > 2.0 * doubt {
            return false;
        }
        if missing > 0.0 {
            doubtful.push(other);
        }
    }
    *work += (1 + 4 * doubtful.len()) as u64 * body.points.len() as u64;
    is_clear(ground, body, &doubtful, slack)
}

/// How far the rough measure of two bodies may be off, in millimetres.
fn doubt(ground: &Ground, a: &Body, b: &Body) -> f64 {
    let of = |body: &Body| ground.kinds[body.kind].shape.field.doubt();
    of(a).max(of(b))
}
