//! The worker's side: several searches in turns, a slice each, so that all have had the same time whenever one looks.

use std::collections::VecDeque;

use stickleaf_sheet::{Ceiling, Layout, Summary, ceiling_with_reason, summary_with};

use crate::messages::{Answer, CardBest, CardNews, CompareTask, Enough, Figures, PackAim, PackNews};
use crate::packing::{Packing, Step};

/// Least time between two pieces of news of one search, in milliseconds: several cards are drawn at a time.
const NEWS_MS: f64 = 400.0;

/// The searches of one worker.
pub struct Rota {
    aim: PackAim,
    seed: u64,
    enough: Enough,
    /// Those that have not ended, the one whose turn it is first.
    waiting: VecDeque<Entrant>,
    /// Whether all shall end, each with its best.
    pub is_told_to_stop: bool,
}

/// One search.
struct Entrant {
    card: usize,
    task: Task,
    used_ms: f64,
    /// The proven bound, once it was worked out.
    ceiling: Option<Ceiling>,
}

enum Task {
    /// Not begun: the text of its layout.
    Waiting(String),
    Begun(Box<Packing>),
}

impl Rota {
    /// Nothing has begun yet.
    pub fn new(tasks: Vec<CompareTask>, aim: PackAim, seed: u64, enough: Enough) -> Rota {
        let entrant = |task: CompareTask| Entrant {
            card: task.card,
            task: Task::Waiting(task.layout),
            used_ms: 0.0,
            ceiling: None,
        };
        let waiting = tasks.into_iter().map(entrant).collect();
        Rota { aim, seed, enough, waiting, is_told_to_stop: false }
    }

    /// Whether all have ended.
    pub fn is_over(&self) -> bool {
        self.waiting.is_empty()
    }

    /// Goes on with the search whose turn it is for a slice by this clock; perhaps there is news of it.
    pub fn slice(&mut self, now_ms: impl Fn() -> f64) -> Option<Answer> {
        let mut entrant = self.waiting.pop_front()?;
        let news = self.turn(&mut entrant, now_ms);
        if !news.as_ref().is_some_and(|news| news.is_over) {
            self.waiting.push_back(entrant);
        }
        news.map(Answer::Compared)
    }

    fn turn(&self, entrant: &mut Entrant, now_ms: impl Fn() -> f64) -> Option<CardNews> {
        if let Task::Waiting(layout) = &entrant.task {
            if self.is_told_to_stop {
                return Some(entrant.without_layout(None));
            }
            let rounds = match self.enough {
                Enough::Rounds(rounds) => Some(rounds),
                Enough::Milliseconds(_) => None,
            };
            match Packing::new(layout, self.aim, self.seed, rounds, now_ms()) {
                Ok(mut packing) => {
                    packing.news_ms = NEWS_MS;
                    entrant.task = Task::Begun(Box::new(packing));
                }
                Err(why) => return Some(entrant.without_layout(Some(why))),
            }
        }
        let Task::Begun(packing) = &mut entrant.task else { return None };
        let has_had_enough = matches!(self.enough, Enough::Milliseconds(most) if entrant.used_ms >= most);
        packing.is_told_to_stop = self.is_told_to_stop || has_had_enough;
        let begun_ms = now_ms();
        let step = packing.slice(&now_ms);
        entrant.used_ms += now_ms() - begun_ms;
        match step {
            Step::Open(Some(Answer::Packing(news))) => Some(entrant.news(news, false)),
            Step::Ended(Answer::Packed(news)) => Some(entrant.news(news, true)),
            Step::Open(_) | Step::Ended(_) => None,
        }
    }
}

impl Entrant {
    /// The last that is heard of one that finds nothing.
    fn without_layout(&self, refused: Option<String>) -> CardNews {
        CardNews { card: self.card, used_ms: self.used_ms, round: 0, is_over: true, refused, best: None }
    }

    fn news(&mut self, news: PackNews, is_over: bool) -> CardNews {
        let Task::Begun(packing) = &self.task else { return self.without_layout(None) };
        let best = news.layout.zip(packing.sent()).map(|(layout, best)| {
            let ceiling = *self.ceiling.get_or_insert_with(|| ceiling_with_reason(best));
            CardBest { layout, figures: figures(best, ceiling) }
        });
        CardNews { card: self.card, used_ms: self.used_ms, round: news.round, is_over, refused: None, best }
    }
}

fn figures(layout: &Layout, ceiling: Ceiling) -> Figures {
    let Summary { placed, missing, ceiling, density, smallest_gap, largest_dot } =
        summary_with(layout, ceiling);
    Figures { placed, missing, ceiling, density, smallest_gap, largest_dot }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Piece, Sticker, Wanted, score};

    use super::*;

    fn task(card: usize, wanted: Wanted) -> CompareTask {
        // A shape that no proven bound fits tightly, so that there is always more to try.
        let mut sticker = Sticker::new("star", "Star", shapes::star(5, 11.0, 5.0));
        sticker.turns = stickleaf_sheet::Turns::Any;
        sticker.wanted = wanted;
        let layout = Layout { stickers: vec![sticker], ..Layout::default() };
        CompareTask { card, layout: stickleaf_files::write(&layout) }
    }

    /// All news, with a clock that goes on by a millisecond whenever it is read.
    fn all_news(rota: &mut Rota, mut stop_after: Option<usize>) -> Vec<CardNews> {
        let clock = Cell::new(0.0);
        let now_ms = || {
            clock.set(clock.get() + 1.0);
            clock.get()
        };
        let mut all = Vec::new();
        while !rota.is_over() {
            if let Some(Answer::Compared(news)) = rota.slice(now_ms) {
                all.push(news);
            }
            stop_after = stop_after.map(|slices| slices.saturating_sub(1));
            rota.is_told_to_stop |= stop_after == Some(0);
        }
        all
    }

    fn last(all: &[CardNews], card: usize) -> (CardNews, CardBest) {
        let of_card = || all.iter().filter(|news| news.card == card);
        let best = of_card().filter_map(|news| news.best.clone()).next_back().unwrap();
        (of_card().next_back().unwrap().clone(), best)
    }

    #[test]
    fn all_have_had_the_same_time_and_their_figures_are_those_of_their_layouts() {
        let tasks = vec![task(2, Wanted::AtLeast(1)), task(0, Wanted::AtLeast(1))];
        let mut rota = Rota::new(tasks, PackAim::Fill, 1, Enough::Milliseconds(60.0));
        let all = all_news(&mut rota, None);
        for card in [0, 2] {
            let (news, best) = last(&all, card);
            assert!(news.is_over && (60.0..120.0).contains(&news.used_ms), "{news:?}");
            let layout = stickleaf_files::read(&best.layout).unwrap();
            let score = score(&layout);
            let Figures { placed, ceiling, density, smallest_gap, .. } = best.figures;
            assert_eq!(
                (placed, ceiling, density, smallest_gap),
                (score.placed, score.ceiling.most, score.density, score.smallest_gap)
            );
        }
    }

    #[test]
    fn the_same_rounds_give_the_same_layout_as_packing_alone() {
        let mut rota = Rota::new(
            vec![task(0, Wanted::AtLeast(1)), task(1, Wanted::Exactly(3))],
            PackAim::Fill,
            7,
            Enough::Rounds(6),
        );
        let all = all_news(&mut rota, None);
        let layout = stickleaf_files::read(&task(0, Wanted::AtLeast(1)).layout).unwrap();
        let options = stickleaf_packer::PackOptions { aim: stickleaf_packer::Aim::Fill, seed: 7 };
        let alone = stickleaf_packer::pack(&layout, &options, Some(6), &mut |_| true).unwrap();
        let pieces = |text: &str| -> Vec<Piece> { stickleaf_files::read(text).unwrap().pieces };
        assert_eq!(pieces(&last(&all, 0).1.layout), alone.layout.pieces);
        assert_eq!(last(&all, 1).1.figures.placed, 3);
    }

    #[test]
    fn a_stop_ends_all_and_keeps_what_was_found() {
        let tasks = vec![task(0, Wanted::AtLeast(1)), task(1, Wanted::AtLeast(1))];
        let mut rota = Rota::new(tasks, PackAim::Fill, 1, Enough::Rounds(u64::MAX));
        let all = all_news(&mut rota, Some(1));
        // The first has had a slice; the second had not begun.
        assert!(last(&all, 0).0.is_over && last(&all, 0).1.figures.placed > 0);
        let second: Vec<&CardNews> = all.iter().filter(|news| news.card == 1).collect();
        assert!(second.len() == 1 && second[0].is_over && second[0].best.is_none(), "{second:?}");
    }

    #[test]
    fn one_that_cannot_be_packed_says_why_and_lets_the_others_go_on() {
        let tasks = vec![task(0, Wanted::Exactly(0)), task(1, Wanted::Exactly(2))];
        let mut rota = Rota::new(tasks, PackAim::Place, 1, Enough::Rounds(50));
        let all = all_news(&mut rota, None);
        let refused = all.iter().find(|news| news.card == 0).unwrap();
        assert!(refused.is_over && refused.refused.as_ref().unwrap().contains("no copies are wanted"));
        assert_eq!(last(&all, 1).1.figures.placed, 2);
    }
}
