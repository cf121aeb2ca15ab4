//! The element: its size, its listeners, and when it is drawn.

use gloo::events::{EventListener, EventListenerOptions};
use kurbo::Point;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use stickleaf_editor::{Editor, PointerKind, Tool};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlCanvasElement, HtmlElement, MouseEvent, ResizeObserver, WheelEvent};

use super::input;
use super::painter::Painter;
use crate::browser::time::{after, now_ms};
use crate::choices;
use crate::pen_offer;
use crate::room::RoomFinder;
use crate::state::{Desk, use_desk};
use crate::words;

/// How long a press is a long one, in milliseconds.
///
/// Common practice, no source.
const LONG_PRESS_MS: u32 = 500;

/// What touches the glass more broadly than this is a palm and opens nothing, in pixels.
///
/// Common practice, no source.
const PALM_PX: i32 = 50;

/// The sheet on its desk, as large as the element around it.
///
/// Reads and changes the page's [`Desk`], which it finds as context.
#[component]
pub fn SheetCanvas() -> impl IntoView {
    let desk = use_desk();
    let host = NodeRef::<html::Div>::new();
    let still = NodeRef::<html::Canvas>::new();
    let moving = NodeRef::<html::Canvas>::new();
    let finder = expect_context::<RoomFinder>();
    let frames = Frames::new(desk, finder);
    let space_is_held = StoredValue::new(false);
    let summary = Memo::new(move |_| summary(desk));

    Effect::new(move |_| {
        if let (Some(host), Some(still), Some(moving)) = (host.get(), still.get(), moving.get()) {
            frames.start(host.into(), still, moving.clone());
            listen_to_wheel(desk, &moving);
        }
    });
    // Everything that is drawn comes through one of these.
    Effect::new(move |_| {
        desk.read(|editor| editor.revision());
        desk.unit.track();
        frames.ask();
    });
    Effect::new(move |_| {
        finder.fresh.track();
        desk.flash.track();
        frames.ask();
    });
    Effect::new(move |_| {
        desk.pictures.track();
        frames.with_painter(Painter::forget_pictures);
        frames.ask();
    });

    let presses = StoredValue::new(0_u32);
    let on_canvas = place;
    let place = move |event: &PointerEvent| {
        moving.get_untracked().map_or(Point::ZERO, |canvas| on_canvas(&canvas, event))
    };
    let down = move |event: PointerEvent| {
        let Some(canvas) = moving.get_untracked() else { return };
        event.prevent_default();
        // A resting palm has opened it, and now the pen comes.
        desk.choices.set(None);
        // The keys that follow belong to the sheet.
        let _ = canvas.focus();
        // A pointer that is gone already cannot be held; then its end comes as a cancel.
        let _ = canvas.set_pointer_capture(event.pointer_id());
        if let Some(input) = input::pressed(&event, place(&event), space_is_held.get_value()) {
            desk.act(|editor| editor.input(input));
            if event.pointer_type() != "mouse" {
                wait_for_long_press(desk, presses, &event);
            }
        }
        show_cursor(desk, &canvas, place(&event));
    };
    let moved = move |event: PointerEvent| {
        let at = place(&event);
        desk.act(|editor| editor.input(input::moved(&event, at)));
        if let Some(canvas) = moving.get_untracked().filter(|_| event.pointer_type() != "touch") {
            show_cursor(desk, &canvas, at);
        }
    };
    let lifted = move |event: PointerEvent| {
        let at = place(&event);
        presses.update_value(|presses| *presses += 1);
        choices::let_go(desk);
        desk.act(|editor| editor.input(input::lifted(&event, at)));
        if event.pointer_type() == "pen" {
            pen_offer::offer(desk);
        }
    };
    let cancelled = move |event: PointerEvent| {
        presses.update_value(|presses| *presses += 1);
        choices::let_go(desk);
        desk.act(|editor| editor.input(input::cancelled(&event)));
    };
    let right_clicked = move |event: MouseEvent| {
        event.prevent_default();
        let Some(canvas) = moving.get_untracked() else { return };
        // A long press makes such an event too, on some devices; but there a pointer is down.
        if !desk.peek(Editor::has_pointer) {
            let at = on_canvas(&canvas, &event);
            let on = desk.peek(|editor| editor.hit(at.x, at.y, PointerKind::Mouse.slop_px()));
            choices::open(desk, &canvas, Some(at), on, false);
        }
    };
    let key_down = move |event: KeyboardEvent| {
        if event.key() == "ContextMenu" || (event.key() == "F10" && event.shift_key()) {
            event.prevent_default();
            if let Some(canvas) = moving.get_untracked() {
                let chosen = desk.peek(|editor| editor.selection().first().copied());
                choices::open(desk, &canvas, None, chosen, false);
            }
        } else if event.key() == " " {
            space_is_held.set_value(true);
            event.prevent_default();
        } else if let Some(input) = input::key(&event) {
            event.prevent_default();
            desk.act(|editor| editor.input(input));
        }
    };
    let key_up = move |event: KeyboardEvent| {
        if event.key() == " " {
            space_is_held.set_value(false);
        }
    };

    view! {
        <div class="sheet-canvas" node_ref=host style="position: relative; overflow: hidden; width: 100%; height: 100%">
            <canvas node_ref=still aria-hidden="true" style="position: absolute; inset: 0; width: 100%; height: 100%"></canvas>
            <canvas
                node_ref=moving
                class="sheet-canvas-top"
                style="position: absolute; inset: 0; width: 100%; height: 100%; touch-action: none; user-select: none; -webkit-user-select: none; -webkit-touch-callout: none"
                tabindex="0"
                role="application"
                aria-label=words::sheet()
                aria-description=move || summary.get()
                on:pointerdown=down
                on:pointermove=moved
                on:pointerup=lifted
                on:pointercancel=cancelled
                on:contextmenu=right_clicked
                // A tap is done when the finger lifts. The click that browsers make of it afterwards would press whatever
                // has come to lie under the finger meanwhile.
                on:touchend=move |event| if event.cancelable() { event.prevent_default() }
                on:keydown=key_down
                on:keyup=key_up
                on:blur=move |_| space_is_held.set_value(false)
            ></canvas>
        </div>
    }
}

/// Opens the choices when a finger or a pen stays where it came down. What it began is given up without a trace.
///
/// `presses` counts what has come down or gone up, so that an older press does nothing.
fn wait_for_long_press(desk: Desk, presses: StoredValue<u32>, event: &PointerEvent) {
    let cancel = input::cancelled(event);
    let element: Option<HtmlCanvasElement> = event.current_target().and_then(|target| target.dyn_into().ok());
    presses.update_value(|presses| *presses += 1);
    let (this, id) = (presses.get_value(), input::id(event));
    if event.width().max(event.height()) > PALM_PX {
        return;
    }
    after(LONG_PRESS_MS, move || {
        let is_held = presses.try_get_value() == Some(this);
        let resting = desk.peek(Editor::resting).filter(|resting| is_held && resting.id == id);
        if let (Some(canvas), Some(resting)) = (element, resting) {
            desk.act(|editor| editor.input(cancel));
            choices::open(desk, &canvas, Some(resting.at), resting.piece, true);
        }
    });
}

/// The sheet in one sentence, for those who do not see it.
fn summary(desk: Desk) -> String {
    let broken =
        desk.read_at_rest(|editor| editor.findings().iter().filter(|finding| finding.is_broken()).count());
    let (width, height, count) =
        desk.layout.with(|layout| (layout.sheet.width, layout.sheet.height, layout.pieces.len()));
    let (width, height) = (desk.length(width), desk.length(height));
    words::sheet_in_a_sentence(&width, &height, count, broken)
}

/// The point of the canvas that a pointer is over.
///
/// Pens tell fractions of a pixel, which the typed binding of the event cuts off; so they are read by name.
fn place(canvas: &HtmlCanvasElement, event: &MouseEvent) -> Point {
    let read = |name: &str, otherwise: i32| {
        let value = js_sys::Reflect::get(event, &name.into()).ok().and_then(|value| value.as_f64());
        value.unwrap_or_else(|| f64::from(otherwise))
    };
    let corner = canvas.get_bounding_client_rect();
    Point::new(
        read("clientX", event.client_x()) - corner.left(),
        read("clientY", event.client_y()) - corner.top(),
    )
}

/// Shows what a pointer would do here.
fn show_cursor(desk: Desk, canvas: &HtmlCanvasElement, at: Point) {
    let cursor = desk.peek(|editor| {
        let on_handle = editor.turn_handle().is_some_and(|handle| (handle.at - at).hypot2() < 14.0 * 14.0);
        let is_free = || editor.hit(at.x, at.y, 2.0).is_none();
        if editor.tool().is_drawing() || (editor.tool() == Tool::Choose && is_free()) {
            "crosshair"
        } else if editor.is_carrying() {
            "grabbing"
        } else if on_handle || editor.hit(at.x, at.y, 2.0).is_some() {
            "grab"
        } else {
            "default"
        }
    });
    // A known cursor is never refused.
    let _ = HtmlElement::style(canvas).set_property("cursor", cursor);
}

/// Zooms and pans with the wheel; the page itself must not scroll then, so the listener says that it may prevent it.
fn listen_to_wheel(desk: Desk, canvas: &HtmlCanvasElement) {
    let element = canvas.clone();
    let options = EventListenerOptions::enable_prevent_default();
    let turned = EventListener::new_with_options(canvas, "wheel", options, move |event| {
        let event: &WheelEvent = event.unchecked_ref();
        event.prevent_default();
        let at = place(&element, event);
        desk.act(|editor| editor.input(input::wheeled(event, at)));
    });
    on_cleanup_local(move || drop(turned));
}

/// Asks for frames and draws in them.
#[derive(Clone, Copy)]
struct Frames {
    desk: Desk,
    finder: RoomFinder,
    painter: StoredValue<Option<Painter>, LocalStorage>,
    is_asked: StoredValue<bool>,
}

impl Frames {
    fn new(desk: Desk, finder: RoomFinder) -> Frames {
        Frames { desk, finder, painter: StoredValue::new_local(None), is_asked: StoredValue::new(false) }
    }

    /// Begins to draw on these canvases, and to follow their size and the page's colours.
    fn start(self, host: HtmlElement, still: HtmlCanvasElement, moving: HtmlCanvasElement) {
        let Some(painter) = Painter::new(host.clone(), still, moving) else {
            self.desk.say_trouble(words::no_drawing());
            return;
        };
        self.painter.set_value(Some(painter));
        self.measure();
        let resized = Closure::<dyn Fn()>::new(move || self.measure());
        if let Ok(observer) = ResizeObserver::new(resized.as_ref().unchecked_ref()) {
            observer.observe(&host);
            on_cleanup_local(move || {
                observer.disconnect();
                drop(resized);
            });
        }
        // Another zoom of the page or another screen: other pixels.
        let rescaled = window_event_listener(leptos::ev::resize, move |_| self.measure());
        on_cleanup(move || rescaled.remove());
        self.follow_colours("(prefers-color-scheme: dark)");
    }

    fn follow_colours(self, query: &str) {
        let Some(media) = window().match_media(query).ok().flatten() else { return };
        // A browser too old for this keeps the colours it started with.
        let changed = EventListener::new(&media, "change", move |_| {
            self.with_painter(Painter::read_colours);
            self.ask();
        });
        on_cleanup_local(move || drop(changed));
    }

    fn with_painter(self, deed: impl FnOnce(&mut Painter)) {
        // After the canvas is gone there is nothing to do.
        let _ = self.painter.try_update_value(|painter| painter.as_mut().map(deed));
    }

    /// Tells the editor how large the canvas is.
    fn measure(self) {
        let Some(Some(room)) = self.painter.try_with_value(|painter| painter.as_ref().map(Painter::room))
        else {
            return;
        };
        self.desk.act(|editor| editor.set_canvas_size(room.width, room.height));
        self.ask();
    }

    /// Asks for a frame, unless one is coming already.
    fn ask(self) {
        if self.is_asked.try_get_value() == Some(false) {
            self.is_asked.set_value(true);
            request_animation_frame(move || self.draw());
        }
    }

    fn draw(self) {
        // The canvas may be gone by now.
        if self.is_asked.try_update_value(|is_asked| *is_asked = false).is_none() {
            return;
        }
        let desk = self.desk;
        let unit = desk.unit.get_untracked();
        let found = self.finder.fresh.get_untracked();
        let room = found.as_ref().map_or(&[][..], |found| &found.dots);
        let flash = desk.flash.get_untracked();
        let mut goes_on = false;
        self.with_painter(|painter| {
            goes_on =
                desk.peek(|editor| painter.draw(editor, desk.pictures, unit, room, flash.as_ref(), now_ms()));
        });
        if goes_on {
            self.ask();
        }
    }
}

/// Gives the sheet the focus: the keys that follow are its own.
pub fn focus_sheet() {
    let sheet = document().query_selector(".sheet-canvas-top").ok().flatten();
    if let Some(sheet) = sheet.and_then(|sheet| sheet.dyn_into::<HtmlElement>().ok()) {
        // What is not shown passes the focus over.
        let _ = sheet.focus();
    }
}

/// Does something with browser objects when the canvas goes; they live on one thread, as the page does.
pub(super) fn on_cleanup_local(deed: impl FnOnce() + 'static) {
    let kept = StoredValue::new_local(Some(deed));
    on_cleanup(move || {
        if let Some(Some(deed)) = kept.try_update_value(Option::take) {
            deed();
        }
    });
}
