//! Small pieces of writing over the sheet that do not cover each other.

use kurbo::{Point, Rect, Size, Vec2};
use web_sys::CanvasRenderingContext2d;

use super::layer::trace_rounded;
use super::palette::Palette;

/// The height of a label in pixels.
const HEIGHT_PX: f64 = 24.0;

/// Room left and right of the writing, in pixels.
const SIDE_PX: f64 = 8.0;

/// How near a label may come to the canvas's edge, in pixels.
const EDGE_PX: f64 = 6.0;

/// The font of labels: the page's own, figures of one width.
const FONT: &str = "600 13px system-ui, sans-serif";

/// The labels written so far in this frame.
pub struct Labels<'a> {
    context: &'a CanvasRenderingContext2d,
    palette: &'a Palette,
    canvas: Size,
    taken: Vec<Rect>,
}

impl<'a> Labels<'a> {
    /// No labels yet, on a canvas of this size in pixels; they keep away from these places.
    pub fn new(
        context: &'a CanvasRenderingContext2d,
        palette: &'a Palette,
        canvas: Size,
        taken: Vec<Rect>,
    ) -> Labels<'a> {
        Labels { context, palette, canvas, taken }
    }

    /// Writes a label with its middle near a point: as near as it can without covering another one.
    ///
    /// `side` says to which side of the point it goes first. The context is in pixels.
    pub fn write(&mut self, text: &str, near: Point, side: Vec2, colour: &str, is_strong: bool) {
        self.context.set_font(FONT);
        let width = self.context.measure_text(text).map_or(60.0, |size| size.width()) + 2.0 * SIDE_PX;
        let place = self.free_place(Size::new(width, HEIGHT_PX), near, side);
        self.taken.push(place);
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

    fn free_place(&self, size: Size, near: Point, side: Vec2) -> Rect {
        let room = self.canvas.to_rect().inset(-EDGE_PX);
        let other = Vec2::new(-side.y, side.x);
        let away = |way: Vec2| {
            let half = size.width / 2.0 * way.x.abs() + size.height / 2.0 * way.y.abs();
            half + 12.0
        };
        // Near the point on any side before further away.
        let tries = [1.0, 1.8, 2.6]
            .into_iter()
            .flat_map(|times| [side, -side, other, -other].map(|way| near + way * (away(way) * times)));
        let kept = |middle: Point| {
            let x = middle.x.clamp(
                room.x0 + size.width / 2.0,
                (room.x1 - size.width / 2.0).max(room.x0 + size.width / 2.0),
            );
            let y = middle.y.clamp(
                room.y0 + size.height / 2.0,
                (room.y1 - size.height / 2.0).max(room.y0 + size.height / 2.0),
            );
            Rect::from_center_size((x, y), size)
        };
        let places: Vec<Rect> = tries.map(kept).collect();
        let is_free = |place: &&Rect| self.taken.iter().all(|taken| taken.intersect(**place).is_zero_area());
        *places.iter().find(is_free).unwrap_or(&places[0])
    }
}
