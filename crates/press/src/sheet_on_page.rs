//! Where a sheet lies on a page of label stock.

use kurbo::{Affine, Rect};
use stickleaf_sheet::Sheet;
use stickleaf_shop::page::{Plan, PrintedPage};

/// A sheet on a page, in millimetres from the page's top left corner.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SheetOnPage {
    /// Of which design, by its position; 0 where there is only one.
    pub design: usize,
    /// Its left edge.
    pub x: f64,
    /// Its top edge.
    pub y: f64,
    /// Whether it is turned by a quarter, clockwise as seen.
    pub is_turned: bool,
}

impl SheetOnPage {
    /// The sheets of a page plan, all of one design.
    pub fn all_of(plan: &Plan) -> Vec<SheetOnPage> {
        let placed = plan.positions.iter();
        placed.map(|at| SheetOnPage { design: 0, x: at.x, y: at.y, is_turned: at.is_turned }).collect()
    }

    /// The sheets of one of the pages that several designs share.
    pub fn all_of_several(page: &PrintedPage) -> Vec<SheetOnPage> {
        let placed = page.sheets.iter();
        placed
            .map(|sheet| SheetOnPage {
                design: sheet.design,
                x: sheet.area.x0,
                y: sheet.area.y0,
                is_turned: sheet.is_turned,
            })
            .collect()
    }

    /// What the card takes of the page.
    pub(crate) fn card(&self, sheet: &Sheet) -> Rect {
        let (width, height) =
            if self.is_turned { (sheet.height, sheet.width) } else { (sheet.width, sheet.height) };
        Rect::new(self.x, self.y, self.x + width, self.y + height)
    }

    /// The way from the sheet's millimetres to the page's.
    pub(crate) fn to_page(self, sheet: &Sheet) -> Affine {
        if self.is_turned {
            // A quarter clockwise about the sheet's corner, which then lies at the top right.
            Affine::new([0.0, 1.0, -1.0, 0.0, self.x + sheet.height, self.y])
        } else {
            Affine::translate((self.x, self.y))
        }
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;

    #[test]
    fn a_turned_sheet_lies_in_its_card() {
        let sheet = Sheet { width: 100.0, height: 150.0, ..Sheet::default() };
        let placed = SheetOnPage { design: 0, x: 20.0, y: 30.0, is_turned: true };
        let card = placed.card(&sheet);
        assert_eq!(card, Rect::new(20.0, 30.0, 170.0, 130.0));
        let way = placed.to_page(&sheet);
        // Clockwise by a quarter: what was the top edge is the right one.
        assert_eq!(way * Point::new(0.0, 0.0), Point::new(170.0, 30.0));
        assert_eq!(way * Point::new(100.0, 0.0), Point::new(170.0, 130.0));
        assert_eq!(way * Point::new(100.0, 150.0), Point::new(20.0, 130.0));
    }
}
