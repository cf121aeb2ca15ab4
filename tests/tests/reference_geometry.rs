//! Areas, offsets, distances and validity against values from independent libraries.
//!
//! Source of every value, unless a comment names another: `data/geometry-oracle.json`, worked out with Shapely on GEOS
//! and cross-checked with pyclipper; the file names their versions and its own tolerances. Its y points up and ours
//! down: a reflection, which keeps areas and distances as long as the numbers are put into the same formulae.

use core::f64::consts::{FRAC_1_SQRT_2, PI};

use kurbo::{Point, Vec2};
use serde_json::Value;
use stickleaf_outline::{BORDER_TOLERANCE, GRID, Outline, OutlineError, Placement, Region, border, gap};
use tests::data;
use tests::shapes::{GRID_SHIFT, outline};

/// How far the chords of round corners may stray in these tests, in millimetres.
const CHORD: f64 = 0.001;

/// A shape of the file: its outer ring, its holes, and what is known of it.
struct Shape {
    name: String,
    shell: Vec<Point>,
    holes: Vec<Vec<Point>>,
    known: Value,
}

impl Shape {
    fn region(&self) -> Region {
        let holes = Region::from_rings(self.holes.iter().map(Vec::as_slice));
        Region::of(&outline(&self.shell)).difference(&holes)
    }

    fn rings(&self) -> impl Iterator<Item = &[Point]> {
        core::iter::once(self.shell.as_slice()).chain(self.holes.iter().map(Vec::as_slice))
    }

    /// Each offset distance that the file knows, with what it says of it.
    fn offsets(&self) -> impl Iterator<Item = (f64, &Value)> {
        let offsets = self.known["offsets"].as_object().expect("every shape has offsets");
        offsets.iter().map(|(distance, known)| (distance.parse().expect("a distance in mm"), known))
    }

    /// The file's tolerance for arcs made of chords: chord error times the length of all round joins, and a millionth
    /// of the area.
    fn chord_tolerance(&self, distance: f64, area: f64) -> f64 {
        let turns: f64 = self.rings().map(|ring| round_turns(ring, distance > 0.0)).sum();
        CHORD * distance.abs() * turns + 1e-6 * area
    }
}

/// The sum of the turns in radians, to one side or the other, that a ring makes at its corners; at least one round.
///
/// Holes run whichever way they are written, so the larger of both sums is taken: a bound, not a measure.
fn round_turns(ring: &[Point], outward: bool) -> f64 {
    let count = ring.len();
    let (mut left, mut right) = (0.0, 0.0);
    for i in 0..count {
        let before = ring[i] - ring[(i + count - 1) % count];
        let after = ring[(i + 1) % count] - ring[i];
        let turn = libm::atan2(before.cross(after), before.dot(after));
        if turn > 0.0 { left += turn } else { right -= turn }
    }
    // A convex ring has round joins on its outer side only.
    if outward { left.max(right) } else { left.max(right).max(2.0 * PI) }
}

fn shapes() -> Vec<Shape> {
    let oracle = data::read("geometry-oracle.json");
    let polygons = oracle["polygons"].as_object().expect("the file has polygons");
    polygons
        .iter()
        .map(|(name, known)| Shape {
            name: name.clone(),
            shell: data::points(&known["shell"]),
            holes: data::list(known, "holes").iter().map(data::points).collect(),
            known: known.clone(),
        })
        .collect()
}

#[test]
fn area_length_and_centre() {
    let all = shapes();
    assert_eq!(all.len(), 12);
    for shape in all {
        let shell = outline(&shape.shell);
        let known = |key| data::number(&shape.known, key);
        let near = |found: f64, expected: f64| (found - expected).abs() <= 1e-12 * expected.abs();
        assert!(near(shell.perimeter(), known("perimeter_shell")), "{}", shape.name);
        let region = shape.region();
        // The region is computed in whole units of ten nanometres and every corner lies on the micrometre grid, so
        // nothing is rounded.
        let area = known("area");
        assert!((region.area() - area).abs() <= 1e-9 * area, "{}: {} {area}", shape.name, region.area());
        if shape.holes.is_empty() {
            assert!(near(shell.area(), area), "{}", shape.name);
            let apart = shell.centroid() - data::point(&shape.known["centroid"]);
            // The file's 1e-12 is of the size of the shape, since two of these centres are zero but for rounding.
            assert!(apart.hypot2().sqrt() <= 1e-12 * shell.perimeter(), "{}: {apart:?}", shape.name);
        }
    }
}

#[test]
fn grown_and_shrunk_regions() {
    for shape in shapes() {
        for (distance, known) in shape.offsets() {
            let exact = data::number(known, "area");
            let found = shape.region().grown(distance, CHORD);
            let missing = (exact - found.area()) * distance.signum();
            // A grown region is promised to be never too large and a shrunk one never too small, but for rounding: a
            // corner is rounded to ten nanometres when it is offset and once more where offset edges cross, each time
            // by at most half the diagonal of that.
            let rounding = 2.0 * 1e-5 * FRAC_1_SQRT_2 * data::number(&shape.known, "perimeter_total");
            let most = shape.chord_tolerance(distance, exact) + rounding;
            assert!(
                missing >= -rounding && missing <= most,
                "{} {distance}: {missing} of {most}",
                shape.name
            );
            // In y down the outer rings run clockwise and have a positive area, as in the file with y up.
            let is_hole = |ring: &Vec<Point>| signed_area(ring) < 0.0;
            let holes = found.rings().filter(is_hole).count();
            let parts = found.rings().count() - holes;
            assert_eq!(
                (parts, holes),
                (data::count(known, "n_parts"), data::count(known, "n_holes")),
                "{} {distance}",
                shape.name
            );
        }
    }
}

fn signed_area(ring: &[Point]) -> f64 {
    let next = |i: usize| ring[(i + 1) % ring.len()].to_vec2();
    (0..ring.len()).map(|i| ring[i].to_vec2().cross(next(i))).sum::<f64>() / 2.0
}

#[test]
fn border_lies_between_the_exact_width_and_its_tolerance() {
    for shape in shapes().iter().filter(|shape| shape.holes.is_empty()) {
        for (distance, known) in shape.offsets().filter(|(distance, _)| *distance > 0.0) {
            let closed_bay = if data::count(known, "n_holes") == 1 { closed_bay_of_the_c() } else { 0.0 };
            let exact = data::number(known, "area") + closed_bay;
            let line = border(&outline(&shape.shell), distance);
            // A band along the line, as wide as the tolerance; its outer edge is longer than the line by what a full
            // turn adds.
            let most = BORDER_TOLERANCE * (line.perimeter() + 2.0 * PI * BORDER_TOLERANCE);
            let more = line.area() - exact;
            assert!(more >= 0.0 && more <= most, "{} {distance}: {more} of {most}", shape.name);
        }
    }
}

/// The hole that a border of 3 mm leaves in the C-shape, which ours fills.
///
/// The bay reaches from x = 8 to 24 and y = 8 to 26, so 3 mm less on each side are 10 x 12 mm up to x = 21. Beyond that
/// it narrows between the round corners about the lips (24, 13) and (24, 18), half a mouth of 2.5 mm each: twice the
/// integral of 3 - sqrt(9 - t²) from 0 to 2.5.
fn closed_bay_of_the_c() -> f64 {
    let (r, t) = (3.0_f64, 2.5_f64);
    let segment = r * t - (t * (r * r - t * t).sqrt() + r * r * libm::asin(t / r)) / 2.0;
    10.0 * 12.0 + 2.0 * segment
}

/// The pairs of the file, each with both shapes, what is known, and the second one's placement.
fn pairs() -> Vec<(Shape, Shape, Placement, Value)> {
    let oracle = data::read("geometry-oracle.json");
    let find =
        |name: &str| shapes().into_iter().find(|shape| shape.name == name).expect("a shape of the file");
    data::list(&oracle, "min_distances")
        .iter()
        .map(|known| {
            let (a, mut b) = (find(data::text(known, "a")), find(data::text(known, "b")));
            let scale = data::number(known, "b_scale");
            let scaled =
                |ring: &mut Vec<Point>| ring.iter_mut().for_each(|p| *p = (p.to_vec2() * scale).to_point());
            scaled(&mut b.shell);
            b.holes.iter_mut().for_each(scaled);
            let to = data::point(&known["b_translation"]);
            // Counter-clockwise with y up and clockwise with y down are the same formula, x cos - y sin, x sin + y cos.
            let turn = data::number(known, "b_rotation_deg_ccw_about_origin");
            (a, b, Placement::turned(to.x, to.y, turn), known.clone())
        })
        .collect()
}

/// How much a distance may differ: nothing but the last digit of the file, or, if corners had to be rounded to the
/// grid, how far they moved.
fn distance_tolerance(shape: &Shape) -> f64 {
    let off_grid = |v: f64| ((v / GRID).round() - v / GRID).abs() > 1e-6;
    let is_rounded = shape.rings().flatten().any(|p| off_grid(p.x) || off_grid(p.y));
    if is_rounded { GRID_SHIFT + 1e-9 } else { 1e-9 }
}

#[test]
fn gaps_between_outlines() {
    let mut measured = 0;
    for (a, b, placement, known) in pairs() {
        let id = data::text(&known, "id");
        let other = outline(&b.shell).placed(&placement);
        let first = outline(&a.shell);
        let expected = data::number(&known, "min_distance");
        if first.contains(other.points()[0]) && expected > 0.0 {
            // The second lies in the first one's hole; an outline has no holes. See the next test.
            assert_eq!(gap(&first, &other).distance, 0.0, "{id}");
            continue;
        }
        measured += 1;
        for found in [gap(&first, &other), gap(&other, &first)] {
            assert!((found.distance - expected).abs() <= distance_tolerance(&b), "{id}: {}", found.distance);
            let (from, to) = found.between;
            assert!(((to - from).hypot2().sqrt() - found.distance).abs() < 1e-12, "{id}");
        }
        if known["witness"].is_array() && has_single_nearest_points(id) {
            let found = gap(&first, &other).between;
            for (point, expected) in [found.0, found.1].into_iter().zip(data::points(&known["witness"])) {
                // The file gives these places with six decimals.
                assert!((point - expected).hypot2().sqrt() < 2e-6, "{id}: {point:?} {expected:?}");
            }
        }
    }
    assert_eq!(measured, 11);
}

/// In D01 and D10 two sides run parallel at the least distance, so there are many nearest places.
fn has_single_nearest_points(id: &str) -> bool {
    !["D01", "D10"].contains(&id)
}

#[test]
fn distances_by_growing_the_region() {
    // Where there are holes: grown by a little less than the distance the shapes stay apart, by a little more they
    // meet. Chords may make the region too small by the chord error, never too large.
    const FINE: f64 = 0.000_1;
    for (a, b, placement, known) in pairs() {
        let (id, distance) = (data::text(&known, "id"), data::number(&known, "min_distance"));
        if distance == 0.0 {
            continue;
        }
        let other = Region::of(&outline(&b.shell).placed(&placement));
        let slack = distance_tolerance(&b) + FINE;
        let meets = |by: f64| !a.region().grown(by, FINE).intersection(&other).is_empty();
        assert!(!meets(distance - slack), "{id}");
        assert!(meets(distance + slack + FINE), "{id}");
    }
}

#[test]
fn shared_areas() {
    for (a, b, placement, known) in pairs() {
        let expected = data::number(&known, "overlap_area");
        let other = outline(&b.shell).placed(&placement);
        let shared = a.region().intersection(&Region::of(&other));
        // Every corner is rounded to a hundred-thousandth of a millimetre, which moves an edge by at most half the
        // diagonal of that.
        let length: f64 = shared.rings().map(|ring| length(&ring)).sum();
        let tolerance = 1e-5 * length + 1e-9;
        let id = data::text(&known, "id");
        assert!((shared.area() - expected).abs() <= tolerance, "{id}: {} {expected}", shared.area());
    }
}

fn length(ring: &[Point]) -> f64 {
    let edge = |i: usize| -> Vec2 { ring[(i + 1) % ring.len()] - ring[i] };
    (0..ring.len()).map(|i| edge(i).hypot2().sqrt()).sum()
}

#[test]
fn rings_that_are_no_polygons_are_refused() {
    let oracle = data::read("geometry-oracle.json");
    let cases = data::list(&oracle, "validity");
    assert_eq!(cases.len(), 7);
    for case in cases {
        let name = data::text(case, "name");
        let ring = Outline::new(data::points(&case["shell"]));
        if case["shapely_is_valid"] == Value::Bool(true) {
            let outline = ring.unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(outline.area(), data::number(case, "signed_area").abs(), "{name}");
            continue;
        }
        match ring.expect_err(name) {
            OutlineError::NoArea => assert_eq!(data::number(case, "signed_area"), 0.0, "{name}"),
            OutlineError::Crosses { x, y } => {
                // The reason ends with the place: "Self-intersection[5 5]".
                let place = format!("[{x} {y}]");
                assert!(data::text(case, "reason").ends_with(&place), "{name}: {place}");
            }
            other => panic!("{name}: {other}"),
        }
    }
}
