//! The no-fit polygon of two outlines.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::{Region, ring_area};

use crate::cells::{Cells, Side};
use crate::convolution::{convolution, on_units, without_straight_corners};
use crate::edge::{Edge, Nearest, Segment};

/// Where one outline must not lie beside another, with exact gaps looked up quickly.
///
/// All questions are about a *move*: from the point of the plane that is the origin of A's coordinates to the one that
/// is the origin of B's.
#[derive(Clone, Debug)]
pub struct NoFit {
    edges: Vec<Edge>,
    segments: Vec<Segment>,
    bounds: Rect,
    reach: f64,
    cells: Cells,
}

/// How many times as large as life regions are computed, so that their ten nanometres become a picometre.
const FINER: f64 = 10_000.0;

/// What counts as lying on a line, in millimetres: somewhat more than the grid on which polygons are computed.
const SKEW: f64 = 5e-9;

impl NoFit {
    /// The no-fit polygon of two rings of points in millimetres, both with a positive area, neither crossing itself.
    ///
    /// Gaps of up to `reach` millimetres can be asked for. Corners are rounded to ten nanometres, which outlines on their micrometre grid keep exactly.
    ///
    /// A spot that B would fill exactly, without any play, is no hole of the polygon: it is lost.
    ///
    /// Cost: the product of the numbers of corners, and the grid; a tenth of a millisecond to some milliseconds.
    pub fn new(a: &[Point], b: &[Point], reach: f64) -> NoFit {
        let turned_about: Vec<Point> = b.iter().map(|point| Point::new(-point.x, -point.y)).collect();
        let walks = convolution(&on_units(a), &on_units(&turned_about));
        // Where lines of the walk cross, the new corner is rounded much more finely than the outlines' own.
        let finer =
            |walk: &Vec<Point>| walk.iter().map(|at| (at.to_vec2() * FINER).to_point()).collect::<Vec<_>>();
        let fine: Vec<Vec<Point>> = walks.iter().map(finer).collect();
        let sum = Region::from_rings(fine.iter().map(Vec::as_slice));
        let mut edges = Vec::new();
        let coarser =
            |ring: Vec<Point>| ring.iter().map(|at| (at.to_vec2() / FINER).to_point()).collect::<Vec<_>>();
        let rings = sum.rings().map(|ring| without_straight_corners(&coarser(ring)));
        for ring in rings.filter(|ring| ring.len() > 2 && ring_area(ring) != 0.0) {
            edges.extend(Edge::of_ring(&ring));
        }
        let mut bounds = Rect::from_points(edges[0].start, edges[0].start);
        for edge in &edges {
            bounds = bounds.union_pt(edge.start);
        }
        let cells = Cells::new(&edges, bounds.inflate(reach, reach), reach);
        let segments = edges.iter().map(Segment::of).collect();
        NoFit { edges, segments, bounds, reach, cells }
    }

    /// The edges of the polygon: outer rings and holes one after the other.
    pub fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// The smallest upright rectangle round all moves at which the outlines overlap.
    pub fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The largest gap that can be asked for, in millimetres.
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// The gap between A and B after this move, in millimetres: exact if they are apart; if they overlap, less than
    /// nothing by the length of the shortest move that parts them. Infinite if it may be more than the reach.
    #[inline]
    pub fn gap(&self, by: Vec2) -> f64 {
        self.gap_above(by, f64::NEG_INFINITY)
    }

    /// The gap if it may be more than `least`; otherwise perhaps something larger that is not more than `least` either.
    #[inline]
    pub fn gap_above(&self, by: Vec2, least: f64) -> f64 {
        let point = by.to_point();
        let Some(about) = self.cells.about(point) else { return f64::INFINITY };
        if -about.least_depth <= least {
            return -about.least_depth;
        }
        let (squared, edge) = self.nearest_of(about.nearest, point);
        let outside = match about.side {
            Side::Inside => false,
            Side::Outside => true,
            Side::Both => self.edges[edge].is_outside(point),
        };
        if outside { squared.sqrt() } else { -squared.sqrt() }
    }

    /// The gap and the direction in which a further move of B widens it fastest; nothing if it may be more than the
    /// reach.
    pub fn nearest(&self, by: Vec2) -> Option<Nearest> {
        let point = by.to_point();
        let about = self.cells.about(point)?;
        let (squared, edge) = self.nearest_of(about.nearest, point);
        let outside = match about.side {
            Side::Inside => false,
            Side::Outside => true,
            Side::Both => self.edges[edge].is_outside(point),
        };
        let gap = if outside { squared.sqrt() } else { -squared.sqrt() };
        Some(Nearest { gap, outward: self.edges[edge].outward_to(point, outside) })
    }

    /// Half planes in which every move from `by` that is no longer than `within` keeps the gap at `need` or more; each as
    /// a direction of length 1 and how far a move goes in it at least. If `by` keeps the gap, it lies in all of them.
    ///
    /// Every edge in question lies wholly behind the border of one of the half planes: an edge that faces `by` gets the
    /// half plane beyond its nearest point, unless it lies behind one that is there already. A straight move into the
    /// polygon would have to cross a facing edge. They are added to `out`; none if nothing is near.
    pub fn half_planes(&self, by: Vec2, need: f64, within: f64, out: &mut Vec<(Vec2, f64)>) {
        let point = by.to_point();
        let depth = (-self.gap(by)).max(0.0);
        let around = need + within + depth;
        if !self.bounds.inflate(around, around).contains(point) {
            return;
        }
        let first = out.len();
        let mut near: Vec<(f64, usize)> = Vec::new();
        for (i, edge) in self.edges.iter().enumerate() {
            let squared = edge.squared_distance(point);
            if squared <= around * around {
                near.push((squared, i));
            }
        }
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let Some((_, nearest)) = near.first() else { return };
        let outside = self.edges[*nearest].is_outside(point);
        // Inside the polygon only the edges that are about as near as the nearest one lead out.
        let behind = if outside { -SKEW } else { -(near[0].0.sqrt() * 1.5 + SKEW) };
        for (rank, &(_, i)) in near.iter().enumerate() {
            let edge = &self.edges[i];
            if rank > 0 && edge.height(point) < behind {
                continue;
            }
            let (start, end) = edge.clipped(point, around);
            let is_behind = |&(direction, least): &(Vec2, f64)| {
                let bar = least - need + SKEW;
                start.to_vec2().dot(direction) <= bar && end.to_vec2().dot(direction) <= bar
            };
            if out[first..].iter().any(is_behind) {
                continue;
            }
            let (at, direction) = edge.support(point, outside);
            out.push((direction, at.to_vec2().dot(direction) + need));
        }
    }

    #[inline]
    fn nearest_of(&self, near: &[u16], point: Point) -> (f64, usize) {
        let mut best = (f64::INFINITY, 0);
        for &edge in near {
            let squared = self.segments[usize::from(edge)].squared_distance(point);
            if squared < best.0 {
                best = (squared, usize::from(edge));
            }
        }
        best
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use stickleaf_outline::{Outline, Placement, gap, shapes};

    use super::*;

    fn ring(outline: &Outline) -> Vec<Point> {
        outline.points().to_vec()
    }

    #[test]
    fn a_square_beside_a_square() {
        let square = ring(&shapes::square(10.0));
        let nofit = NoFit::new(&square, &square, 5.0);
        assert_eq!(nofit.edges().len(), 4);
        assert!((nofit.gap(Vec2::new(12.0, 0.0)) - 2.0).abs() < 1e-9);
        assert!((nofit.gap(Vec2::new(13.0, 14.0)) - 5.0).abs() < 1e-9);
        assert!((nofit.gap(Vec2::new(7.0, 1.0)) + 3.0).abs() < 1e-9);
        assert_eq!(nofit.gap(Vec2::new(40.0, 0.0)), f64::INFINITY);
        let nearest = nofit.nearest(Vec2::new(7.0, 1.0)).unwrap();
        assert!((nearest.outward - Vec2::new(1.0, 0.0)).hypot2() < 1e-12);
    }

    #[test]
    fn a_pocket_that_holds_the_other_is_a_hole() {
        // A ring-like C of 30 mm with a bay; a disc of 4 mm lies free in its middle.
        let (c, dot) = (shapes::c(30.0, 6.0), shapes::disc(2.0, 24));
        let nofit = NoFit::new(&ring(&c), &ring(&dot), 3.0);
        let direct = gap(&c, &dot).distance;
        assert!(direct > 0.1, "the dot lies in the middle of the bay: {direct}");
        assert!((nofit.gap(Vec2::ZERO) - direct.min(nofit.reach())).abs() < 1e-4 || direct > nofit.reach());
    }

    fn any_shape() -> impl Strategy<Value = Outline> {
        prop_oneof![
            (4.0..20.0f64).prop_map(shapes::square),
            (6.0..20.0f64).prop_map(shapes::l),
            (6.0..20.0f64).prop_map(|size| shapes::star(5, size, size * 0.4)),
            (8.0..20.0f64).prop_map(|size| shapes::c(size, size * 0.2)),
            (8.0..20.0f64).prop_map(shapes::crescent),
            (1.0..3.0f64).prop_map(|tooth| shapes::comb(4, tooth)),
            (0..1000u64, 4.0..12.0f64).prop_map(|(seed, radius)| shapes::blob(seed, radius)),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

        /// The gap of two outlines is measured edge by edge elsewhere, by code that knows nothing of no-fit polygons.
        #[test]
        fn gaps_are_those_measured_at_the_outlines(
            a in any_shape(), b in any_shape(), turn in 0.0..360.0f64, x in -30.0..30.0f64, y in -30.0..30.0f64,
        ) {
            let b = b.placed(&Placement::turned(0.0, 0.0, turn));
            let nofit = NoFit::new(&ring(&a), &ring(&b), 4.0);
            let moved = b.placed(&Placement::at(x, y));
            let direct = gap(&a, &moved).distance;
            // `placed` rounds to a micrometre, the polygon to ten nanometres.
            let looked_up = nofit.gap(Vec2::new(x, y));
            if direct > 0.002 {
                prop_assert!(looked_up > 4.0 && direct > 3.99 || (looked_up - direct).abs() < 0.002, "{looked_up} {direct}");
            } else {
                prop_assert!(looked_up < 0.004, "{looked_up} {direct}");
            }
        }
    }
}
