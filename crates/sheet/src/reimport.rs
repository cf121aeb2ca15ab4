//! A changed picture for a layout: which of its drawings belong to which stickers, and what becomes of them.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{BORDER_TOLERANCE, Outline, Region};

use crate::art::Art;
use crate::layout::Layout;
use crate::memo::Memos;
use crate::redraw::{CSS_PIXELS_PER_MM, on_grid, outline_through};
use crate::sticker::{Sticker, StickerId};

/// The least share of the area of both together that a sticker and a drawing have in common where they lie in the
/// picture, for the drawing to be the sticker's.
pub const PLACE_SHARE: f64 = 0.25;

/// The least such share when both lie middle on middle, for a drawing found elsewhere in the picture to be the
/// sticker's by its shape.
pub const SHAPE_SHARE: f64 = 0.85;

/// How much an equal shape elsewhere counts against an equal share at the same place.
const SHAPE_WEIGHT: f64 = 0.75;

/// How near the middles of most drawings must come for a shift to be that of the whole picture, in millimetres.
const SHIFT_REACH: f64 = 0.5;

/// How many stickers are asked where their drawings went: a shift of the whole picture moves these too.
const VOTERS: usize = 12;

/// How far chords may stray where two outlines are compared, in millimetres.
const ARC_TOLERANCE: f64 = 0.001;

/// What is left over of a region that lies within another, for the rounding of its corners, in square millimetres.
const DUST: f64 = 1e-4;

/// What a changed picture means for the stickers of a layout that came from the picture before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Reimport {
    /// Stickers that a drawing was found for, in the order of the layout.
    pub matched: Vec<Matched>,
    /// Drawings that belong to no sticker, by their position in the list given.
    pub new: Vec<usize>,
    /// Stickers that no drawing was found for, by their position in the layout.
    pub gone: Vec<usize>,
}

/// A sticker and the drawing that is now its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Matched {
    /// Which sticker of the layout.
    pub sticker: usize,
    /// Which of the drawings.
    pub drawing: usize,
    /// By what it was found.
    pub by: MatchedBy,
    /// The sticker as it will be.
    pub after: Sticker,
    /// The area within the outline as it was, in square millimetres.
    pub area_before: f64,
    /// The area within the outline as it will be, in square millimetres.
    pub area_after: f64,
    /// The area that only one of the two outlines holds, as they lie on each other, in square millimetres.
    pub area_moved: f64,
}

impl Matched {
    /// Whether the outline stays the very same one; then only the picture within is taken anew.
    pub fn is_unchanged(&self) -> bool {
        self.area_moved == 0.0
    }
}

/// By what a drawing was found to be a sticker's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MatchedBy {
    /// It lies where the sticker's drawing lay in the picture.
    Place,
    /// It lies elsewhere in the picture, but has the sticker's shape.
    Shape,
}

/// Finds out what a changed picture means for the stickers whose art came from `picture`: the whole
/// file, or parts that were cut out of it.
///
/// Each drawing is a sticker with art, as they come from import: its outline about its own (0, 0), and its art says where
/// the picture lies. What is compared is the outline at its place in the picture, less the shift that most drawings of
/// the picture share, if it was drawn on a larger canvas, for example.
///
/// The best pairs come first: those that share most at their place (from [`PLACE_SHARE`] on), and those of the same
/// shape elsewhere (from [`SHAPE_SHARE`] on), which count three quarters of that; every drawing goes to one sticker, but for
/// stickers that lay on the very same place in the old picture. A sticker that was made larger or smaller than its
/// picture stays so.
///
/// A matched sticker keeps all but outline and art. The new outline lies on the old one as it does in the picture, or
/// middle on middle where that covers it better, so all pieces stay where they are. An outline that strays from the old
/// one by no more than [`BORDER_TOLERANCE`] counts as unchanged, and the old one stays.
///
/// Cost: a polygon intersection for each pair whose boxes and areas do not rule it out already.
pub fn reimport(layout: &Layout, picture: &str, drawings: &[Sticker]) -> Reimport {
    let is_of_picture = |sticker: &Sticker| sticker.art.as_ref().is_some_and(|art| art.picture() == picture);
    let olds: Vec<usize> =
        (0..layout.stickers.len()).filter(|&index| is_of_picture(&layout.stickers[index])).collect();
    let shift = common_shift(layout, &olds, drawings);
    let mut pairs: Vec<Pair> = Vec::new();
    for &old in &olds {
        let sticker = &layout.stickers[old];
        let found = drawings.iter().enumerate();
        pairs.extend(found.filter_map(|(index, drawing)| Pair::of((old, sticker), (index, drawing), shift)));
    }
    // A sort that keeps the order of equals: the answer is the same everywhere.
    pairs.sort_by(|a, b| b.weight().total_cmp(&a.weight()).then(a.distance.total_cmp(&b.distance)));
    let mut chosen: Vec<&Pair> = Vec::new();
    for pair in &pairs {
        let is_free = |other: &&Pair| other.old != pair.old && other.drawing != pair.drawing;
        if chosen.iter().all(is_free) {
            chosen.push(pair);
        }
    }
    // Copies that the artist made of a sticker lie on the same place of the picture and follow it together.
    for &old in &olds {
        if chosen.iter().any(|pair| pair.old == old) {
            continue;
        }
        let is_twin = |other: &&Pair| is_same_place(&layout.stickers[old], &layout.stickers[other.old]);
        let drawing = chosen.iter().copied().find(|other| is_twin(other)).map(|other| other.drawing);
        chosen.extend(pairs.iter().find(|pair| pair.old == old && Some(pair.drawing) == drawing));
    }
    let matched = chosen.iter().filter_map(|pair| {
        let (old, drawing) = (&layout.stickers[pair.old], &drawings[pair.drawing]);
        matched(old, drawing, pair)
    });
    let mut matched: Vec<Matched> = matched.collect();
    matched.sort_by_key(|one| one.sticker);
    let is_taken = |drawing: &usize| matched.iter().any(|one| one.drawing == *drawing);
    let is_matched = |sticker: &usize| matched.iter().any(|one| one.sticker == *sticker);
    Reimport {
        new: (0..drawings.len()).filter(|drawing| !is_taken(drawing)).collect(),
        gone: olds.iter().copied().filter(|sticker| !is_matched(sticker)).collect(),
        matched,
    }
}

impl Reimport {
    /// Makes the changes: matched stickers become as they will be, gone ones are kept and flagged, and those of the new
    /// drawings that are wanted become stickers under the ids that `id` gives for their names, with nothing on the sheet.
    pub fn apply(
        &self,
        layout: &mut Layout,
        drawings: &[Sticker],
        is_wanted: impl Fn(usize) -> bool,
        mut id: impl FnMut(&Layout, &str) -> StickerId,
    ) {
        for one in &self.matched {
            layout.stickers[one.sticker] = one.after.clone();
        }
        for &index in &self.gone {
            layout.stickers[index].is_gone = true;
        }
        for &index in self.new.iter().filter(|&&index| is_wanted(index)) {
            let mut sticker = drawings[index].clone();
            sticker.id = id(layout, &sticker.name);
            layout.stickers.push(sticker);
        }
    }
}

/// A drawing that may be a sticker's.
struct Pair {
    old: usize,
    drawing: usize,
    /// How much they share where they lie in the picture.
    place: f64,
    /// How much they share middle on middle.
    shape: f64,
    /// How far their middles lie apart in the picture, in the sticker's millimetres.
    distance: f64,
    /// The way from the drawing's own millimetres to the sticker's that lays it on the old outline best.
    way: Way,
}

/// A change of size, then a shift.
#[derive(Clone, Copy)]
struct Way {
    scale: f64,
    shift: Vec2,
}

impl Way {
    fn new(scale: f64, shift: Vec2) -> Way {
        // Where nothing changes its size, whole micrometres keep the outline exactly as it is.
        let shift = if scale == 1.0 { on_grid(shift.to_point()) } else { shift };
        Way { scale, shift }
    }

    fn apply(&self, point: Point) -> Point {
        (point.to_vec2() * self.scale + self.shift).to_point()
    }
}

impl Pair {
    /// Nothing if the drawing can be the sticker's neither by place nor by shape.
    fn of((old, sticker): (usize, &Sticker), (index, drawing): (usize, &Sticker), by: Vec2) -> Option<Pair> {
        let (before, now) = (sticker.art.as_ref()?, drawing.art.as_ref()?);
        let mut best: Option<Pair> = None;
        for scale in scales(before, now) {
            let at_place = Way::new(scale, before.at.to_vec2() - (now.at.to_vec2() + by) * scale);
            let (from, to) = (drawing.outline.bounds().center(), sticker.outline.bounds().center());
            let in_middle = Way::new(scale, to.to_vec2() - from.to_vec2() * scale);
            let place = share(&sticker.outline, &drawing.outline, at_place, PLACE_SHARE);
            let shape = share(&sticker.outline, &drawing.outline, in_middle, PLACE_SHARE);
            let pair = Pair {
                old,
                drawing: index,
                place,
                shape,
                distance: (at_place.apply(from) - to).hypot2().sqrt(),
                way: if shape > place + 1e-9 { in_middle } else { at_place },
            };
            if pair.weight() > best.as_ref().map_or(0.0, Pair::weight) {
                best = Some(pair);
            }
        }
        best
    }

    fn by(&self) -> Option<MatchedBy> {
        let by_place = if self.place >= PLACE_SHARE { self.place } else { 0.0 };
        let by_shape = if self.shape >= SHAPE_SHARE { self.shape * SHAPE_WEIGHT } else { 0.0 };
        match by_place.max(by_shape) {
            0.0 => None,
            most if most == by_place => Some(MatchedBy::Place),
            _ => Some(MatchedBy::Shape),
        }
    }

    fn weight(&self) -> f64 {
        match self.by() {
            None => 0.0,
            Some(MatchedBy::Place) => self.place,
            Some(MatchedBy::Shape) => self.shape * SHAPE_WEIGHT,
        }
    }
}

/// How much larger a drawing may have to be drawn in the sticker's millimetres: not at all, or so that its pixels are as
/// large as those of the sticker's picture.
fn scales(before: &Art, now: &Art) -> Vec<f64> {
    let per_mm = |art: &Art| art.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM);
    let same_pixels = per_mm(now) / per_mm(before);
    // A picture's resolution is written in whole pixels to the metre, which makes less of a difference than that.
    if (same_pixels - 1.0).abs() < 1e-4 { vec![1.0] } else { vec![1.0, same_pixels] }
}

/// The area that both outlines hold over the area that either does; 0 where it is certainly below `least`.
fn share(old: &Outline, new: &Outline, way: Way, least: f64) -> f64 {
    let (old_area, new_area) = (old.area(), new.area() * way.scale * way.scale);
    let bounds = new.bounds();
    let moved =
        kurbo::Rect::from_points(way.apply(bounds.origin()), way.apply((bounds.x1, bounds.y1).into()));
    let common = old.bounds().intersect(moved);
    let most = (common.width().max(0.0) * common.height().max(0.0)).min(old_area).min(new_area);
    if most < least * old_area.max(new_area) {
        return 0.0;
    }
    let points: Vec<Point> = new.points().iter().map(|&point| way.apply(point)).collect();
    let both = Region::of(old).intersection(&Region::from_rings([&points[..]])).area();
    both / (old_area + new_area - both)
}

/// The shift of the whole picture, in its millimetres: that by which the middles of at least half of the drawings come
/// to where those of stickers were; none, unless it brings more of them there than none does.
fn common_shift(layout: &Layout, olds: &[usize], drawings: &[Sticker]) -> Vec2 {
    let Some(sample) = drawings.first().and_then(|drawing| drawing.art.as_ref()) else { return Vec2::ZERO };
    let middle = |sticker: &Sticker, at: Point| sticker.outline.bounds().center() - at;
    let before: Vec<Vec<Vec2>> = olds
        .iter()
        .filter_map(|&old| {
            let sticker = &layout.stickers[old];
            let art = sticker.art.as_ref()?;
            Some(scales(art, sample).into_iter().map(|scale| middle(sticker, art.at) / scale).collect())
        })
        .collect();
    let now: Vec<Vec2> =
        drawings.iter().filter_map(|drawing| Some(middle(drawing, drawing.art.as_ref()?.at))).collect();
    let near = |place: Vec2| now.iter().any(|other| (*other - place).hypot2() <= SHIFT_REACH * SHIFT_REACH);
    let count =
        |shift: Vec2| before.iter().filter(|places| places.iter().any(|place| near(*place + shift))).count();
    let least = before.len().min(now.len()).div_ceil(2).max(2);
    let mut best = (count(Vec2::ZERO).max(least - 1), Vec2::ZERO);
    for from in before.iter().take(VOTERS).flatten() {
        for to in &now {
            let found = count(*to - *from);
            if found > best.0 {
                best = (found, *to - *from);
            }
        }
    }
    best.1
}

/// Whether the drawings of both stickers lie on the same place of their picture.
fn is_same_place(a: &Sticker, b: &Sticker) -> bool {
    let (Some(of_a), Some(of_b)) = (&a.art, &b.art) else { return false };
    let scales = scales(of_a, of_b);
    scales.into_iter().any(|scale| {
        let way = Way::new(scale, of_a.at.to_vec2() - of_b.at.to_vec2() * scale);
        share(&a.outline, &b.outline, way, 0.9) >= 0.9
    })
}

fn matched(old: &Sticker, drawing: &Sticker, pair: &Pair) -> Option<Matched> {
    let now = drawing.art.as_ref()?;
    let way = pair.way;
    let line = outline_through(drawing.outline.points().iter().map(|&point| way.apply(point)))?;
    let area_before = old.outline.area();
    let is_same = strays_within(&line, &old.outline, BORDER_TOLERANCE);
    let (area_after, area_moved) = if is_same {
        (area_before, 0.0)
    } else {
        let both = Region::of(&old.outline).intersection(&Region::of(&line)).area();
        (line.area(), (area_before + line.area() - 2.0 * both).max(f64::MIN_POSITIVE))
    };
    let art = Art {
        at: way.apply(now.at),
        pixels_per_mm: if way.scale == 1.0 {
            now.pixels_per_mm
        } else {
            Some(now.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM) / way.scale)
        },
        carried: old.art.as_ref().map(|art| art.carried.clone()).unwrap_or_default(),
        ..now.clone()
    };
    let mut after = Sticker { art: Some(art), is_rough: false, is_gone: false, ..old.clone() };
    if !is_same {
        after.outline = Arc::new(line);
        after.path = None;
        after.memos = Memos::default();
    }
    Some(Matched {
        sticker: pair.old,
        drawing: pair.drawing,
        by: pair.by()?,
        after,
        area_before,
        area_after,
        area_moved,
    })
}

/// Whether no place inside one outline is further than `most` from the other.
fn strays_within(a: &Outline, b: &Outline, most: f64) -> bool {
    let within = |inner: &Outline, outer: &Outline| {
        let wide = Region::of(outer).grown(most, ARC_TOLERANCE);
        Region::of(inner).difference(&wide).area() < DUST
    };
    a == b || (within(a, b) && within(b, a))
}
