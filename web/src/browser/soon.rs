//! Going on with something as soon as the messages that wait have been heard.

use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{MessageChannel, MessagePort};

/// Something that is done again and again, with an ear for messages in between.
///
/// It is a message to oneself and not a timeout: those wait four milliseconds each once they follow upon each other
/// (HTML Standard, timers), which is a seventh of the time of a search in slices.
pub struct Soon {
    to_self: MessagePort,
}

impl Soon {
    /// Something to do, which says whether to do it again. It lives as long as the program.
    ///
    /// Errors: the browser has no message channels.
    pub fn new(mut deed: impl FnMut() -> bool + 'static) -> Result<Soon, JsValue> {
        let channel = MessageChannel::new()?;
        let again = Soon { to_self: channel.port2() };
        let hear = Closure::<dyn FnMut()>::new(move || {
            if deed() {
                again.call();
            }
        });
        channel.port1().set_onmessage(Some(hear.as_ref().unchecked_ref()));
        hear.forget();
        Ok(Soon { to_self: channel.port2() })
    }

    /// Does it soon.
    pub fn call(&self) {
        let posted = self.to_self.post_message(&JsValue::NULL);
        debug_assert!(posted.is_ok(), "nothing can be posted");
    }
}
