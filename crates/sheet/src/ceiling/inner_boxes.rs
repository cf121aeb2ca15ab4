//! Upright boxes inside a region: for every width, the highest that is found.
//!
//! The region is cut into columns. The stretches of a column that no edge enters, and that start inside, are inside over
//! the whole column; a box inside is a run of columns with a stretch that all of them have. So every box found lies
//! inside, and those missed are narrower than a column.

use kurbo::{Point, Rect};

use super::hull::edges;
use super::points::bounds;

/// How many columns the width is cut into. The first and last are halved so many times towards the side, where round
/// corners make a difference.
const COLUMNS: u32 = 48;
const HALVINGS: u32 = 4;

/// How many boxes are kept.
const MOST_BOXES: usize = 64;

/// How far from its sides a column starts to count, in millimetres, so that an edge along a side does not enter it.
const HAIR: f64 = 1e-5;

/// A stretch of a column, from its top to its bottom.
type Stretch = (f64, f64);

/// Boxes inside the rings (outer ones and holes), each wider and lower than the one before.
pub fn inner_boxes(rings: &[Vec<Point>]) -> Vec<Rect> {
    let around = bounds(&rings.concat());
    let near = (0..HALVINGS).map(|i| 1.0 / f64::from(1u32 << (HALVINGS - i)));
    let half: Vec<f64> = [0.0].into_iter().chain(near).chain((1..=COLUMNS / 2).map(f64::from)).collect();
    let other = half.iter().rev().skip(1).map(|x| f64::from(COLUMNS) - x);
    let width = around.width() / f64::from(COLUMNS);
    let sides: Vec<f64> = half.iter().copied().chain(other).map(|x| around.x0 + width * x).collect();
    let columns: Vec<Vec<Stretch>> =
        sides.windows(2).map(|sides| free_stretches(rings, sides[0] + HAIR, sides[1] - HAIR)).collect();
    let mut found: Vec<Rect> = Vec::new();
    for start in 0..columns.len() {
        for &first in &columns[start] {
            let mut common = first;
            for (end, column) in columns.iter().enumerate().skip(start) {
                let Some(shared) = longest_shared(common, column) else { break };
                common = shared;
                found.push(Rect::new(sides[start] + HAIR, common.0, sides[end + 1] - HAIR, common.1));
            }
        }
    }
    // A box that is no higher than a wider one says nothing.
    found.retain(|rect| rect.width() > HAIR);
    found.sort_by(|a, b| b.width().total_cmp(&a.width()).then(b.height().total_cmp(&a.height())));
    let mut boxes: Vec<Rect> = Vec::new();
    for rect in found {
        if boxes.last().is_none_or(|wider| rect.height() > wider.height()) {
            boxes.push(rect);
        }
    }
    boxes.reverse();
    let step = boxes.len().div_ceil(MOST_BOXES).max(1);
    // Counted from the widest.
    let count = boxes.len();
    boxes
        .into_iter()
        .enumerate()
        .filter(|(i, _)| (count - 1 - i).is_multiple_of(step))
        .map(|(_, rect)| rect)
        .collect()
}

fn longest_shared(stretch: Stretch, others: &[Stretch]) -> Option<Stretch> {
    others
        .iter()
        .map(|other| (stretch.0.max(other.0), stretch.1.min(other.1)))
        .filter(|shared| shared.1 > shared.0)
        .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
}

/// The stretches between `x0` and `x1` that lie inside all the way across.
fn free_stretches(rings: &[Vec<Point>], x0: f64, x1: f64) -> Vec<Stretch> {
    if x0 >= x1 {
        return Vec::new();
    }
    let mut taken: Vec<Stretch> = Vec::new();
    let middle = (x0 + x1) / 2.0;
    // Where edges cross the middle of the column, to tell inside from outside.
    let mut crossings: Vec<f64> = Vec::new();
    for (a, b) in rings.iter().flat_map(|ring| edges(ring)) {
        if a.x.max(b.x) < x0 || a.x.min(b.x) > x1 {
            continue;
        }
        let y_at = |x: f64| if a.x == b.x { a.y } else { a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y) };
        let ends = if a.x == b.x { [a.y, b.y] } else { [a.x, b.x].map(|x| y_at(x.clamp(x0, x1))) };
        taken.push((ends[0].min(ends[1]) - HAIR, ends[0].max(ends[1]) + HAIR));
        if (a.x > middle) != (b.x > middle) {
            crossings.push(y_at(middle));
        }
    }
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = Vec::new();
    let mut reached = f64::INFINITY;
    for (top, bottom) in taken {
        if top > reached {
            let inside = crossings.iter().filter(|&&y| y < (reached + top) / 2.0).count() % 2 == 1;
            if inside {
                free.push((reached, top));
            }
        }
        reached = if reached.is_finite() { reached.max(bottom) } else { bottom };
    }
    free
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;

    use super::*;

    fn boxes(outline: &stickleaf_outline::Outline) -> Vec<Rect> {
        inner_boxes(&[outline.points().to_vec()])
    }

    #[test]
    fn a_box_holds_itself() {
        let found = boxes(&shapes::rectangle(30.0, 20.0));
        assert_eq!(found.len(), 1);
        assert!((found[0].width() - 30.0).abs() < 1e-4 && (found[0].height() - 20.0).abs() < 1e-4);
    }

    #[test]
    fn boxes_in_a_disc_have_their_corners_on_it() {
        for found in boxes(&shapes::disc(10.0, 360)) {
            let across = (found.width() * found.width() + found.height() * found.height()).sqrt();
            assert!(across <= 20.0 + 1e-3, "{found:?}");
            // A column may be lost at either end.
            assert!(across > 18.5, "{found:?}");
        }
    }

    #[test]
    fn boxes_lie_inside_whatever_the_shape() {
        for outline in
            [shapes::c(20.0, 4.0), shapes::comb(4, 2.0), shapes::star(5, 12.0, 5.0), shapes::blob(3, 15.0)]
        {
            let found = boxes(&outline);
            assert!(!found.is_empty());
            for rect in found {
                let corners =
                    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
                let drawn = stickleaf_outline::Region::from_rings([&corners.map(Point::from)[..]]);
                let beyond = drawn.difference(&stickleaf_outline::Region::of(&outline));
                assert!(beyond.area() < 1e-4, "{} of {rect:?}", beyond.area());
            }
        }
        // The tall box along the back of the C, and the wide one along an arm.
        let back = boxes(&shapes::c(20.0, 4.0));
        assert!((back[0].height() - 20.0).abs() < 1e-4 && back[0].width() > 3.7, "{back:?}");
        assert!(back.last().is_some_and(|arm| arm.width() > 19.9 && arm.height() > 3.99));
    }
}
