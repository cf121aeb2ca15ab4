//! The panels: beside the desk where there is room, else a drawer from below.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

use crate::icons::{Icon, icon};
use crate::panels::background::BackgroundPanel;
use crate::panels::findings::Findings;
use crate::panels::sheet::SheetPanel;
use crate::panels::sticker::StickerPanel;
use crate::panels::tally::broken_count;
use crate::state::{Panel, use_desk};
use crate::words;

/// The drawer's height when it is opened, as a part of the page's height.
const HALF: f64 = 0.5;
/// How far it can be drawn up.
const MOST: f64 = 0.86;
/// Drawn below this it closes.
const LEAST: f64 = 0.22;

/// The pages on which the panels are a drawer, as the style sheet says it too.
const DRAWER_PAGES: &str = "(max-width: 68.6875em)";

/// Whether the panels lie over the desk at the moment instead of beside it.
pub fn panels_are_a_drawer() -> bool {
    window().match_media(DRAWER_PAGES).ok().flatten().is_some_and(|media| media.matches())
}

/// The panels and the row of buttons that opens them.
#[component]
pub fn Panels() -> impl IntoView {
    let desk = use_desk();
    let height = RwSignal::new(HALF);
    // Beside the desk something is always shown; a drawer is closed unless asked for.
    let is_open = Memo::new(move |_| desk.panel.with(Option::is_some));
    let shown = Memo::new(move |_| desk.panel.get().unwrap_or(Panel::Findings));
    let body = move || match shown.get() {
        Panel::Sticker(id) => view! { <StickerPanel id /> }.into_any(),
        Panel::Sheet => view! { <SheetPanel /> }.into_any(),
        Panel::Background => view! { <BackgroundPanel /> }.into_any(),
        Panel::Findings => view! { <Findings /> }.into_any(),
    };
    view! {
        <PanelTabs height />
        <aside
            class="panels"
            class:open=move || is_open.get()
            aria-label=words::panels()
            style=move || format!("--drawer: {:.1}dvh", height.get() * 100.0)
        >
            <DrawerHandle height />
            <div class="panel-body">{body}</div>
        </aside>
    }
}

#[component]
fn PanelTabs(height: RwSignal<f64>) -> impl IntoView {
    let desk = use_desk();
    let broken = Memo::new(move |_| desk.read_on_beat(|editor| broken_count(editor.findings())));
    let tab = move |panel: Panel, word: &'static str, picture: Icon| {
        let target = panel.clone();
        let is_findings = panel == Panel::Findings;
        let is_open = Memo::new(move |_| desk.panel.get().as_ref() == Some(&panel));
        let is_shown = Memo::new(move |_| is_open.get() || (is_findings && desk.panel.get().is_none()));
        view! {
            <button
                type="button"
                class="tab"
                class:shown=move || is_shown.get()
                class:open=move || is_open.get()
                aria-pressed=move || is_shown.get().to_string()
                on:click=move |_| {
                    height.set(HALF);
                    desk.panel.set((!is_open.get_untracked()).then(|| target.clone()));
                }
            >
                {icon(picture)} <span>{word}</span>
                {move || (is_findings && broken.get() > 0).then(|| view! { <span class="badge">{broken.get()}</span> })}
            </button>
        }
    };
    view! {
        <div class="tabs" role="group" aria-label=words::panels()>
            {tab(Panel::Findings, words::findings(), Icon::Findings)}
            {tab(Panel::Sheet, words::sheet(), Icon::Sheet)}
            {tab(Panel::Background, words::background(), Icon::Background)}
        </div>
    }
}

/// Drags the drawer up and down; a press makes it tall or half, and its button closes it.
#[component]
fn DrawerHandle(height: RwSignal<f64>) -> impl IntoView {
    let desk = use_desk();
    let start: RwSignal<Option<(f64, f64, bool)>> = RwSignal::new(None);
    let page_height = || window().inner_height().ok().and_then(|height| height.as_f64()).unwrap_or(1.0);
    let down = move |event: PointerEvent| {
        if let Some(target) = event.current_target().and_then(|target| target.dyn_into::<Element>().ok()) {
            let _ = target.set_pointer_capture(event.pointer_id());
        }
        start.set(Some((event.client_y().into(), height.get_untracked(), false)));
    };
    let moved = move |event: PointerEvent| {
        if let Some((from, part, was_moved)) = start.get_untracked() {
            let by = from - f64::from(event.client_y());
            if was_moved || by.abs() > 4.0 {
                start.set(Some((from, part, true)));
                height.set((part + by / page_height()).clamp(0.1, MOST));
            }
        }
    };
    let up = move |_: PointerEvent| {
        if height.get_untracked() < LEAST {
            desk.panel.set(None);
            height.set(HALF);
        }
    };
    let cancel = move |_: PointerEvent| start.set(None);
    let press = move |_| {
        // A drag ends in a click too; only one that stayed in place counts.
        if start.get_untracked().is_none_or(|(_, _, was_moved)| !was_moved) {
            height.update(|part| *part = if *part < (HALF + MOST) / 2.0 { MOST } else { HALF });
        }
        start.set(None);
    };
    view! {
        <div class="drawer-top">
            <button
                type="button"
                class="drawer-handle"
                aria-label=words::drawer_height()
                on:pointerdown=down
                on:pointermove=moved
                on:pointerup=up
                on:pointercancel=cancel
                on:click=press
            >
                <span></span>
            </button>
            <button type="button" class="button bare drawer-close" on:click=move |_| desk.panel.set(None)>
                {icon(Icon::Close)} <span class="word">{words::close()}</span>
            </button>
        </div>
    }
}
