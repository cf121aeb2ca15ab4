//! From a closed line drawn by hand to the outline of a rough sticker.
//!
//! The ends are joined; where the line crosses itself, everything that it winds round counts, and two loops that only
//! meet at a crossing are joined by a neck; loose ends go; then the trembling of the hand is taken out. The size stays
//! what was drawn.

use kurbo::Point;
use stickleaf_outline::{Outline, Region, smoothed, thinned};
use thiserror::Error;

use crate::sketch::LOOP_SHARE;

/// The smallest blob worth keeping: the shorter side of its bounds, in millimetres.
///
/// What is thinner than 3 mm peels badly (common practice, no source); with its border a blob is thicker.
pub const LEAST_BLOB: f64 = 3.0;

/// The largest: the longer side of its bounds, in millimetres.
const MOST_BLOB: f64 = 1000.0;

/// What is thinner than twice this is a loose end and goes, in millimetres.
const LOOSE: f64 = 0.4;

/// Gaps and notches narrower than twice this close, in millimetres; so wide is a felt pen's line.
const PEN: f64 = 1.0;

/// How far round corners may lie beside the true arc, in millimetres.
const ARC_TOLERANCE: f64 = 0.02;

/// Of the line, so many points are smoothed: waves shorter than about a sixteenth of it go, those longer than a
/// quarter stay.
const SMOOTHED_POINTS: f64 = 160.0;

/// How far smoothing may move the line, as a share of the shorter side and in millimetres.
const MOST_SHIFT: (f64, f64) = (0.04, 0.8);

/// How far the kept line may stray from the smoothed one, in millimetres.
const DETAIL: f64 = 0.02;

/// Why a line drawn by hand is no blob.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum BlobError {
    /// Its ends are too far apart.
    #[error("the line does not come back to where it began; draw once round and end near the start")]
    Open,
    /// There is next to nothing inside.
    #[error("that is too small for a sticker, less than 3 mm across; draw it larger, or look closer first")]
    TooSmall,
    /// It is larger than any sheet.
    #[error("that is larger than a metre; draw it smaller, or look closer first")]
    TooLarge,
}

/// The outline that a path of finite points drawn by hand stands for, where it was drawn, on the grid.
///
/// Cost: that of a few polygon unions and offsets.
///
/// Errors: see [`BlobError`].
pub(crate) fn blob(path: &[Point]) -> Result<Outline, BlobError> {
    let longer = longer_side(path);
    if longer > MOST_BLOB {
        return Err(BlobError::TooLarge);
    }
    if longer < LEAST_BLOB {
        return Err(BlobError::TooSmall);
    }
    if is_open(path) {
        return Err(BlobError::Open);
    }
    let drawn = Region::from_rings([path]);
    let without_ends = drawn.grown(-LOOSE, ARC_TOLERANCE).grown(LOOSE, ARC_TOLERANCE);
    let joined = without_ends.grown(PEN, ARC_TOLERANCE).grown(-PEN, ARC_TOLERANCE);
    let outer = joined.outer_rings().into_iter().next().ok_or(BlobError::TooSmall)?;
    let calm = calmed(&outer);
    let bounds = calm.bounds();
    if bounds.width().min(bounds.height()) < LEAST_BLOB { Err(BlobError::TooSmall) } else { Ok(calm) }
}

/// The longer side of the path's bounds; less than nothing for a path without points.
fn longer_side(path: &[Point]) -> f64 {
    let across = |of: fn(&Point) -> f64| {
        let (least, most) = (f64::INFINITY, f64::NEG_INFINITY);
        let (least, most) = path.iter().map(of).fold((least, most), |(a, b), at| (a.min(at), b.max(at)));
        most - least
    };
    across(|point| point.x).max(across(|point| point.y))
}

/// Whether the ends are so far apart that no closed line can be meant.
fn is_open(path: &[Point]) -> bool {
    let length: f64 = path.windows(2).map(|pair| (pair[1] - pair[0]).hypot2().sqrt()).sum();
    let apart = (path[path.len() - 1] - path[0]).hypot2().sqrt();
    apart > LOOP_SHARE * length
}

/// The outline without the trembling of the hand; as it is where that would make it cross itself.
fn calmed(outline: &Outline) -> Outline {
    let bounds = outline.bounds();
    let shorter = bounds.width().min(bounds.height());
    let even = evenly_spaced(outline, outline.perimeter() / SMOOTHED_POINTS);
    let calm = smoothed(&even, (MOST_SHIFT.0 * shorter).min(MOST_SHIFT.1));
    let thin = Outline::new(thinned(&calm, DETAIL));
    thin.or_else(|_| Outline::new(calm)).unwrap_or_else(|_| outline.clone())
}

/// Points along the line, this far apart or a little less, so that smoothing takes hold everywhere alike.
fn evenly_spaced(outline: &Outline, step: f64) -> Vec<Point> {
    let total = outline.perimeter();
    let count = (total / step).ceil().max(3.0);
    let step = total / count;
    let mut points = Vec::with_capacity(count as usize);
    // How far along the present edge the next point lies.
    let mut ahead = 0.0;
    for (start, end) in outline.edges() {
        let length = (end - start).hypot2().sqrt();
        while ahead < length {
            points.push(start.lerp(end, ahead / length));
            ahead += step;
        }
        ahead -= length;
    }
    points
}

#[cfg(test)]
mod tests {
    use core::f64::consts::{PI, TAU};

    use super::*;

    /// Points on a closed curve about (50, 60), so many to the round.
    fn curve(count: u32, rounds: f64, radius: impl Fn(f64) -> f64) -> Vec<Point> {
        let at = |i: u32| {
            let angle = TAU * rounds * f64::from(i) / f64::from(count);
            let (sine, cosine) = libm::sincos(angle);
            Point::new(50.0 + radius(angle) * cosine, 60.0 + radius(angle) * sine)
        };
        (0..=count).map(at).collect()
    }

    #[test]
    fn a_circle_keeps_its_size_and_place() {
        let outline = blob(&curve(80, 1.0, |_| 10.0)).unwrap();
        assert!((outline.area() / (PI * 100.0) - 1.0).abs() < 0.01, "{}", outline.area());
        assert!((outline.bounds().center() - Point::new(50.0, 60.0)).hypot2().sqrt() < 0.05);
        assert!(outline.points().len() < 100, "{}", outline.points().len());
    }

    #[test]
    fn the_trembling_of_the_hand_goes() {
        let calm = blob(&curve(150, 1.0, |_| 10.0)).unwrap();
        let shaky = blob(&curve(150, 1.0, |angle| 10.0 + 0.25 * libm::sin(37.0 * angle))).unwrap();
        assert!(shaky.perimeter() < 1.01 * calm.perimeter(), "{} {}", shaky.perimeter(), calm.perimeter());
        assert!((shaky.area() / calm.area() - 1.0).abs() < 0.01);
    }

    #[test]
    fn ends_are_joined_and_what_hangs_over_goes() {
        // A twentieth of the round is missing.
        let short = blob(&curve(76, 0.95, |_| 10.0)).unwrap();
        assert!((short.area() / (PI * 100.0) - 1.0).abs() < 0.02, "{}", short.area());
        // The line ends in a whisker of eight millimetres.
        let mut path = curve(80, 1.0, |_| 10.0);
        path.extend([(64.0, 60.1), (68.0, 60.2)].map(Point::from));
        let whisker = blob(&path).unwrap();
        assert!(whisker.bounds().x1 < 60.5, "{:?}", whisker.bounds());
    }

    #[test]
    fn a_line_drawn_twice_round_is_one_blob_without_holes() {
        let twice = blob(&curve(160, 2.0, |angle| 10.0 + angle / TAU)).unwrap();
        let area = twice.area();
        assert!(area > PI * 100.0 && area < PI * 144.0, "{area}");
        // A snail: its inner loop ends at 4, the outer one goes from the least of 4 c + 8 c² to 12.
        let snail = blob(&curve(160, 1.0, |angle| 4.0 + 8.0 * libm::cos(angle))).unwrap();
        assert!((snail.bounds().width() - 12.5).abs() < 0.2, "{:?}", snail.bounds());
        assert!(snail.contains(Point::new(53.0, 60.0)), "the inner loop is no hole");
    }

    #[test]
    fn a_figure_of_eight_becomes_one_blob_with_a_neck() {
        // B. Bernoulli's curve has two loops of area a² / 2 each.
        let eight = |t: f64| {
            let (sine, cosine) = libm::sincos(t);
            let part = 15.0 / (1.0 + sine * sine);
            Point::new(50.0 + part * cosine, 60.0 + part * sine * cosine)
        };
        let path: Vec<Point> = (0..=120).map(|i| eight(0.3 + TAU * f64::from(i) / 120.0)).collect();
        let outline = blob(&path).unwrap();
        assert!((outline.bounds().width() - 30.0).abs() < 1.0, "{:?}", outline.bounds());
        assert!((outline.area() / 225.0 - 1.0).abs() < 0.06, "{}", outline.area());
        assert!(outline.contains(Point::new(50.0, 60.0)));
    }

    #[test]
    fn what_is_no_blob_says_why() {
        let line = |points: &[(f64, f64)]| blob(&points.iter().copied().map(Point::from).collect::<Vec<_>>());
        assert_eq!(blob(&[]), Err(BlobError::TooSmall));
        assert_eq!(line(&[(10.0, 10.0)]), Err(BlobError::TooSmall));
        assert_eq!(line(&[(10.0, 10.0), (30.0, 12.0), (50.0, 10.0)]), Err(BlobError::Open));
        // There and back again: nothing inside.
        assert_eq!(line(&[(10.0, 10.0), (50.0, 10.0), (10.0, 10.1)]), Err(BlobError::TooSmall));
        assert_eq!(blob(&curve(40, 1.0, |_| 1.2)), Err(BlobError::TooSmall));
        assert_eq!(blob(&curve(40, 1.0, |_| 600.0)), Err(BlobError::TooLarge));
    }
}
