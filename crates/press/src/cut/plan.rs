//! The plan of a cut: the lines as curves that keep every rule, and their order.

use std::collections::{BTreeSet, HashMap};

use kurbo::{BezPath, Point, Shape};
use stickleaf_outline::Outline;
use stickleaf_sheet::{Layout, Rule, StickerId, check_pieces, placed_cut_lines};

use crate::cut::card::card_path;
use crate::cut::fit::CutLine;
use crate::cut::order::{least_travel, short_order, travel};
use crate::cut::start::from_gentlest;
use crate::frame::affine;

/// How cut lines are made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutOptions {
    /// How often the card's line is gone over.
    pub passes: u32,
    /// How far each line goes on past its start, in millimetres.
    pub overrun: f64,
    /// How far curves may lie from the cut line, in millimetres; 0 for straight chords.
    pub tolerance: f64,
}

impl Default for CutOptions {
    /// One pass, an overrun of half a millimetre (common practice, no source), curves within 0.02 mm: a twenty-fifth of a
    /// good hobby cutter's error.
    fn default() -> CutOptions {
        CutOptions { passes: 1, overrun: 0.5, tolerance: 0.02 }
    }
}

/// The kiss line of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct KissCut {
    /// Which piece, by its position in the layout.
    pub piece: usize,
    /// What the piece is called.
    pub name: String,
    /// Its line, in sheet millimetres.
    pub line: CutLine,
}

/// What is cut, and in which order. Lengths in sheet millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPlan {
    /// How it was asked for.
    pub options: CutOptions,
    /// The kiss lines in the order in which they are cut.
    pub kiss: Vec<KissCut>,
    /// The card's line, once.
    pub through: BezPath,
    /// The way of the lifted blade between the kiss lines, from the sheet's top left corner on.
    pub travel: f64,
    /// The same in the order of the pieces.
    pub travel_in_file_order: f64,
    /// What no order can undercut: the smallest tree that joins all starts.
    pub least_travel: f64,
}

impl CutPlan {
    /// How many points all kiss lines go through.
    pub fn nodes(&self) -> usize {
        self.kiss.iter().map(|cut| cut.line.nodes()).sum()
    }

    /// How many kiss lines stayed chords, because no curve was near enough or kept the spacing.
    pub fn chords(&self) -> usize {
        self.kiss.iter().filter(|cut| !cut.line.is_fitted).count()
    }

    /// The length of all kiss lines, without overrun.
    pub fn kiss_length(&self) -> f64 {
        self.kiss.iter().map(|cut| cut.line.path.perimeter(1e-3)).sum()
    }

    /// The length of the card's line, once.
    pub fn through_length(&self) -> f64 {
        self.through.perimeter(1e-3)
    }
}

/// The plan of a valid layout.
///
/// Curves stand for the cut lines where they lie within the tolerance both ways and break no rule that the cut lines keep;
/// all copies of a sticker are the same curve. A line that lies within another is cut first.
pub fn plan(layout: &Layout, options: &CutOptions) -> CutPlan {
    let exact = placed_cut_lines(layout);
    let lines = Curves::new(layout, options.tolerance).settled(layout, &exact);
    let starts: Vec<Point> = lines.iter().map(CutLine::start).collect();
    let order = short_order(&starts, &nested(&exact));
    let in_order = travel(&starts, order.iter().copied());
    let cut = |piece: usize| KissCut { piece, name: layout.piece_name(piece), line: lines[piece].clone() };
    CutPlan {
        options: *options,
        kiss: order.iter().map(|&piece| cut(piece)).collect(),
        through: card_path(&layout.sheet),
        travel: in_order,
        travel_in_file_order: travel(&starts, 0..starts.len()),
        least_travel: least_travel(&starts),
    }
}

/// Which lines lie within which: the inner one, then the outer one.
fn nested(lines: &[Outline]) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    for (inner, line) in lines.iter().enumerate() {
        for (outer, around) in lines.iter().enumerate() {
            let is_smaller = line.area() < around.area();
            if inner != outer && is_smaller && around.contains(line.points()[0]) {
                pairs.push((inner, outer));
            }
        }
    }
    pairs
}

/// The shares of the tolerance that are tried one after the other, before chords.
const SHARES: [f64; 4] = [1.0, 0.5, 0.25, 0.1];

/// The curves of all stickers, each as coarse as it still may be.
struct Curves {
    tolerance: f64,
    /// Of each sticker with pieces: its ring from the start on, which share is in use, and the line.
    stickers: HashMap<StickerId, (Vec<Point>, usize, CutLine)>,
}

impl Curves {
    fn new(layout: &Layout, tolerance: f64) -> Curves {
        let mut curves = Curves { tolerance, stickers: HashMap::new() };
        for sticker in layout.stickers.iter().filter(|sticker| layout.placed(&sticker.id) > 0) {
            let ring = from_gentlest(sticker.cut_line(&layout.rules).points());
            let chords = CutLine::chords(&ring);
            curves.stickers.insert(sticker.id.clone(), (ring, 0, chords));
            curves.refit(&sticker.id);
        }
        curves
    }

    /// Fits the sticker's line at the share in use, or at the next that gives one.
    fn refit(&mut self, sticker: &StickerId) {
        let tolerance = self.tolerance;
        let Some((ring, share, line)) = self.stickers.get_mut(sticker) else { return };
        while let Some(&part) = SHARES.get(*share).filter(|_| tolerance > 0.0) {
            if let Some(fitted) = CutLine::fitted(ring, tolerance * part) {
                *line = fitted;
                return;
            }
            *share += 1;
        }
        *share = SHARES.len();
        *line = CutLine::chords(ring);
    }

    /// The lines of all pieces, after every curve that breaks a rule was drawn nearer to its cut line.
    fn settled(mut self, layout: &Layout, exact: &[Outline]) -> Vec<CutLine> {
        let allowed = broken(layout, exact);
        loop {
            let lines: Vec<CutLine> =
                (0..layout.pieces.len()).map(|piece| self.placed(layout, piece)).collect();
            let too_coarse = self.too_coarse(layout, &lines, exact, &allowed);
            if too_coarse.is_empty() {
                return lines;
            }
            for sticker in too_coarse {
                if let Some((_, share, _)) = self.stickers.get_mut(&sticker) {
                    *share += 1;
                }
                self.refit(&sticker);
            }
        }
    }

    /// The stickers whose curves break what their cut lines keep; none once they are chords.
    fn too_coarse(
        &self,
        layout: &Layout,
        lines: &[CutLine],
        exact: &[Outline],
        allowed: &BTreeSet<(Rule, Vec<usize>)>,
    ) -> BTreeSet<StickerId> {
        let mut found = BTreeSet::new();
        let mut outlines = Vec::with_capacity(lines.len());
        for ((line, exact), piece) in lines.iter().zip(exact).zip(&layout.pieces) {
            let outline = Outline::new(line.flattened()).ok().filter(|_| line.is_fitted);
            if outline.is_none() && line.is_fitted {
                found.insert(piece.sticker.clone());
            }
            outlines.push(outline.unwrap_or_else(|| exact.clone()));
        }
        let fresh = broken(layout, &outlines);
        let pieces = fresh.difference(allowed).flat_map(|(_, pieces)| pieces);
        found.extend(
            pieces
                .filter(|&&piece| lines[piece].is_fitted)
                .map(|&piece| layout.pieces[piece].sticker.clone()),
        );
        found
    }

    fn placed(&self, layout: &Layout, piece: usize) -> CutLine {
        let piece = &layout.pieces[piece];
        let motion = piece.placement.motion();
        let line = self.stickers.get(&piece.sticker).map(|(_, _, line)| line.clone());
        let line = line.unwrap_or(CutLine { path: BezPath::new(), is_fitted: false });
        CutLine { path: affine(|point| motion.apply(point)) * line.path, ..line }
    }
}

fn broken(layout: &Layout, lines: &[Outline]) -> BTreeSet<(Rule, Vec<usize>)> {
    check_pieces(layout, lines)
        .into_iter()
        .filter(|finding| finding.is_broken())
        .map(|finding| (finding.rule, finding.pieces))
        .collect()
}
