//! A plain way to fill a sheet: every sticker in an upright box, boxes packed by a library made for texture atlases.
//!
//! The reference is meant to be strong. The library places rectangles by the *maximal rectangles* method with five
//! rules (J. Jylänki, "A Thousand Ways to Pack the Bin", 2010); all rules are tried with thousands of orders. A sticker
//! that may turn freely has a choice of four boxes: as it stands, on its side, and both again in the turn in which its
//! box is smallest; one that may lean has its box as it stands and in the lean in which it is smallest. Where zones
//! leave no single rectangle, many ways to cut up the rest are tried too.

use std::cmp::Ordering;

use binpack2d::Dimension;
use binpack2d::maxrects::{Heuristic, MaxRectsBin};
use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, Piece, Turns};

use crate::chance::Chance;

/// A way in which a sticker can lie in a box.
#[derive(Clone, Copy, Debug)]
pub struct Boxed {
    /// The turn, clockwise, in degrees.
    pub degrees: f64,
    /// The box round the cut line in that turn, seen from the sticker's (0, 0).
    pub bounds: Rect,
}

const RULES: [Heuristic; 5] = [
    Heuristic::BestShortSideFit,
    Heuristic::BestLongSideFit,
    Heuristic::BestAreaFit,
    Heuristic::BottomLeftRule,
    Heuristic::ContactPointRule,
];

/// One copy in its place.
#[derive(Clone, Copy, Debug)]
struct Placed {
    kind: usize,
    boxed: Boxed,
    corner: Point,
}

/// A bin of the library, and where its corner lies on the sheet.
type Bin = (MaxRectsBin, Point);

/// The boxes that each sticker of a layout may lie in.
pub fn choices(layout: &Layout) -> Vec<Vec<Boxed>> {
    let choice = |sticker: &stickleaf_sheet::Sticker| {
        let line = sticker.cut_line(&layout.rules);
        match &sticker.turns {
            Turns::Any => {
                let tight = tightest(&line, 0, 90);
                [0.0, 90.0, tight, tight + 90.0].map(|degrees| boxed(&line, degrees)).to_vec()
            }
            Turns::Within(most) => {
                let tight = tightest(&line, -(most.floor() as i32), most.floor() as i32 + 1);
                [0.0, tight].map(|degrees| boxed(&line, degrees)).to_vec()
            }
            Turns::Only(list) => list.iter().map(|&degrees| boxed(&line, degrees)).collect(),
            Turns::None => vec![boxed(&line, 0.0)],
        }
    };
    layout.stickers.iter().map(choice).collect()
}

fn boxed(line: &Outline, degrees: f64) -> Boxed {
    let degrees = degrees.rem_euclid(360.0);
    Boxed { degrees, bounds: line.placed(&Placement::turned(0.0, 0.0, degrees)).bounds() }
}

/// The whole number of degrees in which the box is smallest.
fn tightest(line: &Outline, from: i32, to: i32) -> f64 {
    let area = |degrees: &i32| boxed(line, f64::from(*degrees)).bounds.area();
    f64::from((from..to).min_by(|a, b| area(a).total_cmp(&area(b))).unwrap_or(0))
}

/// The layout filled with boxes: the best of so many tries.
///
/// One copy of each sticker comes first, largest first but for some chance, then further copies, smallest first, as
/// long as one fits. Better is what counts for us too: fewest stickers left out, then most pieces, then most area.
pub fn fill(layout: &Layout, ways: &[Vec<Rect>], tries: usize, chance: &mut Chance) -> Layout {
    let choices = choices(layout);
    let area = |kind: usize| layout.stickers[kind].cut_line(&layout.rules).area();
    let areas: Vec<f64> = (0..choices.len()).map(area).collect();
    let worth = |placed: &[Placed]| {
        let kinds = (0..choices.len()).filter(|&kind| placed.iter().any(|one| one.kind == kind)).count();
        (kinds, placed.len(), placed.iter().map(|one| areas[one.kind]).sum::<f64>())
    };
    let mut best: Vec<Placed> = Vec::new();
    for attempt in 0..tries {
        let rule = RULES[attempt % RULES.len()];
        let way = &ways[attempt / RULES.len() % ways.len()];
        let placed = one_try(&choices, way, layout.rules.spacing, rule, chance);
        if compared(worth(&placed), worth(&best)) == Ordering::Greater {
            best = placed;
        }
    }
    let piece = |placed: &Placed| {
        let at = placed.corner - placed.boxed.bounds.origin();
        let placement = Placement::turned(at.x, at.y, placed.boxed.degrees);
        Piece::new(layout.stickers[placed.kind].id.clone(), placement)
    };
    Layout { pieces: best.iter().map(piece).collect(), ..layout.clone() }
}

fn compared(a: (usize, usize, f64), b: (usize, usize, f64)) -> Ordering {
    (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2))
}

fn one_try(
    choices: &[Vec<Boxed>],
    way: &[Rect],
    spacing: f64,
    rule: Heuristic,
    chance: &mut Chance,
) -> Vec<Placed> {
    // Each box takes the spacing along on two sides, and so does each bin, so that boxes end at its edges.
    let bin = |rect: &Rect| {
        let whole = |mm: f64| ((mm + spacing) * 1000.0).floor() as i32;
        (MaxRectsBin::new(whole(rect.width()), whole(rect.height())), rect.origin())
    };
    let mut bins: Vec<Bin> = way.iter().map(bin).collect();
    let mut placed = Vec::new();
    let mut put = |kind: usize, chance: &mut Chance| {
        let boxes = &choices[kind];
        let first = chance.below(boxes.len());
        for boxed in (0..boxes.len()).map(|i| boxes[(first + i) % boxes.len()]) {
            if let Some(corner) = insert(&mut bins, boxed, spacing, rule) {
                placed.push(Placed { kind, boxed, corner });
                return true;
            }
        }
        false
    };
    // How large a kind counts: by area or by longer side, more or less.
    let by_area = chance.below(2) == 0;
    let noise = [0.0, 0.1, 0.3, 0.6][chance.below(4)];
    let size = |kind: usize| {
        let bounds = choices[kind][0].bounds;
        if by_area { bounds.area().sqrt() } else { bounds.width().max(bounds.height()) }
    };
    let mut order: Vec<(usize, f64)> =
        (0..choices.len()).map(|kind| (kind, size(kind) * (1.0 + noise * chance.unit()))).collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    for &(kind, _) in &order {
        put(kind, chance);
    }
    order.sort_by(|a, b| size(a.0).total_cmp(&size(b.0)));
    for &(kind, _) in &order {
        while put(kind, chance) {}
    }
    placed
}

/// Where a box comes to lie in the first bin that has room, if one has.
fn insert(bins: &mut [Bin], boxed: Boxed, spacing: f64, rule: Heuristic) -> Option<Point> {
    let whole = |mm: f64| ((mm + spacing) * 1000.0).ceil() as i32;
    let size = Dimension::with_id(0, whole(boxed.bounds.width()), whole(boxed.bounds.height()), 0);
    bins.iter_mut().find_map(|(bin, corner)| {
        let found = bin.insert(&size, rule)?;
        let mm = |micrometres: i32| f64::from(micrometres) / 1000.0;
        Some(Point::new(corner.x + mm(found.x()), corner.y + mm(found.y())))
    })
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Rules, Sheet, Sticker, Wanted};

    use super::*;
    use crate::free::ways;
    use crate::verify::spaced;

    fn card(width: f64, height: f64, stickers: Vec<(Outline, Turns)>) -> Layout {
        let sticker = |(index, (outline, turns)): (usize, (Outline, Turns))| {
            let mut sticker = Sticker::new(format!("s{index}"), "S", outline);
            sticker.wanted = Wanted::AtLeast(1);
            sticker.turns = turns;
            sticker
        };
        Layout {
            sheet: Sheet { width, height, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { spacing: 2.0, margin: 3.0, border: 0.0, ..Rules::default() },
            stickers: stickers.into_iter().enumerate().map(sticker).collect(),
            ..Layout::default()
        }
    }

    fn filled(layout: &Layout) -> Layout {
        let mut chance = Chance::new(1);
        let ways = ways(layout, 5.0, 10, &mut chance);
        fill(layout, &ways, 200, &mut chance)
    }

    #[test]
    fn squares_fill_a_card_to_its_edges_and_not_one_micrometre_beyond() {
        // 4 by 3 squares of 10 mm with 2 mm between them and 3 mm round them.
        let square = || vec![(shapes::square(10.0), Turns::None)];
        let full = filled(&card(52.0, 40.0, square()));
        assert_eq!(full.pieces.len(), 12);
        assert_eq!(spaced(&full), Ok(()));
        assert_eq!(filled(&card(51.999, 40.0, square())).pieces.len(), 9);
    }

    #[test]
    fn a_bar_that_may_turn_lies_on_its_side_or_aslant_as_it_fits() {
        let bar = shapes::rectangle(30.0, 8.0);
        assert_eq!(filled(&card(20.0, 40.0, vec![(bar.clone(), Turns::None)])).pieces.len(), 0);
        assert_eq!(filled(&card(20.0, 40.0, vec![(bar.clone(), Turns::Any)])).pieces.len(), 1);
        // Drawn aslant, it is stood up straight.
        let aslant = bar.placed(&Placement::turned(0.0, 0.0, 45.0));
        let layout = filled(&card(36.2, 14.2, vec![(aslant, Turns::Any)]));
        assert_eq!((layout.pieces.len(), spaced(&layout)), (1, Ok(())));
    }

    #[test]
    fn one_of_each_comes_before_more_of_the_small_one() {
        let stickers = vec![(shapes::square(20.0), Turns::None), (shapes::square(5.0), Turns::None)];
        let layout = filled(&card(33.0, 33.0, stickers));
        let count = |id: &str| layout.placed(id);
        // Beside the large one, five small ones fit round its corner, at a pitch of 7 mm.
        assert_eq!((count("s0"), count("s1")), (1, 7));
        assert_eq!(spaced(&layout), Ok(()));
    }
}
