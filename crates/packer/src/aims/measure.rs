//! What the levels of a ladder mean: a size, a gap or a height, told so that more is better.

use kurbo::Vec2;
use stickleaf_sheet::Layout;

use crate::aims::rung::Rung;
use crate::body::Body;
use crate::ground::Ground;
use crate::pack::Doing;
use crate::touch::Touch;

/// What is to be made as large as possible.
pub trait Measure: Send {
    /// What its rounds do.
    const DOING: Doing;
    /// Whether the smallest gap is worth telling.
    const TELLS_GAP: bool = false;

    /// Whether outlines change with the level.
    const RESHAPES: bool = false;
    /// Whether outlines and sheet stay as they are at all levels, so that rough outlines can be arranged.
    const ARRANGES: bool = false;
    /// Whether what placing does after every piece has its place is a good start.
    const SETTLES_FIRST: bool = false;

    /// The level of the layout as it was given.
    fn first(&self) -> f64;

    /// A level to start from instead, where more fits; nothing if there is none, or none within reason.
    fn easier(&self, level: f64) -> Option<f64>;

    /// A level beyond which none can be, proven.
    fn last(&self) -> f64;

    /// The level, made one that a layout can have exactly; never better than it was.
    fn rounded(&self, level: f64) -> f64 {
        level
    }

    /// The layout to search for at this level; nothing if it cannot be.
    fn layout_at(&self, level: f64) -> Option<Layout>;

    /// The layout to show: what was searched for, with the rules as they were given.
    fn shown(&self, searched: &Layout) -> Layout;

    /// The level that the pieces of this layout, searched for at a level, have reached without being moved.
    fn reached(&self, _searched: &Layout, level: f64) -> f64 {
        level
    }

    /// By how much a level changes in a step of one whole.
    fn unit(&self, level: f64) -> f64;

    /// By how many millimetres things move, roughly, when the level changes by one.
    fn millimetres(&self) -> f64;

    /// The common scale of the stickers at a level.
    fn scale(&self, _level: f64) -> f64 {
        1.0
    }

    /// The scale of one sticker at a level.
    fn scale_of(&self, _sticker: usize, _level: f64) -> f64 {
        1.0
    }

    /// For each sticker as it was given, the middle of the rectangle round its outline.
    fn middles(&self) -> &[kurbo::Point];

    /// What is asked at a rung, and how that changes with the level.
    fn asks(&self, rung: &Rung) -> Asks;
}

/// A distance to be kept.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked {
    /// Millimetres at the present level.
    pub least: f64,
    /// More of it for each level gained.
    pub rate: f64,
}

/// What is asked of distances at a level, and how distances change with it while nothing moves.
#[derive(Clone, Debug, Default)]
pub struct Asks {
    /// Between two pieces.
    pub between: Asked,
    /// From the sheet's edge.
    pub edge: [Asked; 2],
    /// From each zone, in the order of the zones.
    pub zones: Vec<[Asked; 2]>,
    /// How fast the bottom edge comes up.
    pub lowering: f64,
    /// For each sticker, how fast it grows: as a share of its size, and the border that does not.
    pub growth: Vec<(f64, f64)>,
}

impl Asks {
    /// What is asked of a touch.
    pub fn of(&self, ground: &Ground, bodies: &[Body], touch: &Touch) -> impl Iterator<Item = Asked> + use<> {
        let zone = |index: usize| bodies[index].kind.checked_sub(ground.stickers);
        let asked = match touch.b {
            None => self.edge,
            Some(b) => match zone(touch.a).or(zone(b)) {
                Some(zone) => self.zones[zone],
                None => [self.between; 2],
            },
        };
        let both = asked[0].least != asked[1].least || asked[0].rate != asked[1].rate;
        asked.into_iter().take(if both { 2 } else { 1 })
    }

    /// How fast the distance at a touch shrinks as the level rises.
    pub fn closing(&self, rung: &Rung, bodies: &[Body], touch: &Touch) -> f64 {
        // A point of the outline goes away from the middle; the border round it stays as wide as it is.
        let speed = |index: usize, point: kurbo::Point, outward: Vec2| {
            let body = &bodies[index];
            let &(rate, border) = self.growth.get(body.kind).unwrap_or(&(0.0, 0.0));
            if rate == 0.0 {
                return Vec2::ZERO;
            }
            (point - outward * border - rung.middle(body)) * rate
        };
        let normal = touch.normal;
        let of_a = speed(touch.a, touch.on_a, -normal).dot(normal);
        match touch.b {
            Some(b) => speed(b, touch.on_b, normal).dot(normal) - of_a,
            None => self.lowering * (-normal.y).max(0.0) - of_a,
        }
    }
}

/// For each sticker of a layout, the middle of the rectangle round its outline.
pub fn middles(layout: &Layout) -> Vec<kurbo::Point> {
    layout.stickers.iter().map(|sticker| sticker.outline.bounds().center()).collect()
}
