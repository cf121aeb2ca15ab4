//! Grow: the level is the common scale of the stickers.

use kurbo::Point;
use stickleaf_sheet::{Layout, Sticker, scaled};

use crate::aims::measure::{Asked, Asks, Measure, middles};
use crate::aims::rung::Rung;
use crate::pack::Doing;

/// No smaller than this, and no larger.
const SMALLEST: f64 = 0.05;
const LARGEST: f64 = 1000.0;
/// How much smaller stickers are made if they do not all fit.
const EASIER: f64 = 0.9;

/// All pieces as large as possible.
pub struct Grow {
    given: Layout,
    /// For each sticker, whether a piece of it is locked, so that it keeps its size.
    keeps_size: Vec<bool>,
    middles: Vec<Point>,
    /// Half the width of a piece in millimetres, roughly.
    reach: f64,
}

impl Grow {
    /// The measure for this layout.
    pub fn new(layout: &Layout) -> Grow {
        let is_locked =
            |sticker: &Sticker| layout.pieces.iter().any(|piece| piece.locked && piece.sticker == sticker.id);
        let areas: f64 = layout.stickers.iter().map(|sticker| sticker.outline.area()).sum();
        Grow {
            keeps_size: layout.stickers.iter().map(is_locked).collect(),
            middles: middles(layout),
            reach: (areas / layout.stickers.len().max(1) as f64).sqrt() / 2.0,
            given: layout.clone(),
        }
    }
}

impl Measure for Grow {
    const DOING: Doing = Doing::Growing;
    const RESHAPES: bool = true;
    const SETTLES_FIRST: bool = true;

    fn first(&self) -> f64 {
        1.0
    }

    fn easier(&self, level: f64) -> Option<f64> {
        let easier = level * EASIER;
        (easier >= SMALLEST && !self.keeps_size.iter().all(|&keeps| keeps)).then_some(easier)
    }

    fn last(&self) -> f64 {
        if self.keeps_size.iter().all(|&keeps| keeps) { 1.0 } else { LARGEST }
    }

    fn layout_at(&self, level: f64) -> Option<Layout> {
        let mut layout = self.given.clone();
        for (sticker, keeps_size) in layout.stickers.iter_mut().zip(&self.keeps_size) {
            if !keeps_size && level != 1.0 {
                *sticker = scaled(sticker, level)?;
            }
        }
        Some(layout)
    }

    fn shown(&self, searched: &Layout) -> Layout {
        searched.clone()
    }

    fn unit(&self, level: f64) -> f64 {
        level
    }

    fn millimetres(&self) -> f64 {
        self.reach
    }

    fn scale(&self, level: f64) -> f64 {
        level
    }

    fn scale_of(&self, sticker: usize, level: f64) -> f64 {
        if self.keeps_size[sticker] { 1.0 } else { level }
    }

    fn middles(&self) -> &[Point] {
        &self.middles
    }

    fn asks(&self, rung: &Rung) -> Asks {
        let layout = &rung.layout;
        let fixed = |least: f64| Asked { least, rate: 0.0 };
        let growth = layout.stickers.iter().zip(&self.keeps_size).map(|(sticker, &keeps_size)| {
            let rate = if keeps_size { 0.0 } else { 1.0 / rung.level };
            (rate, sticker.border_width(&layout.rules))
        });
        Asks {
            between: fixed(layout.rules.spacing),
            edge: [fixed(layout.rules.margin); 2],
            zones: layout.zones().iter().map(|zone| [fixed(zone.clearance); 2]).collect(),
            lowering: 0.0,
            growth: growth.collect(),
        }
    }
}
