//! What a drawn box touches.

use kurbo::{Point, Rect};
use stickleaf_outline::Outline;

/// Whether an outline reaches into a box.
pub(crate) fn touches(line: &Outline, within: Rect) -> bool {
    if line.bounds().intersect(within).is_zero_area() {
        return false;
    }
    within.contains_rect(line.bounds())
        || line.points().iter().any(|&point| within.contains(point))
        || line.contains(within.center())
        || line.edges().any(|(start, end)| crosses_box(start, end, within))
}

/// Whether a segment meets a box, found by cutting it at the box's sides.
///
/// Source: Y.-D. Liang and B. Barsky, "A new concept and method for line clipping", ACM Transactions on Graphics 3
/// (1984).
fn crosses_box(start: Point, end: Point, within: Rect) -> bool {
    let along = end - start;
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (step, low, high) in [
        (along.x, within.x0 - start.x, within.x1 - start.x),
        (along.y, within.y0 - start.y, within.y1 - start.y),
    ] {
        if step == 0.0 {
            if low > 0.0 || high < 0.0 {
                return false;
            }
            continue;
        }
        let (a, b) = (low / step, high / step);
        first = first.max(a.min(b));
        last = last.min(a.max(b));
    }
    first <= last
}
