//! Small things kept on the device between visits.

use leptos::prelude::window;

/// What was kept under this name; nothing if there is none, or if the browser keeps nothing.
pub fn kept(name: &str) -> Option<String> {
    window().local_storage().ok()??.get_item(name).ok()?
}

/// Keeps a text under a name. False if the browser does not: no room left, or storage switched off.
pub fn keep(name: &str, text: &str) -> bool {
    let storage = window().local_storage().ok().flatten();
    storage.is_some_and(|storage| storage.set_item(name, text).is_ok())
}
