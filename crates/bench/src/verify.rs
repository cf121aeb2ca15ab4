//! A second look at finished layouts that shares nothing with the packer and the rule check: pieces are put where the
//! layout says by this file's own arithmetic, and measured with the `geo` crate and a formula of their own.

use std::sync::Arc;

use geo::algorithm::line_measures::{Distance, Euclidean};
use geo::{Area, BooleanOps, BoundingRect, Coord, Intersects, Polygon, Rect};
use kurbo::Point;
use stickleaf_outline::Outline;
use stickleaf_sheet::{Layout, Sticker, Turns, Wanted};
use thiserror::Error;

use crate::picture::polygon;

/// How large a share of the smaller of two pieces may lie in both: nothing but the rounding of the arithmetic.
pub const SHARED: f64 = 1e-9;

/// The same for the second opinion of the polygon library, which rounds to a grid of its own.
const SHARED_ON_GRID: f64 = 1e-6;

/// How far a piece may reach past an edge, in millimetres: again nothing but rounding.
const BEYOND: f64 = 1e-9;

/// How far a distance may fall short of what is asked, in millimetres: what the rules of Stickleaf allow, since lines
/// are rounded to whole micrometres.
const SLACK: f64 = 0.002;

/// What is wrong with a layout.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Fault {
    /// Not the pieces that were asked for.
    #[error("{placed} copies of {sticker} lie there, {wanted} are wanted")]
    Count {
        /// Which sticker.
        sticker: String,
        /// How many lie there.
        placed: usize,
        /// How many should.
        wanted: usize,
    },
    /// A turn that is not allowed, or a flip.
    #[error("piece {piece} ({sticker}) lies in a way that it may not")]
    Turn {
        /// Which piece, counted from 0.
        piece: usize,
        /// Its sticker.
        sticker: String,
    },
    /// A piece reaches past an edge.
    #[error("piece {piece} reaches {by} mm past an edge")]
    Outside {
        /// Which piece, counted from 0.
        piece: usize,
        /// How far.
        by: f64,
    },
    /// Two pieces overlap.
    #[error("pieces {a} and {b} overlap by {area:e} mm²")]
    Overlap {
        /// The one.
        a: usize,
        /// The other.
        b: usize,
        /// The area that lies in both.
        area: f64,
    },
    /// A piece is too near to another one or to a zone.
    #[error("piece {piece} is {gap} mm from {other}, {asked} mm is asked")]
    Near {
        /// The piece.
        piece: usize,
        /// What it is too near to.
        other: String,
        /// How near.
        gap: f64,
        /// How near it may be.
        asked: f64,
    },
}

/// The part of the strip that is used, from the top to the lowest corner, in millimetres, if nothing is wrong.
///
/// All wanted pieces lie there and no more, turned as they may be, none flipped; all within the width and below the
/// top; no two share more than [`SHARED`].
pub fn strip_length(layout: &Layout) -> Result<f64, Fault> {
    let pieces = placed(layout, |sticker| sticker.outline.clone())?;
    all_there(layout)?;
    let mut length = 0.0_f64;
    for (piece, polygon) in pieces.iter().enumerate() {
        let bounds = bounds(polygon);
        let by = (-bounds.min().x).max(-bounds.min().y).max(bounds.max().x - layout.sheet.width);
        if by > BEYOND {
            return Err(Fault::Outside { piece, by });
        }
        length = length.max(bounds.max().y);
    }
    no_overlap(&pieces)?;
    Ok(length)
}

/// Nothing if the pieces keep spacing, margin and clearances, measured from their cut lines, and lie as they may.
///
/// Whether all wanted pieces are there is not asked. Round corners of the sheet must be no larger than its margin.
pub fn spaced(layout: &Layout) -> Result<(), Fault> {
    let rules = &layout.rules;
    let lines = placed(layout, |sticker| sticker.cut_line(rules))?;
    no_overlap(&lines)?;
    let (margin, sheet) = (rules.margin, layout.sheet);
    for (piece, line) in lines.iter().enumerate() {
        let (min, max) = (bounds(line).min(), bounds(line).max());
        let inside = min.x.min(min.y).min(sheet.width - max.x).min(sheet.height - max.y);
        if inside < margin - SLACK {
            return Err(Fault::Outside { piece, by: margin - inside });
        }
        let others = lines.iter().enumerate().skip(piece + 1);
        let others = others.map(|(index, other)| (format!("piece {index}"), other.clone(), rules.spacing));
        let zones = layout.zones().iter();
        let zones = zones.map(|zone| (zone.name.clone(), polygon(&zone.outline), zone.clearance));
        for (other, polygon, asked) in others.chain(zones) {
            let gap = Euclidean.distance(line, &polygon);
            if gap < asked - SLACK {
                return Err(Fault::Near { piece, other, gap, asked });
            }
        }
    }
    Ok(())
}

/// The pieces' outlines or cut lines where they lie, after seeing that each lies as it may.
pub fn placed(layout: &Layout, line: impl Fn(&Sticker) -> Arc<Outline>) -> Result<Vec<Polygon>, Fault> {
    let piece = |(index, piece): (usize, &stickleaf_sheet::Piece)| {
        let fault = || Fault::Turn { piece: index, sticker: piece.sticker.to_string() };
        let sticker = layout.sticker(&piece.sticker).ok_or_else(fault)?;
        let degrees = piece.placement.turn.to_degrees();
        if piece.placement.mirrored && !sticker.mirror || !is_allowed(&sticker.turns, degrees) {
            return Err(fault());
        }
        Ok(moved(&line(sticker), degrees, piece.placement.mirrored, piece.placement.at))
    };
    layout.pieces.iter().enumerate().map(piece).collect()
}

fn is_allowed(turns: &Turns, degrees: f64) -> bool {
    let off = |from: f64| {
        let apart = (degrees - from).rem_euclid(360.0);
        apart.min(360.0 - apart)
    };
    match turns {
        Turns::None => off(0.0) < 1e-9,
        Turns::Any => true,
        Turns::Within(most) => off(0.0) <= most + 1e-9,
        Turns::Only(list) => list.iter().any(|&one| off(one) < 1e-9),
    }
}

/// The line turned clockwise as seen, y down, and put where it lies. Quarter turns swap coordinates and round nothing.
pub fn moved(line: &Outline, degrees: f64, mirrored: bool, at: Point) -> Polygon {
    let quarter = degrees / 90.0;
    let (sine, cosine) = if quarter == quarter.floor() {
        [(0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0)][quarter.rem_euclid(4.0) as usize]
    } else {
        (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()))
    };
    let corner = |point: &Point| {
        let x = if mirrored { -point.x } else { point.x };
        Coord { x: at.x + x * cosine - point.y * sine, y: at.y + x * sine + point.y * cosine }
    };
    Polygon::new(line.points().iter().map(corner).collect(), Vec::new())
}

fn all_there(layout: &Layout) -> Result<(), Fault> {
    for sticker in &layout.stickers {
        let placed = layout.pieces.iter().filter(|piece| piece.sticker == sticker.id).count();
        let (Wanted::Exactly(wanted) | Wanted::AtLeast(wanted)) = sticker.wanted;
        let wanted = wanted as usize;
        if placed < wanted || (placed > wanted && matches!(sticker.wanted, Wanted::Exactly(_))) {
            return Err(Fault::Count { sticker: sticker.id.to_string(), placed, wanted });
        }
    }
    Ok(())
}

fn no_overlap(pieces: &[Polygon]) -> Result<(), Fault> {
    for (a, one) in pieces.iter().enumerate() {
        for (b, other) in pieces.iter().enumerate().skip(a + 1) {
            if !bounds(one).intersects(&bounds(other)) {
                continue;
            }
            let smaller = one.unsigned_area().min(other.unsigned_area());
            let area = shared_area(one, other);
            let on_grid = one.intersection(other).unsigned_area();
            if area > SHARED * smaller || on_grid > SHARED_ON_GRID * smaller {
                return Err(Fault::Overlap { a, b, area: area.max(on_grid) });
            }
        }
    }
    Ok(())
}

fn bounds(polygon: &Polygon) -> Rect {
    polygon.bounding_rect().expect("a piece has corners")
}

/// The area that lies inside both of two polygons without holes, to the last few bits of the arithmetic.
///
/// Seen from any one point, a polygon is the sum of the triangles that the point spans with its edges, counted
/// negative where an edge runs the other way round. What two polygons share is then the sum of what their triangles
/// share, pair by pair, and two triangles are easily cut to each other.
///
/// Cost: corners of one times corners of the other.
pub fn shared_area(one: &Polygon, other: &Polygon) -> f64 {
    // Seen from near where they meet, numbers are small and sums exact.
    let (a, b) = (bounds(one), bounds(other));
    let eye = Coord {
        x: (a.min().x.max(b.min().x) + a.max().x.min(b.max().x)) / 2.0,
        y: (a.min().y.max(b.min().y) + a.max().y.min(b.max().y)) / 2.0,
    };
    let (one, other) = (fan(one, eye), fan(other, eye));
    let mut area = 0.0;
    for (first, sign) in &one {
        for (second, other_sign) in &other {
            area += sign * other_sign * shared_by_triangles(first, second);
        }
    }
    area.abs()
}

type Triangle = [Coord; 3];

/// The triangles of the edges as seen from `eye`, which becomes (0, 0), all running the same way round, with their sign.
fn fan(polygon: &Polygon, eye: Coord) -> Vec<(Triangle, f64)> {
    let origin = Coord { x: 0.0, y: 0.0 };
    let triangle = |edge: geo::Line| {
        let (start, end) = (edge.start - eye, edge.end - eye);
        let twice = cross(start, end);
        if twice >= 0.0 { ([origin, start, end], 1.0) } else { ([origin, end, start], -1.0) }
    };
    polygon.exterior().lines().map(triangle).filter(|([_, a, b], _)| cross(*a, *b) > 0.0).collect()
}

fn cross(a: Coord, b: Coord) -> f64 {
    a.x * b.y - a.y * b.x
}

/// The area that two triangles share, both running the way round that has a positive area.
fn shared_by_triangles(one: &Triangle, other: &Triangle) -> f64 {
    let mut ring: Vec<Coord> = one.to_vec();
    for i in 0..3 {
        let (from, to) = (other[i], other[(i + 1) % 3]);
        let side = |point: Coord| cross(to - from, point - from);
        let mut kept = Vec::with_capacity(ring.len() + 1);
        for j in 0..ring.len() {
            let (here, next) = (ring[j], ring[(j + 1) % ring.len()]);
            let (at_here, at_next) = (side(here), side(next));
            if at_here >= 0.0 {
                kept.push(here);
            }
            if (at_here > 0.0 && at_next < 0.0) || (at_here < 0.0 && at_next > 0.0) {
                kept.push(here + (next - here) * (at_here / (at_here - at_next)));
            }
        }
        ring = kept;
    }
    let next = |i: usize| ring[(i + 1) % ring.len()];
    (0..ring.len()).map(|i| cross(ring[i], next(i))).sum::<f64>() / 2.0
}

#[cfg(test)]
mod tests {
    use rand_core::{Rng, SeedableRng};
    use rand_pcg::Pcg32;
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Background, Piece, Rules, Sheet, Zone};

    use super::*;

    /// Two wedges that are a square of 30 by 30 when one is turned by 180 degrees and put against the other.
    fn wedges(second: Placement) -> Layout {
        let mut wedge = Sticker::new("wedge", "Wedge", path::parse("M0 0L30 30H0Z").unwrap());
        wedge.wanted = Wanted::Exactly(2);
        wedge.turns = Turns::Only(vec![0.0, 180.0]);
        Layout {
            sheet: Sheet { width: 40.0, height: 100.0, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { spacing: 0.0, margin: 0.0, border: 0.0, ..Rules::default() },
            stickers: vec![wedge],
            pieces: vec![
                Piece::new("wedge".into(), Placement::at(1.0, 1.0)),
                Piece::new("wedge".into(), second),
            ],
            ..Layout::default()
        }
    }

    #[test]
    fn touching_pieces_are_sound_and_the_length_is_that_of_the_lowest_corner() {
        assert_eq!(strip_length(&wedges(Placement::turned(31.0, 31.0, 180.0))), Ok(31.0));
        assert_eq!(strip_length(&wedges(Placement::at(10.0, 31.0))), Ok(61.0));
    }

    #[test]
    fn an_overlap_of_a_micrometre_is_caught() {
        for (x, y) in [(30.999, 31.0), (31.0, 31.001)] {
            let fault = strip_length(&wedges(Placement::turned(x, y, 180.0))).unwrap_err();
            let Fault::Overlap { area, .. } = fault else { panic!("{fault}") };
            // A band as long as the slope and 0.7 micrometres wide.
            assert!((area - 0.03).abs() < 1e-4, "{area}");
        }
        let same = strip_length(&wedges(Placement::at(1.0, 1.0))).unwrap_err();
        assert!(matches!(same, Fault::Overlap { area, .. } if (area - 450.0).abs() < 1e-9), "{same}");
    }

    #[test]
    fn every_other_fault_is_caught() {
        let fault = |layout: &Layout| strip_length(layout).unwrap_err();
        let sound = wedges(Placement::turned(31.0, 31.0, 180.0));
        assert!(matches!(fault(&wedges(Placement::at(10.001, 12.0))), Fault::Outside { piece: 1, .. }));
        assert!(matches!(fault(&wedges(Placement::at(5.0, -0.001))), Fault::Outside { piece: 1, .. }));
        assert!(matches!(fault(&wedges(Placement::turned(30.0, 60.0, 90.0))), Fault::Turn { piece: 1, .. }));
        let mut flipped = sound.clone();
        flipped.pieces[0].placement.mirrored = true;
        assert!(matches!(fault(&flipped), Fault::Turn { piece: 0, .. }));
        let mut lacking = sound.clone();
        lacking.pieces.pop();
        assert!(matches!(fault(&lacking), Fault::Count { placed: 1, wanted: 2, .. }));
        let mut crowded = sound;
        crowded.pieces.push(Piece::new("wedge".into(), Placement::at(0.0, 50.0)));
        assert!(matches!(fault(&crowded), Fault::Count { placed: 3, wanted: 2, .. }));
    }

    #[test]
    fn pieces_that_are_too_near_to_anything_are_caught() {
        let square = path::parse("M0 0H10V10H0Z").unwrap();
        let layout = |x: f64, y: f64| Layout {
            sheet: Sheet { width: 100.0, height: 100.0, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { spacing: 2.0, margin: 4.0, border: 0.0, ..Rules::default() },
            backgrounds: vec![Background {
                name: "post".into(),
                zones: vec![Zone::new("post", path::parse("M50 0H60V100H50Z").unwrap(), 1.0)],
                ..Background::default()
            }],
            background: Some("post".into()),
            stickers: vec![Sticker::new("square", "Square", square.clone())],
            pieces: [(4.0, 4.0), (x, y)]
                .map(|(x, y)| Piece::new("square".into(), Placement::at(x, y)))
                .to_vec(),
            ..Layout::default()
        };
        assert_eq!(spaced(&layout(16.0, 4.0)), Ok(()));
        assert_eq!(spaced(&layout(39.0, 86.0)), Ok(()));
        let fault = |x: f64, y: f64| spaced(&layout(x, y)).unwrap_err();
        assert!(matches!(fault(15.99, 4.0), Fault::Near { piece: 0, asked: 2.0, .. }));
        assert!(matches!(fault(39.01, 4.0), Fault::Near { piece: 1, asked: 1.0, .. }));
        assert!(matches!(fault(16.0, 86.01), Fault::Outside { piece: 1, .. }));
        assert!(matches!(fault(10.0, 4.0), Fault::Overlap { .. }));
    }

    #[test]
    fn shared_area_agrees_with_the_polygon_library() {
        let mut chance = Pcg32::seed_from_u64(7);
        let mut unit = || f64::from(chance.next_u32()) / f64::from(u32::MAX);
        let mut met = 0;
        for _ in 0..200 {
            // Stars: corners round a middle at any distance, so that many are not convex.
            let mut star = || {
                let corners = 5 + (unit() * 20.0) as usize;
                let at = Point::new(50.0 * unit(), 50.0 * unit());
                let corner = |i: usize| {
                    let (sine, cosine) = libm::sincos(core::f64::consts::TAU * i as f64 / corners as f64);
                    let far = 4.0 + 26.0 * unit();
                    Coord { x: at.x + far * cosine, y: at.y + far * sine }
                };
                Polygon::new((0..corners).map(corner).collect(), Vec::new())
            };
            let (one, other) = (star(), star());
            let library = one.intersection(&other).unsigned_area();
            let own = shared_area(&one, &other);
            assert!((own - library).abs() < 1e-5, "{own} {library}");
            met += usize::from(library > 1.0);
        }
        assert!(met > 100, "{met}");
    }
}
