//! The copy of the page on this device, which `service-worker.js` keeps.

use std::cell::Cell;
use std::rc::Rc;

use gloo::events::EventListener;
use js_sys::Reflect;
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration};

/// The script that keeps the copy, beside the page.
const SCRIPT: &str = "./service-worker.js";

/// What the script is told when it shall take over from an older version.
const TAKE_OVER: &str = "take over";

/// What becomes of the copy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopyNews {
    /// All of the page is on this device.
    Complete,
    /// All of a newer version is on this device as well, and waits.
    NewerWaits,
    /// The newer version has taken over: this page gets no files of its own any more.
    NewerTookOver,
}

/// Has the browser keep the page on this device, and tells what becomes of that.
///
/// Nothing is told where the browser keeps no pages: on a host without encryption, in some private windows, or with no
/// room left.
pub fn keep_copy(tell: impl Fn(CopyNews) + 'static) {
    spawn_local(async move {
        let _ = keep_and_watch(Rc::new(tell)).await;
    });
}

/// Asks the newer version to take over. Nothing happens if none waits any more.
pub fn take_over() {
    spawn_local(async move {
        if let Ok(keeper) = keeper()
            && let Ok(copies) = copies(keeper.get_registration()).await
            && let Some(waiting) = copies.waiting()
        {
            let _ = waiting.post_message(&JsValue::from_str(TAKE_OVER));
        }
    });
}

/// Loads the page again.
pub fn load_again() {
    let _ = window().location().reload();
}

async fn keep_and_watch(tell: Rc<dyn Fn(CopyNews)>) -> Result<(), JsValue> {
    let keeper = keeper()?;
    listen_for_change(&keeper, Rc::clone(&tell));
    let copies = copies(keeper.register(SCRIPT)).await?;
    listen_for_newer(&keeper, &copies, Rc::clone(&tell));
    JsFuture::from(keeper.ready()?).await?;
    tell(CopyNews::Complete);
    if window().navigator().on_line() {
        JsFuture::from(copies.update()?).await?;
    }
    Ok(())
}

/// Looked up by hand, since some browsers have none and some throw when asked.
fn keeper() -> Result<ServiceWorkerContainer, JsValue> {
    Reflect::get(&window().navigator(), &"serviceWorker".into())?.dyn_into()
}

async fn copies(answer: js_sys::Promise) -> Result<ServiceWorkerRegistration, JsValue> {
    JsFuture::from(answer).await?.dyn_into()
}

fn listen_for_change(keeper: &ServiceWorkerContainer, tell: Rc<dyn Fn(CopyNews)>) {
    // On the first visit the page comes from the host, and its own version takes over: that is no change.
    let is_from_copy = Cell::new(keeper.controller().is_some());
    let change = move |_: &web_sys::Event| {
        if is_from_copy.replace(true) {
            tell(CopyNews::NewerTookOver);
        }
    };
    EventListener::new(keeper, "controllerchange", change).forget();
}

fn listen_for_newer(
    keeper: &ServiceWorkerContainer,
    copies: &ServiceWorkerRegistration,
    tell: Rc<dyn Fn(CopyNews)>,
) {
    let look = {
        let (keeper, copies) = (keeper.clone(), copies.clone());
        // A page that came from the host, past its copy, is the newest already.
        move || {
            if keeper.controller().is_some() && copies.waiting().is_some() {
                tell(CopyNews::NewerWaits);
            }
        }
    };
    look();
    let follow = move |coming: ServiceWorker| {
        let look = look.clone();
        EventListener::new(&coming, "statechange", move |_| look()).forget();
    };
    copies.installing().map(&follow);
    let found = {
        let copies = copies.clone();
        move |_: &web_sys::Event| {
            copies.installing().map(&follow);
        }
    };
    EventListener::new(copies, "updatefound", found).forget();
}
