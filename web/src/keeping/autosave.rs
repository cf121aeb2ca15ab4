//! When something is written: a moment after each change, and at once when the page may go.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_editor::Editor;
use stickleaf_sheet::Layout;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Event, VisibilityState};

use super::keeper::{Change, Keeping};
use super::records::{Occasion, Project};
use super::save_state::{SaveState, Why};
use super::store::{Relying, Writing};
use super::{art, project_list, start, thinning, two_tabs, versions};
use crate::browser::{storage, time};
use crate::state::Desk;

/// From a change to its write, in milliseconds. Changes in between go along.
const WAIT_MS: u32 = 250;

/// From a write that failed to the next, in milliseconds.
const RETRY_MS: u32 = 3000;

/// Keeps every change from now on.
pub fn watch(desk: Desk) {
    let keeping = desk.keeping;
    Effect::new(move |_| {
        desk.finished.track();
        keeping.note_latest(desk);
        save_soon(desk);
    });
    let on_hidden = move |_| {
        if document().visibility_state() == VisibilityState::Hidden {
            save_at_once(desk);
        }
    };
    document_event_listener("visibilitychange", on_hidden);
    window_event_listener_untyped("pagehide", move |_| save_at_once(desk));
}

/// Calls this at every event of the document of this name, as long as the page lives.
fn document_event_listener(name: &str, hear: impl FnMut(Event) + 'static) {
    let hear = Closure::<dyn FnMut(Event)>::new(hear);
    // A plain listener is never refused.
    let _ = document().add_event_listener_with_callback(name, hear.as_ref().unchecked_ref());
    hear.forget();
}

/// Writes in a moment, if there is anything to write and this tab may.
pub(super) fn save_soon(desk: Desk) {
    save_after(desk, WAIT_MS);
}

fn save_after(desk: Desk, wait_ms: u32) {
    let keeping = desk.keeping;
    if !may_write(keeping) || !keeping.is_dirty(desk) {
        return;
    }
    keeping.state.update(|state| *state = state.after_change());
    if keeping.is_due.get_value() {
        return;
    }
    keeping.is_due.set_value(true);
    time::after(wait_ms, move || {
        keeping.is_due.set_value(false);
        spawn_local(async move {
            save(desk).await;
        });
    });
}

/// Whether no other tab has the project.
fn may_write(keeping: Keeping) -> bool {
    !keeping.state.get_untracked().why().is_some_and(Why::is_other_tab)
}

/// Writes what is not on the device yet and says how that went. True if all is on the device now.
pub async fn save(desk: Desk) -> bool {
    let keeping = desk.keeping;
    while keeping.is_writing.get_value() {
        time::pause(10).await;
    }
    if !keeping.is_dirty(desk) {
        settle(keeping);
        return true;
    }
    if !may_write(keeping) {
        return false;
    }
    keeping.is_writing.set_value(true);
    let result = write_all(desk).await;
    keeping.is_writing.set_value(false);
    // Another tab may have taken the project over meanwhile, and has said so.
    if !may_write(keeping) {
        return false;
    }
    let is_all = !keeping.is_dirty(desk);
    keeping.state.set(SaveState::after_write(result, is_all));
    match result {
        Ok(()) => save_soon(desk),
        Err(why) if why.is_other_tab() => two_tabs::let_go(desk),
        Err(why) => {
            if why == Why::Full {
                project_list::make_room(desk).await;
            } else {
                // Perhaps the connection was lost; the next write opens another.
                keeping.store.set_value(None);
            }
            save_after(desk, RETRY_MS);
        }
    }
    result.is_ok() && is_all
}

/// What was on its way turned out to need no keeping, as a sample that nobody has touched yet.
fn settle(keeping: Keeping) {
    let is_project = keeping.project.with_untracked(Option::is_some);
    if keeping.state.get_untracked() == SaveState::Saving {
        keeping.state.set(if is_project { SaveState::Saved } else { SaveState::Nothing });
    }
}

async fn write_all(desk: Desk) -> Result<(), Why> {
    let keeping = desk.keeping;
    let store = keeping.store().await?;
    keeping.ensure_project();
    if keeping.hold.with_value(Option::is_none) {
        two_tabs::claim_own(desk).await;
    }
    let is_first = keeping.relying() == Relying::On(0);
    let art = art::put_waiting(desk, &store).await;
    let written = match begin(desk, keeping.relying()) {
        Some((writing, project, change)) => {
            writing?.end().await.map(|()| note_written(desk, project, change))
        }
        None => Ok(()),
    };
    if is_first && written.is_ok() {
        // Some browsers promise nothing until there is something to keep.
        spawn_local(async {
            storage::ask_to_keep().await;
        });
    }
    written.and(art)?;
    if thinning::is_due(
        keeping.last_version.with_value(|last| last.as_ref().map(|last| last.at_ms)),
        time::date_ms(),
    ) {
        versions::keep(desk, Occasion::Meanwhile).await;
    }
    Ok(())
}

/// Puts a write on its way: the record that will be there, and which change it holds. Nothing if there is no store yet.
fn begin(desk: Desk, relying: Relying) -> Option<(Result<Writing, Why>, Project, Change)> {
    let keeping = desk.keeping;
    let store = keeping.store.get_value()?;
    let (change, layout) = keeping.latest.get_value();
    let before = keeping.project.get_untracked()?;
    let project = Project {
        name: layout.name.clone(),
        changed_ms: time::date_ms(),
        revision: before.revision + 1,
        stickers: layout.stickers.len(),
        pieces: layout.pieces.len(),
        thumbnail: miniature(desk, &layout).unwrap_or(before.thumbnail),
        art: keeping.art(desk),
        id: before.id,
        deleted_ms: None,
    };
    let writing = store.save(&project, &stickleaf_files::write(&layout), relying);
    Some((writing, project, change))
}

/// The sheet in small; nothing while something is carried, whose hand it would hold up. The next write has it then.
fn miniature(desk: Desk, layout: &Layout) -> Option<String> {
    if desk.peek(Editor::is_carrying) {
        return None;
    }
    let draw =
        |pictures: &_| desk.keeping.miniature.try_update_value(|miniature| miniature.draw(layout, pictures));
    desk.pictures.with_untracked(draw).flatten()
}

fn note_written(desk: Desk, project: Project, change: Change) {
    let keeping = desk.keeping;
    // Meanwhile another project may lie on the desk, or a later write of this one may have ended.
    let is_current = keeping.project.with_untracked(|current| {
        current
            .as_ref()
            .is_some_and(|current| current.id == project.id && current.revision < project.revision)
    });
    if is_current {
        keeping.kept.set_value(Some(change));
        start::remember(&project.id);
        keeping.project.set(Some(project));
    }
}

/// Puts what is not on the device yet on its way before this returns: the page may be gone in a moment.
///
/// A picture that is not on the device yet has to wait, since its name takes a while to work out.
pub fn save_at_once(desk: Desk) {
    let keeping = desk.keeping;
    let is_kept = keeping.kept.get_value() == Some(keeping.latest.with_value(|(change, _)| *change));
    if is_kept || !may_write(keeping) || !keeping.is_dirty(desk) {
        return;
    }
    keeping.ensure_project();
    if keeping.hold.with_value(Option::is_none) {
        spawn_local(two_tabs::claim_own(desk));
    }
    let Some((Ok(writing), project, change)) = begin(desk, keeping.relying_at_the_end()) else { return };
    spawn_local(async move {
        if writing.end().await.is_ok() {
            note_written(desk, project, change);
            if !keeping.is_dirty(desk) {
                keeping.state.set(SaveState::Saved);
            }
        }
    });
}
