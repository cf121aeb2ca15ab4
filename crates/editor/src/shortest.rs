//! The shortest way out: the nearest place at which a piece keeps every hard rule.
//!
//! What is missing at a place (the most by which any rule is missed there) changes by no more than the piece is shifted.
//! So if more is missing in the middle of a square than half its diagonal, there is no free place in all of it. Squares are
//! split, the nearest first, until the nearest that is left is no nearer than the best place found.
//!
//! Source: branch and bound with a Lipschitz bound, R. Horst and H. Tuy, "Global Optimization", 3rd edition, chapter XI.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Disc, Outline, Placement, depth, depth_beyond, gap_within};
use stickleaf_sheet::Layout;

use crate::free_spot::is_free;
use crate::nudge::kept_place;

/// The place found may be so much further away than the nearest there is, in millimetres.
pub(crate) const LONGER: f64 = 0.02;

/// Places and cut lines are rounded to the micrometre, so that what is missing may be told wrong by this, in millimetres.
const ROUNDING: f64 = 0.002;

/// Squares smaller than this are left alone: half their diagonal, in millimetres.
const SMALLEST: f64 = 0.001;

/// After so many places looked at, the best found so far counts.
const MOST_LOOKS: usize = 4_000;

/// How far apart the points of an edge are of which it is asked how deep they lie in another piece, in millimetres.
const SAMPLES_APART: f64 = 2.0;

/// How closely a place found is drawn back towards the one wanted, in millimetres.
const DRAWN_BACK: f64 = 0.000_5;

/// The free place nearest to `wanted`, with its turn and not further away than `most` millimetres; nothing if none is
/// found.
///
/// For a piece among the lines of all pieces. `known` is a free place that is known already: a nearer one is looked for. The place
/// given back is at most [`LONGER`] further away than the nearest, unless 4000 looks did not settle it; that happens where
/// pieces lie across each other and no distance is asked.
///
/// Cost: some hundred looks at the near neighbours, where the piece lies among others.
pub(crate) fn shortest_way_out(
    layout: &Layout,
    lines: &[Outline],
    piece: usize,
    wanted: &Placement,
    most: f64,
    known: Option<Placement>,
) -> Option<Placement> {
    let search = Search::new(layout, lines, piece, wanted, most)?;
    let away = |placement: &Placement| (placement.at - wanted.at).hypot2().sqrt();
    let mut best = known.filter(|known| away(known) <= most);
    let mut looks = 0;
    let mut open = BinaryHeap::from([Square { middle: wanted.at, half: most, nearest: 0.0 }]);
    while let Some(square) = open.pop() {
        let reach = best.as_ref().map_or(most, |best| away(best) - LONGER);
        if square.nearest > reach || looks == MOST_LOOKS {
            break;
        }
        looks += 1;
        let spread = square.half * core::f64::consts::SQRT_2;
        let placement = search.at(square.middle);
        let line = search.cut_line.placed(&placement);
        let missing = search.missing(placement.at, &line, spread + ROUNDING);
        if missing <= ROUNDING && search.is_free(&line) {
            let found = search.drawn_back(placement);
            if away(&found) <= best.as_ref().map_or(most, away) {
                best = Some(found);
            }
        }
        if missing > spread + ROUNDING || spread < SMALLEST {
            continue;
        }
        let half = square.half / 2.0;
        for (x, y) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            open.push(Square::new(square.middle + Vec2::new(x, y), half, wanted.at));
        }
    }
    best
}

/// A square of places; the nearer one is the greater.
struct Square {
    middle: Point,
    half: f64,
    /// No place of it is nearer than this.
    nearest: f64,
}

impl Square {
    fn new(middle: Point, half: f64, wanted: Point) -> Square {
        let beyond = |there: f64, here: f64| ((there - here).abs() - half).max(0.0);
        let away = Vec2::new(beyond(middle.x, wanted.x), beyond(middle.y, wanted.y));
        Square { middle, half, nearest: away.hypot2().sqrt() }
    }
}

impl Ord for Square {
    fn cmp(&self, other: &Square) -> Ordering {
        // Of two equally near ones the larger comes first, so that a free place is found early.
        other.nearest.total_cmp(&self.nearest).then(self.half.total_cmp(&other.half))
    }
}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Square) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Square {
    fn eq(&self, other: &Square) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Square {}

/// A piece among the others that it may meet.
struct Search<'a> {
    layout: &'a Layout,
    wanted: Placement,
    cut_line: Arc<Outline>,
    /// The lines of pieces and zones within reach, how far to keep from each, and a disc inside of it.
    near: Vec<(&'a Outline, f64, Disc)>,
    /// The lines of pieces within reach.
    pieces: Vec<Outline>,
    /// A disc inside the piece, counted from its place.
    disc: Disc,
}

impl<'a> Search<'a> {
    fn new(
        layout: &'a Layout,
        lines: &'a [Outline],
        piece: usize,
        wanted: &Placement,
        most: f64,
    ) -> Option<Search<'a>> {
        let sticker = layout.sticker(&layout.pieces[piece].sticker)?;
        let cut_line = sticker.cut_line(&layout.rules);
        let spacing = layout.rules.spacing;
        let reach = most + spacing + 1.0;
        let room = cut_line.placed(wanted).bounds().inflate(reach, reach);
        let within = |&other: &usize| other != piece && !room.intersect(lines[other].bounds()).is_zero_area();
        let met: Vec<usize> = (0..lines.len()).filter(within).collect();
        let zones = layout.zones().iter();
        let near = met
            .iter()
            .filter_map(|&other| Some((&lines[other], spacing, disc_in(layout, other)?)))
            .chain(zones.map(|zone| (&*zone.outline, zone.clearance, middle_disc(&zone.outline))))
            .collect();
        let pieces = met.iter().map(|&other| lines[other].clone()).collect();
        let turned = Placement { at: Point::ZERO, ..*wanted };
        let disc = sticker.inner_disc(&layout.rules);
        let disc = Disc { centre: turned.apply(disc.centre), ..disc };
        Some(Search { layout, wanted: *wanted, cut_line, near, pieces, disc })
    }

    fn at(&self, place: Point) -> Placement {
        Placement { at: kept_place(place, &self.layout.sheet), ..self.wanted }
    }

    fn is_free(&self, line: &Outline) -> bool {
        is_free(self.layout, &self.pieces, line)
    }

    /// How much is missing of what is missed most, in millimetres; where more than `enough` is missing, at least that.
    fn missing(&self, place: Point, line: &Outline, enough: f64) -> f64 {
        let sheet = &self.layout.sheet;
        let least = |least: f64, point: &Point| least.min(sheet.distance_to_edge(*point));
        let mut missing = self.layout.rules.margin - line.points().iter().fold(f64::INFINITY, least);
        let disc = self.disc.centre + place.to_vec2();
        for (_, limit, other) in &self.near {
            let apart = (other.centre - disc).hypot2().sqrt();
            missing = missing.max(other.radius + self.disc.radius + limit - apart);
        }
        for (other, limit, _) in &self.near {
            if missing > enough {
                break;
            }
            let Some(gap) = gap_within(line, other, *limit).or_else(|| touching(line, other, *limit)) else {
                continue;
            };
            missing = missing.max(limit - gap.distance);
            if gap.distance == 0.0 && missing <= enough {
                missing = missing.max(limit + sunk(line, other).max(sunk(other, line)));
            }
        }
        missing
    }

    /// The free place next to the first that is not, on the straight way to the place that is wanted.
    fn drawn_back(&self, free: Placement) -> Placement {
        let way = self.wanted.at - free.at;
        let length = way.hypot2().sqrt();
        let (mut good, mut kept, mut bad) = (0.0, free, 1.0);
        while (bad - good) * length > DRAWN_BACK {
            let part = (good + bad) / 2.0;
            let placement = self.at(free.at + way * part);
            if self.is_free(&self.cut_line.placed(&placement)) {
                (good, kept) = (part, placement);
            } else {
                bad = part;
            }
        }
        kept
    }
}

/// A gap of nothing where no distance is asked and two outlines meet.
fn touching(a: &Outline, b: &Outline, limit: f64) -> Option<stickleaf_outline::Gap> {
    (limit < SMALLEST).then(|| gap_within(a, b, SMALLEST)).flatten().filter(|gap| gap.distance == 0.0)
}

/// The largest disc inside a piece where it lies.
fn disc_in(layout: &Layout, piece: usize) -> Option<Disc> {
    let lying = &layout.pieces[piece];
    let disc = layout.sticker(&lying.sticker)?.inner_disc(&layout.rules);
    Some(Disc { centre: lying.placement.apply(disc.centre), ..disc })
}

/// A disc inside an outline about its centre of area; a point if that lies outside.
fn middle_disc(line: &Outline) -> Disc {
    let centre = line.centroid();
    Disc { centre, radius: depth(line, centre).max(0.0) }
}

/// How deep one outline's edge reaches into another at some of its points, in millimetres; zero if none lies inside.
///
/// To come free, the one has to be shifted at least that far.
fn sunk(line: &Outline, other: &Outline) -> f64 {
    let bounds = other.bounds();
    let along = |(start, end): (Point, Point)| {
        let parts = ((end - start).hypot2().sqrt() / SAMPLES_APART).ceil().clamp(1.0, 100.0) as u32;
        // The corner, and the middle of each part between it and the next.
        let middles = (0..parts).map(move |part| (f64::from(part) + 0.5) / f64::from(parts));
        core::iter::once(start).chain(middles.map(move |part| start.lerp(end, part)))
    };
    let inside = line.edges().flat_map(along).filter(|&point| bounds.contains(point));
    inside.fold(0.0, |deepest, point| depth_beyond(other, point, deepest).unwrap_or(deepest))
}
