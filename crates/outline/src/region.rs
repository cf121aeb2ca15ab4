//! Areas of several rings with holes: the only file that knows the polygon library.

use clipper2_rust::{
    ClipType, EndType, FillRule, JoinType, Path64, Paths64, Point64, boolean_op_64, inflate_paths_64,
};
use kurbo::Point;

use crate::outline::{GRID, Outline, ring_area};
use crate::simplify::thinned;

/// How many library units make a millimetre: the library computes in whole numbers of ten nanometres.
const UNITS_PER_MM: f64 = 100_000.0;

/// An area of the plane in millimetres, y down: any number of parts, each with any number of holes.
///
/// Outer rings run clockwise as seen, holes the other way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    paths: Paths64,
}

impl Region {
    /// Nothing.
    pub fn empty() -> Region {
        Region::default()
    }

    /// The area that these closed lines wind round, wherever they cross or overlap.
    ///
    /// A ring within a ring of the same direction adds nothing; of the other direction it cuts a hole.
    /// Rings of fewer than three points are left out. Points must be finite.
    pub fn from_rings<'a>(rings: impl IntoIterator<Item = &'a [Point]>) -> Region {
        let paths: Paths64 = rings.into_iter().map(to_path).collect();
        combine(ClipType::Union, &paths, &Paths64::new())
    }

    /// The area that these closed lines wind round an odd number of times.
    pub fn from_rings_even_odd<'a>(rings: impl IntoIterator<Item = &'a [Point]>) -> Region {
        let paths: Paths64 = rings.into_iter().map(to_path).collect();
        Region { paths: boolean_op_64(ClipType::Union, FillRule::EvenOdd, &paths, &Paths64::new()) }
    }

    /// The area inside an outline.
    pub fn of(outline: &Outline) -> Region {
        Region { paths: vec![to_path(outline.points())] }
    }

    /// Whether nothing is inside.
    pub fn is_empty(&self) -> bool {
        self.paths.is_empty()
    }

    /// The area in square millimetres, holes taken off.
    pub fn area(&self) -> f64 {
        self.rings().map(|ring| ring_area(&ring)).sum()
    }

    /// Whether a disc of this radius surely lies in one of the parts; a part that is all neck may hold one and is missed.
    ///
    /// Each point of the edge is nearer than the radius to no more than a band of that width, so what a part of more area than
    /// its edge times the radius has left over is the middle of such a disc. For parts without holes.
    pub fn surely_holds_disc(&self, radius: f64) -> bool {
        let perimeter = |ring: &[Point]| -> f64 {
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).map(|(start, end)| (*end - *start).hypot2().sqrt()).sum()
        };
        self.rings().any(|ring| ring_area(&ring) > perimeter(&ring) * radius)
    }

    /// The rings of the region: outer ones clockwise as seen, holes the other way.
    pub fn rings(&self) -> impl Iterator<Item = Vec<Point>> + '_ {
        self.paths.iter().map(|path| path.iter().map(to_point).collect())
    }

    /// The parts of this region and of the other together.
    pub fn union(&self, other: &Region) -> Region {
        combine(ClipType::Union, &self.paths, &other.paths)
    }

    /// What this region has in common with the other.
    pub fn intersection(&self, other: &Region) -> Region {
        combine(ClipType::Intersection, &self.paths, &other.paths)
    }

    /// What is left of this region without the other.
    pub fn difference(&self, other: &Region) -> Region {
        combine(ClipType::Difference, &self.paths, &other.paths)
    }

    /// Every point within `distance` of the region; a negative distance takes away every point as near as that to its
    /// edge.
    ///
    /// Round corners are drawn with chords that lie up to `tolerance` inside the true arc, so a grown region is never
    /// too large and may be too small by that much; a shrunk one the other way round. Both in millimetres.
    pub fn grown(&self, distance: f64, tolerance: f64) -> Region {
        if distance == 0.0 || self.is_empty() {
            return self.clone();
        }
        let (delta, arcs) = (distance * UNITS_PER_MM, tolerance * UNITS_PER_MM);
        let paths = inflate_paths_64(&self.paths, delta, JoinType::Round, EndType::Polygon, 2.0, arcs);
        Region { paths }
    }

    /// The outer rings as outlines, largest first; holes are filled.
    ///
    /// Each lies on the micrometre grid. A part too small to keep an area there is left out. Where rounding to the
    /// grid makes a ring touch itself, points closer to its line than half a micrometre are left out, and if that does
    /// not help, the spot is filled by a few micrometres.
    pub fn outer_rings(&self) -> Vec<Outline> {
        let mut outlines: Vec<Outline> =
            self.rings().filter(|ring| ring_area(ring) > 0.0).filter_map(|ring| mended(&ring)).collect();
        outlines.sort_by(|a, b| b.area().total_cmp(&a.area()));
        outlines
    }
}

/// The outline through the ring, its touching spots filled.
fn mended(ring: &[Point]) -> Option<Outline> {
    let whole = Outline::new(ring.iter().copied()).or_else(|_| Outline::new(thinned(ring, GRID / 2.0)));
    if let Ok(outline) = whole {
        return Some(outline);
    }
    // Each step closes wider slits: 2, 4, 8 ... micrometres. Corners that lie closer together than the grid can tell
    // apart are left out again afterwards, by a quarter of what was gained.
    for step in 1..9 {
        let width = 0.001 * f64::from(1 << step);
        let closed = Region::from_rings([ring]).grown(width, width / 10.0).grown(-width / 2.0, width / 10.0);
        let largest = closed.rings().max_by(|a, b| ring_area(a).total_cmp(&ring_area(b)))?;
        if let Ok(outline) = Outline::new(thinned(&largest, width / 4.0)) {
            return Some(outline);
        }
    }
    None
}

fn combine(kind: ClipType, subject: &Paths64, other: &Paths64) -> Region {
    Region { paths: boolean_op_64(kind, FillRule::NonZero, subject, other) }
}

fn to_path(points: &[Point]) -> Path64 {
    let unit = |mm: f64| (mm * UNITS_PER_MM).round() as i64;
    points.iter().map(|point| Point64::new(unit(point.x), unit(point.y))).collect()
}

fn to_point(point: &Point64) -> Point {
    Point::new(point.x as f64 / UNITS_PER_MM, point.y as f64 / UNITS_PER_MM)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Region {
        let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)].map(Point::from);
        Region::from_rings([&corners[..]])
    }

    #[test]
    fn set_arithmetic_of_two_squares() {
        let (a, b) = (square(0.0, 0.0, 4.0), square(2.0, 2.0, 4.0));
        assert!((a.union(&b).area() - 28.0).abs() < 1e-6);
        assert!((a.intersection(&b).area() - 4.0).abs() < 1e-6);
        assert!((a.difference(&b).area() - 12.0).abs() < 1e-6);
        assert!(a.intersection(&square(9.0, 9.0, 1.0)).is_empty());
    }

    #[test]
    fn a_hole_is_taken_off_and_filled_in_the_outer_ring() {
        let ring = square(0.0, 0.0, 10.0).difference(&square(4.0, 4.0, 2.0));
        assert!((ring.area() - 96.0).abs() < 1e-6);
        assert_eq!(ring.outer_rings().len(), 1);
        assert!((ring.outer_rings()[0].area() - 100.0).abs() < 1e-6);
    }

    #[test]
    fn a_part_with_more_area_than_its_rim_holds_a_disc() {
        let strip =
            Region::from_rings([&[(0.0, 0.0), (9.0, 0.0), (9.0, 1.0), (0.0, 1.0)].map(Point::from)[..]]);
        // 9 square millimetres within 20 mm of edge; the largest disc has a radius of 0.5 mm.
        assert!(strip.surely_holds_disc(0.44) && !strip.surely_holds_disc(0.46));
        assert!(!Region::empty().surely_holds_disc(0.0));
    }

    #[test]
    fn shrinking_a_rectangle_follows_its_formula() {
        // (w - 2t)(h - 2t), exact: no arcs arise at outward corners.
        let shrunk = square(0.0, 0.0, 10.0).grown(-1.5, 0.001);
        assert!((shrunk.area() - 49.0).abs() < 1e-3);
        assert!(square(0.0, 0.0, 10.0).grown(-5.1, 0.001).is_empty());
    }

    #[test]
    fn a_rim_finer_than_the_grid_is_kept() {
        // Points a tenth of a micrometre to a micrometre apart, jittering by as much: the rim crosses itself all over,
        // and again after rounding.
        for seed in 1..20u32 {
            let count = 4000;
            let ring: Vec<Point> = (0..count)
                .map(|i| {
                    let (sine, cosine) =
                        libm::sincos(core::f64::consts::TAU * f64::from(i) / f64::from(count));
                    let radius = 0.6 + 0.000_8 * libm::sin(f64::from(i * i % 977) * f64::from(seed));
                    Point::new(radius * cosine, radius * sine)
                })
                .collect();
            let region = Region::from_rings([&ring[..]]);
            let outer = region.outer_rings();
            assert!((outer[0].area() / region.area() - 1.0).abs() < 0.02, "{seed}: {}", outer[0].area());
        }
    }

    #[test]
    fn a_crossing_ring_gives_its_parts() {
        let bow_tie = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)].map(Point::from);
        let parts = Region::from_rings([&bow_tie[..]]).outer_rings();
        assert_eq!(parts.len(), 2);
        assert!(parts.iter().all(|part| (part.area() - 25.0).abs() < 1e-6));
    }
}
