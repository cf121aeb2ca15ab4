//! Separate drawings from the parts that were found in the artwork.

use std::collections::HashMap;

use kurbo::{Point, Rect};
use stickleaf_outline::{GRID, Outline, PixelBounds, Placement, SEAM_WIDTH, bridged, joined, thinned};

use crate::note::Speck;

/// One drawing of the artwork: what becomes a sticker.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// What it is called, from the file; no two drawings of an import have the same name.
    pub name: String,
    /// The line round it in millimetres, (0, 0) at the middle of its bounds; on the micrometre grid.
    pub outline: Outline,
    /// Where that middle lies in the picture, in millimetres.
    pub centre: Point,
    /// How much of it is covered: of a picture the covered pixels, holes not counted; of an SVG the area within the
    /// lines of its parts.
    pub covered_mm2: f64,
    /// The pixels it lies in; nothing for an SVG.
    pub pixel_bounds: Option<PixelBounds>,
}

/// A connected part of the artwork, before it is known which sticker it belongs to.
#[derive(Clone, Debug)]
pub(crate) struct Part {
    /// The line round it in the picture's millimetres.
    pub outline: Outline,
    /// Its covered area in square millimetres.
    pub covered_mm2: f64,
    /// The pixels it lies in, if it comes from a picture.
    pub pixel_bounds: Option<PixelBounds>,
    /// Whom it belongs to: only parts of one owner are joined by their border. Parts that touch always are.
    pub owner: usize,
}

/// Parts that make one sticker.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    /// The line round all of them in the picture's millimetres.
    pub outline: Outline,
    /// Which parts they are.
    pub parts: Vec<usize>,
}

/// The parts sorted into stickers, in reading order; those too small are specks.
///
/// Parts that touch, but for a seam, or lie in another are one. What is then shorter than `least_size` on both sides is a speck. The rest
/// of one owner is joined if a border of `border` surrounds it; nothing is joined if that is `None`.
///
/// What touches is put together first and thinned out within `detail` only then, or shapes that share an edge would
/// come apart. Outlines that are thin already have a detail of 0.
pub(crate) fn grouped(
    parts: &[Part],
    detail: f64,
    least_size: f64,
    border: Option<f64>,
) -> (Vec<Group>, Vec<Speck>) {
    let outlines: Vec<Outline> = parts.iter().map(|part| part.outline.clone()).collect();
    let mut islands: Vec<(usize, Group)> = Vec::new();
    let mut specks = Vec::new();
    for members in joined(&outlines, SEAM_WIDTH / 2.0) {
        let Some(mut group) = group_of(&outlines, members) else { continue };
        group.outline = fewer_points(group.outline, detail);
        let bounds = group.outline.bounds();
        let size = bounds.width().max(bounds.height());
        if size < least_size {
            specks.push(Speck { at: bounds.center(), size });
            continue;
        }
        let largest = group.parts.iter().max_by(|&&a, &&b| outlines[a].area().total_cmp(&outlines[b].area()));
        islands.push((largest.map_or(0, |&part| parts[part].owner), group));
    }
    let mut owners: Vec<usize> = islands.iter().map(|(owner, _)| *owner).collect();
    owners.sort_unstable();
    owners.dedup();
    let mut groups = Vec::new();
    for owner in owners {
        let own: Vec<&Group> =
            islands.iter().filter(|(other, _)| *other == owner).map(|(_, group)| group).collect();
        let lines: Vec<Outline> = own.iter().map(|group| group.outline.clone()).collect();
        for members in joined(&lines, border.unwrap_or(0.0)) {
            let parts = members.iter().flat_map(|&island| own[island].parts.iter().copied()).collect();
            groups.extend(group_of(&lines, members).map(|group| Group { parts, ..group }));
        }
    }
    (in_reading_order(groups), specks)
}

fn group_of(outlines: &[Outline], members: Vec<usize>) -> Option<Group> {
    let lines: Vec<Outline> = members.iter().map(|&part| outlines[part].clone()).collect();
    bridged(&lines).map(|outline| Group { outline, parts: members })
}

fn fewer_points(line: Outline, detail: f64) -> Outline {
    if detail <= 0.0 {
        return line;
    }
    let thin = |share: f64| Outline::new(thinned(line.points(), detail * share)).ok();
    thin(1.0).or_else(|| thin(0.25)).unwrap_or(line)
}

/// Row by row from the top, each from left to right.
///
/// The highest drawing left opens a row; whatever has its middle no lower than that one's lower edge belongs to it.
fn in_reading_order(groups: Vec<Group>) -> Vec<Group> {
    let middle = |group: &Group| group.outline.bounds().center();
    let mut left = groups;
    left.sort_by(|a, b| middle(a).y.total_cmp(&middle(b).y));
    let mut ordered = Vec::with_capacity(left.len());
    while let Some(first) = left.first() {
        let edge = first.outline.bounds().y1;
        let end = left.iter().position(|group| middle(group).y > edge).unwrap_or(left.len());
        let mut row: Vec<Group> = left.drain(..end).collect();
        row.sort_by(|a, b| middle(a).x.total_cmp(&middle(b).x));
        ordered.append(&mut row);
    }
    ordered
}

/// The outline moved so that the middle of its bounds is (0, 0), and where that middle was; both on the grid.
pub(crate) fn centred(outline: &Outline) -> (Outline, Point) {
    let Rect { x0, y0, x1, y1 } = outline.bounds();
    let on_grid = |mm: f64| (mm / GRID).round() / (1.0 / GRID).round();
    let centre = Point::new(on_grid((x0 + x1) / 2.0), on_grid((y0 + y1) / 2.0));
    let moved = outline.placed(&Placement::at(-centre.x, -centre.y));
    // Moved by whole micrometres, the points are at most a rounding away from the grid.
    let snapped = Outline::new(moved.points().iter().copied());
    (snapped.unwrap_or(moved), centre)
}

/// The names with numbers behind those that several drawings share, so that all differ: `star`, `star` becomes
/// `star 1`, `star 2`.
pub(crate) fn numbered(names: &[String]) -> Vec<String> {
    let mut counts: HashMap<&str, usize> = HashMap::new();
    for name in names {
        *counts.entry(name).or_default() += 1;
    }
    let mut latest: HashMap<&str, usize> = HashMap::new();
    let mut unique = Vec::with_capacity(names.len());
    for name in names {
        let mut candidate = name.clone();
        while counts[name.as_str()] > 1 && counts.contains_key(candidate.as_str()) {
            let number = latest.entry(name).or_default();
            *number += 1;
            candidate = format!("{name} {number}");
        }
        unique.push(candidate);
    }
    unique
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;

    fn part(x: f64, y: f64, side: f64, owner: usize) -> Part {
        let outline = shapes::square(side).placed(&Placement::at(x, y));
        Part { covered_mm2: outline.area(), outline, pixel_bounds: None, owner }
    }

    fn members(parts: &[Part], border: Option<f64>) -> Vec<Vec<usize>> {
        grouped(parts, 0.0, 1.0, border).0.into_iter().map(|group| group.parts).collect()
    }

    #[test]
    fn the_border_joins_parts_of_one_owner_only() {
        let parts = [part(0.0, 0.0, 4.0, 0), part(6.0, 0.0, 4.0, 0), part(12.0, 0.0, 4.0, 1)];
        assert_eq!(members(&parts, Some(1.5)), [vec![0, 1], vec![2]]);
        assert_eq!(members(&parts, None), [vec![0], vec![1], vec![2]]);
    }

    #[test]
    fn parts_that_touch_are_one_whoever_owns_them() {
        let parts = [part(0.0, 0.0, 10.0, 0), part(2.0, 2.0, 1.5, 1), part(5.0, 0.0, 4.0, 2)];
        assert_eq!(members(&parts, None), [vec![0, 1, 2]]);
    }

    #[test]
    fn a_speck_is_small_and_alone() {
        let parts = [part(0.0, 0.0, 4.0, 0), part(2.0, 0.0, 0.5, 0), part(9.0, 3.0, 0.5, 0)];
        let (groups, specks) = grouped(&parts, 0.0, 1.0, Some(1.5));
        assert_eq!(groups.len(), 1);
        assert_eq!(specks, [Speck { at: Point::new(9.0, 3.0), size: 0.5 }]);
    }

    #[test]
    fn reading_order_is_by_rows() {
        // The second of the upper row sits a little higher than the first.
        let parts = [
            part(20.0, 19.0, 6.0, 0),
            part(10.0, 9.0, 6.0, 0),
            part(0.0, 10.0, 6.0, 0),
            part(0.0, 21.0, 6.0, 0),
        ];
        assert_eq!(members(&parts, None), [vec![2], vec![1], vec![3], vec![0]]);
    }

    #[test]
    fn the_middle_of_the_bounds_becomes_the_origin() {
        let (outline, centre) = centred(&part(7.25, 3.0, 4.001, 0).outline);
        let bounds = outline.bounds();
        assert!(
            (bounds.x0 + bounds.x1).abs() <= GRID * 1.000_1
                && (bounds.y0 + bounds.y1).abs() <= GRID * 1.000_1
        );
        assert!((centre.x - 7.25).abs() <= GRID && (centre.y - 3.0).abs() <= GRID);
    }

    #[test]
    fn shared_names_are_numbered_and_stay_different() {
        let names = ["star", "moon", "star", "star 1"].map(String::from);
        assert_eq!(numbered(&names), ["star 2", "moon", "star 3", "star 1"]);
    }
}
