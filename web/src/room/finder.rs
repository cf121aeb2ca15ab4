//! The page's side: keeps what was found in step with the sheet while it is shown.

use leptos::prelude::*;
use web_sys::MessageEvent;

use crate::browser::time;
use crate::browser::worker_link::{Program, WorkerLink};
use crate::messages::{Answer, Ask, RoomFound, pack, unpack};
use crate::state::Desk;
use crate::words;

/// How long the sheet must be left alone before it is looked at, in milliseconds.
const QUIET_MS: u32 = 150;

/// Asks for the empty room of the sheet on the desk. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct RoomFinder {
    desk: Desk,
    /// The worker; it is there as long as the room is shown.
    link: StoredValue<Option<WorkerLink>, LocalStorage>,
    /// Whether an answer is awaited.
    is_asking: StoredValue<bool>,
    found: RwSignal<Option<RoomFound>>,
    /// Whether the empty room is shown.
    pub is_shown: RwSignal<bool>,
    /// What was found, if it is about the sheet as it is now.
    pub fresh: Memo<Option<RoomFound>>,
}

impl RoomFinder {
    /// Nothing is shown yet.
    pub fn new(desk: Desk) -> RoomFinder {
        let found: RwSignal<Option<RoomFound>> = RwSignal::new(None);
        let is_shown = RwSignal::new(false);
        // While packing the sheet changes too fast to look at.
        let state = Memo::new(move |_| {
            let now = desk.finished.get();
            (!desk.read_at_rest(|editor| editor.is_previewing())).then_some(now)
        });
        let fresh = Memo::new(move |_| {
            let now = state.get()?;
            found.get().filter(|found| is_shown.get() && found.revision == now)
        });
        let link = StoredValue::new_local(None);
        let finder = RoomFinder { desk, link, is_asking: StoredValue::new(false), found, is_shown, fresh };
        Effect::new(move |_| match (is_shown.get(), state.get()) {
            (true, Some(now)) => time::after(QUIET_MS, move || finder.ask(now)),
            (true, None) => {}
            (false, _) => finder.end(),
        });
        finder
    }

    /// Asks about the sheet, if it is still as it was and nothing is awaited.
    fn ask(self, revision: u64) {
        if self.is_asking.get_value() || !self.is_shown.get_untracked() || self.revision() != Some(revision) {
            return;
        }
        let layout = self.desk.peek(|editor| stickleaf_files::write(editor.layout()));
        self.is_asking.set_value(true);
        let message = pack(&Ask::Room { layout, revision }, &[]);
        let posted = self.link.try_update_value(|link| {
            let link = match link {
                Some(link) => link,
                None => link.insert(self.start()?),
            };
            link.post(&message, &[])
        });
        if let Some(Err(error)) = posted {
            self.fail(&format!("{error:?}"));
        }
    }

    fn start(self) -> Result<WorkerLink, wasm_bindgen::JsValue> {
        let on_message = move |event: MessageEvent| {
            if let Some((answer, _)) = unpack(&event.data()) {
                self.take(answer);
            }
        };
        WorkerLink::start(Program::Search, on_message, move |event: web_sys::ErrorEvent| {
            self.fail(&event.message())
        })
    }

    fn take(self, answer: Answer) {
        match answer {
            Answer::Room(found) => {
                self.is_asking.set_value(false);
                // Meanwhile the sheet may have changed.
                if let Some(now) = self.revision().filter(|now| *now != found.revision) {
                    self.ask(now);
                }
                self.found.set(Some(found));
            }
            Answer::Refused(why) => self.fail(&why),
            _ => {}
        }
    }

    /// The state of the sheet now; nothing while packing.
    fn revision(self) -> Option<u64> {
        self.desk.peek(|editor| (!editor.is_previewing()).then(|| editor.layout_revision()))
    }

    fn fail(self, why: &str) {
        self.is_shown.set(false);
        self.end();
        self.desk.say_trouble(words::worker_failed(why));
    }

    fn end(self) {
        self.is_asking.set_value(false);
        self.found.set(None);
        // Dropped a moment later, since the link may be what is calling.
        let link = self.link.try_update_value(Option::take).flatten();
        time::after(0, move || drop(link));
    }
}
