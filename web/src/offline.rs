//! The page without a network: says when it is all on this device, and offers a newer version without pushing it.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::browser::keep;
use crate::browser::offline::{self, CopyNews};
use crate::job::Job;
use crate::keeping;
use crate::state::{Desk, Offer};
use crate::words;

/// The name under which is kept that the artist was told.
const TOLD: &str = "stickleaf-offline-told";

/// What is still to be said and done about the copy on this device. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Offline {
    desk: Desk,
    job: Job,
    /// Whether the copy is complete for the first time, and that was not said yet.
    is_news: RwSignal<bool>,
    newer: RwSignal<Newer>,
}

/// How far a newer version is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Newer {
    /// There is none, or the artist does not want it now.
    None,
    /// It can be offered.
    Waits,
    /// It has taken over.
    IsHere,
}

impl Offline {
    /// Has the page copied to the device once its first layout has arrived.
    pub fn new(desk: Desk, job: Job) -> Offline {
        let (is_news, newer) = (RwSignal::new(false), RwSignal::new(Newer::None));
        let offline = Offline { desk, job, is_news, newer };
        Effect::new(move |has_begun: Option<bool>| {
            if has_begun == Some(true) {
                return true;
            }
            let is_settled = desk.is_settled.get();
            if is_settled {
                offline::keep_copy(move |news| offline.hear(news));
            }
            is_settled
        });
        Effect::new(move |_| offline.speak());
        Effect::new(move |_| offline.leave());
        offline
    }

    /// The artist wants the newer version. The page stays as it is if the layout cannot be kept.
    pub fn take_newer(self) {
        self.when_kept(move || {
            self.newer.set(Newer::None);
            offline::take_over();
        });
    }

    /// The artist does not want it now; the next visit asks again.
    pub fn put_off(self) {
        self.newer.set(Newer::None);
    }

    fn hear(self, news: CopyNews) {
        match news {
            CopyNews::Complete => self.is_news.set(keep::kept(TOLD).is_none()),
            CopyNews::NewerWaits => self.newer.set(Newer::Waits),
            CopyNews::NewerTookOver => self.newer.set(Newer::IsHere),
        }
    }

    /// Says what there is to say when nothing else is being said. Whatever took its place meanwhile, the offer comes
    /// back until it is answered.
    fn speak(self) {
        let is_quiet = self.desk.notice.with(Option::is_none) && !self.job.is_packing();
        if is_quiet && self.newer.get() == Newer::Waits {
            self.desk.say(words::newer_waits(), Some(Offer::NewerVersion));
        } else if is_quiet && self.is_news.get() {
            self.is_news.set(false);
            keep::keep(TOLD, "yes");
            self.desk.say(words::ready_offline(), None);
        }
    }

    /// Loads the page again when another version has taken over, which another window of the page may have asked for.
    /// What goes on here comes to its end first.
    fn leave(self) {
        let is_busy = self.job.is_packing() || self.job.import.with(Option::is_some);
        if self.newer.get() == Newer::IsHere && !is_busy {
            self.when_kept(offline::load_again);
        }
    }

    /// Does something that ends this visit once all is on the device; says so if that cannot be.
    fn when_kept(self, then: impl FnOnce() + 'static) {
        spawn_local(async move {
            if keeping::save(self.desk).await {
                then();
            } else {
                self.desk.say_trouble(words::not_kept_yet());
            }
        });
    }
}
