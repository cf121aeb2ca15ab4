//! What holds for every answer, over layouts made up from a seed.

use kurbo::Point;
use proptest::prelude::*;
use stickleaf_outline::{Outline, Placement, path, shapes};
use stickleaf_packer::{Aim, PackError, PackOptions, Packing, Search, pack};
use stickleaf_sheet::{
    Background, Layout, Piece, Rules, Sheet, Sticker, Turns, Wanted, Zone, ceiling, check_pieces,
    placed_cut_lines,
};

fn outline(number: u64, size: f64) -> Outline {
    match number % 8 {
        0 => shapes::disc(size / 2.0, 48),
        1 => shapes::rectangle(size, size * 0.6),
        2 => shapes::star(5, size / 2.0, size / 4.0),
        3 => shapes::l(size),
        4 => shapes::crescent(size / 2.0),
        5 => shapes::c(size, size / 4.0),
        6 => shapes::comb(3, size / 8.0),
        _ => shapes::blob(number, size / 2.0),
    }
}

fn turns(number: u64) -> Turns {
    match number % 4 {
        0 => Turns::None,
        1 => Turns::Any,
        2 => Turns::Within(12.5),
        _ => Turns::Only(vec![0.0, 33.3, 90.0]),
    }
}

fn sticker(number: u64, size: f64) -> Sticker {
    let mut sticker = Sticker::new(format!("s{number}"), format!("Sticker {number}"), outline(number, size));
    sticker.turns = turns(number / 3);
    sticker.mirror = number.is_multiple_of(5);
    sticker.wanted = if number.is_multiple_of(2) {
        Wanted::Exactly((number % 4) as u32)
    } else {
        Wanted::AtLeast((number % 3) as u32)
    };
    sticker
}

/// A layout with zones, round corners and a locked piece in the middle.
fn layout(first: u64, kinds: u64, size: f64, spacing: f64, corner_radius: f64, zones: bool) -> Layout {
    let mut stickers: Vec<Sticker> =
        (first..first + kinds).map(|number| sticker(number, size + (number % 7) as f64)).collect();
    stickers[0].wanted = Wanted::AtLeast(2);
    let id = stickers[0].id.clone();
    let mut locked = Piece::new(id, Placement::turned(50.123_4, 60.5, 7.25));
    locked.locked = true;
    let band = path::parse("M0 0H105V20H0Z").unwrap();
    let hole = shapes::disc(5.0, 40).placed(&Placement::at(85.0, 120.0));
    let hole = Outline::new(hole.points().iter().copied()).unwrap();
    let backgrounds = vec![Background {
        name: "Band".into(),
        zones: vec![Zone::new("title", band, 3.0), Zone::new("hole", hole, 1.0)],
        ..Background::default()
    }];
    Layout {
        sheet: Sheet { width: 105.0, height: 148.0, corner_radius, resolution_ppi: 600.0 },
        rules: Rules { border: 0.5, spacing, ..Rules::default() },
        backgrounds,
        background: zones.then(|| "Band".into()),
        stickers,
        pieces: vec![locked],
        ..Layout::default()
    }
}

const AIMS: [Aim; 5] = [Aim::Place, Aim::Fill, Aim::Grow, Aim::Even, Aim::Shorten];

fn packed(layout: &Layout, aim: Aim, seed: u64, rounds: u64) -> Packing {
    pack(layout, &PackOptions { aim, seed }, Some(rounds), &mut |_| true).unwrap()
}

/// Every hard rule, every turn, every flip, every locked piece, no copy too many.
fn assert_sound(before: &Layout, after: &Layout, aim: Aim) {
    assert_eq!(check_pieces(after, &placed_cut_lines(after)), []);
    for piece in after.pieces.iter().filter(|piece| !piece.locked) {
        let sticker = after.sticker(&piece.sticker).unwrap();
        assert!(sticker.turns.allow(piece.placement.turn), "{piece:?} of {:?}", sticker.turns);
        assert!(sticker.mirror || !piece.placement.mirrored);
        for part in [piece.placement.at.x, piece.placement.at.y] {
            assert_eq!(part, (part * 1e7).round() / 1e7, "not on the grid");
        }
    }
    let locked = |layout: &Layout| -> Vec<Piece> {
        layout.pieces.iter().filter(|piece| piece.locked).cloned().collect()
    };
    assert_eq!(locked(before), locked(after));
    for sticker in &after.stickers {
        let most = if aim == Aim::Fill { sticker.wanted.most() } else { Some(sticker.wanted.least()) };
        let most = most.map(|most| (most as usize).max(before.placed(&sticker.id)));
        assert!(most.is_none_or(|most| after.placed(&sticker.id) <= most));
    }
    assert!(after.pieces.len() <= ceiling(after));
    // Only what the aim may change is changed.
    let mut same = Layout { pieces: before.pieces.clone(), ..after.clone() };
    if aim == Aim::Shorten {
        same.sheet.height = before.sheet.height;
    }
    if aim == Aim::Grow {
        assert_eq!(before.stickers.len(), same.stickers.len());
        for (sticker, grown) in before.stickers.iter().zip(&mut same.stickers) {
            grown.outline = sticker.outline.clone();
            grown.path = sticker.path.clone();
        }
    }
    assert_eq!(before, &same);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn every_answer_is_sound(
        first in 0u64..60, kinds in 1u64..8, size in 8.0f64..26.0, spacing in 0.0f64..3.0,
        corner_radius in 0.0f64..20.0, zones: bool, aim in 0usize..5, seed: u64, rounds in 0u64..12,
    ) {
        let layout = layout(first, kinds, size, spacing, corner_radius, zones);
        let aim = AIMS[aim];
        let packing = packed(&layout, aim, seed, rounds);
        assert_sound(&layout, &packing.layout, aim);
        prop_assert_eq!(packing.progress.placed, packing.layout.pieces.len());
        // Named as missing is exactly what lacks.
        for sticker in &layout.stickers {
            let lacks = (sticker.wanted.least() as usize).saturating_sub(packing.layout.placed(&sticker.id));
            let named = packing.missing.iter().find(|(id, _)| *id == sticker.id).map_or(0, |&(_, count)| count);
            prop_assert_eq!(lacks, named);
        }
    }

    #[test]
    fn a_sound_layout_never_loses_pieces(
        first in 0u64..60, kinds in 1u64..6, size in 10.0f64..24.0, aim in 0usize..5, seed: u64,
    ) {
        let aim = AIMS[aim];
        let start = packed(&layout(first, kinds, size, 2.0, 4.0, true), Aim::Fill, seed, 4).layout;
        if let Ok(search) = Search::new(&start, &PackOptions { aim, seed: seed ^ 1 }) {
            let best = search.best();
            // A sheet that is taller than its pieces need may be made lower at once.
            prop_assert!(best == start || aim == Aim::Shorten);
            let wanted = |layout: &Layout| -> usize {
                let count = |s: &Sticker| layout.placed(&s.id).min(s.wanted.least() as usize);
                layout.stickers.iter().map(count).sum()
            };
            let after = packed(&start, aim, seed ^ 1, 4).layout;
            prop_assert!((wanted(&after), after.pieces.len()) >= (wanted(&start), start.pieces.len()));
        }
    }
}

#[test]
fn the_same_seed_and_rounds_give_the_same_answer() {
    let layout = layout(3, 6, 14.0, 2.0, 4.0, true);
    for aim in AIMS {
        assert_eq!(packed(&layout, aim, 5, 8), packed(&layout, aim, 5, 8));
    }
    assert!(packed(&layout, Aim::Fill, 5, 8).layout != packed(&layout, Aim::Fill, 6, 8).layout);
}

#[test]
fn a_search_in_rounds_is_the_same_as_packing_and_sound_after_each() {
    let layout = layout(10, 6, 15.0, 2.0, 8.0, true);
    for aim in AIMS {
        let mut search = Search::new(&layout, &PackOptions { aim, seed: 9 }).unwrap();
        let mut before = search.progress();
        for round in 1..=10 {
            let progress = search.round();
            assert_eq!(progress.round, round);
            assert!(progress.placed >= before.placed && progress.placed <= progress.ceiling);
            let best = search.best();
            assert_sound(&layout, &best, aim);
            assert_eq!(progress.height, best.sheet.height);
            assert_eq!(progress.gap.is_some(), aim == Aim::Even && best.pieces.len() > 1);
            if before.placed == progress.placed {
                assert!(progress.scale >= before.scale && progress.height <= before.height);
                assert!(progress.gap.unwrap_or(0.0) >= before.gap.unwrap_or(0.0) - 0.002);
            }
            before = progress;
        }
        assert_eq!(search.best(), packed(&layout, aim, 9, 10).layout);
    }
}

#[test]
fn stopping_keeps_the_best_so_far() {
    let layout = layout(20, 5, 15.0, 2.0, 4.0, false);
    let options = PackOptions { aim: Aim::Fill, seed: 2 };
    let packing = pack(&layout, &options, None, &mut |progress| progress.round < 3).unwrap();
    assert_eq!(packing.progress.round, 3);
    assert_sound(&layout, &packing.layout, Aim::Fill);
}

#[test]
fn saving_places_with_seven_decimals_and_turns_with_four_changes_nothing() {
    let layout = layout(1, 6, 14.0, 2.0, 4.0, true);
    for piece in packed(&layout, Aim::Fill, 1, 8).layout.pieces.iter().filter(|piece| !piece.locked) {
        let Placement { at, turn, .. } = piece.placement;
        let read = |number: f64| format!("{number:.7}").parse::<f64>().unwrap();
        assert_eq!(Point::new(read(at.x), read(at.y)), at);
        assert_eq!(format!("{:.4}", turn.to_degrees()).parse::<f64>().unwrap(), turn.to_degrees());
    }
}

#[test]
fn what_cannot_fit_is_named() {
    let mut giant = Sticker::new("giant", "Giant", shapes::square(120.0));
    giant.wanted = Wanted::Exactly(2);
    let mut small = Sticker::new("small", "Small", shapes::square(20.0));
    small.wanted = Wanted::Exactly(4);
    let layout = Layout { stickers: vec![giant, small], ..Layout::default() };
    let packing = packed(&layout, Aim::Place, 1, 5);
    assert_eq!(packing.missing, [("giant".into(), 2)]);
    assert_eq!(packing.layout.pieces.len(), 4);
    assert!(packing.progress.finished);
}

#[test]
fn a_number_beyond_all_reason_is_taken_in_stride() {
    let mut dot = Sticker::new("dot", "Dot", shapes::disc(6.0, 40));
    dot.wanted = Wanted::Exactly(u32::MAX);
    let mut other = Sticker::new("other", "Other", shapes::square(20.0));
    other.wanted = Wanted::Exactly(u32::MAX);
    let layout = Layout { stickers: vec![dot, other], ..Layout::default() };
    let packing = packed(&layout, Aim::Place, 1, 3);
    assert!(packing.layout.pieces.len() > 12);
    assert_eq!(packing.missing.len(), 2);
}

#[test]
fn nothing_wanted_and_locked_pieces_in_conflict_are_said() {
    let options = PackOptions { aim: Aim::Place, seed: 1 };
    let mut layout = Layout::default();
    assert_eq!(Search::new(&layout, &options).err(), Some(PackError::NothingToPlace));
    layout.stickers = vec![Sticker::new("box", "Box", shapes::square(10.0))];
    layout.pieces = [30.0, 35.0]
        .map(|x| Piece { locked: true, ..Piece::new("box".into(), Placement::at(x, 50.0)) })
        .to_vec();
    let error = Search::new(&layout, &options).err().map(|error| error.to_string()).unwrap_or_default();
    assert!(error.starts_with("Box 1 and Box 2 overlap"), "{error}");
    layout.sheet.width = -1.0;
    assert!(matches!(Search::new(&layout, &options), Err(PackError::Layout(_))));
}

#[test]
fn free_pieces_in_conflict_are_placed_anew() {
    let mut sticker = Sticker::new("box", "Box", shapes::square(10.0));
    sticker.wanted = Wanted::Exactly(3);
    let piece = |x: f64| Piece::new("box".into(), Placement::at(x, 50.0));
    let layout =
        Layout { stickers: vec![sticker], pieces: vec![piece(30.0), piece(32.0)], ..Layout::default() };
    let packing = packed(&layout, Aim::Place, 1, 40);
    assert!(packing.progress.finished);
    assert_eq!(packing.layout.pieces.len(), 3);
    assert_sound(&layout, &packing.layout, Aim::Place);
}

#[test]
fn placed_pieces_spread_over_the_sheet() {
    let stickers = (0..10)
        .map(|number| Sticker::new(format!("s{number}"), format!("S {number}"), outline(number, 14.0)))
        .collect();
    let layout = Layout { stickers, ..Layout::default() };
    let packing = packed(&layout, Aim::Place, 1, 60);
    assert!(packing.progress.finished);
    let centres: Vec<Point> =
        placed_cut_lines(&packing.layout).iter().map(|line| line.bounds().center()).collect();
    let count = |test: &dyn Fn(&Point) -> bool| centres.iter().filter(|centre| test(centre)).count();
    // Ten pieces, each half of the sheet holds at least three.
    for half in
        [count(&|p| p.x < 52.5), count(&|p| p.x > 52.5), count(&|p| p.y < 74.0), count(&|p| p.y > 74.0)]
    {
        assert!(half >= 3, "{centres:?}");
    }
}
