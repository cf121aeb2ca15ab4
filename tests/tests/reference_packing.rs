//! What the packer finds, against counts that are known to fit and bounds that nothing exceeds.

use kurbo::Point;
use stickleaf_outline::Outline;
use stickleaf_packer::{Aim, PackOptions, pack};
use stickleaf_sheet::{Finding, Layout, Rules, Sheet, Sticker, Turns, Wanted, ceiling, check, score};
use tests::data::{count, list, number, read};
use tests::shapes::{inscribed, outline};

/// The density of the hexagonal lattice of equal discs, which no arrangement of them in the plane exceeds.
///
/// Source: A. Thue, 1890; the first complete proof L. Fejes Tóth, 1940.
const MOST_DENSITY: f64 = 0.906_899_682_117_109;

/// How many rounds the search gets.
const ROUNDS: u64 = 40;

/// A bare sheet to be filled with copies of one outline.
fn empty(size: (f64, f64), margin: f64, spacing: f64, outline: Outline, turns: Turns) -> Layout {
    let mut sticker = Sticker::new("one", "One", outline);
    sticker.wanted = Wanted::AtLeast(0);
    sticker.turns = turns;
    Layout {
        sheet: Sheet { width: size.0, height: size.1, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

fn filled(layout: &Layout, rounds: u64) -> Layout {
    let options = PackOptions { aim: Aim::Fill, seed: 3 };
    let packing = pack(layout, &options, Some(rounds), &mut |_| true).expect("a sheet with room");
    let broken: Vec<Finding> = check(&packing.layout).into_iter().filter(Finding::is_broken).collect();
    assert_eq!(broken, []);
    packing.layout
}

#[test]
fn equal_discs_fill_a_sheet_at_least_as_a_square_grid_does() {
    // Rows of `data/published-counts.json`, part `circles_on_sheet_100x150`: `upper_bound_oler` is proved. A square grid
    // holds floor((side - 2 margin + gap) / (diameter + gap)) each way, by counting.
    let counts = read("published-counts.json");
    let (mut built, mut in_all) = (0, 0);
    for case in list(&counts, "circles_on_sheet_100x150") {
        let (margin, gap, diameter) = (number(case, "margin"), number(case, "gap"), number(case, "diameter"));
        let disc = outline(&inscribed(Point::ZERO, diameter / 2.0, 90));
        let layout = empty((100.0, 150.0), margin, gap, disc, Turns::None);
        let found = filled(&layout, ROUNDS);
        let placed = found.pieces.len();
        let along = |side: f64| ((side - 2.0 * margin + gap) / (diameter + gap)).floor() as usize;
        let (grid, most) = (along(100.0) * along(150.0), count(case, "upper_bound_oler"));
        built += count(case, "constructed");
        in_all += placed;
        assert!(placed >= grid, "{placed} of {grid}: {case}");
        assert!(placed <= most.min(ceiling(&layout)), "{placed} of {most}: {case}");
        assert!(score(&found).density <= MOST_DENSITY, "{case}");
    }
    // The part's `constructed` took 14 seconds for each row by a search for discs only. Nineteen in twenty of them are
    // asked for here.
    assert!(in_all * 20 >= built * 19, "{in_all} of {built}");
}

#[test]
fn discs_without_any_gap_stay_below_the_densest_lattice() {
    let disc = outline(&inscribed(Point::ZERO, 6.0, 90));
    let found = filled(&empty((100.0, 150.0), 0.0, 0.0, disc, Turns::None), ROUNDS);
    let score = score(&found);
    assert!(score.placed >= 8 * 12, "a square grid holds 8 x 12: {}", score.placed);
    assert!(score.density <= MOST_DENSITY, "{}", score.density);
}

#[test]
fn boxes_fill_the_grid_that_just_fits_them() {
    // 4 x 6 boxes of 20 x 20 mm, 2 mm apart, 4 mm from the edge: 94 x 138 mm and not a hair more, by counting.
    let square = outline(&[(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)].map(Point::from));
    let layout = empty((94.0, 138.0), 4.0, 2.0, square, Turns::None);
    let found = filled(&layout, 4 * ROUNDS);
    assert_eq!(found.pieces.len(), 24);
}
