//! Sheets of one layout: how many lie on a page, and what would change that.

use stickleaf_files::report::{self, LargestReport, PageReport, PositionReport};
use stickleaf_press::SheetOnPage;
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{Growing, Largest, PageError, Plan, Stock, largest_sheets, plan};

use super::{made, mm, picture, size};
use crate::columns::columns;
use crate::options::PageCommand;
use crate::{Trouble, disk, output};

/// How many more sheets than lie on the page now the sizes are told for.
const MORE: usize = 2;

/// The ways in which the sheet may change.
const WAYS: [Growing; 3] = [Growing::Both, Growing::Width, Growing::Height];

/// What to know when sheets share their edges.
const SHARED_EDGE: &str =
    "                 without a gap neighbours share an edge, and round corners are planned as sharp ones\n";

/// So many counts are told from one on, and around the count that lie on the page now.
const FIRST: usize = 8;

/// Prints the plan of a page.
pub fn run(typed: &PageCommand, layout: &Layout) -> Result<(), Trouble> {
    let stock = typed.stock.stock();
    let trouble = |source: PageError| Trouble::Page { file: disk::shown(&typed.layouts[0]), source };
    let plan = plan(&stock, layout.sheet.width, layout.sheet.height).map_err(trouble)?;
    let most = plan.positions.len() + MORE;
    let largest = WAYS.map(|way| largest_sheets(&stock, plan.sheet_width, plan.sheet_height, way, most));
    let [both, width, height] = largest;
    let largest = [both.map_err(trouble)?, width.map_err(trouble)?, height.map_err(trouble)?];
    if let Some(file) = &typed.picture {
        disk::write(file, &picture::of_one(&plan, layout))?;
    }
    let name = if layout.name.is_empty() { disk::shown(&typed.layouts[0]) } else { layout.name.clone() };
    let pages = [SheetOnPage::all_of(&plan)];
    let written = made::write(typed, std::slice::from_ref(layout), &[name], &pages)?;
    if typed.report.is_json() {
        let written = written.iter().map(|file| disk::shown(file)).collect();
        output::print(&report::text(&PageReport { written, ..page_report(&plan, &largest) }));
    } else {
        output::print(&plan_lines(&plan, layout));
        output::print(&largest_lines(&largest, plan.positions.len()));
    }
    Ok(())
}

fn page_report(plan: &Plan, largest: &[Vec<Largest>; 3]) -> PageReport {
    let positions = plan.positions.iter().map(|position| {
        let sheet = plan.sheet(position);
        PositionReport {
            x_mm: position.x,
            y_mm: position.y,
            width_mm: sheet.width(),
            height_mm: sheet.height(),
            turn_deg: if position.is_turned { 90 } else { 0 },
        }
    });
    let largest = ["both", "width", "height"].into_iter().zip(largest).flat_map(|(changed, sheets)| {
        sheets.iter().map(move |sheet| LargestReport {
            sheets_per_page: sheet.count,
            changed,
            width_mm: sheet.width,
            height_mm: sheet.height,
            proved: sheet.is_proved,
        })
    });
    let room = plan.room;
    PageReport {
        page_width_mm: plan.stock.width,
        page_height_mm: plan.stock.height,
        room_mm: [room.x0, room.y0, room.x1, room.y1],
        sheet_width_mm: plan.sheet_width,
        sheet_height_mm: plan.sheet_height,
        sheets_per_page: plan.positions.len(),
        proven_most: plan.proven_most,
        proved: plan.is_proved(),
        positions: positions.collect(),
        waste: plan.waste_share(),
        waste_mm2: plan.waste(),
        largest: largest.collect(),
        written: Vec::new(),
    }
}

fn plan_lines(plan: &Plan, layout: &Layout) -> String {
    let Stock { width, height, .. } = plan.stock;
    let count = plan.positions.len();
    let proof = if plan.is_proved() {
        "no plan holds more, proven".to_owned()
    } else {
        format!("at most {} by proof; whether more than {count} fit is not known", plan.proven_most)
    };
    let mut text = format!(
        "page             {}, of which {} can be printed and cut\n\
         sheet            {}\n\
         sheets on a page {count}; {proof}\n\
         waste            {:.1} % of the page, {:.0} mm²\n{}\n",
        size(width, height),
        size(plan.room.width(), plan.room.height()),
        size(plan.sheet_width, plan.sheet_height),
        100.0 * plan.waste_share(),
        plan.waste(),
        if plan.stock.gap == 0.0 && layout.sheet.corner_radius > 0.0 { SHARED_EDGE } else { "" }
    );
    let mut rows = vec![["sheet", "from the left", "from the top", "lies"].map(str::to_owned).to_vec()];
    rows.extend(plan.positions.iter().enumerate().map(|(i, position)| {
        let lies = if position.is_turned { "on its side" } else { "upright" };
        vec![(i + 1).to_string(), mm(position.x), mm(position.y), lies.to_owned()]
    }));
    text.push_str(&columns(&rows));
    text
}

/// Where the count jumps: the largest sheet for each count, whichever side may change.
fn largest_lines(largest: &[Vec<Largest>; 3], now: usize) -> String {
    let head = ["on a page", "same shape", "wider or narrower", "higher or lower"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for count in (1..=now + MORE).filter(|&count| count <= FIRST || count + MORE >= now) {
        let cell = |sheets: &Vec<Largest>| {
            // A sheet that gives more gives these too.
            let sheet = sheets.iter().find(|sheet| sheet.count >= count);
            sheet.map_or_else(
                || "-".to_owned(),
                |sheet| {
                    let unproved = if sheet.is_proved { "" } else { " or more" };
                    format!("{}{unproved}", size(floor(sheet.width), floor(sheet.height)))
                },
            )
        };
        let cells = largest.each_ref().map(cell);
        if cells.iter().any(|cell| cell != "-") {
            rows.push([vec![count.to_string()], cells.to_vec()].concat());
        }
    }
    format!("\nthe largest sheet for so many on this page:\n{}", columns(&rows))
}

/// Rounded down to a hundredth, so that so many still lie on the page.
fn floor(mm: f64) -> f64 {
    (mm * 100.0 + 1e-6).floor() / 100.0
}
