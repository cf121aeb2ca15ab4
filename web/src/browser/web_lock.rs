//! A lock that all tabs of this page share: at most one of them holds it.
//!
//! Source: W3C, Web Locks API. The browser lets go of a tab's locks when the tab is closed or crashes, so none is ever
//! left behind.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::AbortController;

use super::time;

#[wasm_bindgen]
extern "C" {
    /// The browser's keeper of locks; the bindings library holds it for unstable, though every browser has it.
    type LockManager;

    #[wasm_bindgen(method)]
    fn request(this: &LockManager, name: &str, options: &Object, granted: &Function) -> Promise;
}

/// A lock that is held; let go when it is dropped.
pub struct WebLock {
    release: Function,
}

impl Drop for WebLock {
    fn drop(&mut self) {
        // Resolving a promise cannot fail.
        let _ = self.release.call0(&JsValue::NULL);
    }
}

/// How much one wants a lock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// Only if nobody holds it.
    IfFree,
    /// In any case: waits so many milliseconds for whoever holds it to let go, then takes it away from them.
    InAnyCase(u32),
}

/// What became of the wish.
pub enum Claim {
    /// The lock is held.
    Held(WebLock),
    /// Another tab holds it.
    Taken,
    /// This browser has no locks, or gives none to a page that came over an open connection.
    NoLocks,
}

/// Asks for a lock. `on_lost` is called if it is held and then taken away by another tab.
pub async fn claim(name: &str, wish: Wish, on_lost: impl FnOnce() + 'static) -> Claim {
    let Some(manager) = manager() else { return Claim::NoLocks };
    let on_lost = Rc::new(RefCell::new(Some(on_lost)));
    let Wish::InAnyCase(wait_ms) = wish else {
        return ask(&manager, name, &options("ifAvailable", &JsValue::TRUE), &on_lost).await;
    };
    if let Ok(patience) = AbortController::new() {
        let waiting = options("signal", &patience.signal());
        time::after(wait_ms, move || patience.abort());
        let claim = ask(&manager, name, &waiting, &on_lost).await;
        if matches!(claim, Claim::Held(_)) {
            return claim;
        }
    }
    ask(&manager, name, &options("steal", &JsValue::TRUE), &on_lost).await
}

fn manager() -> Option<LockManager> {
    let locks = Reflect::get(&window().navigator(), &"locks".into()).ok()?;
    locks.is_object().then(|| locks.unchecked_into())
}

fn options(name: &str, value: &JsValue) -> Object {
    let options = Object::new();
    // A plain object takes every property.
    let _ = Reflect::set(&options, &name.into(), value);
    options
}

/// Asks once. What is to be done on a loss is used up only if the lock was held.
async fn ask<F: FnOnce() + 'static>(
    manager: &LockManager,
    name: &str,
    options: &Object,
    on_lost: &Rc<RefCell<Option<F>>>,
) -> Claim {
    let is_held = Rc::new(Cell::new(false));
    let mut asked = None;
    // Settled with what lets go of the lock once it is granted, and with nothing if it is not to be had.
    let answer = Promise::new(&mut |settle, _| {
        let (is_held, give_up) = (is_held.clone(), settle.clone());
        let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
            if lock.is_null() {
                let _ = settle.call1(&JsValue::NULL, &JsValue::NULL);
                return JsValue::UNDEFINED;
            }
            is_held.set(true);
            // The lock is held as long as this promise is open.
            Promise::new(&mut |release, _| drop(settle.call1(&JsValue::NULL, &release))).into()
        });
        asked = Some((manager.request(name, options, granted.unchecked_ref()), give_up));
    });
    if let Some((request, give_up)) = asked {
        let on_lost = on_lost.clone();
        spawn_local(async move {
            // It ends well when the lock is let go, and badly when it is taken away or was never granted.
            if JsFuture::from(request).await.is_ok() {
                return;
            }
            let on_lost = is_held.get().then(|| on_lost.borrow_mut().take()).flatten();
            match on_lost {
                Some(on_lost) => on_lost(),
                None => drop(give_up.call1(&JsValue::NULL, &JsValue::NULL)),
            }
        });
    }
    match JsFuture::from(answer).await.map(JsCast::dyn_into::<Function>) {
        Ok(Ok(release)) => Claim::Held(WebLock { release }),
        _ => Claim::Taken,
    }
}
