//! The page's side: makes the variants, shares them out to workers, and puts the one that is chosen on the desk.

use leptos::prelude::*;
use stickleaf_files::packed::{Packed, note};
use stickleaf_sheet::{Change, Layout, variants};
use web_sys::MessageEvent;

use crate::browser::time;
use crate::browser::worker_link::{Program, WorkerLink};
use crate::compare::comparison::Comparison;
use crate::compare::wishes::Wishes;
use crate::messages::{Answer, Ask, CardNews, Enough, pack, unpack};
use crate::packing::{PackHow, file_word, most_searches};
use crate::state::{Desk, Offer, Place};
use crate::words;

/// How long workers get to hand over their best after a stop, in milliseconds.
const STOP_GRACE_MS: u32 = 1000;

/// A comparison that goes on beside the page, and what the last one came to. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct CompareJob {
    desk: Desk,
    crew: StoredValue<Vec<Hired>, LocalStorage>,
    /// Counts the comparisons, so that an answer of an ended one is not taken for one of the next.
    number: StoredValue<u64>,
    /// What to compare.
    pub wishes: RwSignal<Wishes>,
    /// What was compared, or is.
    pub comparison: RwSignal<Option<Comparison>>,
    /// How to pack: the seed, and the rounds if it shall be repeatable.
    how: RwSignal<PackHow>,
}

/// A worker and the cards whose searches are its own.
struct Hired {
    worker: usize,
    cards: Vec<usize>,
    link: WorkerLink,
}

impl CompareJob {
    /// Nothing was compared yet.
    pub fn new(desk: Desk, how: RwSignal<PackHow>) -> CompareJob {
        CompareJob {
            desk,
            crew: StoredValue::new_local(Vec::new()),
            number: StoredValue::new(0),
            wishes: RwSignal::new(Wishes::default()),
            comparison: RwSignal::new(None),
            how,
        }
    }

    /// Whether a comparison is on its way; the caller is called again when that changes.
    pub fn is_running(self) -> bool {
        self.comparison.with(|comparison| comparison.as_ref().is_some_and(|comparison| !comparison.is_over))
    }

    /// Packs the layout on the desk with each of these changes; nothing happens while another comparison goes on.
    pub fn start(self, changes: &[Change]) {
        if self.comparison.with_untracked(|known| known.as_ref().is_some_and(|known| !known.is_over)) {
            return;
        }
        let PackHow { seed, rounds, is_repeatable } = self.how.get_untracked();
        let (aim, seconds) = self.wishes.with_untracked(|wishes| (wishes.aim, wishes.seconds));
        let enough = if is_repeatable {
            Enough::Rounds(rounds)
        } else {
            Enough::Milliseconds(1000.0 * seconds as f64)
        };
        let variants = self.desk.peek(|editor| variants(editor.layout(), changes));
        let most = most_searches(time::processors()) as usize;
        let comparison = Comparison::new(variants, aim, seed, enough, most);
        let number = self.next_number();
        let hands = comparison.hands();
        let asks: Vec<Ask> = hands
            .iter()
            .map(|cards| Ask::Compare { tasks: comparison.tasks(cards), aim, seed, enough })
            .collect();
        self.desk.notice.set(None);
        self.comparison.set(Some(comparison));
        for (worker, (cards, ask)) in hands.into_iter().zip(asks).enumerate() {
            let link = self.hire(number, worker);
            match link.and_then(|link| link.post(&pack(&ask, &[]), &[]).map(|()| link)) {
                Ok(link) => self.crew.update_value(|crew| crew.push(Hired { worker, cards, link })),
                Err(error) => self.give_up(&cards, &format!("{error:?}")),
            }
        }
    }

    /// Stops; what each card has come to is kept.
    pub fn stop(self) {
        self.comparison.update(|comparison| {
            if let Some(comparison) = comparison {
                comparison.is_stopped = true;
            }
        });
        self.crew.with_value(|crew| {
            for hired in crew {
                // One that hears nothing is ended below.
                let _ = hired.link.post(&pack(&Ask::Stop, &[]), &[]);
            }
        });
        let number = self.number.get_value();
        time::after(STOP_GRACE_MS, move || {
            if self.number.get_value() == number {
                self.end();
            }
        });
    }

    /// Puts a card's layout on the desk as one undo step and goes there.
    pub fn choose(self, index: usize) {
        let chosen = self.comparison.with_untracked(|comparison| {
            let comparison = comparison.as_ref()?;
            let card = comparison.cards.get(index)?;
            let layout = Layout::clone(&card.best.as_ref()?.layout);
            let packed = Packed::new(
                file_word(comparison.aim),
                comparison.seed,
                card.round,
                env!("CARGO_PKG_VERSION"),
            );
            Some((card.variant.clone(), layout, packed))
        });
        let Some((variant, mut layout, packed)) = chosen else { return };
        let name = variant.change.name(self.desk.unit.get_untracked());
        let is_as_it_was = self.desk.peek(|editor| {
            // The name is no matter of comparing, and what this version does not know stays as it is now.
            layout.name.clone_from(&editor.layout().name);
            layout.carried.clone_from(&editor.layout().carried);
            variant.is_still_of(editor.layout())
        });
        note(&mut layout, &packed);
        if let Err(error) = self.desk.replace(&words::step_choose(&name), layout) {
            return self.desk.say_error(error);
        }
        self.desk.place.set(Place::Desk);
        let said = if is_as_it_was { words::put_on_desk(&name) } else { words::put_on_desk_as_it_was(&name) };
        self.desk.say(said, Some(Offer::Undo));
    }

    fn hire(self, number: u64, worker: usize) -> Result<WorkerLink, wasm_bindgen::JsValue> {
        let is_latest = move || self.number.get_value() == number;
        let on_message = move |event: MessageEvent| {
            if is_latest()
                && let Some((Answer::Compared(news), _)) = unpack(&event.data())
            {
                self.take(&news);
            }
        };
        let on_error = move |event: web_sys::ErrorEvent| {
            if is_latest() {
                self.lose(worker, &event.message());
            }
        };
        WorkerLink::start(Program::Search, on_message, on_error)
    }

    fn take(self, news: &CardNews) {
        self.comparison.update(|comparison| {
            if let Some(comparison) = comparison {
                comparison.take(news);
            }
        });
        self.end_if_all_over();
    }

    /// One worker has failed: its cards keep what they have, the others go on.
    fn lose(self, worker: usize, why: &str) {
        let hired = self.crew.try_update_value(|crew| {
            let place = crew.iter().position(|hired| hired.worker == worker)?;
            Some(crew.remove(place))
        });
        let Some(hired) = hired.flatten() else { return };
        self.give_up(&hired.cards, why);
        // Dropped a moment later, since its link is what is calling.
        time::after(0, move || drop(hired));
    }

    fn give_up(self, cards: &[usize], why: &str) {
        self.comparison.update(|comparison| {
            if let Some(comparison) = comparison {
                comparison.give_up(cards);
            }
        });
        self.desk.say_trouble(words::worker_failed(why));
        self.end_if_all_over();
    }

    fn end_if_all_over(self) {
        if self.comparison.with_untracked(|known| known.as_ref().is_some_and(Comparison::are_all_over)) {
            self.end();
        }
    }

    /// Ends the workers and lets their memory go; what they still have to say is passed over.
    fn end(self) {
        self.next_number();
        let crew = self.crew.try_update_value(std::mem::take);
        // Dropped a moment later, since one of the links may be what is calling.
        time::after(0, move || drop(crew));
        self.comparison.update(|comparison| {
            if let Some(comparison) = comparison {
                comparison.is_over = true;
                for card in &mut comparison.cards {
                    card.is_over = true;
                }
            }
        });
        // On the place itself the cards say it.
        if self.desk.place.get_untracked() != Place::Compare {
            self.desk.say(words::comparison_done(), None);
        }
    }

    fn next_number(self) -> u64 {
        self.number.update_value(|number| *number += 1);
        self.number.get_value()
    }
}
