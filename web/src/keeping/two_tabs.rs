//! One project, one tab that keeps it. A second tab shows it, says so, and may take it over.
//!
//! Each project has a lock. The tab that holds it keeps the project; the others look on. Who wants to take over asks the
//! holder, which keeps its last change, lets go, and looks on itself; one that does not answer, as a tab that sleeps, has
//! the lock taken away. Where a browser has no locks, the revision that every write relies on still keeps an older state
//! from overwriting a newer one.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::keeper::Hold;
use super::records::Occasion;
use super::save_state::{SaveState, Why};
use super::{art, autosave, names, versions};
use crate::browser::tab_talk::TabTalk;
use crate::browser::time;
use crate::browser::web_lock::{self, Claim, Wish};
use crate::correction;
use crate::samples::art_files;
use crate::state::Desk;
use crate::words;

/// The channel of all tabs.
const CHANNEL: &str = "stickleaf-projects";

/// How long the holder gets to keep its last change and let go, in milliseconds.
const HANDING_OVER_MS: u32 = 1500;

/// How long a project that seems taken is waited for before it is asked for again, in milliseconds.
const PATIENCE_MS: [u32; 3] = [30, 100, 250];

/// What came of asking for a project.
pub(super) struct Right {
    hold: Option<Hold>,
}

impl Right {
    /// Whether this tab may keep the project.
    pub(super) fn is_granted(&self) -> bool {
        self.hold.is_some()
    }

    /// Makes the desk's what was granted, and says whether the work is kept.
    pub(super) fn take_hold(self, desk: Desk) {
        let is_ours = self.hold.is_some();
        desk.keeping.hold.set_value(self.hold);
        desk.keeping.state.set(if is_ours {
            SaveState::Saved
        } else {
            SaveState::NotSaved(Why::OpenElsewhere)
        });
    }
}

/// Listens for other tabs that want a project of this one.
pub(super) fn listen(desk: Desk) {
    let hear = move |id: String| {
        let is_asked = desk.keeping.id().as_ref() == Some(&id);
        if is_asked && desk.keeping.hold.with_value(Option::is_some) {
            spawn_local(async move {
                autosave::save(desk).await;
                // Nothing else may have happened on the way.
                if desk.keeping.id() == Some(id) {
                    let_go(desk);
                }
            });
        }
    };
    desk.keeping.talk.set_value(TabTalk::join(CHANNEL, hear).ok());
}

/// Stops keeping: another tab has the project now.
pub(super) fn let_go(desk: Desk) {
    desk.keeping.state.set(SaveState::NotSaved(Why::TakenOver));
    drop(desk.keeping.hold.try_update_value(Option::take));
}

/// Asks for a project that nobody else may have.
///
/// What this tab itself let go of, or the page that was here before a reload, takes a moment to be free.
pub(super) async fn claim(desk: Desk, id: &str) -> Right {
    for pause_ms in PATIENCE_MS {
        let right = ask(desk, id, Wish::IfFree).await;
        if right.is_granted() {
            return right;
        }
        time::pause(pause_ms).await;
    }
    ask(desk, id, Wish::IfFree).await
}

/// Holds the project that has just begun on this desk.
pub(super) async fn claim_own(desk: Desk) {
    let Some(id) = desk.keeping.id() else { return };
    let Right { hold } = claim(desk, &id).await;
    if desk.keeping.id() == Some(id) {
        desk.keeping.hold.set_value(Some(hold.unwrap_or(Hold::Unlocked)));
    }
}

async fn ask(desk: Desk, id: &str, wish: Wish) -> Right {
    let own = id.to_owned();
    let on_lost = move || {
        if desk.keeping.id() == Some(own) {
            let_go(desk);
        }
    };
    let hold = match web_lock::claim(&lock_name(id), wish, on_lost).await {
        Claim::Held(lock) => Some(Hold::Lock { _lock: lock }),
        Claim::NoLocks => Some(Hold::Unlocked),
        Claim::Taken => None,
    };
    Right { hold }
}

/// Whether no other tab has a project, for a deed that is done at once.
pub(super) async fn is_free(desk: Desk, id: &str) -> bool {
    claim(desk, id).await.is_granted()
}

fn lock_name(id: &str) -> String {
    format!("stickleaf-project-{id}")
}

/// Makes this tab the one that keeps the project on its desk, in the state in which the other tab left it.
///
/// What was changed here meanwhile is kept as an earlier state and can be had back with undo.
pub fn take_over(desk: Desk) {
    spawn_local(async move {
        if let Err(why) = try_to_take_over(desk).await {
            desk.say_trouble(words::could_not_take_over(why));
        }
    });
}

async fn try_to_take_over(desk: Desk) -> Result<(), Why> {
    let keeping = desk.keeping;
    let Some(id) = keeping.id() else { return Ok(()) };
    if let Some(talk) = keeping.talk.get_value() {
        talk.say(&id);
    }
    let right = ask(desk, &id, Wish::InAnyCase(HANDING_OVER_MS)).await;
    let store = keeping.store().await?;
    let (project, text) = store.load(&id).await?.ok_or(Why::Failed)?;
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    let has_own_changes = keeping.is_dirty(desk);
    if has_own_changes {
        versions::keep(desk, Occasion::OtherTab).await;
    }
    let files = art_files(&layout);
    let art = project.art.clone();
    keeping.project.set(Some(project));
    desk.replace(words::step_take_over(), layout).map_err(|_| Why::Failed)?;
    art::bring_back(desk, art, &files);
    keeping.note_latest(desk);
    keeping.note_kept();
    right.take_hold(desk);
    if has_own_changes {
        desk.say(words::taken_over_here_with_changes(), None);
    } else {
        desk.say(words::taken_over_here(), None);
    }
    Ok(())
}

/// Makes what is on this desk a project of its own, beside the one that another tab has.
pub fn keep_a_copy(desk: Desk) {
    spawn_local(async move {
        let keeping = desk.keeping;
        let taken = match keeping.store().await {
            Ok(store) => store.projects().await.unwrap_or_default(),
            Err(_) => Vec::new(),
        };
        let taken: Vec<String> = taken.into_iter().map(|project| project.name).collect();
        let name = desk.peek(|editor| names::copy_name(&editor.layout().name, &taken));
        keeping.project.set(None);
        keeping.kept.set_value(None);
        keeping.last_version.set_value(None);
        keeping.state.set(SaveState::Saving);
        desk.change_or_say(words::step_copy(), |layout| layout.name.clone_from(&name));
        keeping.note_latest(desk);
        autosave::save_soon(desk);
        desk.say(words::copy_is_kept(&name), None);
    });
}
