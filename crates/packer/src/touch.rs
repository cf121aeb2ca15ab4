//! Where bodies come near each other or the sheet's edge, measured at the true cut lines.
//!
//! Unlike a [contact](crate::contact), a touch knows where it is and how near the two really are, so that it also tells
//! how the distance changes when stickers grow or an edge moves.

use kurbo::{Point, Vec2};

use crate::body::Body;
use crate::ground::Ground;
use crate::overlap::are_apart;
use crate::polish::{NearCorner, corners_near};

/// Two lines that are near each other at one place.
#[derive(Clone, Copy, Debug)]
pub struct Touch {
    /// The body that gains distance by moving along the normal.
    pub a: usize,
    /// The other; nothing for the sheet's edge.
    pub b: Option<usize>,
    /// From the other to `a`, of length one.
    pub normal: Vec2,
    /// The nearest point of `a`.
    pub on_a: Point,
    /// The nearest point of the other.
    pub on_b: Point,
    /// How far the two are apart here, in millimetres; negative if they reach into each other.
    pub distance: f64,
}

/// The touches of all bodies with no more than `within` millimetres of room beyond what they must keep.
///
/// Every corner of a line counts, near another line or near the edge; discs are taken for what they are. Returns how many
/// edges were looked at, which is what the work costs.
pub fn touches(ground: &Ground, bodies: &[Body], within: f64, touches: &mut Vec<Touch>) -> u64 {
    touches.clear();
    let rings: Vec<Vec<Point>> = bodies.iter().map(|body| ring(ground, body)).collect();
    let mut work = 0;
    for (i, a) in bodies.iter().enumerate() {
        if !a.held {
            edge_touches(ground, (i, a), &rings[i], within, touches);
        }
        for (j, b) in bodies.iter().enumerate().skip(i + 1) {
            let limit = ground.need(a, b) + within;
            if (a.held && b.held) || are_apart(ground, a, b, limit + SAMPLE_DOUBT) {
                continue;
            }
            let (shape_a, shape_b) = (&ground.kinds[a.kind].shape, &ground.kinds[b.kind].shape);
            if shape_a.is_round && shape_b.is_round {
                touches.extend(disc_touch((i, a, shape_a.reach), (j, b, shape_b.reach)));
                work += 4;
                continue;
            }
            work += corner_touches(ground, ((i, a), &rings[i]), ((j, b), &rings[j]), limit, touches);
            work += corner_touches(ground, ((j, b), &rings[j]), ((i, a), &rings[i]), limit, touches);
        }
    }
    work
}

/// How far samples, which bounds are made of, may lie inside the true line, in millimetres.
const SAMPLE_DOUBT: f64 = 0.5;

fn ring(ground: &Ground, body: &Body) -> Vec<Point> {
    ground.kinds[body.kind].shape.corners.iter().map(|&corner| body.to_sheet(corner)).collect()
}

fn disc_touch((i, a, reach_a): (usize, &Body, f64), (j, b, reach_b): (usize, &Body, f64)) -> Option<Touch> {
    let away = a.at - b.at;
    let length = away.hypot2().sqrt();
    let normal = if length > 1e-9 { away / length } else { Vec2::new(1.0, 0.0) };
    Some(Touch {
        a: i,
        b: Some(j),
        normal,
        on_a: a.at - normal * reach_a,
        on_b: b.at + normal * reach_b,
        distance: length - reach_a - reach_b,
    })
}

/// The corners of `a` that are nearer than `limit` to the line of `b`.
fn corner_touches(
    ground: &Ground,
    (a, ring_a): ((usize, &Body), &[Point]),
    (b, ring_b): ((usize, &Body), &[Point]),
    limit: f64,
    touches: &mut Vec<Touch>,
) -> u64 {
    corners_near(ground, (a.1, ring_a), (b.1, ring_b), (limit, SAMPLE_DOUBT), |near| {
        let NearCorner { corner, nearest, normal, distance } = near;
        touches.push(Touch { a: a.0, b: Some(b.0), normal, on_a: corner, on_b: nearest, distance });
    })
}

/// The points of a body that are near the edge of the sheet: its four sides and its round corners.
fn edge_touches(
    ground: &Ground,
    (index, body): (usize, &Body),
    ring: &[Point],
    within: f64,
    touches: &mut Vec<Touch>,
) {
    let limit = ground.margin + within;
    let (width, height) = (ground.sheet.width, ground.sheet.height);
    let shape = &ground.kinds[body.kind].shape;
    let mut push = |normal: Vec2, on_a: Point, distance: f64| {
        if distance < limit {
            let on_b = on_a - normal * distance;
            touches.push(Touch { a: index, b: None, normal, on_a, on_b, distance });
        }
    };
    let sides = [
        (Vec2::new(1.0, 0.0), 0.0),
        (Vec2::new(-1.0, 0.0), width),
        (Vec2::new(0.0, 1.0), 0.0),
        (Vec2::new(0.0, -1.0), height),
    ];
    let disc = [body.at];
    // A disc is given by its centre, which lies further in.
    let (points, reach) = if shape.is_round { (&disc[..], shape.reach) } else { (ring, 0.0) };
    for &point in points {
        for (normal, offset) in sides {
            push(normal, point - normal * reach, point.to_vec2().dot(normal) + offset - reach);
        }
        let Some((centre, radius)) = ground.corner_circle(point) else { continue };
        let inward = centre - point;
        let length = inward.hypot2().sqrt();
        if length > 1e-9 {
            let normal = inward / length;
            push(normal, point - normal * reach, radius + ground.margin - length - reach);
        }
    }
}
