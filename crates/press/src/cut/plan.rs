//! The plan of a cut: the lines as curves that keep every rule, and their order.

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use kurbo::{BezPath, Point, Shape};
use stickleaf_outline::{Outline, Region};
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
    /// Which lines lie within which, by piece: the inner one, then the outer one, which is cut later.
    pub(crate) nested: Vec<(usize, usize)>,
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
    let nested = nested(&exact);
    let order = short_order(&starts, &nested);
    let in_order = travel(&starts, order.iter().copied());
    let cut = |piece: usize| KissCut { piece, name: layout.piece_name(piece), line: lines[piece].clone() };
    CutPlan {
        options: *options,
        kiss: order.iter().map(|&piece| cut(piece)).collect(),
        through: card_path(&layout.sheet),
        travel: in_order,
        travel_in_file_order: travel(&starts, 0..starts.len()),
        least_travel: least_travel(&starts),
        nested,
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

/// How a curve is tried, in shares of the tolerance: how far inside the cut line it runs, and what the fitting may take up.
///
/// A curve bulges over the chords that it stands for, and on a full sheet every line has a neighbour at the very spacing.
/// One that runs a little inside the cut line keeps the spacing all the same.
const TRIES: [(f64, f64); 4] = [(0.0, 0.6), (0.5, 0.3), (0.6, 0.2), (0.7, 0.1)];

/// How far the chords of a line moved inwards may stray, in millimetres.
const INWARDS_WITHIN: f64 = 0.001;

/// The curves of all stickers, each tried as described until it may stay.
struct Curves {
    tolerance: f64,
    stickers: HashMap<StickerId, Curve>,
}

/// The curve of one sticker, in its own millimetres.
struct Curve {
    cut_line: Arc<Outline>,
    /// Which of the tries is in use; beyond the last, chords.
    tried: usize,
    line: CutLine,
}

impl Curve {
    /// Fits the line by the try in use, or by the next that gives one; in the end its chords.
    fn refit(&mut self, tolerance: f64) {
        while let Some(&(inside, accuracy)) = TRIES.get(self.tried).filter(|_| tolerance > 0.0) {
            if let Some(fitted) = self.fitted(tolerance * inside, tolerance * accuracy, tolerance) {
                self.line = fitted;
                return;
            }
            self.tried += 1;
        }
        self.line = CutLine::chords(&from_gentlest(self.cut_line.points()));
    }

    fn fitted(&self, inside: f64, accuracy: f64, tolerance: f64) -> Option<CutLine> {
        let moved = match inside > 0.0 {
            true => {
                Region::of(&self.cut_line).grown(-inside, INWARDS_WITHIN).outer_rings().into_iter().next()?
            }
            false => Outline::clone(&self.cut_line),
        };
        CutLine::fitted(&from_gentlest(moved.points()), accuracy, self.cut_line.points(), tolerance)
    }
}

impl Curves {
    fn new(layout: &Layout, tolerance: f64) -> Curves {
        let mut stickers = HashMap::new();
        for sticker in layout.stickers.iter().filter(|sticker| layout.placed(&sticker.id) > 0) {
            let cut_line = sticker.cut_line(&layout.rules);
            let line = CutLine::chords(cut_line.points());
            let mut curve = Curve { cut_line, tried: 0, line };
            curve.refit(tolerance);
            stickers.insert(sticker.id.clone(), curve);
        }
        Curves { tolerance, stickers }
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
                if let Some(curve) = self.stickers.get_mut(&sticker) {
                    curve.tried += 1;
                    curve.refit(self.tolerance);
                }
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
        let line = self.stickers.get(&piece.sticker).map(|curve| curve.line.clone());
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

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, gap, shapes};
    use stickleaf_sheet::{Piece, Sticker};

    use super::*;

    /// Two blobs whose cut lines lie at the very spacing.
    fn close_pair(seed: u64) -> Layout {
        let mut layout =
            Layout { stickers: vec![Sticker::new("a", "A", shapes::blob(seed, 12.0))], ..Layout::default() };
        let line = layout.stickers[0].cut_line(&layout.rules);
        let fixed = line.placed(&Placement::at(30.0, 60.0));
        let apart = |x: f64| gap(&fixed, &line.placed(&Placement::at(x, 60.0))).distance;
        let (mut near, mut far) = (40.0, 80.0);
        for _ in 0..60 {
            let middle: f64 = (near + far) / 2.0;
            if apart(middle) < 2.0 { near = middle } else { far = middle }
        }
        layout.pieces = [30.0, far].map(|x| Piece::new("a".into(), Placement::at(x, 60.0))).to_vec();
        layout
    }

    #[test]
    fn lines_at_the_very_spacing_are_curves_and_keep_it() {
        for seed in 0..6 {
            let plan = plan(&close_pair(seed), &CutOptions::default());
            assert_eq!(plan.chords(), 0, "seed {seed}");
            let lines: Vec<Outline> =
                plan.kiss.iter().map(|cut| Outline::new(cut.line.flattened()).unwrap()).collect();
            let between = gap(&lines[0], &lines[1]).distance;
            // The rule's own slack, and rounding to the grid twice.
            assert!(between >= 2.0 - stickleaf_sheet::RULE_TOLERANCE, "{between}");
        }
    }
}
