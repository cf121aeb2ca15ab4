//! Which project lies on the desk: opening one, and beginning another.

use std::collections::BTreeMap;

use leptos::prelude::*;
use stickleaf_editor::Editor;
use stickleaf_sheet::{Layout, LayoutError};

use super::keeper::LastVersion;
use super::records::{Occasion, Project};
use super::save_state::{SaveState, Why};
use super::two_tabs::Right;
use super::{art, autosave, start, two_tabs, versions};
use crate::correction;
use crate::samples::art_files;
use crate::state::Desk;

/// Puts a project on the desk in place of what is there, which is kept first.
///
/// If another tab has it, it is shown all the same, and the page says that it is not kept.
///
/// Errors: why it could not be opened. Then everything stays; also if what is on the desk could not be kept.
pub async fn open(desk: Desk, id: &str) -> Result<(), Why> {
    if desk.keeping.id().as_deref() == Some(id) {
        return Ok(());
    }
    may_leave(desk).await?;
    let right = two_tabs::claim(desk, id).await;
    put_on_desk(desk, id, right).await
}

/// The same for a project that no other tab has.
///
/// Errors: [`Why::OpenElsewhere`] if one has it; else as for [`open`].
pub(super) async fn open_if_free(desk: Desk, id: &str) -> Result<(), Why> {
    may_leave(desk).await?;
    let right = two_tabs::claim(desk, id).await;
    if right.is_granted() { put_on_desk(desk, id, right).await } else { Err(Why::OpenElsewhere) }
}

async fn may_leave(desk: Desk) -> Result<(), Why> {
    if leave(desk).await {
        Ok(())
    } else {
        Err(desk.keeping.state.get_untracked().why().unwrap_or(Why::Failed))
    }
}

async fn put_on_desk(desk: Desk, id: &str, right: Right) -> Result<(), Why> {
    let keeping = desk.keeping;
    let store = keeping.store().await?;
    let (project, text) = store.load(id).await?.ok_or(Why::Failed)?;
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    let last = store.versions(id).await.unwrap_or_default().pop();
    let last = last.map(|version| LastVersion { at_ms: version.at_ms, layout: version.layout });
    // What was changed on the way here.
    may_leave(desk).await?;
    put_away(desk);
    right.take_hold(desk);
    keeping.last_version.set_value(last);
    show(desk, project, layout)?;
    if keeping.state.get_untracked() == SaveState::Saved {
        versions::keep(desk, Occasion::Opening).await;
    }
    Ok(())
}

/// Puts a layout on the desk with nothing of what was there before.
fn show(desk: Desk, project: Project, layout: Layout) -> Result<(), Why> {
    let keeping = desk.keeping;
    let files = art_files(&layout);
    forget_pictures(desk);
    desk.restore(layout).map_err(|_| Why::Failed)?;
    let art = project.art.clone();
    start::remember(&project.id);
    keeping.project.set(Some(project));
    keeping.note_latest(desk);
    art::bring_back(desk, art, &files);
    keeping.note_kept();
    Ok(())
}

/// Begins with a layout from elsewhere, which becomes a project of its own as soon as there is something to keep.
///
/// What was on the desk is kept first; if it could not be, the layout is taken as one undo step named `label` instead,
/// so that nothing is lost. True if there is nothing to take back.
///
/// Errors: the layout makes no sense; then everything stays.
pub async fn begin_new(desk: Desk, label: &str, layout: Layout) -> Result<bool, LayoutError> {
    layout.validate()?;
    let keeping = desk.keeping;
    let is_safe = leave(desk).await || desk.is_expendable();
    put_away(desk);
    if is_safe {
        keeping.waiting.set_value(Vec::new());
        desk.restore(layout)?;
        keeping.state.set(SaveState::Nothing);
    } else {
        desk.replace(label, layout)?;
        keeping.state.update(|state| *state = state.with_own_project());
    }
    keeping.note_latest(desk);
    autosave::save_soon(desk);
    Ok(is_safe)
}

/// Forgets the pictures on the desk: what comes next brings its own.
pub fn forget_pictures(desk: Desk) {
    desk.pictures.clear();
    desk.lent.set(Vec::new());
    desk.keeping.art.set_value(BTreeMap::new());
    desk.keeping.waiting.set_value(Vec::new());
}

/// Keeps what is on the desk, if that is needed. True if it may be put away without a loss.
async fn leave(desk: Desk) -> bool {
    let keeping = desk.keeping;
    // The best so far is worth having.
    if desk.peek(Editor::is_previewing) {
        desk.act(|editor| editor.end_preview(true));
        keeping.note_latest(desk);
    }
    // A change may come in while another one is written.
    for _ in 0..3 {
        if autosave::save(desk).await {
            return true;
        }
        if keeping.state.get_untracked().why().is_some() {
            break;
        }
    }
    !keeping.is_dirty(desk)
}

/// Forgets the project on the desk and lets others have it.
pub(super) fn put_away(desk: Desk) {
    let keeping = desk.keeping;
    drop(keeping.hold.try_update_value(Option::take));
    keeping.project.set(None);
    keeping.kept.set_value(None);
    keeping.last_version.set_value(None);
}
