//! The empty room: a dashed circle for each dot that would fit, with how large it is.

use kurbo::Point;
use stickleaf_editor::View;
use stickleaf_sheet::LengthUnit;
use web_sys::CanvasRenderingContext2d;

use super::layer::trace_circle;
use super::moving::dash;
use super::palette::{ACCENT_ON_PAPER, EDGE};
use crate::messages::RoomDot;
use crate::room::shown_diameter;
use crate::words;

/// What fills a circle: a breath of light, so that its edge and its writing stand out from any picture.
const GROUND: &str = "rgba(226, 240, 233, 0.45)";

/// The font of the writing in a circle.
const FONT: &str = "600 12px system-ui, sans-serif";

/// A circle narrower than the writing by more than this gets none, in pixels.
const OVERHANG_PX: f64 = 2.0;

/// Draws the circles. The context is in pixels.
pub fn draw(context: &CanvasRenderingContext2d, view: &View, dots: &[RoomDot], unit: LengthUnit) {
    for dot in dots {
        let middle = view.to_canvas(Point::new(dot.x, dot.y));
        let radius = dot.diameter / 2.0 * view.scale;
        trace_circle(context, middle, radius);
        context.set_fill_style_str(GROUND);
        context.fill();
        // The light edge goes all the way round, the dashes lie on it.
        context.set_stroke_style_str(EDGE);
        context.set_line_width(3.5);
        context.stroke();
        dash(context, &[6.0, 4.0]);
        context.set_stroke_style_str(ACCENT_ON_PAPER);
        context.set_line_width(2.0);
        context.stroke();
        dash(context, &[]);
        write(context, middle, 2.0 * radius, shown_diameter(unit, dot.diameter), unit);
    }
}

/// Writes the diameter into its circle, without the unit where there is no room for that.
fn write(context: &CanvasRenderingContext2d, middle: Point, width_px: f64, diameter: f64, unit: LengthUnit) {
    context.set_font(FONT);
    let is_short =
        |text: &String| context.measure_text(text).is_ok_and(|size| size.width() <= width_px + OVERHANG_PX);
    let Some(text) =
        [words::length(unit, diameter), words::number(unit, diameter)].into_iter().find(is_short)
    else {
        return;
    };
    context.set_text_align("center");
    context.set_text_baseline("middle");
    context.set_line_join("round");
    context.set_line_width(4.0);
    context.set_stroke_style_str(EDGE);
    // Finite places are never refused.
    let _ = context.stroke_text(&text, middle.x, middle.y + 0.5);
    context.set_fill_style_str(ACCENT_ON_PAPER);
    let _ = context.fill_text(&text, middle.x, middle.y + 0.5);
}
