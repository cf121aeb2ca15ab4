//! Which of the artist's own stickers would fit into the empty room, how turned and how large.
//!
//! A cut line keeps every rule where all points of the drawing's outline have as much room as the border is wide. So the
//! room is charted once, and a place is tried by looking up some points of the outline. From the best of a few turns in
//! each of the largest discs of empty room, place and turn are changed by chance as long as the drawing can grow. The rule
//! check has the last word, at the true cut line.

mod drawing;
mod judge;
mod trial;

use stickleaf_outline::{Disc, Placement};
use stickleaf_sheet::{
    Layout, RoomChart, Sticker, StickerId, Wanted, empty_room_beside, placed_cut_lines, room_chart,
};

use crate::random::Chance;
use drawing::Drawing;
use judge::Judge;
use trial::{FULL_WORTH, Trial};

/// A drawing made smaller than this is another drawing.
pub const LEAST_SCALE: f64 = 0.5;

/// A sticker that would fit into the empty room.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Which sticker.
    pub sticker: StickerId,
    /// Where and how a copy would lie.
    pub placement: Placement,
    /// How large its drawing would be, as a share of its size now; 1 for full size. The border stays as wide as it is.
    pub scale: f64,
}

/// Empty room is looked for in so many places.
const PLACES: usize = 3;

/// How many points of the outlines are looked up in all: a twentieth of a second or so.
const MOST_LOOK_UPS: u64 = 6_000_000;

/// The chart has no more points than this, and none nearer to each other than [`FINEST`] millimetres.
const MOST_CHARTED: f64 = 200_000.0;
const FINEST: f64 = 0.25;

/// If the check refuses a scale, these shares of it are tried.
const LESS: [f64; 6] = [1.0, 0.997, 0.99, 0.98, 0.95, 0.9];

/// The stickers of which a copy would fit into the empty room, each at the largest scale that was found, from
/// [`LEAST_SCALE`] to 1; the largest scale first, then those of which copies are missing, then the larger ones.
///
/// Every single one keeps all hard rules where it would lie, with none of the check's tolerance used up, and is turned as
/// its sticker allows; two of them may want the same place. None is made smaller than the rules' smallest sticker. The
/// scale is the largest found, not proven to be the largest. Stickers of which exactly none are wanted are left out.
///
/// The same layout gives the same answer on every platform. Cost: a twentieth to a fifth of a second for thirty stickers.
pub fn room_for(layout: &Layout) -> Vec<Fit> {
    let lines = placed_cut_lines(layout);
    let wanted: Vec<&Sticker> =
        layout.stickers.iter().filter(|sticker| sticker.wanted != Wanted::Exactly(0)).collect();
    let least = wanted.iter().map(|sticker| least_disc(layout, sticker)).fold(f64::INFINITY, f64::min);
    let discs = if wanted.is_empty() {
        Vec::new()
    } else {
        empty_room_beside(layout, &lines, PLACES, 2.0 * least).discs
    };
    if discs.is_empty() {
        return Vec::new();
    }
    let step = (layout.sheet.width * layout.sheet.height / MOST_CHARTED).sqrt().max(FINEST);
    let chart = room_chart(layout, &lines, layout.sheet.bounds(), step);
    let mut judge = Judge::new(layout, lines);
    let share = MOST_LOOK_UPS / wanted.len() as u64;
    let mut fits: Vec<(Fit, &Sticker)> = Vec::new();
    for sticker in wanted {
        let places: Vec<Disc> =
            discs.iter().copied().filter(|disc| disc.radius >= least_disc(layout, sticker)).collect();
        let drawing = Drawing::new(layout, sticker);
        fits.extend(best_fit(&chart, &mut judge, &drawing, &places, share).map(|fit| (fit, sticker)));
    }
    let is_missing = |sticker: &Sticker| layout.placed(&sticker.id) < sticker.wanted.least() as usize;
    fits.sort_by(|(a, a_sticker), (b, b_sticker)| {
        b.scale
            .total_cmp(&a.scale)
            .then(is_missing(b_sticker).cmp(&is_missing(a_sticker)))
            .then(b_sticker.outline.area().total_cmp(&a_sticker.outline.area()))
    });
    fits.into_iter().map(|(fit, _)| fit).collect()
}

/// The radius of a disc that the cut line of the smallest drawing holds at least.
///
/// Source: an outline of area A and length L holds a disc of radius A / L or more: R. Osserman, "Bonnesen-style
/// isoperimetric inequalities", American Mathematical Monthly 86 (1979).
fn least_disc(layout: &Layout, sticker: &Sticker) -> f64 {
    let held = sticker.outline.area() / sticker.outline.perimeter();
    held * LEAST_SCALE + sticker.border_width(&layout.rules)
}

/// The largest that was found for a drawing in these discs, checked.
fn best_fit(
    chart: &RoomChart,
    judge: &mut Judge,
    drawing: &Drawing,
    discs: &[Disc],
    share: u64,
) -> Option<Fit> {
    let mut tries = Vec::new();
    for disc in discs {
        let mut trial = Trial { chart, drawing, left: share / discs.len() as u64 };
        // Each place has its own chance, so that one more sticker on the tray changes no other's answer by it.
        tries.extend(trial.follow(*disc, &mut Chance::new(1)));
        if tries.iter().any(|tried| tried.worth >= FULL_WORTH) {
            break;
        }
    }
    tries.retain(|tried| tried.worth >= LEAST_SCALE);
    tries.sort_by(|a, b| b.worth.total_cmp(&a.worth));
    let mut best: Option<Fit> = None;
    for tried in tries.iter().take(2) {
        let already = best.as_ref().map_or(0.0, |fit| fit.scale);
        for scale in LESS.map(|share| tried.worth.min(1.0) * share) {
            if scale < LEAST_SCALE || scale <= already {
                break;
            }
            let placement = drawing.placement(tried, scale);
            if judge.accepts(drawing, &placement, scale) {
                best = Some(Fit { sticker: drawing.sticker.id.clone(), placement, scale });
                break;
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use kurbo::Point;
    use stickleaf_outline::{Outline, Turn, shapes};
    use stickleaf_sheet::{Piece, Rules, Sheet, Turns, check_pieces};

    use super::*;

    /// A sheet that leaves a square of this side inside its margin, and these stickers for it, without a border.
    fn square_room(side: f64, outlines: &[Outline], turns: &Turns) -> Layout {
        let sticker = |(number, outline): (usize, &Outline)| {
            let mut sticker = Sticker::new(format!("s{number}"), format!("S {number}"), outline.clone());
            sticker.turns = turns.clone();
            sticker
        };
        Layout {
            sheet: Sheet { width: side + 8.0, height: side + 8.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: outlines.iter().enumerate().map(sticker).collect(),
            ..Layout::default()
        }
    }

    fn only(layout: &Layout) -> Fit {
        let fits = room_for(layout);
        assert_eq!(fits.len(), 1, "{fits:?}");
        fits[0].clone()
    }

    #[test]
    fn a_square_fills_its_room_but_for_the_border() {
        let mut layout = square_room(30.0, &[shapes::square(40.0)], &Turns::None);
        let scale = only(&layout).scale;
        assert!(scale <= 0.75 && scale > 0.74, "{scale}");
        // The border stays as wide as it is: 27 mm are left for the drawing.
        layout.rules.border = 1.5;
        let scale = only(&layout).scale;
        assert!(scale <= 0.675 && scale > 0.665, "{scale}");
    }

    #[test]
    fn a_bar_that_may_turn_lies_across() {
        // At 45 degrees a bar of length l and width w takes (l + w) / sqrt 2 both ways.
        let across = 40.0 * 2f64.sqrt() / 64.0;
        let scale = only(&square_room(40.0, &[shapes::rectangle(60.0, 4.0)], &Turns::Any)).scale;
        assert!(scale <= across + 1e-4 && scale > across - 0.01, "{scale} of {across}");
        let scale = only(&square_room(40.0, &[shapes::rectangle(60.0, 4.0)], &Turns::None)).scale;
        assert!(scale <= 40.0 / 60.0 && scale > 0.66, "{scale}");
        let turned = only(&square_room(40.0, &[shapes::rectangle(60.0, 4.0)], &Turns::Only(vec![90.0])));
        assert_eq!(turned.placement.turn.to_degrees(), 90.0);
    }

    #[test]
    fn the_gap_left_by_a_piece_is_found_at_full_size() {
        // Nine boxes of 12 mm with two millimetres between them fill the square; the one in the middle is missing.
        let mut layout =
            square_room(40.0, &[shapes::square(11.5), shapes::square(12.0)], &Turns::Within(20.0));
        let places = (0..9u32).filter(|place| *place != 4).map(|place| {
            let (column, row) = (f64::from(place % 3), f64::from(place / 3));
            Placement::at(10.0 + 14.0 * column, 10.0 + 14.0 * row)
        });
        layout.pieces = places.map(|placement| Piece::new("s1".into(), placement)).collect();
        let fits = room_for(&layout);
        assert_eq!((&*fits[0].sticker, fits[0].scale), ("s0", 1.0));
        assert!((fits[0].placement.at - Point::new(24.0, 24.0)).hypot2() < 0.1);
        assert!(fits[1].scale > 0.97, "{fits:?}");
    }

    #[test]
    fn what_is_not_wanted_or_would_be_too_small_is_left_out() {
        let mut layout = square_room(10.0, &[shapes::square(15.0)], &Turns::None);
        assert_eq!(room_for(&layout).len(), 1);
        layout.rules.smallest = 11.0;
        assert_eq!(room_for(&layout), []);
        layout.rules.smallest = 8.0;
        layout.stickers[0].wanted = Wanted::Exactly(0);
        assert_eq!(room_for(&layout), []);
        layout.stickers = vec![Sticker::new("s", "S", shapes::square(24.0))];
        assert_eq!(room_for(&layout), [], "less than half of it fits");
    }

    #[test]
    fn every_fit_keeps_the_rules_where_it_would_lie() {
        let outlines = [
            shapes::star(5, 12.0, 5.0),
            shapes::crescent(9.0),
            shapes::c(14.0, 4.0),
            shapes::blob(7, 11.0),
            shapes::dumbbell(4.0, 2.0, 9.0),
            shapes::comb(4, 1.5),
        ];
        let mut chance = Chance::new(5);
        let mut found = 0;
        for round in 0..12u32 {
            let turns = [Turns::Any, Turns::None, Turns::Within(25.0), Turns::Only(vec![0.0, 90.0])];
            let mut layout = square_room(70.0, &outlines, &turns[round as usize % 4]);
            layout.rules.border = f64::from(round % 3);
            layout.sheet.corner_radius = f64::from(round) * 2.0;
            for sticker in &mut layout.stickers {
                sticker.mirror = round % 2 == 0;
            }
            for _ in 0..6 {
                let at = Point::new(chance.between(5.0, 73.0), chance.between(5.0, 73.0));
                let placement =
                    Placement { at, turn: Turn::degrees(chance.between(0.0, 360.0)), mirrored: false };
                layout.pieces.push(Piece::new(layout.stickers[chance.below(6)].id.clone(), placement));
            }
            let fits = room_for(&layout);
            assert_eq!(fits, room_for(&layout));
            assert!(fits.windows(2).all(|pair| pair[0].scale >= pair[1].scale));
            for fit in fits {
                let mut with = layout.clone();
                let mut sticker = layout.sticker(&fit.sticker).unwrap().clone();
                assert!(
                    sticker.turns.allow(fit.placement.turn) && (sticker.mirror || !fit.placement.mirrored)
                );
                let points =
                    sticker.outline.points().iter().map(|point| (point.to_vec2() * fit.scale).to_point());
                sticker.outline = Outline::new(points).unwrap().into();
                sticker.id = "new".into();
                with.stickers.push(sticker);
                with.pieces.push(Piece::new("new".into(), fit.placement));
                let last = with.pieces.len() - 1;
                let findings = check_pieces(&with, &placed_cut_lines(&with));
                assert!(
                    findings.iter().all(|finding| !finding.pieces.contains(&last)),
                    "{fit:?} in round {round}"
                );
                found += 1;
            }
        }
        assert!(found > 20, "{found}");
    }
}
