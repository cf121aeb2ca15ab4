//! The page: a thin skin over the crates.
//!
//! Two programs are made of this library: the page, which begins at [`start_page`], and its worker, which begins at
//! [`start_worker`]. What only one of them calls is only in that one, so the page does not wait for the packer and the
//! readers of pictures to arrive. Start reading at `app.rs` for how the page is divided and at `state.rs` for what it
//! knows; `job.rs` asks workers, `worker.rs` answers. Everything the page says stands in `words.rs`.

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
mod preferences;
mod replace;
mod room;
mod rough;
mod samples;
mod state;
mod words;
mod worker;

use wasm_bindgen::JsValue;

/// Puts the page into the element `app` of the document.
pub fn start_page() {
    console_error_panic_hook::set_once();
    app::start();
}

/// Makes this worker answer what the page asks of it.
///
/// Errors: the browser lacks what a worker needs.
pub fn start_worker() -> Result<(), JsValue> {
    console_error_panic_hook::set_once();
    worker::start()
}
