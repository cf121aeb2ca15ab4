//! A small picture of a whole sheet: zones hatched, pieces with their art, cut lines. Nobody moves anything on it.

use std::sync::Arc;

use kurbo::{Point, Size};
use leptos::html;
use leptos::prelude::*;
use stickleaf_editor::View;
use stickleaf_sheet::Layout;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlElement, ResizeObserver};

use super::element::on_cleanup_local;
use super::glide::Shown;
use super::layer::Layer;
use super::palette::Palette;
use super::shapes::Shapes;
use super::still::{self, StillScene, ZoneSpots};
use crate::state::{Desk, use_desk};

/// Room round the largest sheet for its edge, in CSS pixels.
const ROOM_PX: f64 = 4.0;

/// What is kept from one drawing to the next.
struct Brush {
    layer: Layer,
    palette: Palette,
    shapes: Shapes,
    spots: ZoneSpots,
}

/// The picture of a layout, as wide as the element around it.
///
/// `frame` is the size in millimetres of the largest sheet beside it: all are drawn to one scale.
#[component]
pub fn SheetPicture(
    #[prop(into)] layout: Signal<Arc<Layout>>,
    #[prop(into)] frame: Signal<Size>,
    /// The sheet for those who do not see it.
    #[prop(into)]
    label: Signal<String>,
) -> impl IntoView {
    let desk = use_desk();
    let host = NodeRef::<html::Div>::new();
    let canvas = NodeRef::<html::Canvas>::new();
    let brush = StoredValue::new_local(None::<Brush>);
    let width = RwSignal::new(0.0_f64);
    Effect::new(move |_| {
        let (Some(host), Some(canvas)) = (host.get(), canvas.get()) else { return };
        let host: HtmlElement = host.unchecked_into();
        brush.set_value(Layer::on(canvas).map(|layer| Brush {
            layer,
            // A card lies flat on its paper.
            palette: Palette { shadow: "transparent", ..Palette::read(&host) },
            shapes: Shapes::default(),
            spots: ZoneSpots::default(),
        }));
        follow_width(host, width);
    });
    Effect::new(move |_| {
        desk.pictures.track();
        brush.update_value(|brush| {
            if let Some(brush) = brush {
                brush.shapes.clear();
            }
        });
    });
    Effect::new(move |_| {
        desk.pictures.track();
        let (width, frame) = (width.get(), frame.get());
        layout.with(|layout| {
            brush.update_value(|brush| {
                if let Some(brush) = brush.as_mut().filter(|_| width > 0.0) {
                    brush.draw(desk, layout, frame, width);
                }
            });
        });
    });
    let height = move || format!("{}px", canvas_size(frame.get(), width.get()).height);
    view! {
        <div class="sheet-picture" node_ref=host>
            <canvas node_ref=canvas role="img" aria-label=move || label.get() style:height=height></canvas>
        </div>
    }
}

impl Brush {
    fn draw(&mut self, desk: Desk, layout: &Layout, frame: Size, width: f64) {
        let canvas = canvas_size(frame, width);
        let scale = scale(frame, width);
        let sheet = Size::new(layout.sheet.width, layout.sheet.height) * scale;
        let origin = Point::new((canvas.width - sheet.width) / 2.0, (canvas.height - sheet.height) / 2.0);
        let view = View { scale, origin, canvas };
        self.layer.resize(canvas, window().device_pixel_ratio());
        let shown: Vec<Shown> =
            layout.pieces.iter().map(|piece| Shown { placement: piece.placement, strength: 1.0 }).collect();
        desk.pictures.with_untracked(|pictures| {
            let scene = StillScene {
                layout,
                view: &view,
                palette: &self.palette,
                pictures,
                shown: &shown,
                lifted: &[],
                chosen_zone: None,
                has_zone_names: false,
            };
            still::draw(&self.layer, &scene, &mut self.shapes, &mut self.spots);
        });
    }
}

/// Pixels to the millimetre at which the frame is as wide as the canvas, less its room.
fn scale(frame: Size, width: f64) -> f64 {
    (width - 2.0 * ROOM_PX).max(1.0) / frame.width.max(1.0)
}

fn canvas_size(frame: Size, width: f64) -> Size {
    Size::new(width, (frame.height * scale(frame, width) + 2.0 * ROOM_PX).round())
}

/// Keeps the width in step with that of the element.
fn follow_width(host: HtmlElement, width: RwSignal<f64>) {
    let measured = host.clone();
    let measure = move || {
        let now = f64::from(measured.client_width());
        if width.try_get_untracked().is_some_and(|known| known != now) {
            width.try_set(now);
        }
    };
    measure();
    let resized = Closure::<dyn Fn()>::new(measure);
    if let Ok(observer) = ResizeObserver::new(resized.as_ref().unchecked_ref()) {
        observer.observe(&host);
        on_cleanup_local(move || {
            observer.disconnect();
            drop(resized);
        });
    }
}
