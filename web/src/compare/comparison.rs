//! The cards of a comparison: what each has come to, and how far all of them are.

use std::sync::Arc;

use stickleaf_files::Compared;
use stickleaf_files::comparison::VariantCost;
use stickleaf_sheet::{Layout, LengthUnit, Summary, Variant, is_same_task};

use crate::messages::{CardNews, CompareTask, Enough, Figures, PackAim};

/// Variants that are packed side by side, or were.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// What they are packed for.
    pub aim: PackAim,
    /// Where chance starts, for each.
    pub seed: u64,
    /// When each has had enough.
    pub enough: Enough,
    /// One for each variant.
    pub cards: Vec<Card>,
    /// How many workers there are.
    pub workers: usize,
    /// Whether it has ended.
    pub is_over: bool,
    /// Whether it was told to stop before its end.
    pub is_stopped: bool,
}

/// One variant and what it has come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// The variant.
    pub variant: Arc<Variant>,
    /// The card whose search it shares, since both are the same to stickers; its own otherwise.
    pub search: usize,
    /// How long it was searched, in milliseconds.
    pub used_ms: f64,
    /// Rounds done.
    pub round: u64,
    /// Whether its search has ended.
    pub is_over: bool,
    /// Why it cannot be packed.
    pub refused: Option<String>,
    /// The best that was found so far.
    pub best: Option<Best>,
}

/// A packed variant.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    /// The variant's layout with its pieces. It has passed the rule check.
    pub layout: Arc<Layout>,
    /// What it amounts to.
    pub figures: Figures,
}

impl Comparison {
    /// Nothing was packed yet.
    pub fn new(
        variants: Vec<Variant>,
        aim: PackAim,
        seed: u64,
        enough: Enough,
        most_workers: usize,
    ) -> Comparison {
        let search = |index: usize| {
            let mut before = variants[..index].iter();
            let same = before.position(|other| is_same_task(&other.layout, &variants[index].layout));
            same.unwrap_or(index)
        };
        let searches: Vec<usize> = (0..variants.len()).map(search).collect();
        for layout in variants.iter().map(|variant| &variant.layout) {
            // Regrown once here, cut lines are shared by all layouts that will come of the variant.
            layout.stickers.iter().for_each(|sticker| drop(sticker.cut_line(&layout.rules)));
        }
        let card = |(variant, search): (Variant, usize)| Card {
            variant: Arc::new(variant),
            search,
            used_ms: 0.0,
            round: 0,
            is_over: false,
            refused: None,
            best: None,
        };
        let cards: Vec<Card> = variants.into_iter().zip(searches).map(card).collect();
        let own = cards.iter().enumerate().filter(|(index, card)| card.search == *index).count();
        let workers = most_workers.clamp(1, own.max(1));
        Comparison { aim, seed, enough, cards, workers, is_over: false, is_stopped: false }
    }

    /// The cards whose searches each worker does: dealt out one by one.
    pub fn hands(&self) -> Vec<Vec<usize>> {
        let mut hands = vec![Vec::new(); self.workers];
        let own = (0..self.cards.len()).filter(|&index| self.cards[index].search == index);
        for (place, card) in own.enumerate() {
            hands[place % self.workers].push(card);
        }
        hands
    }

    /// What a worker is asked to do for these cards.
    pub fn tasks(&self, cards: &[usize]) -> Vec<CompareTask> {
        let layout = |card: usize| stickleaf_files::write(&self.cards[card].variant.layout);
        cards.iter().map(|&card| CompareTask { card, layout: layout(card) }).collect()
    }

    /// Takes what is new of a search, for all cards that share it.
    pub fn take(&mut self, news: &CardNews) {
        let packed = news.best.as_ref().and_then(|best| {
            let layout = stickleaf_files::read(&best.layout).ok()?;
            Some((layout.pieces, best.figures))
        });
        for card in self.cards.iter_mut().filter(|card| card.search == news.card) {
            (card.used_ms, card.round, card.is_over) = (news.used_ms, news.round, news.is_over);
            card.refused.clone_from(&news.refused);
            if let Some((pieces, figures)) = &packed {
                // Only the pieces are taken: stickers that stay the same objects keep what has been worked out of them.
                let layout = Layout { pieces: pieces.clone(), ..card.variant.layout.clone() };
                card.best = Some(Best { layout: Arc::new(layout), figures: *figures });
            }
        }
    }

    /// The searches of these cards end without another word, as when their worker failed.
    pub fn give_up(&mut self, cards: &[usize]) {
        for card in self.cards.iter_mut().filter(|card| cards.contains(&card.search)) {
            card.is_over = true;
        }
    }

    /// Whether no search goes on any more.
    pub fn are_all_over(&self) -> bool {
        self.cards.iter().all(|card| card.is_over)
    }

    /// How much of its time or its rounds a card has had, 0 to 1.
    pub fn part_of(&self, card: &Card) -> f64 {
        if card.is_over {
            return 1.0;
        }
        let part = match self.enough {
            Enough::Milliseconds(most) => card.used_ms / most.max(1.0),
            Enough::Rounds(most) => card.round as f64 / most.max(1) as f64,
        };
        part.clamp(0.0, 1.0)
    }

    /// How much of the whole is done, 0 to 1.
    pub fn part(&self) -> f64 {
        let sum: f64 = self.cards.iter().map(|card| self.part_of(card)).sum();
        sum / self.cards.len().max(1) as f64
    }

    /// How long it will go on at most, in milliseconds: as long as the worker with most left to do. Nothing if that is
    /// not known, as with rounds.
    pub fn left_ms(&self) -> Option<f64> {
        let Enough::Milliseconds(most) = self.enough else { return None };
        let left = |card: &Card| if card.is_over { 0.0 } else { (most - card.used_ms).max(0.0) };
        let of_hand = |hand: Vec<usize>| hand.into_iter().map(|card| left(&self.cards[card])).sum::<f64>();
        Some(self.hands().into_iter().map(of_hand).fold(0.0, f64::max))
    }

    /// How many more pieces a card holds than the first; nothing for the first, and where one of the two has none yet.
    pub fn difference(&self, index: usize) -> Option<i64> {
        let placed = |index: usize| Some(self.cards.get(index)?.best.as_ref()?.figures.placed as i64);
        if index == 0 { None } else { Some(placed(index)? - placed(0)?) }
    }

    /// Whether the layout would still give the same variants.
    pub fn is_still_of(&self, layout: &Layout) -> bool {
        self.cards.iter().all(|card| card.variant.is_still_of(layout))
    }

    /// The cards as rows of a table. `costs` says what a sheet of a layout costs and a sticker of it, in cents.
    pub fn compared(&self, unit: LengthUnit, costs: impl Fn(&Layout) -> Option<(f64, f64)>) -> Vec<Compared> {
        let row = |card: &Card| Compared {
            name: card.variant.change.name(unit),
            result: match (&card.best, &card.refused) {
                (Some(best), _) => Ok(summary(best.figures)),
                (None, Some(why)) => Err(why.clone()),
                (None, None) => Err(crate::words::nothing_yet().to_owned()),
            },
            cost: card
                .best
                .as_ref()
                .and_then(|best| costs(&best.layout))
                .map(|(sheet_cents, sticker_cents)| VariantCost { sheet_cents, sticker_cents }),
            remarks: card.variant.remarks.iter().map(|remark| remark.sentence(unit)).collect(),
        };
        self.cards.iter().map(row).collect()
    }
}

fn summary(figures: Figures) -> Summary {
    let Figures { placed, missing, ceiling, density, smallest_gap, largest_dot } = figures;
    Summary { placed, missing, ceiling, density, smallest_gap, largest_dot }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Piece, STYLES, Sticker, Subject, usual_changes, variants};

    use super::*;
    use crate::messages::CardBest;

    /// All styles of an A6 card: six cards, the first two of which are the same to stickers.
    fn comparison(workers: usize) -> Comparison {
        let mut layout = Layout::default();
        layout.backgrounds =
            STYLES.iter().map(|style| style.background(&layout.sheet, &layout.rules)).collect();
        layout.stickers = vec![Sticker::new("box", "Box", shapes::square(10.0))];
        let variants = variants(&layout, &usual_changes(&layout, Subject::Backgrounds));
        Comparison::new(variants, PackAim::Fill, 1, Enough::Milliseconds(1000.0), workers)
    }

    fn news(card: usize, used_ms: f64, placed: usize) -> CardNews {
        let mut layout =
            Layout { stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))], ..Layout::default() };
        let piece = |i: usize| Piece::new("box".into(), Placement::at(20.0 * i as f64, 20.0));
        layout.pieces = (0..placed).map(piece).collect();
        let figures =
            Figures { placed, missing: 0, ceiling: 30, density: 0.5, smallest_gap: None, largest_dot: None };
        let best = Some(CardBest { layout: stickleaf_files::write(&layout), figures });
        CardNews { card, used_ms, round: 3, is_over: false, refused: None, best }
    }

    #[test]
    fn searches_are_dealt_out_and_none_is_done_twice() {
        assert_eq!(comparison(3).hands(), [vec![0, 4], vec![2, 5], vec![3]]);
        assert_eq!(comparison(9).workers, 5, "the plain style shares the search of the plain ground");
        assert_eq!(comparison(0).workers, 1);
    }

    #[test]
    fn news_go_to_all_cards_that_share_a_search_and_keep_each_its_background() {
        let mut comparison = comparison(2);
        comparison.take(&news(0, 200.0, 4));
        comparison.take(&news(2, 100.0, 3));
        let [first, plain, band] = [0, 1, 2].map(|card| comparison.cards[card].best.clone().unwrap());
        assert_eq!((first.figures, first.layout.pieces.len()), (plain.figures, 4));
        assert_eq!(first.layout.background, None);
        assert_eq!(plain.layout.background.as_deref(), Some("Plain"));
        assert_eq!(band.layout.background.as_deref(), Some("Title band"));
        assert_eq!([0, 1, 2, 3].map(|card| comparison.difference(card)), [None, Some(0), Some(-1), None]);
        assert!(Arc::ptr_eq(
            &first.layout.stickers[0].outline,
            &comparison.cards[0].variant.layout.stickers[0].outline
        ));
    }

    #[test]
    fn news_without_a_layout_keep_the_last_one() {
        let mut comparison = comparison(1);
        comparison.take(&news(2, 100.0, 3));
        comparison.take(&CardNews { best: None, is_over: true, ..news(2, 200.0, 0) });
        let card = &comparison.cards[2];
        assert_eq!((card.used_ms, card.is_over), (200.0, true));
        assert_eq!(card.best.as_ref().map(|best| best.figures.placed), Some(3));
    }

    #[test]
    fn the_time_left_is_that_of_the_worker_with_most_to_do() {
        let mut comparison = comparison(3);
        assert_eq!(comparison.left_ms(), Some(2000.0));
        comparison.take(&news(0, 400.0, 4));
        comparison.take(&news(4, 300.0, 4));
        assert_eq!(comparison.left_ms(), Some(2000.0), "the second worker has had nothing yet");
        comparison.give_up(&[2, 5]);
        assert_eq!(comparison.left_ms(), Some(1300.0));
        assert!(!comparison.are_all_over());
        comparison.give_up(&[0, 3, 4]);
        assert!(comparison.are_all_over() && comparison.left_ms() == Some(0.0));
        assert_eq!(comparison.part(), 1.0);
    }

    #[test]
    fn rows_tell_what_was_not_packed() {
        let mut comparison = comparison(1);
        comparison.take(&news(0, 400.0, 4));
        comparison.take(&CardNews { refused: Some("no".into()), best: None, ..news(2, 0.0, 0) });
        let rows = comparison
            .compared(LengthUnit::Millimetres, |layout| Some((30.0, 30.0 / layout.pieces.len() as f64)));
        assert_eq!(rows[1].result.as_ref().map(|summary| summary.placed), Ok(4));
        assert_eq!(rows[2].result, Err("no".to_owned()));
        assert!(rows[3].result.is_err());
        let costs = [1, 3].map(|row| rows[row].cost);
        assert_eq!(costs, [Some(VariantCost { sheet_cents: 30.0, sticker_cents: 7.5 }), None]);
    }
}
