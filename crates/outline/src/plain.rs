//! Plain shapes to plan a sheet with before anything is drawn: exact sizes, corners that a blade can follow.

use core::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::{CubicBez, ParamCurve, Point, Size};
use thiserror::Error;

use crate::outline::{GRID, Outline, OutlineError, bounds_of};
use crate::region::Region;
use crate::simplify::thinned;

/// The smallest width or height of a plain shape, in millimetres.
pub const LEAST_SIDE: f64 = 1.0;

/// The largest width or height of a plain shape, in millimetres.
pub const MOST_SIDE: f64 = 1000.0;

/// How far the chords of a curve may lie inside it, in millimetres.
const DETAIL: f64 = 0.005;

/// The radius that inward corners are softened to, in millimetres.
///
/// A white border takes its width from it: with the usual 1.5 mm it leaves the cut line more than the half millimetre
/// that a blade needs to swivel (common practice, no source).
const SOFT_RADIUS: f64 = 2.25;

/// On small shapes it is this share of the shorter side, so that they keep their character.
const SOFT_SHARE: f64 = 0.18;

/// The radius of a rounded box's corners as a share of its shorter side.
const BOX_CORNER_SHARE: f64 = 0.2;

/// How far the inner corners of a star lie from its middle, as a share of its tips. Plumper than the star that five
/// straight lines make (0.38), so that there is room to draw.
const STAR_INNER_SHARE: f64 = 0.5;

/// A shape to plan with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlainShape {
    /// As wide as it is high.
    Disc,
    /// An ellipse.
    Oval,
    /// A box with round corners.
    RoundedBox,
    /// A heart, tip down.
    Heart,
    /// Five tips, one of them up.
    Star,
    /// A banner with forked ends.
    Ribbon,
}

/// Why there is no plain shape of this size.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PlainShapeError {
    /// A side that is no length, too short or too long.
    #[error("the {what} is {value} mm; give a length from {LEAST_SIDE} to {MOST_SIDE} mm")]
    Side {
        /// `width` or `height`.
        what: &'static str,
        /// What it is, in millimetres.
        value: f64,
    },
    /// A disc that would be an oval.
    #[error("a disc is as high as it is wide; choose an oval for {width} x {height} mm")]
    NotRound {
        /// The width asked for, in millimetres.
        width: f64,
        /// The height asked for, in millimetres.
        height: f64,
    },
    /// Sides so unequal that the line would meet itself.
    #[error("{width} x {height} mm is too narrow for this shape; make the shorter side longer")]
    TooNarrow {
        /// The width asked for, in millimetres.
        width: f64,
        /// The height asked for, in millimetres.
        height: f64,
    },
}

impl PlainShape {
    /// All of them, the plainest first.
    pub const ALL: [PlainShape; 6] = [
        PlainShape::Disc,
        PlainShape::Oval,
        PlainShape::RoundedBox,
        PlainShape::Heart,
        PlainShape::Star,
        PlainShape::Ribbon,
    ];

    /// A size that stickers often have, in millimetres (a choice of ours).
    pub fn usual_size(self) -> Size {
        let (width, height) = match self {
            PlainShape::Disc => (20.0, 20.0),
            PlainShape::Oval => (26.0, 18.0),
            PlainShape::RoundedBox => (24.0, 18.0),
            PlainShape::Heart => (20.0, 18.0),
            PlainShape::Star => (22.0, 21.0),
            PlainShape::Ribbon => (40.0, 12.0),
        };
        Size::new(width, height)
    }

    /// The outline of this shape in millimetres, (0, 0) at the middle of its bounds.
    ///
    /// Its bounds are exactly so wide and so high, rounded to the [`GRID`]; with an odd number of micrometres the middle
    /// is half a micrometre beside (0, 0). Curves are drawn with chords within five micrometres, inward corners softened
    /// to 2.25 mm or 18 % of the shorter side, whichever is less.
    ///
    /// Errors: see [`PlainShapeError`].
    pub fn outline(self, width: f64, height: f64) -> Result<Outline, PlainShapeError> {
        for (what, value) in [("width", width), ("height", height)] {
            if !(LEAST_SIDE..=MOST_SIDE).contains(&value) {
                return Err(PlainShapeError::Side { what, value });
            }
        }
        if self == PlainShape::Disc && width != height {
            return Err(PlainShapeError::NotRound { width, height });
        }
        let size = Size::new(width, height);
        let ring = match self {
            PlainShape::Disc | PlainShape::Oval => oval(size),
            PlainShape::RoundedBox => rounded_box(size),
            PlainShape::Heart => softened(heart(size), size),
            PlainShape::Star => softened(star(size), size),
            PlainShape::Ribbon => softened(ribbon(size), size),
        };
        fitted(&ring, size).map_err(|_| PlainShapeError::TooNarrow { width, height })
    }
}

/// An ellipse of this size about (0, 0).
fn oval(size: Size) -> Vec<Point> {
    let (x, y) = (size.width / 2.0, size.height / 2.0);
    let steps = 4 * steps_of_quarter(x.max(y));
    (0..steps)
        .map(|i| {
            let (sine, cosine) = libm::sincos(TAU * f64::from(i) / f64::from(steps));
            Point::new(x * cosine, y * sine)
        })
        .collect()
}

fn rounded_box(size: Size) -> Vec<Point> {
    let radius = BOX_CORNER_SHARE * size.width.min(size.height);
    let (x, y) = (size.width / 2.0 - radius, size.height / 2.0 - radius);
    let steps = steps_of_quarter(radius);
    let quarter = |(x, y, from): (f64, f64, f64)| {
        (0..=steps).map(move |i| {
            let (sine, cosine) = libm::sincos(from + FRAC_PI_2 * f64::from(i) / f64::from(steps));
            Point::new(x + radius * cosine, y + radius * sine)
        })
    };
    [(x, y, 0.0), (-x, y, FRAC_PI_2), (-x, -y, PI), (x, -y, PI + FRAC_PI_2)]
        .into_iter()
        .flat_map(quarter)
        .collect()
}

/// Two lobes that meet in a notch on top and a tip below.
fn heart(size: Size) -> Vec<Point> {
    let at = |x: f64, y: f64| Point::new(x * size.width / 2.0, y * size.height / 2.0);
    let curves = [
        // From the tip up the left side, over the left lobe, into the notch.
        CubicBez::new(at(0.0, 1.0), at(-0.32, 0.70), at(-1.0, 0.34), at(-1.0, -0.36)),
        CubicBez::new(at(-1.0, -0.36), at(-1.0, -0.77), at(-0.76, -1.0), at(-0.49, -1.0)),
        CubicBez::new(at(-0.49, -1.0), at(-0.25, -1.0), at(-0.08, -0.86), at(0.0, -0.66)),
    ];
    // The second derivative of these curves stays below ten times the half side, and a chord strays by an eighth of it
    // over the square of the steps.
    let reach = size.width.max(size.height) / 2.0;
    let steps = (10.0 * reach / (8.0 * DETAIL)).sqrt().ceil() as u32;
    let left: Vec<Point> = curves
        .iter()
        .flat_map(|curve| (0..steps).map(move |i| curve.eval(f64::from(i) / f64::from(steps))))
        .collect();
    let right = left[1..].iter().rev().map(|point| Point::new(-point.x, point.y));
    let notch = at(0.0, -0.66);
    left.iter().copied().chain(std::iter::once(notch)).chain(right).collect()
}

fn star(size: Size) -> Vec<Point> {
    let corner = |i: u8| {
        let reach = if i.is_multiple_of(2) { 1.0 } else { STAR_INNER_SHARE };
        let (sine, cosine) = libm::sincos(PI * f64::from(i) / 5.0 - FRAC_PI_2);
        Point::new(reach * cosine * size.width / 2.0, reach * sine * size.height / 2.0)
    };
    (0..10).map(corner).collect()
}

fn ribbon(size: Size) -> Vec<Point> {
    let (x, y) = (size.width / 2.0, size.height / 2.0);
    let fork = (0.4 * size.height).min(0.2 * size.width);
    [(-x, -y), (x, -y), (x - fork, 0.0), (x, y), (-x, y), (-x + fork, 0.0)].map(Point::from).to_vec()
}

/// How many chords draw a quarter of a circle of this radius within the detail; at least two.
fn steps_of_quarter(radius: f64) -> u32 {
    // A chord over the angle 2 a lies r (1 - cos a) inside its arc.
    let half = libm::acos((1.0 - DETAIL / radius).max(0.0));
    (FRAC_PI_2 / (2.0 * half)).ceil().max(2.0) as u32
}

/// The ring with its inward corners rounded: grown and shrunk by as much.
fn softened(ring: Vec<Point>, size: Size) -> Vec<Point> {
    let radius = SOFT_RADIUS.min(SOFT_SHARE * size.width.min(size.height));
    let soft = Region::from_rings([&ring[..]]).grown(radius, DETAIL / 2.0).grown(-radius, DETAIL / 2.0);
    // What is as plain as these shapes always has an outer ring.
    soft.outer_rings().first().map_or(ring, |outline| thinned(outline.points(), DETAIL / 2.0))
}

/// The outline through these points, stretched so that its bounds are of this size on the grid.
fn fitted(ring: &[Point], size: Size) -> Result<Outline, OutlineError> {
    let bounds = bounds_of(ring);
    let along = |value: f64, from: f64, length: f64, side: f64| {
        let cells = (side / GRID).round();
        ((value - from) / length * cells).round() - (cells / 2.0).floor()
    };
    Outline::new(ring.iter().map(|point| {
        let x = along(point.x, bounds.x0, bounds.width(), size.width);
        let y = along(point.y, bounds.y0, bounds.height(), size.height);
        Point::new(x * GRID, y * GRID)
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::border::border;
    use crate::corners::tight_inner_corner;
    use crate::thickness::thin_part;

    /// A width and a height from nearly nothing to a large sheet, equal for a disc.
    fn sizes(shape: PlainShape) -> impl Iterator<Item = (f64, f64)> {
        let sides = [1.0, 1.337, 5.0, 8.0, 12.7, 19.999_6, 20.0, 33.333, 100.0, 1000.0];
        sides.into_iter().flat_map(move |width| {
            let heights = if shape == PlainShape::Disc { vec![width] } else { sides.to_vec() };
            heights.into_iter().map(move |height| (width, height))
        })
    }

    #[test]
    fn bounds_are_as_wide_and_high_as_asked() {
        for shape in PlainShape::ALL {
            for (width, height) in sizes(shape) {
                let bounds = shape.outline(width, height).map(|outline| outline.bounds());
                let bounds = bounds.unwrap_or_else(|why| panic!("{shape:?} {width} x {height}: {why}"));
                assert!((bounds.width() - width).abs() <= GRID / 2.0 + 1e-9, "{shape:?} {width}: {bounds:?}");
                assert!(
                    (bounds.height() - height).abs() <= GRID / 2.0 + 1e-9,
                    "{shape:?} {height}: {bounds:?}"
                );
                assert!(bounds.center().to_vec2().hypot2() <= GRID * GRID, "{shape:?}: {bounds:?}");
            }
        }
    }

    #[test]
    fn areas_follow_their_formulae() {
        let area = |shape: PlainShape, width, height| shape.outline(width, height).unwrap().area();
        let near =
            |found: f64, wanted: f64| assert!((found / wanted - 1.0).abs() < 0.001, "{found} {wanted}");
        near(area(PlainShape::Disc, 20.0, 20.0), PI * 100.0);
        near(area(PlainShape::Oval, 30.0, 12.0), PI * 15.0 * 6.0);
        // Four corners of radius r lack (4 - pi) r².
        near(area(PlainShape::RoundedBox, 24.0, 20.0), 480.0 - (4.0 - PI) * 16.0);
        // The fork takes a triangle from each end; softening gives back r² (cot a - (pi / 2 - a)) at an inward corner
        // whose half angle is a.
        let half = libm::atan2(6.0, 4.8);
        let back = SOFT_SHARE * 12.0 * SOFT_SHARE * 12.0 * (4.8 / 6.0 - (FRAC_PI_2 - half));
        near(area(PlainShape::Ribbon, 40.0, 12.0), 480.0 - 12.0 * 4.8 + 2.0 * back);
    }

    #[test]
    fn shapes_are_even_left_and_right() {
        for shape in PlainShape::ALL {
            let size = shape.usual_size();
            let outline = shape.outline(size.width, size.height).unwrap();
            let mirrored = outline.points().iter().map(|point| Point::new(-point.x, point.y));
            let mirrored = Region::of(&Outline::new(mirrored).unwrap());
            let both = Region::of(&outline).intersection(&mirrored).area();
            assert!(both > 0.999 * outline.area(), "{shape:?}: {both} of {}", outline.area());
        }
    }

    #[test]
    fn with_the_usual_border_they_cut_well() {
        for shape in PlainShape::ALL {
            for scale in [1.0, 2.0] {
                let size = shape.usual_size() * scale;
                let cut_line = border(&shape.outline(size.width, size.height).unwrap(), 1.5);
                assert_eq!(thin_part(&cut_line, 3.0), None, "{shape:?}");
                assert_eq!(tight_inner_corner(&cut_line, 0.5), None, "{shape:?} {size:?}");
            }
        }
    }

    #[test]
    fn sizes_that_make_no_shape_are_refused_with_their_reason() {
        let refused = |shape: PlainShape, width, height| shape.outline(width, height).unwrap_err();
        assert_eq!(
            refused(PlainShape::Heart, 0.5, 20.0),
            PlainShapeError::Side { what: "width", value: 0.5 }
        );
        assert!(refused(PlainShape::Star, 20.0, f64::NAN).to_string().contains("height is NaN"));
        assert!(refused(PlainShape::Oval, 20.0, 1e9).to_string().contains("1 to 1000 mm"));
        assert!(refused(PlainShape::Disc, 20.0, 18.0).to_string().contains("choose an oval"));
    }
}
