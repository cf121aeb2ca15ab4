//! Growing and placing against layouts whose best is known.

use stickleaf_outline::{Outline, path};
use stickleaf_packer::{Aim, PackOptions, Packing, pack};
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted, check_pieces, placed_cut_lines};

fn layout((width, height): (f64, f64), stickers: Vec<Sticker>) -> Layout {
    Layout {
        sheet: Sheet { width, height, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin: 0.0, spacing: 0.0, ..Rules::default() },
        stickers,
        ..Layout::default()
    }
}

fn sticker(id: &str, outline: Outline, count: u32, turns: Turns) -> Sticker {
    let mut sticker = Sticker::new(id, id, outline);
    sticker.wanted = Wanted::Exactly(count);
    sticker.turns = turns;
    sticker
}

fn rectangle(width: f64, height: f64) -> Outline {
    path::parse(&format!("M0 0H{width}V{height}H0Z")).unwrap()
}

fn packed(layout: &Layout, aim: Aim, rounds: u64) -> Packing {
    let packing = pack(layout, &PackOptions { aim, seed: 1 }, Some(rounds), &mut |_| true).unwrap();
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
    packing
}

/// The largest radius that true circles round the middles of discs in a square of 100 mm can have.
fn radius(layout: &Layout) -> f64 {
    let middles: Vec<_> = layout.pieces.iter().map(|piece| piece.placement.at).collect();
    let mut radius = f64::INFINITY;
    for (index, &a) in middles.iter().enumerate() {
        radius = radius.min(a.x).min(a.y).min(100.0 - a.x).min(100.0 - a.y);
        for &b in &middles[..index] {
            radius = radius.min((a - b).hypot2().sqrt() / 2.0);
        }
    }
    radius
}

/// Source: E. Specht's tables of best known packings of equal circles in a square; proved optimal for N up to 30, see
/// Szabó, Markót, Csendes, Specht, Casado, García, "New Approaches to Circle Packing in a Square", Springer 2007.
const RADII: [(u32, f64); 5] = [
    (2, 0.292_893_218_813_452),
    (5, 0.207_106_781_186_548),
    (7, 0.174_457_630_187_009),
    (9, 0.166_666_666_666_667),
    (19, 0.112_265_437_570_996),
];

#[test]
fn discs_grow_to_the_published_radii() {
    for (count, published) in RADII {
        let disc = path::parse("M-8 0A8 8 0 1 1 8 0A8 8 0 1 1 -8 0Z").unwrap();
        let layout = layout((100.0, 100.0), vec![sticker("disc", disc, count, Turns::None)]);
        let share = radius(&packed(&layout, Aim::Grow, 250).layout) / 100.0 / published;
        let least = if count <= 12 { 0.999_9 } else { 0.995 };
        assert!(share >= least && share < 1.000_001, "{count} discs: {share}");
    }
}

/// The smallest square that holds five unit squares has the side 2 + 1/√2 = 2.7072: F. Göbel, "Geometrical packing and
/// covering problems", 1979, proved optimal there.
#[test]
fn five_squares_fit_where_they_can_and_never_where_they_cannot() {
    for (side, fit) in [(2.707_2, true), (2.707_0, false)] {
        let squares = sticker("square", rectangle(20.0, 20.0), 5, Turns::Any);
        let packing = packed(&layout((side * 20.0, side * 20.0), vec![squares]), Aim::Place, 600);
        assert_eq!(packing.layout.pieces.len() == 5, fit, "side {side}");
    }
}

/// That these tile their sheets can be seen by adding up rows and columns.
#[test]
fn rectangles_that_tile_a_sheet_all_find_their_place() {
    let upright = || Turns::None;
    let quarters = || Turns::Only(vec![0.0, 90.0]);
    let of = |id: &str, (width, height): (f64, f64), count, turns| {
        sticker(id, rectangle(width, height), count, turns)
    };
    let tilings = [
        // Rows of two halves below one wide band.
        ((60.0, 50.0), vec![of("a", (60.0, 20.0), 1, upright()), of("b", (30.0, 30.0), 2, upright())]),
        // Four by three of one size.
        ((80.0, 45.0), vec![of("a", (20.0, 15.0), 12, upright())]),
        // A band that fits on its side only, beside two squares.
        ((50.0, 60.0), vec![of("a", (60.0, 20.0), 1, quarters()), of("b", (30.0, 30.0), 2, upright())]),
    ];
    for (index, (sheet, stickers)) in tilings.into_iter().enumerate() {
        let packing = packed(&layout(sheet, stickers), Aim::Place, 300);
        assert_eq!(packing.missing, [], "tiling {index}");
    }
}
