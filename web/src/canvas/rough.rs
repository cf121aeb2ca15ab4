//! Rough stickers look like a sketch: a dashed outline and loose strokes, as of a pencil, told from finished art by more
//! than colour.

use kurbo::{Point, Vec2};
use stickleaf_outline::Outline;
use web_sys::CanvasRenderingContext2d;

use super::layer::{trace, trace_points};
use super::moving::dash;

/// The strokes and the dashes, on paper.
const STROKE: &str = "rgba(92, 96, 104, 0.36)";
const DASHES: &str = "#5C6068";

/// Between two strokes, as a share of the shape's longer side.
const STROKE_STEP: f64 = 0.085;

/// How wide the lines are, as a share of it.
const WIDTH: f64 = 0.011;

/// Draws the outline of a rough sticker, in whatever unit it is in; the ground is left as it is.
pub fn draw_rough(context: &CanvasRenderingContext2d, outline: &Outline) {
    let bounds = outline.bounds();
    let longer = bounds.width().max(bounds.height());
    context.save();
    trace(context, outline);
    context.save();
    context.clip();
    context.begin_path();
    // Slanting strokes, each a little longer or shorter than its neighbours.
    let reach = bounds.width() + bounds.height();
    let count = (reach / (STROKE_STEP * longer)).ceil() as u32;
    for i in 0..count {
        let along = STROKE_STEP * longer * (f64::from(i) + 0.5);
        let from = Point::new(bounds.x0 + along, bounds.y0);
        let way = Vec2::new(-reach, reach);
        let (start, end) = if i.is_multiple_of(2) { (0.0, 1.0) } else { (0.02, 0.97) };
        trace_points(context, &[from + way * start, from + way * end]);
    }
    context.set_line_width(0.7 * WIDTH * longer);
    context.set_stroke_style_str(STROKE);
    context.stroke();
    context.restore();
    trace(context, outline);
    dash(context, &[0.06 * longer, 0.04 * longer]);
    context.set_line_cap("round");
    context.set_line_width(1.4 * WIDTH * longer);
    context.set_stroke_style_str(DASHES);
    context.stroke();
    context.restore();
}
