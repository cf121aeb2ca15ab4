//! The bound by area.
//!
//! **Grown pieces.** Let the spacing be s. Grow every cut line by s/2: since any two are at least s apart, the grown pieces
//! do not overlap. A piece lies inside the sheet less its margin, so grown it lies inside that part grown by s/2. A piece
//! keeps the clearance c from a zone; a point of the grown piece is within s/2 of the piece, so it keeps c - s/2 from the
//! zone if c is the larger, and otherwise reaches at most s/2 - c into it. And it lies where pieces can reach at all.
//! Hence the areas of the grown pieces add up to no more than the area of that ground. The count is greatest when, after
//! the copies that must be there, only the smallest further stickers are added.
//!
//! **Corners of the ground.** A cut line is the outline grown by its border b. So every point of a grown piece lies in a
//! disc of radius b + s/2 inside the grown piece, hence inside the ground, but for two kinds of points: those that the
//! cut line runs further out than the border, which are within [`BORDER_TOLERANCE`] of such a disc, and those in bays that
//! the border closed and filled. The grown pieces less the filled bays therefore lie within that tolerance of what discs
//! of that radius can sweep in the ground, which leaves out its sharp corners and narrow ends. Of a line that was rounded or
//! widened the area that such discs inside it do not sweep is measured, and taken off like filled bays.

use kurbo::Point;
use stickleaf_outline::{BORDER_TOLERANCE, Region};

use super::ground::thinned_ring;
use super::kind::{Kind, unswept};
use super::slack::{FINE, half_spacing};
use super::weights::{Holding, most_by_weight};
use crate::layout::Layout;

/// How finely the ground is drawn when discs sweep it, in millimetres.
const SWEEP: f64 = 0.006;

/// The most pieces by area; nothing if what must be there is too large by itself.
pub fn most_by_area(kinds: &[Kind], ground: &Region, holding: Holding) -> Option<usize> {
    let areas: Vec<f64> = kinds.iter().map(|kind| kind.grown_area).collect();
    most_by_weight(kinds, &areas, ground.area(), holding)
}

/// The most pieces by area where the ground has corners that no disc of a border's width gets into.
///
/// Worth something where zones cut the ground.
pub fn most_without_corners(
    layout: &Layout,
    kinds: &[Kind],
    ground: &Region,
    holding: Holding,
) -> Option<usize> {
    let border = kinds.iter().map(|kind| kind.border).fold(f64::INFINITY, f64::min);
    let radius = border + half_spacing(layout) - 2.0 * FINE;
    if radius <= 0.0 {
        return Some(usize::MAX);
    }
    let areas: Vec<f64> = kinds.iter().map(|kind| kind.grown_area - unswept(layout, kind)).collect();
    most_by_weight(kinds, &areas, swept(ground, radius).area(), holding)
}

/// What discs of this radius sweep in the region and what is within the tolerance of it, or a little more.
fn swept(region: &Region, radius: f64) -> Region {
    // Each step is drawn with fewer points, and so much larger; a shrunk region is drawn too large anyway.
    let middles = coarser(&coarser(region).grown(1.5 * SWEEP, SWEEP / 4.0).grown(-radius, SWEEP));
    middles.grown(radius + BORDER_TOLERANCE + 2.0 * SWEEP + 2.0 * FINE, SWEEP)
}

/// The region with points left out; grown by the sweep's fineness it holds the region.
fn coarser(region: &Region) -> Region {
    let rings: Vec<Vec<Point>> = region.rings().map(|ring| thinned_ring(ring, SWEEP)).collect();
    Region::from_rings(rings.iter().map(Vec::as_slice))
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;

    use super::*;
    use crate::ceiling::points::rectangle;

    #[test]
    fn the_smallest_are_added_to_what_must_be_there() {
        let large = Kind { grown_area: 300.0, least: 2, most: Some(2), ..Kind::sample() };
        let small = Kind { grown_area: 90.0, ..Kind::sample() };
        let ground = rectangle(Rect::new(0.0, 0.0, 40.0, 25.0));
        let kinds = [large, small];
        assert_eq!(most_by_area(&kinds, &ground, Holding::Wanted), Some(2 + 4));
        assert_eq!(most_by_area(&kinds, &ground, Holding::Anything), Some(11));
    }

    #[test]
    fn corners_and_narrow_ends_are_left_out() {
        // A square of 40 mm with a slit of 3 mm that a disc of radius 2 does not get into.
        let ground =
            rectangle(Rect::new(0.0, 0.0, 40.0, 40.0)).union(&rectangle(Rect::new(40.0, 10.0, 90.0, 13.0)));
        assert!((ground.area() - 1750.0).abs() < 1e-6);
        // Four corners are rounded; a segment of the disc 3 mm wide and 0.677 mm deep looks into the slit; and 160 mm of
        // edge get what is added all round.
        let exact = 1600.0 - (4.0 - core::f64::consts::PI) * 4.0 + 1.409;
        let found = swept(&ground, 2.0).area() - exact;
        assert!(found > 0.0 && found < 160.0 * (BORDER_TOLERANCE + 4.0 * SWEEP), "{found}");
    }
}
