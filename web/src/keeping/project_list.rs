//! What can be done with projects, whether they lie on the desk or not.

use leptos::prelude::*;
use stickleaf_sheet::Layout;

use super::records::Project;
use super::save_state::{SaveState, Why};
use super::store::{Relying, Store};
use super::{names, opening, two_tabs};
use crate::browser::{digest, time};
use crate::correction;
use crate::samples::{self, Samples};
use crate::state::Desk;
use crate::words;

/// How long a deleted project stays on a full device, in milliseconds: long enough to think better of it.
const REGRET_MS: f64 = 60_000.0;

/// All projects but the deleted ones, the one that was changed last first.
///
/// What is on the desk is kept first, as far as it can be.
pub async fn list(desk: Desk) -> Result<Vec<Project>, Why> {
    super::autosave::save(desk).await;
    let mut projects = desk.keeping.store().await?.projects().await?;
    projects.retain(|project| project.deleted_ms.is_none());
    projects.sort_by(|a, b| b.changed_ms.total_cmp(&a.changed_ms));
    Ok(projects)
}

/// Gives a project another name. On the desk it is one undo step.
pub async fn rename(desk: Desk, id: &str, name: &str) -> Result<(), Why> {
    if desk.keeping.id().as_deref() == Some(id) {
        let named = desk.change(words::step_rename(), |layout| name.clone_into(&mut layout.name));
        note_list(desk);
        return named.map_err(|_| Why::Failed);
    }
    let store = free_project(desk, id).await?;
    let (project, text) = store.load(id).await?.ok_or(Why::Failed)?;
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    let layout = Layout { name: name.to_owned(), ..layout };
    let relying = Relying::On(project.revision);
    let project = Project {
        name: name.to_owned(),
        revision: project.revision + 1,
        changed_ms: time::date_ms(),
        ..project
    };
    store.save(&project, &stickleaf_files::write(&layout), relying)?.end().await?;
    note_list(desk);
    Ok(())
}

/// Makes another project like this one, without its earlier states; gives its name.
pub async fn duplicate(desk: Desk, id: &str) -> Result<String, Why> {
    let taken: Vec<String> = list(desk).await?.into_iter().map(|project| project.name).collect();
    let store = desk.keeping.store().await?;
    let (project, text) = store.load(id).await?.ok_or(Why::Failed)?;
    let name = names::copy_name(&project.name, &taken);
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    let layout = Layout { name: name.clone(), ..layout };
    let copy = Project {
        id: digest::by_chance(),
        name: name.clone(),
        changed_ms: time::date_ms(),
        revision: 1,
        ..project
    };
    store.save(&copy, &stickleaf_files::write(&layout), Relying::On(0))?.end().await?;
    note_list(desk);
    Ok(name)
}

/// Deletes a project. True if it can be had back until the page is closed; it is swept away some time later. On a full
/// device there is no room for that, and it goes for good.
///
/// If it lies on the desk, the project changed last takes its place, or else a sample.
pub async fn delete(desk: Desk, samples: Samples, id: &str) -> Result<bool, Why> {
    let keeping = desk.keeping;
    let is_on_desk = keeping.id().as_deref() == Some(id);
    if is_on_desk && keeping.state.get_untracked().why().is_some_and(Why::is_other_tab) {
        return Err(Why::OpenElsewhere);
    }
    let others = list(desk).await?;
    let store = if is_on_desk { keeping.store().await? } else { free_project(desk, id).await? };
    let (project, _) = store.load(id).await?.ok_or(Why::Failed)?;
    let can_be_had_back = match store.mark(&Project { deleted_ms: Some(time::date_ms()), ..project }).await {
        Err(Why::Full) => store.remove(id).await.map(|()| false)?,
        marked => marked.map(|()| true)?,
    };
    keeping.deleted.set_value(can_be_had_back.then(|| (id.to_owned(), is_on_desk)));
    note_list(desk);
    if is_on_desk {
        clear_desk(desk, samples, others).await;
    }
    Ok(can_be_had_back)
}

/// Puts another project on the desk in place of one that was deleted, or a sample if there is none.
async fn clear_desk(desk: Desk, samples: Samples, others: Vec<Project>) {
    let keeping = desk.keeping;
    let deleted = keeping.id();
    opening::put_away(desk);
    keeping.state.set(SaveState::Nothing);
    // What is still on the desk for a moment is not worth keeping.
    desk.mark_untouched();
    keeping.note_latest(desk);
    for other in others.into_iter().filter(|other| Some(&other.id) != deleted.as_ref()) {
        if opening::open_if_free(desk, &other.id).await.is_ok() {
            return;
        }
    }
    samples::begin(desk, samples);
}

/// Has the project back that was deleted last, on the desk if it lay there.
pub async fn undo_delete(desk: Desk) -> Result<(), Why> {
    let Some((id, was_on_desk)) = desk.keeping.deleted.get_value() else { return Ok(()) };
    let store = desk.keeping.store().await?;
    let (project, _) = store.load(&id).await?.ok_or(Why::Failed)?;
    store.mark(&Project { deleted_ms: None, ..project }).await?;
    desk.keeping.deleted.set_value(None);
    note_list(desk);
    if was_on_desk { opening::open(desk, &id).await } else { Ok(()) }
}

/// Sweeps away what was deleted a while ago, and the pictures that nobody needs any more.
pub(super) async fn make_room(desk: Desk) {
    let now_ms = time::date_ms();
    if let Ok(store) = desk.keeping.store().await {
        // What cannot be swept leaves the device as full as it was.
        let _ = store.sweep(now_ms - REGRET_MS, now_ms).await;
    }
}

/// Begins with an empty sheet of the same size and rules.
pub async fn start_empty(desk: Desk) {
    let keep = |layout: &Layout| Layout { sheet: layout.sheet, rules: layout.rules, ..Layout::default() };
    let empty = desk.peek(|editor| keep(editor.layout()));
    if let Err(error) = opening::begin_new(desk, words::start_empty(), empty).await {
        desk.say_error(error);
    }
}

/// Begins another sheet like the one on the desk: the same card, rules and zones, nothing on it yet. True if it did.
pub async fn begin_like_this(desk: Desk) -> bool {
    let bare = desk.peek(|editor| editor.layout().for_another_theme());
    match opening::begin_new(desk, words::step_sheet_like_this(), bare).await {
        Ok(_) => {
            desk.say(words::sheet_like_this_is_begun(), None);
            true
        }
        Err(error) => {
            desk.say_error(error);
            false
        }
    }
}

/// The store, if no other tab has the project.
async fn free_project(desk: Desk, id: &str) -> Result<std::rc::Rc<Store>, Why> {
    if two_tabs::is_free(desk, id).await { desk.keeping.store().await } else { Err(Why::OpenElsewhere) }
}

/// Whoever shows the list reads it again.
fn note_list(desk: Desk) {
    desk.keeping.list_changes.update(|changes| *changes += 1);
}
