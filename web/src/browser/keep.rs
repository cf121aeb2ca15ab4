//! Small things kept on the device between visits, and those that only this tab keeps.

use leptos::prelude::window;
use web_sys::Storage;

/// What was kept under this name; nothing if there is none, or if the browser keeps nothing.
pub fn kept(name: &str) -> Option<String> {
    local()?.get_item(name).ok()?
}

/// Keeps a text under a name. False if the browser does not: no room left, or storage switched off.
pub fn keep(name: &str, text: &str) -> bool {
    local().is_some_and(|storage| storage.set_item(name, text).is_ok())
}

/// Lets go of what was kept under this name.
pub fn forget(name: &str) {
    if let Some(storage) = local() {
        // What cannot be removed could not be kept either.
        let _ = storage.remove_item(name);
    }
}

/// What this tab kept under this name; it outlives a reload of the tab, not the tab.
pub fn kept_by_tab(name: &str) -> Option<String> {
    tab()?.get_item(name).ok()?
}

/// Keeps a text under a name for this tab only.
pub fn keep_for_tab(name: &str, text: &str) {
    if let Some(storage) = tab() {
        // Without it the tab opens what was open last.
        let _ = storage.set_item(name, text);
    }
}

fn local() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

fn tab() -> Option<Storage> {
    window().session_storage().ok().flatten()
}
