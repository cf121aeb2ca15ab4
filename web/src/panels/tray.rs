//! The tray: every sticker with how many lie on the sheet and how many are wanted.

use leptos::prelude::*;
use stickleaf_editor::Tool;
use stickleaf_sheet::Wanted;

use crate::browser::files;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::panels::fields::TextField;
use crate::panels::thumbnail::Thumbnail;
use crate::rough::toggle_blob_tool;
use crate::state::{Desk, Panel, use_desk};
use crate::words;

/// The tray beside the desk, or the strip below it.
#[component]
pub fn Tray() -> impl IntoView {
    view! {
        <section class="tray" aria-label=words::stickers()>
            <div class="tray-head">
                <h2>{words::stickers()}</h2>
                <BringArtIn />
                <RoughIn />
            </div>
            <StickerList />
        </section>
    }
}

#[component]
fn BringArtIn() -> impl IntoView {
    let job = expect_context::<Job>();
    let input = NodeRef::<leptos::html::Input>::new();
    let choose = move |_| {
        if let Some(input) = input.get_untracked() {
            input.click();
        }
    };
    let take = move |_| {
        if let Some(input) = input.get_untracked() {
            job.take_files(files::chosen(&input));
        }
    };
    view! {
        <button type="button" class="button primary-soft bring-in" on:click=choose>
            {icon(Icon::BringIn)} <span>{words::bring_art_in()}</span>
        </button>
        <input
            node_ref=input
            type="file"
            multiple
            hidden
            accept="image/png,image/svg+xml,.png,.svg,.json,application/json"
            on:change=take
        />
    }
}

/// Planning before anything is drawn. While packing goes on, its answer would take new pieces off again.
#[component]
fn RoughIn() -> impl IntoView {
    let desk = use_desk();
    let job = expect_context::<Job>();
    let is_drawing = move || desk.read_at_rest(|editor| editor.tool() == Tool::DrawBlob);
    view! {
        <button
            type="button"
            class="button bare draw-blob"
            aria-pressed=move || is_drawing().to_string()
            disabled=move || job.is_packing()
            on:click=move |_| toggle_blob_tool(desk)
        >
            {icon(Icon::Draw)} <span>{words::draw_blob()}</span>
        </button>
        <button
            type="button"
            class="button bare rough-in"
            disabled=move || job.is_packing()
            on:click=move |_| desk.shapes_are_shown.set(true)
        >
            {icon(Icon::Rough)} <span>{words::rough_in()}</span>
        </button>
    }
}

/// The stickers in their order.
#[component]
pub fn StickerList() -> impl IntoView {
    let desk = use_desk();
    let ids = Memo::new(move |_| {
        desk.layout
            .with(|layout| layout.stickers.iter().map(|sticker| sticker.id.to_string()).collect::<Vec<_>>())
    });
    view! {
        <ul class="sticker-list" role="list" aria-label=words::stickers()>
            <For each=move || ids.get() key=String::clone children=|id| view! { <StickerCard id /> } />
        </ul>
        <Show when=move || ids.with(Vec::is_empty)>
            <p class="hint no-stickers">{words::no_stickers()}</p>
        </Show>
    }
}

/// What a card shows.
#[derive(Clone, Default, PartialEq)]
struct Shown {
    name: String,
    wanted: Wanted,
    placed: usize,
    is_rough: bool,
}

#[component]
fn StickerCard(id: String) -> impl IntoView {
    let desk = use_desk();
    let id = StoredValue::new(id);
    let shown = Memo::new(move |_| {
        let id = id.get_value();
        desk.layout
            .with(|layout| {
                let sticker = layout.sticker(&id)?;
                Some(Shown {
                    name: sticker.name.clone(),
                    wanted: sticker.wanted,
                    placed: layout.placed(&id),
                    is_rough: sticker.is_rough,
                })
            })
            .unwrap_or_default()
    });
    let name = Memo::new(move |_| shown.with(|shown| shown.name.clone()));
    let wanted = move || shown.with(|shown| shown.wanted);
    let is_short = move || shown.with(|shown| shown.placed < shown.wanted.least() as usize);
    let is_open = move || desk.panel.get() == Some(Panel::Sticker(id.get_value()));
    let text = Signal::derive(move || wanted().least().to_string());
    let set_count = move |text: String| {
        let count = text.trim().parse().map_err(|_| words::whole_number_from_0().to_owned())?;
        set_wanted(desk, &id.get_value(), with_count(shown.get_untracked().wanted, count));
        Ok(())
    };
    let step = move |by: i64| {
        let now = shown.get_untracked().wanted;
        let count = (i64::from(now.least()) + by).clamp(0, 9999) as u32;
        set_wanted(desk, &id.get_value(), with_count(now, count));
    };
    let swap_kind = move |_| {
        let swapped = match shown.get_untracked().wanted {
            Wanted::Exactly(count) => Wanted::AtLeast(count),
            Wanted::AtLeast(count) => Wanted::Exactly(count),
        };
        set_wanted(desk, &id.get_value(), swapped);
    };
    let kind = move || match wanted() {
        Wanted::Exactly(_) => words::exactly(),
        Wanted::AtLeast(_) => words::at_least(),
    };
    view! {
        <li class="card" class:short=is_short class:open=is_open>
            <button
                type="button"
                class="card-main"
                aria-label=move || words::details_of(&name.get())
                on:click=move |_| desk.panel.set(Some(Panel::Sticker(id.get_value())))
            >
                <Thumbnail id=id.get_value() />
            </button>
            {move || shown.with(|shown| shown.is_rough).then(|| view! { <span class="card-rough">{words::rough()}</span> })}
            <div class="card-text">
                <span class="card-name">{move || name.get()}</span>
                <span class="card-count">{move || words::count_on_sheet(shown.with(|shown| shown.placed))}</span>
            </div>
            <div class="card-wanted">
                <button type="button" class="kind" title=words::how_many() on:click=swap_kind>{kind}</button>
                <div class="stepper">
                    <button type="button" aria-label=move || words::one_fewer(&name.get()) on:click=move |_| step(-1)>
                        {icon(Icon::Minus)}
                    </button>
                    <TextField label=words::wanted() text take=Callback::new(set_count) keys="numeric" class="count" />
                    <button type="button" aria-label=move || words::one_more(&name.get()) on:click=move |_| step(1)>
                        {icon(Icon::Plus)}
                    </button>
                </div>
            </div>
        </li>
    }
}

fn with_count(wanted: Wanted, count: u32) -> Wanted {
    match wanted {
        Wanted::Exactly(_) => Wanted::Exactly(count),
        Wanted::AtLeast(_) => Wanted::AtLeast(count),
    }
}

fn set_wanted(desk: Desk, id: &str, wanted: Wanted) {
    desk.change_or_say(words::how_many(), |layout| {
        if let Some(sticker) = layout.stickers.iter_mut().find(|sticker| &*sticker.id == id) {
            sticker.wanted = wanted;
        }
    });
}
