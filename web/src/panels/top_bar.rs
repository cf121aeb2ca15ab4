//! The bar on top: the name, the places, undo and redo, and what is rarely needed.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_editor::Editor;
use stickleaf_sheet::LengthUnit;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use crate::browser::files;
use crate::icons::{Icon, icon};
use crate::job::Job;
use crate::keeping;
use crate::panels::fields::{Choice, TextField};
use crate::panels::save_mark::MySheetsButton;
use crate::preferences;
use crate::samples::{Sample, Samples, open};
use crate::state::{Place, use_desk};
use crate::tour::Tour;
use crate::words::language::{Language, spoken};
use crate::words::{self, Told};

/// The bar on top of every place.
#[component]
pub fn TopBar() -> impl IntoView {
    let desk = use_desk();
    let tour = expect_context::<Tour>();
    let is_open = RwSignal::new(false);
    let samples_are_open = RwSignal::new(false);
    close_when_left(is_open, samples_are_open);
    let name = Signal::derive(move || {
        desk.layout.with(|layout| {
            if layout.name.is_empty() { words::untitled().to_owned() } else { layout.name.clone() }
        })
    });
    let rename = move |name: String| {
        desk.change(words::step_rename(), |layout| layout.name = name.trim().to_owned())
            .map_err(|error| error.told())
    };
    view! {
        <header class="top">
            <h1 class="brand">{icon(Icon::Leaf)} <span>"Stickleaf"</span></h1>
            <div class="sheet-name">
                <TextField label=words::sheet_name() text=name take=Callback::new(rename) class="quiet" />
            </div>
            <MySheetsButton />
            <Places />
            <div class="history">
                <HistoryButtons />
            </div>
            <div class="menu" class:open=move || is_open.get()>
                <button
                    type="button"
                    class="button bare menu-button"
                    aria-expanded=move || is_open.get().to_string()
                    on:click=move |_| is_open.update(|open| *open = !*open)
                >
                    {icon(Icon::More)} <span class="word">{words::more_of_it()}</span>
                </button>
                <div class="menu-items" on:click=move |_| is_open.set(false)>
                    <OpenButton />
                    <SampleMenu is_open=samples_are_open menu_is_open=is_open />
                    <Choice
                        label=words::unit()
                        options=vec![
                            (LengthUnit::Millimetres, words::millimetres()),
                            (LengthUnit::Inches, words::inches()),
                            (LengthUnit::InchFractions, words::inch_fractions()),
                        ]
                        chosen=Signal::derive(move || Some(desk.unit.get()))
                        take=Callback::new(move |unit| {
                            desk.unit.set(unit);
                            preferences::keep_unit(unit);
                        })
                    />
                    <LanguageChoice />
                    <button
                        type="button"
                        class="button bare keys-button"
                        aria-keyshortcuts="?"
                        on:click=move |_| desk.keys_are_shown.set(true)
                    >
                        {icon(Icon::Keys)} <span class="word">{words::keys()}</span>
                    </button>
                    <button type="button" class="button bare tour-button" on:click=move |_| tour.begin(desk)>
                        {icon(Icon::Leaf)} <span class="word">{words::tour()}</span>
                    </button>
                </div>
            </div>
        </header>
    }
}

/// The page's language. Another one loads the page again, once the last change is on the device.
#[component]
fn LanguageChoice() -> impl IntoView {
    let desk = use_desk();
    let take = move |language: Language| {
        if language == spoken() {
            return;
        }
        if !preferences::keep_language(language) {
            return desk.say_trouble(words::language_not_kept());
        }
        spawn_local(async move {
            if keeping::save(desk).await {
                let _ = window().location().reload();
            }
        });
    };
    view! {
        <Choice
            label=words::language_name()
            options=Language::ALL.map(|language| (language, language.own_name())).to_vec()
            chosen=Signal::derive(|| Some(spoken()))
            take=Callback::new(take)
        />
    }
}

/// Closes menus when something outside of them is pressed, or Escape.
fn close_when_left(is_open: RwSignal<bool>, samples_are_open: RwSignal<bool>) {
    let close = move || {
        is_open.set(false);
        samples_are_open.set(false);
    };
    window_event_listener(leptos::ev::pointerdown, move |event| {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let is_inside = target.is_some_and(|target| matches!(target.closest(".menu"), Ok(Some(_))));
        if !is_inside {
            close();
        }
    });
    window_event_listener(leptos::ev::keydown, move |event| {
        if event.key() == "Escape" {
            close();
        }
    });
}

#[component]
fn Places() -> impl IntoView {
    let desk = use_desk();
    let place = move |place: Place, word: &'static str, picture: Icon| {
        view! {
            <button
                type="button"
                class="place"
                aria-current=move || (desk.place.get() == place).then_some("page")
                on:click=move |_| desk.place.set(place)
            >
                {icon(picture)} <span>{word}</span>
            </button>
        }
    };
    view! {
        <nav class="places" aria-label=words::places()>
            {place(Place::Desk, words::desk(), Icon::Desk)}
            {place(Place::Compare, words::compare(), Icon::Compare)}
            {place(Place::Press, words::press(), Icon::Press)}
            {place(Place::Month, words::month(), Icon::Month)}
        </nav>
    }
}

#[component]
fn HistoryButtons() -> impl IntoView {
    let desk = use_desk();
    let undo_title = move || {
        desk.read_at_rest(|editor| {
            editor.undo_label().map(|label| format!("{}: {}", words::undo(), label.told()))
        })
    };
    let redo_title = move || {
        desk.read_at_rest(|editor| {
            editor.redo_label().map(|label| format!("{}: {}", words::redo(), label.told()))
        })
    };
    view! {
        <button
            type="button"
            class="button bare"
            title=undo_title
            aria-keyshortcuts="Control+Z"
            disabled=move || !desk.read_at_rest(Editor::can_undo)
            on:click=move |_| { desk.act(Editor::undo); }
        >
            {icon(Icon::Undo)} <span class="word">{words::undo()}</span>
        </button>
        <button
            type="button"
            class="button bare"
            title=redo_title
            aria-keyshortcuts="Control+Shift+Z"
            disabled=move || !desk.read_at_rest(Editor::can_redo)
            on:click=move |_| { desk.act(Editor::redo); }
        >
            {icon(Icon::Redo)} <span class="word">{words::redo()}</span>
        </button>
    }
}

/// Opens a layout or placement file; a picture chosen here is welcome too.
#[component]
fn OpenButton() -> impl IntoView {
    let job = expect_context::<Job>();
    let input = NodeRef::<leptos::html::Input>::new();
    let take = move |input: &HtmlInputElement| job.take_files(files::chosen(input));
    view! {
        <button type="button" class="button bare" on:click=move |_| if let Some(input) = input.get_untracked() { input.click() }>
            {icon(Icon::Open)} <span class="word">{words::open()}</span>
        </button>
        <input
            node_ref=input
            type="file"
            multiple
            hidden
            accept=".json,.stickleaf,application/json,image/png,image/svg+xml,.svg"
            on:change=move |_| if let Some(input) = input.get_untracked() { take(&input) }
        />
    }
}

/// The samples, and an empty sheet, to begin with.
#[component]
fn SampleMenu(
    /// Whether the list of samples is shown.
    is_open: RwSignal<bool>,
    /// Whether the menu that it is part of on a narrow page is shown.
    menu_is_open: RwSignal<bool>,
) -> impl IntoView {
    let desk = use_desk();
    let samples = expect_context::<Samples>();
    let close = move || {
        is_open.set(false);
        menu_is_open.set(false);
    };
    let sample = move |sample: Sample| {
        let name = sample.name.clone();
        view! {
            <button type="button" class="menu-item" on:click=move |_| {
                close();
                open(desk, sample.clone());
            }>
                <span>{name}</span>
            </button>
        }
    };
    let start_empty = move |_| {
        close();
        spawn_local(keeping::start_empty(desk));
    };
    view! {
        <div class="samples" on:click=|event| event.stop_propagation()>
            <button
                type="button"
                class="button bare"
                aria-expanded=move || is_open.get().to_string()
                on:click=move |_| is_open.update(|open| *open = !*open)
            >
                {icon(Icon::Sample)} <span class="word">{words::open_sample()}</span>
            </button>
            <Show when=move || is_open.get()>
                <div class="sample-list">
                    {move || samples.list.get().into_iter().map(sample).collect_view()}
                    <button type="button" class="menu-item" on:click=start_empty>
                        <span>{words::start_empty()}</span>
                    </button>
                </div>
            </Show>
        </div>
    }
}
