//! What the tabs of this page say to each other.

use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{BroadcastChannel, MessageEvent};

/// A channel that all tabs of this page hear; what one says it does not hear itself.
#[derive(Clone)]
pub struct TabTalk {
    channel: BroadcastChannel,
}

impl TabTalk {
    /// Joins the channel of this name and hears what the others say from now on, as long as the page lives.
    ///
    /// Errors: the browser has no such channels; then nothing is said or heard.
    pub fn join(name: &str, mut hear: impl FnMut(String) + 'static) -> Result<TabTalk, JsValue> {
        if !js_sys::Reflect::has(&window(), &"BroadcastChannel".into())? {
            return Err(JsValue::NULL);
        }
        let channel = BroadcastChannel::new(name)?;
        let on_message = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            if let Some(text) = event.data().as_string() {
                hear(text);
            }
        });
        channel.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
        on_message.forget();
        Ok(TabTalk { channel })
    }

    /// Says something to the other tabs.
    pub fn say(&self, text: &str) {
        // A text can always be sent.
        let _ = self.channel.post_message(&text.into());
    }
}
