//! How much too near bodies are to each other and to the sheet's edge: the rough measure that guides the search.

use kurbo::{Point, Rect};

use crate::body::Body;
use crate::discs::disc_depth;
use crate::ground::Ground;

/// The point of a body that lies deepest in another, and how far outside the other it lies (negative: inside).
#[derive(Clone, Copy)]
pub struct Deepest {
    /// Distance to the other's line.
    pub value: f64,
    /// Where, in sheet millimetres.
    pub point: Point,
}

/// The point of `a` deepest in `b` of those that come nearer than `limit` to it; nothing if none does.
pub fn deepest(ground: &Ground, a: &Body, b: &Body, limit: f64) -> Option<Deepest> {
    let shape = &ground.kinds[b.kind].shape;
    let near = common(a.bounds, b.bounds.inflate(limit, limit))?;
    let reach = shape.reach + limit;
    let mut best = limit;
    let mut found = None;
    for &point in &a.points {
        if !holds(near, point) || (point - b.at).hypot2() > reach * reach {
            continue;
        }
        let value = shape.field.value(b.to_shape(point));
        if value < best {
            best = value;
            found = Some(point);
        }
    }
    found.map(|point| Deepest { value: best, point })
}

/// Whether two bodies are too far apart for a gap below `limit`, judged by their circles and boxes.
#[inline]
pub fn are_apart(ground: &Ground, a: &Body, b: &Body, limit: f64) -> bool {
    let reach = ground.kinds[a.kind].shape.reach + ground.kinds[b.kind].shape.reach + limit;
    (a.at - b.at).hypot2() >= reach * reach
        || a.bounds.x0 - b.bounds.x1 >= limit
        || b.bounds.x0 - a.bounds.x1 >= limit
        || a.bounds.y0 - b.bounds.y1 >= limit
        || b.bounds.y0 - a.bounds.y1 >= limit
}

/// By how many millimetres two bodies are nearer than `need`; zero if they are not. Rough, see [`crate::field`].
pub fn overlap(ground: &Ground, a: &Body, b: &Body, need: f64) -> f64 {
    if are_apart(ground, a, b, need) {
        return 0.0;
    }
    let (shape_a, shape_b) = (&ground.kinds[a.kind].shape, &ground.kinds[b.kind].shape);
    if shape_a.is_round && shape_b.is_round {
        return (need + shape_a.reach + shape_b.reach - (a.at - b.at).hypot2().sqrt()).max(0.0);
    }
    let by_discs = disc_depth(a, b);
    if by_discs > 0.0 {
        return need + by_discs;
    }
    let one = deepest(ground, a, b, need).map_or(0.0, |deepest| need - deepest.value);
    let other = deepest(ground, b, a, need).map_or(0.0, |deepest| need - deepest.value);
    one.max(other)
}

/// By how many millimetres a body is nearer to the sheet's edge than the margin; zero if it is not.
pub fn edge_overlap(ground: &Ground, body: &Body) -> f64 {
    let (inner, bounds) = (ground.inner(), body.bounds);
    let mut most = (inner.x0 - bounds.x0)
        .max(bounds.x1 - inner.x1)
        .max(inner.y0 - bounds.y0)
        .max(bounds.y1 - inner.y1)
        .max(0.0);
    if ground.sheet.corner_radius > ground.margin {
        for &point in &body.points {
            if let Some((centre, radius)) = ground.corner_circle(point) {
                most = most.max((point - centre).hypot2().sqrt() - radius);
            }
        }
    }
    most
}

fn common(a: Rect, b: Rect) -> Option<Rect> {
    let both = Rect::new(a.x0.max(b.x0), a.y0.max(b.y0), a.x1.min(b.x1), a.y1.min(b.y1));
    (both.x0 <= both.x1 && both.y0 <= both.y1).then_some(both)
}

#[inline]
fn holds(rect: Rect, point: Point) -> bool {
    point.x >= rect.x0 && point.x <= rect.x1 && point.y >= rect.y0 && point.y <= rect.y1
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    fn ground(corner_radius: f64) -> Ground {
        let stickers = [
            ("box", "M-5 -5H5V5H-5Z"),
            ("disc", "M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z"),
            ("cup", "M-10 -10H-7V7H7V-10H10V10H-10Z"),
        ]
        .map(|(id, data)| Sticker::new(id, id, path::parse(data).unwrap()));
        Ground::new(&Layout {
            sheet: Sheet { width: 100.0, height: 100.0, corner_radius, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: stickers.to_vec(),
            ..Layout::default()
        })
    }

    fn body(ground: &Ground, kind: usize, x: f64, y: f64) -> Body {
        Body::new(ground, kind, &Placement::at(x, y), false)
    }

    #[test]
    fn overlap_is_what_is_missing_to_the_spacing() {
        let ground = ground(0.0);
        let first = body(&ground, 0, 20.0, 20.0);
        for (x, expected) in [(32.0, 0.0), (31.0, 1.0), (29.5, 2.5), (26.0, 6.0)] {
            let found = overlap(&ground, &first, &body(&ground, 0, x, 20.0), 2.0);
            assert!((found - expected).abs() < 0.02, "{found} for {expected}");
        }
        let discs = overlap(&ground, &body(&ground, 1, 20.0, 20.0), &body(&ground, 1, 28.0, 20.0), 2.0);
        assert!((discs - 2.0).abs() < 0.02);
    }

    #[test]
    fn a_box_in_a_cup_is_measured_to_its_wall() {
        let ground = ground(0.0);
        let cup = body(&ground, 2, 50.0, 50.0);
        // The box in the cup's bay has 2 mm to the walls and 2 mm to the bottom.
        // In the inner corner, where the field bends, it is off by a quarter of its step.
        assert!(overlap(&ground, &cup, &body(&ground, 0, 50.0, 50.0), 2.0) < 0.1);
        assert!((overlap(&ground, &cup, &body(&ground, 0, 51.0, 50.0), 2.0) - 1.0).abs() < 0.1);
    }

    #[test]
    fn edges_and_round_corners_count() {
        assert_eq!(edge_overlap(&ground(0.0), &body(&ground(0.0), 0, 9.0, 9.0)), 0.0);
        assert_eq!(edge_overlap(&ground(0.0), &body(&ground(0.0), 0, 8.0, 20.0)), 1.0);
        // The corner lies 6 sqrt 2 from the arc's centre; 10 - 4 is allowed.
        let found = edge_overlap(&ground(10.0), &body(&ground(10.0), 0, 9.0, 9.0));
        assert!((found - (6.0 * 2f64.sqrt() - 6.0)).abs() < 1e-9);
    }
}
