//! The page: a thin skin over the crates.
//!
//! The page and the packing worker are one program with two doors: [`start_page`] and [`start_worker`]. Start reading
//! at `app.rs` for how the page is divided and at `state.rs` for what it knows; `job.rs` asks workers, `worker.rs`
//! answers. Everything the page says stands in `words.rs`.

mod app;
mod bring_in;
mod browser;
mod canvas;
mod compare;
mod icons;
mod job;
mod keeping;
mod messages;
mod offline;
mod packing;
mod panels;
mod pictures;
mod replace;
mod room;
mod rough;
mod samples;
mod state;
mod words;
mod worker;

use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// Puts the page into the element `app` of the document.
#[wasm_bindgen]
pub fn start_page() {
    console_error_panic_hook::set_once();
    app::start();
}

/// Makes this worker answer what the page asks of it.
///
/// Errors: the browser lacks what a worker needs.
#[wasm_bindgen]
pub fn start_worker() -> Result<(), JsValue> {
    console_error_panic_hook::set_once();
    worker::start()
}
