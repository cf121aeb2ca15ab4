//! The ways in which pieces may lie: turned in one of a few turns, flipped or not; and what two of them keep between
//! them.

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::ops::Range;

use kurbo::{Point, Rect, Vec2};
use stickleaf_nofit::{Nearest, NoFit};
use stickleaf_outline::Turn;

use crate::random::Chance;
use crate::rearrange::board::Spot;

/// An outline that pieces have, told from its centre, and how it may lie.
#[derive(Clone, Debug)]
pub struct Form {
    /// A ring with a positive area.
    pub ring: Vec<Point>,
    /// Allowed turns in degrees.
    pub turns: Vec<f64>,
    /// Whether it may be flipped.
    pub mirror: bool,
}

/// One way to lie.
#[derive(Clone, Debug)]
pub struct Lie {
    /// Which form lies so.
    pub form: usize,
    /// Its turn in degrees.
    pub degrees: f64,
    /// Whether it is flipped.
    pub mirrored: bool,
    /// The smallest upright rectangle round it, told from its centre.
    pub bounds: Rect,
    /// Which ring it is: the form's own or the flipped one.
    side: usize,
    sine: f64,
    cosine: f64,
}

/// All ways to lie, and the no-fit polygons of each two of them, made when first asked for.
pub struct Lies {
    /// All ways to lie, those of one form next to each other.
    pub list: Vec<Lie>,
    /// For each form, its lies.
    pub of_form: Vec<Range<usize>>,
    /// For each form, the rings of its two sides.
    sides: Vec<[Vec<Point>; 2]>,
    reach: f64,
    /// For each two lies, the number of their polygon.
    pairs: Vec<Pair>,
    polygons: Vec<OnceCell<NoFit>>,
    keys: Vec<Key>,
}

/// How a move between two lies becomes a question to a polygon: turned back by the first lie's turn, and about if the
/// roles are changed.
#[derive(Clone, Copy, Debug)]
struct Pair {
    polygon: u32,
    sine: f64,
    cosine: f64,
}

/// Two rings and the turn of the second against the first, in ten-thousandths of a degree.
type Key = (usize, usize, i64);

const PARTS_OF_TURN: i64 = 3_600_000;

impl Lies {
    /// The lies of these forms. Gaps of up to `reach` millimetres can be asked for.
    pub fn new(forms: &[Form], reach: f64) -> Lies {
        let mut lies = Lies {
            list: Vec::new(),
            of_form: Vec::new(),
            sides: Vec::new(),
            reach,
            pairs: Vec::new(),
            polygons: Vec::new(),
            keys: Vec::new(),
        };
        for (form, Form { ring, turns, mirror }) in forms.iter().enumerate() {
            let first = lies.list.len();
            lies.sides.push([ring.clone(), flipped(ring)]);
            let flips: &[bool] = if *mirror { &[false, true] } else { &[false] };
            for (&mirrored, &degrees) in
                flips.iter().flat_map(|flip| turns.iter().map(move |turn| (flip, turn)))
            {
                let (sine, cosine) = Turn::degrees(degrees).sine_cosine();
                let bounds =
                    bounds(lies.sides[form][usize::from(mirrored)].iter().map(|&p| turned(p, sine, cosine)));
                let side = 2 * form + usize::from(mirrored);
                lies.list.push(Lie { form, degrees, mirrored, bounds, side, sine, cosine });
            }
            lies.of_form.push(first..lies.list.len());
        }
        lies.name_pairs();
        lies
    }

    /// The smallest upright rectangle round a piece on the sheet.
    #[inline]
    pub fn bounds(&self, spot: Spot) -> Rect {
        self.list[spot.lie].bounds + spot.at.to_vec2()
    }

    fn name_pairs(&mut self) {
        let mut numbers: BTreeMap<Key, u32> = BTreeMap::new();
        for a in &self.list {
            for b in &self.list {
                let changed = a.side > b.side;
                let (first, second) = if changed { (b, a) } else { (a, b) };
                let parts = |lie: &Lie| (lie.degrees * 10_000.0).round() as i64;
                let key = (first.side, second.side, (parts(second) - parts(first)).rem_euclid(PARTS_OF_TURN));
                let next = self.polygons.len() as u32;
                let polygon = *numbers.entry(key).or_insert(next);
                if polygon == next {
                    self.polygons.push(OnceCell::new());
                    self.keys.push(key);
                }
                let sign = if changed { -1.0 } else { 1.0 };
                self.pairs.push(Pair { polygon, sine: first.sine * sign, cosine: first.cosine * sign });
            }
        }
    }

    #[inline]
    fn polygon(&self, index: u32) -> &NoFit {
        self.polygons[index as usize].get_or_init(|| self.made(self.keys[index as usize]))
    }

    fn made(&self, (a, b, parts): Key) -> NoFit {
        let (sine, cosine) = Turn::degrees(parts as f64 / 10_000.0).sine_cosine();
        let ring = |side: usize| &self.sides[side / 2][side % 2];
        let second: Vec<Point> = ring(b).iter().map(|&point| turned(point, sine, cosine)).collect();
        NoFit::new(ring(a), &second, self.reach)
    }

    #[inline]
    fn pair(&self, a: usize, b: usize) -> Pair {
        self.pairs[a * self.list.len() + b]
    }

    /// The gap between a piece that lies like `a` and one that lies like `b`, whose centre is away from the first one's
    /// by `by`; see [`NoFit::gap`].
    #[inline]
    pub fn gap(&self, a: usize, b: usize, by: Vec2) -> f64 {
        let pair = self.pair(a, b);
        self.polygon(pair.polygon).gap(pair.into_polygon(by))
    }

    /// The same if it may be more than `least`; see [`NoFit::gap_above`].
    #[inline]
    pub fn gap_above(&self, a: usize, b: usize, by: Vec2, least: f64) -> f64 {
        let pair = self.pair(a, b);
        self.polygon(pair.polygon).gap_above(pair.into_polygon(by), least)
    }

    /// The same with the direction in which the second one leaves fastest.
    pub fn nearest(&self, a: usize, b: usize, by: Vec2) -> Option<Nearest> {
        let pair = self.pair(a, b);
        let nearest = self.polygon(pair.polygon).nearest(pair.into_polygon(by))?;
        Some(Nearest { gap: nearest.gap, outward: pair.out_of_polygon(nearest.outward) })
    }

    /// A move by chance that brings a piece that lies like `b` from one that lies like `a` to a gap of `need` millimetres,
    /// or less where the line of their no-fit polygon bends inwards: half of the moves start at a corner of the polygon,
    /// the others anywhere on its line.
    pub fn contact(&self, (a, b): (usize, usize), need: f64, chance: &mut Chance) -> Vec2 {
        let pair = self.pair(a, b);
        let edges = self.polygon(pair.polygon).edges();
        let edge = &edges[chance.below(edges.len())];
        let share = if chance.below(2) == 0 { 0.0 } else { chance.unit() };
        pair.out_of_polygon((edge.start + edge.along * share).to_vec2() + edge.outward * need)
    }

    /// The half planes that keep the gap of two lies at `need` or more as long as the second one moves from `by` by no
    /// more than `within`; see [`NoFit::half_planes`]. Each is a direction and how far the move goes in it at least.
    pub fn half_planes(
        &self,
        (a, b): (usize, usize),
        by: Vec2,
        need: f64,
        within: f64,
        out: &mut Vec<(Vec2, f64)>,
    ) {
        let pair = self.pair(a, b);
        let first = out.len();
        self.polygon(pair.polygon).half_planes(pair.into_polygon(by), need, within, out);
        for (direction, _) in &mut out[first..] {
            *direction = pair.out_of_polygon(*direction);
        }
    }
}

impl Pair {
    #[inline]
    fn into_polygon(self, by: Vec2) -> Vec2 {
        Vec2::new(by.x * self.cosine + by.y * self.sine, by.y * self.cosine - by.x * self.sine)
    }

    #[inline]
    fn out_of_polygon(self, by: Vec2) -> Vec2 {
        Vec2::new(by.x * self.cosine - by.y * self.sine, by.y * self.cosine + by.x * self.sine)
    }
}

fn turned(point: Point, sine: f64, cosine: f64) -> Point {
    Point::new(point.x * cosine - point.y * sine, point.x * sine + point.y * cosine)
}

/// The ring flipped left to right, its direction kept.
fn flipped(ring: &[Point]) -> Vec<Point> {
    ring.iter().rev().map(|point| Point::new(-point.x, point.y)).collect()
}

fn bounds(points: impl Iterator<Item = Point>) -> Rect {
    let mut range = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    for point in points {
        range = [range[0].min(point.x), range[1].min(point.y), range[2].max(point.x), range[3].max(point.y)];
    }
    Rect::new(range[0], range[1], range[2], range[3])
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;

    #[test]
    fn a_contact_keeps_the_need_and_no_more() {
        let (l, star) = (shapes::l(20.0), shapes::star(5, 12.0, 6.0));
        let form = |outline: &stickleaf_outline::Outline| Form {
            ring: outline.points().to_vec(),
            turns: vec![0.0, 90.0],
            mirror: true,
        };
        let lies = Lies::new(&[form(&l), form(&star)], 5.0);
        let mut chance = Chance::new(3);
        for _ in 0..500 {
            let (a, b) = (chance.below(lies.list.len()), chance.below(lies.list.len()));
            let touching = lies.contact((a, b), 0.0, &mut chance);
            assert!(lies.gap(a, b, touching).abs() < 1e-7, "{a} {b} {touching:?}");
            // In a corner of the polygon that points inwards, going out of one edge ends up nearer to the other.
            let apart = lies.contact((a, b), 2.0, &mut chance);
            assert!(lies.gap(a, b, apart) < 2.0 + 1e-7, "{a} {b} {apart:?}");
        }
    }
}
