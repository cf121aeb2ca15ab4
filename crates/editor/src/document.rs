//! The layout and everything that is worked out from it, kept in step.

use std::sync::Arc;

use stickleaf_outline::{Outline, Placement, gap_within};
use stickleaf_sheet::{
    Finding, Layout, Rule, Rules, Score, Sheet, Sticker, Zone, ceiling_with_reason, check, check_piece,
    has_strays, placed_cut_lines, score_with,
};

use crate::measure::{Measure, measures_of};

/// A layout, its placed cut lines, its findings and its score.
///
/// Promise: lines, findings and score always belong to the layout. While pieces are carried, the warnings and the
/// density are those from before.
#[derive(Clone, Debug)]
pub struct Document {
    layout: Layout,
    lines: Vec<Outline>,
    findings: Vec<Finding>,
    score: Score,
    ceiling_of: CeilingKey,
    carried: Option<Carried>,
}

/// What stays as it is while some pieces are under the hand.
#[derive(Clone, Debug)]
struct Carried {
    pieces: Vec<usize>,
    /// The hard findings between pieces that stay.
    quiet: Vec<Finding>,
    warnings: Vec<Finding>,
    /// The smallest gap between pieces that stay.
    quiet_gap: f64,
    /// The hard findings of the carried pieces.
    live: Vec<Finding>,
}

/// Everything that the ceiling depends on.
#[derive(Clone, Debug, PartialEq)]
struct CeilingKey {
    sheet: Sheet,
    rules: Rules,
    zones: Vec<Zone>,
    stickers: Vec<Sticker>,
    placed: Vec<usize>,
    strays: Vec<bool>,
}

impl CeilingKey {
    fn of(layout: &Layout) -> CeilingKey {
        CeilingKey {
            sheet: layout.sheet,
            rules: layout.rules,
            zones: layout.zones().to_vec(),
            stickers: layout.stickers.clone(),
            placed: layout.stickers.iter().map(|sticker| layout.placed(&sticker.id)).collect(),
            strays: layout.stickers.iter().map(|sticker| has_strays(layout, sticker)).collect(),
        }
    }
}

impl Document {
    /// Works everything out for a valid layout.
    pub fn new(layout: Layout) -> Document {
        let lines = placed_cut_lines(&layout);
        let score = score_with(&layout, &lines, ceiling_with_reason(&layout));
        let findings = check(&layout);
        let ceiling_of = CeilingKey::of(&layout);
        Document { layout, lines, findings, score, ceiling_of, carried: None }
    }

    /// Takes another layout; the ceiling is worked out again only if it may differ.
    pub fn set(&mut self, layout: Layout) {
        let key = CeilingKey::of(&layout);
        let known = (key == self.ceiling_of).then_some(self.score.ceiling);
        self.lines = placed_cut_lines(&layout);
        self.score = score_with(&layout, &self.lines, known.unwrap_or_else(|| ceiling_with_reason(&layout)));
        self.findings = check(&layout);
        self.ceiling_of = key;
        self.layout = layout;
        self.carried = None;
    }

    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    pub fn lines(&self) -> &[Outline] {
        &self.lines
    }

    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    pub fn score(&self) -> &Score {
        &self.score
    }

    /// The hard findings of the carried pieces; nothing if none is carried.
    pub fn live(&self) -> Option<&[Finding]> {
        self.carried.as_ref().map(|carried| &carried.live[..])
    }

    /// The pieces under the hand.
    pub fn carried(&self) -> &[usize] {
        self.carried.as_ref().map_or(&[], |carried| &carried.pieces)
    }

    /// The distances worth showing for these pieces.
    pub fn measures(&self, pieces: &[usize]) -> Vec<Measure> {
        measures_of(&self.layout, &self.lines, &self.findings, pieces)
    }

    /// The pieces come under the hand: what does not depend on them is set apart.
    pub fn lift(&mut self, pieces: Vec<usize>) {
        let touches = |finding: &Finding| finding.pieces.iter().any(|piece| pieces.contains(piece));
        let (hard, warnings): (Vec<Finding>, Vec<Finding>) =
            self.findings.iter().cloned().partition(Finding::is_broken);
        let (live, quiet) = hard.into_iter().partition(touches);
        let quiet_gap = gap_among(&self.lines, &pieces);
        self.carried = Some(Carried { pieces, quiet, warnings, quiet_gap, live });
    }

    /// Puts a zone of the background in force elsewhere, and checks only the pieces near where it was and is.
    ///
    /// Until the next [`Document::set`] ceiling, density and warnings are those from before. A layout without room for any
    /// sticker is not taken: the zone stays.
    pub fn carry_zone(&mut self, index: usize, zone: Zone) {
        let mut layout = self.layout.clone();
        let Some(place) = layout.zones_mut().and_then(|zones| zones.get_mut(index)) else { return };
        let before = std::mem::replace(place, zone.clone());
        if layout.validate().is_err() {
            return;
        }
        self.layout = layout;
        let reach = |zone: &Zone| zone.outline.bounds().inflate(zone.clearance, zone.clearance);
        let (old, new) = (reach(&before), reach(&zone));
        let is_near = |line: &Outline| [old, new].iter().any(|reach| reach.overlaps(line.bounds()));
        let near: Vec<usize> = (0..self.lines.len()).filter(|&piece| is_near(&self.lines[piece])).collect();
        let tells = |finding: &Finding| matches!(finding.rule, Rule::Zone | Rule::Clearance);
        self.findings.retain(|finding| !(tells(finding) && near.contains(&finding.pieces[0])));
        let told = near.iter().flat_map(|&piece| check_piece(&self.layout, &self.lines, piece)).filter(tells);
        let told: Vec<Finding> = told.collect();
        self.findings.splice(0..0, told);
    }

    /// Puts lifted pieces somewhere, and checks only what concerns them.
    ///
    /// Cost: a carried piece against its near neighbours; nothing else is measured again.
    pub fn carry(&mut self, places: &[(usize, Placement)]) {
        let Some(mut carried) = self.carried.take() else { return };
        for &(piece, placement) in places {
            self.layout.pieces[piece].placement = placement;
            let cut_line = self.cut_line(piece);
            self.lines[piece] = cut_line.placed(&placement);
        }
        let mut live: Vec<Finding> = Vec::new();
        let mut gap = carried.quiet_gap;
        for &piece in &carried.pieces {
            for finding in check_piece(&self.layout, &self.lines, piece) {
                // A pair of carried pieces is found twice, once from each side.
                let twice = finding.pieces.len() == 2
                    && finding.pieces.iter().any(|&other| other < piece && carried.pieces.contains(&other));
                if !twice {
                    live.push(finding);
                }
            }
            gap = gap_to_others(&self.lines, piece, gap);
        }
        self.score.smallest_gap = (self.lines.len() > 1).then_some(gap);
        self.findings = carried.quiet.iter().chain(&live).chain(&carried.warnings).cloned().collect();
        carried.live = live;
        self.carried = Some(carried);
    }

    /// The cut line of a piece's sticker, in the sticker's own millimetres.
    pub fn cut_line(&self, piece: usize) -> Arc<Outline> {
        let sticker = self.layout.sticker(&self.layout.pieces[piece].sticker);
        sticker.expect("a valid layout has every piece's sticker").cut_line(&self.layout.rules)
    }
}

/// The smallest gap between pieces other than these, in millimetres; infinite if there are fewer than two.
fn gap_among(lines: &[Outline], without: &[usize]) -> f64 {
    let stay: Vec<&Outline> = (0..lines.len()).filter(|i| !without.contains(i)).map(|i| &lines[i]).collect();
    let mut best = f64::INFINITY;
    for (i, line) in stay.iter().enumerate() {
        for other in &stay[i + 1..] {
            best = gap_within(line, other, best).map_or(best, |gap| gap.distance);
        }
    }
    best
}

/// The smallest gap of one piece to any other, if it is below `best`, else `best`.
fn gap_to_others(lines: &[Outline], piece: usize, best: f64) -> f64 {
    let others = (0..lines.len()).filter(|&other| other != piece);
    others.fold(best, |best, other| {
        gap_within(&lines[piece], &lines[other], best).map_or(best, |gap| gap.distance)
    })
}
