//! Whether the browser promises to keep what is on the device, and how much room there is.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::browser::storage::{self, Standing};
use crate::panels::not_saved_bar::SaveFileButton;
use crate::words;

/// Read when it is shown. In a browser that says nothing about it nothing stands there.
#[component]
pub fn Storage() -> impl IntoView {
    let standing: RwSignal<Standing> = RwSignal::new(Standing::default());
    let was_refused = RwSignal::new(false);
    let read = move || {
        spawn_local(async move {
            standing.try_set(storage::standing().await);
        });
    };
    read();
    let ask = move |_| {
        spawn_local(async move {
            let is_promised = storage::ask_to_keep().await;
            was_refused.try_set(is_promised != Some(true));
            read();
        });
    };
    let room = move || {
        let Standing { used, quota, .. } = standing.get();
        used.zip(quota).map(|(used, quota)| words::used_and_left(used, quota - used))
    };
    let promise = move || match standing.get().is_promised? {
        true => Some(words::promised()),
        false if was_refused.get() => Some(words::still_not_promised()),
        false => Some(words::not_promised()),
    };
    let is_unsafe = move || standing.get().is_promised == Some(false);
    view! {
        <section class="storage" aria-label=words::on_this_device()>
            <h3>{words::on_this_device()}</h3>
            <p role="status">{promise} " " {room}</p>
            <Show when=is_unsafe>
                <div class="button-row">
                    <button type="button" class="button" on:click=ask><span>{words::ask_to_keep()}</span></button>
                    <SaveFileButton />
                </div>
            </Show>
        </section>
    }
}
