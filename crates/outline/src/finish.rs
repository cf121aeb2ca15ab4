//! A cut line that a drag blade can follow: no corner sharper than a radius, no part thinner than asked at a spot.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};

use crate::distance::{gap, nearest_on_segment};
use crate::outline::{Outline, ring_area};
use crate::region::Region;
use crate::simplify::thinned;

/// How far a finished line may run outside of what the radii ask for, and how much smaller its radii may be, in
/// millimetres.
pub const FINISH_TOLERANCE: f64 = 0.01;

/// How far chords may stray from round corners, in millimetres.
const ARC_TOLERANCE: f64 = 0.001;

/// How far a disc may be from reaching a corner and still count as reaching it, in millimetres.
const REACH: f64 = 0.003;

/// What discs do not reach and that is smaller than this is what rounding left over, in square millimetres.
const DUST: f64 = 1e-4;

/// How much discs are larger than asked, so that their chords lie outside of them, in millimetres.
const DISC_SHARE: f64 = 0.003;

/// The share of the tolerance that leaving out needless points takes up.
const THINNING_SHARE: f64 = 0.001_5;

/// The share that rounding to the grid takes up: half its diagonal.
const GRID_SHARE: f64 = 0.001;

/// The smallest radii that a line may have, in millimetres; 0 where it may be sharp.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Radii {
    /// Of corners that point inward, such as notches.
    pub inner: f64,
    /// Of corners that point outward, such as tips.
    pub outer: f64,
}

/// A spot at which a line shall be made wider.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WideSpot {
    /// A point at or in the part that is too thin.
    pub at: Point,
    /// How wide it shall become, in millimetres.
    pub width: f64,
}

/// The line with no corner sharper than these radii; it only ever moves outward, so whatever lay inside by some distance
/// still does.
///
/// *Outward corners.* The line is opened by a disc of the outer radius. Where such a disc does not reach, discs are laid
/// over what it leaves, as few as will do: one that slides along a straight tip, else one about every point of the part
/// that is too thin. So a part thinner than two radii becomes two radii wide. `border` tells how wide the border is by
/// which the line has been grown, 0 if it has not: its corners have that radius already, and need the less.
///
/// *Inward corners.* What comes of that is closed by a disc of the inner radius: it is filled wherever such a disc,
/// rolling along its outside, does not come.
///
/// Promises: the new line holds all of the old one. A disc of the inner radius, less [`FINISH_TOLERANCE`], that rolls along
/// its outside comes within that tolerance of each point of it; but for the fillets that closing makes, so does a disc of the
/// outer radius within. Radii of 0 or less, and an outer one no larger than the border, leave the line as it is.
///
/// Cost: some polygon offsets and unions.
///
/// Source: opening and closing by a disc, G. Matheron, "Random Sets and Integral Geometry", 1975; covering instead of
/// cutting off what opening takes is our own.
pub fn rounded(line: &Outline, border: f64, radii: Radii) -> Outline {
    let before = Region::of(line);
    let wide = is_sharper(radii.outer, border).then(|| covered(&before, radii.outer, border, None)).flatten();
    let rounded = wide.as_ref().unwrap_or(&before);
    let filled = if radii.inner > 0.0 { closed(rounded, radii.inner) } else { None };
    let new = filled.or(wide);
    new.and_then(|region| outward(&region)).unwrap_or_else(|| line.clone())
}

/// The line made as wide as asked at some spots; it only ever moves outward.
///
/// At each spot the nearest part into which no disc of that diameter fits is covered by such discs, from half a width
/// away at most. Where there is no such part the spot changes nothing. `border` is meant as for [`rounded`].
pub fn widened(line: &Outline, border: f64, spots: &[WideSpot]) -> Outline {
    let before = Region::of(line);
    // A little wider than asked, so that what is measured afterwards is as wide as asked.
    let radius = |spot: &WideSpot| spot.width / 2.0 + FINISH_TOLERANCE / 2.0;
    let asked = spots.iter().filter(|spot| spot.at.is_finite() && is_sharper(radius(spot), border));
    let wide = asked.filter_map(|spot| covered(&before, radius(spot), border, Some(spot.at)));
    let new = wide.reduce(|all, one| all.union(&one));
    new.and_then(|region| outward(&region)).unwrap_or_else(|| line.clone())
}

/// Whether a line grown by a border can have corners sharper than a radius.
fn is_sharper(radius: f64, border: f64) -> bool {
    radius > 0.0 && radius > border.max(0.0) + REACH
}

/// The region with discs over the parts that discs of this radius do not reach from inside: over all of them, or over the
/// one nearest to a spot. Nothing if there is no such part.
fn covered(region: &Region, radius: f64, border: f64, only_at: Option<Point>) -> Option<Region> {
    let border = border.max(0.0);
    let centres = region.grown(-radius, ARC_TOLERANCE);
    let reached = centres.grown(radius, ARC_TOLERANCE);
    let left = region.difference(&centres.grown(radius + REACH, ARC_TOLERANCE));
    let mut parts: Vec<Outline> = left.outer_rings();
    parts.retain(|part| part.area() > DUST);
    if let Some(at) = only_at {
        let away = |part: &Outline| if part.contains(at) { 0.0 } else { from_line(at, part) };
        let nearest = parts.into_iter().min_by(|a, b| away(a).total_cmp(&away(b)));
        parts = nearest.into_iter().filter(|part| away(part) <= radius).collect();
    }
    // The line is this grown by the border, for it has no corner sharper than that.
    let core = region.grown(-border, ARC_TOLERANCE);
    let centres = centres.outer_rings();
    let covers = parts.iter().map(|part| cover(part, &core, &centres, &reached, radius, border));
    let all = covers.reduce(|all, one| all.union(&one))?;
    Some(region.union(&all))
}

/// Discs that cover a part which those about `centres` do not reach.
fn cover(
    part: &Outline,
    core: &Region,
    centres: &[Outline],
    reached: &Region,
    radius: f64,
    border: f64,
) -> Region {
    let part = Region::of(part);
    let own = core.intersection(&part.grown(border + REACH, ARC_TOLERANCE));
    let tip = own.rings().flatten().filter_map(|point| Some((point, nearest_of(point, centres)?)));
    let tip = tip.max_by(|a, b| (a.0 - a.1).hypot2().total_cmp(&(b.0 - b.1).hypot2()));
    if let Some((tip, from)) = tip {
        let away = (tip - from).hypot2().sqrt();
        // From there on a disc about the way reaches all that the border asks about the tip.
        let along = ((away - (radius - border)) / away.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        let slid = capsule(from, from + (tip - from) * along, radius);
        let missed = part.difference(&reached.union(&slid).grown(REACH, ARC_TOLERANCE));
        if missed.area() <= DUST {
            return slid;
        }
    }
    let mut cover = own.grown(radius + DISC_SHARE, ARC_TOLERANCE);
    // Discs that hang together leave no waist where the part joins the rest.
    for ring in own.outer_rings() {
        for other in centres {
            let way = gap(&ring, other);
            if way.distance <= 2.0 * radius {
                cover = cover.union(&capsule(way.between.0, way.between.1, radius));
            }
        }
    }
    cover
}

/// The region closed by a disc: filled where the disc does not come from outside. Nothing if it comes everywhere.
fn closed(region: &Region, radius: f64) -> Option<Region> {
    let filled = region.grown(radius, ARC_TOLERANCE).grown(-radius, ARC_TOLERANCE);
    // The chords of soft bays are no corners, however they were drawn.
    let is_soft = filled.difference(&region.grown(REACH, ARC_TOLERANCE)).area() <= DUST;
    (!is_soft).then(|| region.union(&filled))
}

/// The discs about all points of a segment, their chords outside of them.
fn capsule(from: Point, to: Point, radius: f64) -> Region {
    let round = radius + DISC_SHARE;
    let steps = (PI / 2.0 / libm::acos(radius / round)).ceil().clamp(4.0, 400.0) as u32;
    let start = if from == to { 0.0 } else { libm::atan2(to.y - from.y, to.x - from.x) };
    let side = |middle: Point, first: f64| {
        (0..=steps).map(move |step| {
            let (sine, cosine) = libm::sincos(first + PI * f64::from(step) / f64::from(steps));
            middle + Vec2::new(cosine, sine) * round
        })
    };
    let ring: Vec<Point> = side(to, start - PI / 2.0).chain(side(from, start + PI / 2.0)).collect();
    Region::from_rings([&ring[..]])
}

/// The largest outer ring, a hair further out, with fewer points and on the grid: it holds all of the region's part.
fn outward(region: &Region) -> Option<Outline> {
    let grown = region.grown(THINNING_SHARE + GRID_SHARE + ARC_TOLERANCE, ARC_TOLERANCE);
    let largest = grown.rings().max_by(|a, b| ring_area(a).total_cmp(&ring_area(b)))?;
    let thin = thinned(&largest, THINNING_SHARE);
    Outline::new(thin.iter().copied())
        .ok()
        .or_else(|| Region::from_rings([&thin[..]]).outer_rings().into_iter().next())
}

fn nearest_of(point: Point, lines: &[Outline]) -> Option<Point> {
    let nearest = lines.iter().flat_map(Outline::edges).map(|(a, b)| nearest_on_segment(point, a, b));
    nearest.min_by(|a, b| (*a - point).hypot2().total_cmp(&(*b - point).hypot2()))
}

fn from_line(point: Point, line: &Outline) -> f64 {
    let nearest = line.edges().map(|(a, b)| (nearest_on_segment(point, a, b) - point).hypot2());
    nearest.fold(f64::INFINITY, f64::min).sqrt()
}

/// How far a line has moved outward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedOut {
    /// The furthest that a place of the new line is from the old one, in millimetres.
    pub most: f64,
    /// Where that is.
    pub at: Point,
    /// The area gained, in square millimetres.
    pub area: f64,
}

/// How nearly the furthest way is found, in millimetres.
const MOST_TOLERANCE: f64 = 0.005;

/// How far and where a line that holds the old one has moved furthest from it; nothing if it is the same.
///
/// The way told is right within five micrometres: pieces of the new line are halved until none can hold a place that lies
/// further away by more than that.
pub fn moved_out(old: &Outline, new: &Outline) -> Option<MovedOut> {
    if old == new {
        return None;
    }
    let away = |point: Point| from_line(point, old);
    let mut best = (0.0, new.points()[0]);
    let mut open: Vec<(Point, f64, Point, f64)> = Vec::new();
    for (a, b) in new.edges() {
        open.push((a, away(a), b, away(b)));
    }
    for &(point, distance, ..) in &open {
        if distance > best.0 {
            best = (distance, point);
        }
    }
    while let Some((a, from_a, b, from_b)) = open.pop() {
        // No distance grows faster than one goes.
        let reach = (from_a + from_b + (b - a).hypot2().sqrt()) / 2.0;
        if reach <= best.0 + MOST_TOLERANCE {
            continue;
        }
        let middle = a.midpoint(b);
        let distance = away(middle);
        if distance > best.0 {
            best = (distance, middle);
        }
        open.push((a, from_a, middle, distance));
        open.push((middle, distance, b, from_b));
    }
    Some(MovedOut { most: best.0, at: best.1, area: new.area() - old.area() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::border::border;
    use crate::corners::tight_inner_corner;
    use crate::shapes;
    use crate::thickness::thin_part;

    fn ring(points: &[(f64, f64)]) -> Outline {
        Outline::new(points.iter().map(|&point| Point::from(point))).unwrap()
    }

    fn inner(radius: f64) -> Radii {
        Radii { inner: radius, outer: 0.0 }
    }

    fn outer(radius: f64) -> Radii {
        Radii { inner: 0.0, outer: radius }
    }

    fn holds(outer: &Outline, inner: &Outline) -> bool {
        Region::of(inner).difference(&Region::of(outer)).area() < 1e-9
    }

    #[test]
    fn a_sharp_inner_corner_gets_its_radius_and_moves_by_what_geometry_says() {
        let l = shapes::l(12.0);
        let soft = rounded(&l, 0.0, inner(0.5));
        assert_eq!(tight_inner_corner(&soft, 0.49), None);
        assert!(holds(&soft, &l));
        // The fillet of a right angle: its middle lies r (1 - 1 / sqrt 2) from both sides, and it fills (1 - pi / 4) r².
        let moved = moved_out(&l, &soft).unwrap();
        let exact = (1.0 - 0.5f64.sqrt()) * 0.5;
        assert!((moved.most - exact).abs() < FINISH_TOLERANCE + MOST_TOLERANCE, "{moved:?}");
        assert!((moved.at - Point::new(-2.0, 2.0)).hypot2().sqrt() < 0.25, "{moved:?}");
        let fill = (1.0 - PI / 4.0) * 0.25;
        let slack = l.perimeter() * FINISH_TOLERANCE;
        assert!(moved.area >= fill && moved.area < fill + slack, "{moved:?}");
    }

    #[test]
    fn a_line_that_is_soft_already_stays_the_very_same() {
        let disc = shapes::disc(5.0, 180);
        assert_eq!(rounded(&disc, 0.0, inner(0.5)), disc);
        let cut_line = border(&shapes::square(10.0), 1.5);
        assert_eq!(rounded(&cut_line, 1.5, Radii { inner: 0.5, outer: 1.5 }), cut_line);
        assert_eq!(rounded(&shapes::l(9.0), 0.0, Radii::default()), shapes::l(9.0));
        assert_eq!(moved_out(&disc, &disc), None);
    }

    #[test]
    fn a_corner_is_rounded_round_the_outside_by_the_least_that_holds_it() {
        // One disc of radius R over the corner of a square touches it from outside: it bulges over the sides by
        // R (1 - 1 / sqrt 2), 0.29 R.
        let square = shapes::square(20.0);
        let soft = rounded(&square, 0.0, outer(1.0));
        assert!(holds(&soft, &square));
        let moved = moved_out(&square, &soft).unwrap();
        let exact = 1.0 - 0.5f64.sqrt();
        assert!((moved.most - exact).abs() < 0.02, "{moved:?} {exact}");
        // With a border of 0.6 the disc that holds the corner's arc bulges by that of the rest only.
        let cut_line = border(&square, 0.6);
        let moved = moved_out(&cut_line, &rounded(&cut_line, 0.6, outer(1.0))).unwrap();
        assert!((moved.most - 0.4 * exact).abs() < 0.02, "{moved:?}");
    }

    #[test]
    fn a_spike_becomes_two_radii_wide_and_no_longer() {
        let spike = ring(&[(0., -6.), (6., -6.), (6., -0.4), (20., 0.), (6., 0.4), (6., 6.), (0., 6.)]);
        let soft = rounded(&spike, 0.0, outer(1.0));
        assert!(holds(&soft, &spike));
        assert!(thin_part(&soft, 2.0).is_none(), "{:?}", thin_part(&soft, 2.0));
        // The disc slides as far as the tip and no further.
        assert!(soft.bounds().x1 < 20.0 + 2.0 * FINISH_TOLERANCE, "{:?}", soft.bounds());
        assert!(moved_out(&spike, &soft).unwrap().most <= 1.0 + FINISH_TOLERANCE);
    }

    #[test]
    fn a_neck_and_a_curled_tail_are_made_as_wide_as_asked_and_the_rest_stays() {
        for (neck, length) in [(1.0, 8.0), (0.5, 4.0), (2.0, 4.0)] {
            let bell = shapes::dumbbell(5.0, neck, length);
            let thin = thin_part(&bell, 3.0).unwrap();
            let wide = widened(&bell, 0.0, &[WideSpot { at: thin.at, width: 3.0 }]);
            assert!(holds(&wide, &bell));
            assert_eq!(thin_part(&wide, 3.0), None, "{neck} {length}");
            // Far from the neck nothing moved: the outer ends of the bell are where they were.
            let (old, new) = (bell.bounds(), wide.bounds());
            assert!((old.x0 - new.x0).abs() < FINISH_TOLERANCE && (old.y0 - new.y0).abs() < FINISH_TOLERANCE);
            let most = moved_out(&bell, &wide).unwrap().most;
            assert!(most <= 1.5 + 2.0 * FINISH_TOLERANCE, "{most}");
        }
    }

    #[test]
    fn only_the_part_at_the_spot_is_widened() {
        let two_tails = ring(&[
            (-20., -0.5),
            (-5., -0.5),
            (-5., -6.),
            (5., -6.),
            (5., -0.5),
            (20., -0.5),
            (20., 0.5),
            (5., 0.5),
            (5., 6.),
            (-5., 6.),
            (-5., 0.5),
            (-20., 0.5),
        ]);
        let right = widened(&two_tails, 0.0, &[WideSpot { at: Point::new(18.0, 0.0), width: 3.0 }]);
        let left = thin_part(&right, 3.0).unwrap();
        assert!((left.width - 1.0).abs() < 0.05 && left.at.x < -5.0, "{left:?}");
        let both = widened(
            &two_tails,
            0.0,
            &[Point::new(18.0, 0.0), Point::new(-18.0, 0.0)].map(|at| WideSpot { at, width: 3.0 }),
        );
        assert_eq!(thin_part(&both, 3.0), None);
        // A spot where nothing is thin changes nothing, and neither does one that was asked for and is wide already.
        assert_eq!(
            widened(&two_tails, 0.0, &[WideSpot { at: Point::new(0.0, 30.0), width: 3.0 }]),
            two_tails
        );
        assert_eq!(
            widened(&two_tails, 0.0, &[WideSpot { at: Point::new(18.0, 0.0), width: 0.9 }]),
            two_tails
        );
    }
}
