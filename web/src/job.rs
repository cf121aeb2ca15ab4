//! Asks the worker: to pack, and to find drawings. Knows how far it is, and takes its answers to the desk.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_sheet::Piece;
use web_sys::{File, MessageEvent};

use crate::browser::worker_link::WorkerLink;
use crate::browser::{files, time};
use crate::messages::{Answer, Ask, ImportWishes, Imported, PackAim, PackNews, pack, unpack};
use crate::state::{Desk, Offer};
use crate::{bring_in, words};

/// How long the worker gets to hand over its best after a stop, in milliseconds.
const STOP_GRACE_MS: u32 = 500;

/// The page's end of the work that goes on beside it. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Job {
    desk: Desk,
    link: StoredValue<Option<WorkerLink>, LocalStorage>,
    /// Counts the jobs, so that an answer of an ended one is not taken for one of the next.
    number: StoredValue<u64>,
    /// Packing on its way.
    pub packing: RwSignal<Option<PackState>>,
    /// How to pack: seed, and rounds if it shall be repeatable.
    pub how: RwSignal<PackHow>,
    /// Art on its way in.
    pub import: RwSignal<Option<ImportState>>,
    /// How the pictures are looked at.
    pub wishes: RwSignal<ImportWishes>,
    /// The pictures that are looked at.
    import_files: StoredValue<Vec<File>, LocalStorage>,
}

/// Packing on its way.
#[derive(Clone, Debug, PartialEq)]
pub struct PackState {
    /// What for.
    pub aim: PackAim,
    /// When it began, in milliseconds since the page was opened.
    pub since_ms: f64,
    /// The latest news.
    pub news: Option<PackNews>,
    /// Whether it has been told to stop.
    pub is_stopping: bool,
}

/// How to pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PackHow {
    /// Where chance starts.
    pub seed: u64,
    /// How many rounds.
    pub rounds: u64,
    /// Whether it ends after these rounds; else it goes on until stopped.
    pub is_repeatable: bool,
}

/// Art on its way in.
#[derive(Clone, Debug, PartialEq)]
pub enum ImportState {
    /// The worker looks for drawings.
    Looking {
        /// In which file.
        name: String,
        /// How far, 0 to 1.
        part: f64,
    },
    /// What it found.
    Found(Vec<Imported>),
}

impl Job {
    /// Nothing to do yet.
    pub fn new(desk: Desk) -> Job {
        Job {
            desk,
            link: StoredValue::new_local(None),
            number: StoredValue::new(0),
            packing: RwSignal::new(None),
            how: RwSignal::new(PackHow { seed: 1, rounds: 500, is_repeatable: false }),
            import: RwSignal::new(None),
            wishes: RwSignal::new(ImportWishes::default()),
            import_files: StoredValue::new_local(Vec::new()),
        }
    }

    /// Packs what lies on the desk; nothing happens while something else goes on.
    pub fn pack(self, aim: PackAim) {
        if self.packing.get_untracked().is_some() || self.import.get_untracked().is_some() {
            return;
        }
        let how = self.how.get_untracked();
        let layout = self.desk.peek(|editor| stickleaf_files::write(editor.layout()));
        let rounds = how.is_repeatable.then_some(how.rounds);
        let since_ms = time::now_ms();
        self.packing.set(Some(PackState { aim, since_ms, news: None, is_stopping: false }));
        self.desk.notice.set(None);
        self.ask(&Ask::Pack { layout, aim, seed: how.seed, rounds }, &[]);
    }

    /// Stops packing; the best so far is kept.
    pub fn stop(self) {
        self.packing.update(|packing| {
            if let Some(packing) = packing {
                packing.is_stopping = true;
            }
        });
        self.link.with_value(|link| {
            if let Some(link) = link {
                let _ = link.post(&pack(&Ask::Stop, &[]), &[]);
            }
        });
        let number = self.number.get_value();
        time::after(STOP_GRACE_MS, move || {
            // The worker is deep in a round: it is ended, and what it showed last counts.
            let hangs = self.packing.get_untracked().is_some_and(|packing| packing.is_stopping);
            if hangs && self.number.get_value() == number {
                self.end();
                self.packing.set(None);
                self.desk.act(|editor| editor.end_preview(true));
            }
        });
    }

    /// Takes files that were chosen or dropped: opens layouts, brings pictures in.
    pub fn take_files(self, files: Vec<File>) {
        bring_in::take_files(self.desk, self, files);
    }

    /// Looks for the drawings of these pictures.
    pub fn import(self, files: Vec<File>, wishes: ImportWishes) {
        if files.is_empty() {
            return;
        }
        if self.packing.get_untracked().is_some() {
            self.stop();
        }
        self.wishes.set(wishes);
        self.import_files.set_value(files);
        self.look_again();
    }

    /// Looks at the same pictures again, after the wishes were changed.
    pub fn look_again(self) {
        let files = self.import_files.get_value();
        let name = files.first().map(File::name).unwrap_or_default();
        self.import.set(Some(ImportState::Looking { name, part: 0.0 }));
        let wishes = self.wishes.get_untracked();
        let number = self.next_number();
        spawn_local(async move {
            let mut buffers = Vec::new();
            for file in &files {
                match files::buffer(file).await {
                    Ok(buffer) => buffers.push(buffer),
                    Err(_) => {
                        self.cancel_import();
                        self.desk.say_trouble(words::could_not_read(&file.name()));
                        return;
                    }
                }
            }
            if self.number.get_value() == number {
                let names = files.iter().map(File::name).collect();
                self.ask(&Ask::Import { names, wishes }, &buffers);
            }
        });
    }

    /// Gives up bringing art in; nothing on the desk changes.
    pub fn cancel_import(self) {
        self.end();
        self.import.set(None);
        self.import_files.set_value(Vec::new());
    }

    /// Puts what was found on the tray.
    pub fn accept_import(self) {
        let Some(ImportState::Found(found)) = self.import.get_untracked() else { return };
        let files = self.import_files.get_value();
        self.cancel_import();
        bring_in::add_stickers(self.desk, found, files);
    }

    fn ask(self, ask: &Ask, buffers: &[js_sys::ArrayBuffer]) {
        let number = self.next_number();
        let is_latest = move || self.number.get_value() == number;
        let on_message = move |event: MessageEvent| {
            if is_latest()
                && let Some((answer, _)) = unpack(&event.data())
            {
                self.take_answer(answer);
            }
        };
        let on_error = move |event: web_sys::ErrorEvent| {
            if is_latest() {
                self.fail(&event.message());
            }
        };
        let link = WorkerLink::start(on_message, on_error);
        match link.and_then(|link| link.post(&pack(ask, buffers), buffers).map(|()| link)) {
            Ok(link) => self.link.set_value(Some(link)),
            Err(error) => self.fail(&format!("{error:?}")),
        }
    }

    fn take_answer(self, answer: Answer) {
        match answer {
            Answer::Packing(news) => self.take_news(news),
            Answer::Packed { news, missing } => self.take_packed(news, &missing),
            Answer::Importing { name, part } => self.import.set(Some(ImportState::Looking { name, part })),
            Answer::Imported(found) => {
                self.end();
                self.import.set(Some(ImportState::Found(found)));
            }
            // Another worker is asked for that, by `room`.
            Answer::Room(_) => {}
            Answer::Refused(why) => {
                self.end();
                self.packing.set(None);
                self.desk.act(|editor| editor.end_preview(false));
                self.desk.say_error(why);
            }
        }
    }

    fn take_news(self, mut news: PackNews) {
        if let Some(layout) = news.layout.take().and_then(|text| stickleaf_files::read(&text).ok()) {
            self.desk.act(|editor| editor.preview(layout.pieces));
        }
        self.packing.update(|packing| {
            if let Some(packing) = packing {
                packing.news = Some(news);
            }
        });
    }

    fn take_packed(self, news: PackNews, missing: &[(String, usize)]) {
        self.end();
        let aim = self.packing.get_untracked().map(|packing| packing.aim);
        self.packing.set(None);
        self.desk.act(|editor| editor.end_preview(false));
        let step = if aim == Some(PackAim::Place) { words::PLACE_THESE } else { words::FILL };
        let layout = news.layout.and_then(|text| stickleaf_files::read(&text).ok());
        let Some(packed) = layout else { return self.fail(words::NO_ANSWER) };
        // What was changed meanwhile stays; only the pieces, and the note on how they came there, are taken over.
        let changed = self.desk.change(step, |layout| {
            let is_known = |piece: &Piece| layout.sticker(&piece.sticker).is_some();
            layout.pieces = packed.pieces.into_iter().filter(is_known).collect();
            layout.carried = packed.carried;
        });
        if let Err(error) = changed {
            return self.desk.say_error(error);
        }
        // That all went well the tally says.
        if !missing.is_empty() {
            self.desk.say_attention(words::not_placed(missing), Some(Offer::Undo));
        }
    }

    fn fail(self, why: &str) {
        self.end();
        self.packing.set(None);
        self.import.set(None);
        self.desk.act(|editor| editor.end_preview(false));
        self.desk.say_trouble(words::worker_failed(why));
    }

    /// Ends the worker; what it still has to say is passed over.
    fn end(self) {
        self.next_number();
        // Dropped a moment later, since the link may be what is calling.
        let link = self.link.try_update_value(Option::take).flatten();
        time::after(0, move || drop(link));
    }

    fn next_number(self) -> u64 {
        self.number.update_value(|number| *number += 1);
        self.number.get_value()
    }
}
