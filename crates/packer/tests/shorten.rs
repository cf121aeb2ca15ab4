//! The lowest sheet for stickers that lie in a few turns only.

use proptest::prelude::*;
use stickleaf_outline::{Outline, Placement, path, shapes};
use stickleaf_packer::{Aim, PackOptions, Packing, pack};
use stickleaf_sheet::{Layout, Piece, Rules, Sheet, Sticker, Turns, Wanted, check_pieces, placed_cut_lines};

/// Stickers that lie in quarter turns, so many of each, on a sheet of this width, without spacing, margin or border.
fn strip(width: f64, stickers: &[(Outline, u32)]) -> Layout {
    let sticker = |(index, (outline, count)): (usize, &(Outline, u32))| {
        let mut sticker = Sticker::new(format!("s{index}").as_str(), "S", outline.clone());
        sticker.turns = Turns::Only(vec![0.0, 90.0, 180.0, 270.0]);
        sticker.wanted = Wanted::Exactly(*count);
        sticker
    };
    Layout {
        sheet: Sheet { width, height: 200.0, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin: 0.0, spacing: 0.0, ..Rules::default() },
        stickers: stickers.iter().enumerate().map(sticker).collect(),
        ..Layout::default()
    }
}

fn shortened(layout: &Layout, seed: u64, rounds: u64) -> Packing {
    pack(layout, &PackOptions { aim: Aim::Shorten, seed }, Some(rounds), &mut |_| true).unwrap()
}

#[test]
fn rectangles_that_tile_a_sheet_go_without_a_gap() {
    let layout = strip(60.0, &[(shapes::rectangle(30.0, 20.0), 6), (shapes::rectangle(20.0, 10.0), 6)]);
    let packing = shortened(&layout, 1, 200);
    assert!(packing.missing.is_empty());
    // 6 · 600 mm² and 6 · 200 mm² on 60 mm: 80 mm, and not more than the rounding of an answer above that.
    assert!((packing.progress.height - 80.0).abs() < 1e-5, "{}", packing.progress.height);
}

#[test]
fn l_pieces_interlock() {
    // Two Ls of side 20 and thickness 6.67 make less than their two boxes.
    let layout = strip(40.0, &[(shapes::l(20.0), 8)]);
    let packing = shortened(&layout, 1, 200);
    let area: f64 = placed_cut_lines(&packing.layout).iter().map(Outline::area).sum();
    let density = area / (40.0 * packing.progress.height);
    assert!(density > 0.8, "{density}");
}

#[test]
fn the_same_seed_and_rounds_give_the_same_answer() {
    let layout =
        strip(50.0, &[(shapes::l(20.0), 5), (shapes::star(5, 9.0, 4.0), 6), (shapes::crescent(8.0), 4)]);
    let first = shortened(&layout, 7, 30);
    assert_eq!(first.layout, shortened(&layout, 7, 30).layout);
    assert_eq!(first.progress.height, first.layout.sheet.height);
    assert!(shortened(&layout, 7, 60).progress.height <= first.progress.height);
}

#[test]
fn more_rounds_never_make_it_worse_than_what_was_given() {
    let layout = strip(50.0, &[(shapes::l(20.0), 5), (shapes::star(5, 9.0, 4.0), 6)]);
    let given = shortened(&layout, 3, 40).layout;
    let again = shortened(&given, 4, 3);
    assert!(again.progress.height <= given.sheet.height);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    #[test]
    fn what_comes_back_keeps_every_rule_and_every_locked_piece(
        seed in 0..1000u64, spacing in 0.0..3.0f64, margin in 0.0..5.0f64, x in 15.0..35.0f64, turn in 0.0..360.0f64,
    ) {
        let mut layout = strip(60.0, &[(shapes::l(16.0), 4), (shapes::blob(seed, 7.0), 4), (shapes::crescent(6.0), 3)]);
        (layout.rules.spacing, layout.rules.margin) = (spacing, margin);
        let hole = path::parse("M-4 -4H4V4H-4Z").unwrap();
        let mut pin = Sticker::new("pin", "Pin", hole);
        pin.turns = Turns::Only(vec![0.0]);
        pin.wanted = Wanted::Exactly(0);
        layout.stickers.push(pin);
        let mut locked = Piece::new("pin".into(), Placement::turned(x, 20.0, turn));
        locked.locked = true;
        layout.pieces.push(locked.clone());
        let packing = shortened(&layout, seed, 12);
        prop_assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
        prop_assert_eq!(packing.layout.pieces.iter().find(|piece| piece.locked), Some(&locked));
        prop_assert!(packing.missing.is_empty());
        prop_assert_eq!(packing.layout.pieces.len(), 12);
        prop_assert_eq!(packing.progress.height, packing.layout.sheet.height);
    }
}
