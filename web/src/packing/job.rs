//! The page's side: starts the workers, shows who is ahead, and takes the best to the desk.

use leptos::prelude::*;
use stickleaf_files::packed::{Packed, note};
use stickleaf_sheet::Layout;
use web_sys::MessageEvent;

use crate::browser::time;
use crate::browser::worker_link::{Program, WorkerLink};
use crate::messages::{Answer, Ask, PackAim, PackNews, pack, unpack};
use crate::packing::aim::{file_word, step_word};
use crate::packing::contest::{Contest, seeds};
use crate::packing::take_over::{lacking, take_over};
use crate::state::{Desk, Offer};
use crate::words;

/// How long workers get to hand over their best after a stop, in milliseconds.
const STOP_GRACE_MS: u32 = 500;

/// Least time between two pictures of stickers or sheets of another size, in milliseconds: unlike mere places they
/// change the proven bound, which takes the page a while to work out.
const RESIZED_MS: f64 = 400.0;

/// How many times as long as a picture took to make the page is left to the hand before the next.
const REST: f64 = 4.0;

/// Packing that goes on beside the page. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct PackJob {
    desk: Desk,
    crew: StoredValue<Option<Crew>, LocalStorage>,
    /// Counts the packings, so that an answer of an ended one is not taken for one of the next.
    number: StoredValue<u64>,
    /// Packing on its way.
    pub state: RwSignal<Option<PackState>>,
    /// How to pack: seed, and rounds if it shall be repeatable.
    pub how: RwSignal<PackHow>,
}

/// The workers and what they have come to.
struct Crew {
    contest: Contest,
    /// Each with its seed.
    links: Vec<(u64, WorkerLink)>,
    /// Whether each does its rounds, whatever the others do.
    is_repeatable: bool,
    /// The seed and the number of the layout shown last.
    shown: Option<(u64, u64)>,
    /// When that was, and how long it took, in milliseconds.
    shown_ms: f64,
    showing_ms: f64,
}

/// Packing on its way.
#[derive(Clone, Debug, PartialEq)]
pub struct PackState {
    /// What for.
    pub aim: PackAim,
    /// When it began, in milliseconds since the page was opened.
    pub since_ms: f64,
    /// The latest news of the search that is ahead, without its layout.
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

impl PackJob {
    /// Nothing to do yet.
    pub fn new(desk: Desk) -> PackJob {
        let job = PackJob {
            desk,
            crew: StoredValue::new_local(None),
            number: StoredValue::new(0),
            state: RwSignal::new(None),
            how: RwSignal::new(PackHow { seed: 1, rounds: 500, is_repeatable: false }),
        };
        job.end_with_layout();
        job
    }

    /// What was found for one layout is of no use to the next.
    fn end_with_layout(self) {
        Effect::new(move |before: Option<u64>| {
            let begun = self.desk.begun.get();
            if before.is_some_and(|before| before != begun) && self.state.with_untracked(Option::is_some) {
                self.end();
            }
            begun
        });
    }

    /// Packs what lies on the desk; nothing happens while it packs already.
    pub fn start(self, aim: PackAim) {
        if self.state.get_untracked().is_some() {
            return;
        }
        let PackHow { seed, rounds, is_repeatable } = self.how.get_untracked();
        let layout = self.desk.peek(|editor| stickleaf_files::write(editor.layout()));
        let rounds = is_repeatable.then_some(rounds);
        self.state.set(Some(PackState { aim, since_ms: time::now_ms(), news: None, is_stopping: false }));
        self.desk.notice.set(None);
        let number = self.next_number();
        let (mut links, mut trouble) = (Vec::new(), String::new());
        for seed in seeds(seed, is_repeatable, time::processors()) {
            let ask = Ask::Pack { layout: layout.clone(), aim, seed, rounds };
            let link = self.hire(number, seed);
            match link.and_then(|link| link.post(&pack(&ask, &[]), &[]).map(|()| link)) {
                Ok(link) => links.push((seed, link)),
                // The others do without it.
                Err(error) => trouble = format!("{error:?}"),
            }
        }
        if links.is_empty() {
            return self.fail(&trouble);
        }
        let contest = Contest::new(aim, links.iter().map(|(seed, _)| *seed).collect());
        self.crew.set_value(Some(Crew {
            contest,
            links,
            is_repeatable,
            shown: None,
            shown_ms: 0.0,
            showing_ms: 0.0,
        }));
    }

    /// Stops packing; the best so far is kept.
    pub fn stop(self) {
        self.state.update(|state| {
            if let Some(state) = state {
                state.is_stopping = true;
            }
        });
        self.crew.with_value(|crew| {
            for (_, link) in crew.iter().flat_map(|crew| &crew.links) {
                // One that hears nothing is ended below.
                let _ = link.post(&pack(&Ask::Stop, &[]), &[]);
            }
        });
        let number = self.number.get_value();
        time::after(STOP_GRACE_MS, move || {
            // A worker that is deep in a round is ended, and what it sent last counts.
            if self.number.get_value() == number && self.state.get_untracked().is_some() {
                self.conclude();
            }
        });
    }

    fn hire(self, number: u64, seed: u64) -> Result<WorkerLink, wasm_bindgen::JsValue> {
        let is_latest = move || self.number.get_value() == number;
        let on_message = move |event: MessageEvent| {
            if is_latest()
                && let Some((answer, _)) = unpack(&event.data())
            {
                self.take_answer(seed, answer);
            }
        };
        let on_error = move |event: web_sys::ErrorEvent| {
            if is_latest() {
                self.lose(seed, &event.message());
            }
        };
        WorkerLink::start(Program::Search, on_message, on_error)
    }

    fn take_answer(self, seed: u64, answer: Answer) {
        match answer {
            Answer::Packing(news) => self.take_news(seed, news, false),
            Answer::Packed(news) => self.take_news(seed, news, true),
            Answer::Refused(why) => {
                self.end();
                self.desk.act(|editor| editor.end_preview(false));
                self.desk.say_error(why);
            }
            // Other workers are asked for these.
            Answer::Compared(_) | Answer::Room(_) => {}
        }
    }

    fn take_news(self, seed: u64, news: PackNews, is_last: bool) {
        let is_over = self.crew.try_update_value(|crew| {
            let crew = crew.as_mut()?;
            crew.contest.take(seed, news, is_last);
            Some((crew.contest.is_over(), crew.is_repeatable))
        });
        match is_over.flatten() {
            Some((true, _)) => self.conclude(),
            // One with nothing left to try ends all.
            Some((false, false)) if is_last => self.stop_once(),
            _ => self.show_best(),
        }
    }

    fn stop_once(self) {
        if self.state.with_untracked(|state| state.as_ref().is_some_and(|state| !state.is_stopping)) {
            self.stop();
        }
    }

    /// Shows the layout that is ahead, and how far it is.
    fn show_best(self) {
        let is_previewed = self.desk.peek(|editor| editor.is_previewing());
        let best = self.crew.try_update_value(|crew| {
            let crew = crew.as_mut()?;
            let aim = crew.contest.aim;
            let best = crew.contest.best()?;
            let mut news = best.news.clone()?;
            let layout = news.layout.take();
            let is_due = match aim {
                PackAim::Grow | PackAim::Shorten => {
                    time::now_ms() - crew.shown_ms >= RESIZED_MS.max(REST * crew.showing_ms)
                }
                PackAim::Place | PackAim::Fill | PackAim::Even => true,
            };
            // A change of the layout by hand ends a preview.
            let is_new = crew.shown != Some((best.seed, best.layouts)) || !is_previewed;
            let layout = layout.filter(|_| is_new && is_due);
            if layout.is_some() {
                crew.shown = Some((best.seed, best.layouts));
            }
            Some((aim, news, layout))
        });
        let Some((aim, news, layout)) = best.flatten() else { return };
        if let Some(packed) = layout.and_then(|text| stickleaf_files::read(&text).ok()) {
            let begun_ms = time::now_ms();
            self.desk.act(|editor| {
                let mut layout = editor.layout().clone();
                take_over(&mut layout, packed, aim);
                editor.preview_layout(layout);
            });
            self.crew.update_value(|crew| {
                if let Some(crew) = crew {
                    crew.shown_ms = time::now_ms();
                    crew.showing_ms = crew.shown_ms - begun_ms;
                }
            });
        }
        self.state.update(|state| {
            if let Some(state) = state {
                state.news = Some(news);
            }
        });
    }

    /// Ends the workers and takes the best that they found as one undo step.
    fn conclude(self) {
        let best = self.crew.with_value(|crew| {
            let contest = &crew.as_ref()?.contest;
            let best = contest.best()?;
            Some((contest.aim, best.seed, best.news.clone()?))
        });
        self.end();
        self.desk.act(|editor| editor.end_preview(false));
        // Stopped before anything was found.
        let Some((aim, seed, mut news)) = best else { return };
        let layout = news.layout.take().and_then(|text| stickleaf_files::read(&text).ok());
        let Some(mut packed) = layout else { return self.fail(words::no_answer()) };
        note(&mut packed, &Packed::new(file_word(aim), seed, news.round, env!("CARGO_PKG_VERSION")));
        self.adopt(aim, &news, packed);
    }

    fn adopt(self, aim: PackAim, news: &PackNews, packed: Layout) {
        let missing = lacking(&packed);
        let before = self.desk.finished.get_untracked();
        let changed = self.desk.change(step_word(aim), |layout| take_over(layout, packed, aim));
        if let Err(error) = changed {
            return self.desk.say_error(error);
        }
        let undo = (self.desk.finished.get_untracked() != before).then_some(Offer::Undo);
        if !missing.is_empty() {
            return self.desk.say_attention(words::not_placed(&missing), undo);
        }
        // Of mere counts the tally says that all went well.
        if let Some(reached) = words::reached(aim, news, self.desk.unit.get_untracked()) {
            self.desk.say(words::sentence(&reached), undo);
        }
    }

    /// One worker has failed: the others go on without it.
    fn lose(self, seed: u64, why: &str) {
        let left = self.crew.try_update_value(|crew| {
            let crew = crew.as_mut()?;
            crew.contest.leave_out(seed);
            let place = crew.links.iter().position(|(other, _)| *other == seed);
            let link = place.map(|place| crew.links.remove(place));
            // Dropped a moment later, since the link is what is calling.
            time::after(0, move || drop(link));
            Some((crew.contest.is_empty(), crew.contest.is_over()))
        });
        match left.flatten() {
            Some((true, _)) => self.fail(why),
            Some((false, true)) => self.conclude(),
            _ => {}
        }
    }

    fn fail(self, why: &str) {
        self.end();
        self.desk.act(|editor| editor.end_preview(false));
        self.desk.say_trouble(words::worker_failed(why));
    }

    /// Ends the workers and lets their memory go; what they still have to say is passed over.
    fn end(self) {
        self.next_number();
        let crew = self.crew.try_update_value(Option::take).flatten();
        // Dropped a moment later, since one of the links may be what is calling.
        time::after(0, move || drop(crew));
        self.state.set(None);
    }

    fn next_number(self) -> u64 {
        self.number.update_value(|number| *number += 1);
        self.number.get_value()
    }
}
