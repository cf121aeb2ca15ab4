//! A dialog that the rest of the page waits for.

use leptos::html::Dialog;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The place for a dialog element, which is shown above everything else while `is_open` says so.
pub fn modal(is_open: Signal<bool>) -> NodeRef<Dialog> {
    let dialog = NodeRef::<Dialog>::new();
    Effect::new(move |_| {
        if let Some(dialog) = dialog.get() {
            match (is_open.get(), dialog.open()) {
                (true, false) => drop(dialog.show_modal()),
                (false, true) => dialog.close(),
                _ => {}
            }
        }
    });
    dialog
}

/// The browser gives the focus back to what had it, but the button of a menu that has closed cannot take it; then
/// the button that opens the menu does.
pub fn keep_focus() {
    // Until the next frame the focus may still be said to be within the closed dialog.
    let is_lost = document().active_element().is_none_or(|element| {
        element.tag_name() == "BODY" || matches!(element.closest("dialog"), Ok(Some(_)))
    });
    let button = document().query_selector(".menu-button").ok().flatten();
    if let Some(button) = button.filter(|_| is_lost) {
        // What is not shown passes the focus over.
        let _ = button.unchecked_into::<HtmlElement>().focus();
    }
}
