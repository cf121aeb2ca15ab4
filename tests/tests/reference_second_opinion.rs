//! The same questions asked of other libraries: borders and set arithmetic of `i_overlay`, distances of `geo`.
//!
//! Neither is used by the crates under test. The shapes are made at random from seeds written here.

use core::f64::consts::{PI, TAU};

use geo::algorithm::line_measures::{Distance, Euclidean};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};
use i_overlay::mesh::math::MathMode;
use kurbo::Point;
use stickleaf_outline::{BORDER_TOLERANCE, Outline, Placement, Region, border, gap};
use tests::shapes::{Chance, outline};

/// The turn between two points of a round join of the other library, in radians.
const STEP: f64 = PI / 60.0;

/// Blobs and ragged stars by turns.
fn shapes(seed: u64, count: usize) -> Vec<Outline> {
    let mut chance = Chance::new(seed);
    (0..count).map(|i| outline(&if i % 2 == 0 { chance.blob() } else { chance.ragged_star() })).collect()
}

/// The ring as the other library takes it: counter-clockwise with y up, as ours is in the numbers.
fn ring(outline: &Outline) -> Vec<[f64; 2]> {
    outline.points().iter().map(|point| [point.x, point.y]).collect()
}

fn ring_area(ring: &[[f64; 2]]) -> f64 {
    let cross = |a: [f64; 2], b: [f64; 2]| a[0] * b[1] - b[0] * a[1];
    (0..ring.len()).map(|i| cross(ring[i], ring[(i + 1) % ring.len()])).sum::<f64>() / 2.0
}

/// The area of shapes of the other library: outer rings count positive, holes negative.
fn area(shapes: &[Vec<Vec<[f64; 2]>>]) -> f64 {
    shapes.iter().flatten().map(|ring| ring_area(ring)).sum()
}

/// The other library's region within `width` of the outline.
fn grown(outline: &Outline, width: f64) -> Vec<Vec<Vec<[f64; 2]>>> {
    let mut style = OutlineStyle::new(width).line_join(LineJoin::Round(STEP));
    style.math = MathMode::Float;
    ring(outline).outline_as::<i64>(&style)
}

#[test]
fn borders_agree_with_another_library() {
    let mut chance = Chance::new(7);
    for (i, shape) in shapes(200, 200).iter().enumerate() {
        let width = chance.between(0.3, 4.0);
        let line = border(shape, width);
        let others = grown(shape, width);
        // Ours fills the bays that close; so the outer ring is what to compare, and there is one.
        assert_eq!(others.len(), 1, "{i}");
        let other = ring_area(&others[0][0]);
        // The other's chords cut at most their depth off its round joins, whose length is below that of the line.
        // Ours lies between the exact width and the tolerance above it.
        let chords = width * (1.0 - libm::cos(STEP / 2.0)) * line.perimeter();
        let band = BORDER_TOLERANCE * (line.perimeter() + TAU * BORDER_TOLERANCE);
        let more = line.area() - other;
        assert!(more >= -1e-6 * other && more <= chords + band, "{i} {width}: {more} of {}", chords + band);
    }
}

#[test]
fn grown_and_shrunk_regions_agree_with_another_library() {
    const CHORD: f64 = 0.000_5;
    for (i, shape) in shapes(300, 200).iter().enumerate() {
        for width in [1.5, 0.4, -0.4, -1.0] {
            let ours = Region::of(shape).grown(width, CHORD);
            let others = grown(shape, width);
            let length: f64 = ours.rings().map(|ring| length(&ring)).sum();
            // Both draw round joins with chords; the depth of either is the most that they can differ along a ring.
            let chords = CHORD.max(width.abs() * (1.0 - libm::cos(STEP / 2.0)));
            let most = chords * length + 1e-5 * shape.perimeter() + 1e-6 * shape.area();
            let apart = ours.area() - area(&others);
            assert!(apart.abs() <= most, "{i} {width}: {apart} of {most}");
        }
    }
}

fn length(ring: &[Point]) -> f64 {
    (0..ring.len()).map(|i| (ring[(i + 1) % ring.len()] - ring[i]).hypot2().sqrt()).sum()
}

/// Pairs of shapes, the second moved and turned so that it comes near the first.
fn pairs(seed: u64) -> Vec<(Outline, Outline)> {
    let mut chance = Chance::new(seed);
    let all = shapes(seed, 200);
    all.chunks_exact(2)
        .map(|pair| {
            let (x, y) = (chance.between(-25.0, 25.0), chance.between(-25.0, 25.0));
            (pair[0].clone(), pair[1].placed(&Placement::turned(x, y, chance.between(0.0, 360.0))))
        })
        .collect()
}

#[test]
fn set_arithmetic_agrees_with_another_library() {
    let mut overlapping = 0;
    for (i, (a, b)) in pairs(400).iter().enumerate() {
        let (first, second) = (Region::of(a), Region::of(b));
        let (one, two) = (ring(a), ring(b));
        for (ours, rule) in [
            (first.union(&second), OverlayRule::Union),
            (first.intersection(&second), OverlayRule::Intersect),
            (first.difference(&second), OverlayRule::Difference),
        ] {
            let other = area(&one.overlay_as::<i64>(&two, rule, FillRule::NonZero));
            // Ours rounds every corner to ten nanometres, by at most 0.71 of that.
            let most = 1e-5 * (a.perimeter() + b.perimeter());
            assert!((ours.area() - other).abs() <= most, "{i} {rule:?}: {} {other}", ours.area());
        }
        overlapping += usize::from(!first.intersection(&second).is_empty());
    }
    // The pairs must not all be trivial.
    assert!((20..=80).contains(&overlapping), "{overlapping}");
}

fn polygon(outline: &Outline) -> geo::Polygon<f64> {
    let ring: Vec<(f64, f64)> = outline.points().iter().map(|point| (point.x, point.y)).collect();
    geo::Polygon::new(ring.into(), Vec::new())
}

#[test]
fn gaps_agree_with_another_library() {
    let mut apart = 0;
    for (i, (a, b)) in pairs(500).iter().enumerate() {
        let other = Euclidean.distance(&polygon(a), &polygon(b));
        let ours = gap(a, b).distance;
        assert!((ours - other).abs() < 1e-9, "{i}: {ours} {other}");
        apart += usize::from(other > 0.0);
    }
    assert!((20..=90).contains(&apart), "{apart}");
}
