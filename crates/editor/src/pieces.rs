//! What can be done with pieces without a pointer: by key, by field, by button.

use kurbo::Point;
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::Piece;

use crate::editor::{Editor, LastNudge, Nudged};
use crate::free_spot;
use crate::hit::turned_about;
use crate::label::{Label, Work, Worked};
use crate::nudge::{kept_place, kept_turn, swung};

/// Steps made with keys in such quick succession are one undo step, in milliseconds.
const SAME_NUDGE_MS: f64 = 700.0;

/// How a duplicate lies beside its model, in millimetres, if there is no free spot.
const DUPLICATE_AWAY: f64 = 3.0;

impl Editor {
    /// Shifts the chosen pieces that are not locked, as one undo step. In millimetres.
    pub fn nudge(&mut self, dx: f64, dy: f64) {
        self.nudge_at(dx, dy, f64::NEG_INFINITY);
    }

    /// Turns the chosen pieces that are not locked, as one undo step: a single one about its own point, several about the
    /// middle of their points.
    ///
    /// In degrees, clockwise; each turns as far as its sticker allows. Nothing happens if none of them may turn.
    pub fn turn_by(&mut self, degrees: f64) {
        self.turn_at(degrees, f64::NEG_INFINITY);
    }

    /// Puts a piece at a place in millimetres with a turn in degrees, as one undo step.
    ///
    /// The place is rounded to the micrometre, the turn goes to the nearest allowed one. A locked piece, or one that is
    /// not there, stays as it is, and so does one whose place is not finite.
    pub fn set_place(&mut self, piece: usize, x: f64, y: f64, turn: f64) {
        let at = Point::new(x, y);
        if piece < self.layout().pieces.len() && at.is_finite() && turn.is_finite() {
            self.place(&[piece], Work::Move, f64::NEG_INFINITY, |placement| Placement {
                at,
                turn: Turn::degrees(turn),
                ..*placement
            });
        }
    }

    /// Locks the chosen pieces: neither hand nor packing moves them.
    pub fn lock(&mut self) {
        self.set_locked(Work::Lock, true);
    }

    /// Frees the chosen pieces.
    pub fn unlock(&mut self) {
        self.set_locked(Work::Unlock, false);
    }

    /// Takes the chosen pieces off the sheet, as one undo step. Locked ones stay.
    pub fn remove(&mut self) {
        self.finish_gesture();
        let gone = self.free_selection();
        if gone.is_empty() || self.is_previewing() {
            return;
        }
        let mut layout = self.layout().clone();
        let mut index = 0;
        layout.pieces.retain(|_| {
            index += 1;
            !gone.contains(&(index - 1))
        });
        let label = self.worked(Work::Remove, &gone);
        self.selection.clear();
        // Fewer pieces cannot make a layout invalid.
        let _ = self.adopt(label, layout);
    }

    /// One more of each chosen piece at the nearest free spot, as one undo step; the new ones are chosen.
    ///
    /// Where there is no free spot it lies a little beside its model, and the findings say so.
    pub fn duplicate(&mut self) {
        self.finish_gesture();
        if self.selection.is_empty() || self.is_previewing() {
            return;
        }
        let label = self.worked(Work::Duplicate, &self.selection);
        let mut layout = self.layout().clone();
        let mut lines = self.lines().to_vec();
        let first = layout.pieces.len();
        for &model in &self.selection {
            let piece = layout.pieces[model].clone();
            let cut_line = self.document.cut_line(model);
            let placement = free_spot::nearest_free(&layout, &lines, &cut_line, &piece.placement)
                .unwrap_or_else(|| {
                    let away = kurbo::Vec2::new(DUPLICATE_AWAY, DUPLICATE_AWAY);
                    let at = kept_place(piece.placement.at + away, &layout.sheet);
                    Placement { at, ..piece.placement }
                });
            lines.push(cut_line.placed(&placement));
            layout.pieces.push(Piece { placement, locked: false, ..piece });
        }
        let added = (first..layout.pieces.len()).collect();
        // A copy of a piece that is there cannot make a layout invalid.
        if self.adopt(label, layout).is_ok() {
            self.select(added);
        }
    }

    /// Brings one more copy of a sticker onto the sheet as one undo step, and chooses it.
    ///
    /// It goes to the free spot nearest to `near` (in sheet millimetres; the sheet's middle if nothing is given). If
    /// there is none upright, other allowed turns are tried; if none at all, it lies at `near`, and the findings say
    /// what is in the way. What comes back is the new piece; nothing if there is no such sticker.
    pub fn place_copy(&mut self, sticker: &str, near: Option<Point>) -> Option<usize> {
        self.finish_gesture();
        if self.is_previewing() {
            return None;
        }
        let mut layout = self.layout().clone();
        let chosen = layout.sticker(sticker)?.clone();
        let near = near.filter(|near| near.is_finite()).unwrap_or_else(|| layout.sheet.bounds().center());
        let near = kept_place(near, &layout.sheet);
        let placement = free_spot::free_for(&layout, self.lines(), &chosen, near).unwrap_or(Placement {
            at: near,
            turn: chosen.turns.nearest(Turn::NONE),
            mirrored: false,
        });
        let piece = layout.pieces.len();
        layout.pieces.push(Piece::new(chosen.id.clone(), placement));
        self.adopt(Label::Pieces(Work::Place, Worked::One(chosen.name.clone())), layout).ok()?;
        self.select(vec![piece]);
        Some(piece)
    }

    pub(crate) fn nudge_at(&mut self, dx: f64, dy: f64, time_ms: f64) {
        let by = kurbo::Vec2::new(dx, dy);
        if by.is_finite() {
            let pieces = self.selection.clone();
            self.place(&pieces, Work::Move, time_ms, |placement| Placement {
                at: placement.at + by,
                ..*placement
            });
        }
    }

    pub(crate) fn turn_at(&mut self, degrees: f64, time_ms: f64) {
        let Some(about) = turned_about(self.layout(), &self.selection) else { return };
        let are_several = self.free_selection().len() > 1;
        if degrees.is_finite() {
            let pieces = self.selection.clone();
            self.place(&pieces, Work::Turn, time_ms, |placement| {
                let turn = Turn::degrees(placement.turn.to_degrees() + degrees);
                if are_several {
                    swung(placement, about, degrees, turn)
                } else {
                    Placement { turn, ..*placement }
                }
            });
        }
    }

    /// Puts the pieces that are not locked elsewhere, as one undo step or as part of the last one.
    fn place(&mut self, pieces: &[usize], work: Work, time_ms: f64, to: impl Fn(&Placement) -> Placement) {
        self.finish_gesture();
        if self.is_previewing() {
            return;
        }
        let mut layout = self.layout().clone();
        let mut moved = Vec::new();
        for &piece in pieces.iter().filter(|&&piece| !self.layout().pieces[piece].locked) {
            let old = layout.pieces[piece].placement;
            let Some(sticker) = layout.sticker(&layout.pieces[piece].sticker) else { continue };
            let new = to(&old);
            // A turn that was not asked to change stays, even if it is not an allowed one.
            let turn = if new.turn == old.turn { old.turn } else { kept_turn(new.turn, &sticker.turns) };
            let at = if new.at == old.at { old.at } else { kept_place(new.at, &layout.sheet) };
            layout.pieces[piece].placement = Placement { at, turn, ..new };
            moved.push(piece);
        }
        if layout == *self.layout() {
            return;
        }
        let what = Nudged::Pieces(moved);
        let joins = self.joins_last_nudge(&what, time_ms);
        if joins {
            self.show(layout);
        } else {
            let Nudged::Pieces(moved) = &what else { return };
            let label = self.worked(work, moved);
            // A finite place cannot make a layout invalid.
            let _ = self.adopt(label, layout);
        }
        self.remember_nudge(what, time_ms);
    }

    /// Whether a step done to this now belongs to the last one.
    pub(crate) fn joins_last_nudge(&self, what: &Nudged, time_ms: f64) -> bool {
        self.last_nudge.as_ref().is_some_and(|last| {
            last.layout_revision == self.layout_revision
                && last.what == *what
                && time_ms - last.time_ms <= SAME_NUDGE_MS
        })
    }

    /// Notes a step, so that the next one may join it.
    pub(crate) fn remember_nudge(&mut self, what: Nudged, time_ms: f64) {
        let layout_revision = self.layout_revision;
        self.last_nudge = time_ms.is_finite().then_some(LastNudge { time_ms, layout_revision, what });
    }

    fn set_locked(&mut self, work: Work, locked: bool) {
        self.finish_gesture();
        if self.is_previewing() {
            return;
        }
        let mut layout = self.layout().clone();
        for &piece in &self.selection {
            layout.pieces[piece].locked = locked;
        }
        let label = self.worked(work, &self.selection);
        // A lock cannot make a layout invalid.
        let _ = self.adopt(label, layout);
    }

    fn free_selection(&self) -> Vec<usize> {
        let pieces = &self.layout().pieces;
        self.selection.iter().copied().filter(|&piece| !pieces[piece].locked).collect()
    }

    /// What a step is called that did this to these pieces.
    pub(crate) fn worked(&self, work: Work, pieces: &[usize]) -> Label {
        let worked = match pieces {
            &[piece] => Worked::One(self.layout().piece_name(piece)),
            _ => Worked::Several(pieces.len()),
        };
        Label::Pieces(work, worked)
    }
}
