//! How many fit, against numbers that can be worked out or proved.

use stickleaf_outline::{Outline, path, shapes};
use stickleaf_packer::{Aim, PackOptions, Packing, pack};
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted, check_pieces, placed_cut_lines};

fn layout(outline: Outline, turns: Turns, (width, height): (f64, f64), margin: f64, spacing: f64) -> Layout {
    let mut sticker = Sticker::new("s", "S", outline);
    sticker.wanted = Wanted::AtLeast(0);
    sticker.turns = turns;
    Layout {
        sheet: Sheet { width, height, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

fn filled(layout: &Layout, rounds: u64) -> Packing {
    let options = PackOptions { aim: Aim::Fill, seed: 1 };
    let packing = pack(layout, &options, Some(rounds), &mut |_| true).unwrap();
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
    packing
}

fn disc(diameter: f64) -> Outline {
    let r = diameter / 2.0;
    path::parse(&format!("M-{r} 0A{r} {r} 0 1 1 {r} 0A{r} {r} 0 1 1 -{r} 0Z")).unwrap()
}

#[test]
fn boxes_that_fit_exactly_all_fit() {
    // 4 x 6 boxes of 10 mm with 2 mm between them and 4 mm round them: 54 x 78 mm.
    for turns in [Turns::None, Turns::Only(vec![0.0, 90.0])] {
        let packing = filled(&layout(shapes::square(10.0), turns, (54.0, 78.0), 4.0, 2.0), 20);
        assert_eq!(packing.layout.pieces.len(), 24);
        assert!(packing.progress.finished);
    }
}

#[test]
fn boxes_of_two_sizes_that_fit_exactly_all_fit() {
    // A row of 20 mm boxes above a row of 10 mm boxes: 2 and 4 of them in 42 and 46 mm, 20 + 2 + 10 mm high.
    let mut layout = layout(shapes::square(20.0), Turns::None, (54.0, 40.0), 4.0, 2.0);
    layout.stickers[0].wanted = Wanted::Exactly(2);
    let mut small = Sticker::new("small", "Small", shapes::square(10.0));
    small.wanted = Wanted::Exactly(4);
    layout.stickers.push(small);
    assert_eq!(filled(&layout, 20).layout.pieces.len(), 6);
}

#[test]
fn discs_are_never_fewer_than_in_a_square_grid() {
    for (margin, diameter, spacing) in [
        (3.0, 12.0, 2.0),
        (3.0, 20.0, 3.0),
        (3.0, 35.0, 2.0),
        (5.0, 15.0, 2.0),
        (5.0, 30.0, 2.0),
        (5.0, 45.0, 3.0),
    ] {
        let along = |side: f64| ((side - 2.0 * margin + spacing) / (diameter + spacing)).floor() as usize;
        let packing = filled(&layout(disc(diameter), Turns::Any, (100.0, 150.0), margin, spacing), 3);
        assert!(packing.layout.pieces.len() >= along(100.0) * along(150.0));
        assert!(packing.layout.pieces.len() <= packing.progress.ceiling);
    }
}

#[test]
fn discs_lie_irregularly_where_no_rows_hold_as_many() {
    // 12 mm discs, margin 3, spacing 2 on 100 x 150 mm: the best rows hold 72; 73 are known to fit, since their centres
    // were worked out and checked independently. 80 is what Oler's bound allows.
    let layout = layout(disc(12.0), Turns::None, (100.0, 150.0), 3.0, 2.0);
    let options = PackOptions { aim: Aim::Fill, seed: 1 };
    let packing = pack(&layout, &options, Some(1000), &mut |now| now.placed < 73).unwrap();
    assert!((73..=80).contains(&packing.layout.pieces.len()), "{}", packing.layout.pieces.len());
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
}

#[test]
fn discs_beat_the_best_simple_lattice_where_it_is_known_to_be_beaten() {
    // 15 mm discs, margin 3, spacing 2 on 100 x 150 mm: the best rows hold 48; 49 are known to fit, since their centres
    // were worked out and checked independently. 53 is proved too many by Oler's bound.
    let packing = filled(&layout(disc(15.0), Turns::Any, (100.0, 150.0), 3.0, 2.0), 60);
    assert!((49..=53).contains(&packing.layout.pieces.len()), "{}", packing.layout.pieces.len());
}

#[test]
fn five_squares_fit_where_only_slanted_ones_do() {
    // E. Friedman, "Packing Unit Squares in Squares", Electronic Journal of Combinatorics DS7 (2009): the smallest square
    // holding five unit squares has side 2 + 1/sqrt 2 = 2.7071.
    let mut layout = layout(shapes::square(10.0), Turns::Any, (27.072, 27.072), 0.0, 0.0);
    layout.stickers[0].wanted = Wanted::Exactly(5);
    assert_eq!(filled(&layout, 200).layout.pieces.len(), 5);
    layout.sheet.width = 27.03;
    layout.sheet.height = 27.03;
    assert_eq!(filled(&layout, 60).layout.pieces.len(), 4);
}

#[test]
fn a_fill_keeps_what_is_wanted_and_adds_small_ones() {
    let mut layout = layout(shapes::star(5, 15.0, 7.0), Turns::Any, (105.0, 148.0), 4.0, 2.0);
    layout.stickers[0].wanted = Wanted::Exactly(3);
    let mut dot = Sticker::new("dot", "Dot", disc(8.0));
    dot.wanted = Wanted::AtLeast(1);
    layout.stickers.push(dot);
    let packing = filled(&layout, 20);
    assert_eq!(packing.layout.placed("s"), 3);
    assert!(packing.layout.placed("dot") > 50, "{}", packing.layout.placed("dot"));
    assert_eq!(packing.missing, []);
}
