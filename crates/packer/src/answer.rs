//! From places to a layout that may be shown: rounded, put together, checked.

use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{Layout, Piece, RULE_TOLERANCE, Turns, check_pieces, placed_cut_lines};

use crate::build::NOISE;

/// A place for a free copy of the sticker at this position in the layout's list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Position of the sticker in the layout's list.
    pub sticker: usize,
    /// Where the copy lies.
    pub placement: Placement,
}

/// How many parts of a millimetre places are rounded to: a tenth of a nanometre, far below [`NOISE`], so that pieces
/// that touch exactly still do. It is written out in full by a file, so saving and loading changes nothing.
pub const PARTS: f64 = 1e7;

/// How many parts of a degree turns are rounded to. A ten-thousandth moves the rim of a 60 mm piece by 50 nanometres.
const TURN_PARTS: f64 = 10_000.0;

/// The placement rounded to the grid, its turn made one that is allowed.
pub fn snapped(placement: &Placement, turns: &Turns, mirror: bool) -> Placement {
    let round = |mm: f64| (mm * PARTS).round() / PARTS;
    let mut snapped = *placement;
    snapped.at.x = round(placement.at.x);
    snapped.at.y = round(placement.at.y);
    snapped.turn = snapped_turn(placement.turn, turns);
    snapped.mirrored = placement.mirrored && mirror;
    snapped
}

fn snapped_turn(turn: Turn, turns: &Turns) -> Turn {
    let parts = |degrees: f64| (degrees * TURN_PARTS).round() as i64;
    let turn_of = |parts: i64| Turn::degrees(parts.rem_euclid(3_600_000) as f64 / TURN_PARTS);
    match turns {
        Turns::None | Turns::Only(_) => turns.nearest(turn),
        Turns::Any => turn_of(parts(turn.to_degrees())),
        Turns::Within(degrees) => {
            let most = (degrees.min(180.0) * TURN_PARTS + 1e-6).floor() as i64;
            turn_of(parts(turn.to_signed_degrees()).clamp(-most, most))
        }
    }
}

/// The layout with its locked pieces as they are and its free pieces at these places.
///
/// Places are taken by the layout's own free pieces first, in their order, so that a piece keeps what its file says
/// about it; then new pieces come. Free pieces for which there is no place are left out.
pub fn assembled(layout: &Layout, places: &[Place]) -> Layout {
    let mut open: Vec<bool> = vec![true; places.len()];
    let mut pieces: Vec<Piece> = Vec::with_capacity(layout.pieces.len().max(places.len()));
    for piece in &layout.pieces {
        if piece.locked {
            pieces.push(piece.clone());
            continue;
        }
        let fits = |i: &usize| open[*i] && layout.stickers[places[*i].sticker].id == piece.sticker;
        if let Some(i) = (0..places.len()).find(fits) {
            open[i] = false;
            pieces.push(Piece { placement: places[i].placement, ..piece.clone() });
        }
    }
    for (place, _) in places.iter().zip(&open).filter(|&(_, &open)| open) {
        pieces.push(Piece::new(layout.stickers[place.sticker].id.clone(), place.placement));
    }
    Layout { pieces, ..layout.clone() }
}

/// Whether a layout may be shown: no hard rule broken, and every free piece turned and flipped only as allowed.
pub fn is_sound(layout: &Layout) -> bool {
    let lies_as_allowed = |piece: &Piece| {
        piece.locked
            || layout.sticker(&piece.sticker).is_some_and(|sticker| {
                sticker.turns.allow(piece.placement.turn) && (sticker.mirror || !piece.placement.mirrored)
            })
    };
    layout.pieces.iter().all(lies_as_allowed) && check_pieces(layout, &placed_cut_lines(layout)).is_empty()
}

/// Whether the layout is sound even where none of the check's [`RULE_TOLERANCE`] is used up.
///
/// What the search finds is held to this, so that the tolerance is left for those who round the lines otherwise.
pub fn keeps_rules_in_full(layout: &Layout) -> bool {
    let mut strict = layout.clone();
    let more = RULE_TOLERANCE - NOISE;
    strict.rules.spacing += more;
    strict.rules.margin += more;
    for zone in strict.backgrounds.iter_mut().flat_map(|background| &mut background.zones) {
        zone.clearance += more;
    }
    is_sound(&strict)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::Sticker;

    use super::*;

    fn sticker(turns: Turns) -> Sticker {
        let mut sticker = Sticker::new("s", "S", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.turns = turns;
        sticker
    }

    #[test]
    fn rounded_places_lie_on_the_grid() {
        let placement = Placement::turned(10.123_456_78, -3.000_000_04, 359.999_99);
        let snapped = snapped(&placement, &Turns::Any, false);
        assert_eq!((snapped.at.x, snapped.at.y), (10.123_456_8, -3.0));
        assert_eq!(snapped.turn.to_degrees(), 0.0);
    }

    #[test]
    fn rounded_turns_are_allowed_ones() {
        for (turns, degrees, expected) in [
            (Turns::None, 12.0, 0.0),
            (Turns::Within(15.0), 344.2, 345.0),
            (Turns::Within(7.123_456), 9.0, 7.123_4),
            (Turns::Only(vec![0.0, 33.333_333]), 30.0, 33.333_333),
        ] {
            let sticker = sticker(turns);
            let turn = snapped(&Placement::turned(0.0, 0.0, degrees), &sticker.turns, false).turn;
            assert!((turn.to_degrees() - expected).abs() < 1e-12, "{turn:?}");
            assert!(sticker.turns.allow(turn));
        }
    }

    #[test]
    fn rules_kept_in_full_leave_the_tolerance_unused() {
        let mut layout = Layout { stickers: vec![sticker(Turns::None)], ..Layout::default() };
        layout.rules.border = 0.0;
        layout.pieces = [20.0, 32.0].map(|x| Piece::new("s".into(), Placement::at(x, 20.0))).to_vec();
        assert!(is_sound(&layout) && keeps_rules_in_full(&layout));
        layout.pieces[1].placement.at.x = 31.999;
        assert!(is_sound(&layout) && !keeps_rules_in_full(&layout));
    }

    #[test]
    fn locked_pieces_stay_and_free_ones_take_their_places_in_order() {
        let mut layout = Layout { stickers: vec![sticker(Turns::None)], ..Layout::default() };
        let mut locked = Piece::new("s".into(), Placement::at(20.0, 20.0));
        locked.locked = true;
        layout.pieces = vec![Piece::new("s".into(), Placement::at(0.0, 0.0)), locked.clone()];
        let places = [40.0, 60.0].map(|x| Place { sticker: 0, placement: Placement::at(x, 50.0) });
        let pieces = assembled(&layout, &places).pieces;
        assert_eq!(pieces[0].placement.at.x, 40.0);
        assert_eq!(pieces[1], locked);
        assert_eq!(pieces[2].placement.at.x, 60.0);
    }
}
