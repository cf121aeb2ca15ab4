//! Parts too thin to peel: tails, necks, slivers.

use kurbo::Point;

use crate::distance::gap;
use crate::outline::Outline;
use crate::region::Region;
use crate::search::largest_sound;

/// How much narrower than the limit a part may be before it counts as thin, in millimetres.
///
/// A printed edge is not truer than that, and a cut line may run outside the exact border by as much
/// ([`BORDER_TOLERANCE`](crate::BORDER_TOLERANCE)), so that a part meant to be just as wide as the limit passes.
pub const WIDTH_TOLERANCE: f64 = 0.01;

/// How far chords may stray from the round corners of the regions compared here, in millimetres.
const ARC_TOLERANCE: f64 = 0.002;

/// A spot where discs fit that is smaller than this is taken for none, in square millimetres: a hundredth of a
/// millimetre squared, what rounding leaves over along a part that is just as wide as asked.
const DUST: f64 = 1e-4;

/// The thinnest part of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThinPart {
    /// How wide it is in millimetres; 0 for a tip that tapers to a point.
    pub width: f64,
    /// A point in or at it.
    pub at: Point,
}

/// The thinnest part that is narrower than `limit` millimetres; nothing if there is none.
///
/// What counts: an outline is wide enough for t if discs of diameter t fit into it, if all the places where their
/// centres fit hang together, and if no point of it is further than t from all of them. So a neck that such a disc
/// cannot pass is thin, and so is a tail that sticks out further than a disc's width from the last centre. A corner is
/// not: the last disc in a corner of angle a has its centre t / 2 sin(a / 2) from the tip, which is t at 60 degrees.
/// Sharper tips do count, blunter ones never do, and a bump that is low for its width does not either.
///
/// The width told is the largest t below the limit that is passed, found by halving. What fails at the limit may pass
/// somewhat below it and fail again further down (a short lobe on a neck does); the halving then finds one of these
/// steps, not always the thinnest. What passes at the limit is never searched, so a tail shorter than the limit is not
/// found although it would be thin at a smaller one: too short to tear.
///
/// Accuracy: parts narrower than the limit by less than [`WIDTH_TOLERANCE`] pass; the width is right within about as
/// much.
///
/// Cost: three polygon offsets when nothing is thin, some ten times as much when something is.
///
/// Source: opening by a disc, G. Matheron, "Random Sets and Integral Geometry", 1975; the measure of what is lost is
/// our own.
pub fn thin_part(outline: &Outline, limit: f64) -> Option<ThinPart> {
    let region = Region::of(outline);
    let (width, at) = largest_sound(limit - WIDTH_TOLERANCE, WIDTH_TOLERANCE / 2.0, |width| {
        fault(outline, &region, width)
    })?;
    Some(ThinPart { width, at })
}

/// Where the outline is not wide enough for discs of this diameter.
fn fault(outline: &Outline, region: &Region, width: f64) -> Option<Point> {
    let mut centres = region.grown(-width / 2.0, ARC_TOLERANCE).outer_rings();
    centres.retain(|part| part.area() > DUST);
    match &centres[..] {
        [] => Some(outline.centroid()),
        [largest] => {
            let near = Region::of(largest).grown(width + WIDTH_TOLERANCE + ARC_TOLERANCE, ARC_TOLERANCE);
            furthest_of(&region.difference(&near), largest)
        }
        [largest, others @ ..] => {
            let (from, to) = others
                .iter()
                .map(|other| gap(largest, other))
                .min_by(|a, b| a.distance.total_cmp(&b.distance))?
                .between;
            Some(from.midpoint(to))
        }
    }
}

/// The corner of what is left that lies furthest from the middle of the outline it is left over from.
fn furthest_of(left: &Region, from: &Outline) -> Option<Point> {
    let middle = from.centroid();
    let away = |point: &Point| (*point - middle).hypot2();
    left.rings().flatten().max_by(|a, b| away(a).total_cmp(&away(b)))
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;
    use crate::border::border;
    use crate::shapes;

    fn ring(points: &[(f64, f64)]) -> Outline {
        Outline::new(points.iter().map(|&(x, y)| Point::new(x, y))).unwrap()
    }

    #[test]
    fn the_neck_of_a_dumbbell_is_found_with_its_width() {
        for (neck, length) in [(2.0, 4.0), (2.0, 0.5), (1.0, 8.0), (0.3, 2.0)] {
            let thin = thin_part(&shapes::dumbbell(5.0, neck, length), 3.0).unwrap();
            assert!((thin.width - neck).abs() < 0.05, "{thin:?} of {neck}");
            assert!(thin.at.x.abs() < length / 2.0 + 0.5 && thin.at.y.abs() < neck, "{thin:?}");
        }
        assert_eq!(thin_part(&shapes::dumbbell(5.0, 3.0, 4.0), 3.0), None);
        assert_eq!(thin_part(&shapes::dumbbell(5.0, 3.2, 4.0), 3.0), None);
    }

    #[test]
    fn corners_and_round_shapes_are_not_thin() {
        assert_eq!(thin_part(&shapes::square(10.0), 3.0), None);
        assert_eq!(thin_part(&shapes::disc(5.0, 180), 3.0), None);
        assert_eq!(thin_part(&shapes::l(12.0), 3.0), None);
        assert_eq!(thin_part(&shapes::star(3, 12.0, 6.0), 3.0), None);
    }

    #[test]
    fn a_shape_narrower_than_the_limit_has_its_own_width() {
        for shape in [shapes::square(2.0), shapes::disc(1.0, 180), shapes::rectangle(20.0, 2.0)] {
            let thin = thin_part(&shape, 3.0).unwrap();
            assert!((thin.width - 2.0).abs() < 0.02, "{thin:?}");
            assert!(shape.contains(thin.at));
        }
    }

    #[test]
    fn a_long_tail_is_as_thin_as_its_end() {
        // A tail on a square, 6 wide at its root and 1 wide at its end 20 away.
        let tail = ring(&[
            (-10., -5.),
            (0., -5.),
            (0., -3.),
            (20., -0.5),
            (20., 0.5),
            (0., 3.),
            (0., 5.),
            (-10., 5.),
        ]);
        let thin = thin_part(&tail, 3.0).unwrap();
        assert!(thin.width > 0.9 && thin.width < 1.5, "{thin:?}");
        assert!(thin.at.x > 15.0, "{thin:?}");
        // The same tail of even width.
        let even =
            ring(&[(-10., -5.), (0., -5.), (0., -1.), (20., -1.), (20., 1.), (0., 1.), (0., 5.), (-10., 5.)]);
        assert!((thin_part(&even, 3.0).unwrap().width - 2.0).abs() < 0.02);
    }

    #[test]
    fn tips_count_when_sharper_than_60_degrees() {
        let wedge = |degrees: f64| {
            let half = libm::tan(degrees / 2.0 * PI / 180.0) * 30.0;
            ring(&[(0.0, 0.0), (30.0, half), (40.0, half), (40.0, -half), (30.0, -half)])
        };
        assert!(thin_part(&wedge(50.0), 3.0).is_some_and(|thin| thin.width < 0.2));
        assert_eq!(thin_part(&wedge(61.0), 3.0), None);
    }

    #[test]
    fn a_cut_line_is_never_thinner_than_its_two_borders() {
        for seed in 0..40 {
            let cut_line = border(&shapes::blob(seed, 12.0), 1.5);
            assert_eq!(thin_part(&cut_line, 3.0), None, "seed {seed}");
        }
        let spike = ring(&[(0.0, 0.0), (15.0, 0.02), (15.0, -0.02)]);
        assert_eq!(thin_part(&border(&spike, 1.5), 3.0), None);
        assert!((thin_part(&border(&spike, 1.5), 4.0).unwrap().width - 3.0).abs() < 0.1);
    }

    #[test]
    fn turning_changes_nothing_but_the_place() {
        let bell = shapes::dumbbell(5.0, 2.0, 4.0);
        let placed = bell.placed(&crate::Placement::turned(40.0, 30.0, 37.0));
        let thin = thin_part(&placed, 3.0).unwrap();
        assert!((thin.width - 2.0).abs() < 0.05);
        assert!((thin.at - Point::new(40.0, 30.0)).hypot2().sqrt() < 3.0);
    }
}
