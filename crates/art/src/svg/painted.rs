//! What an SVG paints, as filled rings in millimetres, and which element paints it.

use kurbo::{Affine, Point};
use stickleaf_outline::{MOST_COORDINATE, Pen, Region};
use usvg::tiny_skia_path::{self, PathSegment};
use usvg::{FillRule, Group, Node, Stroke, Transform, Tree};

use crate::svg::SvgError;
use crate::svg::clip::clip_region;

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
    let mut painter = Painter { painted: Painted::default(), tolerance };
    painter.group(tree.root(), Affine::scale(mm_per_px), None)?;
    Ok(painter.painted)
}

struct Painter {
    painted: Painted,
    tolerance: f64,
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
            self.patch(&region, element);
        }
        if let Some(stroke) = path.stroke().filter(|stroke| stroke.opacity().get() > 0.0)
            && let Some(outline) = stroked(path.data(), stroke, to_mm, self.tolerance)
        {
            let region = filled(&outline, FillRule::NonZero, to_mm, self.tolerance)?;
            self.patch(&region, element);
        }
        Ok(())
    }

    fn patch(&mut self, region: &Region, element: Option<usize>) {
        let owner = element.map_or(usize::MAX, |element| self.top_of(element));
        let patches = outer_rings(region).map(|ring| Patch { ring, element, owner });
        self.painted.patches.extend(patches);
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
    let at = |point: tiny_skia_path::Point| to_mm * Point::new(f64::from(point.x), f64::from(point.y));
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
    let fits = |point: &Point| point.x.abs() <= MOST_COORDINATE && point.y.abs() <= MOST_COORDINATE;
    if !rings.iter().flatten().all(fits) {
        return Err(SvgError::TooLarge);
    }
    let rings = rings.iter().map(Vec::as_slice);
    Ok(match rule {
        FillRule::NonZero => Region::from_rings(rings),
        FillRule::EvenOdd => Region::from_rings_even_odd(rings),
    })
}

/// The outline of a stroke in the path's own units; nothing if it has no width.
fn stroked(
    path: &tiny_skia_path::Path,
    stroke: &Stroke,
    to_mm: Affine,
    tolerance: f64,
) -> Option<tiny_skia_path::Path> {
    let mut stroke = stroke.to_tiny_skia();
    stroke.dash = None;
    // The library's stroker works within about a quarter of a unit; the scale says how many of its units a unit here is.
    let [a, b, c, d, _, _] = to_mm.as_coeffs();
    let scale = (a * a + b * b).max(c * c + d * d).sqrt() / (4.0 * tolerance);
    path.stroke(&stroke, scale as f32)
}

pub(crate) fn affine(transform: Transform) -> Affine {
    let Transform { sx, kx, ky, sy, tx, ty } = transform;
    Affine::new([sx, ky, kx, sy, tx, ty].map(f64::from))
}
