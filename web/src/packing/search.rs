//! The worker's side: a search in slices, so that a word from the page is heard in between.

use crate::words::Told;
use stickleaf_packer::{PackOptions, Progress, Search};
use stickleaf_sheet::Layout;

use crate::messages::{Answer, PackAim, PackNews};
use crate::packing::aim::goal;

/// How long a slice is, in milliseconds. A stop is heard after that and one round, which takes ten to thirty.
const SLICE_MS: f64 = 25.0;

/// Least time between two pieces of news unless another is asked for, in milliseconds: ten a second.
const NEWS_MS: f64 = 100.0;

/// A search on its way.
pub struct Packing {
    search: Search,
    rounds: Option<u64>,
    /// Least time between two pieces of news, in milliseconds.
    pub news_ms: f64,
    last_news_ms: f64,
    /// The layout sent last.
    sent: Option<Layout>,
    /// Whether it shall end after the round at hand.
    pub is_told_to_stop: bool,
}

/// What a slice came to.
pub enum Step {
    /// There is more to do; perhaps there is news.
    Open(Option<Answer>),
    /// It has ended, and says so.
    Ended(Answer),
}

impl Packing {
    /// A search that has not done anything yet.
    ///
    /// Errors: a sentence that says what to do, if the layout makes no sense or nothing can be packed.
    pub fn new(
        layout: &str,
        aim: PackAim,
        seed: u64,
        rounds: Option<u64>,
        now_ms: f64,
    ) -> Result<Packing, String> {
        let layout = stickleaf_files::read(layout).map_err(|error| error.told())?;
        let options = PackOptions { aim: goal(aim), seed };
        let search = Search::new(&layout, &options).map_err(|error| error.told())?;
        Ok(Packing {
            search,
            rounds,
            news_ms: NEWS_MS,
            last_news_ms: now_ms,
            sent: None,
            is_told_to_stop: false,
        })
    }

    /// Goes on for a slice by this clock.
    pub fn slice(&mut self, now_ms: impl Fn() -> f64) -> Step {
        let end_ms = now_ms() + SLICE_MS;
        let mut progress = self.search.progress();
        while !self.is_over(&progress) && now_ms() < end_ms {
            progress = self.search.round();
        }
        if self.is_over(&progress) {
            return Step::Ended(Answer::Packed(self.news(&progress)));
        }
        if now_ms() - self.last_news_ms < self.news_ms {
            return Step::Open(None);
        }
        self.last_news_ms = now_ms();
        Step::Open(Some(Answer::Packing(self.news(&progress))))
    }

    /// The layout that was sent last.
    pub fn sent(&self) -> Option<&Layout> {
        self.sent.as_ref()
    }

    fn is_over(&self, progress: &Progress) -> bool {
        self.is_told_to_stop
            || progress.finished
            || self.rounds.is_some_and(|rounds| progress.round >= rounds)
    }

    fn news(&mut self, progress: &Progress) -> PackNews {
        let best = self.search.best();
        let is_new = self.sent.as_ref() != Some(&best);
        let layout = is_new.then(|| stickleaf_files::write(&best));
        self.sent = Some(best);
        PackNews {
            round: progress.round,
            placed: progress.placed,
            missing: self.search.missing().iter().map(|(_, count)| count).sum(),
            ceiling: progress.ceiling,
            density: progress.density,
            scale: progress.scale,
            gap: progress.gap,
            height: progress.height,
            doing: progress.doing.told(),
            layout,
        }
    }
}
