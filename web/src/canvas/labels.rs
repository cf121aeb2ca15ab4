//! Small pieces of writing over the sheet that do not cover each other.

use kurbo::{Point, Rect, Size, Vec2};
use web_sys::CanvasRenderingContext2d;

use super::label_places::Places;
use super::layer::trace_rounded;
use super::palette::Palette;

/// The height of a label in pixels.
const HEIGHT_PX: f64 = 24.0;

/// Room left and right of the writing, in pixels.
const SIDE_PX: f64 = 8.0;

/// The font of labels: the page's own, figures of one width.
const FONT: &str = "600 13px system-ui, sans-serif";

/// The labels written so far in this frame.
pub struct Labels<'a> {
    context: &'a CanvasRenderingContext2d,
    palette: &'a Palette,
    places: Places,
}

impl<'a> Labels<'a> {
    /// No labels yet, on a canvas of this size in pixels; they keep away from these marks where they can.
    pub fn new(
        context: &'a CanvasRenderingContext2d,
        palette: &'a Palette,
        canvas: Size,
        marks: Vec<Rect>,
    ) -> Labels<'a> {
        // Once for all: a browser takes longer to read a font than to write a label.
        context.set_font(FONT);
        Labels { context, palette, places: Places::new(canvas, marks) }
    }

    /// Writes a label with its middle near a point: as near as it can without covering another one. It is left out if
    /// there is no such place.
    ///
    /// `side` says to which side of the point it goes first. The context is in pixels.
    pub fn write(&mut self, text: &str, near: Point, side: Vec2, colour: &str, is_strong: bool) {
        let width = self.context.measure_text(text).map_or(60.0, |size| size.width()) + 2.0 * SIDE_PX;
        let Some(place) = self.places.take(Size::new(width, HEIGHT_PX), near, side) else { return };
        trace_rounded(self.context, place, HEIGHT_PX / 2.0);
        self.context.set_fill_style_str(&self.palette.panel);
        self.context.fill();
        self.context.set_line_width(if is_strong { 2.0 } else { 1.0 });
        self.context.set_stroke_style_str(if is_strong { colour } else { &self.palette.line });
        self.context.stroke();
        self.context.set_fill_style_str(colour);
        self.context.set_text_align("center");
        self.context.set_text_baseline("middle");
        // Finite places are never refused.
        let _ = self.context.fill_text(text, place.center().x, place.center().y + 0.5);
    }
}
