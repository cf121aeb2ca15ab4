//! How much the browser keeps for this page, and whether it promises to.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// How the browser keeps what this page stores on the device.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Standing {
    /// Whether it promises not to clear it by itself; nothing if it does not say.
    pub is_promised: Option<bool>,
    /// Bytes in use; nothing if it does not say.
    pub used: Option<f64>,
    /// Bytes that there may be in all.
    pub quota: Option<f64>,
}

/// How things stand now.
pub async fn standing() -> Standing {
    let Some(manager) = manager() else { return Standing::default() };
    let is_promised = answer(manager.persisted()).await.and_then(|answer| answer.as_bool());
    let estimate = answer(manager.estimate()).await;
    let figure = |name: &str| Reflect::get(estimate.as_ref()?, &name.into()).ok()?.as_f64();
    Standing { is_promised, used: figure("usage"), quota: figure("quota") }
}

/// Asks the browser for the promise to keep what is stored. Some ask the artist first, some decide by themselves.
pub async fn ask_to_keep() -> Option<bool> {
    answer(manager()?.persist()).await?.as_bool()
}

/// Nothing in browsers without one, and for pages that came over an open connection.
fn manager() -> Option<StorageManager> {
    let manager = Reflect::get(&window().navigator(), &"storage".into()).ok()?;
    manager.is_object().then(|| manager.unchecked_into())
}

async fn answer(promise: Result<js_sys::Promise, JsValue>) -> Option<JsValue> {
    JsFuture::from(promise.ok()?).await.ok()
}
