//! How the page is divided: the bar on top, the tray, the desk, the panels, and what to do at the foot.

use leptos::prelude::*;
use stickleaf_editor::Tool;
use wasm_bindgen::JsCast;
use web_sys::{DragEvent, HtmlElement, KeyboardEvent};

use crate::browser::files;
use crate::canvas::SheetCanvas;
use crate::compare::CompareJob;
use crate::correction;
use crate::job::Job;
use crate::keeping;
use crate::month::Month;
use crate::offline::Offline;
use crate::panels::actions::Actions;
use crate::panels::choices_menu::ChoicesMenu;
use crate::panels::compare::Compare;
use crate::panels::drawer::Panels;
use crate::panels::drawing_hint::DrawingHint;
use crate::panels::empty::EmptyDesk;
use crate::panels::hand_bar::HandBar;
use crate::panels::import_dialog::ImportDialog;
use crate::panels::keys_dialog::KeysDialog;
use crate::panels::month::MonthPlace;
use crate::panels::my_sheets::MySheets;
use crate::panels::not_saved_bar::NotSavedBar;
use crate::panels::notice::NoticeBar;
use crate::panels::press::Press;
use crate::panels::rough_dialog::RoughDialog;
use crate::panels::tally::Tally;
use crate::panels::told_piece::ToldPiece;
use crate::panels::top_bar::TopBar;
use crate::panels::tour::TourHint;
use crate::panels::tray::Tray;
use crate::panels::view_buttons::ViewButtons;
use crate::preferences;
use crate::pressing::PressJob;
use crate::room::RoomFinder;
use crate::run_order::RunOrder;
use crate::runs::Runs;
use crate::samples::Samples;
use crate::shop::Shop;
use crate::state::{Desk, Place, use_desk};
use crate::tour::{Hint, Tour};
use crate::trials::Trials;
use crate::words;

/// Puts the page into the document's element `app`.
pub fn start() {
    let language = preferences::language();
    words::language::speak(language);
    if let Some(page) = document().document_element() {
        // Readers and hyphenation follow it; without it they guess.
        let _ = page.set_attribute("lang", language.tag());
    }
    let Some(root) = document().get_element_by_id("app") else { return };
    root.set_inner_html("");
    leptos::mount::mount_to(root.unchecked_into::<HtmlElement>(), App).forget();
}

#[component]
fn App() -> impl IntoView {
    let desk = Desk::new();
    provide_context(desk);
    let job = Job::new(desk);
    provide_context(job);
    provide_context(RoomFinder::new(desk));
    let samples = Samples::new();
    provide_context(samples);
    correction::note_before();
    keeping::start(desk, samples);
    provide_context(Offline::new(desk, job));
    let tour = Tour::new();
    provide_context(tour);
    let is_dragging = RwSignal::new(false);
    window_event_listener(leptos::ev::keydown, move |event| keys(desk, &event));
    listen_for_drops(job, is_dragging);
    provide_context(CompareJob::new(desk, job.packing.how));
    provide_context(PressJob::new(desk));
    let shop = Shop::new(desk);
    provide_context(shop);
    let order = RunOrder::new(desk);
    provide_context(order);
    let month = Month::new(desk, shop, order);
    provide_context(month);
    provide_context(Trials::new(desk, month));
    provide_context(Runs::new(desk, month));
    let chosen = Memo::new(move |_| desk.place.get());
    let place = move || match chosen.get() {
        Place::Desk => view! { <DeskPlace /> }.into_any(),
        Place::Compare => view! { <Compare /> }.into_any(),
        Place::Press => view! { <Press /> }.into_any(),
        Place::Month => view! { <MonthPlace /> }.into_any(),
    };
    view! {
        <div class="page" data-hint=move || tour.hint().map(Hint::part)>
            <TopBar />
            <NotSavedBar />
            <NoticeBar />
            {place}
            <ImportDialog />
            <KeysDialog />
            <RoughDialog />
            <MySheets />
            <div class="drop" class:shown=move || is_dragging.get() aria-hidden="true">
                <div class="drop-card">
                    <strong>{words::drop_here()}</strong>
                    <span>{words::drop_more()}</span>
                </div>
            </div>
        </div>
    }
}

/// The desk: the sheet in the middle and everything round it.
#[component]
fn DeskPlace() -> impl IntoView {
    let desk = use_desk();
    let is_empty =
        Memo::new(move |_| desk.is_settled.get() && desk.layout.with(|layout| layout.stickers.is_empty()));
    let is_drawing = Memo::new(move |_| desk.read_at_rest(|editor| editor.tool() != Tool::Move));
    view! {
        <div class="desk">
            <Tray />
            <section class="middle" aria-label=words::desk()>
                <SheetCanvas />
                <ViewButtons />
                <ToldPiece />
                <TourHint />
                <Show when=move || is_empty.get() && !is_drawing.get()>
                    <EmptyDesk />
                </Show>
                <Show when=move || is_drawing.get()>
                    <DrawingHint />
                </Show>
            </section>
            <HandBar />
            <Panels />
            <div class="tally-row"><Tally /></div>
            <Actions />
            <ChoicesMenu />
        </div>
    }
}

/// Keys that work wherever the focus is, except while something is typed.
fn keys(desk: Desk, event: &KeyboardEvent) {
    let is_typing = event
        .target()
        .and_then(|target| target.dyn_into::<HtmlElement>().ok())
        .is_some_and(|element| matches!(element.tag_name().as_str(), "INPUT" | "TEXTAREA" | "SELECT"));
    // The canvas answers keys itself and marks them as done.
    if is_typing || is_dialog_open() || event.default_prevented() || event.alt_key() {
        return;
    }
    let command = event.ctrl_key() || event.meta_key();
    let done = match (command, event.shift_key(), event.key().to_lowercase().as_str()) {
        (true, false, "z") => desk.act(|editor| editor.undo()),
        (true, true, "z") | (true, false, "y") => desk.act(|editor| editor.redo()),
        (false, _, "?") => {
            desk.keys_are_shown.set(true);
            true
        }
        (false, _, "escape") if desk.peek(|editor| editor.tool() != Tool::Move) => {
            desk.act(|editor| editor.set_tool(Tool::Move));
            true
        }
        (false, _, "escape") if desk.panel.get_untracked().is_some() => {
            desk.panel.set(None);
            true
        }
        _ => false,
    };
    if done {
        event.prevent_default();
    }
}

/// Whether a dialog is open; then the keys are its own.
fn is_dialog_open() -> bool {
    matches!(document().query_selector("dialog[open]"), Ok(Some(_)))
}

/// Takes files that are let go anywhere on the page.
fn listen_for_drops(job: Job, is_dragging: RwSignal<bool>) {
    // Moving over a child first enters it, then leaves its parent: only the difference tells whether one is outside.
    let depth = StoredValue::new(0_i32);
    let enter = move |event: DragEvent| {
        if files::holds_files(&event) {
            event.prevent_default();
            depth.update_value(|depth| *depth += 1);
            is_dragging.set(true);
        }
    };
    let leave = move |event: DragEvent| {
        if files::holds_files(&event) {
            depth.update_value(|depth| *depth = (*depth - 1).max(0));
            is_dragging.set(depth.get_value() > 0);
        }
    };
    let over = move |event: DragEvent| {
        if files::holds_files(&event) {
            event.prevent_default();
        }
    };
    let drop = move |event: DragEvent| {
        depth.set_value(0);
        is_dragging.set(false);
        if files::holds_files(&event) {
            event.prevent_default();
            job.take_files(files::dropped(&event));
        }
    };
    window_event_listener(leptos::ev::dragenter, enter);
    window_event_listener(leptos::ev::dragleave, leave);
    window_event_listener(leptos::ev::dragover, over);
    window_event_listener(leptos::ev::drop, drop);
}
