//! When something is drawn: at most once a frame, and only what has changed.

use kurbo::Size;
use leptos::prelude::window;
use stickleaf_editor::{Editor, View};
use stickleaf_sheet::LengthUnit;
use web_sys::{HtmlCanvasElement, HtmlElement};

use super::flash::Flash;
use super::glide::Glide;
use super::layer::Layer;
use super::moving::{self, MovingScene};
use super::palette::{Palette, reduces_motion};
use super::shapes::Shapes;
use super::still::{self, StillScene, ZoneSpots};
use crate::messages::RoomDot;
use crate::pictures::Pictures;

/// The two layers and what is remembered from frame to frame.
pub struct Painter {
    host: HtmlElement,
    still: Layer,
    moving: Layer,
    palette: Palette,
    shapes: Shapes,
    spots: ZoneSpots,
    glide: Glide,
    drawn: Option<StillKey>,
}

/// What the picture on the still layer depends on.
#[derive(Clone, Debug, PartialEq)]
struct StillKey {
    view: View,
    layout_revision: u64,
    /// While packing, every preview is another picture.
    preview_revision: Option<u64>,
    lifted: Vec<usize>,
    chosen_zone: Option<usize>,
}

impl Painter {
    /// A painter on two canvases that lie on each other inside `host`; nothing if the browser gives no context.
    pub fn new(host: HtmlElement, still: HtmlCanvasElement, moving: HtmlCanvasElement) -> Option<Painter> {
        let palette = Palette::read(&host);
        Some(Painter {
            host,
            still: Layer::on(still)?,
            moving: Layer::on(moving)?,
            palette,
            shapes: Shapes::default(),
            spots: ZoneSpots::default(),
            glide: Glide::default(),
            drawn: None,
        })
    }

    /// The size of the place that the canvases fill, in CSS pixels.
    pub fn room(&self) -> Size {
        Size::new(f64::from(self.host.client_width()), f64::from(self.host.client_height()))
    }

    /// Forgets what depends on pictures: another one has come.
    pub fn forget_pictures(&mut self) {
        self.shapes.clear();
        self.drawn = None;
    }

    /// Reads the page's colours again: the colour scheme has changed.
    pub fn read_colours(&mut self) {
        self.palette = Palette::read(&self.host);
        self.drawn = None;
    }

    /// Draws what has changed, the dots that would fit, and what lights up. True if pieces are still under way or lit and
    /// another frame is needed.
    pub fn draw(
        &mut self,
        editor: &Editor,
        pictures: Pictures,
        unit: LengthUnit,
        room: &[RoomDot],
        flash: Option<&Flash>,
        now_ms: f64,
    ) -> bool {
        let ratio = window().device_pixel_ratio();
        let view = editor.view();
        if self.still.resize(view.canvas, ratio) {
            self.drawn = None;
        }
        self.moving.resize(view.canvas, ratio);
        let was_under_way = self.glide.is_under_way(now_ms);
        let shown = self.glide.shown(editor.layout(), editor.is_previewing(), now_ms, reduces_motion);
        let is_under_way = self.glide.is_under_way(now_ms);
        let key = StillKey {
            view: *view,
            layout_revision: editor.layout_revision(),
            preview_revision: editor.is_previewing().then(|| editor.revision()),
            lifted: editor.selection().to_vec(),
            chosen_zone: editor.chosen_zone(),
        };
        let lit = flash.filter(|flash| flash.is_lit(now_ms) && !editor.is_carrying());
        let shapes = &mut self.shapes;
        pictures.with_untracked(|pictures| {
            if is_under_way || was_under_way || self.drawn.as_ref() != Some(&key) {
                let scene = StillScene {
                    layout: editor.layout(),
                    view,
                    palette: &self.palette,
                    pictures,
                    shown: &shown,
                    lifted: editor.selection(),
                    chosen_zone: editor.chosen_zone(),
                    has_zone_names: true,
                };
                still::draw(&self.still, &scene, shapes, &mut self.spots);
                // The last frame of a glide is drawn once more where everything lies.
                self.drawn = (!is_under_way).then_some(key);
            }
            let flash = lit.map(|flash| (flash, now_ms));
            let scene =
                MovingScene { editor, palette: &self.palette, pictures, shown: &shown, unit, room, flash };
            moving::draw(&self.moving, &scene, shapes);
        });
        is_under_way || lit.is_some()
    }
}
