//! My sheets: everything that is kept on the device, in a dialog.

mod earlier;
mod row;
mod storage;

use leptos::prelude::*;
use leptos::task::spawn_local;

use self::row::Row;
use self::storage::Storage;
use super::modal::{keep_focus, modal};
use super::notice::NoticeBar;
use crate::icons::{Icon, icon};
use crate::keeping::{self, Project};
use crate::state::{Desk, Place, use_desk};
use crate::words;

/// The projects as they were last read.
#[derive(Clone, Copy)]
struct Sheets {
    desk: Desk,
    all: RwSignal<Vec<Project>>,
    /// Whether they were read at all.
    is_read: RwSignal<bool>,
}

impl Sheets {
    /// Reads them again.
    fn refresh(self) {
        spawn_local(async move {
            match keeping::list(self.desk).await {
                Ok(all) => {
                    self.all.set(all);
                    self.is_read.set(true);
                }
                Err(_) => self.desk.say_trouble(words::list_failed()),
            }
        });
    }

    /// Closes the dialog and shows the desk.
    fn close(self) {
        self.desk.keeping.sheets_are_shown.set(false);
        self.desk.place.set(Place::Desk);
    }
}

/// Shown while the keeping's `sheets_are_shown` says so.
#[component]
pub fn MySheets() -> impl IntoView {
    let desk = use_desk();
    let is_open = desk.keeping.sheets_are_shown;
    let dialog = modal(is_open.into());
    let sheets = Sheets { desk, all: RwSignal::new(Vec::new()), is_read: RwSignal::new(false) };
    provide_context(sheets);
    Effect::new(move |_| {
        if is_open.get() {
            // What was said before has nothing to do with the list.
            desk.notice.set(None);
        }
    });
    Effect::new(move |_| {
        desk.keeping.list_changes.track();
        if is_open.get() {
            sheets.refresh();
        }
    });
    view! {
        <dialog class="dialog my-sheets" node_ref=dialog aria-labelledby="my-sheets-title" on:close=move |_| {
            is_open.set(false);
            keep_focus();
        }>
            <div class="my-sheets-head">
                <h2 id="my-sheets-title">{words::my_sheets()}</h2>
                <button type="button" class="button" on:click=move |_| {
                    sheets.close();
                    spawn_local(keeping::start_empty(desk));
                }>
                    {icon(Icon::Plus)} <span>{words::new_sheet()}</span>
                </button>
            </div>
            <Show when=move || is_open.get()>
                // The page's own lies under the dialog.
                <NoticeBar />
                <List />
                <Storage />
            </Show>
            <div class="dialog-buttons">
                <button type="button" class="button" autofocus on:click=move |_| is_open.set(false)>
                    {icon(Icon::Close)} <span>{words::close()}</span>
                </button>
            </div>
        </dialog>
    }
}

#[component]
fn List() -> impl IntoView {
    let sheets = expect_context::<Sheets>();
    let is_empty = move || sheets.is_read.get() && sheets.all.with(Vec::is_empty);
    view! {
        <Show when=is_empty>
            <p class="hint">{words::no_sheets()}</p>
        </Show>
        <ul class="sheet-list" role="list" aria-label=words::my_sheets()>
            <For
                each=move || sheets.all.get()
                key=|project| (project.id.clone(), project.revision)
                children=|project| view! { <Row project /> }
            />
        </ul>
    }
}
