//! What the bounds need to know of a sticker.

use core::f64::consts::{PI, SQRT_2};
use std::sync::Arc;

use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, Placement, Radii, Region, Turn};

use super::convex_part::convex_part;
use super::hull::{area, perimeter};
use super::inner_boxes::inner_boxes;
use super::polygons_round::{PolygonsRound, polygons_round};
use super::slack::{FINE, GRAIN, half_spacing};
use super::stand_off::StandOff;
use crate::check::RULE_TOLERANCE;
use crate::layout::Layout;
use crate::sticker::{Sticker, Turns};

/// A sticker of which at least one copy may lie on the sheet.
#[derive(Clone, Debug)]
pub struct Kind {
    /// Its number in the layout.
    pub sticker: usize,
    /// The area of a piece grown by half the spacing, or a little less.
    pub grown_area: f64,
    /// Whether the grown piece surely hangs together.
    pub is_whole: bool,
    /// The width of the border.
    pub border: f64,
    /// The radius of a disc in every piece.
    pub radius: f64,
    /// What the middle of that disc keeps from the edges.
    pub stand_off: StandOff,
    /// Which way its boxes may lie.
    pub manner: Manner,
    /// Boxes in the grown piece, each wider and lower than the one before.
    pub boxes: Vec<InnerBox>,
    /// How many copies must be there.
    pub least: usize,
    /// The number beyond which no more are counted.
    pub most: Option<usize>,
}

/// A box in every grown piece: upright as drawn, or, for a piece that may lie any way, on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InnerBox {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
    /// What it keeps at least, on the sheet, from the left edge of whatever the grown piece lies in.
    pub left: f64,
    /// The same at the top.
    pub top: f64,
    /// The same on the right.
    pub right: f64,
    /// The same at the bottom.
    pub bottom: f64,
}

/// Which way the boxes of a sticker may lie on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// As drawn, or upside down or flipped.
    Upright,
    /// By quarter turns.
    Quarter,
    /// Any way.
    Free,
}

/// The stickers of the layout, without those of which none may lie there.
pub fn kinds(layout: &Layout) -> Vec<Kind> {
    (0..layout.stickers.len()).map(|i| kind(layout, i)).filter(|kind| kind.most != Some(0)).collect()
}

fn kind(layout: &Layout, number: usize) -> Kind {
    let sticker = &layout.stickers[number];
    let line = sticker.cut_line(&layout.rules);
    let half = half_spacing(layout);
    let strays = has_strays(layout, sticker);
    let turns = if strays { Turns::Any } else { sticker.turns.clone() };
    let may_flip = sticker.mirror || strays;
    let disc = sticker.inner_disc(&layout.rules);
    let placed = layout.placed(&sticker.id);
    let manner = manner(&turns);
    let stand_off = StandOff::new(&line, disc.centre, &turns, may_flip);
    let grown = sticker.memos.grown.get(&line, half, |_| Arc::new(Grown::new(&line, half)));
    let border = sticker.border_width(&layout.rules).max(0.0);
    Kind {
        sticker: number,
        grown_area: grown.area,
        is_whole: grown.is_whole,
        border,
        radius: disc.radius,
        stand_off,
        manner,
        boxes: match manner {
            Manner::Free => vec![square_in_disc(disc.radius + half, half.max(0.0), &stand_off)],
            _ => {
                let bounds = line.bounds().inflate(half.max(0.0), half.max(0.0));
                let is_as_drawn = !may_flip && is_one_way(&turns);
                grown.boxes.iter().map(|&rect| inner_box(rect, bounds, manner, is_as_drawn)).collect()
            }
        },
        least: sticker.wanted.least() as usize,
        most: sticker.wanted.most().map(|most| placed.max(most as usize)),
    }
}

/// The area of the grown piece that discs inside it, as wide as its border and half the spacing, do not sweep, or more.
///
/// Only bays that the border closed can have such places, and bridges across notches that were rounded, but for the
/// hundredth of a millimetre that a cut line may run too far out.
pub fn unswept(layout: &Layout, kind: &Kind) -> f64 {
    let (sticker, half) = (&layout.stickers[kind.sticker], half_spacing(layout));
    let line = sticker.cut_line(&layout.rules);
    let is_plain = sticker.radii == Radii::default() && sticker.wide_spots.is_empty();
    sticker.memos.unswept.get(&line, half, |_| {
        let bordered = Region::of(&sticker.outline).grown(kind.border - 2.0 * FINE, FINE);
        if is_plain && bordered.rings().all(|ring| area(&ring) >= 0.0) {
            return 0.0;
        }
        let (grown, radius) = (grown(&line, half), kind.border + half - 2.0 * FINE);
        let swept = grown.grown(-radius, FINE).grown(radius, FINE);
        let edge: f64 = grown.rings().map(|ring| perimeter(&ring)).sum();
        (grown.area() - swept.area()).max(0.0) + 2.0 * FINE * edge
    })
}

/// The upright square in the disc of this radius about the middle of a grown piece's disc.
fn square_in_disc(radius: f64, half: f64, stand_off: &StandOff) -> InnerBox {
    let side = (radius * SQRT_2 - GRAIN).max(0.0);
    let keeps = |stand_off: f64| (stand_off + half - side / 2.0).max(0.0);
    InnerBox {
        width: side,
        height: side,
        left: keeps(stand_off.left),
        top: keeps(stand_off.top),
        right: keeps(stand_off.right),
        bottom: keeps(stand_off.bottom),
    }
}

fn inner_box(rect: Rect, bounds: Rect, manner: Manner, is_as_drawn: bool) -> InnerBox {
    let (left, top) = (rect.x0 - bounds.x0, rect.y0 - bounds.y0);
    let (right, bottom) = (bounds.x1 - rect.x1, bounds.y1 - rect.y1);
    let keeps = |own: f64, opposite: f64| {
        let keeps = match manner {
            Manner::Upright if is_as_drawn => own,
            Manner::Upright => own.min(opposite),
            _ => left.min(top).min(right).min(bottom),
        };
        (keeps - 2.0 * GRAIN).max(0.0)
    };
    InnerBox {
        width: rect.width(),
        height: rect.height(),
        left: keeps(left, right),
        top: keeps(top, bottom),
        right: keeps(right, left),
        bottom: keeps(bottom, top),
    }
}

/// A piece grown by half the spacing: no two of these overlap.
///
/// To be exact: the piece shrunk by half the tolerance and grown again by that and half the spacing. Only slivers get
/// lost that way, and slivers are what the check lets reach into a zone without clearance. Where no spacing is asked, it
/// is the piece shrunk by half the tolerance.
#[derive(Clone, Debug)]
pub struct Grown {
    area: f64,
    boxes: Arc<Vec<Rect>>,
    /// Whether what the slivers leave hangs together.
    is_whole: bool,
}

/// How many corners a disc is drawn with.
const DISC_CORNERS: u32 = 180;

/// What the check takes off each of two lines before it says that they overlap, in millimetres, and a little more.
const SLIVER: f64 = RULE_TOLERANCE / 2.0 + GRAIN;

impl Grown {
    fn new(line: &Outline, half: f64) -> Grown {
        let core = Region::of(line).grown(-SLIVER - GRAIN, GRAIN);
        let is_whole = core.rings().filter(|ring| area(ring) > 0.0).count() < 2;
        if half > 0.0 {
            let region = grown(line, half);
            let rings: Vec<Vec<Point>> = region.rings().collect();
            let boxes = Arc::new(smaller(inner_boxes(&rings), GRAIN));
            return Grown { area: region.area(), boxes, is_whole };
        }
        // Shrunk by so little, a line loses no more than its length times that.
        let boxes = smaller(inner_boxes(&[line.points().to_vec()]), -half);
        Grown { area: (line.area() + half * line.perimeter()).max(0.0), boxes: Arc::new(boxes), is_whole }
    }
}

/// The grown piece, or a little less.
fn grown(line: &Outline, half: f64) -> Region {
    if half > 0.0 {
        Region::of(line).grown(-SLIVER, GRAIN).grown(half + SLIVER - GRAIN, FINE)
    } else {
        Region::of(line).grown(half - FINE, FINE)
    }
}

/// Bounds of the polygons round a convex part of the grown piece; round its disc if no better part is found.
pub fn polygons(layout: &Layout, kind: &Kind) -> PolygonsRound {
    let (sticker, half) = (&layout.stickers[kind.sticker], half_spacing(layout));
    let line = sticker.cut_line(&layout.rules);
    sticker.memos.polygons.get(&line, half, |_| {
        let rings: Vec<Vec<Point>> = grown(&line, half).rings().collect();
        // In a hole there may be another piece.
        let part = if let [ring] = &rings[..] { convex_part(ring) } else { None };
        let radius = (kind.radius + half).max(0.0);
        let part = part.filter(|part| area(part) > PI * radius * radius).unwrap_or_else(|| disc(radius));
        polygons_round(&part)
    })
}

/// A polygon in the disc of this radius about the origin, clockwise as seen.
fn disc(radius: f64) -> Vec<Point> {
    let corner = |i: u32| {
        let (sine, cosine) = libm::sincos(2.0 * PI * f64::from(i) / f64::from(DISC_CORNERS));
        Point::new(radius * cosine, radius * sine)
    };
    (0..DISC_CORNERS).map(corner).collect()
}

fn smaller(boxes: Vec<Rect>, by: f64) -> Vec<Rect> {
    let smaller = boxes.into_iter().map(|rect| rect.inflate(-by, -by));
    smaller.filter(|rect| rect.width() > 0.0 && rect.height() > 0.0).collect()
}

/// Whether some piece of the sticker is turned or flipped as the sticker does not allow.
///
/// That is only a warning, so such a piece may well be there; the [`ceiling`](crate::ceiling) then allows it to all of them.
pub fn has_strays(layout: &Layout, sticker: &Sticker) -> bool {
    let pieces = layout.pieces.iter().filter(|piece| piece.sticker == sticker.id);
    let allows = |place: &Placement| sticker.turns.allow(place.turn) && (sticker.mirror || !place.mirrored);
    pieces.map(|piece| &piece.placement).any(|place| !allows(place))
}

fn manner(turns: &Turns) -> Manner {
    let all = |step: f64| match turns {
        Turns::None => true,
        Turns::Any => false,
        Turns::Within(degrees) => *degrees <= 0.0,
        Turns::Only(list) => list.iter().all(|degrees| degrees.rem_euclid(step) == 0.0),
    };
    if all(180.0) {
        Manner::Upright
    } else if all(90.0) {
        Manner::Quarter
    } else {
        Manner::Free
    }
}

/// Whether there is one turn only.
fn is_one_way(turns: &Turns) -> bool {
    match turns {
        Turns::None => true,
        Turns::Only(list) => list.iter().all(|&degrees| Turn::degrees(degrees) == Turn::NONE),
        _ => false,
    }
}

#[cfg(test)]
impl Kind {
    /// A kind for tests that look at its numbers only.
    pub fn sample() -> Kind {
        let stand_off =
            StandOff { left: 5.0, top: 5.0, right: 5.0, bottom: 5.0, least: 5.0, reach: 5.0 * 2f64.sqrt() };
        Kind {
            sticker: 0,
            grown_area: 100.0,
            is_whole: true,
            border: 1.5,
            radius: 5.0,
            stand_off,
            manner: Manner::Upright,
            boxes: vec![InnerBox { width: 10.0, height: 10.0, left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 }],
            least: 0,
            most: None,
        }
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;
    use crate::{Piece, Wanted};

    #[test]
    fn a_piece_that_lies_otherwise_frees_its_sticker() {
        let mut layout = Layout {
            stickers: vec![Sticker::new("box", "Box", shapes::rectangle(20.0, 10.0))],
            ..Layout::default()
        };
        assert_eq!(kinds(&layout)[0].manner, Manner::Upright);
        layout.stickers[0].turns = Turns::Only(vec![0.0, 270.0]);
        assert_eq!(kinds(&layout)[0].manner, Manner::Quarter);
        layout.pieces = vec![Piece::new("box".into(), Placement::turned(30.0, 30.0, 12.0))];
        assert_eq!(kinds(&layout)[0].manner, Manner::Free);
    }

    #[test]
    fn what_nobody_wants_is_left_out() {
        let mut sticker = Sticker::new("box", "Box", shapes::square(10.0));
        sticker.wanted = Wanted::Exactly(0);
        let mut layout = Layout { stickers: vec![sticker], ..Layout::default() };
        assert!(kinds(&layout).is_empty());
        layout.pieces = vec![Piece::new("box".into(), Placement::at(30.0, 30.0))];
        assert_eq!(kinds(&layout)[0].most, Some(1));
    }

    #[test]
    fn a_grown_box_follows_steiner() {
        let grown = Grown::new(&shapes::rectangle(20.0, 10.0), 1.0);
        let exact = 200.0 + 60.0 + core::f64::consts::PI;
        assert!(grown.area <= exact && grown.area > exact - 0.01);
        let shrunk = Grown::new(&shapes::rectangle(20.0, 10.0), -0.5);
        assert!(shrunk.area <= 19.0 * 9.0 && shrunk.boxes[0].width() < 19.0 + 1e-9);
    }
}
