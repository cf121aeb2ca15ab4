//! Several designs on the fewest pages.
//!
//! Designs of one size are one *class* to the page. `patterns.rs` finds which counts of each class a page holds,
//! `prices.rs` proves how many pages there must be, `cover.rs` chooses how often each pattern is printed, and
//! `share_out.rs` gives the designs their places, on few different pages.
//!
//! Source of the whole: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem",
//! Operations Research 9, 1961; here all patterns are listed, since a page holds few sheets.

mod cover;
mod patterns;
mod prices;
mod share_out;

use kurbo::Rect;

use crate::page::plan::Grown;
use crate::page::stock::{PageError, Stock};
use patterns::{Class, Pattern, patterns};

/// As many sheets of one design can be planned at a time.
pub const MOST_WANTED: u64 = 1_000_000;

/// A design, and how many sheets of it are wanted. Millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WantedSheets {
    /// Width of a sheet.
    pub width: f64,
    /// Height of a sheet.
    pub height: f64,
    /// How many.
    pub count: u64,
}

/// A sheet of one of several designs on a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetOfSeveral {
    /// Which design it is, counted from 0.
    pub design: usize,
    /// What it takes of the page.
    pub area: Rect,
    /// Whether it lies on its side.
    pub is_turned: bool,
}

/// A page, and how often it is printed.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedPage {
    /// How often.
    pub times: u64,
    /// The sheets on it, row by row; all together they lie in the middle of the room.
    pub sheets: Vec<SheetOfSeveral>,
}

/// How several designs lie on pages.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanOfSeveral {
    /// The page that it is for.
    pub stock: Stock,
    /// The part of the page that can be printed and cut.
    pub room: Rect,
    /// The pages that differ.
    pub pages: Vec<PrintedPage>,
    /// No plan needs fewer pages; proved.
    pub proven_least: u64,
}

impl PlanOfSeveral {
    /// How many pages are printed in all.
    pub fn count(&self) -> u64 {
        self.pages.iter().map(|page| page.times).sum()
    }

    /// Whether it is proved that no plan needs fewer pages.
    pub fn is_proved(&self) -> bool {
        self.count() == self.proven_least
    }

    /// How many sheets of a design are printed; at least as many as are wanted.
    pub fn printed(&self, design: usize) -> u64 {
        let on =
            |page: &PrintedPage| page.sheets.iter().filter(|sheet| sheet.design == design).count() as u64;
        self.pages.iter().map(|page| page.times * on(page)).sum()
    }

    /// The area of all pages that is no sheet, as a share of them, 0 to 1; 0 without pages.
    pub fn waste_share(&self) -> f64 {
        let all = self.count() as f64 * self.stock.width * self.stock.height;
        let used = |page: &PrintedPage| {
            page.sheets.iter().map(|sheet| sheet.area.area()).sum::<f64>() * page.times as f64
        };
        if all > 0.0 { 1.0 - self.pages.iter().map(used).sum::<f64>() / all } else { 0.0 }
    }
}

/// The fewest pages that hold as many sheets of each design as are wanted, and which sheets lie on which.
///
/// Sheets may lie both ways round, and different sizes on one page. Sheets beyond those wanted are printed only where
/// leaving them out would make one more page that differs. Among equal numbers of pages few differ, without a proof that they
/// are the fewest. The same question gives the same plan; where the work would be too much, the plan may need more
/// pages than it must, and says so ([`PlanOfSeveral::is_proved`]).
///
/// Errors: lengths that are none, a sheet that does not fit at all, or more than [`MOST_WANTED`] sheets of a design.
pub fn plan_several(stock: &Stock, designs: &[WantedSheets]) -> Result<PlanOfSeveral, PageError> {
    let room = stock.room()?;
    let mut grown = Vec::with_capacity(designs.len());
    for design in designs {
        if design.count > MOST_WANTED {
            return Err(PageError::TooMany { count: design.count, most: MOST_WANTED });
        }
        let sheet = Grown::new(stock, &room, design.width, design.height)?;
        if !sheet.fits() {
            let (sheet_width, sheet_height) = (design.width, design.height);
            let (width, height) = (room.width(), room.height());
            return Err(PageError::SheetTooLarge { sheet_width, sheet_height, width, height });
        }
        grown.push(sheet);
    }
    let classes = classes(&grown, designs);
    let size = grown.first().map_or((0, 0), |sheet| sheet.room);
    let found = patterns(size, &classes);
    let wanted: Vec<u64> = classes.iter().map(|class| class.wanted).collect();
    let (runs, proven_least) = cover::cover(size, &found, &classes, &wanted);
    let mut pages = Vec::new();
    for (times, shares) in share_out::share_out(&runs, &classes, designs) {
        let (pattern, places) = shares;
        pages.push(PrintedPage { times, sheets: laid(pattern, &places, &grown, &room) });
    }
    Ok(PlanOfSeveral { stock: *stock, room, pages, proven_least })
}

/// The designs that are wanted, gathered by the size of their sheets whichever way round.
fn classes(grown: &[Grown], designs: &[WantedSheets]) -> Vec<Class> {
    let mut classes: Vec<Class> = Vec::new();
    for (design, (sheet, wanted)) in grown.iter().zip(designs).enumerate().filter(|(_, (_, d))| d.count > 0) {
        let (a, b) = sheet.sheet;
        let sides = (a.max(b), a.min(b));
        match classes.iter_mut().find(|class| class.sides == sides) {
            Some(class) => {
                class.designs.push(design);
                class.wanted += wanted.count;
            }
            None => classes.push(Class { sides, designs: vec![design], wanted: wanted.count }),
        }
    }
    classes
}

/// The sheets of a pattern, each of its boxes with its design, in the middle of the room.
fn laid(pattern: &Pattern, designs: &[usize], grown: &[Grown], room: &Rect) -> Vec<SheetOfSeveral> {
    let mut boxes: Vec<_> =
        pattern.boxes.iter().map(|(_, placed)| *placed).zip(designs.iter().copied()).collect();
    boxes.sort_by_key(|(placed, _)| (placed.y, placed.x));
    let Some(any) = grown.first() else { return Vec::new() };
    let (left, top) = any.corner(boxes.iter().map(|(placed, _)| placed), room);
    let sheet = |&(placed, design): &(crate::page::pallet::Placed, usize)| {
        let mm = |um: i64| um as f64 / 1000.0;
        let (x, y) = (mm(left + placed.x), mm(top + placed.y));
        let end =
            (mm(left + placed.x + placed.width - any.gap), mm(top + placed.y + placed.height - any.gap));
        SheetOfSeveral {
            design,
            area: Rect::new(x, y, end.0, end.1),
            is_turned: (placed.width, placed.height) != grown[design].sheet,
        }
    };
    boxes.iter().map(sheet).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn room(width: f64, height: f64, gap: f64) -> Stock {
        Stock { width, height, printer_margin: 0.0, reach: None, gap }
    }

    fn wanted(designs: &[(f64, f64, u64)]) -> Vec<WantedSheets> {
        designs.iter().map(|&(width, height, count)| WantedSheets { width, height, count }).collect()
    }

    fn times(plan: &PlanOfSeveral) -> Vec<u64> {
        plan.pages.iter().map(|page| page.times).collect()
    }

    #[test]
    fn designs_of_one_size_share_their_pages() {
        // Four A6 on A4 edge to edge (ISO 216). 300 and 100: one page with three and one, a hundred times.
        let a6 = |count| (105.0, 148.0, count);
        let plan = plan_several(&room(210.0, 297.0, 0.0), &wanted(&[a6(300), a6(100)])).unwrap();
        assert_eq!((plan.count(), plan.proven_least, times(&plan)), (100, 100, vec![100]));
        assert_eq!((plan.printed(0), plan.printed(1)), (300, 100));
        // Three more of the first: one place is to spare, and the rest needs a page of its own.
        let plan = plan_several(&room(210.0, 297.0, 0.0), &wanted(&[a6(303), a6(100)])).unwrap();
        assert_eq!((plan.count(), plan.is_proved()), (101, true));
        assert!(plan.printed(0) + plan.printed(1) <= 404);
    }

    #[test]
    fn sizes_that_fill_a_page_together_do_so() {
        // In 10 x 10: a 10 x 6 and a 10 x 4 fill a page; two of 10 x 6 do not go on one.
        let plan = plan_several(&room(10.0, 10.0, 0.0), &wanted(&[(10.0, 6.0, 5), (4.0, 10.0, 5)])).unwrap();
        assert_eq!((plan.count(), plan.is_proved(), times(&plan)), (5, true, vec![5]));
        assert!(plan.waste_share().abs() < 1e-12);
        assert!(plan.pages[0].sheets.iter().any(|sheet| sheet.design == 1 && sheet.is_turned));
    }

    #[test]
    fn nothing_wanted_is_no_page_and_too_large_is_refused() {
        let none = plan_several(&room(10.0, 10.0, 0.0), &wanted(&[(5.0, 5.0, 0)])).unwrap();
        assert_eq!((none.count(), none.proven_least, none.waste_share()), (0, 0, 0.0));
        assert_eq!(plan_several(&room(10.0, 10.0, 0.0), &[]).unwrap().pages, []);
        let refused = plan_several(&room(10.0, 10.0, 0.0), &wanted(&[(5.0, 5.0, 1), (11.0, 2.0, 1)]));
        assert!(matches!(refused, Err(PageError::SheetTooLarge { .. })));
        let refused = plan_several(&room(10.0, 10.0, 0.0), &wanted(&[(5.0, 5.0, u64::MAX)]));
        assert!(matches!(refused, Err(PageError::TooMany { .. })));
    }

    #[test]
    fn many_sizes_still_get_a_plan_and_a_bound() {
        let designs: Vec<(f64, f64, u64)> = (0..9_u32)
            .map(|i| (20.0 + 7.0 * f64::from(i), 30.0 + 5.0 * f64::from(i), 10 + u64::from(i)))
            .collect();
        let plan = plan_several(&room(210.0, 297.0, 2.0), &wanted(&designs)).unwrap();
        assert!(plan.count() >= plan.proven_least && plan.proven_least >= 5);
        assert!((0..9).all(|design| plan.printed(design) >= designs[design].2));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]
        #[test]
        fn all_that_is_wanted_lies_apart_in_the_room(
            sizes in prop::collection::vec((30.0..120.0f64, 30.0..120.0f64, 0..40_u64), 1..4), gap in 0.0..5.0f64,
        ) {
            let stock = Stock { printer_margin: 5.0, ..room(210.0, 297.0, gap) };
            let plan = plan_several(&stock, &wanted(&sizes)).unwrap();
            prop_assert!(plan.count() >= plan.proven_least);
            for (design, size) in sizes.iter().enumerate() {
                prop_assert!(plan.printed(design) >= size.2);
            }
            for page in &plan.pages {
                for (i, sheet) in page.sheets.iter().enumerate() {
                    let (width, height, _) = sizes[sheet.design];
                    let (width, height) = if sheet.is_turned { (height, width) } else { (width, height) };
                    prop_assert!((sheet.area.width() - width).abs() < 0.0011 && (sheet.area.height() - height).abs() < 0.0011);
                    prop_assert!(plan.room.inflate(0.001, 0.001).contains_rect(sheet.area));
                    for other in page.sheets[..i].iter().map(|other| other.area) {
                        let across = (sheet.area.x0 - other.x1).max(other.x0 - sheet.area.x1);
                        let down = (sheet.area.y0 - other.y1).max(other.y0 - sheet.area.y1);
                        prop_assert!(across.max(down) >= gap - 1e-6);
                    }
                }
            }
        }
    }
}
