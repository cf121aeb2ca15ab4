//! The cut of a whole page: the kiss lines of all sheets on it, sheet by sheet, then the cards.

use std::collections::BTreeMap;

use kurbo::{Affine, BezPath, PathEl, Point, Rect, Shape};
use stickleaf_sheet::Sheet;

use crate::cut::fit::CutLine;
use crate::cut::order::{least_travel, short_order, travel};
use crate::cut::plan::{CutPlan, KissCut};
use crate::sheet_on_page::SheetOnPage;

/// A layout whose sheets lie on a page.
#[derive(Clone, Copy, Debug)]
pub struct DesignToCut<'a> {
    /// What it is called.
    pub name: &'a str,
    /// Its sheet.
    pub sheet: &'a Sheet,
    /// Its lines.
    pub plan: &'a CutPlan,
}

/// The lines of a page, and in which order they are cut. Lengths in millimetres from the page's top left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct PageCut {
    /// The sheets in the order in which their kiss lines are cut.
    pub sheets: Vec<SheetCut>,
    /// What frees the cards, in the order in which it is cut.
    pub through: Vec<ThroughLine>,
    /// How often each of those lines is gone over.
    pub passes: u32,
    /// How far closed lines go on past their start.
    pub overrun: f64,
    /// The way of the lifted blade between the kiss lines, from the page's corner on.
    pub travel: f64,
    /// The same sheet by sheet and piece by piece.
    pub travel_in_file_order: f64,
    /// What no order can undercut: the smallest tree that joins all starts.
    pub least_travel: f64,
}

impl PageCut {
    /// How many kiss lines there are.
    pub fn kiss_lines(&self) -> usize {
        self.sheets.iter().map(|sheet| sheet.kiss.len()).sum()
    }

    /// How many points they go through.
    pub fn nodes(&self) -> usize {
        self.lines().map(CutLine::nodes).sum()
    }

    /// How many of them stayed chords.
    pub fn chords(&self) -> usize {
        self.lines().filter(|line| !line.is_fitted).count()
    }

    /// Their length, without overrun.
    pub fn kiss_length(&self) -> f64 {
        self.lines().map(|line| line.path.perimeter(1e-3)).sum()
    }

    /// The length of what frees the cards, once.
    pub fn through_length(&self) -> f64 {
        self.through.iter().map(ThroughLine::length).sum()
    }

    fn lines(&self) -> impl Iterator<Item = &CutLine> {
        self.sheets.iter().flat_map(|sheet| &sheet.kiss).map(|cut| &cut.line)
    }
}

/// The kiss lines of one sheet on the page.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetCut {
    /// Which sheet of the page, by its position.
    pub sheet: usize,
    /// What its design is called.
    pub name: String,
    /// Its kiss lines in the order in which they are cut.
    pub kiss: Vec<KissCut>,
}

/// A line that frees cards.
#[derive(Clone, Debug, PartialEq)]
pub enum ThroughLine {
    /// Round one card.
    Card {
        /// Which sheet of the page, by its position.
        sheet: usize,
        /// The line; it ends where it began.
        path: BezPath,
    },
    /// A straight edge that cards with sharp corners share, or that goes on from one that they share.
    Edge {
        /// Its left or upper end.
        from: Point,
        /// Its right or lower end.
        to: Point,
    },
}

impl ThroughLine {
    /// Where the blade is put down.
    pub fn start(&self) -> Point {
        match self {
            ThroughLine::Card { path, .. } => start(path),
            ThroughLine::Edge { from, .. } => *from,
        }
    }

    /// How long it is.
    pub fn length(&self) -> f64 {
        match self {
            ThroughLine::Card { path, .. } => path.perimeter(1e-3),
            ThroughLine::Edge { from, to } => (*to - *from).hypot2().sqrt(),
        }
    }
}

/// The cut of a page with sheets of these designs, all planned with the same options; each sheet's design is one of them. A page
/// without sheets has no lines.
///
/// A sheet is done before the next one is begun, and no card is freed before all kiss lines are cut. Where cards with sharp
/// corners share an edge it is one straight line, so that the blade does not go down there twice as often.
pub fn page_cut(designs: &[DesignToCut<'_>], sheets: &[SheetOnPage]) -> PageCut {
    let ways: Vec<Affine> = sheets.iter().map(|at| at.to_page(designs[at.design].sheet)).collect();
    let middles: Vec<Point> = sheets.iter().map(|at| at.card(designs[at.design].sheet).center()).collect();
    let mut at = Point::ZERO;
    let mut cuts = Vec::with_capacity(sheets.len());
    let mut length = 0.0;
    for sheet in short_order(&middles, &[]) {
        let design = &designs[sheets[sheet].design];
        let cut = sheet_cut(design, sheet, ways[sheet], at);
        let starts: Vec<Point> = cut.kiss.iter().map(|cut| cut.line.start()).collect();
        length += travel_from(at, &starts);
        at = starts.last().copied().unwrap_or(at);
        cuts.push(cut);
    }
    let in_file_order: Vec<Point> = (0..sheets.len())
        .flat_map(|sheet| {
            let mut kiss: Vec<&KissCut> = designs[sheets[sheet].design].plan.kiss.iter().collect();
            kiss.sort_by_key(|cut| cut.piece);
            kiss.into_iter().map(|cut| ways[sheet] * cut.line.start()).collect::<Vec<Point>>()
        })
        .collect();
    let options = designs.first().map(|design| design.plan.options).unwrap_or_default();
    PageCut {
        sheets: cuts,
        through: through(designs, sheets, &ways, at),
        passes: options.passes.max(1),
        overrun: options.overrun,
        travel: length,
        travel_in_file_order: travel(&in_file_order, 0..in_file_order.len()),
        least_travel: least_travel(&in_file_order),
    }
}

/// The kiss lines of a sheet in an order of short travel from where the blade is; inner lines stay before outer ones.
fn sheet_cut(design: &DesignToCut<'_>, sheet: usize, way: Affine, from: Point) -> SheetCut {
    let kiss = &design.plan.kiss;
    let from_here: Vec<Point> = kiss.iter().map(|cut| (way * cut.line.start() - from).to_point()).collect();
    let place = |piece: usize| kiss.iter().position(|cut| cut.piece == piece);
    let inner_first: Vec<(usize, usize)> =
        design.plan.nested.iter().filter_map(|&(inner, outer)| place(inner).zip(place(outer))).collect();
    let on_page = |index: usize| {
        let mut cut = kiss[index].clone();
        cut.line.path = way * cut.line.path;
        cut
    };
    let order = short_order(&from_here, &inner_first);
    SheetCut { sheet, name: design.name.to_owned(), kiss: order.into_iter().map(on_page).collect() }
}

fn travel_from(from: Point, starts: &[Point]) -> f64 {
    let from_here: Vec<Point> = starts.iter().map(|&start| (start - from).to_point()).collect();
    travel(&from_here, 0..from_here.len())
}

/// What frees the cards, in an order of short travel from where the blade is.
fn through(
    designs: &[DesignToCut<'_>],
    sheets: &[SheetOnPage],
    ways: &[Affine],
    from: Point,
) -> Vec<ThroughLine> {
    let sharp: Vec<(usize, Rect)> = (0..sheets.len())
        .map(|sheet| (sheet, designs[sheets[sheet].design].sheet))
        .filter(|(_, size)| size.corner_radius == 0.0)
        .map(|(sheet, size)| (sheet, sheets[sheet].card(size)))
        .collect();
    let shares = |(sheet, card): &(usize, Rect)| {
        sharp.iter().any(|(other, beside)| other != sheet && share_an_edge(card, beside))
    };
    let (joined, _): (Vec<_>, Vec<_>) = sharp.iter().copied().partition(shares);
    let cards: Vec<Rect> = joined.iter().map(|(_, card)| *card).collect();
    let alone = (0..sheets.len()).filter(|sheet| joined.iter().all(|(other, _)| other != sheet));
    let mut lines: Vec<ThroughLine> = alone
        .map(|sheet| {
            let path = ways[sheet] * designs[sheets[sheet].design].plan.through.clone();
            ThroughLine::Card { sheet, path }
        })
        .collect();
    lines.extend(edges(&cards));
    let from_here: Vec<Point> = lines.iter().map(|line| (line.start() - from).to_point()).collect();
    let mut in_order = Vec::with_capacity(lines.len());
    for index in short_order(&from_here, &[]) {
        in_order.push(lines[index].clone());
    }
    in_order
}

/// A length in whole micrometres, on which page plans lie.
fn um(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

fn share_an_edge(a: &Rect, b: &Rect) -> bool {
    let overlap = |a0: f64, a1: f64, b0: f64, b1: f64| um(a0.max(b0)) < um(a1.min(b1));
    let beside = um(a.x1) == um(b.x0) || um(b.x1) == um(a.x0);
    let above = um(a.y1) == um(b.y0) || um(b.y1) == um(a.y0);
    (beside && overlap(a.y0, a.y1, b.y0, b.y1)) || (above && overlap(a.x0, a.x1, b.x0, b.x1))
}

/// The edges of the cards as the fewest straight lines, each stretch once: level ones from the top, then upright ones from
/// the left.
fn edges(cards: &[Rect]) -> Vec<ThroughLine> {
    let mut level: BTreeMap<i64, Vec<(i64, i64)>> = BTreeMap::new();
    let mut upright: BTreeMap<i64, Vec<(i64, i64)>> = BTreeMap::new();
    for card in cards {
        for y in [card.y0, card.y1] {
            level.entry(um(y)).or_default().push((um(card.x0), um(card.x1)));
        }
        for x in [card.x0, card.x1] {
            upright.entry(um(x)).or_default().push((um(card.y0), um(card.y1)));
        }
    }
    let mm = |um: i64| um as f64 / 1000.0;
    let level = level.into_iter().flat_map(|(y, stretches)| {
        joined(stretches).into_iter().map(move |(from, to)| ThroughLine::Edge {
            from: Point::new(mm(from), mm(y)),
            to: Point::new(mm(to), mm(y)),
        })
    });
    let upright = upright.into_iter().flat_map(|(x, stretches)| {
        joined(stretches).into_iter().map(move |(from, to)| ThroughLine::Edge {
            from: Point::new(mm(x), mm(from)),
            to: Point::new(mm(x), mm(to)),
        })
    });
    level.chain(upright).collect()
}

/// Stretches of a line, those that meet made one.
fn joined(mut stretches: Vec<(i64, i64)>) -> Vec<(i64, i64)> {
    stretches.sort_unstable();
    let mut whole: Vec<(i64, i64)> = Vec::new();
    for (from, to) in stretches {
        match whole.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => whole.push((from, to)),
        }
    }
    whole
}

fn start(path: &BezPath) -> Point {
    match path.elements().first() {
        Some(&PathEl::MoveTo(point)) => point,
        _ => Point::ZERO,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Piece, Sticker};

    use super::*;
    use crate::cut::{CutOptions, plan};

    fn layout(width: f64, height: f64, corner_radius: f64) -> Layout {
        Layout {
            sheet: Sheet { width, height, corner_radius, ..Sheet::default() },
            stickers: vec![Sticker::new("a", "A", path::parse("M-5 -5H5V5H-5Z").unwrap())],
            pieces: [(12.0, 14.0), (30.0, 14.0), (30.0, 40.0)]
                .map(|(x, y)| Piece::new("a".into(), Placement::at(x, y)))
                .to_vec(),
            ..Layout::default()
        }
    }

    fn at(x: f64, y: f64, is_turned: bool) -> SheetOnPage {
        SheetOnPage { design: 0, x, y, is_turned }
    }

    fn cut(layout: &Layout, sheets: &[SheetOnPage]) -> PageCut {
        let plan = plan(layout, &CutOptions { passes: 4, ..CutOptions::default() });
        let design = DesignToCut { name: &layout.name, sheet: &layout.sheet, plan: &plan };
        page_cut(&[design], sheets)
    }

    #[test]
    fn lines_lie_on_the_page_as_the_sheets_do() {
        let layout = layout(50.0, 60.0, 4.0);
        let cut = cut(&layout, &[at(10.0, 20.0, false), at(80.0, 20.0, true)]);
        assert_eq!((cut.sheets.len(), cut.through.len(), cut.passes), (2, 2, 4));
        // A piece at (12, 14) of a sheet on its side at (80, 20): 14 mm from its right edge, which is at 80 + 60.
        let turned = cut.sheets.iter().find(|cut| cut.sheet == 1).unwrap();
        let first = turned.kiss.iter().find(|cut| cut.piece == 0).unwrap();
        let bounds = first.line.path.bounding_box();
        assert!((bounds.center() - Point::new(126.0, 32.0)).hypot2() < 1e-6, "{bounds:?}");
        assert!(cut.least_travel <= cut.travel + 1e-9);
    }

    #[test]
    fn an_edge_that_sharp_cards_share_is_one_line() {
        // Two by two cards edge to edge: three level lines and three upright ones, whole; 600 mm instead of 880.
        let layout = layout(50.0, 60.0, 0.0);
        let sheets: Vec<SheetOnPage> = [(0.0, 0.0), (50.0, 0.0), (0.0, 60.0), (50.0, 60.0)]
            .map(|(x, y)| at(10.0 + x, 10.0 + y, false))
            .to_vec();
        let cut = cut(&layout, &sheets);
        assert!(cut.through.iter().all(|line| matches!(line, ThroughLine::Edge { .. })));
        assert_eq!((cut.through.len(), cut.through_length()), (6, 3.0 * 100.0 + 3.0 * 120.0));
        // With round corners each card is freed by itself, and so is one that lies apart.
        let round = super::tests::layout(50.0, 60.0, 4.0);
        assert_eq!(super::tests::cut(&round, &sheets).through.len(), 4);
        let apart = super::tests::cut(&layout, &[at(0.0, 0.0, false), at(60.0, 0.0, false)]);
        assert!(apart.through.iter().all(|line| matches!(line, ThroughLine::Card { .. })));
    }

    proptest! {
        #[test]
        fn edges_cover_each_card_and_no_stretch_twice(
            columns in prop::collection::vec(5..40_i32, 1..4), rows in prop::collection::vec(5..40_i32, 1..4),
            left_out in prop::collection::vec(any::<bool>(), 9),
        ) {
            let ends = |lengths: &[i32]| {
                lengths.iter().scan(0, |at, length| { let from = *at; *at += length; Some((f64::from(from), f64::from(*at))) }).collect::<Vec<_>>()
            };
            let (across, down) = (ends(&columns), ends(&rows));
            let all = down.iter().flat_map(|y| across.iter().map(move |x| Rect::new(x.0, y.0, x.1, y.1)));
            let cards: Vec<Rect> = all.zip(&left_out).filter(|(_, out)| !**out).map(|(card, _)| card).collect();
            let lines: Vec<Rect> = edges(&cards)
                .into_iter()
                .map(|line| match line {
                    ThroughLine::Edge { from, to } => Rect::from_points(from, to),
                    ThroughLine::Card { .. } => unreachable!("only edges"),
                })
                .collect();
            for card in &cards {
                for side in [
                    Rect::new(card.x0, card.y0, card.x1, card.y0),
                    Rect::new(card.x0, card.y1, card.x1, card.y1),
                    Rect::new(card.x0, card.y0, card.x0, card.y1),
                    Rect::new(card.x1, card.y0, card.x1, card.y1),
                ] {
                    let holds = |line: &&Rect| line.x0 <= side.x0 && line.x1 >= side.x1 && line.y0 <= side.y0 && line.y1 >= side.y1;
                    prop_assert_eq!(lines.iter().filter(holds).count(), 1);
                }
            }
            for (i, a) in lines.iter().enumerate() {
                for b in &lines[..i] {
                    let is_one_way = (a.y0 == a.y1) == (b.y0 == b.y1);
                    let meet = a.x0.max(b.x0) <= a.x1.min(b.x1) && a.y0.max(b.y0) <= a.y1.min(b.y1);
                    prop_assert!(!(is_one_way && meet), "{:?} {:?}", a, b);
                }
            }
        }
    }
}
