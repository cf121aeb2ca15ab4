//! What the search for places does at every turn, one part at a time: for those who measure how long each takes.

use kurbo::Point;
use stickleaf_outline::Placement;
use stickleaf_sheet::Layout;

use crate::ground::Ground;
use crate::random::Chance;
use crate::rearrange::board::{Board, Prices, Spot};
use crate::rearrange::moves::{Scratch, cheapest};
use crate::rearrange::setting::Setting;

/// The pieces of a layout, each turned to the nearest quarter, and spots that could be looked at for them.
///
/// Nothing here moves a piece, so the same question has the same answer each time.
pub struct Probe {
    setting: Setting,
    board: Board,
    weights: Vec<f32>,
    /// Pieces and spots for them, any place on the sheet as likely as another.
    candidates: Vec<(usize, Spot)>,
}

impl Probe {
    /// The pieces of a layout, which must lie on it, and so many spots.
    ///
    /// Cost: all no-fit polygons of its stickers are made by the first question that needs them.
    pub fn new(layout: &Layout, spots: usize, seed: u64) -> Probe {
        let ground = Ground::new(layout);
        let setting = Setting::new(&ground, &ground.held(layout), |_| vec![0.0, 90.0, 180.0, 270.0]);
        let spot = |piece: &stickleaf_sheet::Piece| {
            let at: &Placement = &piece.placement;
            layout.sticker_index(&piece.sticker).map(|kind| setting.spot(kind, at))
        };
        let pieces = layout.pieces.iter().filter(|piece| !piece.locked).filter_map(spot);
        let board = setting.board(ground.inner(), ground.spacing, pieces.collect());
        let mut chance = Chance::new(seed);
        let mut candidate = || {
            let index = chance.below(board.free.max(1));
            let of_form = &setting.lies.of_form[setting.lies.list[board.spots[index].lie].form];
            let lie = of_form.start + chance.below(of_form.len());
            let range = board.range(&setting.lies, lie);
            let at = Point::new(chance.between(range.x0, range.x1), chance.between(range.y0, range.y1));
            (index, Spot { lie, at })
        };
        let candidates = if board.free == 0 { Vec::new() } else { (0..spots).map(|_| candidate()).collect() };
        Probe { weights: vec![1.0; board.spots.len()], candidates, board, setting }
    }

    /// How many pieces are near the candidate spots, all added up: the rectangles alone.
    pub fn broad(&self) -> u64 {
        let Probe { setting, board, .. } = self;
        self.candidates.iter().map(|&(index, spot)| board.near(&setting.lies, index, spot)).sum()
    }

    /// What the candidate spots cost, all added up: the rectangles and then the no-fit polygons of those that are near.
    pub fn broad_and_narrow(&self) -> f64 {
        let Probe { setting, board, weights, .. } = self;
        let mut prices = Prices { weights, looked: &mut 0 };
        let mut cost = |&(index, spot): &(usize, Spot)| {
            board.cost(&setting.lies, index, spot, &mut prices, f64::INFINITY)
        };
        self.candidates.iter().map(&mut cost).sum()
    }

    /// Whole moves: the cheapest spot found for each of so many pieces, all costs added up.
    pub fn moves(&self, pieces: usize, seed: u64) -> f64 {
        let Probe { setting, board, weights, .. } = self;
        let (mut chance, mut scratch) = (Chance::new(seed), Scratch::default());
        let mut prices = Prices { weights, looked: &mut 0 };
        let mut cost = |&(index, _): &(usize, Spot)| {
            cheapest(&setting.lies, board, index, &mut prices, &mut chance, &mut scratch).cost
        };
        self.candidates.iter().take(pieces).map(&mut cost).sum()
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Piece, Rules, Sheet, Sticker};

    use super::*;

    #[test]
    fn all_that_is_on_the_way_is_counted() {
        let mut layout = Layout {
            sheet: Sheet { width: 38.0, height: 38.0, ..Sheet::default() },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(14.0))],
            ..Layout::default()
        };
        let places = [(11.0, 11.0), (27.0, 11.0), (11.0, 27.0), (27.0, 27.0)];
        layout.pieces = places.map(|(x, y)| Piece::new("box".into(), Placement::at(x, y))).to_vec();
        let probe = Probe::new(&layout, 1000, 1);
        // The four tile the room, so that wherever a box is put the rectangles of others are in the way.
        assert!((1000..=3000).contains(&probe.broad()), "{}", probe.broad());
        assert!(probe.broad_and_narrow() > 0.0);
        // Where they lie costs nothing, and nothing is cheaper.
        assert_eq!(probe.moves(20, 1), 0.0);
    }
}
