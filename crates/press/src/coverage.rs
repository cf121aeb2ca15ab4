//! How much of each pixel lies inside closed lines: exact areas.

use ab_glyph_rasterizer::{Point as Corner, Rasterizer};
use kurbo::Point;

/// A part of a picture in whole pixels: the first column and row, and how many of each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) x: i64,
    pub(crate) y: i64,
    pub(crate) width: usize,
    pub(crate) height: usize,
}

impl Window {
    /// The pixels that these bounds touch, as far as they lie in this window; nothing if none do.
    pub(crate) fn around(&self, bounds: kurbo::Rect) -> Option<Window> {
        let clip = |low: f64, high: f64, start: i64, count: usize| {
            let first = (low.floor().max(-1e9) as i64).max(start);
            let end = (high.ceil().min(1e9) as i64).min(start + count as i64);
            (first, (end - first).max(0) as usize)
        };
        let (x, width) = clip(bounds.x0, bounds.x1, self.x, self.width);
        let (y, height) = clip(bounds.y0, bounds.y1, self.y, self.height);
        (width > 0 && height > 0).then_some(Window { x, y, width, height })
    }
}

/// The share of each pixel of the window that the rings wind round, row by row, 0 to 1. Rings in pixels.
///
/// A ring within another of the other direction is a hole. Where rings of one direction overlap, a pixel is full.
///
/// Source of the method: exact signed areas summed along rows, as font renderers do it; the crate `ab_glyph_rasterizer`.
pub(crate) fn coverage<'a>(rings: impl IntoIterator<Item = &'a [Point]>, window: Window) -> Vec<f32> {
    // A column more, so that what was brought in from the right edge falls outside.
    let mut rasterizer = Rasterizer::new(window.width + 1, window.height);
    for ring in rings {
        let local: Vec<Point> =
            ring.iter().map(|p| Point::new(p.x - window.x as f64, p.y - window.y as f64)).collect();
        let clipped = clipped(&local, window.width as f64, window.height as f64);
        for (i, start) in clipped.iter().enumerate() {
            let end = clipped[(i + 1) % clipped.len()];
            rasterizer.draw_line(corner(*start), corner(end));
        }
    }
    let mut cover = Vec::with_capacity(window.width * window.height);
    rasterizer.for_each_pixel_2d(|x, _, share| {
        if (x as usize) < window.width {
            cover.push(tidied(share));
        }
    });
    cover
}

/// Sums of many single-precision areas are off by some millionths; full and empty pixels must be just that.
fn tidied(share: f32) -> f32 {
    if share > 0.9995 {
        1.0
    } else if share < 0.0005 {
        0.0
    } else {
        share
    }
}

fn corner(point: Point) -> Corner {
    Corner { x: point.x as f32, y: point.y as f32 }
}

/// The ring cut at the window's edges; parts beyond run along the edge and so keep what they wind round.
///
/// Source: I. Sutherland and G. Hodgman, "Reentrant polygon clipping", CACM 17 (1974).
fn clipped(ring: &[Point], width: f64, height: f64) -> Vec<Point> {
    let below_top = half(ring, &|p| p.y);
    let above_bottom = half(&below_top, &|p| height - p.y);
    let right_of_left = half(&above_bottom, &|p| p.x);
    half(&right_of_left, &|p| width - p.x)
}

/// The ring cut along the line where `depth` is zero.
fn half(ring: &[Point], depth: &dyn Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(ring.len() + 4);
    for (i, &start) in ring.iter().enumerate() {
        let end = ring[(i + 1) % ring.len()];
        let (from, to) = (depth(start), depth(end));
        if from >= 0.0 {
            kept.push(start);
        }
        if (from >= 0.0) != (to >= 0.0) {
            kept.push(start.lerp(end, from / (from - to)));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        [(x, y), (x + side, y), (x + side, y + side), (x, y + side)].map(Point::from).to_vec()
    }

    #[test]
    fn shares_are_areas() {
        let window = Window { x: 10, y: 20, width: 3, height: 2 };
        let cover = coverage([&square(10.5, 20.25, 2.0)[..]], window);
        let expected = [0.375, 0.75, 0.375, 0.5, 1.0, 0.5];
        for (share, expected) in cover.iter().zip(expected) {
            assert!((share - expected).abs() < 1e-5, "{cover:?}");
        }
    }

    #[test]
    fn a_window_within_a_ring_is_full_and_beside_it_empty() {
        let ring = square(-1000.0, -1000.0, 3000.0);
        for window in
            [Window { x: 0, y: 0, width: 5, height: 4 }, Window { x: 1990, y: 7, width: 10, height: 1 }]
        {
            assert!(coverage([&ring[..]], window).iter().all(|&share| share == 1.0));
        }
        let beside = Window { x: 2001, y: 0, width: 4, height: 4 };
        assert!(coverage([&ring[..]], beside).iter().all(|&share| share == 0.0));
    }

    #[test]
    fn bands_of_a_ring_add_up_to_its_area() {
        let star = stickleaf_outline::shapes::star(7, 40.0, 17.0);
        let ring: Vec<Point> = star.points().iter().map(|p| Point::new(p.x + 37.3, p.y + 41.9)).collect();
        let sum: f64 = (0..10)
            .flat_map(|band| coverage([&ring[..]], Window { x: 0, y: band * 9, width: 80, height: 9 }))
            .map(f64::from)
            .sum();
        assert!((sum - star.area()).abs() < 0.3, "{sum} of {}", star.area());
    }
}
