//! What can never be done is said soon, whatever the aim.

use stickleaf_outline::{Placement, path, shapes};
use stickleaf_packer::{Aim, PackError, PackOptions, Packing, Search, pack};
use stickleaf_sheet::{
    Background, Layout, LayoutError, Piece, Sticker, Turns, Wanted, Zone, check_pieces, placed_cut_lines,
};

const AIMS: [Aim; 5] = [Aim::Place, Aim::Fill, Aim::Grow, Aim::Even, Aim::Shorten];

/// Rounds take some milliseconds: so many are over within a second or two.
const SOON: u64 = 60;

fn sticker(id: &str, outline: stickleaf_outline::Outline, turns: Turns, wanted: Wanted) -> Sticker {
    let mut sticker = Sticker::new(id, id, outline);
    (sticker.turns, sticker.wanted) = (turns, wanted);
    sticker
}

fn packed(layout: &Layout, aim: Aim) -> Result<Packing, PackError> {
    pack(layout, &PackOptions { aim, seed: 1 }, Some(SOON), &mut |_| true)
}

/// The aim has ended of itself with so many missing, and what is there keeps the rules.
fn ends_without(layout: &Layout, aim: Aim, missing: &[(&str, usize)]) -> Packing {
    let packing = packed(layout, aim).unwrap();
    assert!(packing.progress.finished, "{aim:?}: {:?}", packing.progress);
    let named: Vec<(&str, usize)> = packing.missing.iter().map(|(id, count)| (&**id, *count)).collect();
    assert_eq!(named, missing, "{aim:?}");
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), [], "{aim:?}");
    packing
}

/// A sheet of 105 x 148 mm with a margin of 4 mm: the room inside is 97 x 140 mm, 170.3 mm along its diagonal.
fn with_giant(turns: Turns, length: f64) -> Layout {
    let giant = sticker("giant", shapes::rectangle(length, 120.0), turns, Wanted::Exactly(1));
    let small = sticker("small", shapes::square(20.0), Turns::None, Wanted::Exactly(3));
    Layout { stickers: vec![giant, small], ..Layout::default() }
}

#[test]
fn a_sticker_larger_than_the_sheet_in_every_turn_is_named_and_the_others_are_placed() {
    for turns in [Turns::None, Turns::Any, Turns::Within(20.0), Turns::Only(vec![0.0, 45.0, 90.0])] {
        for aim in [Aim::Place, Aim::Fill, Aim::Even] {
            let packing = ends_without(&with_giant(turns.clone(), 120.0), aim, &[("giant", 1)]);
            assert_eq!(packing.layout.pieces.len(), 3);
        }
        // Made smaller, it fits.
        let packing = packed(&with_giant(turns.clone(), 120.0), Aim::Grow).unwrap();
        assert!(packing.missing.is_empty() && packing.progress.scale < 1.0, "{packing:?}");
    }
}

#[test]
fn a_bar_longer_than_the_diagonal_ends_the_search_though_it_holds_small_discs_only() {
    let bar = sticker("bar", shapes::rectangle(175.0, 4.0), Turns::Any, Wanted::Exactly(2));
    let layout = Layout { stickers: vec![bar], ..Layout::default() };
    for aim in [Aim::Place, Aim::Fill, Aim::Even] {
        ends_without(&layout, aim, &[("bar", 2)]);
    }
}

#[test]
fn no_sheet_is_low_enough_for_a_sticker_that_is_too_wide() {
    for turns in [Turns::None, Turns::Within(5.0), Turns::Only(vec![0.0, 30.0, 90.0])] {
        let packing = packed(&with_giant(turns, 120.0), Aim::Shorten).unwrap();
        assert!(packing.progress.finished, "{:?}", packing.progress);
        assert_eq!(packing.missing, [("giant".into(), 1)]);
        assert_eq!(packing.layout.pieces.len(), 3);
        assert_eq!(packing.layout.sheet.height, 148.0);
    }
}

#[test]
fn more_area_than_there_is_room_ends_with_a_full_sheet_and_what_is_missing() {
    let mut square = sticker("square", shapes::square(20.0), Turns::Any, Wanted::Exactly(60));
    square.border = Some(0.0);
    let layout = Layout { stickers: vec![square], ..Layout::default() };
    for aim in [Aim::Place, Aim::Even] {
        let packing = packed(&layout, aim).unwrap();
        let placed = packing.layout.pieces.len();
        // 4 x 6 with 2 mm between them by counting.
        assert!(placed >= 24, "{aim:?}: {placed}");
        ends_without(&layout, aim, &[("square", 60 - placed)]);
    }
    // Smaller, or on a taller sheet, they all fit.
    for aim in [Aim::Grow, Aim::Shorten] {
        let options = PackOptions { aim, seed: 1 };
        let mut search = Search::new(&layout, &options).unwrap();
        let rounds = (0..400).take_while(|_| {
            search.round();
            !search.missing().is_empty()
        });
        assert!(rounds.count() < 400, "{aim:?}: {:?}", search.missing());
    }
}

#[test]
fn a_sheet_that_a_zone_covers_is_refused_and_one_with_slivers_left_ends_at_once() {
    let covered = |zone: &str, clearance: f64| Layout {
        backgrounds: vec![Background {
            name: "full".into(),
            zones: vec![Zone::new("picture", path::parse(zone).unwrap(), clearance)],
            ..Background::default()
        }],
        background: Some("full".into()),
        stickers: vec![sticker("box", shapes::square(20.0), Turns::Any, Wanted::AtLeast(2))],
        ..Layout::default()
    };
    for aim in AIMS {
        let whole = packed(&covered("M0 0H105V148H0Z", 0.0), aim);
        assert_eq!(whole.unwrap_err(), PackError::Layout(LayoutError::NoUsablePart), "{aim:?}");
    }
    // 10 mm are left all round; then a box less the clearance.
    let slivers = covered("M14 14H91V134H14Z", 0.0);
    let narrow = covered("M40 0H65V148H40Z", 25.0);
    for layout in [slivers, narrow] {
        for aim in [Aim::Place, Aim::Fill, Aim::Even] {
            let packing = ends_without(&layout, aim, &[("box", 2)]);
            assert!(
                packing.layout.pieces.is_empty() && packing.progress.round < 10,
                "{:?}",
                packing.progress
            );
        }
    }
}

#[test]
fn nothing_wanted_is_said_and_nothing_more_wanted_ends_at_once() {
    let none = sticker("none", shapes::square(20.0), Turns::None, Wanted::Exactly(0));
    let mut layout = Layout { stickers: vec![none], ..Layout::default() };
    for aim in AIMS {
        assert_eq!(packed(&layout, aim).unwrap_err(), PackError::NothingToPlace, "{aim:?}");
    }
    // All that is wanted lies there and is locked.
    layout.stickers[0].wanted = Wanted::Exactly(1);
    layout.pieces = vec![Piece { locked: true, ..Piece::new("none".into(), Placement::at(50.0, 60.0)) }];
    for aim in AIMS {
        let packing = ends_without(&layout, aim, &[]);
        assert_eq!(packing.layout.pieces, layout.pieces);
    }
}
