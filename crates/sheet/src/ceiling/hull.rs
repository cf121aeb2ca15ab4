//! Convex hulls and their measures.

use kurbo::Point;

/// The corners of the convex hull, clockwise as seen (y down), without corners on straight sides.
///
/// Fewer than three if the points lie on one line or are fewer.
///
/// Source: A. Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information Processing Letters
/// 9 (1979).
pub fn convex_hull(points: impl IntoIterator<Item = Point>) -> Vec<Point> {
    let mut points: Vec<Point> = points.into_iter().collect();
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let mut hull = half_hull(points.iter().copied());
    hull.pop();
    hull.extend(half_hull(points.iter().rev().copied()));
    hull.pop();
    hull
}

fn half_hull(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = chain[..]
            && (last - before).cross(point - last) <= 0.0
        {
            chain.pop();
        }
        chain.push(point);
    }
    chain
}

/// The area inside a ring; positive if it runs clockwise as seen.
pub fn area(ring: &[Point]) -> f64 {
    let Some(&origin) = ring.first() else { return 0.0 };
    edges(ring).map(|(start, end)| (start - origin).cross(end - origin)).sum::<f64>() / 2.0
}

/// The length of a ring.
pub fn perimeter(ring: &[Point]) -> f64 {
    edges(ring).map(|(start, end)| (end - start).hypot2().sqrt()).sum()
}

/// The sides of a ring, each from its start to its end.
pub fn edges(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = ring.iter().cycle().skip(1);
    ring.iter().copied().zip(next.copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hull_of_an_l_is_a_pentagon() {
        let l = [(0., 0.), (10., 0.), (10., 2.), (2., 2.), (2., 10.), (0., 10.)].map(Point::from);
        let hull = convex_hull(l);
        assert_eq!(hull.len(), 5);
        // The square less the triangle over the elbow.
        assert_eq!(area(&hull), 100.0 - 32.0);
        assert!((perimeter(&hull) - (24.0 + 128f64.sqrt())).abs() < 1e-12);
    }

    #[test]
    fn points_on_a_line_have_no_area() {
        let line = convex_hull([(0., 0.), (4., 4.), (2., 2.)].map(Point::from));
        assert_eq!((line.len(), area(&line)), (2, 0.0));
        assert!((perimeter(&line) - 2.0 * 32f64.sqrt()).abs() < 1e-12);
        assert_eq!(convex_hull([]), []);
    }
}
