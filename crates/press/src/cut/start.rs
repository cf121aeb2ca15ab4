//! Where a cut begins: on the gentlest stretch of the line, where a blade that is set down shows least.

use kurbo::Point;

/// How much of the line is looked at about each place, in millimetres; common practice is to begin away from corners, the
/// length is our own choice: a drag blade has turned into its way within a millimetre or two.
const STRETCH: f64 = 4.0;

/// The ring's points from the middle of its gentlest edge on; that middle is the first point and not repeated at the end.
///
/// Gentle is the edge about which the line turns least within two millimetres to either side, the longer one of equals.
pub(crate) fn from_gentlest(ring: &[Point]) -> Vec<Point> {
    let count = ring.len();
    let edge = |i: usize| ring[(i + 1) % count] - ring[i % count];
    let length = |i: usize| edge(i).hypot2().sqrt();
    let turns: Vec<f64> = (0..count).map(|i| turn(edge(i + count - 1), edge(i))).collect();
    let best = (0..count)
        .map(|i| (turned_about(i, &turns, &length), length(i), i))
        .min_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)));
    let first = best.map_or(0, |(_, _, i)| i);
    let middle = ring[first].midpoint(ring[(first + 1) % count]);
    std::iter::once(middle).chain((1..=count).map(|i| ring[(first + i) % count])).collect()
}

/// How far the line turns about an edge, in radians: at its ends, and further on until half the stretch is used up.
fn turned_about(edge: usize, turns: &[f64], length: &dyn Fn(usize) -> f64) -> f64 {
    let count = turns.len();
    let mut sum = 0.0;
    let mut ahead = length(edge) / 2.0;
    for i in 1..count {
        if ahead > STRETCH / 2.0 {
            break;
        }
        sum += turns[(edge + i) % count];
        ahead += length((edge + i) % count);
    }
    let mut behind = length(edge) / 2.0;
    for i in 0..count {
        if behind > STRETCH / 2.0 {
            break;
        }
        let at = (edge + count - i) % count;
        sum += turns[at];
        behind += length((at + count - 1) % count);
    }
    sum
}

/// The angle between two ways, 0 to pi.
fn turn(from: kurbo::Vec2, to: kurbo::Vec2) -> f64 {
    libm::atan2(from.cross(to).abs(), from.dot(to))
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;

    #[test]
    fn a_box_begins_in_the_middle_of_a_long_side() {
        let start = from_gentlest(shapes::rectangle(30.0, 8.0).points())[0];
        assert!(start.x.abs() < 1e-9 && (start.y.abs() - 4.0).abs() < 1e-9, "{start:?}");
    }

    #[test]
    fn a_star_begins_away_from_its_tips() {
        let star = shapes::star(5, 20.0, 9.0);
        let line = from_gentlest(star.points());
        assert_eq!(line.len(), star.points().len() + 1);
        let nearest = star.points().iter().map(|p| (*p - line[0]).hypot2().sqrt()).fold(f64::MAX, f64::min);
        assert!(nearest > 2.0, "{nearest}");
    }
}
