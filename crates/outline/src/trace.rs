//! From a picture's cover to the outline of a drawing.

use kurbo::Point;
use thiserror::Error;

use crate::islands::{HALF_COVER, Island};
use crate::mask::Mask;
use crate::outline::{GRID, Outline};
use crate::region::Region;
use crate::simplify::thinned;
use crate::smooth::smoothed;

/// How far a traced line may stray from the picture's edge when nothing else is asked, in millimetres.
///
/// A tenth of a good hobby cutter's print-to-cut error (common practice, no source).
pub const USUAL_DETAIL: f64 = 0.05;

/// The finest detail that can be asked for, in millimetres: rounding to the grid alone strays by [`GRID`].
pub const LEAST_DETAIL: f64 = 2.0 * GRID;

/// The most points of a raw line. At 600 pixels to the inch this is a line of some forty metres: no drawing, but noise.
pub const MOST_TRACED_POINTS: usize = 1_000_000;

/// How a drawing is traced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TraceOptions {
    /// The cover from which a pixel counts as drawn; 0 counts as 1.
    pub threshold: u8,
    /// How far the outline may stray from the raw line, in millimetres; less than [`LEAST_DETAIL`] counts as that.
    pub detail: f64,
}

impl Default for TraceOptions {
    fn default() -> TraceOptions {
        TraceOptions { threshold: HALF_COVER, detail: USUAL_DETAIL }
    }
}

/// Why a drawing has no outline.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum TraceError {
    /// A rim of more than [`MOST_TRACED_POINTS`].
    #[error(
        "the drawing's rim has more than a million corners, as noise has; clean the picture or raise the threshold"
    )]
    TooRagged,
    /// A drawing that vanishes on the micrometre grid.
    #[error("the drawing is smaller than a few micrometres; check the picture's true size")]
    NoArea,
}

/// The outline of one drawing in millimetres, the picture's top left corner at (0, 0); holes are filled.
///
/// The raw line ([`raw_ring`]) is first smoothed, which takes out the stairs of pixels, then thinned; each may stray by
/// half of the detail, less the grid. So every point of the raw line lies within the detail of the outline, and every
/// point of the outline within the detail of the raw line. Where a slit or neck is so narrow that the line would cross
/// itself, the line is smoothed and thinned less, down to the raw line itself.
///
/// Only pixels of less than some micrometres can make even the raw line touch itself after rounding; it is then
/// mended as [`Region::outer_rings`] says.
///
/// The island must be one of this mask, found with the same threshold.
///
/// Cost and memory: near linear in the number of pixels that the rim passes.
pub fn trace(mask: &Mask, island: &Island, options: &TraceOptions) -> Result<Outline, TraceError> {
    let raw = raw_ring(mask, island, options.threshold)?;
    let half = (options.detail.max(LEAST_DETAIL) - GRID) / 2.0;
    for (smoothing, thinning) in
        [(half, half), (0.0, half), (0.0, half / 4.0), (0.0, half / 16.0), (0.0, 0.0)]
    {
        let line = thinned(&smoothed(&raw, smoothing), thinning);
        if let Ok(outline) = Outline::new(line) {
            return Ok(outline);
        }
    }
    Region::from_rings([&raw[..]]).outer_rings().into_iter().next().ok_or(TraceError::NoArea)
}

/// The outer rim of an island as it stands in the picture, in millimetres, clockwise as seen.
///
/// The rim passes between covered and other pixels, where the cover, taken to change evenly from the middle of one
/// pixel to the middle of the next, is half a step below the threshold; so it is true to a soft edge to a small part of
/// a pixel. Outside of the picture the cover is 0, so a drawing that touches the edge is closed half a pixel or less
/// beyond the middles of its last pixels. Where two covered pixels meet at a corner only, the rim passes both, as
/// [`islands`](crate::islands) joins them.
///
/// The island must be one of this mask, found with the same threshold.
///
/// Errors: [`TraceError::TooRagged`].
///
/// Source: W. Lorensen, H. Cline, "Marching cubes", SIGGRAPH 1987, in the plane, following one line instead of
/// visiting every cell.
pub fn raw_ring(mask: &Mask, island: &Island, threshold: u8) -> Result<Vec<Point>, TraceError> {
    let threshold = threshold.max(1);
    let level = f64::from(threshold) - 0.5;
    let covered = |(x, y): (i64, i64)| mask.at(x, y) >= threshold;
    let crossing = |(inner, outer): ((i64, i64), (i64, i64))| {
        let (high, low) = (f64::from(mask.at(inner.0, inner.1)), f64::from(mask.at(outer.0, outer.1)));
        let along = (high - level) / (high - low);
        let x = inner.0 as f64 + 0.5 + along * (outer.0 - inner.0) as f64;
        let y = inner.1 as f64 + 0.5 + along * (outer.1 - inner.1) as f64;
        Point::new(x * mask.pixel(), y * mask.pixel())
    };
    let (x, y) = (i64::from(island.start.0), i64::from(island.start.1));
    // A step stands between a covered pixel and one beside it that is not.
    let start = ((x, y), (x, y - 1));
    let (mut inner, mut outer) = start;
    let mut ring = Vec::new();
    loop {
        ring.push(crossing((inner, outer)));
        if ring.len() > MOST_TRACED_POINTS {
            return Err(TraceError::TooRagged);
        }
        // Ahead is to the right when the outside is above: the covered side stays to the right of the way.
        let ahead = (inner.1 - outer.1, outer.0 - inner.0);
        let inner_ahead = (inner.0 + ahead.0, inner.1 + ahead.1);
        let outer_ahead = (outer.0 + ahead.0, outer.1 + ahead.1);
        (inner, outer) = if covered(outer_ahead) {
            (outer_ahead, outer)
        } else if covered(inner_ahead) {
            (inner_ahead, outer_ahead)
        } else {
            (inner, inner_ahead)
        };
        if (inner, outer) == start {
            return Ok(ring);
        }
    }
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;
    use crate::distance::nearest_on_segment;
    use crate::islands::islands;
    use crate::outline::ring_area;
    use crate::placement::Placement;
    use crate::shapes;

    fn only_island(mask: &Mask) -> Island {
        let found = islands(mask, HALF_COVER, 0.0).islands;
        assert_eq!(found.len(), 1);
        found[0]
    }

    /// A shape drawn in the middle of a picture that is `side` millimetres wide.
    fn drawn(shape: &Outline, side: f64, pixel: f64) -> (Outline, Mask) {
        let placed = shape.placed(&Placement::at(side / 2.0, side / 2.0));
        let size = (side / pixel).round() as u32;
        let mask = Mask::drawn(std::slice::from_ref(&placed), size, size, pixel).unwrap();
        (placed, mask)
    }

    fn to_line(point: Point, line: &[Point]) -> f64 {
        let ends = line[1..].iter().chain(line.first());
        line.iter()
            .zip(ends)
            .map(|(&a, &b)| (nearest_on_segment(point, a, b) - point).hypot2())
            .fold(f64::INFINITY, f64::min)
            .sqrt()
    }

    #[test]
    fn a_hard_square_is_traced_along_its_edge() {
        // Pixels (1, 1) to (3, 3) are covered: level 127.5 lies half way between the middles, on the pixels' edges.
        let cover =
            (0..25).map(|i| if (1..4).contains(&(i % 5)) && (1..4).contains(&(i / 5)) { 255 } else { 0 });
        let mask = Mask::new(5, 5, 0.5, cover.collect()).unwrap();
        let ring = raw_ring(&mask, &only_island(&mask), HALF_COVER).unwrap();
        assert_eq!(ring.len(), 12);
        assert!(ring_area(&ring) > 0.0);
        // Nine pixels of 0.5 mm less the four corners, half of a half by half pixel each.
        assert!((ring_area(&ring) - (9.0 - 4.0 / 8.0) * 0.25).abs() < 1e-12);
    }

    #[test]
    fn a_drawing_that_fills_the_picture_closes_at_its_edge() {
        let mask = Mask::new(40, 20, 0.5, vec![255; 800]).unwrap();
        let outline = trace(&mask, &only_island(&mask), &TraceOptions::default()).unwrap();
        let bounds = outline.bounds();
        for stray in [bounds.x0, bounds.y0, bounds.x1 - 20.0, bounds.y1 - 10.0] {
            assert!(stray.abs() <= USUAL_DETAIL, "{bounds:?}");
        }
    }

    #[test]
    fn pixels_that_meet_at_a_corner_are_passed_in_one_ring() {
        let mask = Mask::new(3, 3, 1.0, vec![255, 0, 0, 0, 255, 0, 0, 0, 255]).unwrap();
        let ring = raw_ring(&mask, &only_island(&mask), HALF_COVER).unwrap();
        assert_eq!(ring.len(), 12);
        // Three diamonds of half a square millimetre each. In each square between two of them the two outer corners, an
        // eighth each, stay outside; two more eighths belong to the diamonds, so each neck adds half.
        assert!((ring_area(&ring) - 2.5).abs() < 1e-12, "{}", ring_area(&ring));
    }

    #[test]
    fn the_hole_of_a_ring_is_filled() {
        let cover = (0..49i32).map(|i| if (i % 7 - 3).abs().max((i / 7 - 3).abs()) == 2 { 255 } else { 0 });
        let mask = Mask::new(7, 7, 1.0, cover.collect()).unwrap();
        let ring = raw_ring(&mask, &only_island(&mask), HALF_COVER).unwrap();
        assert!((ring_area(&ring) - 24.5).abs() < 1e-12);
    }

    #[test]
    fn the_raw_line_tends_to_the_true_one_as_pixels_shrink() {
        // A soft edge seen through square pixels and straight lines between their middles is found to about a
        // hundredth of a pixel on average, so the error of the area falls in step with the pixel at least.
        for shape in [shapes::disc(5.0, 720), shapes::star(5, 6.0, 2.5), shapes::crescent(6.0)] {
            let mut errors = Vec::new();
            for pixel in [0.4, 0.2, 0.1, 0.05, 0.025] {
                let (placed, mask) = drawn(&shape, 16.0, pixel);
                let ring = raw_ring(&mask, &only_island(&mask), HALF_COVER).unwrap();
                let error = (ring_area(&ring) - placed.area()).abs();
                assert!(error <= 0.03 * pixel * placed.perimeter(), "{error} at {pixel}");
                errors.push(error);
            }
            assert!(errors[4] < errors[0] / 8.0, "{errors:?}");
        }
    }

    #[test]
    fn the_outline_and_the_raw_line_stay_within_the_detail_of_each_other() {
        let shapes =
            [shapes::disc(6.0, 360), shapes::star(7, 6.5, 3.0), shapes::comb(5, 1.0), shapes::blob(3, 6.0)];
        for shape in shapes {
            for (pixel, detail) in [(0.1, 0.05), (0.04, 0.05), (0.04, 0.2), (0.1, 0.01)] {
                let (_, mask) = drawn(&shape, 16.0, pixel);
                let island = only_island(&mask);
                let raw = raw_ring(&mask, &island, HALF_COVER).unwrap();
                let outline = trace(&mask, &island, &TraceOptions { detail, ..Default::default() }).unwrap();
                for &point in &raw {
                    assert!(to_line(point, outline.points()) <= detail);
                }
                for (a, b) in outline.edges() {
                    for step in 0..4 {
                        assert!(to_line(a.lerp(b, f64::from(step) / 4.0), &raw) <= detail);
                    }
                }
            }
        }
    }

    #[test]
    fn a_disc_keeps_its_area_and_needs_few_points() {
        let (placed, mask) = drawn(&shapes::disc(12.5, 720), 26.0, 25.4 / 600.0);
        let outline = trace(&mask, &only_island(&mask), &TraceOptions::default()).unwrap();
        assert!((outline.area() - PI * 12.5 * 12.5).abs() < 0.05 * placed.perimeter());
        assert!((40..250).contains(&outline.points().len()), "{}", outline.points().len());
    }

    #[test]
    fn tiny_pixels_still_give_an_outline_or_a_named_error() {
        let cover = vec![255, 0, 255, 0, 255, 0, 255, 0, 255];
        for pixel in [1e-12, 1e-6, 0.000_5, 0.001, 0.002, 0.01] {
            let mask = Mask::new(3, 3, pixel, cover.clone()).unwrap();
            match trace(&mask, &only_island(&mask), &TraceOptions::default()) {
                Ok(outline) => assert!(outline.area() > 0.0),
                Err(error) => assert_eq!(error, TraceError::NoArea),
            }
        }
    }

    #[test]
    fn noise_is_refused_by_name() {
        // Rows of teeth hanging from one spine: every column passes the rim twice.
        let (width, height) = (2001u32, 1001u32);
        let cover = (0..width * height).map(|i| if i / width == 0 || (i % width) % 2 == 0 { 255 } else { 0 });
        let mask = Mask::new(width, height, 0.04, cover.collect()).unwrap();
        assert_eq!(raw_ring(&mask, &only_island(&mask), HALF_COVER), Err(TraceError::TooRagged));
    }
}
