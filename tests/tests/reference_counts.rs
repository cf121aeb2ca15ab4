//! Layouts and counts that are published or follow from a formula: what is known to fit passes the rule check, a hair
//! more does not, and the ceiling is never below what is known to fit.
//!
//! Source of every value, unless a comment names another: `data/published-counts.json`; `data/SOURCES.md` says where
//! each part of it comes from.

use core::f64::consts::{FRAC_1_SQRT_2, PI, SQRT_2};

use kurbo::Point;
use stickleaf_outline::{GRID, Outline, Placement};
use stickleaf_sheet::{
    Finding, Layout, Piece, RULE_TOLERANCE, Rules, Sheet, Sticker, Turns, Wanted, ceiling, check, score,
};
use tests::data::{count, list, number, points, read};
use tests::shapes::{chord_depth, inscribed, outline};

/// The density of the hexagonal lattice of equal discs, which no arrangement of them in the plane exceeds.
///
/// Source: A. Thue, 1890; the first complete proof L. Fejes Tóth, 1940.
const MOST_DENSITY: f64 = 0.906_899_682_117_109;

/// The corners with which a disc is drawn: chords 0.8 µm deep at a radius of 20 mm.
const CORNERS: u32 = 360;

/// Copies of one outline at these places, on a sheet of this size.
fn layout(size: (f64, f64), margin: f64, spacing: f64, outline: Outline, places: &[Placement]) -> Layout {
    let mut sticker = Sticker::new("one", "One", outline);
    sticker.wanted = Wanted::AtLeast(0);
    sticker.turns = Turns::Any;
    Layout {
        sheet: Sheet { width: size.0, height: size.1, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
        stickers: vec![sticker],
        pieces: places.iter().map(|&placement| Piece::new("one".into(), placement)).collect(),
        ..Layout::default()
    }
}

fn broken(layout: &Layout) -> Vec<Finding> {
    check(layout).into_iter().filter(Finding::is_broken).collect()
}

/// Discs of this radius with these middles, drawn as inscribed polygons.
fn discs(size: (f64, f64), margin: f64, spacing: f64, radius: f64, middles: &[Point]) -> Layout {
    let places: Vec<Placement> = middles.iter().map(|middle| Placement::at(middle.x, middle.y)).collect();
    layout(size, margin, spacing, outline(&inscribed(Point::ZERO, radius, CORNERS)), &places)
}

/// How much larger discs must be drawn than fits, so that the check surely sees it: the two polygons lie inside their
/// circles by a chord's depth and half a grid step, and the check forgives its tolerance.
fn surely_seen(radius: f64) -> f64 {
    chord_depth(radius, CORNERS) + GRID + RULE_TOLERANCE
}

#[test]
fn published_discs_in_a_square_pass_and_a_hair_larger_fail() {
    const SIDE: f64 = 200.0;
    let counts = read("published-counts.json");
    let cases = list(&counts, "circles_in_unit_square");
    assert_eq!(cases.len(), 34);
    for case in cases {
        let n = count(case, "n");
        // For N = 68 and 86 the middles at hand do not quite reach the published radius.
        let radius = SIDE * number(case, "radius_published").min(number(case, "radius_constructed"));
        let middles: Vec<Point> =
            points(&case["centres"]).iter().map(|p| (p.to_vec2() * SIDE).to_point()).collect();
        assert_eq!(middles.len(), n);
        let fits = discs((SIDE, SIDE), 0.0, 0.0, radius, &middles);
        assert_eq!(broken(&fits), [], "N = {n}");
        let score = score(&fits);
        assert!(score.density <= MOST_DENSITY && score.ceiling.most >= n, "N = {n}: {score:?}");
        // The published density, less what the chords of the polygons take off each disc.
        let lost = n as f64 * 2.0 * PI * radius * (chord_depth(radius, CORNERS) + GRID) / (SIDE * SIDE);
        let share = radius / SIDE / number(case, "radius_published");
        let density = number(case, "density") * share * share;
        assert!((score.density - density).abs() <= lost, "N = {n}: {} {density}", score.density);
        let larger = radius + surely_seen(radius);
        assert!(larger < radius * 1.001, "N = {n}: within a thousandth");
        assert_ne!(broken(&discs((SIDE, SIDE), 0.0, 0.0, larger, &middles)), [], "N = {n}");
    }
}

#[test]
fn two_and_five_discs_in_a_square_follow_from_their_places() {
    const SIDE: f64 = 200.0;
    // Two discs in opposite corners: the middles (r, r) and (1 - r, 1 - r) are sqrt 2 (1 - 2r) = 2r apart.
    let two = 1.0 / (2.0 + SQRT_2);
    assert!((SQRT_2 * (1.0 - 2.0 * two) - 2.0 * two).abs() < 1e-15);
    // Four discs in the corners and one in the middle: (r, r) and (1/2, 1/2) are sqrt 2 (1/2 - r) = 2r apart.
    let five = (SQRT_2 - 1.0) / 2.0;
    assert!((SQRT_2 * (0.5 - five) - 2.0 * five).abs() < 1e-15);
    let (near, far) = (|r: f64| SIDE * r, |r: f64| SIDE * (1.0 - r));
    let opposite = |r: f64| vec![Point::new(near(r), near(r)), Point::new(far(r), far(r))];
    let corners_and_middle = |r: f64| {
        let mut middles = opposite(r);
        middles.extend([Point::new(near(r), far(r)), Point::new(far(r), near(r))]);
        middles.push(Point::new(SIDE / 2.0, SIDE / 2.0));
        middles
    };
    for (middles, r) in [(opposite(two), two), (corners_and_middle(five), five)] {
        let radius = SIDE * r;
        assert_eq!(broken(&discs((SIDE, SIDE), 0.0, 0.0, radius, &middles)), []);
        assert_ne!(broken(&discs((SIDE, SIDE), 0.0, 0.0, radius + surely_seen(radius), &middles)), []);
    }
    // In the corners for a disc that is a hair too large, and so clear of the edge, it is the other discs that are met.
    let radius = five + surely_seen(SIDE * five) / SIDE * 2.0;
    let larger = discs((SIDE, SIDE), 0.0, 0.0, SIDE * radius, &corners_and_middle(radius));
    assert_eq!(broken(&larger).len(), 4);
}

#[test]
fn discs_on_a_sheet_stand_and_the_ceiling_lies_between() {
    const SIZE: (f64, f64) = (100.0, 150.0);
    let counts = read("published-counts.json");
    let cases = list(&counts, "circles_on_sheet_100x150");
    assert_eq!(cases.len(), 28);
    let mut proved_best = 0;
    for case in cases {
        let (margin, gap, diameter) = (number(case, "margin"), number(case, "gap"), number(case, "diameter"));
        let (fit, oler) = (count(case, "constructed"), count(case, "upper_bound_oler"));
        let middles = points(&case["centres"]);
        assert_eq!(middles.len(), fit);
        let radius = diameter / 2.0;
        let stands = discs(SIZE, margin, gap, radius, &middles);
        assert_eq!(broken(&stands), [], "{case}");
        assert!(score(&stands).density <= MOST_DENSITY, "{case}");
        let bound = ceiling(&stands);
        assert!(bound >= fit && bound <= oler, "{bound} for {fit} to {oler}: {case}");
        proved_best += usize::from(bound == fit);
    }
    // Where few fit, the search of all places of their middles goes further than Oler's inequality.
    assert!(proved_best >= 14, "{proved_best}");
}

/// A unit square of ten millimetres, its middle at (0, 0).
fn square() -> Outline {
    outline(&[(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)].map(Point::from))
}

#[test]
fn squares_known_to_fit_are_within_the_ceiling() {
    for case in list(&read("published-counts.json"), "unit_squares_in_square") {
        let side = 10.0 * number(case, "side");
        let bound = ceiling(&layout((side, side), 0.0, 0.0, square(), &[]));
        assert!(bound >= count(case, "n"), "{bound}: {case}");
    }
}

#[test]
fn five_squares_need_the_side_that_is_proved() {
    // Four unit squares in the corners and one turned by 45 degrees between them fit a square of side 2 + 1/sqrt 2:
    // the inner corners lie on a diagonal, 2 (s/2 - 1) sqrt 2 apart, and the turned square fills 1 of it.
    let five = |units: f64| {
        let side = 10.0 * units;
        let (near, far, middle) = (5.0, side - 5.0, side / 2.0);
        let mut places: Vec<Placement> =
            [(near, near), (far, near), (near, far), (far, far)].map(|(x, y)| Placement::at(x, y)).to_vec();
        places.push(Placement::turned(middle, middle, 45.0));
        layout((side, side), 0.0, 0.0, square(), &places)
    };
    assert_eq!(broken(&five(2.0 + FRAC_1_SQRT_2)), []);
    assert_eq!(broken(&five(2.7072)), []);
    // The check forgives two micrometres on each side of the turned square, so a few more than that are taken off.
    let too_small = five(2.0 + FRAC_1_SQRT_2 - 0.000_8);
    assert_eq!(broken(&too_small).len(), 4);
}

#[test]
fn boxes_known_to_fit_a_pallet_are_within_the_ceiling() {
    let counts = read("published-counts.json");
    let cases = list(&counts, "pallet_loading");
    assert_eq!(cases.len(), 30);
    for case in cases {
        let (l, w) = (number(case, "l"), number(case, "w"));
        let outline = outline(&[(0.0, 0.0), (l, 0.0), (l, w), (0.0, w)].map(Point::from));
        let bound = ceiling(&layout((number(case, "L"), number(case, "W")), 0.0, 0.0, outline, &[]));
        // Nothing but the area bounds boxes that fill their pallet, and the check forgives two micrometres of margin.
        assert!(bound >= count(case, "optimum"), "{bound}: {case}");
        assert!(bound <= count(case, "area_bound"), "{bound}: {case}");
    }
}

#[test]
fn rows_and_columns_of_boxes_are_counted() {
    // Boxes of a x b with spacing s on a sheet less its margin: floor((width + s) / (a + s)) columns, rows likewise.
    let (a, b, spacing, margin) = (17.0, 11.0, 2.0, 4.0);
    let box_outline = outline(&[(0.0, 0.0), (a, 0.0), (a, b), (0.0, b)].map(Point::from));
    let (columns, rows) = (5, 7);
    let size = (
        2.0 * margin + f64::from(columns) * (a + spacing) - spacing,
        2.0 * margin + f64::from(rows) * (b + spacing) - spacing,
    );
    let grid = |pitch: f64| -> Vec<Placement> {
        let at = |i: i32, step: f64| margin + f64::from(i) * (step + pitch);
        (0..rows)
            .flat_map(|row| (0..columns).map(move |column| Placement::at(at(column, a), at(row, b))))
            .collect()
    };
    let fits = layout(size, margin, spacing, box_outline.clone(), &grid(spacing));
    assert_eq!(broken(&fits), []);
    assert_eq!(score(&fits).placed, 35);
    // The grown boxes with their round corners leave a little of the room, so the ceiling may be higher.
    assert!(ceiling(&fits) >= 35);
    let tight = layout(size, margin, spacing, box_outline, &grid(spacing - 2.0 * RULE_TOLERANCE));
    // Every pair of neighbours in a row and in a column is found, and nothing else.
    assert_eq!(broken(&tight).len(), ((columns - 1) * rows + (rows - 1) * columns) as usize);
}
