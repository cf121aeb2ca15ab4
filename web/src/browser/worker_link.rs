//! A worker that runs this same program, ended when the link to it is dropped.

use js_sys::{Array, ArrayBuffer};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{ErrorEvent, MessageEvent, Worker, WorkerOptions, WorkerType};

/// The script that loads the program into a worker, beside the page.
const SCRIPT: &str = "./worker.js";

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
    /// Errors: the browser has no module workers, or refuses one here.
    pub fn start(
        on_message: impl FnMut(MessageEvent) + 'static,
        on_error: impl FnMut(ErrorEvent) + 'static,
    ) -> Result<WorkerLink, JsValue> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(SCRIPT, &options)?;
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

impl Drop for WorkerLink {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}
