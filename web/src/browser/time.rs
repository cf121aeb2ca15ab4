//! Clocks, waiting, and how much can go on at a time.

use gloo::timers::callback::Timeout;
use gloo::timers::future::TimeoutFuture;
use leptos::prelude::window;

/// Milliseconds since the page was opened.
pub fn now_ms() -> f64 {
    window().performance().map_or(0.0, |clock| clock.now())
}

/// Milliseconds since 1970 by the device's clock, which may be set back.
pub fn date_ms() -> f64 {
    js_sys::Date::now()
}

/// A time in milliseconds since 1970 as a date with the time of day, as the device's clock has it.
pub fn date_text(at_ms: f64) -> String {
    let options = js_sys::Object::new();
    for (name, value) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        // A plain object takes every property.
        let _ = js_sys::Reflect::set(&options, &name.into(), &value.into());
    }
    js_sys::Date::new(&at_ms.into()).to_locale_string("en-GB", &options).into()
}

/// Today by the device's clock, as ISO 8601 writes it: 2026-03-09.
pub fn day_text() -> String {
    let now = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// Does something later, once.
pub fn after(wait_ms: u32, deed: impl FnOnce() + 'static) {
    Timeout::new(wait_ms, deed).forget();
}

/// Waits.
pub async fn pause(wait_ms: u32) {
    TimeoutFuture::new(wait_ms).await;
}

/// How many processors the browser says there are to use; at least one.
pub fn processors() -> u64 {
    window().navigator().hardware_concurrency().max(1.0) as u64
}
