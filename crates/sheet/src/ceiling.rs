//! A proven bound: no layout under these rules holds more.
//!
//! Two bounds are worked out and the smaller one counts.
//!
//! **By area.** Let the spacing be s. Grow every cut line by s/2: since any two are at least s apart, the grown pieces
//! do not overlap. A piece lies inside the sheet less its margin, so grown it lies inside that part grown by s/2. A
//! piece keeps the clearance c from a zone; a point of the grown piece is within s/2 of the piece, so it keeps
//! c - s/2 from the zone if c is the larger, and otherwise reaches at most s/2 - c into it. Hence the areas of the
//! grown pieces add up to no more than the area of the grown part less those zones. The count is greatest when, after
//! the copies that must be there, only the smallest further sticker is added.
//!
//! **By inscribed discs.** Every cut line holds a disc of some radius r, the least over the stickers in play. The
//! centres of these discs are at least d = 2r + s apart and lie in the sheet less margin and r, a convex set of area A
//! and perimeter P. N. Oler, "An inequality in the geometry of numbers", Acta Mathematica 105 (1961): at most
//! 2/√3 · A/d² + P/(2d) + 1 such points exist. Zones only take room away, so the bound holds with them.
//!
//! Rounding never helps the bound: regions are measured from outside, pieces from inside, and every rule is taken
//! looser by the tolerance with which it is checked.

use core::f64::consts::PI;

use stickleaf_outline::Region;

use crate::check::RULE_TOLERANCE;
use crate::layout::Layout;
use crate::sticker::Sticker;

/// How finely round corners are drawn when areas are measured, in millimetres.
const FINE: f64 = 0.001;

/// The most pieces that any layout with this sheet, background, rules and stickers can hold.
///
/// If the layout holds every copy that is wanted, or no piece at all, the bound speaks of layouts that hold every
/// wanted copy; otherwise of all layouts, and may be higher. Copies beyond an exact wish are counted only as far as
/// they lie on the sheet already. Zero if there are no stickers.
///
/// Cost: one growth of each cut line, milliseconds in all.
pub fn ceiling(layout: &Layout) -> usize {
    let kinds = kinds(layout);
    if kinds.is_empty() {
        return 0;
    }
    by_area(layout, &kinds).min(by_inscribed_discs(layout, &kinds))
}

/// What the bounds need to know of a sticker.
struct Kind {
    grown_area: f64,
    disc_radius: f64,
    least: usize,
    placed: usize,
    most: Option<usize>,
}

fn kinds(layout: &Layout) -> Vec<Kind> {
    let half = half_spacing(layout);
    let kind = |sticker: &Sticker| {
        let (line, wanted) = (sticker.cut_line(&layout.rules), sticker.wanted);
        let placed = layout.placed(&sticker.id);
        let grown_area = || Region::of(&line).grown(half, FINE).area();
        Kind {
            grown_area: sticker.memos.grown_area.get(&line, half, grown_area),
            disc_radius: sticker.disc_radius(&layout.rules),
            least: wanted.least() as usize,
            placed,
            most: wanted.most().map(|most| placed.max(most as usize)),
        }
    };
    layout.stickers.iter().map(kind).filter(|kind| kind.most != Some(0)).collect()
}

fn half_spacing(layout: &Layout) -> f64 {
    (layout.rules.spacing - RULE_TOLERANCE).max(0.0) / 2.0
}

fn by_area(layout: &Layout, kinds: &[Kind]) -> usize {
    let half = half_spacing(layout);
    let margin = (layout.rules.margin - RULE_TOLERANCE).max(0.0);
    let mut room = layout.sheet.inset_region(margin).grown(half + 2.0 * FINE, FINE);
    for zone in layout.zones() {
        let clearance = (zone.clearance - RULE_TOLERANCE).max(0.0);
        room = room.difference(&Region::of(&zone.outline).grown(clearance - half - 2.0 * FINE, FINE));
    }
    let area = room.area();
    let required: f64 = kinds.iter().map(|kind| kind.least as f64 * kind.grown_area).sum();
    let holds_wanted = kinds.iter().all(|kind| kind.placed >= kind.least);
    if required <= area && (holds_wanted || layout.pieces.is_empty()) {
        let count: usize = kinds.iter().map(|kind| kind.least).sum();
        return count + most_within(area - required, kinds, |kind| kind.least);
    }
    most_within(area, kinds, |_| 0)
}

/// How many more pieces an area can hold, smallest first, when so many of each kind are there already.
fn most_within(area: f64, kinds: &[Kind], there: impl Fn(&Kind) -> usize) -> usize {
    let mut order: Vec<&Kind> = kinds.iter().collect();
    order.sort_by(|a, b| a.grown_area.total_cmp(&b.grown_area));
    let (mut left, mut count) = (area, 0);
    for kind in order {
        // A part in a billion more than computed, so that a sum exactly at the limit is not lost to rounding.
        let fit = ((left * (1.0 + 1e-9)) / kind.grown_area).floor().max(0.0) as usize;
        let more = kind.most.map_or(fit, |most| fit.min(most.saturating_sub(there(kind))));
        count += more;
        left -= more as f64 * kind.grown_area;
        if more < fit {
            continue;
        }
        break;
    }
    count
}

fn by_inscribed_discs(layout: &Layout, kinds: &[Kind]) -> usize {
    let radius = kinds.iter().map(|kind| kind.disc_radius).fold(f64::INFINITY, f64::min);
    let apart = 2.0 * (radius + half_spacing(layout));
    let inset = (layout.rules.margin - RULE_TOLERANCE).max(0.0) + radius;
    let (width, height) = (layout.sheet.width - 2.0 * inset, layout.sheet.height - 2.0 * inset);
    if width < 0.0 || height < 0.0 {
        return 0;
    }
    let round = (layout.sheet.corner_radius - inset).max(0.0);
    let area = width * height - (4.0 - PI) * round * round;
    let perimeter = 2.0 * (width + height) - (8.0 - 2.0 * PI) * round;
    let most = 2.0 / 3f64.sqrt() * area / (apart * apart) + perimeter / (2.0 * apart) + 1.0;
    (most * (1.0 + 1e-9)).floor() as usize
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;

    use super::*;
    use crate::{Rules, Sheet, Wanted};

    fn discs(diameter: f64, margin: f64, spacing: f64) -> Layout {
        let r = diameter / 2.0;
        let disc = path::parse(&format!("M-{r} 0A{r} {r} 0 1 1 {r} 0A{r} {r} 0 1 1 -{r} 0Z")).unwrap();
        let mut sticker = Sticker::new("disc", "Disc", disc);
        sticker.wanted = Wanted::AtLeast(0);
        Layout {
            sheet: Sheet { width: 100.0, height: 150.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        }
    }

    #[test]
    fn discs_on_a_sheet_meet_oler() {
        // N <= 2/sqrt 3 A/d² + P/(2 d) + 1 worked out by hand for a 100 x 150 mm sheet, margin 3, diameter 20, spacing
        // 2: K is 74 x 124 mm, d = 22: floor(21.89 + 9.0 + 1) = 31.
        assert_eq!(ceiling(&discs(20.0, 3.0, 2.0)), 31);
        // Margin 5, diameter 45, spacing 3: K is 45 x 95 mm, d = 48: floor(2.14 + 2.92 + 1) = 6.
        assert_eq!(ceiling(&discs(45.0, 5.0, 3.0)), 6);
    }

    #[test]
    fn a_piece_larger_than_the_sheet_cannot_lie_on_it() {
        assert_eq!(ceiling(&discs(120.0, 3.0, 2.0)), 0);
    }

    #[test]
    fn exact_wishes_cap_the_bound() {
        let mut layout = discs(20.0, 3.0, 2.0);
        layout.stickers[0].wanted = Wanted::Exactly(5);
        assert_eq!(ceiling(&layout), 5);
        layout.stickers.clear();
        assert_eq!(ceiling(&layout), 0);
    }

    #[test]
    fn boxes_in_a_grid_that_just_fits_are_not_above_the_bound() {
        // 4 x 6 boxes of 10 mm, spacing 2: 46 x 70 mm, margin 4, so a sheet of 54 x 78 mm holds 24 exactly.
        let mut sticker = Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.wanted = Wanted::AtLeast(0);
        let layout = Layout {
            sheet: Sheet { width: 54.0, height: 78.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        };
        assert!(ceiling(&layout) >= 24);
    }
}
