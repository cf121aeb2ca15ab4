//! Rough stickers look like a sketch: a dashed outline and loose strokes, as of a pencil, told from finished art by more
//! than colour.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::Outline;
use web_sys::CanvasRenderingContext2d;

use super::layer::{trace, trace_points};
use super::moving::dash;

/// The strokes and the dashes, on paper.
const STROKE: &str = "rgba(92, 96, 104, 0.36)";
const DASHES: &str = "#5C6068";

/// Between two strokes, in grains.
const STROKE_STEP: f64 = 1.7;

/// A dash and the gap behind it, in grains.
const DASH: [f64; 2] = [1.6, 1.2];

/// How wide strokes and dashes are, in grains.
const WIDTHS: (f64, f64) = (0.2, 0.32);

/// Draws the outline of a rough sticker; the ground is left as it is. `grain` is how coarse the sketch is, in the units
/// of the outline.
pub fn draw_rough(context: &CanvasRenderingContext2d, outline: &Outline, grain: f64) {
    context.save();
    trace(context, outline);
    context.save();
    context.clip();
    strokes(context, outline.bounds(), STROKE_STEP * grain);
    context.set_line_width(WIDTHS.0 * grain);
    context.set_stroke_style_str(STROKE);
    context.stroke();
    context.restore();
    trace(context, outline);
    dash(context, &DASH.map(|length| length * grain));
    context.set_line_width(WIDTHS.1 * grain);
    context.set_stroke_style_str(DASHES);
    context.stroke();
    context.restore();
}

/// Begins a path of slanting strokes across a box.
fn strokes(context: &CanvasRenderingContext2d, bounds: Rect, step: f64) {
    let reach = bounds.width() + bounds.height();
    context.begin_path();
    for i in 0..(reach / step).ceil() as u32 {
        let from = Point::new(bounds.x0 + step * (f64::from(i) + 0.5), bounds.y0);
        trace_points(context, &[from, from + Vec2::new(-reach, reach)]);
    }
}
