//! The plainest ways to fill a sheet: rows and columns.

use kurbo::Rect;
use stickleaf_sheet::{Layout, usable_region};

use crate::boxes::choices;

/// The grid of one sticker alone.
#[derive(Clone, Debug, PartialEq)]
pub struct OneKind {
    /// Which sticker.
    pub name: String,
    /// How many copies.
    pub count: usize,
    /// The area inside their cut lines over the usable area, 0 to 1.
    pub density: f64,
}

/// How many cells the best grid has in which every sticker finds room in every cell.
///
/// Cells are squares with the spacing between them; their side is that of the largest bounding square of the set,
/// each sticker turned so that its square is smallest. Each free rectangle has a grid of its own, and the way to cut
/// the free part into rectangles is the best of those given.
pub fn one_cell(layout: &Layout, ways: &[Vec<Rect>]) -> usize {
    let side = |boxes: &Vec<crate::boxes::Boxed>| {
        let sides = boxes.iter().map(|boxed| boxed.bounds.width().max(boxed.bounds.height()));
        sides.fold(f64::INFINITY, f64::min)
    };
    let side = choices(layout).iter().map(side).fold(0.0, f64::max);
    most_cells(layout, ways, side, side)
}

/// The grid of a single sticker that covers most, whichever sticker that is; nothing if none fits.
///
/// Each copy in its own bounding box, upright or in the allowed turn that serves best. Nothing is asked of the others:
/// such a sheet need not hold one of each.
pub fn one_kind(layout: &Layout, ways: &[Vec<Rect>]) -> Option<OneKind> {
    let usable = usable_region(&layout.sheet, &layout.rules, layout.zones()).area();
    let grid = |(index, boxes): (usize, Vec<crate::boxes::Boxed>)| {
        let sticker = &layout.stickers[index];
        let counts =
            boxes.iter().map(|boxed| most_cells(layout, ways, boxed.bounds.width(), boxed.bounds.height()));
        let count = counts.max().unwrap_or(0);
        let area = sticker.cut_line(&layout.rules).area();
        OneKind { name: sticker.name.clone(), count, density: count as f64 * area / usable }
    };
    let grids = choices(layout).into_iter().enumerate().map(grid);
    grids.filter(|grid| grid.count > 0).max_by(|a, b| a.density.total_cmp(&b.density))
}

fn most_cells(layout: &Layout, ways: &[Vec<Rect>], width: f64, height: f64) -> usize {
    let spacing = layout.rules.spacing;
    // A micrometre's thousandth, so that what fits exactly is counted.
    let along = |room: f64, cell: f64| ((room + spacing + 1e-6) / (cell + spacing)).floor() as usize;
    let cells = |rect: &Rect| along(rect.width(), width) * along(rect.height(), height);
    ways.iter().map(|way| way.iter().map(cells).sum()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::shapes;
    use stickleaf_sheet::{Rules, Sheet, Sticker};

    use super::*;
    use crate::chance::Chance;
    use crate::free::ways;

    #[test]
    fn grids_are_worked_by_hand() {
        let layout = Layout {
            sheet: Sheet { width: 52.0, height: 40.0, corner_radius: 0.0, ..Sheet::default() },
            rules: Rules { spacing: 2.0, margin: 3.0, border: 0.0, ..Rules::default() },
            stickers: vec![
                Sticker::new("square", "Square", shapes::square(10.0)),
                Sticker::new("bar", "Bar", shapes::rectangle(22.0, 2.0)),
            ],
            ..Layout::default()
        };
        let ways = ways(&layout, 2.0, 5, &mut Chance::new(1));
        // 46 by 34 mm are free. Cells of 22 mm: two beside each other. Squares: 4 by 3. Bars, 2 by 9 at a pitch of
        // 24 by 4 mm, cover 792 mm² against 1200.
        assert_eq!(one_cell(&layout, &ways), 2);
        let grid = one_kind(&layout, &ways).unwrap();
        assert_eq!((grid.name.as_str(), grid.count), ("Square", 12));
        assert!((grid.density - 1200.0 / (46.0 * 34.0)).abs() < 1e-6);
    }
}
