//! How a visit begins: with the project of the last one, else with a sample.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::records::Project;
use super::save_state::{SaveState, Why};
use super::{autosave, earlier_visit, opening, two_tabs};
use crate::browser::{keep, time};
use crate::samples::{self, Samples};
use crate::state::{Desk, Offer};
use crate::words;

/// Where the id of the project opened last is remembered: by the tab for its reload, by the device for the next visit.
const LAST_PROJECT: &str = "stickleaf-last-project";

/// How long a deleted project can be had back, in milliseconds.
const DELETED_STAYS_MS: f64 = 24.0 * 3_600_000.0;

/// Brings the last project back, or opens the first sample; from then on keeps every change.
pub fn start(desk: Desk, samples: Samples) {
    two_tabs::listen(desk);
    autosave::watch(desk);
    spawn_local(async move {
        let is_back = bring_back(desk).await;
        samples::fetch_list(samples, move || {
            if !is_back && !desk.is_settled.get_untracked() {
                samples::begin(desk, samples);
            }
        });
        if let Ok(store) = desk.keeping.store().await {
            let now_ms = time::date_ms();
            // What is not swept today is swept another day.
            let _ = store.sweep(now_ms - DELETED_STAYS_MS, now_ms).await;
        }
    });
}

/// Remembers which project this tab begins with after a reload, and the next visit.
pub(super) fn remember(id: &str) {
    keep::keep_for_tab(LAST_PROJECT, id);
    // Without it the next visit begins with the project that was changed last.
    let _ = keep::keep(LAST_PROJECT, id);
}

async fn bring_back(desk: Desk) -> bool {
    match try_to_bring_back(desk).await {
        Ok(is_back) => is_back,
        Err(why) => {
            desk.keeping.state.set(SaveState::NotSaved(why));
            false
        }
    }
}

async fn try_to_bring_back(desk: Desk) -> Result<bool, Why> {
    let store = desk.keeping.store().await?;
    earlier_visit::adopt(&store).await;
    let projects = store.projects().await?;
    let Some(id) = first(&projects, [keep::kept_by_tab(LAST_PROJECT), keep::kept(LAST_PROJECT)]) else {
        return Ok(false);
    };
    // Somebody was quicker than the device and has opened something.
    if desk.is_settled.get_untracked() {
        return Ok(true);
    }
    opening::open(desk, &id).await?;
    if desk.keeping.state.get_untracked() == SaveState::Saved {
        desk.say(words::last_sheet_is_back(), Some(Offer::StartFresh));
    }
    Ok(true)
}

/// The project to begin with: the first of these that is still there, else the one changed last.
fn first(projects: &[Project], remembered: [Option<String>; 2]) -> Option<String> {
    let there: Vec<&Project> = projects.iter().filter(|project| project.deleted_ms.is_none()).collect();
    let remembered =
        remembered.into_iter().flatten().find(|id| there.iter().any(|project| project.id == *id));
    let newest = there.iter().max_by(|a, b| a.changed_ms.total_cmp(&b.changed_ms));
    remembered.or_else(|| newest.map(|project| project.id.clone()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn project(id: &str, changed_ms: f64) -> Project {
        Project { id: id.to_owned(), changed_ms, ..Project::default() }
    }

    #[test]
    fn a_tab_begins_with_its_own_project() {
        let projects = [project("a", 1.0), project("b", 3.0), project("c", 2.0)];
        let id = |text: &str| Some(text.to_owned());
        assert_eq!(first(&projects, [id("a"), id("c")]), id("a"));
        assert_eq!(first(&projects, [None, id("c")]), id("c"));
        assert_eq!(first(&projects, [id("gone"), None]), id("b"));
        assert_eq!(first(&[], [id("a"), None]), None);
    }

    #[test]
    fn a_deleted_project_is_not_opened() {
        let deleted = Project { deleted_ms: Some(4.0), ..project("a", 3.0) };
        let projects = [deleted, project("b", 1.0)];
        assert_eq!(first(&projects, [Some("a".to_owned()), None]), Some("b".to_owned()));
        assert_eq!(first(&projects[..1], [None, None]), None);
    }
}
