//! Pictures made by other means than the crates under test: a line drawn exactly, and the part of a picture that
//! cannot be reached from its rim.

use kurbo::Point;

/// The share of each pixel that lies inside the closed line, row by row; exact but for rounding.
///
/// Pixels are squares of `pixel` millimetres, the picture's top left corner is (0, 0), and the line must not cross
/// itself. What lies outside of the picture is cut off.
///
/// Source: clipping a polygon against one straight line after the other, I. Sutherland, G. Hodgman, "Reentrant polygon
/// clipping", Communications of the ACM 17 (1974). The edges that clipping adds run to and fro on the clipping line, so
/// they add nothing to the area.
pub fn coverage(ring: &[Point], width_px: usize, height_px: usize, pixel: f64) -> Vec<f64> {
    let whole: Vec<Point> = ring.iter().map(|p| Point::new(p.x / pixel, p.y / pixel)).collect();
    let mut shares = vec![0.0; width_px * height_px];
    for row in 0..height_px {
        let top = row as f64;
        let below = clip(&whole, |p| p.y - top);
        let mut rest = clip(&clip(&below, |p| top + 1.0 - p.y), |p| p.x);
        for column in 0..width_px {
            if rest.is_empty() {
                break;
            }
            let right = column as f64 + 1.0;
            shares[row * width_px + column] = area(&clip(&rest, |p| right - p.x)).abs();
            rest = clip(&rest, |p| p.x - right);
        }
    }
    shares
}

/// The part of the ring on the positive side of a straight line, given the distance from it.
fn clip(ring: &[Point], distance: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (i, &point) in ring.iter().enumerate() {
        let before = ring[(i + ring.len() - 1) % ring.len()];
        let (from, to) = (distance(before), distance(point));
        if (from > 0.0 && to < 0.0) || (from < 0.0 && to > 0.0) {
            kept.push(before.lerp(point, from / (from - to)));
        }
        if to >= 0.0 {
            kept.push(point);
        }
    }
    // What touches the line only in its corners has no area.
    if kept.iter().all(|&point| distance(point) == 0.0) { Vec::new() } else { kept }
}

fn area(ring: &[Point]) -> f64 {
    let Some(&origin) = ring.first() else { return 0.0 };
    let cross = |i: usize| (ring[i] - origin).cross(ring[(i + 1) % ring.len()] - origin);
    (0..ring.len()).map(cross).sum::<f64>() / 2.0
}

/// Shares as bytes, 0 to 255, rounded to the nearest.
pub fn bytes(shares: &[f64]) -> Vec<u8> {
    shares.iter().map(|share| (share * 255.0).round().clamp(0.0, 255.0) as u8).collect()
}

/// The area in pixels of what is drawn, with its holes filled and its soft rim counted by its cover.
///
/// Whatever the rim of the picture cannot reach without stepping on a pixel of cover `threshold` or more counts fully,
/// except for the wall itself: a pixel on either side of the border between reached and unreached counts with its
/// cover. A hole whose wall hangs together only at corners counts as closed.
pub fn filled_area_px(cover: &[u8], width_px: usize, height_px: usize, threshold: u8) -> f64 {
    let reached = reached_from_rim(cover, width_px, height_px, threshold);
    let at_border = |i: usize| neighbours(i, width_px, height_px).any(|j| reached[j] != reached[i]);
    (0..cover.len())
        .map(|i| match (at_border(i), reached[i]) {
            (true, _) => f64::from(cover[i]) / 255.0,
            (false, true) => 0.0,
            (false, false) => 1.0,
        })
        .sum()
}

/// Which pixels the rim of the picture reaches without stepping on one of cover `threshold` or more.
pub fn reached_from_rim(cover: &[u8], width_px: usize, height_px: usize, threshold: u8) -> Vec<bool> {
    let mut reached = vec![false; cover.len()];
    let on_rim = |i: usize| {
        let (x, y) = (i % width_px, i / width_px);
        x == 0 || y == 0 || x + 1 == width_px || y + 1 == height_px
    };
    let mut open: Vec<usize> = (0..cover.len()).filter(|&i| on_rim(i) && cover[i] < threshold).collect();
    for &i in &open {
        reached[i] = true;
    }
    while let Some(i) = open.pop() {
        for j in neighbours(i, width_px, height_px) {
            if !reached[j] && cover[j] < threshold {
                reached[j] = true;
                open.push(j);
            }
        }
    }
    reached
}

fn neighbours(i: usize, width_px: usize, height_px: usize) -> impl Iterator<Item = usize> {
    let (x, y) = (i % width_px, i / width_px);
    [
        (x > 0).then(|| i - 1),
        (x + 1 < width_px).then_some(i + 1),
        (y > 0).then(|| i.wrapping_sub(width_px)),
        (y + 1 < height_px).then_some(i + width_px),
    ]
    .into_iter()
    .flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shapes::star;

    #[test]
    fn a_slanted_square_covers_the_shares_worked_out_by_hand() {
        // A square on its corner, middle (1, 1), half diagonal 1: half of each of four pixels.
        let ring = [(1.0, 0.0), (2.0, 1.0), (1.0, 2.0), (0.0, 1.0)].map(Point::from);
        let shares = coverage(&ring, 3, 3, 1.0);
        let half = |share: f64| (share - 0.5).abs() < 1e-12;
        assert!([0, 1, 3, 4].iter().all(|&i| half(shares[i])), "{shares:?}");
        assert!([2, 5, 6, 7, 8].iter().all(|&i| shares[i] == 0.0), "{shares:?}");
    }

    #[test]
    fn all_shares_of_a_star_add_up_to_its_area() {
        let ring = star(Point::new(10.3, 9.8), 9.0, 3.0, 7);
        let shares = coverage(&ring, 60, 60, 0.35);
        let total = shares.iter().sum::<f64>() * 0.35 * 0.35;
        assert!((total - area(&ring).abs()).abs() < 1e-9, "{total}");
        assert!(shares.iter().all(|&share| (-1e-12..=1.0 + 1e-12).contains(&share)));
    }

    #[test]
    fn a_hole_is_filled_and_a_soft_edge_counts_by_its_share() {
        #[rustfmt::skip]
        let ring = [
            0,   0,   0,   0, 0,
            0, 255, 255, 255, 0,
            0, 255,   0, 255, 0,
            0, 255, 255, 255, 0,
            0,  51,  51,  51, 0,
        ];
        assert!((filled_area_px(&ring, 5, 5, 128) - 9.6).abs() < 1e-9);
    }
}
