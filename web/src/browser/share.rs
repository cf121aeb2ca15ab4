//! Handing a file to another program through the device's own share sheet, where there is one.

use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

/// Whether the device can hand this file on.
pub fn can_share(file: &File) -> bool {
    let navigator = window().navigator();
    let asked = method(&navigator, "canShare").and_then(|ask| ask.call1(&navigator, &data(file)).ok());
    asked.is_some_and(|answer| answer.is_truthy())
}

/// Shows the share sheet with this file. To be called from a tap. That the artist closes the sheet is no trouble.
pub async fn share(file: &File) {
    let navigator = window().navigator();
    let shown = method(&navigator, "share").and_then(|share| share.call1(&navigator, &data(file)).ok());
    if let Some(shown) = shown.and_then(|promise| promise.dyn_into::<js_sys::Promise>().ok()) {
        let _ = JsFuture::from(shown).await;
    }
}

/// A method that not every browser has.
fn method(navigator: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(navigator, &name.into()).ok()?.dyn_into().ok()
}

fn data(file: &File) -> Object {
    let data = Object::new();
    // A plain object takes every property.
    let _ = Reflect::set(&data, &"files".into(), &Array::of1(file));
    data
}
