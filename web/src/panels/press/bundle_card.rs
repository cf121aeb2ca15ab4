//! Everything in one file, to keep and to hand on.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::browser::share;
use crate::icons::{Icon, icon};
use crate::messages::PressOrder;
use crate::panels::press::made::{MadeCard, MadeFile};
use crate::pressing::PressJob;
use crate::samples::art_files;
use crate::state::use_desk;
use crate::words;

const BUNDLE: MadeFile = MadeFile {
    ending: ".stickleaf",
    media_type: "application/zip",
    text: words::bundle_text,
    button: words::save_bundle,
};

/// The card of the bundle. Once it is made it can be handed to another program, where the browser can do that.
#[component]
pub fn BundleCard() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<PressJob>();
    let is_whole = RwSignal::new(false);
    let order = Signal::derive(move || PressOrder::Bundle { is_whole: is_whole.get() });
    // Only a picture of several stickers holds more than one of them needs.
    let is_shared = Memo::new(move |_| {
        desk.layout.with(|layout| {
            let arts = layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref());
            let whole: Vec<&str> = arts
                .filter(|art| art.part.is_none() && art.pixels_printed().is_some())
                .map(|art| &*art.file)
                .collect();
            whole.iter().enumerate().any(|(index, file)| whole[..index].contains(file))
        })
    });
    let facts = Signal::derive(move || {
        let pictures = desk.layout.with(|layout| art_files(layout).len());
        words::pictures_along(pictures, is_shared.get() && !is_whole.get())
    });
    // One that was made before the last change is not handed on.
    let fresh = move || {
        let now = desk.finished.get();
        let made = job.made.get().filter(|(then, _)| *then == now).map(|(_, file)| file);
        made.filter(|file| file.name().ends_with(BUNDLE.ending) && share::can_share(file))
    };
    // The browser shows its sheet only at once after a tap, so the file is there before.
    let hand_on = move |_| {
        if let Some(file) = untrack(fresh) {
            spawn_local(async move { share::share(&file).await });
        }
    };
    view! {
        <MadeCard file=BUNDLE order facts>
            <Show when=move || is_shared.get()>
                <label class="check">
                    <input
                        type="checkbox"
                        prop:checked=move || is_whole.get()
                        on:change=move |event| is_whole.set(event_target_checked(&event))
                    />
                    <span>{words::whole_pictures()}</span>
                </label>
            </Show>
            <Show when=move || fresh().is_some()>
                <button type="button" class="button" on:click=hand_on>
                    {icon(Icon::Open)} <span>{words::share_bundle()}</span>
                </button>
            </Show>
        </MadeCard>
    }
}
