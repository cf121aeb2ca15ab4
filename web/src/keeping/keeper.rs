//! What is known about the project on the desk: which one it is, what of it is on the device, and who else has it.

use std::collections::BTreeMap;
use std::rc::Rc;

use leptos::prelude::*;
use stickleaf_sheet::Layout;
use web_sys::File;

use super::records::{Art, ArtPlace, KeptPicture, Project};
use super::save_state::{SaveState, Why};
use super::store::{Relying, Store};
use crate::browser::digest;
use crate::browser::tab_talk::TabTalk;
use crate::browser::web_lock::WebLock;
use crate::canvas::Miniature;
use crate::state::Desk;

/// The page's end of what is kept. Handles only, copied freely.
#[derive(Clone, Copy)]
pub struct Keeping {
    /// How safe the work is.
    pub state: RwSignal<SaveState>,
    /// The project on the desk as it was last written or read; nothing while there is none yet.
    pub project: RwSignal<Option<Project>>,
    /// Whether the list of projects is open.
    pub sheets_are_shown: RwSignal<bool>,
    /// Grows when a project was changed that does not lie on the desk.
    pub list_changes: RwSignal<u64>,
    /// The project that was deleted last, to have it back, and whether it lay on the desk.
    pub(super) deleted: StoredValue<Option<(String, bool)>>,
    pub(super) store: StoredValue<Option<Rc<Store>>, LocalStorage>,
    pub(super) hold: StoredValue<Option<Hold>, LocalStorage>,
    pub(super) talk: StoredValue<Option<TabTalk>, LocalStorage>,
    /// The layout as the last finished change left it, and which change that was.
    pub(super) latest: StoredValue<(Change, Layout)>,
    /// The change that is on the device.
    pub(super) kept: StoredValue<Option<Change>>,
    pub(super) art: StoredValue<BTreeMap<String, KeptPicture>>,
    /// Pictures that are not on the device yet.
    pub(super) waiting: StoredValue<Vec<WaitingPicture>, LocalStorage>,
    pub(super) art_changes: StoredValue<u64>,
    pub(super) is_writing: StoredValue<bool>,
    pub(super) is_due: StoredValue<bool>,
    pub(super) last_version: StoredValue<Option<LastVersion>>,
    pub(super) miniature: StoredValue<Miniature, LocalStorage>,
}

/// What tells one state of the desk from another: the layout's revision, and how often its pictures changed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Change {
    pub layout: u64,
    pub art: u64,
}

/// By what right this tab writes to the project on the desk.
pub(super) enum Hold {
    /// It holds the project's lock.
    Lock {
        /// Let go when this is dropped.
        _lock: WebLock,
    },
    /// The browser has no locks; each write looks before it writes.
    Unlocked,
}

/// A picture that is not on the device yet.
#[derive(Clone)]
pub(super) struct WaitingPicture {
    pub name: String,
    pub bytes: File,
    pub size_px: Option<(f64, f64)>,
    pub is_drawing: bool,
}

impl WaitingPicture {
    /// Whether it is the very same one.
    pub fn is_same(&self, other: &WaitingPicture) -> bool {
        self.name == other.name && *self.bytes == *other.bytes
    }
}

/// When the last earlier state was kept, and what it was.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LastVersion {
    pub at_ms: f64,
    pub layout: String,
}

impl Keeping {
    /// Nothing known yet.
    pub fn new() -> Keeping {
        Keeping {
            state: RwSignal::new(SaveState::Nothing),
            project: RwSignal::new(None),
            sheets_are_shown: RwSignal::new(false),
            list_changes: RwSignal::new(0),
            deleted: StoredValue::new(None),
            store: StoredValue::new_local(None),
            hold: StoredValue::new_local(None),
            talk: StoredValue::new_local(None),
            latest: StoredValue::new((Change::default(), Layout::default())),
            kept: StoredValue::new(None),
            art: StoredValue::new(BTreeMap::new()),
            waiting: StoredValue::new_local(Vec::new()),
            art_changes: StoredValue::new(0),
            is_writing: StoredValue::new(false),
            is_due: StoredValue::new(false),
            last_version: StoredValue::new(None),
            miniature: StoredValue::new_local(Miniature::default()),
        }
    }

    /// The store, opened if that was not done yet.
    pub(crate) async fn store(self) -> Result<Rc<Store>, Why> {
        if let Some(store) = self.store.get_value() {
            return Ok(store);
        }
        let store = Rc::new(Store::open().await?);
        self.store.set_value(Some(store.clone()));
        Ok(store)
    }

    /// The id of the project on the desk.
    pub(crate) fn id(self) -> Option<String> {
        self.project.with_untracked(|project| project.as_ref().map(|project| project.id.clone()))
    }

    /// Makes sure that there is a project to write to.
    pub(super) fn ensure_project(self) {
        if self.project.with_untracked(Option::is_none) {
            let project = Project { id: digest::by_chance(), ..Project::default() };
            self.project.set(Some(project));
        }
    }

    /// What a write may rely on at the moment when the page goes.
    pub(super) fn relying_at_the_end(self) -> Relying {
        let has_lock = self.hold.with_value(|hold| matches!(hold, Some(Hold::Lock { .. })));
        let relying = self.relying();
        // Of a project that was never written nobody else can know.
        if has_lock || relying == Relying::On(0) { Relying::OnLock } else { relying }
    }

    /// What a write may rely on: the revision that this tab wrote or read last.
    pub(super) fn relying(self) -> Relying {
        Relying::On(
            self.project.with_untracked(|project| project.as_ref().map_or(0, |project| project.revision)),
        )
    }

    /// Notes the layout as it is now: the one that is written next.
    pub(super) fn note_latest(self, desk: Desk) {
        let (revision, layout) = desk.peek(|editor| (editor.layout_revision(), editor.layout().clone()));
        let change = Change { layout: revision, art: self.art_changes.get_value() };
        self.latest.set_value((change, layout));
    }

    /// Notes that other pictures belong to the layout now.
    pub(super) fn note_art(self) {
        self.art_changes.update_value(|changes| *changes += 1);
        let art = self.art_changes.get_value();
        self.latest.update_value(|(change, _)| change.art = art);
    }

    /// Notes that all is on the device as it is now.
    pub(super) fn note_kept(self) {
        self.kept.set_value(Some(self.latest.with_value(|(change, _)| *change)));
    }

    /// Whether there is something that is not on the device, and worth keeping.
    ///
    /// A sample that nobody touched, and an empty sheet that is no project yet, are not.
    pub(super) fn is_dirty(self, desk: Desk) -> bool {
        let change = self.latest.with_value(|(change, _)| *change);
        if self.kept.get_value() == Some(change) && self.waiting.with_value(Vec::is_empty) {
            return false;
        }
        let is_project = self.project.with_untracked(Option::is_some);
        let is_untouched = desk.untouched.get_untracked() == Some(change.layout);
        is_project || !(is_untouched || self.latest.with_value(|(_, layout)| layout.stickers.is_empty()))
    }

    /// Where all known pictures are. Those are more than the layout names, since undo may bring others back.
    pub(super) fn art(self, desk: Desk) -> Vec<Art> {
        let kept = self.art.get_value();
        let lent = desk.lent.get_untracked();
        let lent = lent.into_iter().filter(|(file, _)| !kept.contains_key(file));
        let lent: Vec<Art> = lent.map(|(file, folder)| Art { file, place: ArtPlace::Lent(folder) }).collect();
        let kept = kept.into_iter().map(|(file, picture)| Art { file, place: ArtPlace::Kept(picture) });
        kept.chain(lent).collect()
    }
}
