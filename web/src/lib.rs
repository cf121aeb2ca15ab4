//! The page: a thin skin over the crates.
//!
//! Three programs are made of this library: the page, which begins at [`start_page`], and two for its workers, which begin
//! at [`start_searching`] and [`start_pictures`]. What only one of them calls is only in that one, so the page does not
//! wait for the packer and the readers of pictures to arrive. Start reading at `app.rs` for how the page is divided and at `state.rs` for what it
//! knows; `job.rs` asks workers, `workers/mod.rs` answers. Everything the page says stands in `words.rs`.

mod app;
mod backdrop;
mod bring_in;
mod browser;
mod bundles;
mod canvas;
mod choices;
mod compare;
mod correction;
mod finishing;
mod icons;
mod job;
mod keeping;
mod merge;
mod messages;
mod month;
mod offline;
mod packing;
mod panels;
mod pen_offer;
mod picture_work;
mod pictures;
mod preferences;
mod pressing;
mod replace;
mod room;
mod rough;
mod run_order;
mod runs;
mod samples;
mod shop;
mod state;
mod tour;
mod trials;
mod update;
mod words;
mod workers;

use wasm_bindgen::JsValue;

/// Puts the page into the element `app` of the document.
pub fn start_page() {
    console_error_panic_hook::set_once();
    app::start();
}

/// Makes this worker search: pack, compare, find the empty room.
///
/// Errors: the browser lacks what a worker needs.
pub fn start_searching() -> Result<(), JsValue> {
    console_error_panic_hook::set_once();
    workers::start_searching()
}

/// Makes this worker read and make pictures.
pub fn start_pictures() {
    console_error_panic_hook::set_once();
    workers::start_pictures();
}
