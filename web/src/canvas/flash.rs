//! Pieces that light up for a moment, so that they are found.

use stickleaf_editor::Editor;

use super::layer::{Layer, trace};
use super::palette::{ACCENT_ON_PAPER, EDGE, reduces_motion};

/// How long they are lit, in milliseconds.
const LIT_MS: f64 = 1200.0;

/// How wide the light is about the cut line, in pixels.
const LIGHT_PX: f64 = 12.0;

/// Pieces that light up.
#[derive(Clone, Debug, PartialEq)]
pub struct Flash {
    /// Which pieces, by their position in the layout.
    pub pieces: Vec<usize>,
    /// Since when, in milliseconds since the page was opened.
    pub since_ms: f64,
}

impl Flash {
    /// Whether they are still lit.
    pub fn is_lit(&self, now_ms: f64) -> bool {
        now_ms - self.since_ms < LIT_MS
    }

    /// How bright they are, from 1 down to 0; for people who want things to keep still, bright until it ends.
    fn brightness(&self, now_ms: f64) -> f64 {
        let part = ((now_ms - self.since_ms) / LIT_MS).clamp(0.0, 1.0);
        if reduces_motion() && part < 1.0 { 1.0 } else { 1.0 - part * part }
    }
}

/// Draws the light. What has gone since, or was moved, is passed over.
pub fn draw(layer: &Layer, editor: &Editor, flash: &Flash, now_ms: f64) {
    let px = 1.0 / editor.view().scale;
    let context = &layer.context;
    layer.in_millimetres(editor.view());
    context.save();
    context.set_global_alpha(flash.brightness(now_ms));
    context.set_line_join("round");
    for line in flash.pieces.iter().filter_map(|&piece| editor.lines().get(piece)) {
        trace(context, line);
        for (colour, width) in [(EDGE, LIGHT_PX + 4.0), (ACCENT_ON_PAPER, LIGHT_PX)] {
            context.set_stroke_style_str(colour);
            context.set_line_width(width * px);
            context.stroke();
        }
    }
    context.restore();
}
