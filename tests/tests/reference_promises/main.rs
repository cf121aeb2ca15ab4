//! What the packer promises of every answer, over thousands of layouts made at random, held by a judge of its own.
//!
//! Each layout is made from its number, so a number is all that is needed to see a failure again.

mod judge;
mod random;

use geo::algorithm::line_measures::{Distance, Euclidean};
use stickleaf_outline::{GRID, Outline};
use stickleaf_packer::{Aim, PackError, PackOptions, Packing, Search, pack};
use stickleaf_sheet::{Layout, Piece, Sticker, Wanted, check_pieces, placed_cut_lines};

/// Layouts for each aim.
const LAYOUTS: u64 = 250;

/// Rounds are few: what is promised holds after each.
const MOST_ROUNDS: u64 = 2;

/// One layout in so many is packed twice, and one in so many once more from where it has come to.
const TWICE: u64 = 5;
const ONCE_MORE: u64 = 3;

fn packed(layout: &Layout, aim: Aim, seed: u64, rounds: u64) -> Result<Packing, PackError> {
    pack(layout, &PackOptions { aim, seed }, Some(rounds), &mut |_| true)
}

/// Number and aim, to begin what a failure says.
fn case(number: u64, aim: Aim) -> String {
    format!("layout {number}, {aim:?}")
}

/// How many copies there are of a sticker.
fn copies(layout: &Layout, sticker: &Sticker) -> usize {
    layout.pieces.iter().filter(|piece| piece.sticker == sticker.id).count()
}

fn locked(layout: &Layout) -> Vec<Piece> {
    layout.pieces.iter().filter(|piece| piece.locked).cloned().collect()
}

/// How many wanted copies lie there, and how many pieces in all.
fn worth(layout: &Layout) -> (usize, usize) {
    let there = |sticker: &Sticker| copies(layout, sticker).min(sticker.wanted.least() as usize);
    (layout.stickers.iter().map(there).sum(), layout.pieces.len())
}

/// How many copies must be there for an aim, and how many may be.
fn asked(before: &Layout, sticker: &Sticker, aim: Aim) -> (usize, Option<usize>) {
    let (least, there) = (sticker.wanted.least() as usize, copies(before, sticker));
    match (aim, sticker.wanted) {
        (Aim::Fill, Wanted::AtLeast(_)) => (least, None),
        (Aim::Place | Aim::Fill, _) => (least, Some(least.max(there))),
        (Aim::Grow | Aim::Even | Aim::Shorten, _) => (least, Some(least.max(there))),
    }
}

/// The promises that hold for every answer.
fn hold(case: &str, before: &Layout, packing: &Packing, aim: Aim) {
    let after = &packing.layout;
    assert_eq!(check_pieces(after, &placed_cut_lines(after)), [], "{case}");
    assert_eq!(judge::faults(after), [""; 0], "{case}");
    // The same to the last bit, the sign of a zero included.
    assert_eq!(format!("{:?}", locked(after)), format!("{:?}", locked(before)), "{case}");
    assert!(packing.progress.placed == after.pieces.len(), "{case}");
    assert!(packing.progress.placed <= packing.progress.ceiling, "{case}: {:?}", packing.progress);
    let mut missing = Vec::new();
    for sticker in &before.stickers {
        let (least, most) = asked(before, sticker, aim);
        let there = copies(after, sticker);
        assert!(most.is_none_or(|most| there <= most), "{case}: {there} of {}, {most:?} asked", sticker.id);
        if there < least {
            missing.push((sticker.id.clone(), least - there));
        }
    }
    assert_eq!(packing.missing, missing, "{case}");
    changed_only_as_asked(case, before, packing, aim);
}

/// The aim changes pieces, and size or height if that is what it is about; nothing else.
fn changed_only_as_asked(case: &str, before: &Layout, packing: &Packing, aim: Aim) {
    let (after, progress) = (&packing.layout, &packing.progress);
    let mut same = Layout { pieces: before.pieces.clone(), ..after.clone() };
    assert_eq!(progress.height, after.sheet.height, "{case}");
    match aim {
        Aim::Shorten => same.sheet.height = before.sheet.height,
        Aim::Grow => {
            for (given, grown) in before.stickers.iter().zip(&mut same.stickers) {
                let keeps_size = before.pieces.iter().any(|piece| piece.locked && piece.sticker == given.id);
                is_scaled(case, given, grown, if keeps_size { 1.0 } else { progress.scale });
                *grown =
                    Sticker { outline: given.outline.clone(), path: given.path.clone(), ..grown.clone() };
            }
        }
        Aim::Even => match (progress.gap, judge::smallest_gap(after)) {
            (Some(told), Some(measured)) => {
                assert!((told - measured).abs() < 1e-6, "{case}: {told} {measured}")
            }
            (told, measured) => assert_eq!(told, measured, "{case}"),
        },
        Aim::Place | Aim::Fill => {}
    }
    assert_eq!(&same, before, "{case}");
}

/// Every corner of the grown outline lies where the scale puts it, rounded to the grid; none is lost but by rounding.
fn is_scaled(case: &str, given: &Sticker, grown: &Sticker, scale: f64) {
    let line = |outline: &Outline, scale: f64| -> geo::LineString {
        let mut ring: Vec<(f64, f64)> = outline.points().iter().map(|p| (p.x * scale, p.y * scale)).collect();
        ring.push(ring[0]);
        ring.into()
    };
    let (expected, found) = (line(&given.outline, scale), line(&grown.outline, 1.0));
    for (from, to) in [(&expected, &found), (&found, &expected)] {
        for corner in from.points() {
            assert!(
                Euclidean.distance(&corner, to) < 2.0 * GRID,
                "{case}: {} is not {scale} times as large",
                given.id
            );
        }
    }
}

/// Whether nothing is asked for at all.
fn asks_for_nothing(layout: &Layout, aim: Aim) -> bool {
    layout.stickers.iter().all(|sticker| match (aim, sticker.wanted) {
        (Aim::Fill, Wanted::AtLeast(_)) => false,
        (Aim::Place | Aim::Fill | Aim::Shorten, wanted) => wanted.least() == 0,
        (Aim::Grow | Aim::Even, wanted) => wanted.least() == 0 && copies(layout, sticker) == 0,
    })
}

/// A refusal names what is truly so.
fn is_refused_rightly(case: &str, layout: &Layout, aim: Aim, error: &PackError) {
    match error {
        PackError::NothingToPlace => assert!(asks_for_nothing(layout, aim), "{case}"),
        PackError::LockedPiecesBreakRules { finding, .. } => {
            let only_locked = Layout { pieces: locked(layout), ..layout.clone() };
            assert!(!judge::faults_beyond(&only_locked, 0.0).is_empty(), "{case}: {finding:?}");
        }
        PackError::Layout(error) => assert_eq!(Some(error.clone()), layout.validate().err(), "{case}"),
    }
}

/// Every promise for every layout under this aim; and how much there was to look at.
fn promises_hold(aim: Aim) {
    let (mut pieces, mut whole) = (0, 0);
    for number in 0..LAYOUTS {
        let case = case(number, aim);
        let layout = random::layout(number);
        let (seed, rounds) = (number / 3, number % (MOST_ROUNDS + 1));
        let packing = match packed(&layout, aim, seed, rounds) {
            Ok(packing) => packing,
            Err(error) => {
                is_refused_rightly(&case, &layout, aim, &error);
                continue;
            }
        };
        hold(&case, &layout, &packing, aim);
        if number % TWICE == 0 {
            let again = packed(&layout, aim, seed, rounds).expect("packed before");
            assert_eq!(format!("{packing:?}"), format!("{again:?}"), "{case}");
        }
        if number % ONCE_MORE == 0 {
            from_a_sound_start(&case, &packing.layout, aim, seed);
        }
        pieces += packing.layout.pieces.len();
        whole += usize::from(packing.missing.is_empty() && !packing.layout.pieces.is_empty());
    }
    // The layouts must not all be trivial.
    assert!(pieces > 2 * LAYOUTS as usize, "{pieces}");
    assert!(whole > LAYOUTS as usize / 4, "{whole}");
}

/// What the packer itself has made keeps its copies when it is packed again, and some more round is no step back.
fn from_a_sound_start(case: &str, start: &Layout, aim: Aim, seed: u64) {
    let case = format!("{case}, again");
    match packed(start, aim, seed ^ 1, 2) {
        Ok(packing) => {
            hold(&case, start, &packing, aim);
            assert!(worth(&packing.layout) >= worth(start), "{case}");
            let is_whole = start
                .stickers
                .iter()
                .all(|sticker| copies(start, sticker) >= sticker.wanted.least() as usize);
            assert!(!is_whole || packing.missing.is_empty(), "{case}");
        }
        Err(error) => is_refused_rightly(&case, start, aim, &error),
    }
}

#[test]
fn placing_keeps_its_promises() {
    promises_hold(Aim::Place);
}

#[test]
fn filling_keeps_its_promises() {
    promises_hold(Aim::Fill);
}

#[test]
fn growing_keeps_its_promises() {
    promises_hold(Aim::Grow);
}

#[test]
fn evening_keeps_its_promises() {
    promises_hold(Aim::Even);
}

#[test]
fn shortening_keeps_its_promises() {
    promises_hold(Aim::Shorten);
}

#[test]
fn a_search_keeps_its_promises_after_every_round() {
    for (number, aim) in
        (0..60).zip([Aim::Place, Aim::Fill, Aim::Grow, Aim::Even, Aim::Shorten].into_iter().cycle())
    {
        let layout = random::layout(10_000 + number);
        let options = PackOptions { aim, seed: number };
        let Ok(mut search) = Search::new(&layout, &options) else { continue };
        for _ in 0..6 {
            let progress = search.round();
            let packing = Packing { layout: search.best(), progress, missing: search.missing() };
            hold(&case(10_000 + number, aim), &layout, &packing, aim);
        }
    }
}
