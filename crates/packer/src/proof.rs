//! What is proved never to find a place, so that nobody waits for it.

use kurbo::{Point, Size};
use stickleaf_outline::Turn;
use stickleaf_sheet::{Layout, RULE_TOLERANCE, Sticker, Turns, Wanted, ceiling};

use crate::goal::{Demand, counts, wanted};

/// A span of turns is halved down to this many degrees before nothing is said about it.
const FINEST_SPAN: f64 = 0.02;

/// How much of the demands can be met at most, whatever is tried.
pub struct Proof {
    /// For each sticker, the copies beyond which no more fit, those that must be there counted only.
    pub copies: Vec<usize>,
    /// The same for all stickers together.
    pub pieces: usize,
    /// Whether that is too little to meet the demands.
    pub is_too_little: bool,
}

impl Proof {
    /// The proof for a layout of which only what is locked stays. `locked` has no other pieces.
    ///
    /// Cost: that of a [`ceiling`] for each sticker.
    pub fn new(locked: &Layout, demands: &[Demand]) -> Proof {
        let there = counts(locked);
        let mut all = locked.clone();
        for (sticker, (demand, &there)) in all.stickers.iter_mut().zip(demands.iter().zip(&there)) {
            let least = u32::try_from(demand.least.max(there)).unwrap_or(u32::MAX);
            sticker.wanted = Wanted::Exactly(least);
        }
        let copies: Vec<usize> = (0..demands.len())
            .map(|kind| if demands[kind].least > there[kind] { most_copies(&all, kind) } else { there[kind] })
            .collect();
        let pieces = ceiling(&all).min(copies.iter().fold(0, |sum, &copies| sum.saturating_add(copies)));
        let asked =
            all.stickers.iter().fold(0, |sum: usize, one| sum.saturating_add(one.wanted.least() as usize));
        Proof { is_too_little: pieces < asked.max(wanted(demands)), copies, pieces }
    }
}

/// The most copies of one sticker when no other is to be placed.
fn most_copies(all: &Layout, kind: usize) -> usize {
    let sticker = &all.stickers[kind];
    let pieces: Vec<_> = all.pieces.iter().filter(|piece| piece.sticker == sticker.id).cloned().collect();
    if fits_in_no_turn(all, sticker) {
        return pieces.len();
    }
    ceiling(&Layout { stickers: vec![sticker.clone()], pieces, ..all.clone() })
}

/// Whether the sticker is proved to be wider or higher than the room inside the margin at every turn that it may have.
fn fits_in_no_turn(layout: &Layout, sticker: &Sticker) -> bool {
    let spans = match &sticker.turns {
        Turns::None => vec![(0.0, 0.0)],
        // Upside down, a piece is as wide and as high.
        Turns::Any => vec![(0.0, 180.0)],
        Turns::Within(degrees) => vec![(-degrees.min(90.0), degrees.min(90.0))],
        Turns::Only(list) if list.is_empty() => vec![(0.0, 0.0)],
        Turns::Only(list) => list.iter().map(|&degrees| (degrees, degrees)).collect(),
    };
    // A piece flipped and turned is as wide and as high as one turned the other way.
    let flipped = spans.iter().filter(|_| sticker.mirror).map(|&(from, to)| (-to, -from));
    let inside = |side: f64| side - 2.0 * (layout.rules.margin - RULE_TOLERANCE);
    let room = Size::new(inside(layout.sheet.width), inside(layout.sheet.height));
    let line = sticker.cut_line(&layout.rules);
    spans.iter().copied().chain(flipped).all(|span| is_too_large(line.points(), span, room))
}

/// Whether the points take more than the room at every turn of a span, in degrees.
///
/// When a piece turns, no side of the box round it changes faster than the diagonal of any box round the piece.
fn is_too_large(points: &[Point], (from, to): (f64, f64), room: Size) -> bool {
    let middle = (from + to) / 2.0;
    let size = size_at(points, middle);
    if size.width <= room.width && size.height <= room.height {
        return false;
    }
    let diagonal = (size.width * size.width + size.height * size.height).sqrt();
    let change = diagonal * ((to - from) / 2.0).to_radians();
    if size.width - change > room.width || size.height - change > room.height {
        return true;
    }
    to - from > FINEST_SPAN
        && is_too_large(points, (from, middle), room)
        && is_too_large(points, (middle, to), room)
}

/// The size of the box round the points when they are turned by so many degrees.
fn size_at(points: &[Point], degrees: f64) -> Size {
    let (sine, cosine) = Turn::degrees(degrees).sine_cosine();
    let extent = |along: &dyn Fn(&Point) -> f64| {
        let (low, high) = points
            .iter()
            .map(along)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        high - low
    };
    Size::new(extent(&|p| p.x * cosine - p.y * sine), extent(&|p| p.x * sine + p.y * cosine))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Rules, Sheet};

    use super::*;

    fn bar(length: f64, width: f64, turns: Turns) -> Layout {
        let mut sticker = Sticker::new("bar", "Bar", shapes::rectangle(length, width));
        sticker.turns = turns;
        Layout {
            sheet: Sheet { width: 30.0, height: 40.0, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { border: 0.0, margin: 0.0, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        }
    }

    #[test]
    fn a_bar_fits_up_to_the_diagonal_if_it_may_turn_that_far() {
        let fits = |layout: &Layout| !fits_in_no_turn(layout, &layout.stickers[0]);
        // Turned by atan 4/3 = 53.13 degrees, a bar a thousandth wide of nearly 50 mm lies along the diagonal.
        assert!(fits(&bar(49.9, 0.01, Turns::Any)));
        assert!(!fits(&bar(50.1, 0.01, Turns::Any)));
        // 49 by 2 mm turned by t needs 49 cos t + 2 sin t <= 30 and 49 sin t + 2 cos t <= 40; squared and added up,
        // 2405 + 392 sin t cos t <= 2500. So t is below 15 or above 75 degrees, and one of the two is above 47.
        assert!(!fits(&bar(49.0, 2.0, Turns::Any)));
        assert!(!fits(&bar(40.1, 10.0, Turns::Only(vec![0.0, 90.0, 180.0]))));
        assert!(fits(&bar(40.0, 10.0, Turns::Only(vec![0.0, 90.0]))));
        assert!(!fits(&bar(45.0, 1.0, Turns::Within(40.0))));
        assert!(fits(&bar(45.0, 1.0, Turns::Within(60.0))));
    }

    #[test]
    fn a_flip_opens_other_turns() {
        // Along the diagonal that rises to the right, or, flipped, along the other; they are as long.
        let mut layout = bar(49.0, 0.5, Turns::Only(vec![-53.0]));
        assert!(!fits_in_no_turn(&layout, &layout.stickers[0]));
        layout.stickers[0].turns = Turns::Only(vec![20.0]);
        assert!(fits_in_no_turn(&layout, &layout.stickers[0]));
    }
}
