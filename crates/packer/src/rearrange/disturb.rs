//! Disturbing an arrangement that could not be taken apart, so that the next attempt starts elsewhere.
//!
//! Three ways: two large pieces change places; a part of the arrangement is thrown about; or a part of it is repeated. Where a sheet holds many copies of
//! few shapes, a good layout repeats good local patterns, which a search that moves one piece at a time finds anew for
//! every copy. So the pieces about one piece are taken as a pattern, and the same is laid about another copy of it.
//!
//! Sources: the change of places is that of J. Gardeyn, G. Vanden Berghe, T. Wauters, arXiv 2509.13329, 2025, who name
//! repeated patterns as what their search lacks (section 12). Joining pieces into good pairs before packing them: A.
//! Elkeran, "A new approach for sheet nesting problem using guided cuckoo search and pairwise clustering", European
//! Journal of Operational Research 231 (2013). Repeating what chance has found already is ours.

use std::ops::Range;

use kurbo::{Point, Vec2};
use stickleaf_outline::Turn;

use crate::random::Chance;
use crate::rearrange::board::{Board, Spot};
use crate::rearrange::lies::Lies;

/// Draws of pieces before a disturbance is given up.
const DRAWS: usize = 20;
/// The most pieces of a pattern besides the one in its middle.
const MOST_ABOUT: usize = 4;
/// How far a piece may be from where the pattern wants it and count as there, as a share of the middle piece's diagonal.
const THERE: f64 = 0.02;

/// Puts the free pieces whose centres are in a band across the sheet anywhere within the sheet and that band, lying in any
/// way. Those that are too large for the sheet in the way drawn stay.
pub fn throw_about(lies: &Lies, board: &mut Board, band: Range<f64>, chance: &mut Chance) {
    for index in 0..board.free {
        let spot = board.spots[index];
        if !band.contains(&spot.at.y) {
            continue;
        }
        let of_form = lies.of_form[lies.list[spot.lie].form].clone();
        let lie = of_form.start + chance.below(of_form.len());
        if board.fits(lies, lie) {
            let range = board.range(lies, lie);
            let at = Point::new(chance.between(range.x0, range.x1), chance.between(band.start, band.end));
            board.put(lies, index, board.inside(lies, Spot { lie, at }));
        }
    }
}

/// Two of the large pieces, of different forms, change places; false if no such two were drawn.
pub fn swap_two(lies: &Lies, board: &mut Board, chance: &mut Chance) -> bool {
    let form = |index: usize| lies.list[board.spots[index].lie].form;
    let area = |index: usize| lies.bounds(board.spots[index]).area();
    let mut large: Vec<usize> = (0..board.free).collect();
    large.sort_by(|&a, &b| area(b).total_cmp(&area(a)).then(a.cmp(&b)));
    large.truncate((board.free * 3).div_ceil(4).max(2).min(board.free));
    for _ in 0..DRAWS {
        let a = large[chance.below(large.len())];
        let b = large[chance.below(large.len())];
        if form(a) != form(b) {
            let (at_a, at_b) = (board.spots[a], board.spots[b]);
            board.put(lies, a, Spot { at: at_b.at, ..at_a });
            board.put(lies, b, Spot { at: at_a.at, ..at_b });
            return true;
        }
    }
    false
}

/// Lays the pieces about one piece in the same way about another copy of it; false if nothing has changed.
///
/// The pieces that are needed come from where they are nearest, and what lay in their new place goes to their old one.
/// If the copy lies in another turn, the pattern turns with it.
pub fn repeat_pattern(lies: &Lies, board: &mut Board, chance: &mut Chance) -> bool {
    for _ in 0..DRAWS {
        let middle = chance.below(board.free);
        let form = lies.list[board.spots[middle].lie].form;
        let is_copy = |&other: &usize| other != middle && lies.list[board.spots[other].lie].form == form;
        let copies: Vec<usize> = (0..board.free).filter(is_copy).collect();
        if copies.is_empty() {
            continue;
        }
        let copy = copies[chance.below(copies.len())];
        let mut about = nearest(lies, board, middle);
        about.truncate(1 + chance.below(MOST_ABOUT));
        if lay_about(lies, board, (middle, copy), &about) {
            return true;
        }
    }
    false
}

/// The other free pieces, the nearest to this one first.
fn nearest(lies: &Lies, board: &Board, middle: usize) -> Vec<usize> {
    let here = board.spots[middle];
    // Pieces that are out of the polygons' reach are as far as their centres are.
    let far = |spot: Spot| 1e6 + (spot.at - here.at).hypot2();
    let mut others: Vec<(f64, usize)> = (0..board.free)
        .filter(|&other| other != middle)
        .map(|other| {
            let spot = board.spots[other];
            let gap = lies.gap(here.lie, spot.lie, spot.at - here.at);
            (if gap.is_finite() { gap } else { far(spot) }, other)
        })
        .collect();
    others.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    others.into_iter().map(|(_, other)| other).collect()
}

/// Lays these pieces about the copy as they lie about the middle one; false if all lie so already, or cannot.
fn lay_about(lies: &Lies, board: &mut Board, (middle, copy): (usize, usize), about: &[usize]) -> bool {
    let (from, to) = (board.spots[middle], board.spots[copy]);
    let turn = lies.list[to.lie].degrees - lies.list[from.lie].degrees;
    if lies.list[to.lie].mirrored != lies.list[from.lie].mirrored {
        return false;
    }
    let (sine, cosine) = Turn::degrees(turn).sine_cosine();
    let there2 = lies.bounds(to).size().to_vec2().hypot2() * THERE * THERE;
    let mut settled = vec![middle, copy];
    settled.extend_from_slice(about);
    let mut has_changed = false;
    for &model in about {
        let spot = board.spots[model];
        let Some(lie) = lie_turned(lies, spot.lie, turn) else { continue };
        let by = spot.at - from.at;
        let at = to.at + Vec2::new(by.x * cosine - by.y * sine, by.x * sine + by.y * cosine);
        let target = Spot { lie, at };
        if (board.inside(lies, target).at - at).hypot2() > there2 {
            continue;
        }
        let form = lies.list[lie].form;
        let distance2 = |index: usize| (board.spots[index].at - at).hypot2();
        let nearest_of = |may: &dyn Fn(usize) -> bool| {
            let rest = (0..board.free).filter(|index| !settled.contains(index) && may(*index));
            rest.min_by(|&a, &b| distance2(a).total_cmp(&distance2(b)))
        };
        let Some(moved) = nearest_of(&|index| lies.list[board.spots[index].lie].form == form) else {
            continue;
        };
        let was = board.spots[moved];
        let displaced = nearest_of(&|index| index != moved);
        has_changed |= was.lie != lie || distance2(moved) > there2;
        if let Some(displaced) = displaced.filter(|&other| distance2(other) < distance2(moved)) {
            let spot = Spot { at: was.at, ..board.spots[displaced] };
            board.put(lies, displaced, board.inside(lies, spot));
        }
        board.put(lies, moved, target);
        settled.push(moved);
    }
    has_changed
}

/// How a piece lies once it is turned further by so many degrees; nothing if its form may not lie so.
fn lie_turned(lies: &Lies, lie: usize, degrees: f64) -> Option<usize> {
    let now = &lies.list[lie];
    lies.of_form[now.form].clone().find(|&other| {
        let other = &lies.list[other];
        let away = (other.degrees - now.degrees - degrees).rem_euclid(360.0);
        other.mirrored == now.mirrored && away.min(360.0 - away) < 1e-4
    })
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;

    use super::*;
    use crate::rearrange::lies::Form;

    fn boxes(sizes: &[(f64, f64)], turns: &[f64]) -> Lies {
        let form = |&(width, height): &(f64, f64)| {
            let (x, y) = (width / 2.0, height / 2.0);
            let ring = [(-x, -y), (x, -y), (x, y), (-x, y)].map(Point::from).to_vec();
            Form { ring, turns: turns.to_vec(), mirror: false }
        };
        Lies::new(&sizes.iter().map(form).collect::<Vec<_>>(), 0.0)
    }

    fn board(lies: &Lies, spots: &[(usize, f64, f64)]) -> Board {
        let spots: Vec<Spot> = spots.iter().map(|&(lie, x, y)| Spot { lie, at: Point::new(x, y) }).collect();
        let count = spots.len();
        Board::new(lies, Rect::new(0.0, 0.0, 100.0, 100.0), spots, count, vec![0.0; count])
    }

    #[test]
    fn a_pair_is_laid_again_about_a_copy_that_lies_the_other_way_round() {
        // Two long boxes, the second turned by half a turn, and two short ones, one of them to the right of the first.
        let lies = boxes(&[(20.0, 10.0), (4.0, 6.0)], &[0.0, 180.0]);
        let mut board = board(&lies, &[(0, 20.0, 20.0), (1, 60.0, 60.0), (2, 32.0, 21.0), (2, 90.0, 90.0)]);
        assert!(lay_about(&lies, &mut board, (0, 1), &[2]));
        let laid = board.spots[3];
        assert_eq!(lies.list[laid.lie].degrees, 180.0);
        assert!((laid.at - Point::new(48.0, 59.0)).hypot2() < 1e-18, "{laid:?}");
        assert!(!lay_about(&lies, &mut board, (0, 1), &[2]), "it lies there already");
    }

    #[test]
    fn only_pieces_in_the_band_are_thrown_about() {
        let lies = boxes(&[(20.0, 10.0), (4.0, 6.0)], &[0.0, 90.0]);
        let spots = [(0, 20.0, 5.0), (0, 20.0, 40.0), (2, 50.0, 60.0), (2, 70.0, 80.0)];
        let mut chance = Chance::new(5);
        let mut ways = std::collections::BTreeSet::new();
        for _ in 0..20 {
            let mut board = board(&lies, &spots);
            throw_about(&lies, &mut board, 30.0..70.0, &mut chance);
            for (spot, (_, x, y)) in board.spots.iter().zip(spots) {
                assert_eq!(spot.at == Point::new(x, y), !(30.0..70.0).contains(&y), "{spot:?}");
                assert!(board.inside(&lies, *spot) == *spot);
            }
            for spot in &board.spots[1..3] {
                assert!((30.0..70.0).contains(&spot.at.y), "{spot:?}");
                ways.insert(spot.lie);
            }
        }
        assert_eq!(ways.into_iter().collect::<Vec<_>>(), [0, 1, 2, 3]);
    }

    #[test]
    fn what_lay_in_the_way_changes_places() {
        let lies = boxes(&[(20.0, 10.0), (4.0, 6.0), (5.0, 5.0)], &[0.0]);
        let spots = [(0, 20.0, 20.0), (0, 60.0, 60.0), (1, 32.0, 20.0), (1, 90.0, 90.0), (2, 73.0, 60.0)];
        let mut board = board(&lies, &spots);
        assert!(lay_about(&lies, &mut board, (0, 1), &[2]));
        assert_eq!((board.spots[3].at, board.spots[4].at), (Point::new(72.0, 60.0), Point::new(90.0, 90.0)));
    }

    #[test]
    fn without_copies_there_is_no_pattern_and_with_one_form_no_swap() {
        let lies = boxes(&[(20.0, 10.0), (4.0, 6.0)], &[0.0]);
        let mut different = board(&lies, &[(0, 20.0, 20.0), (1, 60.0, 60.0)]);
        assert!(!repeat_pattern(&lies, &mut different, &mut Chance::new(1)));
        assert!(swap_two(&lies, &mut different, &mut Chance::new(1)));
        let mut same = board(&lies, &[(0, 20.0, 20.0), (0, 60.0, 60.0)]);
        assert!(!swap_two(&lies, &mut same, &mut Chance::new(1)));
    }
}
