//! What goes on beside the page: packing, and the search for drawings, whose answers are taken to the desk here.

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_sheet::Layout;
use web_sys::{File, MessageEvent};

use crate::browser::worker_link::{Program, WorkerLink};
use crate::browser::{files, time};
use crate::keeping::{self, Occasion};
use crate::messages::{ImportWishes, Imported, PackAim, PictureAnswer, PictureAsk, pack, unpack};
use crate::packing::PackJob;
use crate::replace::{Decision, replace};
use crate::state::Desk;
use crate::update::{Incoming, earlier_version, pictures_of, update};
use crate::{backdrop, bring_in, words};

/// The page's end of the work that goes on beside it. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Job {
    desk: Desk,
    /// The worker that looks for drawings.
    link: StoredValue<Option<WorkerLink>, LocalStorage>,
    /// Counts the jobs, so that an answer of an ended one is not taken for one of the next.
    number: StoredValue<u64>,
    /// Packing.
    pub packing: PackJob,
    /// Art on its way in.
    pub import: RwSignal<Option<ImportState>>,
    /// The sticker whose place a drawing shall take, by its id; nothing while art becomes new stickers.
    pub replacing: RwSignal<Option<String>>,
    /// Whether the drawings become zones of the background.
    pub zoning: RwSignal<bool>,
    /// For each picture that is brought in the one of the layout that it is a changed version of; nothing where its drawings
    /// become new stickers.
    pub updating: RwSignal<Vec<Option<String>>>,
    /// How the pictures are looked at.
    pub wishes: RwSignal<ImportWishes>,
    /// The pictures that are looked at.
    import_files: StoredValue<Vec<File>, LocalStorage>,
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
            packing: PackJob::new(desk),
            import: RwSignal::new(None),
            replacing: RwSignal::new(None),
            zoning: RwSignal::new(false),
            updating: RwSignal::new(Vec::new()),
            wishes: RwSignal::new(ImportWishes::default()),
            import_files: StoredValue::new_local(Vec::new()),
        }
    }

    /// Packs what lies on the desk; nothing happens while something else goes on.
    pub fn pack(self, aim: PackAim) {
        if self.import.get_untracked().is_none() {
            keeping::save_at_once(self.desk);
            keeping::keep_version(self.desk, Occasion::Packing);
            self.packing.start(aim);
        }
    }

    /// Whether packing is on its way; the caller is called again when that changes.
    pub fn is_packing(self) -> bool {
        self.packing.state.with(Option::is_some)
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
        if self.packing.state.with_untracked(Option::is_some) {
            self.packing.stop();
        }
        self.replacing.set(None);
        self.zoning.set(false);
        self.updating.set(self.earlier_versions(&files));
        self.wishes.set(wishes);
        self.import_files.set_value(files);
        self.look_again();
    }

    /// Looks for the drawings of a picture, one of which shall take a sticker's place.
    pub fn import_for(self, sticker: String, files: Vec<File>) {
        let border_mm = self.desk.peek(|editor| {
            let layout = editor.layout();
            layout
                .sticker(&sticker)
                .map_or(layout.rules.border, |sticker| sticker.border_width(&layout.rules))
        });
        let is_chosen = !files.is_empty();
        self.import(files, ImportWishes { border_mm, ..bring_in::usual_wishes(self.desk) });
        if is_chosen {
            self.updating.set(Vec::new());
            self.replacing.set(Some(sticker));
        }
    }

    /// Looks for what is drawn on a picture as wide as the sheet, to make zones of it.
    pub fn find_zones(self, file: File) {
        self.import(vec![file], backdrop::zone_wishes(self.desk));
        self.updating.set(Vec::new());
        self.zoning.set(true);
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
                self.ask(&PictureAsk::Import { names, wishes }, &buffers);
            }
        });
    }

    /// Gives up bringing art in; nothing on the desk changes.
    pub fn cancel_import(self) {
        self.end();
        self.import.set(None);
        self.replacing.set(None);
        self.zoning.set(false);
        self.updating.set(Vec::new());
        self.import_files.set_value(Vec::new());
    }

    /// Puts what was found on the tray.
    pub fn accept_import(self) {
        let Some(ImportState::Found(found)) = self.import.get_untracked() else { return };
        let files = self.import_files.get_value();
        self.cancel_import();
        bring_in::add_stickers(self.desk, found, files);
    }

    /// Lets one of the drawings that were found take the sticker's place.
    pub fn accept_replacement(self, decision: Decision) {
        let Some(ImportState::Found(found)) = self.import.get_untracked() else { return };
        let files = self.import_files.get_value();
        let sticker = self.replacing.get_untracked();
        self.cancel_import();
        if let (Some(id), Some(imported), Some(file)) =
            (sticker, found.into_iter().next(), files.into_iter().next())
        {
            replace(self.desk, &id, imported, file, decision);
        }
    }

    /// For each of these files the picture of the layout that it is likely to be a changed version of.
    fn earlier_versions(self, files: &[File]) -> Vec<Option<String>> {
        let of = |layout: &Layout| files.iter().map(|file| earlier_version(layout, &file.name())).collect();
        self.desk.peek(|editor| of(editor.layout()))
    }

    /// Lets the pictures on their way in update the stickers of earlier versions of them, the first picture that there is if none
    /// is known by its name; or lets all of them become new stickers.
    pub fn choose_updating(self, updates: bool) {
        let mut chosen = self.import_files.with_value(|files| self.earlier_versions(files));
        if !updates {
            chosen.fill(None);
        } else if chosen.iter().all(Option::is_none)
            && let Some(first) = chosen.first_mut()
        {
            *first = self.desk.peek(|editor| pictures_of(editor.layout()).into_iter().next());
        }
        self.updating.set(chosen);
    }

    /// Whether a picture on its way in updates stickers; followed.
    pub fn is_updating(self) -> bool {
        self.updating.with(|chosen| chosen.iter().any(Option::is_some))
    }

    /// Lets the pictures that were looked at take the places of those that they are changed versions of.
    pub fn accept_update(self, takes_new: bool) {
        let Some(ImportState::Found(found)) = self.import.get_untracked() else { return };
        let files = self.import_files.get_value();
        let updating = self.updating.get_untracked();
        self.cancel_import();
        let each = found.into_iter().zip(files).zip(updating);
        let incoming = each.map(|((imported, source), earlier)| Incoming { imported, source, earlier });
        update(self.desk, incoming.collect(), takes_new);
    }

    fn ask(self, ask: &PictureAsk, buffers: &[js_sys::ArrayBuffer]) {
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
        let link = WorkerLink::start(Program::Pictures, on_message, on_error);
        match link.and_then(|link| link.post(&pack(ask, buffers), buffers).map(|()| link)) {
            Ok(link) => self.link.set_value(Some(link)),
            Err(error) => self.fail(&format!("{error:?}")),
        }
    }

    fn take_answer(self, answer: PictureAnswer) {
        match answer {
            PictureAnswer::Importing { name, part } => {
                self.import.set(Some(ImportState::Looking { name, part }))
            }
            PictureAnswer::Imported(found) if self.zoning.get_untracked() => {
                let file = self.import_files.get_value().into_iter().next();
                self.cancel_import();
                if let (Some(imported), Some(file)) = (found.into_iter().next(), file) {
                    backdrop::take_zones(self.desk, imported, file);
                }
            }
            PictureAnswer::Imported(found) => {
                self.end();
                self.import.set(Some(ImportState::Found(found)));
            }
            PictureAnswer::Refused(why) => {
                self.cancel_import();
                self.desk.say_error(why);
            }
            // Another worker is asked for these.
            PictureAnswer::Unpacked(_)
            | PictureAnswer::Pressing(_)
            | PictureAnswer::Pressed(_)
            | PictureAnswer::Inked(_) => {}
        }
    }

    fn fail(self, why: &str) {
        self.cancel_import();
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
