//! What takes the device a while to make for the printer: asked of a worker here, and handed to the artist.

use js_sys::{Array, ArrayBuffer};
use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_sheet::Layout;
use web_sys::{File, MessageEvent};

use crate::browser::worker_link::{Program, WorkerLink};
use crate::browser::{download, time};
use crate::messages::{Made, PictureAnswer, PictureAsk, PressOrder, pack, unpack};
use crate::picture_work::{Gathered, gather};
use crate::state::Desk;
use crate::words;

/// The page's end of what is being made. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct PressJob {
    desk: Desk,
    link: StoredValue<Option<WorkerLink>, LocalStorage>,
    /// Counts the jobs, so that an answer of an ended one is not taken for one of the next.
    number: StoredValue<u64>,
    /// What is being made now.
    pub making: RwSignal<Option<Making>>,
    /// What was made last, as a file, and the state of the layout that it was made of.
    pub made: RwSignal<Option<(u64, File)>, LocalStorage>,
    /// The main colours of the sheet whose colour strip was made last, and the layout that they are of, whatever its correction.
    pub colours: RwSignal<Option<(Layout, Vec<[u8; 3]>)>>,
    /// The state of the layout that is being made something of.
    revision: StoredValue<u64>,
    /// That layout, without its correction.
    layout: StoredValue<Layout>,
}

/// The layout without its correction of colours: what its main colours depend on.
pub fn without_correction(layout: &Layout) -> Layout {
    Layout { correction: None, ..layout.clone() }
}

/// Something on its way.
#[derive(Clone, Debug, PartialEq)]
pub struct Making {
    /// The file that it becomes.
    pub file: String,
    /// How far it is, 0 to 1.
    pub share: f64,
    /// When it was begun, in milliseconds since the page was opened.
    begun_ms: f64,
}

impl Making {
    /// How many seconds it will still take if it goes on as it did; nothing before that can be told.
    pub fn seconds_left(&self) -> Option<f64> {
        let used = (time::now_ms() - self.begun_ms) / 1000.0;
        (self.share > 0.05 && used > 1.0).then(|| used * (1.0 - self.share) / self.share)
    }
}

impl PressJob {
    /// Nothing is being made yet.
    pub fn new(desk: Desk) -> PressJob {
        PressJob {
            desk,
            link: StoredValue::new_local(None),
            number: StoredValue::new(0),
            making: RwSignal::new(None),
            made: RwSignal::new_local(None),
            colours: RwSignal::new(None),
            revision: StoredValue::new(0),
            layout: StoredValue::new(Layout::default()),
        }
    }

    /// Makes what is ordered of the sheet as it is now, and saves it under this name. What was being made is given up.
    pub fn make(self, order: PressOrder, file: String, media_type: &'static str) {
        self.make_of(file, media_type, async move || {
            let Gathered { layout, pictures, buffers } = gather(self.desk).await;
            Ok((PictureAsk::Press { layout, pictures, order }, buffers))
        });
    }

    /// Makes something of what `gather` finds, and saves it under this name. What was being made is given up.
    pub fn make_of<G>(self, file: String, media_type: &'static str, gather: G)
    where
        G: AsyncFnOnce() -> Result<(PictureAsk, Vec<ArrayBuffer>), String> + 'static,
    {
        self.end();
        self.made.set(None);
        self.revision.set_value(self.desk.finished.get_untracked());
        self.layout.set_value(self.desk.layout.with_untracked(without_correction));
        let number = self.number.get_value();
        self.making.set(Some(Making { file, share: 0.0, begun_ms: time::now_ms() }));
        spawn_local(async move {
            let gathered = gather().await;
            if self.number.get_value() != number {
                return;
            }
            match gathered {
                Ok((ask, buffers)) => self.ask(&ask, &buffers, media_type),
                Err(why) => self.fail(why),
            }
        });
    }

    /// Gives up what is being made.
    pub fn cancel(self) {
        self.end();
        self.making.set(None);
    }

    fn ask(self, ask: &PictureAsk, buffers: &[ArrayBuffer], media_type: &'static str) {
        let number = self.number.get_value();
        let is_latest = move || self.number.get_value() == number;
        let on_message = move |event: MessageEvent| {
            if is_latest()
                && let Some((answer, buffers)) = unpack(&event.data())
            {
                self.take_answer(answer, buffers, media_type);
            }
        };
        let on_error = move |event: web_sys::ErrorEvent| {
            if is_latest() {
                self.fail(words::worker_failed(&event.message()));
            }
        };
        let link = WorkerLink::start(Program::Pictures, on_message, on_error);
        match link.and_then(|link| link.post(&pack(ask, buffers), buffers).map(|()| link)) {
            Ok(link) => self.link.set_value(Some(link)),
            Err(error) => self.fail(words::worker_failed(&format!("{error:?}"))),
        }
    }

    fn take_answer(self, answer: PictureAnswer, buffers: Vec<ArrayBuffer>, media_type: &'static str) {
        match answer {
            PictureAnswer::Pressing(share) => self.making.update(|making| {
                if let Some(making) = making {
                    making.share = share;
                }
            }),
            PictureAnswer::Pressed(made) => self.save(made, &buffers, media_type),
            PictureAnswer::Refused(why) => self.fail(words::sentence(&why)),
            // Another worker is asked for these.
            PictureAnswer::Importing { .. }
            | PictureAnswer::Imported(_)
            | PictureAnswer::Unpacked(_)
            | PictureAnswer::Inked(_) => {}
        }
    }

    fn save(self, made: Made, buffers: &[ArrayBuffer], media_type: &str) {
        let Some((making, bytes)) = self.making.get_untracked().zip(buffers.first()) else { return };
        self.cancel();
        if let Some(colours) = &made.colours {
            self.colours.set(Some((self.layout.get_value(), colours.clone())));
        }
        let file = File::new_with_buffer_source_sequence(&Array::of1(bytes), &making.file);
        self.made.set(file.ok().map(|file| (self.revision.get_value(), file)));
        match download::download_bytes(&making.file, media_type, bytes) {
            Ok(()) => {
                let done = words::made(&making.file, &made);
                let done = if made.left.is_empty() { done } else { words::made_of_parts(&done, &made.left) };
                if made.colours.is_some_and(|colours| colours.is_empty()) {
                    self.desk.say_attention(words::strip_is_empty(), None);
                } else if made.missing.is_empty() {
                    self.desk.say(done, None);
                } else {
                    self.desk.say_attention(words::made_without(&done, &made.missing), None);
                }
            }
            Err(_) => self.desk.say_trouble(words::save_failed()),
        }
    }

    fn fail(self, why: String) {
        self.cancel();
        self.desk.say_trouble(why);
    }

    /// Ends the worker; what it still has to say is passed over.
    fn end(self) {
        self.number.update_value(|number| *number += 1);
        // Dropped a moment later, since the link may be what is calling.
        let link = self.link.try_update_value(Option::take).flatten();
        time::after(0, move || drop(link));
    }
}
