//! Sheets of several layouts on the fewest pages.

use stickleaf_files::report::{
    self, DesignReport, PagesReport, PositionReport, PrintedPageReport, SheetReport,
};
use stickleaf_press::SheetOnPage;
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{PageError, PlanOfSeveral, SheetOfSeveral, WantedSheets, plan_several};

use super::{made, mm, picture, size};
use crate::columns::columns;
use crate::options::PageCommand;
use crate::{Trouble, disk, output};

/// Prints which sheets lie on which page, and how often each page is printed.
pub fn run(typed: &PageCommand, layouts: &[Layout]) -> Result<(), Trouble> {
    let wanted: Vec<WantedSheets> = layouts
        .iter()
        .zip(&typed.wanted)
        .map(|(layout, &count)| WantedSheets {
            width: layout.sheet.width,
            height: layout.sheet.height,
            count,
        })
        .collect();
    let files: Vec<String> = typed.layouts.iter().map(|file| disk::shown(file)).collect();
    let trouble = |source: PageError| Trouble::Page { file: files.join(", "), source };
    let plan = plan_several(&typed.stock.stock(), &wanted).map_err(trouble)?;
    let names: Vec<String> = layouts
        .iter()
        .zip(&files)
        .map(|(layout, file)| if layout.name.is_empty() { file.clone() } else { layout.name.clone() })
        .collect();
    if let Some(file) = &typed.picture {
        disk::write(file, &picture::of_several(&plan, layouts, &names))?;
    }
    let pages: Vec<Vec<SheetOnPage>> = plan.pages.iter().map(SheetOnPage::all_of_several).collect();
    let written = made::write(typed, layouts, &names, &pages)?;
    if typed.report.is_json() {
        let written = written.iter().map(|file| disk::shown(file)).collect();
        output::print(&report::text(&PagesReport { written, ..pages_report(&plan, &wanted, &names) }));
    } else {
        output::print(&lines(&plan, &wanted, &names));
    }
    Ok(())
}

fn pages_report(plan: &PlanOfSeveral, wanted: &[WantedSheets], names: &[String]) -> PagesReport {
    let room = plan.room;
    let position = |sheet: &SheetOfSeveral| SheetReport {
        design: sheet.design,
        position: PositionReport {
            x_mm: sheet.area.x0,
            y_mm: sheet.area.y0,
            width_mm: sheet.area.width(),
            height_mm: sheet.area.height(),
            turn_deg: if sheet.is_turned { 90 } else { 0 },
        },
    };
    let page = |page: &stickleaf_shop::page::PrintedPage| PrintedPageReport {
        times: page.times,
        positions: page.sheets.iter().map(position).collect(),
    };
    let design = |(number, (wanted, name)): (usize, (&WantedSheets, &String))| DesignReport {
        name: name.clone(),
        sheet_width_mm: wanted.width,
        sheet_height_mm: wanted.height,
        wanted: wanted.count,
        printed: plan.printed(number),
    };
    PagesReport {
        page_width_mm: plan.stock.width,
        page_height_mm: plan.stock.height,
        room_mm: [room.x0, room.y0, room.x1, room.y1],
        page_count: plan.count(),
        proven_least: plan.proven_least,
        proved: plan.is_proved(),
        designs: wanted.iter().zip(names).enumerate().map(design).collect(),
        pages: plan.pages.iter().map(page).collect(),
        waste: plan.waste_share(),
        written: Vec::new(),
    }
}

fn lines(plan: &PlanOfSeveral, wanted: &[WantedSheets], names: &[String]) -> String {
    let proof = if plan.is_proved() {
        "no plan needs fewer, proven".to_owned()
    } else {
        format!(
            "at least {} by proof; whether fewer than {} do is not known",
            plan.proven_least,
            plan.count()
        )
    };
    let mut text = format!(
        "page   {}, of which {} can be printed and cut\npages  {}; {proof}\nwaste  {:.1} % of them\n\n",
        size(plan.stock.width, plan.stock.height),
        size(plan.room.width(), plan.room.height()),
        plan.count(),
        100.0 * plan.waste_share()
    );
    let mut rows = vec![["design", "sheet", "wanted", "printed"].map(str::to_owned).to_vec()];
    for (design, (wanted, name)) in wanted.iter().zip(names).enumerate() {
        let cells =
            [size(wanted.width, wanted.height), wanted.count.to_string(), plan.printed(design).to_string()];
        rows.push([vec![name.clone()], cells.to_vec()].concat());
    }
    text.push_str(&columns(&rows));
    for (index, page) in plan.pages.iter().enumerate() {
        let times = if page.times == 1 { "once".to_owned() } else { format!("{} times", page.times) };
        text.push_str(&format!("\npage {}, printed {times}\n", index + 1));
        let mut rows = vec![["design", "from the left", "from the top", "lies"].map(str::to_owned).to_vec()];
        rows.extend(page.sheets.iter().map(|sheet| {
            let lies = if sheet.is_turned { "on its side" } else { "upright" };
            vec![names[sheet.design].clone(), mm(sheet.area.x0), mm(sheet.area.y0), lies.to_owned()]
        }));
        text.push_str(&columns(&rows));
    }
    text
}
