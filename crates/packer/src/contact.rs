//! Places where bodies are near each other or the sheet's edge, told as how far which must move in which direction.

use kurbo::{Point, Vec2};

use crate::body::Body;
use crate::discs::{disc_depth, disc_direction};
use crate::ground::Ground;
use crate::overlap::{Deepest, are_apart, deepest};

/// One body must move along the normal, or another against it, by `depth` in all.
#[derive(Clone, Copy, Debug)]
pub struct Contact {
    /// The body pushed along the normal.
    pub a: usize,
    /// The body pushed against it; nothing for the sheet's edge.
    pub b: Option<usize>,
    /// A direction on the sheet, of length one.
    pub normal: Vec2,
    /// How far the touching point of `a` moves along the normal for each radian that `a` turns.
    pub lever_a: f64,
    /// The same of `b`.
    pub lever_b: f64,
    /// Millimetres missing; negative where there is room left.
    pub depth: f64,
}

/// What is asked beyond the rules, for spreading pieces: more spacing and more margin, in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extra {
    /// Added to every distance between two bodies.
    pub spacing: f64,
    /// Added to the margin.
    pub margin: f64,
}

/// Rough contacts of all bodies, with those that have up to `near` millimetres of room left.
///
/// Returns how many points were looked up, which is what the work costs.
pub fn rough_contacts(
    ground: &Ground,
    bodies: &[Body],
    extra: Extra,
    near: f64,
    contacts: &mut Vec<Contact>,
) -> u64 {
    contacts.clear();
    let mut work = 0;
    for (i, a) in bodies.iter().enumerate() {
        if !a.held {
            edge_contacts(ground, (i, a), &a.points, extra.margin, near, contacts);
            work += a.points.len() as u64 / 8;
        }
        for (j, b) in bodies.iter().enumerate().skip(i + 1) {
            let need = ground.need(a, b) + extra.spacing;
            if (a.held && b.held) || are_apart(ground, a, b, need + near) {
                continue;
            }
            let (shape_a, shape_b) = (&ground.kinds[a.kind].shape, &ground.kinds[b.kind].shape);
            if shape_a.is_round && shape_b.is_round {
                contacts.extend(disc_contact((i, a, shape_a.reach), (j, b, shape_b.reach), need));
                work += 4;
                continue;
            }
            let by_discs = disc_depth(a, b);
            work += 10;
            if by_discs > 0.0
                && let Some((normal, middle)) = disc_direction(a, b)
            {
                contacts.push(contact((i, a), (j, b), normal, (middle, middle), need + by_discs));
                continue;
            }
            let found_a = deepest(ground, a, b, need + near);
            let found_b = deepest(ground, b, a, need + near);
            let deep = |found: Option<Deepest>| found.is_some_and(|found| found.value < 0.0);
            if deep(found_a) || deep(found_b) {
                let value = |found: Option<Deepest>| found.map_or(0.0, |found| found.value);
                let depth = need - value(found_a).min(value(found_b));
                contacts.push(crossing_contact(ground, (i, a), (j, b), depth));
                work += ((a.points.len() + b.points.len()) / 2) as u64;
            } else {
                contacts.extend(found_a.map(|found| field_contact(ground, (i, a), (j, b), need, found)));
                contacts.extend(found_b.map(|found| field_contact(ground, (j, b), (i, a), need, found)));
            }
            work += ((a.points.len() + b.points.len()) / 2) as u64;
        }
    }
    work
}

fn disc_contact(
    (i, a, reach_a): (usize, &Body, f64),
    (j, b, reach_b): (usize, &Body, f64),
    need: f64,
) -> Option<Contact> {
    let away = a.at - b.at;
    let length = away.hypot2().sqrt();
    let normal = if length > 1e-9 { away / length } else { Vec2::new(1.0, 0.0) };
    let depth = need + reach_a + reach_b - length;
    Some(Contact { a: i, b: Some(j), normal, lever_a: 0.0, lever_b: 0.0, depth })
}

/// The contact of a point of `a` in the field of `b`.
fn field_contact(
    ground: &Ground,
    (i, a): (usize, &Body),
    (j, b): (usize, &Body),
    need: f64,
    found: Deepest,
) -> Contact {
    let outward = ground.kinds[b.kind].shape.field.outward(b.to_shape(found.point));
    let normal = if outward == Vec2::ZERO { away_from(a, b) } else { b.direction_to_sheet(outward) };
    // The nearest point of the other's line, about which it turns.
    let on_other = found.point - normal * found.value;
    contact((i, a), (j, b), normal, (found.point, on_other), need - found.value)
}

/// One contact for two bodies that lie on each other.
///
/// Where lines cross, the nearest way out differs from point to point, and two points could ask for opposite things. So
/// all points that lie in the other body vote, each as much as it lies deep.
fn crossing_contact(ground: &Ground, (i, a): (usize, &Body), (j, b): (usize, &Body), depth: f64) -> Contact {
    let (mut vote, mut moment, mut total) = (Vec2::ZERO, Vec2::ZERO, 0.0);
    for (from, into, sign) in [(a, b, 1.0), (b, a, -1.0)] {
        let shape = &ground.kinds[into.kind].shape;
        for &point in &from.points {
            if !into.bounds.contains(point) {
                continue;
            }
            let local = into.to_shape(point);
            let value = shape.field.value(local);
            if value < 0.0 {
                vote -= into.direction_to_sheet(shape.field.outward(local)) * (value * sign);
                moment -= point.to_vec2() * value;
                total -= value;
            }
        }
    }
    let length = vote.hypot2().sqrt();
    // Votes that cancel say nothing: then the centres decide.
    let normal = if length > 0.1 * total && total > 0.0 { vote / length } else { away_from(a, b) };
    let middle = if total > 0.0 { (moment / total).to_point() } else { a.at.midpoint(b.at) };
    contact((i, a), (j, b), normal, (middle, middle), depth)
}

fn away_from(a: &Body, b: &Body) -> Vec2 {
    let away = a.at - b.at;
    let length = away.hypot2().sqrt();
    if length > 1e-9 { away / length } else { Vec2::new(1.0, 0.0) }
}

/// The contact of two bodies at these points of them.
pub fn contact(
    (i, a): (usize, &Body),
    (j, b): (usize, &Body),
    normal: Vec2,
    (on_a, on_b): (Point, Point),
    depth: f64,
) -> Contact {
    let lever = |body: &Body, point: Point| (point - body.at).cross(normal);
    Contact { a: i, b: Some(j), normal, lever_a: lever(a, on_a), lever_b: lever(b, on_b), depth }
}

/// Contacts of a body, given by points of it, with the four sides and the round corners of the sheet.
pub fn edge_contacts(
    ground: &Ground,
    (index, body): (usize, &Body),
    points: &[Point],
    extra_margin: f64,
    near: f64,
    contacts: &mut Vec<Contact>,
) {
    let inner = ground.inner().inset(-extra_margin);
    let mut push = |normal: Vec2, point: Point, depth: f64| {
        let lever_a = (point - body.at).cross(normal);
        contacts.push(Contact { a: index, b: None, normal, lever_a, lever_b: 0.0, depth });
    };
    let limit = near.max(0.0);
    if body.bounds.x0 - inner.x0 < limit {
        extreme(points, |p| p.x).inspect(|&p| push(Vec2::new(1.0, 0.0), p, inner.x0 - p.x));
    }
    if inner.x1 - body.bounds.x1 < limit {
        extreme(points, |p| -p.x).inspect(|&p| push(Vec2::new(-1.0, 0.0), p, p.x - inner.x1));
    }
    if body.bounds.y0 - inner.y0 < limit {
        extreme(points, |p| p.y).inspect(|&p| push(Vec2::new(0.0, 1.0), p, inner.y0 - p.y));
    }
    if inner.y1 - body.bounds.y1 < limit {
        extreme(points, |p| -p.y).inspect(|&p| push(Vec2::new(0.0, -1.0), p, p.y - inner.y1));
    }
    let mut deepest: Option<(f64, Point, Vec2)> = None;
    if ground.sheet.corner_radius > ground.margin {
        for &point in points {
            let Some((centre, radius)) = ground.corner_circle(point) else { continue };
            let inward = centre - point;
            let length = inward.hypot2().sqrt();
            let depth = length - (radius - extra_margin).max(0.0);
            if depth > -near && length > 1e-9 && deepest.is_none_or(|(most, _, _)| depth > most) {
                deepest = Some((depth, point, inward / length));
            }
        }
    }
    if let Some((depth, point, normal)) = deepest {
        push(normal, point, depth);
    }
}

fn extreme(points: &[Point], key: impl Fn(&Point) -> f64) -> Option<Point> {
    points.iter().copied().min_by(|a, b| key(a).total_cmp(&key(b)))
}
