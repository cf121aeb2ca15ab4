//! The still layer: the card with its shadow, background, zones and margin, and every piece that is not in the hand.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::{Point, Rect, Size};
use stickleaf_editor::View;
use stickleaf_outline::{Disc, Outline};
use stickleaf_sheet::{Layout, Sheet, Zone};
use web_sys::CanvasRenderingContext2d;

use super::glide::Shown;
use super::layer::{Layer, trace, trace_rounded};
use super::palette::{
    FAINT_ON_PAPER, INK_ON_PAPER, LINE_ON_PAPER, PAPER, Palette, ZONE_GROUND, ZONE_ON_PAPER,
};
use super::shapes::{Shapes, roomy_middle};
use crate::pictures::Picture;

/// Between two lines of hatching, in pixels.
const HATCH_STEP_PX: f64 = 9.0;

/// Between the two lines round the card, which is cut through, in pixels.
const DOUBLE_LINE_PX: f64 = 2.5;

/// How far the card's shadow reaches, in pixels.
const SHADOW_PX: f64 = 26.0;

/// What is drawn.
pub struct StillScene<'a> {
    pub layout: &'a Layout,
    pub view: &'a View,
    pub palette: &'a Palette,
    pub pictures: &'a BTreeMap<String, Picture>,
    pub shown: &'a [Shown],
    /// The pieces that the moving layer draws.
    pub lifted: &'a [usize],
    /// The zone that the moving layer draws.
    pub chosen_zone: Option<usize>,
    /// Whether zones are called by their names; a small picture has no room for that.
    pub has_zone_names: bool,
}

/// Draws the still layer afresh.
pub fn draw(layer: &Layer, scene: &StillScene, shapes: &mut Shapes, spots: &mut ZoneSpots) {
    layer.clear();
    card(layer, scene);
    zones(layer, scene, spots);
    margin(layer, scene);
    let seen = scene.view.seen();
    for (piece, shown) in scene.shown.iter().enumerate().filter(|(piece, _)| !scene.lifted.contains(piece)) {
        draw_piece(layer, scene.layout, scene.view, scene.pictures, shapes, (piece, shown, seen));
    }
}

/// Draws one piece where it is shown, if that is in sight.
pub fn draw_piece(
    layer: &Layer,
    layout: &Layout,
    view: &View,
    pictures: &BTreeMap<String, Picture>,
    shapes: &mut Shapes,
    (piece, shown, seen): (usize, &Shown, Rect),
) {
    let Some(sticker) = layout.sticker(&layout.pieces[piece].sticker) else { return };
    let cut_line = sticker.cut_line(&layout.rules);
    // However it is turned, it stays within its furthest point.
    let reach = cut_line.points().iter().map(|point| point.to_vec2().hypot2()).fold(0.0, f64::max).sqrt();
    let at = shown.placement.at;
    if seen.inflate(reach, reach).contains(at) {
        shapes.draw(layer, view, layout, pictures, (sticker, &shown.placement, shown.strength));
        if layout.pieces[piece].locked {
            layer.in_pixels();
            let turned = shown.placement.apply(cut_line.centroid());
            padlock(&layer.context, view.to_canvas(turned));
        }
    }
}

fn card(layer: &Layer, scene: &StillScene) {
    let context = &layer.context;
    let sheet = &scene.layout.sheet;
    let view = scene.view;
    layer.in_pixels();
    let edge =
        Rect::from_points(view.to_canvas(Point::ZERO), view.to_canvas(Point::new(sheet.width, sheet.height)));
    let radius = sheet.corner_radius * view.scale;
    trace_rounded(context, edge, radius);
    context.save();
    context.set_shadow_color(scene.palette.shadow);
    context.set_shadow_blur(SHADOW_PX * layer.ratio);
    context.set_shadow_offset_y(6.0 * layer.ratio);
    context.set_fill_style_str(PAPER);
    context.fill();
    context.restore();
    let background = scene.layout.chosen_background();
    let picture = background.and_then(|background| scene.pictures.get(background.picture.as_ref()?));
    if let Some(picture) = picture {
        context.save();
        context.clip();
        context.set_global_alpha(background.map_or(1.0, |background| background.picture_opacity));
        picture.draw(context, picture.across(edge));
        context.restore();
    }
    // The card is cut through: a double line.
    context.set_line_width(1.0);
    context.set_stroke_style_str(LINE_ON_PAPER);
    trace_rounded(context, edge.inset(0.5), radius);
    context.stroke();
    context.set_stroke_style_str(FAINT_ON_PAPER);
    trace_rounded(context, edge.inset(-DOUBLE_LINE_PX), radius - DOUBLE_LINE_PX);
    context.stroke();
}

fn margin(layer: &Layer, scene: &StillScene) {
    let sheet = &scene.layout.sheet;
    let margin = scene.layout.rules.margin;
    let inner = sheet.bounds().inset(-margin);
    if inner.width() <= 0.0 || inner.height() <= 0.0 {
        return;
    }
    layer.in_millimetres(scene.view);
    let context = &layer.context;
    trace_rounded(context, inner, sheet.corner_radius - margin);
    context.set_line_width(1.0 / scene.view.scale);
    context.set_stroke_style_str(FAINT_ON_PAPER);
    context.stroke();
}

fn zones(layer: &Layer, scene: &StillScene, spots: &mut ZoneSpots) {
    let sheet = &scene.layout.sheet;
    let is_here = |&(index, _): &(usize, &Zone)| scene.chosen_zone != Some(index);
    for (_, zone) in scene.layout.zones().iter().enumerate().filter(is_here) {
        draw_zone(layer, sheet, scene.view, zone);
    }
    layer.in_pixels();
    if !scene.has_zone_names {
        return;
    }
    let spots = spots.of(scene.layout.zones());
    for ((_, zone), disc) in
        scene.layout.zones().iter().enumerate().zip(spots).filter(|(zone, _)| is_here(zone))
    {
        let room = disc.radius * scene.view.scale;
        if sheet.bounds().contains(disc.centre) && room > 7.0 {
            zone_name(&layer.context, &zone.name, scene.view.to_canvas(disc.centre), scene.view.canvas);
        }
    }
}

/// Draws a zone as far as it lies on the card: hatched, with a thin edge.
pub fn draw_zone(layer: &Layer, sheet: &Sheet, view: &View, zone: &Zone) {
    let context = &layer.context;
    context.save();
    layer.in_millimetres(view);
    trace_rounded(context, sheet.bounds(), sheet.corner_radius);
    context.clip();
    trace(context, &zone.outline);
    context.set_fill_style_str(ZONE_GROUND);
    context.fill();
    context.set_stroke_style_str(ZONE_ON_PAPER);
    context.set_line_width(1.0 / view.scale);
    context.stroke();
    context.clip();
    hatch(
        layer,
        view,
        zone.outline.bounds().intersect(view.seen()),
        "rgba(92, 96, 104, 0.20)",
        HATCH_STEP_PX,
    );
    context.restore();
}

/// Slanting lines over a part of the sheet, so many pixels apart, which lie still on it while the view moves.
///
/// The context is in pixels afterwards.
pub fn hatch(layer: &Layer, view: &View, part: Rect, colour: &str, step_px: f64) {
    layer.in_pixels();
    if part.width() <= 0.0 || part.height() <= 0.0 {
        return;
    }
    let context = &layer.context;
    let (low, high) = (view.to_canvas(part.origin()), view.to_canvas(Point::new(part.x1, part.y1)));
    let start = view.origin.x + view.origin.y;
    let first = ((low.x + low.y - start) / step_px).floor();
    let last = ((high.x + high.y - start) / step_px).ceil();
    context.begin_path();
    let mut line = first;
    while line <= last {
        let sum = start + line * step_px;
        context.move_to(sum - low.y, low.y);
        context.line_to(sum - high.y, high.y);
        line += 1.0;
    }
    context.set_line_width(1.0);
    context.set_stroke_style_str(colour);
    context.stroke();
}

/// Writes what a zone is called, on a ground of its own, if its middle is in sight. The context is in pixels.
pub fn zone_name(context: &CanvasRenderingContext2d, name: &str, middle: Point, canvas: Size) {
    if !canvas.to_rect().contains(middle) {
        return;
    }
    context.set_font("500 12px system-ui, sans-serif");
    let width = context.measure_text(name).map_or(40.0, |size| size.width()) + 12.0;
    trace_rounded(context, Rect::from_center_size(middle, (width, 19.0)), 9.5);
    context.set_fill_style_str("rgba(251, 249, 245, 0.86)");
    context.fill();
    context.set_fill_style_str(INK_ON_PAPER);
    context.set_text_align("center");
    context.set_text_baseline("middle");
    let _ = context.fill_text(name, middle.x, middle.y + 0.5);
}

/// A small padlock: this piece stays where it is.
fn padlock(context: &CanvasRenderingContext2d, middle: Point) {
    super::layer::trace_circle(context, middle, 10.0);
    context.set_fill_style_str("rgba(251, 249, 245, 0.92)");
    context.fill();
    context.set_line_width(1.75);
    context.set_stroke_style_str(INK_ON_PAPER);
    context.begin_path();
    let _ = context.arc(middle.x, middle.y - 1.5, 2.75, core::f64::consts::PI, 0.0);
    context.stroke();
    trace_rounded(context, Rect::new(middle.x - 4.5, middle.y - 1.5, middle.x + 4.5, middle.y + 5.0), 1.5);
    context.set_fill_style_str(INK_ON_PAPER);
    context.fill();
}

/// Where the names of zones stand: in the middle of the widest part, worked out once for each zone.
#[derive(Default)]
pub struct ZoneSpots {
    known: Vec<(Arc<Outline>, Disc)>,
}

impl ZoneSpots {
    fn of(&mut self, zones: &[Zone]) -> Vec<Disc> {
        self.known.retain(|(outline, _)| zones.iter().any(|zone| Arc::ptr_eq(&zone.outline, outline)));
        let spot = |zone: &Zone| {
            let known = self.known.iter().find(|(outline, _)| Arc::ptr_eq(outline, &zone.outline));
            if let Some(&(_, disc)) = known {
                return disc;
            }
            let disc = roomy_middle(&zone.outline);
            self.known.push((zone.outline.clone(), disc));
            disc
        };
        zones.iter().map(spot).collect()
    }
}
