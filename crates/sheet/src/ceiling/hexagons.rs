//! The bound by polygons round the pieces.
//!
//! Convex sets in a convex polygon with six sides or fewer, none of them reaching into another, can be widened to convex
//! polygons of which the same is true and that have six sides each, on average, or fewer. Source: L. Fejes Tóth, "Some
//! packing and covering theorems", Acta Scientiarum Mathematicarum (Szeged) 12 A (1950); J. Pach and P. Agarwal,
//! "Combinatorial Geometry", Wiley 1995, chapter 3.
//!
//! So take a convex part of each grown piece, and of each place where no grown piece can be, in the box about the ground.
//! Let a(k) be the least area of a polygon with k sides round such a part. The areas a(k) add up to no more than the box,
//! while the numbers k - 6 add up to nothing or less. Hence, for every price p of a side, the sums of a(k) + p (k - 6), and
//! all the more the sums of the least of these for every part, are no more than the box. With p = 0 this is the bound by
//! area; for discs the best price makes it nearly the density of the hexagonal lattice. For a part of the ground taken
//! by nobody, a(k) is its area or more, and k is 3 or more.

use kurbo::Rect;
use stickleaf_outline::Region;

use super::convex_part::convex_part;
use super::ground::thinned_ring;
use super::hull::area;
use super::kind::Kind;
use super::points::{bounds, rectangle};
use super::polygons_round::{MOST_SIDES, PolygonsRound};
use super::weights::{Holding, most_by_weight};

/// Shares of a kind's own best price that are tried.
const SHARES: [f64; 5] = [0.6, 0.8, 1.0, 1.2, 1.4];

/// How finely places without pieces are drawn, in millimetres; they are made twice as much smaller.
const COARSE: f64 = 0.015;

/// How many places without pieces are looked at.
const MOST_PLACES: usize = 8;

/// The most pieces by polygons round them; nothing if what must be there is too much by itself.
///
/// `polygons` belong to the kinds in their order. If it can be no less than `known`, more than that may come back.
pub fn most_by_polygons(
    kinds: &[Kind],
    polygons: &[PolygonsRound],
    ground: &Region,
    known: usize,
    holding: Holding,
) -> Option<usize> {
    let most = |capacity: &dyn Fn(f64) -> f64| {
        let mut best = usize::MAX;
        for own in polygons {
            for share in SHARES {
                let price = share * (own.with_sides[5] - own.with_sides[7]) / 2.0;
                let weights: Vec<f64> = polygons.iter().map(|polygons| weight(polygons, price)).collect();
                best = best.min(most_by_weight(kinds, &weights, capacity(price), holding)?);
            }
        }
        Some(best)
    };
    // What is no ground can be taken off at best in full.
    let area = ground.area();
    if most(&|_| area).is_some_and(|most| most >= known) {
        return Some(usize::MAX);
    }
    let around = bounds(&ground.rings().flatten().collect::<Vec<_>>());
    let empty = empty_places(ground, around);
    most(&|price| around.area() - empty.iter().map(|area| (area - 3.0 * price).max(0.0)).sum::<f64>())
}

/// The least of a(k) + p (k - 6).
fn weight(polygons: &PolygonsRound, price: f64) -> f64 {
    let with_sides = (3..=MOST_SIDES).map(|sides| polygons.with_sides[sides] + price * (sides as f64 - 6.0));
    let with_more = polygons.area + price * (MOST_SIDES + 1 - 6) as f64;
    with_sides.fold(with_more, f64::min)
}

/// The areas of convex parts of the places in the box that are no ground.
fn empty_places(ground: &Region, around: Rect) -> Vec<f64> {
    let empty = rectangle(around).difference(ground).grown(-2.0 * COARSE, COARSE / 2.0);
    let mut rings: Vec<_> = empty.rings().map(|ring| (area(&ring), thinned_ring(ring, COARSE))).collect();
    // A ring round others is rare and left out: its convex part might take in what lies inside.
    let has_holes = rings.iter().any(|(area, _)| *area < 0.0);
    if has_holes {
        return Vec::new();
    }
    rings.sort_by(|a, b| b.0.total_cmp(&a.0));
    rings.truncate(MOST_PLACES);
    rings.iter().filter_map(|(_, ring)| convex_part(ring)).map(|part| area(&part)).collect()
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use kurbo::Point;
    use proptest::prelude::*;
    use stickleaf_outline::shapes;

    use super::*;
    use crate::ceiling::polygons_round::polygons_round;
    use crate::ceiling::slack::GRAIN;

    #[test]
    fn discs_are_held_to_nearly_the_density_of_the_hexagonal_lattice() {
        let disc = shapes::disc(5.0, 720);
        let kinds = [Kind { grown_area: disc.area(), ..Kind::sample() }];
        let ground = rectangle(Rect::new(0.0, 0.0, 1000.0, 1000.0));
        let most = most_by_polygons(
            &kinds,
            &[polygons_round(disc.points())],
            &ground,
            usize::MAX,
            Holding::Anything,
        )
        .unwrap();
        let by_area = 1e6 / (PI * 25.0);
        let lattice = by_area * PI / 12f64.sqrt();
        assert!(
            most as f64 > lattice && (most as f64) < lattice + 0.25 * (by_area - lattice),
            "{most} {lattice}"
        );
    }

    #[test]
    fn empty_places_are_taken_off() {
        let ground = rectangle(Rect::new(0.0, 0.0, 100.0, 100.0))
            .difference(&rectangle(Rect::new(40.0, 0.0, 60.0, 50.0)));
        let found = empty_places(&ground, Rect::new(0.0, 0.0, 100.0, 100.0));
        assert!(found.len() == 1 && found[0] > 995.0 && found[0] <= 1000.0, "{found:?}");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// The convex parts that a rectangle falls into fit into it: boxes, triangles, and what is left of them.
        #[test]
        fn the_parts_of_a_rectangle_are_within_the_bound(
            columns in proptest::collection::vec(5.0..30.0f64, 1..5),
            rows in proptest::collection::vec(5.0..30.0f64, 1..5),
            halved in any::<u16>(),
        ) {
            let (mut parts, mut x) = (Vec::new(), 0.0);
            for width in &columns {
                let mut y = 0.0;
                for height in &rows {
                    let [a, b, c, d] =
                        [(x, y), (x + width, y), (x + width, y + height), (x, y + height)].map(Point::from);
                    if halved >> (parts.len() % 16) & 1 == 1 {
                        parts.extend([vec![a, b, c], vec![a, c, d]]);
                    } else {
                        parts.push(vec![a, b, c, d]);
                    }
                    y += height;
                }
                x += width;
            }
            let polygons: Vec<PolygonsRound> = parts.iter().map(|part| polygons_round(part)).collect();
            let kind = |part: &Vec<Point>| Kind {
                grown_area: area(part),
                least: 1,
                most: Some(1),
                ..Kind::sample()
            };
            let kinds: Vec<Kind> = parts.iter().map(kind).collect();
            // Regions are rounded, so they are drawn a hair too large.
            let ground = rectangle(Rect::new(0.0, 0.0, x, rows.iter().sum()).inflate(GRAIN, GRAIN));
            let most = most_by_polygons(&kinds, &polygons, &ground, usize::MAX, Holding::Wanted);
            prop_assert_eq!(most, Some(parts.len()));
            // One of them is missing: its place is empty.
            let without = ground.difference(&Region::from_rings([&parts[0][..]]));
            if parts.len() > 1 {
                let most = most_by_polygons(&kinds[1..], &polygons[1..], &without, usize::MAX, Holding::Wanted);
                prop_assert_eq!(most, Some(parts.len() - 1));
            }
        }
    }
}
