//! The sheet in small, to know a project by.

use std::collections::BTreeMap;

use kurbo::{Point, Size};
use leptos::prelude::document;
use stickleaf_editor::View;
use stickleaf_sheet::Layout;
use wasm_bindgen::JsCast;
use web_sys::HtmlCanvasElement;

use super::layer::{Layer, trace, trace_rounded};
use super::palette::{LINE_ON_PAPER, PAPER, ZONE_GROUND};
use super::shapes::Shapes;
use crate::pictures::Picture;

/// The longer side of the picture in CSS pixels.
const SIDE_PX: f64 = 120.0;

/// Pixels to the CSS pixel.
const RATIO: f64 = 2.0;

/// How good the picture is, 0 to 1: a few kilobytes.
const QUALITY: f64 = 0.8;

/// Draws sheets in small, and remembers their stickers from one time to the next.
#[derive(Default)]
pub struct Miniature {
    layer: Option<Layer>,
    shapes: Shapes,
}

impl Miniature {
    /// Forgets what depends on pictures: another one has come.
    pub fn forget_pictures(&mut self) {
        self.shapes.clear();
    }

    /// The address of a small picture of the sheet, which holds its own data; nothing if the browser draws none.
    pub fn draw(&mut self, layout: &Layout, pictures: &BTreeMap<String, Picture>) -> Option<String> {
        if self.layer.is_none() {
            let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
            self.layer = Layer::on(canvas);
        }
        let layer = self.layer.as_mut()?;
        let sheet = &layout.sheet;
        let scale = SIDE_PX / sheet.width.max(sheet.height);
        let view = View { scale, origin: Point::ZERO, canvas: Size::new(sheet.width, sheet.height) * scale };
        layer.resize(view.canvas, RATIO);
        layer.clear();
        layer.in_millimetres(&view);
        let context = &layer.context;
        trace_rounded(context, sheet.bounds(), sheet.corner_radius);
        context.save();
        context.clip();
        context.set_fill_style_str(PAPER);
        context.fill();
        let background = layout.chosen_background();
        if let Some(picture) = background.and_then(|background| pictures.get(background.picture.as_ref()?)) {
            picture.draw(context, picture.across(sheet.bounds()));
        }
        context.set_fill_style_str(ZONE_GROUND);
        for zone in layout.zones() {
            trace(context, &zone.outline);
            context.fill();
        }
        for piece in &layout.pieces {
            if let Some(sticker) = layout.sticker(&piece.sticker) {
                self.shapes.draw(layer, &view, layout, pictures, (sticker, &piece.placement, 1.0));
            }
        }
        context.restore();
        layer.in_millimetres(&view);
        trace_rounded(context, sheet.bounds(), sheet.corner_radius);
        context.set_stroke_style_str(LINE_ON_PAPER);
        context.set_line_width(1.0 / view.scale);
        context.stroke();
        layer.address("image/webp", QUALITY)
    }
}
