//! What a worker hears and says.

use js_sys::ArrayBuffer;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use crate::messages::{pack, unpack};
use crate::words::language::{Language, speak};

/// Least time between two pieces of news, in milliseconds: ten a second.
const NEWS_MS: f64 = 100.0;

/// Calls back with every message that makes sense, and the buffers that came with it, as long as the worker lives.
pub fn listen<T: DeserializeOwned>(mut hear: impl FnMut(T, Vec<ArrayBuffer>) + 'static) {
    let listen = move |event: MessageEvent| {
        if let Some((ask, buffers)) = unpack(&event.data()) {
            hear(ask, buffers);
        }
    };
    let listen = Closure::<dyn FnMut(MessageEvent)>::new(listen);
    let added = scope().add_event_listener_with_callback("message", listen.as_ref().unchecked_ref());
    debug_assert!(added.is_ok(), "a worker's scope takes listeners");
    listen.forget();
}

/// Answers.
pub fn say(answer: &impl Serialize) {
    hand_over(answer, &[]);
}

/// Answers, and gives these buffers away with it; they are empty here afterwards.
pub fn hand_over(answer: &impl Serialize, buffers: &[ArrayBuffer]) {
    let moved = buffers.iter().collect::<js_sys::Array>();
    let posted = scope().post_message_with_transfer(&pack(answer, buffers), &moved);
    debug_assert!(posted.is_ok(), "texts and buffers can be posted");
}

/// Milliseconds since the worker began.
pub fn now_ms() -> f64 {
    scope().performance().map_or(0.0, |clock| clock.now())
}

/// Lets news through at most ten times a second.
#[derive(Default)]
pub struct News {
    last_ms: f64,
}

impl News {
    /// Whether it is time for news.
    pub fn is_due(&mut self) -> bool {
        let now = now_ms();
        let is_due = now - self.last_ms >= NEWS_MS;
        if is_due {
            self.last_ms = now;
        }
        is_due
    }
}

/// Speaks as the page does that started this worker, which named it so.
pub fn speak_as_the_page() {
    if let Some(language) = Language::from_tag(&scope().name()) {
        speak(language);
    }
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}
