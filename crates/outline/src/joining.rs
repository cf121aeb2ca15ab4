//! Drawings in several parts: which belong on one sticker, and the one line round them.

use kurbo::{Point, Vec2};

use crate::distance::{Gap, gap_within};
use crate::outline::Outline;
use crate::region::Region;

/// How wide the bridges are that [`bridged`] lays between parts, in millimetres.
///
/// Under the border nobody sees them; they only keep the cut line from pinching in between two parts. With a border of
/// b on either side the neck that is left is 2 b and this wide.
pub const BRIDGE_WIDTH: f64 = 0.2;

/// How far a bridge reaches into the parts at its ends, so that they surely overlap, in millimetres.
const BRIDGE_FOOTING: f64 = 0.05;

/// How wide a seam between shapes may be and still count as closed, in millimetres.
///
/// Drawing apps leave such seams where shapes share an edge and coordinates are rounded. No print shows them and no
/// blade can follow them.
pub const SEAM_WIDTH: f64 = 0.02;

/// The area that closing the seams must add to an outline for it to be worth its points, in square millimetres.
const WORTHWHILE: f64 = 0.05;

/// How far two parts may be apart and still count as touching, in millimetres; far below the grid.
const TOUCHING: f64 = 1e-9;

/// Which parts hang together once each has a white border of this width: those whose gap is twice the border or less,
/// and whatever hangs together through others.
///
/// Groups come in the order of their first part, each with its parts in order; every part is in exactly one. A part
/// inside another, or in its filled hole, belongs to it at any border. A negative border counts as none.
///
/// Cost: each pair of parts whose boxes are near enough costs one [`gap_within`](crate::gap_within).
pub fn joined(parts: &[Outline], border: f64) -> Vec<Vec<usize>> {
    let limit = 2.0 * border.max(0.0) + TOUCHING;
    let mut group: Vec<usize> = (0..parts.len()).collect();
    for i in 0..parts.len() {
        for j in 0..i {
            if group[i] != group[j] && gap_within(&parts[i], &parts[j], limit).is_some() {
                let (kept, gone) = (group[i].min(group[j]), group[i].max(group[j]));
                group.iter_mut().filter(|number| **number == gone).for_each(|number| *number = kept);
            }
        }
    }
    let mut groups: Vec<Vec<usize>> = vec![Vec::new(); parts.len()];
    for (part, &number) in group.iter().enumerate() {
        groups[number].push(part);
    }
    groups.retain(|members| !members.is_empty());
    groups
}

/// One outline round all the parts, holes filled; nothing if there are no parts.
///
/// Parts that overlap or touch are taken together and parts inside others are swallowed. Between others a
/// straight bridge of [`BRIDGE_WIDTH`] is laid along the shortest way; there are as few and as short bridges as
/// possible. A part alone comes back as it is.
///
/// Seams between the parts are closed as [`sealed`] says.
///
/// Cost: one [`gap_within`](crate::gap_within) for each pair of parts, most of them answered by their boxes, and a few
/// polygon unions and offsets.
///
/// Source: the tree of shortest ways, R. Prim, "Shortest connection networks and some generalizations", Bell System
/// Technical Journal 36 (1957).
pub fn bridged(parts: &[Outline]) -> Option<Outline> {
    let [_, _, ..] = parts else { return parts.first().cloned() };
    let ways = shortest_ways(parts);
    let bridges: Vec<Vec<Point>> =
        ways.iter().filter(|way| way.distance > SEAM_WIDTH / 2.0).map(bridge).collect();
    let rings = parts.iter().map(Outline::points).chain(bridges.iter().map(Vec::as_slice));
    sealed(&Region::from_rings(rings)).into_iter().next()
}

/// The outer rings of a region as outlines, largest first, holes filled, and so are bays whose mouth is a seam no wider
/// than [`SEAM_WIDTH`].
///
/// What lies in a hole that such a seam closes still comes by itself. Where closing seams would add next to nothing, the
/// rings are those of [`Region::outer_rings`].
///
/// Cost: two polygon offsets; two polygon unions more if there is a seam.
pub fn sealed(region: &Region) -> Vec<Outline> {
    const ARC_TOLERANCE: f64 = 0.001;
    let open = region.outer_rings();
    let grown = region.grown(SEAM_WIDTH / 2.0, ARC_TOLERANCE);
    let closed = grown.grown(-SEAM_WIDTH / 2.0, ARC_TOLERANCE).outer_rings();
    let area = |outlines: &[Outline]| outlines.iter().map(Outline::area).sum::<f64>();
    if closed.len() == open.len() && area(&closed) < area(&open) + WORTHWHILE {
        return open;
    }
    // Shrunk a little further it stays inside the region, but for the seams; so it adds next to nothing but those.
    region.union(&grown.grown(-(SEAM_WIDTH / 2.0 + ARC_TOLERANCE), ARC_TOLERANCE)).outer_rings()
}

/// The gaps that join all the parts with the smallest sum.
fn shortest_ways(parts: &[Outline]) -> Vec<Gap> {
    let mut nearest: Vec<Option<Gap>> = vec![None; parts.len()];
    let mut outside: Vec<usize> = (1..parts.len()).collect();
    let mut latest = 0;
    let mut ways = Vec::new();
    while !outside.is_empty() {
        for &part in &outside {
            let limit = nearest[part].map_or(f64::INFINITY, |gap| gap.distance);
            if let Some(gap) = gap_within(&parts[latest], &parts[part], limit) {
                nearest[part] = Some(gap);
            }
        }
        let distance = |part: usize| nearest[part].map_or(f64::INFINITY, |gap| gap.distance);
        let next = (0..outside.len()).min_by(|&i, &j| distance(outside[i]).total_cmp(&distance(outside[j])));
        latest = outside.remove(next.unwrap_or(0));
        ways.extend(nearest[latest]);
    }
    ways
}

/// A rectangle along the gap that reaches a little into both parts, clockwise as seen.
fn bridge(gap: &Gap) -> Vec<Point> {
    let (from, to) = gap.between;
    let along = (to - from) / gap.distance;
    let across = Vec2::new(-along.y, along.x) * (BRIDGE_WIDTH / 2.0);
    let (from, to) = (from - along * BRIDGE_FOOTING, to + along * BRIDGE_FOOTING);
    vec![from - across, to - across, to + across, from + across]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::border::{BORDER_TOLERANCE, border};
    use crate::placement::Placement;
    use crate::shapes;

    fn disc_at(x: f64, y: f64) -> Outline {
        shapes::disc(2.0, 120).placed(&Placement::at(x, y))
    }

    #[test]
    fn parts_join_up_to_twice_the_border() {
        let square = |x| shapes::square(4.0).placed(&Placement::at(x, 0.0));
        // Gaps of 3, 3.01 and 1.
        let parts = [square(0.0), square(7.0), square(14.01), square(19.01)];
        assert_eq!(joined(&parts, 1.5), [vec![0, 1], vec![2, 3]]);
        assert_eq!(joined(&parts, 1.6), [vec![0, 1, 2, 3]]);
        assert_eq!(joined(&parts, 0.0).len(), 4);
        assert_eq!(joined(&[], 1.5), Vec::<Vec<usize>>::new());
    }

    #[test]
    fn groups_found_late_are_joined_through_others() {
        let parts = [disc_at(0.0, 0.0), disc_at(12.0, 0.0), disc_at(6.0, 0.0)];
        assert_eq!(joined(&parts, 1.0), [vec![0, 1, 2]]);
    }

    #[test]
    fn a_part_in_the_hole_of_another_is_swallowed() {
        let parts = [disc_at(0.0, 0.0), shapes::square(10.0)];
        assert_eq!(joined(&parts, 0.0), [vec![0, 1]]);
        assert!((bridged(&parts).unwrap().area() - 100.0).abs() < 1e-6);
    }

    #[test]
    fn bridges_are_as_long_as_the_gaps_and_add_no_more_than_that() {
        let parts = [disc_at(0.0, 0.0), disc_at(6.0, 0.0), disc_at(8.0, 7.0), disc_at(0.0, 5.5)];
        let whole = bridged(&parts).unwrap();
        let discs: f64 = parts.iter().map(Outline::area).sum();
        // Gaps of 2, 1.5 and, corner to corner of a box 2 by 7, about 3.28; the fourth, longer one is not bridged.
        let bridges = BRIDGE_WIDTH * (2.0 + 1.5 + (53.0f64.sqrt() - 4.0));
        assert!((whole.area() - discs - bridges).abs() < 0.01, "{}", whole.area() - discs);
        for part in &parts {
            assert!(part.points().iter().all(|&p| whole.contains(p) || border(&whole, 0.002).contains(p)));
        }
    }

    #[test]
    fn the_neck_of_the_cut_line_is_two_borders_wide() {
        // Two discs a gap of 2.9 apart: grown by 1.5 without a bridge they would hang together by 0.77.
        let whole = bridged(&[disc_at(-3.45, 0.0), disc_at(3.45, 0.0)]).unwrap();
        let cut_line = border(&whole, 1.5);
        let ys: Vec<f64> = cut_line
            .edges()
            .filter(|(a, b)| (a.x > 0.0) != (b.x > 0.0))
            .map(|(a, b)| a.y + (0.0 - a.x) * (b.y - a.y) / (b.x - a.x))
            .collect();
        assert_eq!(ys.len(), 2);
        let neck = (ys[0] - ys[1]).abs();
        let exact = 3.0 + BRIDGE_WIDTH;
        assert!((exact..=exact + 2.0 * BORDER_TOLERANCE).contains(&neck), "{neck}");
    }

    #[test]
    fn parts_that_touch_at_a_point_become_one() {
        let square = |x, y| shapes::square(4.0).placed(&Placement::at(x, y));
        let whole = bridged(&[square(0.0, 0.0), square(4.0, 4.0), square(-4.0, 4.0)]).unwrap();
        assert!((whole.area() - 48.0).abs() < 0.02, "{}", whole.area());
    }

    #[test]
    fn a_bay_behind_a_seam_is_filled() {
        // Two halves of a frame that meet but for a micrometre.
        let half = [(0., 0.), (10., 0.), (10., 2.), (2., 2.), (2., 18.), (10., 18.), (10., 20.), (0., 20.)];
        let left = Outline::new(half.map(Point::from)).unwrap();
        let right = Outline::new(half.map(|(x, y)| Point::new(20.001 - x, y))).unwrap();
        assert_eq!(joined(&[left.clone(), right.clone()], SEAM_WIDTH / 2.0).len(), 1);
        let whole = bridged(&[left.clone(), right.clone()]).unwrap();
        assert!((whole.area() - 400.0).abs() < 0.1, "{}", whole.area());
        let both = sealed(&Region::from_rings([left.points(), right.points()]));
        assert_eq!(both.len(), 1);
        assert!((both[0].area() - 400.0).abs() < 0.1, "{}", both[0].area());
        // A wider slit stays open.
        let apart = right.placed(&Placement::at(0.05, 0.0));
        assert_eq!(sealed(&Region::from_rings([left.points(), apart.points()])).len(), 2);
        // Halves that meet exactly leave no seam, but need not be joined by a union either.
        let exact = Outline::new(half.map(|(x, y)| Point::new(20.0 - x, y))).unwrap();
        for parts in [[left.clone(), exact.clone()], [exact, left]] {
            assert!((bridged(&parts).unwrap().area() - 400.0).abs() < 0.1);
        }
    }

    #[test]
    fn one_part_comes_back_as_it_is_and_none_gives_nothing() {
        assert_eq!(bridged(&[shapes::star(5, 4.0, 2.0)]), Some(shapes::star(5, 4.0, 2.0)));
        assert_eq!(bridged(&[]), None);
    }
}
