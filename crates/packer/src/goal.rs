//! What is asked for: how many copies of each sticker, and which of two layouts is better.

use stickleaf_sheet::{Layout, StickerId};

use crate::pack::Aim;

/// How many copies of one sticker are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demand {
    /// Copies that must be there.
    pub least: usize,
    /// Copies beyond which no more are put down; nothing if there is no such number.
    pub most: Option<usize>,
}

/// The demand for each sticker of a layout, in its order.
///
/// Copies that lie locked count as placed, so a sticker may have more of them than `most`.
pub fn demands(layout: &Layout, aim: Aim) -> Vec<Demand> {
    let demand = |wanted: stickleaf_sheet::Wanted| {
        let least = wanted.least() as usize;
        let most = match aim {
            Aim::Place | Aim::Grow | Aim::Even | Aim::Shorten => Some(least),
            Aim::Fill => wanted.most().map(|most| most as usize),
        };
        Demand { least, most }
    };
    layout.stickers.iter().map(|sticker| demand(sticker.wanted)).collect()
}

/// How good a layout is: more wanted copies first, then more pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Worth {
    /// Wanted copies that are there.
    pub wanted: usize,
    /// Pieces in all.
    pub placed: usize,
}

/// The worth of so many copies of each sticker.
pub fn worth(demands: &[Demand], counts: &[usize]) -> Worth {
    let wanted = demands.iter().zip(counts).map(|(demand, &count)| demand.least.min(count)).sum();
    Worth { wanted, placed: counts.iter().sum() }
}

/// How many copies must be there in all.
pub fn wanted(demands: &[Demand]) -> usize {
    demands.iter().fold(0, |sum, demand| sum.saturating_add(demand.least))
}

/// How many copies of each sticker a layout holds, in the order of its stickers.
pub fn counts(layout: &Layout) -> Vec<usize> {
    layout.stickers.iter().map(|sticker| layout.placed(&sticker.id)).collect()
}

/// Stickers of which wanted copies are not there, and how many.
pub fn missing(layout: &Layout, demands: &[Demand]) -> Vec<(StickerId, usize)> {
    let lacking = |index: usize, count: usize| demands[index].least.saturating_sub(count);
    counts(layout)
        .into_iter()
        .enumerate()
        .filter(|&(index, count)| lacking(index, count) > 0)
        .map(|(index, count)| (layout.stickers[index].id.clone(), lacking(index, count)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wanted_copies_count_before_the_number_of_pieces() {
        let demands = [Demand { least: 2, most: Some(2) }, Demand { least: 0, most: None }];
        assert!(worth(&demands, &[2, 0]) > worth(&demands, &[1, 9]));
        assert!(worth(&demands, &[2, 3]) > worth(&demands, &[2, 2]));
    }
}
