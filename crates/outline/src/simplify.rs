//! Fewer points, within a stated distance.

use kurbo::Point;

use crate::distance::nearest_on_segment;

/// The ring with needless points left out: every point dropped lies within `tolerance` millimetres of the new line.
///
/// The new points are a subset of the old ones, in the same order. Nothing keeps the result from crossing itself where
/// the ring comes closer to itself than the tolerance: callers check.
///
/// Cost: near n log n, n² at worst. Without recursion, so that long rings do no harm.
///
/// Source: D. Douglas, T. Peucker, "Algorithms for the reduction of the number of points required to represent a
/// digitized line or its caricature", Cartographica 10 (1973), run on the two halves of the ring between its first
/// point and the one furthest from it.
pub fn thinned(ring: &[Point], tolerance: f64) -> Vec<Point> {
    let Some(&first) = ring.first() else { return Vec::new() };
    if ring.len() < 4 {
        return ring.to_vec();
    }
    let far = (1..ring.len())
        .max_by(|&i, &j| (ring[i] - first).hypot2().total_cmp(&(ring[j] - first).hypot2()))
        .unwrap_or(1);
    let count = ring.len();
    let at = |i: usize| ring[i % count];
    let mut kept = vec![false; count + 1];
    kept[0] = true;
    kept[far] = true;
    let mut open = vec![(0, far), (far, count)];
    while let Some((start, end)) = open.pop() {
        let mut worst = (tolerance * tolerance, None);
        for (i, &point) in ring.iter().enumerate().take(end).skip(start + 1) {
            let squared = (nearest_on_segment(point, at(start), at(end)) - point).hypot2();
            if squared > worst.0 {
                worst = (squared, Some(i));
            }
        }
        if let Some(middle) = worst.1 {
            kept[middle] = true;
            open.push((start, middle));
            open.push((middle, end));
        }
    }
    (0..count).filter(|&i| kept[i]).map(|i| ring[i]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_on_a_straight_side_go_and_corners_stay() {
        let ring = [(0., 0.), (5., 0.001), (10., 0.), (10., 10.), (5., 10.), (0., 10.)].map(Point::from);
        assert_eq!(thinned(&ring, 0.01), [(0., 0.), (10., 0.), (10., 10.), (0., 10.)].map(Point::from));
    }

    #[test]
    fn every_dropped_point_stays_within_the_tolerance() {
        let ring: Vec<Point> = (0..1000)
            .map(|i| {
                let (sine, cosine) = libm::sincos(f64::from(i) * core::f64::consts::TAU / 1000.0);
                Point::new(20.0 * cosine, 20.0 * sine + libm::sin(f64::from(i)) * 0.02)
            })
            .collect();
        let kept = thinned(&ring, 0.1);
        assert!(kept.len() < 100);
        for point in &ring {
            let near = (0..kept.len())
                .map(|i| (nearest_on_segment(*point, kept[i], kept[(i + 1) % kept.len()]) - *point).hypot2())
                .fold(f64::INFINITY, f64::min);
            assert!(near.sqrt() <= 0.1);
        }
    }
}
