//! The distances that are shown beside the piece under the hand.

use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, gap_within};
use stickleaf_sheet::{Finding, Layout, Mark, Rule, Unit};

/// How far beyond its limit a distance is still worth showing, in millimetres.
const FAR: f64 = 25.0;

/// One distance to draw: where, how much, and how much is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// Which rule asks for it.
    pub rule: Rule,
    /// Whether the rule is broken.
    pub broken: bool,
    /// Between which two points, or the spot where things lie on each other, in sheet millimetres.
    pub mark: Mark,
    /// What was measured; negative past the sheet's edge.
    pub measured: f64,
    /// What is asked.
    pub limit: f64,
    /// What both numbers count.
    pub unit: Unit,
    /// Which pieces it concerns.
    pub pieces: Vec<usize>,
}

impl Measure {
    /// What a broken rule measured; nothing if it has no place on the sheet.
    pub fn of(finding: &Finding) -> Option<Measure> {
        Some(Measure {
            rule: finding.rule,
            broken: true,
            mark: finding.mark?,
            measured: finding.measured,
            limit: finding.limit,
            unit: finding.unit,
            pieces: finding.pieces.clone(),
        })
    }
}

/// The broken distances of these pieces; if none is broken, the one of a single piece that is nearest to its limit.
pub(crate) fn measures_of(
    layout: &Layout,
    lines: &[Outline],
    findings: &[Finding],
    pieces: &[usize],
) -> Vec<Measure> {
    let broken: Vec<Measure> = findings
        .iter()
        .filter(|finding| finding.is_broken() && finding.pieces.iter().any(|piece| pieces.contains(piece)))
        .filter_map(Measure::of)
        .collect();
    match pieces {
        [piece] if broken.is_empty() => tightest(layout, lines, *piece).into_iter().collect(),
        _ => broken,
    }
}

/// How far two boxes are apart; 0 if they meet.
fn boxes_apart(a: Rect, b: Rect) -> f64 {
    let x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    (x * x + y * y).sqrt()
}

/// The distance of a piece to another piece, a zone or the sheet's edge that has least to spare.
fn tightest(layout: &Layout, lines: &[Outline], piece: usize) -> Option<Measure> {
    let line = &lines[piece];
    let mut best: Option<Measure> = None;
    let mut to_spare = FAR;
    let mut consider = |rule, limit: f64, measured: f64, (start, end): (Point, Point), pieces| {
        if measured - limit < to_spare {
            to_spare = measured - limit;
            let (mark, unit) = (Mark::Segment(start, end), Unit::Millimetres);
            best = Some(Measure { rule, broken: false, mark, measured, limit, unit, pieces });
        }
        to_spare
    };
    let spacing = layout.rules.spacing;
    let mut reach = FAR;
    // Those whose boxes are nearest come first: what they leave to spare rules most others out.
    let apart = |other: &Outline| boxes_apart(line.bounds(), other.bounds());
    let is_within = |&(other, apart): &(usize, f64)| other != piece && apart < spacing + FAR;
    let mut others: Vec<(usize, f64)> = lines.iter().map(apart).enumerate().filter(is_within).collect();
    others.sort_by(|a, b| a.1.total_cmp(&b.1));
    for (other, _) in others {
        if let Some(gap) = gap_within(line, &lines[other], spacing + reach) {
            reach = consider(Rule::Spacing, spacing, gap.distance, gap.between, vec![piece, other]);
        }
    }
    for zone in layout.zones() {
        if let Some(gap) = gap_within(line, &zone.outline, zone.clearance + reach) {
            reach = consider(Rule::Clearance, zone.clearance, gap.distance, gap.between, vec![piece]);
        }
    }
    let sheet = &layout.sheet;
    let inside = |point: &Point| sheet.distance_to_edge(*point);
    let nearest = line.points().iter().min_by(|a, b| inside(a).total_cmp(&inside(b)))?;
    let between = (*nearest, sheet.nearest_on_edge(*nearest));
    consider(Rule::Margin, layout.rules.margin, inside(nearest), between, vec![piece]);
    best
}
