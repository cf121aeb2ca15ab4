//! The worker's side: hears what the page asks, packs, compares, finds the empty room, and finds drawings.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{ArrayBuffer, Uint8Array};
use kurbo::Point;
use stickleaf_art::{Drawing, ImportOptions, Note, TrueSize, import_with};
use stickleaf_sheet::{Art, Layout, MM_PER_INCH, Sticker, Turns, Wanted};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use crate::browser::soon::Soon;
use crate::compare::Rota;
use crate::messages::{Answer, Ask, ImportWishes, Imported, pack, unpack};
use crate::packing::{Packing, Step};

/// Least time between two pieces of news, in milliseconds: ten a second.
const NEWS_MS: f64 = 100.0;

/// How many dropped specks are named; the rest is counted.
const SPECKS_NAMED: usize = 3;

/// Browsers count 96 pixels to the inch (CSS Values and Units).
const CSS_PPI: f64 = 96.0;

type Desk = Rc<RefCell<Option<Work>>>;

/// What goes on in slices.
enum Work {
    Packing(Box<Packing>),
    Comparing(Rota),
}

/// Listens for what the page asks.
///
/// Errors: the browser has no message channels.
pub fn start() -> Result<(), JsValue> {
    let desk: Desk = Rc::default();
    let packing = desk.clone();
    let slices = Soon::new(move || slice(&packing))?;
    let listen = move |event: MessageEvent| {
        if let Some((ask, buffers)) = unpack(&event.data()) {
            answer(&desk, &slices, ask, &buffers);
        }
    };
    let listen = Closure::<dyn FnMut(MessageEvent)>::new(listen);
    let added = scope().add_event_listener_with_callback("message", listen.as_ref().unchecked_ref());
    debug_assert!(added.is_ok(), "a worker's scope takes listeners");
    listen.forget();
    Ok(())
}

fn answer(desk: &Desk, slices: &Soon, ask: Ask, buffers: &[ArrayBuffer]) {
    match ask {
        Ask::Pack { layout, aim, seed, rounds } => match Packing::new(&layout, aim, seed, rounds, now_ms()) {
            Ok(packing) => {
                *desk.borrow_mut() = Some(Work::Packing(Box::new(packing)));
                slices.call();
            }
            Err(why) => say(&Answer::Refused(why)),
        },
        Ask::Compare { tasks, aim, seed, enough } => {
            *desk.borrow_mut() = Some(Work::Comparing(Rota::new(tasks, aim, seed, enough)));
            slices.call();
        }
        Ask::Room { layout, revision } => say(&crate::room::look(&layout, revision)),
        Ask::Stop => match desk.borrow_mut().as_mut() {
            Some(Work::Packing(packing)) => packing.is_told_to_stop = true,
            Some(Work::Comparing(rota)) => rota.is_told_to_stop = true,
            None => {}
        },
        Ask::Import { names, wishes } => {
            let found =
                names.iter().zip(buffers).map(|(name, buffer)| look_at(name, buffer, &wishes)).collect();
            say(&Answer::Imported(found));
        }
    }
}

/// One slice of the work; whether there is more to do.
fn slice(desk: &Desk) -> bool {
    let mut slot = desk.borrow_mut();
    let packing = match slot.as_mut() {
        Some(Work::Packing(packing)) => packing,
        Some(Work::Comparing(rota)) => {
            if let Some(news) = rota.slice(now_ms) {
                say(&news);
            }
            return !rota.is_over();
        }
        None => return false,
    };
    match packing.slice(now_ms) {
        Step::Open(news) => {
            if let Some(news) = news {
                say(&news);
            }
            true
        }
        Step::Ended(last) => {
            *slot = None;
            say(&last);
            false
        }
    }
}

/// The stickers of one file; if there are none, the reason.
fn look_at(name: &str, buffer: &ArrayBuffer, wishes: &ImportWishes) -> Imported {
    let bytes = Uint8Array::new(buffer).to_vec();
    let size = match (wishes.width_mm, wishes.ppi) {
        (Some(width), _) => TrueSize::WidthMm(width),
        (None, Some(ppi)) => TrueSize::Ppi(ppi),
        (None, None) => TrueSize::FromFile,
    };
    let options = ImportOptions {
        file_name: name.to_owned(),
        size,
        min_size_mm: wishes.smallest_mm,
        border_mm: wishes.border_mm,
        join: wishes.join,
        ..ImportOptions::default()
    };
    let mut last_news_ms = 0.0;
    let mut tell = |part: f64| {
        if now_ms() - last_news_ms >= NEWS_MS {
            last_news_ms = now_ms();
            say(&Answer::Importing { name: name.to_owned(), part });
        }
        true
    };
    let import = match import_with(&bytes, &options, &mut tell) {
        Ok(import) => import,
        Err(error) => {
            return Imported {
                name: name.to_owned(),
                trouble: Some(error.to_string()),
                ..Imported::default()
            };
        }
    };
    let drawn_mm = if import.pixels_per_mm.is_some() || size == TrueSize::FromFile {
        (import.width_mm, import.height_mm)
    } else {
        let as_drawn = import_with(&bytes, &ImportOptions { size: TrueSize::FromFile, ..options }, &mut tell);
        as_drawn.map_or((import.width_mm, import.height_mm), |import| (import.width_mm, import.height_mm))
    };
    // A drawing without pixels that was made larger or smaller: its pixels are those that browsers count.
    let is_resized = (drawn_mm.0 - import.width_mm).abs() > 1e-6 * import.width_mm;
    let resized = is_resized.then(|| CSS_PPI / MM_PER_INCH * drawn_mm.0 / import.width_mm);
    let pixels_per_mm = import.pixels_per_mm.or(resized);
    let stickers =
        import.drawings.iter().enumerate().map(|(i, drawing)| sticker(i, drawing, name, pixels_per_mm));
    let layout = Layout { stickers: stickers.collect(), ..Layout::default() };
    let mut dropped: Vec<String> = import
        .dropped
        .iter()
        .take(SPECKS_NAMED)
        .map(|speck| format!("a speck of {:.2} mm at {:.0}, {:.0} mm", speck.size, speck.at.x, speck.at.y))
        .collect();
    let more = import.dropped_count.saturating_sub(dropped.len() as u64);
    if more > 0 {
        dropped.push(format!("{more} more specks"));
    }
    Imported {
        name: name.to_owned(),
        layout: stickleaf_files::write(&layout),
        width_mm: import.width_mm,
        height_mm: import.height_mm,
        drawn_mm,
        pixels: import.width_px.zip(import.height_px),
        is_size_known: !import.notes.iter().any(|note| matches!(note, Note::SizeAssumed { .. })),
        dropped,
        notes: import.notes.iter().map(Note::to_string).collect(),
        trouble: None,
    }
}

fn sticker(index: usize, drawing: &Drawing, file: &str, pixels_per_mm: Option<f64>) -> Sticker {
    // Ids are made unique by the page, which knows the stickers that are there already.
    let mut sticker =
        Sticker::new(format!("drawing-{}", index + 1), drawing.name.clone(), drawing.outline.clone());
    sticker.wanted = Wanted::AtLeast(1);
    sticker.turns = Turns::Within(15.0);
    sticker.art = Some(Art {
        file: file.to_owned(),
        at: Point::new(-drawing.centre.x, -drawing.centre.y),
        pixels_per_mm,
        carried: Default::default(),
    });
    sticker
}

fn say(answer: &Answer) {
    let posted = scope().post_message(&pack(answer, &[]));
    debug_assert!(posted.is_ok(), "texts can be posted");
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}

fn now_ms() -> f64 {
    scope().performance().map_or(0.0, |clock| clock.now())
}
