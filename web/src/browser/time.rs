//! Clocks, waiting, and how much can go on at a time.

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

/// How many processors the browser says there are to use; at least one.
pub fn processors() -> u64 {
    window().navigator().hardware_concurrency().max(1.0) as u64
}
