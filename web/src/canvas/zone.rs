//! The chosen zone: above the pieces, with the handles that size it and its size in words while it is in the hand.

use kurbo::{Point, Rect};
use stickleaf_editor::{Editor, ZoneHandle};
use stickleaf_sheet::LengthUnit;
use web_sys::CanvasRenderingContext2d;

use super::layer::{Layer, trace, trace_rounded};
use super::palette::{ACCENT_ON_PAPER, EDGE, Palette};
use super::still::{draw_zone, zone_name};
use crate::words;

/// Half the side of a handle, in pixels. What a finger can take hold of is larger.
const HANDLE_PX: f64 = 8.0;

/// Draws the chosen zone, if there is one. The context is in pixels afterwards.
pub fn draw(layer: &Layer, editor: &Editor, palette: &Palette, unit: LengthUnit) {
    let chosen = editor.chosen_zone().and_then(|zone| editor.layout().zones().get(zone));
    let Some(zone) = chosen else { return };
    let (context, view) = (&layer.context, editor.view());
    draw_zone(layer, &editor.layout().sheet, view, zone);
    let px = 1.0 / view.scale;
    layer.in_millimetres(view);
    context.set_line_join("round");
    for (colour, width) in [(EDGE, 5.0), (ACCENT_ON_PAPER, 2.0)] {
        trace(context, &zone.outline);
        context.set_stroke_style_str(colour);
        context.set_line_width(width * px);
        context.stroke();
    }
    layer.in_pixels();
    let bounds = zone.outline.bounds();
    let seen =
        Rect::from_points(view.to_canvas(bounds.origin()), view.to_canvas(Point::new(bounds.x1, bounds.y1)));
    let middle = seen.intersect(view.canvas.to_rect()).center();
    if editor.is_carrying_zone() {
        let size = [bounds.width(), bounds.height()].map(|mm| words::number(unit, mm));
        zone_name(context, &words::size(&size[0], &size[1], unit.symbol()), middle, view.canvas);
    } else {
        zone_name(context, &zone.name, middle, view.canvas);
    }
    for handle in editor.zone_handles() {
        draw_handle(context, &handle, palette);
    }
}

fn draw_handle(context: &CanvasRenderingContext2d, handle: &ZoneHandle, palette: &Palette) {
    let side = 2.0 * HANDLE_PX;
    trace_rounded(context, Rect::from_center_size(handle.at, (side, side)), 4.0);
    context.save();
    context.set_shadow_color("rgba(30, 26, 18, 0.3)");
    context.set_shadow_blur(6.0);
    context.set_shadow_offset_y(1.0);
    context.set_fill_style_str(&palette.panel);
    context.fill();
    context.restore();
    context.set_stroke_style_str(&palette.accent);
    context.set_line_width(2.0);
    context.stroke();
}
