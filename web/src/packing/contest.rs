//! Several searches for one thing: who is ahead, and whether all have ended.

use std::cmp::Ordering;

use crate::messages::{PackAim, PackNews};

/// No more workers than these: each holds a program and a layout of its own.
const MOST_SEARCHES: u64 = 4;

/// The seeds to search from side by side: one processor is left to the page, and a packing that shall be repeatable is
/// the search from exactly the seed that was given.
pub fn seeds(seed: u64, is_repeatable: bool, processors: u64) -> Vec<u64> {
    let count = if is_repeatable { 1 } else { most_searches(processors) };
    (0..count).map(|i| seed.wrapping_add(i)).collect()
}

/// How many workers may search side by side: one processor is left to the page.
pub fn most_searches(processors: u64) -> u64 {
    processors.saturating_sub(1).clamp(1, MOST_SEARCHES)
}

/// The searches, in the order of their seeds.
pub struct Contest {
    /// What they are for.
    pub aim: PackAim,
    searches: Vec<Entrant>,
}

/// One search.
#[derive(Clone, Debug)]
pub struct Entrant {
    /// Where its chance started.
    pub seed: u64,
    /// What it said last, with the best layout that it ever sent; nothing if it has not said anything yet.
    pub news: Option<PackNews>,
    /// How many layouts it has sent.
    pub layouts: u64,
    is_ended: bool,
}

impl Contest {
    /// Nobody has said anything yet.
    pub fn new(aim: PackAim, seeds: Vec<u64>) -> Contest {
        let entrant = |seed| Entrant { seed, news: None, layouts: 0, is_ended: false };
        Contest { aim, searches: seeds.into_iter().map(entrant).collect() }
    }

    /// Takes what one of them has to say; with `is_last` it has ended.
    pub fn take(&mut self, seed: u64, mut news: PackNews, is_last: bool) {
        let Some(entrant) = self.searches.iter_mut().find(|entrant| entrant.seed == seed) else { return };
        entrant.is_ended = is_last;
        match &news.layout {
            Some(_) => entrant.layouts += 1,
            None => news.layout = entrant.news.take().and_then(|news| news.layout),
        }
        entrant.news = Some(news);
    }

    /// Leaves out one that failed; what it found does not count.
    pub fn leave_out(&mut self, seed: u64) {
        self.searches.retain(|entrant| entrant.seed != seed);
    }

    /// Whether none is left, not even one that has ended.
    pub fn is_empty(&self) -> bool {
        self.searches.is_empty()
    }

    /// Whether all that are left have ended.
    pub fn is_over(&self) -> bool {
        self.searches.iter().all(|entrant| entrant.is_ended)
    }

    /// The one whose layout is best; of equals the one with the lowest seed. Nothing before the first layout.
    pub fn best(&self) -> Option<&Entrant> {
        let shown = |entrant: &&Entrant| entrant.news.as_ref().is_some_and(|news| news.layout.is_some());
        self.searches.iter().filter(shown).min_by(|a, b| match (&a.news, &b.news) {
            (Some(a), Some(b)) => order(self.aim, a, b),
            _ => Ordering::Equal,
        })
    }
}

/// The better of two comes first: what lacks fewer copies, then by the aim's own measure, then by number and density.
fn order(aim: PackAim, a: &PackNews, b: &PackNews) -> Ordering {
    let gap = |news: &PackNews| news.gap.unwrap_or(0.0);
    let by_aim = match aim {
        PackAim::Place | PackAim::Fill => Ordering::Equal,
        PackAim::Grow => b.scale.total_cmp(&a.scale),
        PackAim::Even => gap(b).total_cmp(&gap(a)),
        PackAim::Shorten => a.height.total_cmp(&b.height),
    };
    a.missing.cmp(&b.missing).then(by_aim).then(b.placed.cmp(&a.placed)).then(b.density.total_cmp(&a.density))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn news(edit: impl FnOnce(&mut PackNews)) -> PackNews {
        let mut news = PackNews {
            round: 1,
            placed: 10,
            missing: 0,
            ceiling: 20,
            density: 0.5,
            scale: 1.0,
            gap: None,
            height: 100.0,
            doing: String::new(),
            layout: Some("layout".to_owned()),
        };
        edit(&mut news);
        news
    }

    /// The seed that is ahead when the first says one thing and the second another.
    fn ahead(
        aim: PackAim,
        first: impl FnOnce(&mut PackNews),
        second: impl FnOnce(&mut PackNews),
    ) -> Option<u64> {
        let mut contest = Contest::new(aim, vec![5, 6]);
        contest.take(6, news(second), false);
        contest.take(5, news(first), false);
        contest.best().map(|entrant| entrant.seed)
    }

    #[test]
    fn one_processor_is_left_to_the_page() {
        assert_eq!(seeds(7, false, 1), [7]);
        assert_eq!(seeds(7, false, 2), [7]);
        assert_eq!(seeds(7, false, 4), [7, 8, 9]);
        assert_eq!(seeds(u64::MAX, false, 64), [u64::MAX, 0, 1, 2]);
        assert_eq!(seeds(7, true, 64), [7], "repeatable is the given seed and no other");
    }

    #[test]
    fn the_best_is_best_by_the_aim() {
        assert_eq!(ahead(PackAim::Fill, |_| {}, |news| news.placed = 11), Some(6));
        assert_eq!(ahead(PackAim::Fill, |_| {}, |news| news.density = 0.6), Some(6));
        assert_eq!(ahead(PackAim::Fill, |_| {}, |news| news.scale = 2.0), Some(5));
        assert_eq!(ahead(PackAim::Grow, |news| news.density = 0.9, |news| news.scale = 1.1), Some(6));
        assert_eq!(ahead(PackAim::Even, |news| news.gap = Some(2.0), |news| news.gap = Some(2.5)), Some(6));
        assert_eq!(ahead(PackAim::Even, |news| news.gap = Some(2.0), |_| {}), Some(5));
        assert_eq!(ahead(PackAim::Shorten, |news| news.height = 90.0, |news| news.height = 89.0), Some(6));
    }

    #[test]
    fn what_lacks_copies_is_worse_and_of_equals_the_lowest_seed_counts() {
        assert_eq!(ahead(PackAim::Grow, |_| {}, |news| (news.scale, news.missing) = (2.0, 1)), Some(5));
        assert_eq!(ahead(PackAim::Place, |_| {}, |_| {}), Some(5));
    }

    #[test]
    fn the_last_layout_stays_with_news_that_bring_none() {
        let mut contest = Contest::new(PackAim::Fill, vec![1]);
        assert!(contest.best().is_none());
        contest.take(1, news(|_| {}), false);
        contest.take(1, news(|news| (news.round, news.layout) = (9, None)), false);
        let best = contest.best().and_then(|entrant| entrant.news.clone()).unwrap();
        assert_eq!((best.round, best.layout.as_deref()), (9, Some("layout")));
        assert_eq!(contest.best().map(|entrant| entrant.layouts), Some(1));
    }

    #[test]
    fn it_is_over_when_all_that_are_left_have_ended() {
        let mut contest = Contest::new(PackAim::Fill, vec![1, 2]);
        contest.take(1, news(|_| {}), true);
        assert!(!contest.is_over());
        contest.leave_out(2);
        assert!(contest.is_over() && !contest.is_empty());
        contest.leave_out(1);
        assert!(contest.is_empty());
    }
}
