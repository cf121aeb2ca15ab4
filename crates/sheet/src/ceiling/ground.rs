//! Where pieces can lie: the ground, part by part.
//!
//! Every piece holds a disc of the least radius r of all stickers in play. The middle of that disc keeps r and the
//! clearance from every zone, and from the sheet's sides what [`StandOff`] says. The region of such middles falls into
//! parts. A piece belongs to the part that the middle of its disc is in, and no point of it is further from there than
//! the longest reach. So a part of the sheet that no disc fits into counts for nothing, unless a piece can reach into it
//! from where a disc fits.
//!
//! A sticker whose disc fits nowhere in a part has no piece that belongs to it.

use kurbo::{Point, Rect};
use stickleaf_outline::{Region, thinned};

use super::kind::Kind;
use super::points::{parts, rectangle};
use super::slack::{FINE, GRAIN, clearance, half_spacing, margin};
use super::stand_off::StandOff;
use crate::background::Zone;
use crate::layout::Layout;

/// How finely round corners of the middles are drawn, in millimetres.
const MIDDLING: f64 = 0.01;

/// How finely the reach round a part is drawn, in millimetres; it is made so much longer.
const COARSE: f64 = 0.5;

/// A part of the sheet that pieces can lie in.
#[derive(Clone, Debug)]
pub struct Part {
    /// Where the middles of discs can lie.
    pub middles: Region,
    /// What the pieces that belong here can cover when grown by half the spacing.
    pub ground: Region,
    /// The numbers of the kinds that can lie here.
    pub kinds: Vec<usize>,
}

/// The parts of the sheet that pieces of these kinds can lie in.
pub fn grounds(layout: &Layout, kinds: &[Kind]) -> Vec<Part> {
    let middles = parts(&middles(layout, kinds));
    let ground = ground(layout);
    let least = radius(kinds);
    if layout.zones().is_empty() {
        return middles.into_iter().map(|middles| part(middles, ground.clone(), kinds.len())).collect();
    }
    let reach = kinds.iter().map(|kind| kind.stand_off.reach).fold(least, f64::max);
    let reach = reach + half_spacing(layout).max(0.0);
    let mut found: Vec<Part> = middles
        .into_iter()
        .map(|middles| {
            let near = ground.intersection(&near(&middles, reach));
            // A piece hangs together: what cannot be reached without leaving the ground is not reached.
            if !kinds.iter().all(|kind| kind.is_whole) {
                return part(middles, near, kinds.len());
            }
            let hanging = parts(&near).into_iter().filter(|near| !near.intersection(&middles).is_empty());
            let ground = hanging.fold(Region::empty(), |all, near| all.union(&near));
            part(middles, ground, kinds.len())
        })
        .collect();
    if found.len() > 1 {
        sort_kinds(layout, kinds, &mut found);
    }
    found
}

fn part(middles: Region, ground: Region, kinds: usize) -> Part {
    Part { middles, ground, kinds: (0..kinds).collect() }
}

/// Every point within `reach` of the region, and some more.
fn near(region: &Region, reach: f64) -> Region {
    // Whatever thinning takes off the region lies within the tolerance of what is left of it.
    let rings: Vec<Vec<Point>> = region.rings().map(|ring| thinned_ring(ring, COARSE)).collect();
    Region::from_rings(rings.iter().map(Vec::as_slice)).grown(reach + 2.0 * COARSE, COARSE)
}

/// The ring with points left out, or as it is if too little would be left of it.
pub fn thinned_ring(ring: Vec<Point>, tolerance: f64) -> Vec<Point> {
    let thin = thinned(&ring, tolerance);
    if thin.len() < 3 { ring } else { thin }
}

/// Leaves each part the kinds that fit into it: those smaller than the first that, with all larger ones, does not.
fn sort_kinds(layout: &Layout, kinds: &[Kind], found: &mut [Part]) {
    let mut order: Vec<usize> = (0..kinds.len()).collect();
    order.sort_by(|&a, &b| kinds[a].radius.total_cmp(&kinds[b].radius));
    let mut known: Vec<Option<Region>> = vec![None; kinds.len()];
    for part in found {
        let (mut fits, mut fails) = (0, kinds.len());
        while fits < fails {
            let middle = usize::midpoint(fits, fails);
            let larger = known[middle].get_or_insert_with(|| {
                let larger: Vec<Kind> = order[middle..].iter().map(|&i| kinds[i].clone()).collect();
                middles(layout, &larger)
            });
            if larger.intersection(&part.middles).is_empty() {
                fails = middle;
            } else {
                fits = middle + 1;
            }
        }
        part.kinds = order[..fits].to_vec();
    }
}

/// Where the middles of the discs of these kinds can lie, or a little more.
pub fn middles(layout: &Layout, kinds: &[Kind]) -> Region {
    let (sheet, margin) = (&layout.sheet, margin(layout));
    let Some(stand_off) = kinds.iter().map(|kind| kind.stand_off).reduce(|all, one| all.nearer(&one)) else {
        return Region::empty();
    };
    let StandOff { left, top, right, bottom, least, .. } = stand_off;
    let (x0, y0) = (margin + left - GRAIN, margin + top - GRAIN);
    let (x1, y1) = (sheet.width - margin - right + GRAIN, sheet.height - margin - bottom + GRAIN);
    if x0 >= x1 || y0 >= y1 {
        return Region::empty();
    }
    let mut region = rectangle(Rect::new(x0, y0, x1, y1));
    if sheet.corner_radius > margin + least {
        region = region.intersection(&sheet.inset_region(margin + least - FINE));
    }
    let radius = radius(kinds);
    layout.zones().iter().fold(region, |rest, zone| rest.difference(&kept_free(zone, radius)))
}

/// The least radius of the discs in these kinds.
pub fn radius(kinds: &[Kind]) -> f64 {
    kinds.iter().map(|kind| kind.radius).fold(f64::INFINITY, f64::min)
}

/// The points nearer to a zone than the middle of a disc of this radius in a piece can be, or a little fewer.
fn kept_free(zone: &Zone, radius: f64) -> Region {
    let clearance = clearance(zone);
    if clearance >= 0.0 {
        return Region::of(&zone.outline).grown(clearance + radius - 2.0 * FINE, MIDDLING);
    }
    // What is left of the zone, and of the disc, once each has lost half of the tolerance has nothing in common.
    let less = clearance / 2.0;
    Region::of(&zone.outline).grown(less - FINE, FINE).grown(radius + less - 2.0 * FINE, MIDDLING)
}

/// What the pieces can cover when grown by half the spacing, or a little more.
fn ground(layout: &Layout) -> Region {
    let half = half_spacing(layout);
    let sheet = layout.sheet.inset_region(margin(layout)).grown(half.max(0.0) + 2.0 * FINE, FINE);
    layout.zones().iter().fold(sheet, |rest, zone| {
        let apart = clearance(zone) - half - 2.0 * FINE;
        rest.difference(&Region::of(&zone.outline).grown(apart, FINE))
    })
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;
    use crate::ceiling::kind::kinds;
    use crate::{Background, Rules, Sheet, Sticker, Turns};

    /// Discs on a sheet of 100 x 60 mm without margin, with zones drawn like this.
    fn layout(radii: &[f64], zones: &[&str]) -> Layout {
        let outline = |data: &&str| stickleaf_outline::path::parse(data).unwrap();
        let zones = zones.iter().map(|data| Zone::new("zone", outline(data), 0.0)).collect();
        Layout {
            sheet: Sheet { width: 100.0, height: 60.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 0.0, ..Rules::default() },
            backgrounds: vec![Background { name: "zones".into(), zones, ..Background::default() }],
            background: Some("zones".into()),
            stickers: radii
                .iter()
                .map(|&radius| {
                    let mut sticker = Sticker::new(format!("{radius}"), "Disc", shapes::disc(radius, 90));
                    sticker.turns = Turns::Any;
                    sticker
                })
                .collect(),
            ..Layout::default()
        }
    }

    fn found(layout: &Layout) -> Vec<Part> {
        grounds(layout, &kinds(layout))
    }

    #[test]
    fn a_bare_sheet_is_one_part() {
        let layout = layout(&[10.0], &[]);
        let parts = found(&layout);
        assert_eq!(parts.len(), 1);
        // The discs are drawn with 90 corners: their sides are six micrometres inside.
        assert!((parts[0].middles.area() - 80.0 * 40.0).abs() < 5.0);
        // Grown by half the spacing all round, corners rounded.
        let grown = 100.0 * 60.0 + 320.0 + core::f64::consts::PI;
        assert!((parts[0].ground.area() - grown).abs() < 1.0, "{} {grown}", parts[0].ground.area());
    }

    #[test]
    fn rooms_joined_by_a_narrow_channel_are_two_parts() {
        // A wall from top to bottom with a gap of 8 mm: a disc of radius 5 does not pass.
        let layout = layout(&[5.0], &["M48 0H52V26H48Z", "M48 34H52V60H48Z"]);
        let parts = found(&layout);
        assert_eq!(parts.len(), 2);
        // Pieces can reach into the channel, but not far: 5 mm from a middle that keeps 5 from the wall.
        assert!(parts.iter().all(|part| part.ground.area() < 48.0 * 60.0 + 4.0 * 60.0 / 2.0 + 300.0));
    }

    #[test]
    fn a_narrow_room_is_no_ground() {
        // Eight millimetres on the left of a wall.
        let layout = layout(&[5.0], &["M8 0H20V60H8Z"]);
        let parts = found(&layout);
        assert_eq!(parts.len(), 1);
        assert!(parts[0].ground.area() < 80.0 * 60.0 + 400.0);
    }

    #[test]
    fn large_stickers_are_not_counted_in_small_rooms() {
        // A wall leaves 16 mm on the left, 80 on the right.
        let layout = layout(&[5.0, 9.0, 20.0, 7.0], &["M16 0H20V60H16Z"]);
        let mut parts = found(&layout);
        parts.sort_by(|a, b| a.middles.area().total_cmp(&b.middles.area()));
        parts[0].kinds.sort_unstable();
        assert_eq!(parts[0].kinds, [0, 3]);
        assert_eq!(parts[1].kinds.len(), 4);
    }
}
