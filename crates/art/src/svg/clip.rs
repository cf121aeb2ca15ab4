//! Clip paths: what is visible of what they are put on.

use kurbo::Affine;
use stickleaf_outline::Region;
use usvg::{ClipPath, FillRule, Group, Node};

use crate::svg::SvgError;
use crate::svg::painted::{affine, filled};

/// The area inside a clip path, in millimetres; `to_mm` belongs to the element that it is put on.
///
/// A clip path may be clipped itself, and so may each shape in it. Source: SVG 1.1, section 14.3.5.
pub(crate) fn clip_region(clip: &ClipPath, to_mm: Affine, tolerance: f64) -> Result<Region, SvgError> {
    let region = shapes(clip.root(), to_mm * affine(clip.transform()), tolerance)?;
    match clip.clip_path() {
        Some(outer) => Ok(region.intersection(&clip_region(outer, to_mm, tolerance)?)),
        None => Ok(region),
    }
}

fn shapes(group: &Group, outer: Affine, tolerance: f64) -> Result<Region, SvgError> {
    let to_mm = outer * affine(group.transform());
    let mut region = Region::empty();
    for node in group.children() {
        let part = match node {
            Node::Group(inner) => shapes(inner, to_mm, tolerance)?,
            Node::Path(path) if path.is_visible() => {
                let rule = path.fill().map_or(FillRule::NonZero, usvg::Fill::rule);
                filled(path.data(), rule, to_mm, tolerance)?
            }
            Node::Path(_) | Node::Image(_) | Node::Text(_) => continue,
        };
        region = region.union(&part);
    }
    match group.clip_path() {
        Some(clip) => Ok(region.intersection(&clip_region(clip, to_mm, tolerance)?)),
        None => Ok(region),
    }
}
