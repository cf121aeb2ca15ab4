//! Grow, even and shorten, against what can be worked out.

use stickleaf_outline::{Outline, shapes};
use stickleaf_packer::{Aim, PackOptions, Packing, pack};
use stickleaf_sheet::{
    Layout, Rules, Sheet, Sticker, Turns, Wanted, check_pieces, placed_cut_lines, smallest_gap,
};

fn layout(outline: Outline, count: u32, (width, height): (f64, f64), margin: f64, spacing: f64) -> Layout {
    let mut sticker = Sticker::new("s", "S", outline);
    sticker.wanted = Wanted::Exactly(count);
    Layout {
        sheet: Sheet { width, height, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

fn packed(layout: &Layout, aim: Aim, rounds: u64) -> Packing {
    let packing = pack(layout, &PackOptions { aim, seed: 1 }, Some(rounds), &mut |_| true).unwrap();
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
    packing
}

#[test]
fn four_squares_grow_until_they_touch() {
    // Two by two in 50 x 50 mm, margin 4, spacing 2: sides of 20 mm.
    let packing = packed(&layout(shapes::square(10.0), 4, (50.0, 50.0), 4.0, 2.0), Aim::Grow, 100);
    assert!((packing.progress.scale - 2.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn pieces_that_do_not_fit_shrink() {
    let packing = packed(&layout(shapes::square(30.0), 4, (50.0, 50.0), 4.0, 2.0), Aim::Grow, 400);
    assert_eq!(packing.missing, []);
    assert!((packing.progress.scale - 2.0 / 3.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn a_row_of_squares_makes_the_sheet_low() {
    // Four in a row and four below: 4 + 10 + 2 + 10 + 4.
    let packing = packed(&layout(shapes::square(10.0), 8, (54.0, 90.0), 4.0, 2.0), Aim::Shorten, 100);
    assert!((packing.layout.sheet.height - 30.0).abs() < 0.01, "{:?}", packing.progress);
    let packing = packed(&layout(shapes::square(10.0), 8, (54.0, 20.0), 4.0, 2.0), Aim::Shorten, 200);
    assert_eq!(packing.missing, []);
    assert!((packing.layout.sheet.height - 30.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn two_squares_move_apart() {
    let mut layout = layout(shapes::square(10.0), 2, (60.0, 30.0), 4.0, 2.0);
    layout.stickers[0].turns = Turns::None;
    let packing = packed(&layout, Aim::Even, 100);
    let gap = smallest_gap(&placed_cut_lines(&packing.layout));
    assert_eq!(packing.progress.gap, gap);
    // Each keeps half of the gap from the edge: 20 + g + g = 60; up and down there is room for the diagonal.
    assert!(gap.unwrap() > 19.9, "{:?}", packing.progress);
}
