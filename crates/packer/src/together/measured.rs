//! Contacts at the true cut lines, with how what is missing changes with the level.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::Layout;

use crate::answer::Place;
use crate::polish::{is_inside, nearest_on_ring};
use crate::together::{At, Growth};

/// The pieces and zones of a layout as they lie: free pieces first, then locked pieces, then zones.
pub struct Scene {
    /// All of them.
    pub items: Vec<Item>,
}

/// A piece or zone as it lies.
pub struct Item {
    /// Half of the diagonal of the box round its line, in millimetres.
    pub size: f64,
    /// Whether nothing comes of turning it.
    pub is_round: bool,
    ring: Vec<Point>,
    bounds: Rect,
    middle: Point,
    /// Whether one contact with another such says all.
    is_plain: bool,
    held: bool,
    what: What,
}

#[derive(Clone, Copy)]
enum What {
    Sticker { index: usize, border: f64 },
    Zone { index: usize },
}

/// One piece must move along the normal, or another against it, by `depth` in all.
#[derive(Clone, Copy, Debug)]
pub struct Touch {
    /// The piece pushed along the normal.
    pub a: usize,
    /// The item pushed against it; nothing for the sheet's edge.
    pub b: Option<usize>,
    /// A direction on the sheet, of length one.
    pub normal: Vec2,
    /// How far the touching point of `a` moves along the normal for each radian that `a` turns about its middle.
    pub lever_a: f64,
    /// The same of `b`.
    pub lever_b: f64,
    /// Millimetres missing; negative where there is room left.
    pub depth: f64,
    /// How many more are missing for a level higher by one.
    pub rate: f64,
}

/// Corners of a disc that may be nearest to another.
const MOST_OF_ROUND: usize = 5;
/// Contacts of one pair that are told, the deepest first.
const MOST_OF_PAIR: usize = 12;

impl Scene {
    /// The scene of a layout with its free pieces at these places.
    pub fn new(layout: &Layout, places: &[Place]) -> Scene {
        let piece = |index: usize, placement: &Placement, held: bool| {
            let sticker = &layout.stickers[index];
            let border = sticker.border_width(&layout.rules);
            let turns_freely = !held && super::turn_range(&sticker.turns, 0.0).is_some();
            let line = sticker.cut_line(&layout.rules);
            Item::new(&line, placement, held, turns_freely, What::Sticker { index, border })
        };
        let free = places.iter().map(|place| piece(place.sticker, &place.placement, false));
        let locked = layout.pieces.iter().filter(|piece| piece.locked).filter_map(|locked| {
            Some(piece(layout.sticker_index(&locked.sticker)?, &locked.placement, true))
        });
        let zones = layout.zones().iter().enumerate().map(|(index, zone)| {
            Item::new(&zone.outline, &Placement::at(0.0, 0.0), true, false, What::Zone { index })
        });
        Scene { items: free.chain(locked).chain(zones).collect() }
    }

    /// All contacts that miss something or have less than `band` millimetres of room left.
    ///
    /// Returns how many edges were looked at.
    pub fn touches(&self, at: &At, band: f64, touches: &mut Vec<Touch>) -> u64 {
        touches.clear();
        let mut work = 0;
        let mut of_pair: Vec<Touch> = Vec::new();
        for (i, a) in self.items.iter().enumerate() {
            if !a.held {
                edge_touches(at, (i, a), band, touches);
            }
            for (j, b) in self.items.iter().enumerate().skip(i + 1) {
                let (need, need_rate) = need(at, a, b);
                let limit = need + band;
                let around = b.bounds.inflate(limit, limit);
                if (a.held && b.held) || !meet(around, a.bounds) {
                    continue;
                }
                of_pair.clear();
                let rates = (need_rate, &at.growth);
                work += corner_touches((i, a), (j, b), (need, limit), rates, &mut of_pair);
                work += corner_touches((j, b), (i, a), (need, limit), rates, &mut of_pair);
                of_pair.sort_by(|one, other| other.depth.total_cmp(&one.depth));
                let most = if a.is_plain && b.is_plain { 1 } else { MOST_OF_PAIR };
                let first = touches.len();
                for touch in &of_pair {
                    if touches.len() - first == most {
                        break;
                    }
                    let is_like = |other: &Touch| says_the_same(other, touch, a.size.min(b.size));
                    if !touches[first..].iter().any(is_like) {
                        touches.push(*touch);
                    }
                }
            }
        }
        work
    }
}

impl Item {
    fn new(line: &Outline, placement: &Placement, held: bool, turns_freely: bool, what: What) -> Item {
        let motion = placement.motion();
        let ring: Vec<Point> = line.points().iter().map(|&point| motion.apply(point)).collect();
        let bounds =
            ring.iter().fold(Rect::from_points(ring[0], ring[0]), |box_, &point| box_.union_pt(point));
        let middle = motion.apply(line.bounds().center());
        let far = ring.iter().map(|point| (*point - middle).hypot2()).fold(0.0, f64::max).sqrt();
        let near = ring.iter().map(|point| (*point - middle).hypot2()).fold(f64::INFINITY, f64::min).sqrt();
        let is_round = ring.len() > 24 && far - near < 0.01;
        Item {
            size: line.bounds().size().to_vec2().hypot2().sqrt() / 2.0,
            is_plain: is_convex(line.points()) && (!turns_freely || is_round),
            is_round,
            ring,
            bounds,
            middle,
            held,
            what,
        }
    }

    /// How fast a point of the line moves along a direction as the level rises; `outward` is the line's normal there
    /// told in that direction, one or minus one.
    fn speed(&self, growth: &Growth, point: Point, normal: Vec2, outward: f64) -> f64 {
        match self.what {
            What::Sticker { index, border } => {
                growth.sizes[index] * ((point - self.middle).dot(normal) - outward * border)
            }
            What::Zone { .. } => 0.0,
        }
    }
}

/// Whether two boxes meet.
fn meet(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// Whether a ring that runs clockwise as seen turns one way only, within what rounding its corners does.
fn is_convex(ring: &[Point]) -> bool {
    (0..ring.len()).all(|i| {
        let (a, b) =
            (ring[(i + 1) % ring.len()] - ring[i], ring[(i + 2) % ring.len()] - ring[(i + 1) % ring.len()]);
        a.cross(b) > -1e-3 * (a.hypot2().sqrt() + b.hypot2().sqrt())
    })
}

/// The distance that two items keep, and how it grows.
fn need(at: &At, a: &Item, b: &Item) -> (f64, f64) {
    match (a.what, b.what) {
        (What::Zone { index }, _) | (_, What::Zone { index }) => {
            (at.layout.zones()[index].clearance, at.growth.clearances[index])
        }
        _ => (at.layout.rules.spacing, at.growth.spacing),
    }
}

fn says_the_same(a: &Touch, b: &Touch, size: f64) -> bool {
    // The two of a pair may be told the other way round.
    let (cosine, lever) = if a.a == b.a {
        (a.normal.dot(b.normal), (a.lever_a - b.lever_a).abs().max((a.lever_b - b.lever_b).abs()))
    } else {
        (-a.normal.dot(b.normal), (a.lever_a + b.lever_b).abs().max((a.lever_b + b.lever_a).abs()))
    };
    cosine > 1.0 - 1e-9 && lever < 0.02 * size
}

/// Contacts of the corners of `a` with the line of `b`.
fn corner_touches(
    (i, a): (usize, &Item),
    (j, b): (usize, &Item),
    (need, limit): (f64, f64),
    (need_rate, growth): (f64, &Growth),
    touches: &mut Vec<Touch>,
) -> u64 {
    let around = b.bounds.inflate(limit, limit);
    let mut corners: Vec<Point> = a.ring.iter().copied().filter(|&point| around.contains(point)).collect();
    if a.is_round && b.is_round && corners.len() > MOST_OF_ROUND {
        // The others are further away by more than a line that is taken for round can stray.
        let from_middle = |point: &Point| (*point - b.middle).hypot2();
        corners.select_nth_unstable_by(MOST_OF_ROUND, |p, q| from_middle(p).total_cmp(&from_middle(q)));
        corners.truncate(MOST_OF_ROUND);
    }
    let mut work = a.ring.len() as u64 / 4;
    for point in corners {
        work += b.ring.len() as u64;
        let inside = b.bounds.contains(point) && is_inside(point, &b.ring);
        let deepest = if inside { f64::INFINITY } else { limit.max(1e-9) };
        let Some((squared, nearest)) = nearest_on_ring(point, &b.ring, deepest) else { continue };
        let distance = if inside { -squared.sqrt() } else { squared.sqrt() };
        let mut normal = (point - nearest) * if inside { -1.0 } else { 1.0 };
        if distance.abs() < 1e-7 {
            normal = normal_at(&b.ring, nearest);
        }
        let length = normal.hypot2().sqrt();
        if length == 0.0 {
            continue;
        }
        let normal = normal / length;
        let rate = need_rate - a.speed(growth, point, normal, -1.0) + b.speed(growth, nearest, normal, 1.0);
        touches.push(Touch {
            a: i,
            b: Some(j),
            normal,
            lever_a: (point - a.middle).cross(normal),
            lever_b: (nearest - b.middle).cross(normal),
            depth: need - distance,
            rate,
        });
    }
    work
}

/// The outward normal of the edge of a ring, clockwise as seen, that a point lies on.
fn normal_at(ring: &[Point], on: Point) -> Vec2 {
    let mut best = (f64::INFINITY, Vec2::ZERO);
    let mut twice_area = 0.0;
    let mut start = ring[ring.len() - 1];
    for &end in ring {
        let along = end - start;
        twice_area += start.to_vec2().cross(end.to_vec2());
        let length2 = along.hypot2();
        if length2 > 0.0 {
            let share = ((on - start).dot(along) / length2).clamp(0.0, 1.0);
            let squared = (on - (start + along * share)).hypot2();
            if squared < best.0 {
                best = (squared, along / length2.sqrt());
            }
        }
        start = end;
    }
    // A flipped ring runs the other way round.
    let along = if twice_area < 0.0 { -best.1 } else { best.1 };
    Vec2::new(along.y, -along.x)
}

/// Contacts with the four sides and the round corners of the sheet.
fn edge_touches(at: &At, (index, item): (usize, &Item), band: f64, touches: &mut Vec<Touch>) {
    let (sheet, margin) = (at.layout.sheet, at.layout.rules.margin);
    let mut push = |normal: Vec2, point: Point, depth: f64| {
        touches.push(Touch {
            a: index,
            b: None,
            normal,
            lever_a: (point - item.middle).cross(normal),
            lever_b: 0.0,
            depth,
            rate: at.growth.margin - item.speed(&at.growth, point, normal, -1.0),
        });
    };
    let sides = [
        (Vec2::new(1.0, 0.0), margin),
        (Vec2::new(-1.0, 0.0), margin - sheet.width),
        (Vec2::new(0.0, 1.0), margin),
        (Vec2::new(0.0, -1.0), margin - sheet.height),
    ];
    for (normal, least) in sides {
        let height = |point: &Point| point.to_vec2().dot(normal);
        let lowest = item.ring.iter().map(height).fold(f64::INFINITY, f64::min);
        if least - lowest <= -band {
            continue;
        }
        // Turning brings other corners down.
        let mut low: Vec<Point> = item.ring.iter().copied().filter(|p| least - height(p) > -band).collect();
        low.sort_by(|p, q| height(p).total_cmp(&height(q)));
        low.truncate(if item.is_plain { 1 } else { MOST_OF_PAIR / 2 });
        low.iter().for_each(|&point| push(normal, point, least - height(&point)));
    }
    let radius = sheet.corner_radius;
    if radius > margin {
        let (right, bottom) = (sheet.width - radius, sheet.height - radius);
        let mut deep: Vec<(f64, Point, Vec2)> = Vec::new();
        for &point in &item.ring {
            if (point.x >= radius && point.x <= right) || (point.y >= radius && point.y <= bottom) {
                continue;
            }
            let x = if point.x < radius { radius } else { right };
            let y = if point.y < radius { radius } else { bottom };
            let inward = Point::new(x, y) - point;
            let length = inward.hypot2().sqrt();
            let depth = length - (radius - margin);
            if depth > -band && length > 1e-9 {
                deep.push((depth, point, inward / length));
            }
        }
        deep.sort_by(|a, b| b.0.total_cmp(&a.0));
        deep.iter().take(4).for_each(|&(depth, point, normal)| push(normal, point, depth));
    }
}
