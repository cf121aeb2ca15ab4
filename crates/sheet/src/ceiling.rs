//! A proven bound: no layout under these rules holds more.
//!
//! Several bounds are worked out and the smallest one counts; each has its own file with its proof and source. Most take
//! the parts of the ground that pieces can lie in one by one, and all of them are held against the whole sheet too.
//!
//! | file | argument |
//! | --- | --- |
//! | `area` | pieces grown by half the spacing do not overlap, and none gets into sharp corners |
//! | `hexagons`, `polygons_round`, `convex_part` | polygons round them do not overlap either and have six sides on average |
//! | `boxes` | upright boxes in the pieces do not overlap: rows, columns, pallets |
//! | `points`, `rows` | middles of discs in the pieces keep their distance |
//! | `places` | a handful of such middles: all their places are searched |
//!
//! What can be covered at all is `ground`; what is known of each sticker `kind`, with `stand_off` and `inner_boxes`.
//!
//! Rounding never helps the bound: regions are measured from outside, pieces from inside, and every rule is taken
//! looser by the tolerance with which it is checked, see `slack`.

mod area;
mod boxes;
mod convex_part;
mod ground;
mod hexagons;
mod hull;
mod inner_boxes;
mod kind;
mod places;
mod points;
mod polygons_round;
mod rows;
mod slack;
mod stand_off;
mod weights;

use stickleaf_outline::Region;

use crate::layout::Layout;
use crate::sticker::Sticker;
use area::{most_by_area, most_without_corners};
use boxes::most_by_boxes;
use ground::{Part, grounds, middles, radius};
use hexagons::most_by_polygons;
use kind::{Kind, kinds, polygons};
use places::Search;
use points::{bounds, most_points};
use slack::half_spacing;
use weights::{Holding, most_by_weight, most_wanted};

pub(crate) use kind::Grown;
pub use kind::has_strays;
pub(crate) use polygons_round::PolygonsRound;

/// The polygons round the pieces are looked at if no more kinds than this are in play.
const FEW: usize = 8;

/// The polygons round the pieces are looked at if areas so much larger would lower the bound: for discs the hexagons are
/// √12 / π = 1.103 times as large, and for other shapes hardly more.
const MOST_GAPS: f64 = 1.12;

/// How many sets of larger stickers are looked at by themselves.
const MOST_SETS: usize = 4;

/// A proven bound and the argument that gave it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ceiling {
    /// No layout under these rules holds more pieces.
    pub most: usize,
    /// Why.
    pub reason: CeilingReason,
}

/// Which argument gave a ceiling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CeilingReason {
    /// No more copies are wanted.
    Wanted,
    /// No sticker fits anywhere.
    NoRoom,
    /// The pieces with half the spacing round them fill the ground.
    Area,
    /// The middles of the largest discs in the pieces keep their distance.
    Discs,
    /// Boxes in the pieces fill rows and columns.
    Boxes,
    /// The pieces and the gaps that their shapes leave fill the ground.
    Gaps,
    /// The ground falls into parts, and each holds so many.
    Parts,
}

impl CeilingReason {
    /// The argument as a sentence for whoever asks why.
    pub fn sentence(self) -> &'static str {
        match self {
            CeilingReason::Wanted => "No more copies are wanted.",
            CeilingReason::NoRoom => "No sticker fits between the margin and the zones.",
            CeilingReason::Area => {
                "With half the spacing round each piece, more would need a larger area than there is."
            }
            CeilingReason::Discs => {
                "Each piece holds a disc, and no more such discs fit with the spacing between them."
            }
            CeilingReason::Boxes => {
                "Each piece holds a box, and no more such boxes fit beside and above each other."
            }
            CeilingReason::Gaps => {
                "The pieces, and the gaps that their shapes leave between them, take all the room."
            }
            CeilingReason::Parts => {
                "The sheet falls into parts that no sticker spans, and none of them holds more."
            }
        }
    }
}

/// The most pieces that any layout with this sheet, background, rules and stickers can hold.
///
/// If the layout holds every copy that is wanted, or no piece at all, the bound speaks of layouts that hold every
/// wanted copy; otherwise, or if the wanted copies are proved not to fit, of all layouts, and may be higher. Copies beyond
/// an exact wish are counted only as far as they lie on the sheet already. Pieces are taken to lie as their stickers may
/// turn; if one lies otherwise already, its sticker is taken to turn freely. Zero if there are no stickers.
///
/// Cost: some growing of each cut line and of the zones, up to a few hundredths of a second. What is worked out of a
/// sticker is kept with it.
pub fn ceiling(layout: &Layout) -> usize {
    ceiling_with_reason(layout).most
}

/// The [`ceiling`] and which argument gave it.
pub fn ceiling_with_reason(layout: &Layout) -> Ceiling {
    let kinds = kinds(layout);
    if kinds.is_empty() {
        return Ceiling { most: 0, reason: CeilingReason::Wanted };
    }
    let parts = grounds(layout, &kinds);
    if parts.is_empty() {
        return NO_ROOM;
    }
    let holds = |sticker: &Sticker| layout.placed(&sticker.id) >= sticker.wanted.least() as usize;
    let may_hold_wanted = layout.pieces.is_empty() || layout.stickers.iter().all(holds);
    let wanted = if may_hold_wanted { bound(layout, &kinds, &parts, Holding::Wanted) } else { None };
    wanted.or_else(|| bound(layout, &kinds, &parts, Holding::Anything)).unwrap_or(NO_ROOM)
}

const NO_ROOM: Ceiling = Ceiling { most: 0, reason: CeilingReason::NoRoom };

impl Ceiling {
    /// The smaller one; this one if both are the same.
    fn or(self, most: usize, reason: CeilingReason) -> Ceiling {
        if most < self.most { Ceiling { most, reason } } else { self }
    }
}

/// The smallest bound, cheap ones first; nothing if what must be there is proved not to fit.
fn bound(layout: &Layout, kinds: &[Kind], parts: &[Part], holding: Holding) -> Option<Ceiling> {
    let ground = parts[1..].iter().fold(parts[0].ground.clone(), |all, part| all.union(&part.ground));
    let mut best = by_weights(kinds, &ground, holding)?;
    if !layout.zones().is_empty() {
        let most = most_without_corners(layout, kinds, &ground, holding)?;
        best = best.or(most, CeilingReason::Area);
    }
    if let Some(most) = most_wanted(kinds) {
        best = best.or(most, CeilingReason::Wanted);
    }
    let mut search = Search::new();
    best = best.or(most_of_larger(layout, kinds, best.most, &mut search), CeilingReason::Discs);
    best = by_parts(layout, kinds, parts, best, &mut search);
    if is_worth_polygons(kinds, &ground, holding, best.most) {
        let polygons: Vec<PolygonsRound> = kinds.iter().map(|kind| polygons(layout, kind)).collect();
        best = best.or(most_by_polygons(kinds, &polygons, &ground, best.most, holding)?, CeilingReason::Gaps);
    }
    Some(best)
}

/// The bounds that give each sticker a weight; nothing if what must be there is too heavy by one of them.
fn by_weights(kinds: &[Kind], ground: &Region, holding: Holding) -> Option<Ceiling> {
    let around = bounds(&ground.rings().flatten().collect::<Vec<_>>()).size();
    let area = Ceiling { most: most_by_area(kinds, ground, holding)?, reason: CeilingReason::Area };
    Some(area.or(most_by_boxes(kinds, around, holding)?, CeilingReason::Boxes))
}

/// What each part holds, by its own, and the discs in it.
fn by_parts(layout: &Layout, kinds: &[Kind], parts: &[Part], known: Ceiling, search: &mut Search) -> Ceiling {
    let apart = 2.0 * (radius(kinds) + half_spacing(layout));
    if let [part] = parts {
        // What lies there already fits, so nothing less can be proved.
        let worth = layout.pieces.len()..known.most;
        return known.or(most_points(&part.middles, apart, worth, search), CeilingReason::Discs);
    }
    let most_in_part = |part: &Part| {
        let kinds: Vec<Kind> = part.kinds.iter().map(|&i| kinds[i].clone()).collect();
        let by_weights = by_weights(&kinds, &part.ground, Holding::Anything).map(|found| found.most);
        let most = by_weights.into_iter().chain(most_wanted(&kinds)).min().unwrap_or(0);
        most.min(most_points(&part.middles, apart, 0..most.min(known.most), search))
    };
    let sum = parts.iter().map(most_in_part).fold(0, usize::saturating_add);
    known.or(sum, CeilingReason::Parts)
}

/// Whether the gaps between the pieces, a tenth of the area or so, may make a difference.
fn is_worth_polygons(kinds: &[Kind], ground: &Region, holding: Holding, known: usize) -> bool {
    let areas: Vec<f64> = kinds.iter().map(|kind| kind.grown_area * MOST_GAPS).collect();
    kinds.len() <= FEW
        && most_by_weight(kinds, &areas, ground.area(), holding).is_none_or(|most| most < known)
}

/// The best bound that lets the smallest stickers have all their copies and counts the discs in the others.
fn most_of_larger(layout: &Layout, kinds: &[Kind], known: usize, search: &mut Search) -> usize {
    let mut order: Vec<&Kind> = kinds.iter().collect();
    order.sort_by(|a, b| a.radius.total_cmp(&b.radius));
    let (mut smaller, mut best, mut sets) = (0, known, 0);
    for (i, kind) in order.iter().enumerate() {
        if smaller >= best || sets == MOST_SETS {
            break;
        }
        if i > 0 && kind.radius > order[i - 1].radius {
            sets += 1;
            let larger: Vec<Kind> = order[i..].iter().map(|&kind| kind.clone()).collect();
            let apart = 2.0 * (kind.radius + half_spacing(layout));
            let most = most_points(&middles(layout, &larger), apart, 0..best - smaller, search);
            best = best.min(most.saturating_add(smaller));
        }
        match kind.most {
            Some(most) => smaller += most,
            None => break,
        }
    }
    best
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
        // Margin 5, diameter 15, spacing 2: K is 75 x 125 mm, d = 17: floor(37.5 + 11.8 + 1) = 50.
        assert_eq!(ceiling(&discs(15.0, 5.0, 2.0)), 50);
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
