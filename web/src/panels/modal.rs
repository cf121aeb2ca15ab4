//! A dialog that the rest of the page waits for.

use leptos::html::Dialog;
use leptos::prelude::*;

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
