//! Pieces glide to where packing puts them.

use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{Layout, Piece};

/// How long a piece is under way, in milliseconds.
const GLIDE_MS: f64 = 160.0;

/// Where a piece is drawn, and how strongly: 1 is fully there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// Where it is drawn.
    pub placement: Placement,
    /// From 0, not there yet, to 1.
    pub strength: f64,
}

/// Where pieces are drawn now, while they are on their way to where they lie.
#[derive(Default)]
pub struct Glide {
    from: Vec<Shown>,
    start_ms: f64,
    pieces: Vec<Piece>,
    was_previewing: bool,
}

impl Glide {
    /// Where every piece of the layout is drawn at this moment.
    ///
    /// Pieces set out when a preview of packing shows others than before; at any other time they are where they lie.
    /// `is_still` says whether they shall not be seen to move; it is asked only then.
    pub fn shown(
        &mut self,
        layout: &Layout,
        is_previewing: bool,
        now_ms: f64,
        is_still: impl FnOnce() -> bool,
    ) -> Vec<Shown> {
        if layout.pieces != self.pieces {
            let packs = is_previewing || self.was_previewing;
            self.from =
                if packs && !is_still() { self.setting_out(&layout.pieces, now_ms) } else { Vec::new() };
            self.start_ms = now_ms;
            self.follow(&layout.pieces);
        }
        self.was_previewing = is_previewing;
        if !self.is_under_way(now_ms) {
            self.from.clear();
        }
        self.at(now_ms)
    }

    /// Whether pieces still move at this moment.
    pub fn is_under_way(&self, now_ms: f64) -> bool {
        !self.from.is_empty() && now_ms - self.start_ms < GLIDE_MS
    }

    /// Notes where pieces lie. While the same ones only move, as under a hand, nothing but their places is copied.
    fn follow(&mut self, pieces: &[Piece]) {
        let are_same = self.pieces.len() == pieces.len()
            && self
                .pieces
                .iter()
                .zip(pieces)
                .all(|(old, new)| old.sticker == new.sticker && old.locked == new.locked);
        if !are_same {
            self.pieces = pieces.to_vec();
            return;
        }
        for (old, new) in self.pieces.iter_mut().zip(pieces) {
            old.placement = new.placement;
        }
    }

    fn at(&self, now_ms: f64) -> Vec<Shown> {
        let part = ((now_ms - self.start_ms) / GLIDE_MS).clamp(0.0, 1.0);
        // Fast at first, gently in.
        let eased = 1.0 - (1.0 - part) * (1.0 - part) * (1.0 - part);
        let show = |(i, piece): (usize, &Piece)| match self.from.get(i) {
            Some(from) => between(from, &piece.placement, eased),
            None => Shown { placement: piece.placement, strength: 1.0 },
        };
        self.pieces.iter().enumerate().map(show).collect()
    }

    /// For each new piece, where the nearest old copy of its sticker is drawn now; each old one leads one new one.
    fn setting_out(&self, pieces: &[Piece], now_ms: f64) -> Vec<Shown> {
        let old = self.at(now_ms);
        let mut is_taken = vec![false; old.len()];
        pieces
            .iter()
            .map(|piece| {
                let away = |i: &usize| (old[*i].placement.at - piece.placement.at).hypot2();
                let nearest = (0..old.len())
                    .filter(|&i| !is_taken[i] && self.pieces[i].sticker == piece.sticker)
                    .min_by(|a, b| away(a).total_cmp(&away(b)));
                match nearest {
                    Some(i) => {
                        is_taken[i] = true;
                        old[i]
                    }
                    None => Shown { placement: piece.placement, strength: 0.0 },
                }
            })
            .collect()
    }
}

/// Part of the way, the shorter way round.
fn between(from: &Shown, to: &Placement, part: f64) -> Shown {
    let at = from.placement.at.lerp(to.at, part);
    let way = Turn::degrees(to.turn.to_degrees() - from.placement.turn.to_degrees()).to_signed_degrees();
    let turn = Turn::degrees(from.placement.turn.to_degrees() + way * part);
    Shown { placement: Placement { at, turn, ..*to }, strength: from.strength + (1.0 - from.strength) * part }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layout(places: &[(f64, f64)]) -> Layout {
        let piece = |&(x, turn): &(f64, f64)| Piece::new("dot".into(), Placement::turned(x, 0.0, turn));
        Layout { pieces: places.iter().map(piece).collect(), ..Layout::default() }
    }

    #[test]
    fn pieces_set_out_only_while_packing() {
        let mut glide = Glide::default();
        glide.shown(&layout(&[(0.0, 350.0)]), false, 0.0, || false);
        let moved = glide.shown(&layout(&[(8.0, 10.0)]), false, 10.0, || false);
        assert_eq!(moved[0].placement, Placement::turned(8.0, 0.0, 10.0));
        let first = glide.shown(&layout(&[(16.0, 350.0)]), true, 20.0, || false);
        assert_eq!(first[0].placement.at.x, 8.0);
        let half = glide.shown(&layout(&[(16.0, 350.0)]), true, 100.0, || false);
        // Half the time is seven eighths of the way, and the turn goes through zero.
        assert_eq!(half[0].placement.at.x, 15.0);
        assert!((half[0].placement.turn.to_degrees() - 352.5).abs() < 1e-9);
        assert!(!glide.is_under_way(200.0));
    }

    #[test]
    fn nothing_moves_for_those_who_want_it_still() {
        let mut glide = Glide::default();
        glide.shown(&layout(&[(0.0, 0.0)]), true, 0.0, || true);
        let shown = glide.shown(&layout(&[(9.0, 0.0), (5.0, 0.0)]), true, 10.0, || true);
        assert_eq!(shown[0].placement.at.x, 9.0);
        assert_eq!(shown[1].strength, 1.0);
    }
}
