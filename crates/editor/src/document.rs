//! The layout and everything that is worked out from it, kept in step.

use std::sync::Arc;

use stickleaf_outline::{Outline, Placement, gap_within};
use stickleaf_sheet::{
    Ceiling, Finding, Layout, Rule, Rules, Score, Sheet, Sticker, Zone, ceiling_with_reason, check_piece,
    check_pieces, has_strays, placed_cut_lines, score_from, usable_region, warnings,
};

use crate::gaps::Gaps;
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
    gaps: Gaps,
    /// The area of the usable region, in square millimetres.
    usable: f64,
    ceiling_of: CeilingKey,
    carried: Option<Carried>,
    /// Whether a zone was carried, and only what is near it is known.
    zone_was_carried: bool,
}

/// What stays as it is while some pieces are under the hand.
#[derive(Clone, Debug)]
struct Carried {
    pieces: Vec<usize>,
    /// How many hard findings there are between pieces that stay. They come first, then the live ones, then warnings.
    quiet: usize,
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
        let ceiling_of = CeilingKey::of(&layout);
        let ceiling = ceiling_with_reason(&layout);
        Document::with_ceiling(layout, ceiling_of, ceiling)
    }

    fn with_ceiling(layout: Layout, ceiling_of: CeilingKey, ceiling: Ceiling) -> Document {
        let lines = placed_cut_lines(&layout);
        let gaps = Gaps::of(&lines);
        let usable = usable_region(&layout.sheet, &layout.rules, layout.zones()).area();
        let score = score_from(&layout, &lines, ceiling, usable, gaps.smallest());
        let mut findings = check_pieces(&layout, &lines);
        findings.extend(warnings(&layout, &lines));
        let (carried, zone_was_carried) = (None, false);
        Document { layout, lines, findings, score, gaps, usable, ceiling_of, carried, zone_was_carried }
    }

    /// Takes another layout. What cannot differ is not worked out again: if only few pieces lie elsewhere, each of them is
    /// checked against the others; and the ceiling stays while nothing changes that it depends on.
    pub fn set(&mut self, layout: Layout) {
        if let Some(moved) = self.moved_in(&layout) {
            self.shift(layout, &moved);
            return;
        }
        let key = CeilingKey::of(&layout);
        let known = (key == self.ceiling_of).then_some(self.score.ceiling);
        let ceiling = known.unwrap_or_else(|| ceiling_with_reason(&layout));
        *self = Document::with_ceiling(layout, key, ceiling);
    }

    /// The pieces that lie elsewhere in another layout, and those in the hand; nothing if they are many, or anything else
    /// differs that a rule or a figure depends on.
    fn moved_in(&self, layout: &Layout) -> Option<Vec<usize>> {
        let (old, new) = (&self.layout.pieces, &layout.pieces);
        let is_same_ground = self.layout.sheet == layout.sheet
            && self.layout.rules == layout.rules
            && self.layout.zones() == layout.zones()
            && self.layout.stickers == layout.stickers;
        let are_same = old.len() == new.len() && old.iter().zip(new).all(|(a, b)| a.sticker == b.sticker);
        if self.zone_was_carried || !is_same_ground || !are_same {
            return None;
        }
        let is_moved = |i: &usize| old[*i].placement != new[*i].placement || self.carried().contains(i);
        let moved: Vec<usize> = (0..new.len()).filter(is_moved).collect();
        (moved.len() <= new.len() / 4 + 2).then_some(moved)
    }

    /// Takes a layout in which only these pieces lie elsewhere.
    fn shift(&mut self, layout: Layout, moved: &[usize]) {
        self.layout = layout;
        self.carried = None;
        for &piece in moved {
            self.lines[piece] = self.cut_line(piece).placed(&self.layout.pieces[piece].placement);
        }
        self.findings.retain(|finding| {
            finding.is_broken() && !finding.pieces.iter().any(|piece| moved.contains(piece))
        });
        self.findings.extend(check_moved(&self.layout, &self.lines, moved));
        self.findings.sort_by_key(check_order);
        self.findings.extend(warnings(&self.layout, &self.lines));
        self.gaps.moved(moved, &self.lines);
        let strays: Vec<bool> =
            self.layout.stickers.iter().map(|sticker| has_strays(&self.layout, sticker)).collect();
        let ceiling = if strays == self.ceiling_of.strays {
            self.score.ceiling
        } else {
            self.ceiling_of.strays = strays;
            ceiling_with_reason(&self.layout)
        };
        self.score = score_from(&self.layout, &self.lines, ceiling, self.usable, self.gaps.smallest());
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
            std::mem::take(&mut self.findings).into_iter().partition(Finding::is_broken);
        let (live, quiet): (Vec<Finding>, Vec<Finding>) = hard.into_iter().partition(touches);
        let quiet_gap = self.gaps.without(&pieces, &self.lines);
        self.findings = quiet.iter().chain(&live).chain(&warnings).cloned().collect();
        self.carried = Some(Carried { pieces, quiet: quiet.len(), quiet_gap, live });
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
        self.zone_was_carried = true;
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
        let live = check_moved(&self.layout, &self.lines, &carried.pieces);
        let gap = carried
            .pieces
            .iter()
            .fold(carried.quiet_gap, |gap, &piece| gap_to_others(&self.lines, piece, gap));
        self.score.smallest_gap = (self.lines.len() > 1).then_some(gap);
        let before = carried.quiet..carried.quiet + carried.live.len();
        self.findings.splice(before, live.iter().cloned());
        carried.live = live;
        self.carried = Some(carried);
    }

    /// The cut line of a piece's sticker, in the sticker's own millimetres.
    pub fn cut_line(&self, piece: usize) -> Arc<Outline> {
        let sticker = self.layout.sticker(&self.layout.pieces[piece].sticker);
        sticker.expect("a valid layout has every piece's sticker").cut_line(&self.layout.rules)
    }
}

/// The hard rules that these pieces break.
fn check_moved(layout: &Layout, lines: &[Outline], moved: &[usize]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for &piece in moved {
        // A pair of them is found twice, once from each side.
        let is_first = |finding: &Finding| {
            finding.pieces.len() < 2
                || !finding.pieces.iter().any(|&other| other < piece && moved.contains(&other))
        };
        findings.extend(check_piece(layout, lines, piece).into_iter().filter(is_first));
    }
    findings
}

/// The place of a hard finding in the order of the whole check: by piece, and of each its margin, its zones as they stand in
/// the layout, the other pieces.
fn check_order(finding: &Finding) -> (Option<usize>, u8, Option<usize>) {
    let kind = match finding.rule {
        Rule::Margin => 0,
        Rule::Zone | Rule::Clearance => 1,
        _ => 2,
    };
    (finding.pieces.first().copied(), kind, finding.pieces.get(1).copied())
}

/// The smallest gap of one piece to any other, if it is below `best`, else `best`.
fn gap_to_others(lines: &[Outline], piece: usize, best: f64) -> f64 {
    let others = (0..lines.len()).filter(|&other| other != piece);
    others.fold(best, |best, other| {
        gap_within(&lines[piece], &lines[other], best).map_or(best, |gap| gap.distance)
    })
}
