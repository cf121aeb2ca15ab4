//! Grow: the level is the common scale of the stickers.

use std::sync::Arc;

use stickleaf_outline::Outline;
use stickleaf_sheet::{Layout, Sticker};

use crate::aims::ladder::Measure;
use crate::pack::Doing;
use crate::together::Growth;

/// No smaller than this, and no larger.
const SMALLEST: f64 = 0.05;
const LARGEST: f64 = 1000.0;
/// How much smaller stickers are made if they do not all fit.
const EASIER: f64 = 0.9;
/// Pixels that browsers count to the millimetre in a drawing without pixels (CSS Values and Units: 96 to the inch).
const CSS_PIXELS_PER_MM: f64 = 96.0 / 25.4;

/// All pieces as large as possible.
pub struct Grow {
    given: Layout,
    /// For each sticker, whether a piece of it is locked, so that it keeps its size.
    keeps_size: Vec<bool>,
}

impl Grow {
    /// The measure for this layout.
    pub fn new(layout: &Layout) -> Grow {
        let is_locked =
            |sticker: &Sticker| layout.pieces.iter().any(|piece| piece.locked && piece.sticker == sticker.id);
        Grow { keeps_size: layout.stickers.iter().map(is_locked).collect(), given: layout.clone() }
    }
}

impl Measure for Grow {
    const DOING: Doing = Doing::Growing;

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

    fn scale(&self, level: f64) -> f64 {
        level
    }

    fn growth(&self, level: f64) -> Option<Growth> {
        let size = |&keeps_size: &bool| if keeps_size { 0.0 } else { 1.0 / level };
        Some(Growth {
            sizes: self.keeps_size.iter().map(size).collect(),
            spacing: 0.0,
            margin: 0.0,
            clearances: vec![0.0; self.given.zones().len()],
        })
    }
}

/// The sticker with its outline and its picture scaled about its (0, 0); nothing if the outline is too fine for that.
fn scaled(sticker: &Sticker, scale: f64) -> Option<Sticker> {
    let outline =
        Outline::new(sticker.outline.points().iter().map(|&point| (point.to_vec2() * scale).to_point()));
    let mut scaled = Sticker { outline: Arc::new(outline.ok()?), path: None, ..sticker.clone() };
    if let Some(art) = &mut scaled.art {
        art.at = (art.at.to_vec2() * scale).to_point();
        art.pixels_per_mm = Some(art.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM) / scale);
    }
    Some(scaled)
}
