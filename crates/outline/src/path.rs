//! SVG path data to outlines and back.
//!
//! Curves become chords here, with arithmetic that is the same on every platform: the usual curve libraries use
//! functions that differ in the last digit between the browser and the desktop.

use kurbo::Point;
use svgtypes::{PathParser, PathSegment};
use thiserror::Error;

use crate::outline::{Outline, OutlineError};
use crate::pen::Pen;
use crate::region::Region;

/// How far a chord may stray from the curve that it stands for, in millimetres.
pub const FLATTENING_TOLERANCE: f64 = 0.001;

/// Why a text is not an outline.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PathError {
    /// Not SVG path data.
    #[error("this is not SVG path data: {0}; write commands such as M, L, C, A and Z with plain numbers")]
    Syntax(String),
    /// A number that is no finite length.
    #[error(
        "the path holds a number that is not a finite length; give every coordinate as plain millimetres"
    )]
    NotFinite,
    /// No closed line with an area.
    #[error("the path encloses no area; draw a closed line around the sticker")]
    Empty,
    /// Several separate parts.
    #[error(
        "the path has {parts} separate parts; an outline is one closed line, so make each part a sticker of its own"
    )]
    Parts {
        /// How many.
        parts: usize,
    },
    /// One ring, but not a sound one.
    #[error(transparent)]
    Outline(#[from] OutlineError),
}

/// The outline drawn by SVG path data in millimetres.
///
/// All commands are understood, relative ones too; an open subpath is closed. Curves are drawn with chords within
/// [`FLATTENING_TOLERANCE`]. A subpath inside another is a hole and is filled.
///
/// Errors: no path data, no area, more than one separate part, a ring that crosses itself, numbers out of range.
pub fn parse(text: &str) -> Result<Outline, PathError> {
    let rings: Vec<Vec<Point>> =
        parse_rings(text, FLATTENING_TOLERANCE)?.into_iter().filter(|ring| ring.len() > 2).collect();
    match &rings[..] {
        [] => Err(PathError::Empty),
        [ring] => match Outline::new(ring.iter().copied()) {
            Ok(outline) => Ok(outline),
            Err(OutlineError::NoArea) => Err(PathError::Empty),
            Err(other) => Err(other.into()),
        },
        several => {
            // Each ring is checked by itself for numbers out of range; only then are they joined.
            for ring in several {
                Outline::new(ring.iter().copied())?;
            }
            let turned: Vec<Vec<Point>> = several.iter().map(|ring| clockwise(ring)).collect();
            let outer = Region::from_rings(turned.iter().map(Vec::as_slice)).outer_rings();
            let parts = outer.len();
            match outer.into_iter().next() {
                Some(outline) if parts == 1 => Ok(outline),
                Some(_) => Err(PathError::Parts { parts }),
                None => Err(PathError::Empty),
            }
        }
    }
}

/// The closed rings of SVG path data, one for each subpath, curves drawn with chords within `tolerance`.
///
/// The numbers are taken as they are; open subpaths are closed.
pub fn parse_rings(text: &str, tolerance: f64) -> Result<Vec<Vec<Point>>, PathError> {
    let mut pen = Pen::new(tolerance);
    // The control point that a following smooth curve mirrors: of a cubic, of a quadratic.
    let (mut cubic, mut quadratic) = (None::<Point>, None::<Point>);
    for segment in PathParser::from(text) {
        let segment = segment.map_err(|error| PathError::Syntax(error.to_string()))?;
        let here = pen.position();
        let point = |abs: bool, x: f64, y: f64| {
            if abs { Point::new(x, y) } else { Point::new(here.x + x, here.y + y) }
        };
        let mirrored = |control: Option<Point>| control.map_or(here, |c| here + (here - c));
        let (mut next_cubic, mut next_quadratic) = (None, None);
        match segment {
            PathSegment::MoveTo { abs, x, y } => pen.move_to(point(abs, x, y)),
            PathSegment::LineTo { abs, x, y } => pen.line_to(point(abs, x, y)),
            PathSegment::HorizontalLineTo { abs, x } => {
                pen.line_to(Point::new(if abs { x } else { here.x + x }, here.y));
            }
            PathSegment::VerticalLineTo { abs, y } => {
                pen.line_to(Point::new(here.x, if abs { y } else { here.y + y }));
            }
            PathSegment::CurveTo { abs, x1, y1, x2, y2, x, y } => {
                next_cubic = Some(point(abs, x2, y2));
                pen.cubic_to(point(abs, x1, y1), point(abs, x2, y2), point(abs, x, y));
            }
            PathSegment::SmoothCurveTo { abs, x2, y2, x, y } => {
                next_cubic = Some(point(abs, x2, y2));
                pen.cubic_to(mirrored(cubic), point(abs, x2, y2), point(abs, x, y));
            }
            PathSegment::Quadratic { abs, x1, y1, x, y } => {
                next_quadratic = Some(point(abs, x1, y1));
                pen.quadratic_to(point(abs, x1, y1), point(abs, x, y));
            }
            PathSegment::SmoothQuadratic { abs, x, y } => {
                let control = mirrored(quadratic);
                next_quadratic = Some(control);
                pen.quadratic_to(control, point(abs, x, y));
            }
            PathSegment::EllipticalArc { abs, rx, ry, x_axis_rotation, large_arc, sweep, x, y } => {
                pen.arc_to(rx, ry, x_axis_rotation, large_arc, sweep, point(abs, x, y));
            }
            PathSegment::ClosePath { .. } => pen.close(),
        }
        if !pen.position().is_finite() {
            return Err(PathError::NotFinite);
        }
        (cubic, quadratic) = (next_cubic, next_quadratic);
    }
    Ok(pen.finish())
}

/// Path data that draws the closed ring, lengths rounded to the micrometre: whole for an [`Outline`] of its own.
pub fn write(points: &[Point]) -> String {
    written(points, 1000.0)
}

/// Path data that draws the closed ring, lengths rounded to a hundredth of a micrometre: for lines that were moved and
/// turned, whose gaps rounding must not change.
pub fn write_placed(points: &[Point]) -> String {
    written(points, 100_000.0)
}

fn written(points: &[Point], parts: f64) -> String {
    use std::fmt::Write as _;
    // Dividing whole parts by a power of ten prints as the shortest decimal; minus zero is tidied away.
    let rounded = |mm: f64| (mm * parts).round() / parts + 0.0;
    let mut text = String::with_capacity(points.len() * 14 + 2);
    for (i, point) in points.iter().enumerate() {
        let command = if i == 0 { 'M' } else { 'L' };
        let (x, y) = (rounded(point.x), rounded(point.y));
        // Writing to a String cannot fail.
        let _ = write!(text, "{command}{x} {y}");
    }
    text.push('Z');
    text
}

fn clockwise(ring: &[Point]) -> Vec<Point> {
    let mut ring = ring.to_vec();
    if crate::outline::ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;

    #[test]
    fn every_command_draws_the_same_square() {
        for text in [
            "M0 0L10 0L10 10L0 10Z",
            "m0 0l10 0l0 10l-10 0z",
            "M0 0H10V10H0Z",
            "m0,0h10v10h-10",
            "M0 0 10 0 10 10 0 10",
            "M0 0C3 0 7 0 10 0C10 3 10 7 10 10L0 10Z",
            "M0 0Q5 0 10 0Q10 5 10 10Q5 10 0 10Z M1 1h2v2h-2z",
        ] {
            let outline = parse(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!((outline.area() - 100.0).abs() < 1e-6, "{text}: {}", outline.area());
        }
    }

    #[test]
    fn smooth_curves_mirror_the_control_point_before_them() {
        let spelt_out = "M0 0C0 4 4 6 8 6C12 6 14 4 14 0Z";
        assert_eq!(parse("M0 0C0 4 4 6 8 6S14 4 14 0Z"), parse(spelt_out));
        assert_eq!(parse("M0 0c0 4 4 6 8 6s6 -2 6 -6z"), parse(spelt_out));
        assert_eq!(parse("M0 0Q3 6 6 6T12 0Z"), parse("M0 0Q3 6 6 6Q9 6 12 0Z"));
    }

    #[test]
    fn two_half_arcs_are_a_disc() {
        let disc = parse("M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z").unwrap();
        // The area of a disc, less what chords within the tolerance may cut off, plus rounding to the grid.
        let (true_area, grid) = (PI * 16.0, 2.0 * PI * 4.0 * 0.001);
        assert!(disc.area() < true_area + grid);
        assert!(disc.area() > true_area - 2.0 * PI * 4.0 * FLATTENING_TOLERANCE - grid);
        assert!(disc.points().iter().all(|p| (p.to_vec2().hypot2().sqrt() - 4.0).abs() < 0.001));
    }

    #[test]
    fn a_large_arc_keeps_the_tolerance_too() {
        let disc = parse("M-400 0A400 400 0 1 1 400 0A400 400 0 1 1 -400 0Z").unwrap();
        for (a, b) in disc.edges() {
            let depth = 400.0 - a.midpoint(b).to_vec2().hypot2().sqrt();
            assert!(depth < FLATTENING_TOLERANCE + 0.001, "{depth}");
        }
    }

    #[test]
    fn an_arc_too_small_to_reach_is_scaled_up_as_svg_asks() {
        // SVG 2, B.2.5: radii too small are scaled until there is exactly one solution, here a half circle of radius 5.
        let half = parse("M0 0A1 1 0 0 1 10 0Z").unwrap();
        assert!((half.area() - PI * 12.5).abs() < 0.1, "{}", half.area());
    }

    #[test]
    fn a_turned_ellipse_arc_has_the_area_of_the_ellipse() {
        let ellipse = parse("M-4.330127 -2.5A5 2 30 1 1 4.330127 2.5A5 2 30 1 1 -4.330127 -2.5Z").unwrap();
        assert!((ellipse.area() - PI * 10.0).abs() < 0.15, "{}", ellipse.area());
    }

    #[test]
    fn holes_are_filled_and_separate_parts_named() {
        assert_eq!(parse("M0 0H10V10H0Z M2 2H8V8H2Z").unwrap().area(), 100.0);
        assert_eq!(parse("M0 0H10V10H0Z M20 0H30V10H20Z"), Err(PathError::Parts { parts: 2 }));
    }

    #[test]
    fn bad_text_says_what_is_wrong() {
        assert!(matches!(parse("M0 0L10 NaN"), Err(PathError::Syntax(_))));
        assert!(matches!(parse("Q0 0 5 5"), Err(PathError::Syntax(_))));
        assert_eq!(parse(""), Err(PathError::Empty));
        assert_eq!(parse("M0 0L5 0L10 0Z"), Err(PathError::Empty));
        assert!(parse("M0 0L1e308 1e308L1e999 5Z").is_err());
        assert!(matches!(
            parse("M0 0L10 10L10 0L0 8Z"),
            Err(PathError::Outline(OutlineError::Crosses { .. }))
        ));
    }

    #[test]
    fn what_is_written_reads_back_the_same() {
        let outline = parse("M0.125 -3.001C4 4 8 4 12 0L6 -9.9Z").unwrap();
        assert_eq!(parse(&write(outline.points())).unwrap(), outline);
        assert_eq!(write(&[(0.0, -0.0), (1.5, 2.0), (0.0004, 3.0)].map(Point::from)), "M0 0L1.5 2L0 3Z");
    }
}
