//! The picture of planned pages.

use kurbo::{Point, Rect, Size};
use stickleaf_files::page_picture::{self, PagePicture, PictureSheet};
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{Plan, PlanOfSeveral, SheetOfSeveral, Stock};

use super::size;

/// The page with sheets of one layout, as SVG.
pub fn of_one(plan: &Plan, layout: &Layout) -> String {
    let sheets = plan.positions.iter().map(|position| SheetOfSeveral {
        design: 0,
        area: plan.sheet(position),
        is_turned: position.is_turned,
    });
    let count = plan.positions.len();
    let name = if count == 1 { "1 sheet".to_owned() } else { format!("{count} sheets") };
    let page = page(&plan.stock, name, sheets, |_| (String::new(), layout.sheet.corner_radius));
    let proof = if plan.is_proved() {
        "no plan holds more, proven".to_owned()
    } else {
        format!("at most {} by proof", plan.proven_most)
    };
    let about = format!(
        "{}; {proof}; waste {:.1} %",
        size(plan.sheet_width, plan.sheet_height),
        100.0 * plan.waste_share()
    );
    page_picture::write(titled(&layout.name), &about, &[page])
}

/// The pages that differ, as SVG.
pub fn of_several(plan: &PlanOfSeveral, layouts: &[Layout], names: &[String]) -> String {
    let pages: Vec<PagePicture> = plan
        .pages
        .iter()
        .enumerate()
        .map(|(index, printed)| {
            let times =
                if printed.times == 1 { "once".to_owned() } else { format!("{} times", printed.times) };
            let name = format!("Page {}, printed {times}", index + 1);
            page(&plan.stock, name, printed.sheets.iter().copied(), |design| {
                (names[design].clone(), layouts[design].sheet.corner_radius)
            })
        })
        .collect();
    let about = format!("{} pages in all; waste {:.1} %", plan.count(), 100.0 * plan.waste_share());
    page_picture::write("Pages", &about, &pages)
}

fn titled(name: &str) -> &str {
    if name.is_empty() { "Page" } else { name }
}

/// A page; `look` gives the label and the corner radius of a design.
fn page(
    stock: &Stock,
    name: String,
    sheets: impl Iterator<Item = SheetOfSeveral>,
    look: impl Fn(usize) -> (String, f64),
) -> PagePicture {
    let page = Rect::new(0.0, 0.0, stock.width, stock.height);
    let reach = stock.reach.map_or(page, |(width, height)| {
        Rect::from_center_size(Point::new(stock.width / 2.0, stock.height / 2.0), (width, height))
    });
    let sheets = sheets.map(|sheet| {
        let (label, radius) = look(sheet.design);
        let corner_radius = if stock.gap > 0.0 { radius } else { 0.0 };
        PictureSheet {
            area: sheet.area,
            corner_radius,
            design: sheet.design,
            label,
            is_turned: sheet.is_turned,
        }
    });
    PagePicture {
        name,
        size: Size::new(stock.width, stock.height),
        printable: page.inset(-stock.printer_margin),
        reach,
        sheets: sheets.collect(),
    }
}
