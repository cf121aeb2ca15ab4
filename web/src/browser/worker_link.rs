//! A worker that runs this same program, ended when the link to it is dropped.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{ErrorEvent, MessageEvent, Worker, WorkerOptions, WorkerType};

/// Where `index.html` says what the script is called that loads the program into a worker.
const SCRIPT: &str = "[data-worker]";

/// A running worker.
pub struct WorkerLink {
    worker: Worker,
    /// Held, because the worker calls them as long as it lives.
    _on_message: Closure<dyn FnMut(MessageEvent)>,
    _on_error: Closure<dyn FnMut(ErrorEvent)>,
}

impl WorkerLink {
    /// Starts a worker. It may be asked something at once.
    ///
    /// Errors: the browser has no module workers, or refuses one here; the page does not say where the script is.
    pub fn start(
        on_message: impl FnMut(MessageEvent) + 'static,
        on_error: impl FnMut(ErrorEvent) + 'static,
    ) -> Result<WorkerLink, JsValue> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&script()?, &options)?;
        let on_message = Closure::<dyn FnMut(MessageEvent)>::new(on_message);
        let on_error = Closure::<dyn FnMut(ErrorEvent)>::new(on_error);
        worker.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
        worker.set_onerror(Some(on_error.as_ref().unchecked_ref()));
        Ok(WorkerLink { worker, _on_message: on_message, _on_error: on_error })
    }

    /// Sends a message; these buffers are handed over and are empty here afterwards.
    pub fn post(&self, message: &Array, buffers: &[ArrayBuffer]) -> Result<(), JsValue> {
        self.worker.post_message_with_transfer(message, &buffers.iter().collect::<Array>())
    }
}

/// The script's address. Its name follows its content, so that it is of the same build as the page.
fn script() -> Result<String, JsValue> {
    let place = document().query_selector(SCRIPT)?;
    place
        .and_then(|place| place.get_attribute("data-worker"))
        .ok_or_else(|| "the page names no worker".into())
}

impl Drop for WorkerLink {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}
