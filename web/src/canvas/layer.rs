//! One canvas element with a backing store as fine as the screen.

use kurbo::{Point, Rect, Size};
use stickleaf_editor::View;
use stickleaf_outline::{Outline, Placement};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// The most pixels of one backing store: what tablets allow a canvas (16.7 million).
const MOST_PIXELS: f64 = 4096.0 * 4096.0;

/// A canvas, its context and how many of its pixels make a CSS pixel.
pub struct Layer {
    element: HtmlCanvasElement,
    /// What is drawn with.
    pub context: CanvasRenderingContext2d,
    /// Pixels of the backing store to the CSS pixel.
    pub ratio: f64,
    size: Size,
}

impl Layer {
    /// The layer on a canvas element; nothing if the browser gives no context.
    pub fn on(element: HtmlCanvasElement) -> Option<Layer> {
        let context = element.get_context("2d").ok()??.dyn_into().ok()?;
        Some(Layer { element, context, ratio: 1.0, size: Size::ZERO })
    }

    /// Gives the backing store this size in CSS pixels at this pixel ratio; true if it was another one, and the layer
    /// is empty now.
    pub fn resize(&mut self, size: Size, device_ratio: f64) -> bool {
        let most = (MOST_PIXELS / size.area().max(1.0)).sqrt();
        let ratio = device_ratio.clamp(0.5, 4.0).min(most);
        if size == self.size && ratio == self.ratio {
            return false;
        }
        (self.size, self.ratio) = (size, ratio);
        self.element.set_width((size.width * ratio).round() as u32);
        self.element.set_height((size.height * ratio).round() as u32);
        true
    }

    /// Empties the layer.
    pub fn clear(&self) {
        self.in_pixels();
        self.context.clear_rect(0.0, 0.0, self.size.width + 1.0, self.size.height + 1.0);
    }

    /// The address of a picture of the layer that holds its own data, of this kind and quality (0 to 1).
    ///
    /// A browser that does not know the kind makes a PNG.
    pub fn address(&self, media_type: &str, quality: f64) -> Option<String> {
        self.element.to_data_url_with_type_and_encoder_options(media_type, &quality.into()).ok()
    }

    /// From here on, one unit is one CSS pixel.
    pub fn in_pixels(&self) {
        let ratio = self.ratio;
        // A finite transform is never refused.
        let _ = self.context.set_transform(ratio, 0.0, 0.0, ratio, 0.0, 0.0);
    }

    /// From here on, one unit is one millimetre of the sheet.
    pub fn in_millimetres(&self, view: &View) {
        let scale = view.scale * self.ratio;
        let (x, y) = (view.origin.x * self.ratio, view.origin.y * self.ratio);
        let _ = self.context.set_transform(scale, 0.0, 0.0, scale, x, y);
    }

    /// From here on, one unit is one millimetre of the sticker that lies like this.
    pub fn in_sticker(&self, view: &View, placement: &Placement) {
        self.in_millimetres(view);
        let (sine, cosine) = placement.turn.sine_cosine();
        let flip = if placement.mirrored { -1.0 } else { 1.0 };
        let Point { x, y } = placement.at;
        let _ = self.context.transform(cosine * flip, sine * flip, -sine, cosine, x, y);
    }
}

/// Begins a path that follows an outline.
pub fn trace(context: &CanvasRenderingContext2d, outline: &Outline) {
    context.begin_path();
    trace_points(context, outline.points());
    context.close_path();
}

/// Adds an open line through these points to the path.
pub fn trace_points(context: &CanvasRenderingContext2d, points: &[Point]) {
    for (i, point) in points.iter().enumerate() {
        if i == 0 {
            context.move_to(point.x, point.y);
        } else {
            context.line_to(point.x, point.y);
        }
    }
}

/// Begins a path that follows a rectangle with round corners.
pub fn trace_rounded(context: &CanvasRenderingContext2d, rect: Rect, radius: f64) {
    let radius = radius.clamp(0.0, rect.width().min(rect.height()).max(0.0) / 2.0);
    context.begin_path();
    context.move_to(rect.x0 + radius, rect.y0);
    let corners = [(rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1), (rect.x0, rect.y0)];
    for (i, &(x, y)) in corners.iter().enumerate() {
        let (next_x, next_y) = corners[(i + 1) % 4];
        // A radius that is not negative is never refused.
        let _ = context.arc_to(x, y, next_x, next_y, radius);
    }
    context.close_path();
}

/// Begins a path that follows a circle.
pub fn trace_circle(context: &CanvasRenderingContext2d, middle: Point, radius: f64) {
    context.begin_path();
    let _ = context.arc(middle.x, middle.y, radius, 0.0, core::f64::consts::TAU);
}

/// Draws the path as a line with a lighter edge that keeps it legible on any ground. Widths in the context's units.
pub fn stroke_edged(
    context: &CanvasRenderingContext2d,
    colour: &str,
    width: f64,
    edge: &str,
    edge_width: f64,
) {
    context.set_stroke_style_str(edge);
    context.set_line_width(width + 2.0 * edge_width);
    context.stroke();
    context.set_stroke_style_str(colour);
    context.set_line_width(width);
    context.stroke();
}
