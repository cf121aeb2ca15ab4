//! Earlier states of a project, to go back to.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::keeper::LastVersion;
use super::records::{Occasion, Version};
use super::save_state::Why;
use super::when::when;
use super::{art, opening, thinning};
use crate::browser::time;
use crate::correction;
use crate::samples::art_files;
use crate::state::{Desk, Offer, Place};
use crate::words;

/// Keeps what is on the desk as an earlier state, unless the last one is the same; see [`keep`].
pub fn keep_version(desk: Desk, occasion: Occasion) {
    spawn_local(keep(desk, occasion));
}

/// Keeps what is on the desk now as an earlier state of its project, unless there is no project or the last earlier
/// state is the same. Older ones are thinned out.
///
/// That it could not be kept is not told: the project itself is kept apart from this, and tells its own trouble.
pub(super) async fn keep(desk: Desk, occasion: Occasion) {
    let keeping = desk.keeping;
    let Some(id) = keeping.id() else { return };
    let (layout, pieces) =
        desk.peek(|editor| (stickleaf_files::write(editor.layout()), editor.layout().pieces.len()));
    if keeping.last_version.with_value(|last| last.as_ref().is_some_and(|last| last.layout == layout)) {
        return;
    }
    let Ok(store) = keeping.store().await else { return };
    let Ok(before) = store.versions(&id).await else { return };
    let mut times: Vec<f64> = before.iter().map(|version| version.at_ms).collect();
    let at_ms =
        times.iter().fold(time::date_ms(), |now, &other| if now == other { other + 1.0 } else { now });
    times.push(at_ms);
    times.sort_by(f64::total_cmp);
    let staying = thinning::staying(&times, time::date_ms());
    let going: Vec<f64> = times.into_iter().filter(|at| *at != at_ms && !staying.contains(at)).collect();
    let last = LastVersion { at_ms, layout: layout.clone() };
    let version = Version { at_ms, occasion, pieces, layout, art: keeping.art(desk) };
    if store.add_version(&id, &version, &going).await.is_ok() && keeping.id() == Some(id) {
        keeping.last_version.set_value(Some(last));
    }
}

/// The earlier states of a project, the newest first.
pub async fn versions(desk: Desk, id: &str) -> Result<Vec<Version>, Why> {
    let mut versions = desk.keeping.store().await?.versions(id).await?;
    versions.reverse();
    Ok(versions)
}

/// Goes back to an earlier state of a project, which is opened first if it is not on the desk.
///
/// It is one undo step, and what was there before stays as an earlier state too.
pub fn go_back(desk: Desk, id: String, version: Version) {
    spawn_local(async move {
        if let Err(why) = try_to_go_back(desk, &id, version).await {
            desk.say_trouble(words::could_not_open_project(why));
        }
    });
}

async fn try_to_go_back(desk: Desk, id: &str, version: Version) -> Result<(), Why> {
    opening::open(desk, id).await?;
    keep(desk, Occasion::GoingBack).await;
    let layout = correction::read_kept(&version.layout, version.at_ms).map_err(|_| Why::Failed)?;
    let files = art_files(&layout);
    let before = desk.finished.get_untracked();
    desk.replace(words::step_go_back(), layout).map_err(|_| Why::Failed)?;
    let undo = (desk.finished.get_untracked() != before).then_some(Offer::Undo);
    art::bring_back(desk, version.art, &files);
    desk.keeping.sheets_are_shown.set(false);
    desk.place.set(Place::Desk);
    desk.say(words::went_back(&when(version.at_ms)), undo);
    Ok(())
}
