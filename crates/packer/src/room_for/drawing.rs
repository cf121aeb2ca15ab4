//! A sticker's drawing made ready to be tried in many places.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{BORDER_TOLERANCE, Outline, Placement, Turn, inner_disc, thinned};
use stickleaf_sheet::{Layout, Sticker, Turns, scaled};

use super::trial::Try;
use crate::answer::snapped;

/// Points along an outline are this far apart in millimetres, unless there would be more than [`MOST_SAMPLES`].
const SAMPLE_STEP: f64 = 1.0;
const MOST_SAMPLES: f64 = 128.0;

/// So many turns are tried first where any is allowed.
const FIRST_TURNS: u32 = 16;

/// How far the line may stray where only the roomiest point of a drawing is looked for, as a share of its smaller side.
const COARSE_SHARE: f64 = 0.02;

/// A sticker's drawing made ready to be tried in many places.
pub struct Drawing<'a> {
    /// Where it belongs.
    pub layout: &'a Layout,
    /// Whose drawing it is.
    pub sticker: &'a Sticker,
    /// The point that it is scaled about, in its own coordinates.
    pivot: Point,
    /// Points of the outline told from there, those furthest away first.
    pub samples: Vec<Vec2>,
    /// The room that each of them needs.
    pub need: f64,
}

impl Drawing<'_> {
    /// The drawing of this sticker.
    pub fn new<'a>(layout: &'a Layout, sticker: &'a Sticker) -> Drawing<'a> {
        let outline = &sticker.outline;
        let pivot = inner_disc(&coarse(outline)).centre;
        let step = (outline.perimeter() / MOST_SAMPLES).max(SAMPLE_STEP);
        let mut samples = Vec::new();
        for (start, end) in outline.edges() {
            let parts = ((end - start).hypot2().sqrt() / step).ceil().max(1.0) as u32;
            samples
                .extend((0..parts).map(|part| start.lerp(end, f64::from(part) / f64::from(parts)) - pivot));
        }
        // Of corners that lie close to each other one stands for all; the check sees them all.
        let mut kept: Vec<Vec2> = Vec::new();
        for sample in samples {
            if kept.last().is_none_or(|last: &Vec2| (sample - *last).hypot2() > step * step * 0.25) {
                kept.push(sample);
            }
        }
        kept.sort_by(|a, b| b.hypot2().total_cmp(&a.hypot2()));
        let width = sticker.border_width(&layout.rules);
        let need = if width > 0.0 { width + BORDER_TOLERANCE } else { 0.0 };
        Drawing { layout, sticker, pivot, samples: kept, need }
    }

    /// The turns that are tried first, in degrees.
    pub fn first_turns(&self) -> Vec<f64> {
        match &self.sticker.turns {
            Turns::None => vec![0.0],
            Turns::Any => {
                (0..FIRST_TURNS).map(|turn| 360.0 * f64::from(turn) / f64::from(FIRST_TURNS)).collect()
            }
            Turns::Within(most) => vec![0.0, *most, -most, most / 2.0, -most / 2.0],
            Turns::Only(list) if list.is_empty() => vec![0.0],
            Turns::Only(list) => list.clone(),
        }
    }

    /// The allowed turn nearest to this one, in degrees.
    pub fn allowed(&self, degrees: f64) -> f64 {
        self.sticker.turns.nearest(Turn::degrees(degrees)).to_degrees()
    }

    /// The cut line at this scale, in its own coordinates; nothing if the outline is too fine for the grid then.
    pub fn cut_line(&self, scale: f64) -> Option<Arc<Outline>> {
        Some(scaled(self.sticker, scale)?.cut_line(&self.layout.rules))
    }

    /// The placement that brings the scaled pivot to where the try has it.
    pub fn placement(&self, tried: &Try, scale: f64) -> Placement {
        let turn = Turn::degrees(tried.degrees);
        let about = Placement { at: Point::ZERO, turn, mirrored: tried.mirrored };
        let pivot = about.apply((self.pivot.to_vec2() * scale).to_point());
        let placement = Placement { at: tried.at - pivot.to_vec2(), ..about };
        snapped(&placement, &self.sticker.turns, self.sticker.mirror)
    }
}

/// The outline with fewer corners, for finding its roomiest point.
fn coarse(outline: &Outline) -> Outline {
    let (width, height) = (outline.bounds().width(), outline.bounds().height());
    let thin = thinned(outline.points(), COARSE_SHARE * width.min(height));
    Outline::new(thin).unwrap_or_else(|_| outline.clone())
}
