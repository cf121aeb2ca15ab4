//! How small the polygons with so many sides are that go round a convex set.
//!
//! The smallest polygon with k sides round a convex set touches it with every side, so it is the set and, between each
//! tangent and the next, the corner between both and the set. The corner between the tangents in two directions is
//! contained in the corner between two directions that lie further apart on either side. So, if the directions are
//! cut into arcs and only the arc of each tangent is known, the corner from the end of one arc to the start of the next
//! is a lower bound. The best choice of arcs is found by taking tangents one by one, for every first arc; among k
//! tangents, one lies in any half of the circle.

use core::f64::consts::TAU;

use kurbo::{Point, Vec2};

use super::hull::area;

/// How many arcs the directions are cut into; even.
const ARCS: usize = 120;

/// The most sides looked at.
pub const MOST_SIDES: usize = 8;

/// Lower bounds of the areas of polygons round a convex set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PolygonsRound {
    /// The area of the set.
    pub area: f64,
    /// At number k, that of every polygon with k sides round it. From three on; below, no polygon is closed.
    pub with_sides: [f64; MOST_SIDES + 1],
}

/// The bounds for a convex ring, clockwise as seen; its area in all places if it has none.
pub fn polygons_round(hull: &[Point]) -> PolygonsRound {
    let own = area(hull).max(0.0);
    let mut with_sides = [own; MOST_SIDES + 1];
    if own > 0.0 {
        let corners = Corners::new(hull);
        let best = corners.least_sums();
        for (sides, least) in best.into_iter().enumerate().skip(3) {
            with_sides[sides] = own + least;
        }
    }
    PolygonsRound { area: own, with_sides }
}

/// For every arc, the corners to the arcs after it.
struct Corners {
    /// At `arc * GAPS + gap`, the least area of a corner from the arc to the one `gap` further on.
    areas: Vec<f64>,
}

/// Tangents that follow each other lie less than half the circle apart, so their arcs lie half of it apart or less.
const GAPS: usize = ARCS / 2 + 1;

impl Corners {
    fn new(hull: &[Point]) -> Corners {
        let tangents: Vec<Tangent> = (0..ARCS).map(|i| Tangent::new(hull, i)).collect();
        let mut areas = Vec::with_capacity(ARCS * GAPS);
        for arc in 0..ARCS {
            // From the end of this arc to the start of the other.
            let from = &tangents[(arc + 1) % ARCS];
            areas.extend(
                (0..GAPS)
                    .map(|gap| if gap < 2 { 0.0 } else { from.corner(&tangents[(arc + gap) % ARCS], hull) }),
            );
        }
        Corners { areas }
    }

    /// At number k, the least sum of the corners of k tangents all round.
    fn least_sums(&self) -> [f64; MOST_SIDES + 1] {
        let mut best = [f64::INFINITY; MOST_SIDES + 1];
        for first in 0..ARCS / 2 {
            // How cheaply each place, counted in arcs from the first, is come to with so many corners.
            let mut come = [f64::INFINITY; ARCS + 1];
            come[0] = 0.0;
            for best in &mut best[1..] {
                let mut next = [f64::INFINITY; ARCS + 1];
                for place in (0..ARCS).filter(|&place| come[place].is_finite()) {
                    let row = &self.areas[(first + place) % ARCS * GAPS..][..GAPS];
                    let reached = next[place..].iter_mut().zip(row);
                    for (next, corner) in reached {
                        *next = next.min(come[place] + corner);
                    }
                }
                *best = best.min(next[ARCS]);
                come = next;
            }
        }
        best
    }
}

/// The side of a half plane that touches the hull in one direction.
struct Tangent {
    normal: Vec2,
    /// The number of the corner it touches.
    touches: usize,
    distance: f64,
}

impl Tangent {
    fn new(hull: &[Point], number: usize) -> Tangent {
        let (sine, cosine) = libm::sincos(TAU * number as f64 / ARCS as f64);
        let normal = Vec2::new(cosine, sine);
        let reach = |&i: &usize| hull[i].to_vec2().dot(normal);
        let touches = (0..hull.len()).max_by(|a, b| reach(a).total_cmp(&reach(b))).unwrap_or(0);
        Tangent { normal, touches, distance: reach(&touches) }
    }

    /// The area between this tangent, one further on, and the hull.
    fn corner(&self, other: &Tangent, hull: &[Point]) -> f64 {
        let cross = self.normal.cross(other.normal);
        if cross <= 0.0 || self.touches == other.touches {
            return 0.0;
        }
        let along = self.normal * other.distance - other.normal * self.distance;
        let meet = Point::new(-along.y / cross, along.x / cross);
        let mut ring = vec![meet, hull[other.touches]];
        let mut corner = other.touches;
        while corner != self.touches {
            corner = (corner + hull.len() - 1) % hull.len();
            ring.push(hull[corner]);
        }
        // A part in a million less, so that rounding does not help.
        (area(&ring).abs() - 1e-9).max(0.0) * (1.0 - 1e-6)
    }
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use stickleaf_outline::shapes;

    use super::*;

    #[test]
    fn regular_polygons_go_round_a_disc() {
        let found = polygons_round(shapes::disc(10.0, 720).points());
        for sides in 3..=MOST_SIDES {
            // k tan(pi / k) r².
            let exact = sides as f64 * libm::tan(PI / sides as f64) * 100.0;
            let bound = found.with_sides[sides];
            assert!(bound <= exact, "{sides}: {bound} {exact}");
            let own = PI * 100.0;
            assert!(bound - own > 0.7 * (exact - own), "{sides}: {bound} {exact}");
        }
    }

    #[test]
    fn a_box_is_its_own_polygon() {
        let found = polygons_round(shapes::rectangle(30.0, 20.0).points());
        assert!((found.area - 600.0).abs() < 1e-9);
        assert!(found.with_sides[4] <= 600.0 + 1e-9 && found.with_sides[4] > 599.9);
        // The smallest triangle round a box has twice its area.
        assert!(found.with_sides[3] <= 1200.0 && found.with_sides[3] > 1050.0, "{}", found.with_sides[3]);
    }
}
