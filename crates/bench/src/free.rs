//! The part of a sheet that is left to stickers, cut into upright rectangles for ways to pack that know nothing else.

use geo::{Area, BooleanOps, BoundingRect, Polygon};
use kurbo::Rect;
use stickleaf_sheet::{Layout, Zone};

use crate::chance::Chance;
use crate::picture::polygon;

/// Into how many bands a zone that is no rectangle is cut, so that little room is lost beside round ones.
const BANDS: usize = 4;

/// How many of the largest rectangles are worth being taken next.
const CHOICE: usize = 4;

/// Ways to cut what margin and zones leave free into rectangles, all different, at most `count` of them.
///
/// The rectangles of one way are at least the spacing apart, so what is packed in one need not look at another. Those
/// with a side below `least` millimetres are left out. The first way always takes the largest rectangle that is left.
pub fn ways(layout: &Layout, least: f64, count: usize, chance: &mut Chance) -> Vec<Vec<Rect>> {
    let margin = layout.rules.margin;
    let bounds = Rect::new(margin, margin, layout.sheet.width - margin, layout.sheet.height - margin);
    let zones: Vec<Rect> = layout.zones().iter().flat_map(boxes).collect();
    let mut ways: Vec<Vec<Rect>> = Vec::new();
    for attempt in 0..count {
        let mut taken = zones.clone();
        let mut way = Vec::new();
        loop {
            let mut free = largest_free(bounds, &taken);
            free.retain(|rect| rect.width() >= least && rect.height() >= least);
            free.sort_by(|a, b| b.area().total_cmp(&a.area()));
            free.truncate(CHOICE);
            if free.is_empty() {
                break;
            }
            let chosen = free[if attempt == 0 { 0 } else { chance.below(free.len()) }];
            taken.push(chosen.inflate(layout.rules.spacing, layout.rules.spacing));
            way.push(chosen);
        }
        if !ways.contains(&way) {
            ways.push(way);
        }
    }
    ways
}

/// Boxes that cover a zone and its clearance.
fn boxes(zone: &Zone) -> Vec<Rect> {
    let whole = polygon(&zone.outline);
    let bounds = zone.outline.bounds();
    let bands = if whole.unsigned_area() > 0.999 * bounds.area() { 1 } else { BANDS };
    let height = bounds.height() / bands as f64;
    let band = |index: usize| {
        let (y0, y1) = (bounds.y0 + index as f64 * height, bounds.y0 + (index + 1) as f64 * height);
        let corners = [(bounds.x0, y0), (bounds.x1, y0), (bounds.x1, y1), (bounds.x0, y1)];
        let part = whole.intersection(&Polygon::new(corners.to_vec().into(), Vec::new())).bounding_rect()?;
        let rect = Rect::new(part.min().x, part.min().y, part.max().x, part.max().y);
        // The library's own rounding is far below a hundredth of a micrometre.
        Some(rect.inflate(zone.clearance + 1e-5, zone.clearance + 1e-5))
    };
    (0..bands).filter_map(band).collect()
}

/// The empty rectangles within `bounds` that cannot be made larger.
fn largest_free(bounds: Rect, taken: &[Rect]) -> Vec<Rect> {
    let inside = |x: &f64| *x > bounds.x0 && *x < bounds.x1;
    let mut edges: Vec<f64> = taken.iter().flat_map(|rect| [rect.x0, rect.x1]).filter(inside).collect();
    edges.extend([bounds.x0, bounds.x1]);
    edges.sort_by(f64::total_cmp);
    edges.dedup();
    let mut free: Vec<Rect> = Vec::new();
    for (i, &x0) in edges.iter().enumerate() {
        for &x1 in &edges[i + 1..] {
            let mut across: Vec<&Rect> = taken.iter().filter(|rect| rect.x0 < x1 && rect.x1 > x0).collect();
            across.sort_by(|a, b| a.y0.total_cmp(&b.y0));
            let mut y = bounds.y0;
            for rect in across {
                if rect.y0 > y {
                    free.push(Rect::new(x0, y, x1, rect.y0.min(bounds.y1)));
                }
                y = y.max(rect.y1);
            }
            if y < bounds.y1 {
                free.push(Rect::new(x0, y, x1, bounds.y1));
            }
        }
    }
    let holds = |outer: &Rect, inner: &Rect| outer != inner && outer.union(*inner) == *outer;
    let all = free.clone();
    free.retain(|rect| !all.iter().any(|other| holds(other, rect)));
    free
}

#[cfg(test)]
mod tests {
    use stickleaf_sheet::{STYLES, Style};

    use super::*;

    fn sheet(style: Style) -> Layout {
        let mut layout = Layout::default();
        let background = style.background(&layout.sheet, &layout.rules);
        layout.background = Some(background.name.clone());
        layout.backgrounds = vec![background];
        layout
    }

    #[test]
    fn free_rectangles_are_those_of_the_drawing() {
        let bounds = Rect::new(0.0, 0.0, 10.0, 10.0);
        assert_eq!(largest_free(bounds, &[]), [bounds]);
        let mut free = largest_free(bounds, &[Rect::new(4.0, 4.0, 6.0, 12.0)]);
        free.sort_by(|a, b| a.area().total_cmp(&b.area()).then(a.x0.total_cmp(&b.x0)));
        assert_eq!(
            free,
            [Rect::new(0.0, 0.0, 4.0, 10.0), Rect::new(0.0, 0.0, 10.0, 4.0), Rect::new(6.0, 0.0, 10.0, 10.0),]
        );
    }

    #[test]
    fn rectangles_keep_clear_of_zones_margin_and_each_other() {
        for style in STYLES {
            let layout = sheet(style);
            let ways = ways(&layout, 10.0, 30, &mut Chance::new(1));
            assert!(!ways.is_empty() && ways.iter().all(|way| !way.is_empty()), "{style:?}");
            for way in &ways {
                for (index, rect) in way.iter().enumerate() {
                    assert!(rect.x0 >= 4.0 && rect.y1 <= 144.0 && rect.width() >= 10.0, "{style:?} {rect:?}");
                    let apart = rect.inflate(1.999, 1.999);
                    assert!(way[index + 1..].iter().all(|other| apart.intersect(*other).is_zero_area()));
                    let near = rect.inflate(0.999, 0.999);
                    for zone in layout.zones() {
                        let corners =
                            [(near.x0, near.y0), (near.x1, near.y0), (near.x1, near.y1), (near.x0, near.y1)];
                        let near = Polygon::new(corners.to_vec().into(), Vec::new());
                        assert!(
                            polygon(&zone.outline).intersection(&near).unsigned_area() < 1e-6,
                            "{style:?}"
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn plain_ground_is_one_rectangle_and_a_scene_has_its_windows() {
        let ways_of = |style: Style| ways(&sheet(style), 10.0, 30, &mut Chance::new(1));
        assert_eq!(ways_of(Style::Plain), [vec![Rect::new(4.0, 4.0, 101.0, 144.0)]]);
        assert!(ways_of(Style::SceneWithWindows).iter().all(|way| way.len() == 3));
        assert!(ways_of(Style::TitleAndMotifs).len() > 3);
    }
}
