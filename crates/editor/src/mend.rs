//! Mending what breaks a rule by moving the least that can be.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Finding, Layout, Rule, check_pieces};
use thiserror::Error;

use crate::editor::Editor;
use crate::free_spot;
use crate::label::Work;
use crate::nudge::kept_turn;
use crate::shortest::shortest_way_out;

/// How far a piece may be moved to mend one finding, in millimetres.
pub const FIX_REACH: f64 = 30.0;

/// A change that mends a finding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fix {
    /// Which piece moves or turns.
    pub piece: usize,
    /// Where it would lie.
    pub placement: Placement,
    /// How far it would move, in millimetres.
    pub distance: f64,
    /// How far it would turn, in degrees.
    pub degrees: f64,
}

/// Why no move of a single piece mends a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoFix {
    /// It is about a drawing or a size, or there is no such finding.
    #[error("this is not mended by moving a piece")]
    NotByMoving,
    /// All its pieces are locked.
    #[error("every piece of it is locked; unlock one first")]
    Locked,
    /// There is no free place within reach.
    #[error("there is no free place within {FIX_REACH} mm; pack the sheet anew, or take a piece off")]
    NoRoom,
}

/// What became of the broken rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MendedAll {
    /// How many pieces were moved.
    pub moved: usize,
    /// How many rules are still broken.
    pub left: usize,
}

impl Editor {
    /// The smallest change that mends a finding: one free piece moved, or turned to an allowed turn.
    ///
    /// Where the piece would lie it breaks no hard rule, and its turn is an allowed one. Of all places within 30 mm
    /// ([`FIX_REACH`]) with that turn, none is nearer by more than 0.02 mm, unless the search ran out of looks.
    ///
    /// Errors: say why there is none.
    pub fn proposed_fix(&self, finding: usize) -> Result<Fix, NoFix> {
        let finding = self.findings().get(finding).ok_or(NoFix::NotByMoving)?;
        fix_of(self.layout(), self.lines(), finding, FIX_REACH)
    }

    /// Makes the [`proposed_fix`](Editor::proposed_fix) as one undo step and chooses the piece.
    ///
    /// Errors: why nothing was done.
    pub fn fix(&mut self, finding: usize) -> Result<(), NoFix> {
        self.finish_gesture();
        if self.is_previewing() {
            return Err(NoFix::NotByMoving);
        }
        let fix = self.proposed_fix(finding)?;
        let label = self.worked(Work::Mend, &[fix.piece]);
        let mut layout = self.layout().clone();
        layout.pieces[fix.piece].placement = fix.placement;
        // A finite place cannot make a layout invalid.
        let _ = self.adopt(label, layout);
        self.select(vec![fix.piece]);
        Ok(())
    }

    /// Mends every broken rule that moving one piece after the other mends, as one undo step, and chooses the moved ones.
    ///
    /// Each goes to the nearest place on the whole sheet that is free when its turn comes; locked ones stay. No piece moves
    /// twice, and no rule is broken on the way that was not broken before. Each finding is tried once.
    pub fn fix_all(&mut self) -> MendedAll {
        self.finish_gesture();
        let broken = |findings: &[Finding]| findings.iter().filter(|finding| finding.is_broken()).count();
        if self.is_previewing() {
            return MendedAll { moved: 0, left: broken(self.findings()) };
        }
        let mut layout = self.layout().clone();
        let mut lines = self.lines().to_vec();
        let mut moved = Vec::new();
        let mut stuck: Vec<(Rule, Vec<usize>)> = Vec::new();
        while let Some(fix) = next_fix(&layout, &lines, &mut stuck) {
            layout.pieces[fix.piece].placement = fix.placement;
            lines[fix.piece] = self.document.cut_line(fix.piece).placed(&fix.placement);
            moved.push(fix.piece);
        }
        if !moved.is_empty() {
            let label = self.worked(Work::Mend, &moved);
            // Finite places cannot make a layout invalid.
            let _ = self.adopt(label, layout);
            self.select(moved.clone());
        }
        MendedAll { moved: moved.len(), left: broken(self.findings()) }
    }
}

/// The first broken rule that can be mended, and how, with the whole sheet in reach. Those that cannot are `stuck`, and not
/// tried again.
fn next_fix(layout: &Layout, lines: &[Outline], stuck: &mut Vec<(Rule, Vec<usize>)>) -> Option<Fix> {
    let reach = layout.sheet.width + layout.sheet.height;
    for finding in check_pieces(layout, lines) {
        let key = (finding.rule, finding.pieces.clone());
        if stuck.contains(&key) {
            continue;
        }
        match fix_of(layout, lines, &finding, reach) {
            Ok(fix) => return Some(fix),
            Err(_) => stuck.push(key),
        }
    }
    None
}

fn fix_of(layout: &Layout, lines: &[Outline], finding: &Finding, reach: f64) -> Result<Fix, NoFix> {
    if !finding.is_broken() && finding.rule != Rule::Turn {
        return Err(NoFix::NotByMoving);
    }
    let mut free = finding.pieces.iter().copied().filter(|&piece| !layout.pieces[piece].locked).peekable();
    if free.peek().is_none() {
        return Err(NoFix::Locked);
    }
    let mut best: Option<Fix> = None;
    for piece in free {
        let most = best.as_ref().map_or(reach, |best| best.distance);
        if let Some(fix) = moved_free(layout, lines, piece, most)
            && best.is_none_or(|best| fix.distance < best.distance)
        {
            best = Some(fix);
        }
    }
    best.ok_or(NoFix::NoRoom)
}

/// A piece with an allowed turn at the nearest place that is free, not further away than `most` millimetres.
fn moved_free(layout: &Layout, lines: &[Outline], piece: usize, most: f64) -> Option<Fix> {
    let lying = &layout.pieces[piece];
    let old = lying.placement;
    let sticker = layout.sticker(&lying.sticker)?;
    let turn = if sticker.turns.allow(old.turn) { old.turn } else { kept_turn(old.turn, &sticker.turns) };
    let cut_line = sticker.cut_line(&layout.rules);
    let wanted = Placement { turn, ..old };
    let others = free_spot::others(lines, piece);
    let pushed = free_spot::eased(layout, &others, &cut_line, &wanted, most);
    let placement = shortest_way_out(layout, lines, piece, &wanted, most, pushed)?;
    let away = |at: Point| (at - old.at).hypot2().sqrt();
    Some(Fix { piece, placement, distance: away(placement.at), degrees: turn.distance_to(old.turn) })
}
