//! The last thousandths: contacts measured at the true cut lines.

use kurbo::{Point, Rect, Vec2};

use crate::body::Body;
use crate::contact::{Contact, Extra, contact, edge_contacts};
use crate::ground::Ground;
use crate::overlap::are_apart;

/// Contacts nearer than this have their say while others are mended, in millimetres.
const NEAR: f64 = 0.15;

/// Exact contacts of all bodies: every corner of a line that is near another line, however many there are.
///
/// The gap of two lines that do not cross is always met at a corner of one of them, so a layout with nothing missing
/// here keeps the rules within rounding. Lines must not reach deeper than [`NEAR`] or so into each other: that is what
/// the rough search sees to first.
///
/// Returns how many edges were looked at, which is what the work costs.
pub fn exact_contacts(
    ground: &Ground,
    bodies: &[Body],
    extra: Extra,
    rings: &mut Vec<Vec<Point>>,
    contacts: &mut Vec<Contact>,
) -> u64 {
    contacts.clear();
    rings.resize_with(bodies.len(), Vec::new);
    for (body, ring) in bodies.iter().zip(rings.iter_mut()) {
        ring.clear();
        ring.extend(ground.kinds[body.kind].shape.corners.iter().map(|&corner| body.to_sheet(corner)));
    }
    let mut work = 0;
    for (i, a) in bodies.iter().enumerate() {
        if !a.held {
            edge_contacts(ground, (i, a), &rings[i], extra.margin, NEAR, contacts);
        }
        for (j, b) in bodies.iter().enumerate().skip(i + 1) {
            // Samples may lie a little inside the true line.
            let need = ground.need(a, b) + extra.spacing;
            let limit = need + NEAR;
            if (a.held && b.held) || are_apart(ground, a, b, limit + NEAR) {
                continue;
            }
            work += corner_contacts(ground, ((i, a), &rings[i]), ((j, b), &rings[j]), need, contacts);
            work += corner_contacts(ground, ((j, b), &rings[j]), ((i, a), &rings[i]), need, contacts);
        }
    }
    work
}

/// Contacts of the corners of `a` with the line of `b`.
fn corner_contacts(
    ground: &Ground,
    (a, ring_a): ((usize, &Body), &[Point]),
    (b, ring_b): ((usize, &Body), &[Point]),
    need: f64,
    contacts: &mut Vec<Contact>,
) -> u64 {
    corners_near(ground, (a.1, ring_a), (b.1, ring_b), (need + NEAR, NEAR), |near| {
        contacts.push(contact(a, b, near.normal, (near.corner, near.nearest), need - near.distance));
    })
}

/// A corner of one line that is near another line.
pub struct NearCorner {
    /// The corner.
    pub corner: Point,
    /// The nearest point of the other line.
    pub nearest: Point,
    /// The direction in which the corner gains distance, of length one.
    pub normal: Vec2,
    /// How far it is from the other line, in millimetres; negative inside it.
    pub distance: f64,
}

/// Calls `on` with every corner of `a` that is nearer than `limit` to the line of `b`; how many edges were looked at.
///
/// The rings are the true lines on the sheet. Bodies' bounds are those of their samples, which may lie inside the true
/// lines by as much as `doubt`.
pub fn corners_near(
    ground: &Ground,
    (a, ring_a): (&Body, &[Point]),
    (b, ring_b): (&Body, &[Point]),
    (limit, doubt): (f64, f64),
    mut on: impl FnMut(NearCorner),
) -> u64 {
    let around: Rect = b.bounds.inflate(limit + doubt, limit + doubt);
    let mut work = 0;
    for &corner in ring_a.iter().filter(|&&corner| around.contains(corner)) {
        work += 2;
        let Some((distance, nearest)) = signed_distance(ground, corner, b, ring_b, limit) else { continue };
        work += ring_b.len() as u64;
        let outward = (corner - nearest) * distance.signum();
        let direction: Vec2 = if distance.abs() > 1e-9 { outward } else { a.at - b.at };
        let length = direction.hypot2().sqrt();
        if length > 1e-9 {
            on(NearCorner { corner, nearest, normal: direction / length, distance });
        }
    }
    work
}

/// The distance from a point to the line of a body, negative inside it, and the nearest point of the line; nothing if
/// it is `limit` or more. The ring is the body's line on the sheet.
///
/// The body's field answers for most points, and tells inside from outside for most of the others.
fn signed_distance(
    ground: &Ground,
    point: Point,
    body: &Body,
    ring: &[Point],
    limit: f64,
) -> Option<(f64, Point)> {
    let shape = &ground.kinds[body.kind].shape;
    let own = body.to_shape(point);
    let (guess, doubt) = (shape.field.value(own), shape.field.doubt());
    if guess > limit + doubt {
        return None;
    }
    let deepest = limit.max(doubt - guess);
    let (squared, nearest) = shape.stretches.nearest(own, point, ring, deepest)?;
    let inside = guess < -doubt || (guess < doubt && is_inside(point, ring));
    let distance = if inside { -squared.sqrt() } else { squared.sqrt() };
    (distance < limit).then_some((distance, nearest))
}

fn is_inside(point: Point, ring: &[Point]) -> bool {
    let mut inside = false;
    let mut start = ring[ring.len() - 1];
    for &end in ring {
        if (start.y > point.y) != (end.y > point.y) {
            let x = start.x + (point.y - start.y) * (end.x - start.x) / (end.y - start.y);
            inside ^= point.x < x;
        }
        start = end;
    }
    inside
}

/// Whether a body keeps every rule against these others, measured at the true lines; `slack` millimetres may be missing.
pub fn is_clear(ground: &Ground, body: &Body, others: &[&Body], slack: f64) -> bool {
    let corners = &ground.kinds[body.kind].shape.corners;
    let ring: Vec<Point> = corners.iter().map(|&corner| body.to_sheet(corner)).collect();
    let mut contacts = Vec::new();
    edge_contacts(ground, (0, body), &ring, 0.0, NEAR, &mut contacts);
    if contacts.iter().any(|contact| contact.depth > slack) {
        return false;
    }
    let mut other_ring: Vec<Point> = Vec::new();
    others.iter().all(|other| {
        let need = ground.need(body, other) - slack;
        if are_apart(ground, body, other, need + NEAR) {
            return true;
        }
        other_ring.clear();
        let corners = &ground.kinds[other.kind].shape.corners;
        other_ring.extend(corners.iter().map(|&corner| other.to_sheet(corner)));
        keeps(ground, &ring, other, &other_ring, need) && keeps(ground, &other_ring, body, &ring, need)
    })
}

/// Whether these points all keep a distance from a body, whose line on the sheet is `ring`.
fn keeps(ground: &Ground, points: &[Point], body: &Body, ring: &[Point], distance: f64) -> bool {
    let around = body.bounds.inflate(distance + NEAR, distance + NEAR);
    points
        .iter()
        .filter(|&&point| around.contains(point))
        .all(|&point| signed_distance(ground, point, body, ring, distance).is_none())
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, gap, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    fn ground() -> Ground {
        let stickers = [shapes::star(5, 10.0, 5.0), shapes::crescent(9.0), shapes::blob(3, 8.0)]
            .into_iter()
            .enumerate()
            .map(|(number, outline)| Sticker::new(format!("s{number}"), "S", outline));
        Ground::new(&Layout {
            sheet: Sheet { width: 100.0, height: 100.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: stickers.collect(),
            ..Layout::default()
        })
    }

    #[test]
    fn what_is_missing_at_the_true_lines_is_what_their_gap_says() {
        let ground = ground();
        let lines: Vec<_> = (0..3).map(|kind| ground.kinds[kind].shape.line.clone()).collect();
        let mut measured = 0;
        for step in 0..60u32 {
            let places = [
                Placement::turned(30.0, 40.0, f64::from(step) * 7.0),
                Placement::turned(30.0 + 12.0 + f64::from(step) * 0.15, 41.0, f64::from(step) * 23.0),
            ];
            let kinds = [step as usize % 3, (step as usize / 3) % 3];
            let bodies = [0, 1].map(|i| Body::new(&ground, kinds[i], &places[i], false));
            let truth =
                gap(&lines[kinds[0]].placed(&places[0]), &lines[kinds[1]].placed(&places[1])).distance;
            let mut contacts = Vec::new();
            exact_contacts(&ground, &bodies, Extra::default(), &mut Vec::new(), &mut contacts);
            let missing = contacts.iter().map(|contact| contact.depth).fold(f64::NEG_INFINITY, f64::max);
            if truth > 0.0 && truth < 2.0 + NEAR {
                assert!((missing - (2.0 - truth)).abs() < 1e-9, "{missing} for a gap of {truth}");
                measured += 1;
            }
            assert_eq!(is_clear(&ground, &bodies[0], &[&bodies[1]], 0.0), truth >= 2.0, "gap {truth}");
        }
        assert!(measured > 5, "{measured}");
    }
}
