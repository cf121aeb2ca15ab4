//! What an SVG paints, as filled rings in millimetres, and which element paints it.

use kurbo::{Affine, Point};
use stickleaf_outline::{MOST_COORDINATE, Pen, Region};
use usvg::tiny_skia_path::{self, PathSegment};
use usvg::{FillRule, Group, Node, Stroke, Transform, Tree};

use crate::svg::SvgError;
use crate::svg::clip::clip_region;

/// The most points that all the rings may have together: thousands of elaborate drawings.
const MOST_POINTS: usize = 4_000_000;

/// An element that paints something.
pub(crate) struct Element {
    /// Its id, never empty.
    pub id: String,
    /// The element that it lies in, as an index; nothing at the top.
    pub parent: Option<usize>,
    /// Whether it holds others.
    pub is_group: bool,
}

/// A filled ring; of a shape with holes the outside.
pub(crate) struct Patch {
    /// The ring in millimetres, clockwise as seen.
    pub ring: Vec<Point>,
    /// The innermost element with an id that paints it.
    pub element: Option<usize>,
    /// The number of the element at the top that it belongs to.
    pub owner: usize,
}

/// Everything that an SVG paints.
#[derive(Default)]
pub(crate) struct Painted {
    /// The elements, parents before what they hold.
    pub elements: Vec<Element>,
    /// The rings in drawing order.
    pub patches: Vec<Patch>,
    /// How many elements have a mask.
    pub masks: usize,
    /// How many elements have a filter.
    pub effects: usize,
}

/// Everything visible in the tree: filled with any paint that is not fully clear, or stroked.
///
/// A dashed stroke counts as a whole one. Curves are drawn with chords within `tolerance` millimetres; a stroke is
/// first turned into an outline by the SVG library, within a similar distance. Holes are filled, for outlines have none.
pub(crate) fn painted(tree: &Tree, mm_per_px: f64, tolerance: f64) -> Result<Painted, SvgError> {
    let mut painter = Painter { painted: Painted::default(), tolerance, points: 0 };
    painter.group(tree.root(), Affine::scale(mm_per_px), None)?;
    Ok(painter.painted)
}

struct Painter {
    painted: Painted,
    tolerance: f64,
    /// How many points all the rings have.
    points: usize,
}

impl Painter {
    fn group(&mut self, group: &Group, outer: Affine, holder: Option<usize>) -> Result<(), SvgError> {
        if group.opacity().get() == 0.0 {
            return Ok(());
        }
        let to_mm = outer * affine(group.transform());
        let element = self.element(group.id(), holder, true);
        self.painted.masks += usize::from(group.mask().is_some());
        self.painted.effects += usize::from(!group.filters().is_empty());
        let first = self.painted.patches.len();
        for node in group.children() {
            match node {
                Node::Group(inner) => self.group(inner, to_mm, element)?,
                Node::Path(path) => self.path(path, to_mm, element)?,
                // Both are counted in the text of the file.
                Node::Image(_) | Node::Text(_) => {}
            }
        }
        if let Some(clip) = group.clip_path() {
            let region = clip_region(clip, to_mm, self.tolerance)?;
            let clipped = self.painted.patches.split_off(first);
            for Patch { ring, element, owner } in clipped {
                for ring in outer_rings(&Region::from_rings([&ring[..]]).intersection(&region)) {
                    self.painted.patches.push(Patch { ring, element, owner });
                }
            }
        }
        Ok(())
    }

    fn path(&mut self, path: &usvg::Path, to_mm: Affine, holder: Option<usize>) -> Result<(), SvgError> {
        if !path.is_visible() {
            return Ok(());
        }
        let element = self.element(path.id(), holder, false);
        if let Some(fill) = path.fill().filter(|fill| fill.opacity().get() > 0.0) {
            let region = filled(path.data(), fill.rule(), to_mm, self.tolerance)?;
            self.patch(&region, element)?;
        }
        if let Some(stroke) = path.stroke().filter(|stroke| stroke.opacity().get() > 0.0)
            && let Some(outline) = stroked(path.data(), stroke, to_mm, self.tolerance)?
        {
            let region = filled(&outline, FillRule::NonZero, to_mm, self.tolerance)?;
            self.patch(&region, element)?;
        }
        Ok(())
    }

    fn patch(&mut self, region: &Region, element: Option<usize>) -> Result<(), SvgError> {
        let owner = element.map_or(usize::MAX, |element| self.top_of(element));
        for ring in outer_rings(region) {
            self.points += ring.len();
            if self.points > MOST_POINTS {
                return Err(SvgError::TooComplex);
            }
            self.painted.patches.push(Patch { ring, element, owner });
        }
        Ok(())
    }

    /// The number of an element; without an id it is taken as its holder.
    fn element(&mut self, id: &str, holder: Option<usize>, is_group: bool) -> Option<usize> {
        if id.is_empty() {
            return holder;
        }
        self.painted.elements.push(Element { id: id.to_owned(), parent: holder, is_group });
        Some(self.painted.elements.len() - 1)
    }

    fn top_of(&self, mut element: usize) -> usize {
        while let Some(parent) = self.painted.elements[element].parent {
            element = parent;
        }
        element
    }
}

fn outer_rings(region: &Region) -> impl Iterator<Item = Vec<Point>> + '_ {
    region.rings().filter(|ring| signed_area(ring) > 0.0)
}

/// Twice the area of a ring; positive if it runs clockwise as seen.
pub(crate) fn signed_area(ring: &[Point]) -> f64 {
    let ends = ring.iter().skip(1).chain(ring.first());
    ring.iter().zip(ends).map(|(a, b)| (*a - ring[0]).cross(*b - ring[0])).sum()
}

/// The area that a path fills, in millimetres.
pub(crate) fn filled(
    path: &tiny_skia_path::Path,
    rule: FillRule,
    to_mm: Affine,
    tolerance: f64,
) -> Result<Region, SvgError> {
    // Checked before any curve is drawn: one of absurd size would become a great many chords.
    check_size(path, 0.0, to_mm)?;
    let at = |point| in_mm(point, to_mm);
    let mut pen = Pen::new(tolerance);
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(point) => pen.move_to(at(point)),
            PathSegment::LineTo(point) => pen.line_to(at(point)),
            PathSegment::QuadTo(control, end) => pen.quadratic_to(at(control), at(end)),
            PathSegment::CubicTo(first, second, end) => pen.cubic_to(at(first), at(second), at(end)),
            PathSegment::Close => pen.close(),
        }
    }
    let rings = pen.finish();
    let rings = rings.iter().map(Vec::as_slice);
    Ok(match rule {
        FillRule::NonZero => Region::from_rings(rings),
        FillRule::EvenOdd => Region::from_rings_even_odd(rings),
    })
}

/// Refuses a path with points, control points included, too far out; `reach` is added to all sides, in path units.
fn check_size(path: &tiny_skia_path::Path, reach: f64, to_mm: Affine) -> Result<(), SvgError> {
    let reach = reach * scale_of(to_mm);
    let fits = |point: &tiny_skia_path::Point| {
        let point = in_mm(*point, to_mm);
        point.x.abs().max(point.y.abs()) + reach <= MOST_COORDINATE
    };
    if path.points().iter().all(fits) { Ok(()) } else { Err(SvgError::TooLarge) }
}

fn in_mm(point: tiny_skia_path::Point, to_mm: Affine) -> Point {
    to_mm * Point::new(f64::from(point.x), f64::from(point.y))
}

/// How much longer a length becomes at most.
fn scale_of(to_mm: Affine) -> f64 {
    let [a, b, c, d, _, _] = to_mm.as_coeffs();
    (a * a + b * b + c * c + d * d).sqrt()
}

/// The outline of a stroke in the path's own units; nothing if it has no width.
fn stroked(
    path: &tiny_skia_path::Path,
    stroke: &Stroke,
    to_mm: Affine,
    tolerance: f64,
) -> Result<Option<tiny_skia_path::Path>, SvgError> {
    let mut stroke = stroke.to_tiny_skia();
    check_size(path, f64::from(stroke.width), to_mm)?;
    stroke.dash = None;
    // The library's stroker works within about a quarter of a unit; the scale says how many of its units a unit here is.
    Ok(path.stroke(&stroke, (scale_of(to_mm) / (4.0 * tolerance)) as f32))
}

pub(crate) fn affine(transform: Transform) -> Affine {
    let Transform { sx, kx, ky, sy, tx, ty } = transform;
    Affine::new([sx, ky, kx, sy, tx, ty].map(f64::from))
}
