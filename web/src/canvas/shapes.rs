//! Stickers drawn once and stamped many times.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::{Point, Rect};
use leptos::prelude::document;
use stickleaf_editor::View;
use stickleaf_outline::{Disc, Outline, Placement, depth, inner_disc};
use stickleaf_sheet::{Layout, Sticker, StickerId};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::layer::{Layer, trace};
use super::palette::{LINE_ON_PAPER, WHITE};
use super::rough::draw_rough;
use crate::pictures::Picture;

/// The longest side of a stamp in pixels; a sticker seen larger than that is drawn afresh each time.
const MOST_SIDE_PX: f64 = 900.0;

/// Room round a stamp for its soft edge, in pixels.
const ROOM_PX: f64 = 2.0;

/// How coarse the sketch of a rough sticker is, in millimetres.
const ROUGH_GRAIN: f64 = 1.0;

/// Tints for stickers without a picture: quiet, and far enough from each other to be told apart beside each other.
const TINTS: [&str; 8] =
    ["#d9c7b0", "#bcd0c4", "#c6c9dd", "#e0c3bd", "#cdd3ab", "#b9cfd8", "#dbc4d6", "#d8d2c6"];

/// The stamps of all stickers.
#[derive(Default)]
pub struct Shapes {
    stamps: BTreeMap<StickerId, Stamp>,
}

/// A sticker drawn upright at some scale, and what it was drawn from.
struct Stamp {
    cut_line: Arc<Outline>,
    outline: Arc<Outline>,
    name: String,
    is_rough: bool,
    has_picture: bool,
    scale: f64,
    canvas: HtmlCanvasElement,
    place: Rect,
}

impl Shapes {
    /// Forgets everything, as when another picture has come.
    pub fn clear(&mut self) {
        self.stamps.clear();
    }

    /// Draws one copy of a sticker: white border, picture or tint, kiss line. `strength` is 1 for fully there.
    pub fn draw(
        &mut self,
        layer: &Layer,
        view: &View,
        layout: &Layout,
        pictures: &BTreeMap<String, Picture>,
        (sticker, placement, strength): (&Sticker, &Placement, f64),
    ) {
        let cut_line = sticker.cut_line(&layout.rules);
        let context = &layer.context;
        layer.in_sticker(view, placement);
        context.set_global_alpha(strength);
        let wanted = view.scale * layer.ratio;
        let bounds = cut_line.bounds();
        if bounds.width().max(bounds.height()) * wanted > MOST_SIDE_PX {
            draw_afresh(context, sticker, &cut_line, pictures);
        } else if let Some(stamp) = self.stamp(sticker, &cut_line, pictures, wanted) {
            let Rect { x0, y0, .. } = stamp.place;
            let (width, height) = (stamp.place.width(), stamp.place.height());
            // A stamp has pixels and the numbers are finite, so it is never refused.
            let _ = context.draw_image_with_html_canvas_element_and_dw_and_dh(
                &stamp.canvas,
                x0,
                y0,
                width,
                height,
            );
        }
        kiss_line(context, &cut_line, view.scale);
        context.set_global_alpha(1.0);
    }

    /// The stamp of a sticker that is sharp at this scale, made now if there is none.
    fn stamp(
        &mut self,
        sticker: &Sticker,
        cut_line: &Arc<Outline>,
        pictures: &BTreeMap<String, Picture>,
        wanted: f64,
    ) -> Option<&Stamp> {
        let has_picture = sticker.art.as_ref().is_some_and(|art| pictures.contains_key(&art.file));
        // Between once and twice as fine as needed: sharp, and not made again at every step of a zoom.
        let is_current = self.stamps.get(&sticker.id).is_some_and(|stamp| {
            Arc::ptr_eq(&stamp.cut_line, cut_line)
                && Arc::ptr_eq(&stamp.outline, &sticker.outline)
                && stamp.name == sticker.name
                && stamp.is_rough == sticker.is_rough
                && stamp.has_picture == has_picture
                && (0.999..=2.2).contains(&(stamp.scale / wanted))
        });
        if !is_current {
            let stamp = make_stamp(sticker, cut_line, pictures, has_picture, wanted * 1.3)?;
            self.stamps.insert(sticker.id.clone(), stamp);
        }
        self.stamps.get(&sticker.id)
    }
}

fn make_stamp(
    sticker: &Sticker,
    cut_line: &Arc<Outline>,
    pictures: &BTreeMap<String, Picture>,
    has_picture: bool,
    scale: f64,
) -> Option<Stamp> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    let bounds = cut_line.bounds();
    let size = |mm: f64| (mm * scale + 2.0 * ROOM_PX).ceil().max(1.0);
    let (width, height) = (size(bounds.width()), size(bounds.height()));
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    let (x, y) = (ROOM_PX - bounds.x0 * scale, ROOM_PX - bounds.y0 * scale);
    context.set_transform(scale, 0.0, 0.0, scale, x, y).ok()?;
    draw_afresh(&context, sticker, cut_line, pictures);
    let corner = Point::new(-x / scale, -y / scale);
    let place = Rect::new(corner.x, corner.y, corner.x + width / scale, corner.y + height / scale);
    Some(Stamp {
        cut_line: cut_line.clone(),
        outline: sticker.outline.clone(),
        name: sticker.name.clone(),
        is_rough: sticker.is_rough,
        has_picture,
        scale,
        canvas,
        place,
    })
}

/// White border and picture, in the sticker's own millimetres. Without a picture: a flat tint, or the strokes of a sketch
/// for a rough sticker, and the name.
fn draw_afresh(
    context: &CanvasRenderingContext2d,
    sticker: &Sticker,
    cut_line: &Outline,
    pictures: &BTreeMap<String, Picture>,
) {
    trace(context, cut_line);
    context.set_fill_style_str(WHITE);
    context.fill();
    let picture = sticker.art.as_ref().and_then(|art| Some((pictures.get(&art.file)?, art)));
    if let Some((picture, art)) = picture {
        context.save();
        context.clip();
        picture.draw(context, picture.place(art));
        context.restore();
        return;
    }
    trace(context, &sticker.outline);
    context.set_fill_style_str(if sticker.is_rough { WHITE } else { tint(&sticker.id) });
    context.fill();
    if sticker.is_rough {
        draw_rough(context, &sticker.outline, ROUGH_GRAIN);
    }
    write_name(context, sticker);
}

/// A sticker keeps its tint wherever it stands in the list.
fn tint(id: &str) -> &'static str {
    let sum = id.bytes().fold(7_u32, |sum, byte| sum.wrapping_mul(31).wrapping_add(u32::from(byte)));
    TINTS[(sum >> 3) as usize % TINTS.len()]
}

/// The name across the middle, as large as the widest part of the outline near there lets it be.
fn write_name(context: &CanvasRenderingContext2d, sticker: &Sticker) {
    let disc = roomy_middle(&sticker.outline);
    // A font of one millimetre is below what browsers draw well, so the unit is made smaller for a moment.
    const FINE: f64 = 20.0;
    context.save();
    let _ = context.translate(disc.centre.x, disc.centre.y);
    let _ = context.scale(1.0 / FINE, 1.0 / FINE);
    context.set_font(&format!("600 {FINE}px system-ui, sans-serif"));
    let width = context.measure_text(&sticker.name).map_or(1.0, |size| size.width()).max(1.0);
    let fit = (disc.radius * 1.8 * FINE / width).min(disc.radius * 0.7).min(3.2);
    let _ = context.scale(fit, fit);
    context.set_text_align("center");
    context.set_text_baseline("middle");
    context.set_fill_style_str("rgba(35, 38, 43, 0.82)");
    let _ = context.fill_text(&sticker.name, 0.0, 0.0);
    context.restore();
}

/// Where writing stands best: in the centre of the area if there is about as much room as anywhere, else in the middle
/// of the widest part.
pub fn roomy_middle(outline: &Outline) -> Disc {
    let widest = inner_disc(outline);
    let centre = outline.centroid();
    let room = depth(outline, centre);
    if room >= 0.85 * widest.radius { Disc { centre, radius: room } } else { widest }
}

/// The thin solid line that the blade follows, one pixel wide.
fn kiss_line(context: &CanvasRenderingContext2d, cut_line: &Outline, scale: f64) {
    trace(context, cut_line);
    context.set_line_width(1.0 / scale);
    context.set_stroke_style_str(LINE_ON_PAPER);
    context.stroke();
}
