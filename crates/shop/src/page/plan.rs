//! Identical sheets on a page: the plan with the most of them, and the proof that there cannot be more.

use kurbo::Rect;

use crate::page::pallet::{self, Effort, Pallet, Placed};
use crate::page::stock::{PageError, Stock, length};

/// Where a sheet lies on a page: its top left corner in millimetres from the page's, and whether it is turned by a quarter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
    /// Whether it lies on its side.
    pub is_turned: bool,
}

/// How identical sheets lie on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The page that it is for.
    pub stock: Stock,
    /// The part of the page that can be printed and cut.
    pub room: Rect,
    /// Width of a sheet in millimetres.
    pub sheet_width: f64,
    /// Height of a sheet in millimetres.
    pub sheet_height: f64,
    /// Where each sheet lies, row by row. All of them together lie in the middle of the room.
    pub positions: Vec<Position>,
    /// No plan for this page holds more; proved.
    pub proven_most: usize,
}

impl Plan {
    /// Whether it is proved that no plan holds more than this one.
    pub fn is_proved(&self) -> bool {
        self.positions.len() == self.proven_most
    }

    /// What a sheet takes of the page: left, top, right and bottom.
    pub fn sheet(&self, position: &Position) -> Rect {
        let (width, height) = if position.is_turned {
            (self.sheet_height, self.sheet_width)
        } else {
            (self.sheet_width, self.sheet_height)
        };
        Rect::new(position.x, position.y, position.x + width, position.y + height)
    }

    /// The area of the page that is no sheet, in square millimetres.
    pub fn waste(&self) -> f64 {
        let sheets = self.positions.len() as f64 * self.sheet_width * self.sheet_height;
        self.stock.width * self.stock.height - sheets
    }

    /// That area as a share of the page, 0 to 1.
    pub fn waste_share(&self) -> f64 {
        self.waste() / (self.stock.width * self.stock.height)
    }
}

/// The plan with the most sheets of this size on the page, in millimetres.
///
/// The same page and sheet give the same plan. Sheets count as rectangles: round corners are cut within them. Where the
/// exact search does not come to an end, which is rare below a hundred sheets, the plan says that it may not be the best
/// ([`Plan::is_proved`]).
///
/// Errors: lengths that are none, or a sheet that does not fit at all.
pub fn plan(stock: &Stock, sheet_width: f64, sheet_height: f64) -> Result<Plan, PageError> {
    let room = stock.room()?;
    let sheets = Grown::new(stock, &room, sheet_width, sheet_height)?;
    let filled = pallet::fill(&sheets.pallet(), &Effort::USUAL);
    if filled.boxes.is_empty() {
        let (width, height) = (room.width(), room.height());
        return Err(PageError::SheetTooLarge { sheet_width, sheet_height, width, height });
    }
    let positions = sheets.in_the_middle(&filled.boxes, &room);
    Ok(Plan { stock: *stock, room, sheet_width, sheet_height, positions, proven_most: filled.most })
}

/// Whether so many sheets of this size lie on the page; nothing if the search did not come to an end.
pub(crate) fn holds(stock: &Stock, sheet: (f64, f64), count: usize) -> Result<Option<bool>, PageError> {
    let sheets = Grown::new(stock, &stock.room()?, sheet.0, sheet.1)?;
    Ok(pallet::holds(&sheets.pallet(), count, &Effort::SMALL))
}

/// Sheets and room in whole micrometres, both larger by the gap, so that the sheets may lie edge to edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Grown {
    pub room: (i64, i64),
    pub sheet: (i64, i64),
    pub gap: i64,
}

impl Grown {
    /// What is between two micrometres is taken from the room, never from the sheet.
    pub(crate) fn new(stock: &Stock, room: &Rect, width: f64, height: f64) -> Result<Grown, PageError> {
        length("the sheet's width", width)?;
        length("the sheet's height", height)?;
        // A thousandth of a micrometre is the trace of arithmetic in inches, and no length.
        let floor = |mm: f64| (mm * 1000.0 + 1e-3).floor() as i64;
        let ceil = |mm: f64, least: f64| (mm * 1000.0 - 1e-3).ceil().max(least) as i64;
        let gap = ceil(stock.gap, 0.0);
        Ok(Grown {
            room: (floor(room.width()) + gap, floor(room.height()) + gap),
            sheet: (ceil(width, 1.0) + gap, ceil(height, 1.0) + gap),
            gap,
        })
    }

    fn pallet(&self) -> Pallet {
        Pallet::new(self.room.0, self.room.1, self.sheet.0, self.sheet.1)
    }

    /// Whether a sheet fits at all.
    pub(crate) fn fits(&self) -> bool {
        let ((width, height), (a, b)) = (self.room, self.sheet);
        (a <= width && b <= height) || (b <= width && a <= height)
    }

    /// Where the top left corner of these boxes comes to, in micrometres on the page, when all of them lie in the middle of
    /// the room.
    pub(crate) fn corner<'a>(
        &self,
        boxes: impl Iterator<Item = &'a Placed> + Clone,
        room: &Rect,
    ) -> (i64, i64) {
        let right = boxes.clone().map(|placed| placed.x + placed.width).max().unwrap_or(0) - self.gap;
        let bottom = boxes.map(|placed| placed.y + placed.height).max().unwrap_or(0) - self.gap;
        let before = |start: f64, length: f64, used: i64| {
            ((start + (length - used as f64 / 1000.0) / 2.0) * 1000.0).round() as i64
        };
        (before(room.x0, room.width(), right), before(room.y0, room.height(), bottom))
    }

    /// The boxes in the middle of the room, row by row.
    fn in_the_middle(&self, boxes: &[Placed], room: &Rect) -> Vec<Position> {
        let mut boxes = boxes.to_vec();
        boxes.sort_by_key(|placed| (placed.y, placed.x));
        let (left, top) = self.corner(boxes.iter(), room);
        let position = |placed: &Placed| Position {
            x: (left + placed.x) as f64 / 1000.0,
            y: (top + placed.y) as f64 / 1000.0,
            is_turned: (placed.width, placed.height) != self.sheet,
        };
        boxes.iter().map(position).collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn on(width: f64, height: f64, margin: f64, gap: f64) -> Stock {
        Stock { width, height, printer_margin: margin, reach: None, gap }
    }

    #[test]
    fn two_sheets_lie_on_a_letter_page_and_four_a6_on_a4() {
        // Two 4.25 x 6.5 in sheets on one Letter page with ordinary margins: common practice, no source.
        let letter = plan(&on(215.9, 279.4, 6.35, 0.0), 4.25 * 25.4, 6.5 * 25.4).unwrap();
        assert_eq!((letter.positions.len(), letter.is_proved()), (2, true));
        // ISO 216: A6 is a quarter of A4, and with no margin four lie edge to edge.
        let a4 = plan(&on(210.0, 297.0, 0.0, 0.0), 105.0, 148.0).unwrap();
        assert_eq!((a4.positions.len(), a4.is_proved()), (4, true));
        assert!((a4.waste() - 210.0).abs() < 1e-9, "297 is one more than twice 148");
    }

    #[test]
    fn the_sheets_lie_in_the_middle_of_the_room() {
        let plan = plan(&on(210.0, 297.0, 5.0, 3.0), 90.0, 130.0).unwrap();
        let all =
            plan.positions.iter().map(|position| plan.sheet(position)).reduce(|a, b| a.union(b)).unwrap();
        assert_eq!(plan.positions.len(), 4);
        assert!((all.center() - plan.room.center()).hypot2() < 1e-18);
        assert!((all.width() - 183.0).abs() < 1e-9 && (all.height() - 263.0).abs() < 1e-9);
    }

    #[test]
    fn a_sheet_that_is_too_large_is_refused() {
        let refused = plan(&on(210.0, 297.0, 5.0, 0.0), 201.0, 250.0).unwrap_err();
        assert!(refused.to_string().contains("200 x 287 mm"), "{refused}");
        assert!(plan(&on(210.0, 297.0, 5.0, 0.0), 287.0, 200.0).is_ok(), "it may lie on its side");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]
        #[test]
        fn sheets_keep_their_gap_and_the_room(
            width in 40.0..230.0f64, height in 40.0..300.0f64, a in 15.0..90.0f64, b in 15.0..90.0f64, gap in 0.0..6.0f64,
        ) {
            let stock = on(width, height, 4.0, gap);
            if let Ok(plan) = plan(&stock, a, b) {
                let sheets: Vec<Rect> = plan.positions.iter().map(|position| plan.sheet(position)).collect();
                prop_assert!(plan.proven_most >= sheets.len());
                for (i, sheet) in sheets.iter().enumerate() {
                    let room = plan.room.inflate(1e-6, 1e-6);
                    prop_assert!(room.contains_rect(*sheet), "{:?} in {:?}", sheet, room);
                    for other in &sheets[..i] {
                        let across = (sheet.x0 - other.x1).max(other.x0 - sheet.x1);
                        let down = (sheet.y0 - other.y1).max(other.y0 - sheet.y1);
                        prop_assert!(across.max(down) >= gap - 1e-6);
                    }
                }
            }
        }
    }
}
