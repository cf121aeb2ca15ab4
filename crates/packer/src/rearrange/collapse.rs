//! Outlines with few corners, for a search that is to be quick before it is exact.
//!
//! The stretch between two corners that matters least is taken out, and in its place comes one corner, so placed that the
//! area inside stays the same; again and again. What comes out runs through the middle of the line: outside it as much
//! as inside, bays included.
//!
//! Source: B. J. Kronenfeld, L. V. Stanislawski, B. P. Buttenfield, T. Brockmeyer, "Simplification of polylines by segment
//! collapse: minimizing areal displacement while preserving area", International Journal of Cartography 6 (2020).

use kurbo::{Point, Vec2};

/// The ring with at most so many corners, or with fewer as long as no collapse moves more than this share of the area.
/// Its own area stays the same. It may cross itself where it is thin.
///
/// Cost: the number of corners squared.
pub fn collapsed(ring: &[Point], most: usize, share: f64) -> Vec<Point> {
    let mut ring = ring.to_vec();
    let limit = stickleaf_outline::ring_area(&ring).abs() * share;
    let mut collapses: Vec<Collapse> = (0..ring.len()).map(|second| collapse(&ring, second)).collect();
    while ring.len() > 4 {
        let cheapest = |&a: &usize, &b: &usize| collapses[a].moved.total_cmp(&collapses[b].moved);
        let Some(second) = (0..ring.len()).min_by(cheapest) else { break };
        let Collapse { moved, corner } = collapses[second];
        if moved == f64::INFINITY || (ring.len() <= most && moved > limit) {
            break;
        }
        let third = (second + 1) % ring.len();
        ring[second] = corner;
        ring.remove(third);
        collapses.remove(third);
        let count = ring.len();
        let now = if third == 0 { second - 1 } else { second };
        for around in [count - 3, count - 2, count - 1, 0, 1, 2] {
            let index = (now + around) % count;
            collapses[index] = collapse(&ring, index);
        }
    }
    ring
}

/// One corner in place of two.
#[derive(Clone, Copy)]
struct Collapse {
    /// The area that changes sides.
    moved: f64,
    corner: Point,
}

/// What comes of collapsing the edge from the corner at `second` to the next.
fn collapse(ring: &[Point], second: usize) -> Collapse {
    let count = ring.len();
    let at = |index: usize| ring[(index + count) % count];
    let (a, b, c, d) = (at(second + count - 1), at(second), at(second + 1), at(second + 2));
    let cross = |from: Point, to: Point, point: Point| (to - from).cross(point - from);
    // The new corner lies on a line along a-d, so far off that the area stays.
    let along = d - a;
    let length2 = along.hypot2();
    let twice = (b - a).cross(c - a) + (c - a).cross(d - a);
    if length2 < 1e-12 {
        return Collapse { moved: f64::INFINITY, corner: b };
    }
    // Twice the area of the triangle a, corner, d.
    let (height_b, height_c) = (-cross(a, d, b), -cross(a, d, c));
    let on = |from: Point, direction: Vec2, height: f64| {
        let slope = -along.cross(direction);
        (slope.abs() > 1e-9).then(|| from + direction * ((twice - height) / slope))
    };
    // On the line of a-b if b is the further one of the two, otherwise on the line of c-d.
    let is_b =
        if height_b * height_c < 0.0 { height_b * twice > 0.0 } else { height_b.abs() > height_c.abs() };
    let corner = if is_b { on(b, b - a, height_b) } else { on(c, c - d, height_c) };
    let Some(corner) = corner else {
        let moved = if twice.abs() < 1e-9 { 0.0 } else { f64::INFINITY };
        return Collapse { moved, corner: b };
    };
    // The old line and the new one cross once, and what lies between them is as much on the one side as on the other: no
    // more than either of these triangles.
    let triangle = |p: Point, q: Point, r: Point| ((q - p).cross(r - p) / 2.0).abs();
    let other = if is_b { triangle(corner, c, d) } else { triangle(a, b, corner) };
    let moved = triangle(b, c, corner).min(other);
    Collapse { moved, corner }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{ring_area, shapes};

    use super::*;

    #[test]
    fn a_disc_becomes_a_polygon_of_the_same_area() {
        let disc = shapes::disc(10.0, 200);
        let rough = collapsed(disc.points(), 12, 0.0);
        assert_eq!(rough.len(), 12);
        assert!((ring_area(&rough) - ring_area(disc.points())).abs() < 1e-6);
        assert!(rough.iter().all(|corner| (81.0..121.0).contains(&corner.to_vec2().hypot2())), "{rough:?}");
    }

    #[test]
    fn a_bay_stays() {
        let l = shapes::l(20.0);
        let rough = collapsed(l.points(), 6, 0.0);
        assert_eq!(rough, l.points());
    }
}
