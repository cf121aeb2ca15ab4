//! A small picture of a sticker: its border, its drawing, its cut line.

use leptos::prelude::*;
use stickleaf_outline::Outline;
use stickleaf_sheet::{Rules, Sticker};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, Url};

use crate::canvas::draw_rough;
use crate::pictures::Picture;
use crate::state::use_desk;

/// Side of the picture in CSS pixels.
const SIDE_PX: f64 = 56.0;

/// Room left round it, in CSS pixels.
const ROOM_PX: f64 = 3.0;

/// How coarse the sketch of a rough sticker is, in CSS pixels.
const ROUGH_GRAIN_PX: f64 = 4.0;

/// The picture of a sticker; follows its outline, its border and its art.
///
/// It is drawn on a canvas out of sight and shown as an image: a browser keeps each canvas of the page as a layer of its own and
/// goes through all of them whenever anything on the page changes.
#[component]
pub fn Thumbnail(
    /// The sticker's id.
    id: String,
) -> impl IntoView {
    let desk = use_desk();
    let canvas: Option<HtmlCanvasElement> =
        document().create_element("canvas").ok().and_then(|element| element.dyn_into().ok());
    let canvas = StoredValue::new_local(canvas);
    let address = Address::new();
    let shown =
        Memo::new(move |_| desk.layout.with(|layout| Some((layout.sticker(&id)?.clone(), layout.rules))));
    Effect::new(move |before: Option<Look>| {
        let art = shown.with(|shown| shown.as_ref().and_then(|(sticker, _)| sticker.art.clone()));
        let now = Look { shown: shown.get(), picture: art.and_then(|art| desk.pictures.get(&art.file)) };
        // Most of the pictures that come are of other stickers.
        if before.as_ref() != Some(&now)
            && let (Some(canvas), Some((sticker, rules))) = (canvas.get_value(), &now.shown)
            && draw(&canvas, sticker, rules, now.picture.as_ref()).is_some()
        {
            address.take(&canvas);
        }
        now
    });
    view! { <img class="thumbnail" alt="" aria-hidden="true" src=move || address.url.get() /> }
}

/// What a small picture shows.
#[derive(PartialEq)]
struct Look {
    shown: Option<(Sticker, Rules)>,
    picture: Option<Picture>,
}

/// Draws a sticker, with its picture if that is there; nothing where the browser has no canvas to draw on.
fn draw(
    canvas: &HtmlCanvasElement,
    sticker: &Sticker,
    rules: &Rules,
    picture: Option<&Picture>,
) -> Option<()> {
    let ratio = window().device_pixel_ratio().clamp(1.0, 3.0);
    let context = prepared(canvas, ratio, sticker, rules)?;
    let cut_line = sticker.cut_line(rules);
    trace(&context, &cut_line);
    context.set_fill_style_str("#ffffff");
    context.fill();
    match picture.zip(sticker.art.as_ref()) {
        Some((picture, art)) => {
            context.save();
            context.clip();
            picture.draw(&context, picture.place(art));
            context.restore();
        }
        None => {
            trace(&context, &sticker.outline);
            context.set_fill_style_str(if sticker.is_rough { "#ffffff" } else { "#c9d6cf" });
            context.fill();
            if sticker.is_rough {
                draw_rough(&context, &sticker.outline, ROUGH_GRAIN_PX / scale(sticker, rules));
            }
        }
    }
    trace(&context, &cut_line);
    context.set_line_width(1.0 / scale(sticker, rules));
    context.set_stroke_style_str("rgba(80, 84, 92, 0.55)");
    context.stroke();
    Some(())
}

/// Where the browser keeps the picture that is shown, until there is another one.
#[derive(Clone, Copy)]
struct Address {
    url: RwSignal<Option<String>>,
    /// Counts the pictures, since the browser may have an earlier one ready after a later one.
    latest: StoredValue<u64>,
}

impl Address {
    fn new() -> Address {
        let address = Address { url: RwSignal::new(None), latest: StoredValue::new(0) };
        on_cleanup(move || address.let_go());
        address
    }

    /// Shows what is drawn on a canvas. A browser that does not let it be read shows what there was.
    fn take(self, canvas: &HtmlCanvasElement) {
        let number = self.latest.get_value() + 1;
        self.latest.set_value(number);
        let made = Closure::once_into_js(move |blob: Option<Blob>| {
            // The card may be gone by now, or a later picture be on its way.
            if self.latest.try_get_value() != Some(number) {
                return;
            }
            if let Some(url) = blob.and_then(|blob| Url::create_object_url_with_blob(&blob).ok()) {
                self.let_go();
                self.url.set(Some(url));
            }
        });
        let _ = canvas.to_blob(made.unchecked_ref());
    }

    fn let_go(self) {
        if let Some(Some(url)) = self.url.try_get_untracked() {
            let _ = Url::revoke_object_url(&url);
        }
    }
}

/// CSS pixels to the millimetre at which a sticker just fits.
fn scale(sticker: &Sticker, rules: &Rules) -> f64 {
    let bounds = sticker.cut_line(rules).bounds();
    (SIDE_PX - 2.0 * ROOM_PX) / bounds.width().max(bounds.height()).max(0.1)
}

/// A clean canvas whose unit is the sticker's millimetre, with the sticker's middle in its own.
fn prepared(
    canvas: &HtmlCanvasElement,
    ratio: f64,
    sticker: &Sticker,
    rules: &Rules,
) -> Option<CanvasRenderingContext2d> {
    let side = (SIDE_PX * ratio).round();
    canvas.set_width(side as u32);
    canvas.set_height(side as u32);
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    let scale = scale(sticker, rules) * ratio;
    let middle = sticker.cut_line(rules).bounds().center();
    context
        .set_transform(scale, 0.0, 0.0, scale, side / 2.0 - middle.x * scale, side / 2.0 - middle.y * scale)
        .ok()?;
    Some(context)
}

fn trace(context: &CanvasRenderingContext2d, outline: &Outline) {
    context.begin_path();
    for (i, point) in outline.points().iter().enumerate() {
        if i == 0 {
            context.move_to(point.x, point.y);
        } else {
            context.line_to(point.x, point.y);
        }
    }
    context.close_path();
}
