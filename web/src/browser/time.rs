//! Clocks and waiting.

use gloo::timers::callback::Timeout;
use leptos::prelude::window;

/// Milliseconds since the page was opened.
pub fn now_ms() -> f64 {
    window().performance().map_or(0.0, |clock| clock.now())
}

/// Does something later, once.
pub fn after(wait_ms: u32, deed: impl FnOnce() + 'static) {
    Timeout::new(wait_ms, deed).forget();
}
