//! A worker that runs one of the page's other programs, ended when the link to it is dropped.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{ErrorEvent, MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::words::language::spoken;

/// What a worker runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Program {
    /// Packing, comparing, the empty room.
    Search,
    /// Reading pictures and making new ones.
    Pictures,
}

impl Program {
    /// The attribute in `index.html` that says what the script is called that loads it.
    fn attribute(self) -> &'static str {
        match self {
            Program::Search => "data-search-worker",
            Program::Pictures => "data-picture-worker",
        }
    }
}

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
        program: Program,
        on_message: impl FnMut(MessageEvent) + 'static,
        on_error: impl FnMut(ErrorEvent) + 'static,
    ) -> Result<WorkerLink, JsValue> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        // A worker cannot ask what the page speaks; its name says so.
        options.set_name(spoken().tag());
        let worker = Worker::new_with_options(&script(program)?, &options)?;
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
fn script(program: Program) -> Result<String, JsValue> {
    let attribute = program.attribute();
    let place = document().query_selector(&format!("[{attribute}]"))?;
    place
        .and_then(|place| place.get_attribute(attribute))
        .ok_or_else(|| format!("the page does not say where its {program:?} program is").into())
}

impl Drop for WorkerLink {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}
