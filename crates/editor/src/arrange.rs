//! Chosen pieces in line, and evenly spaced: by the bounds of their cut lines.

use kurbo::{Rect, Vec2};
use stickleaf_outline::Placement;

use crate::editor::Editor;
use crate::label::Work;
use crate::nudge::kept_place;

/// What of the chosen pieces comes in line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Their left sides.
    Left,
    /// Their middles, one above the other.
    Centre,
    /// Their right sides.
    Right,
    /// Their upper sides.
    Top,
    /// Their middles, one beside the other.
    Middle,
    /// Their lower sides.
    Bottom,
}

/// Which way pieces are spaced out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpaceOut {
    /// One beside the other.
    Across,
    /// One above the other.
    Down,
}

impl Editor {
    /// Brings the chosen pieces in line, as one undo step.
    ///
    /// With what all of them together span; if some are locked, with what those span, for they stay. Nothing happens with
    /// fewer than two chosen.
    pub fn align(&mut self, to: Align) {
        let chosen = self.chosen_bounds();
        if chosen.len() < 2 {
            return;
        }
        let span =
            |bounds: &[Chosen]| bounds.iter().map(|chosen| chosen.bounds).reduce(|all, one| all.union(one));
        let locked: Vec<Chosen> = chosen.iter().copied().filter(|chosen| chosen.is_locked).collect();
        let Some(span) = span(&locked).or_else(|| span(&chosen)) else { return };
        let shift = |Chosen { bounds, .. }: &Chosen| match to {
            Align::Left => Vec2::new(span.x0 - bounds.x0, 0.0),
            Align::Centre => Vec2::new(span.center().x - bounds.center().x, 0.0),
            Align::Right => Vec2::new(span.x1 - bounds.x1, 0.0),
            Align::Top => Vec2::new(0.0, span.y0 - bounds.y0),
            Align::Middle => Vec2::new(0.0, span.center().y - bounds.center().y),
            Align::Bottom => Vec2::new(0.0, span.y1 - bounds.y1),
        };
        let shifts = chosen.iter().map(|chosen| (chosen.piece, shift(chosen))).collect();
        self.shift_each(Work::Align, shifts);
    }

    /// Makes the gaps between the chosen pieces' bounds equal, as one undo step; the two outermost stay where they are.
    ///
    /// Locked pieces stay too: the gaps between one that stays and the next are equal. Pieces that have too little room
    /// come to lie on each other equally far. Nothing happens with fewer than three chosen.
    pub fn space_out(&mut self, way: SpaceOut) {
        let mut chosen = self.chosen_bounds();
        if chosen.len() < 3 {
            return;
        }
        let ends = |chosen: &Chosen| match way {
            SpaceOut::Across => (chosen.bounds.x0, chosen.bounds.x1),
            SpaceOut::Down => (chosen.bounds.y0, chosen.bounds.y1),
        };
        let middle = |chosen: &Chosen| (ends(chosen).0 + ends(chosen).1) / 2.0;
        chosen.sort_by(|a, b| middle(a).total_cmp(&middle(b)));
        let last = chosen.len() - 1;
        let stays: Vec<usize> =
            (0..=last).filter(|&nth| nth == 0 || nth == last || chosen[nth].is_locked).collect();
        let mut shifts = Vec::new();
        for pair in stays.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let between = &chosen[from + 1..to];
            let lengths: f64 = between.iter().map(|chosen| ends(chosen).1 - ends(chosen).0).sum();
            let room = ends(&chosen[to]).0 - ends(&chosen[from]).1;
            let gap = (room - lengths) / (between.len() + 1) as f64;
            let mut start = ends(&chosen[from]).1 + gap;
            for piece in between {
                let by = start - ends(piece).0;
                start += ends(piece).1 - ends(piece).0 + gap;
                shifts.push((
                    piece.piece,
                    match way {
                        SpaceOut::Across => Vec2::new(by, 0.0),
                        SpaceOut::Down => Vec2::new(0.0, by),
                    },
                ));
            }
        }
        self.shift_each(Work::SpaceOut, shifts);
    }

    fn chosen_bounds(&mut self) -> Vec<Chosen> {
        self.finish_gesture();
        let bounds = |&piece: &usize| Chosen {
            piece,
            bounds: self.lines()[piece].bounds(),
            is_locked: self.layout().pieces[piece].locked,
        };
        self.selection.iter().map(bounds).collect()
    }

    /// Shifts each piece that is not locked by its own way, as one undo step.
    fn shift_each(&mut self, work: Work, shifts: Vec<(usize, Vec2)>) {
        if self.is_previewing() {
            return;
        }
        let mut layout = self.layout().clone();
        for (piece, by) in shifts {
            let lying = &mut layout.pieces[piece];
            if !lying.locked && by != Vec2::ZERO {
                let at = kept_place(lying.placement.at + by, &layout.sheet);
                lying.placement = Placement { at, ..lying.placement };
            }
        }
        let label = self.worked(work, &self.selection);
        // Finite places cannot make a layout invalid.
        let _ = self.adopt(label, layout);
    }
}

/// A chosen piece and what its cut line spans, in sheet millimetres.
#[derive(Clone, Copy)]
struct Chosen {
    piece: usize,
    bounds: Rect,
    is_locked: bool,
}
