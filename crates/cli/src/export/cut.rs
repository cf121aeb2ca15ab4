//! The cut files of `export`, and what is said of them.

use std::path::PathBuf;

use kurbo::Size;
use stickleaf_files::report::CutFacts;
use stickleaf_press::SheetOnPage;
use stickleaf_press::cut::{self, CutPlan, Depths, DesignToCut, PageCut};
use stickleaf_sheet::Layout;
use stickleaf_shop::page;

use crate::options::ExportCommand;
use crate::{Trouble, disk};

/// Writes the cut of the card, or of the whole page, into these files.
pub fn write(
    layout: &Layout,
    typed: &ExportCommand,
    files: &[(PathBuf, Depths)],
) -> Result<CutFacts, Trouble> {
    let plan = cut::plan(layout, &typed.cut.options());
    if !typed.whole_page {
        for (path, depths) in files {
            disk::write(path, &cut::write(layout, &plan, *depths))?;
        }
        return Ok(card_facts(&plan));
    }
    let stock = typed.stock.stock();
    let page = page::plan(&stock, layout.sheet.width, layout.sheet.height)
        .map_err(|source| Trouble::Page { file: disk::shown(&typed.layout), source })?;
    let design = DesignToCut { name: &layout.name, sheet: &layout.sheet, plan: &plan };
    let whole = cut::page_cut(&[design], &SheetOnPage::all_of(&page));
    let size = Size::new(stock.width, stock.height);
    for (path, depths) in files {
        disk::write(path, &cut::write_page(&layout.name, size, &whole, *depths))?;
    }
    Ok(page_facts(&whole))
}

fn card_facts(plan: &CutPlan) -> CutFacts {
    CutFacts {
        sheets: 1,
        kiss_lines: plan.kiss.len(),
        nodes: plan.nodes(),
        lines_of_chords: plan.chords(),
        kiss_mm: plan.kiss_length(),
        through_mm: plan.through_length(),
        passes: plan.options.passes,
        travel_mm: plan.travel,
        travel_in_file_order_mm: plan.travel_in_file_order,
        least_travel_mm: plan.least_travel,
    }
}

/// The same of a page.
pub fn page_facts(cut: &PageCut) -> CutFacts {
    CutFacts {
        sheets: cut.sheets.len(),
        kiss_lines: cut.kiss_lines(),
        nodes: cut.nodes(),
        lines_of_chords: cut.chords(),
        kiss_mm: cut.kiss_length(),
        through_mm: cut.through_length(),
        passes: cut.passes,
        travel_mm: cut.travel,
        travel_in_file_order_mm: cut.travel_in_file_order,
        least_travel_mm: cut.least_travel,
    }
}

/// What is said of a cut.
pub fn line(facts: &CutFacts) -> String {
    let on = if facts.sheets == 1 { String::new() } else { format!(" on {} sheets", facts.sheets) };
    format!(
        "{} kiss lines with {} points{on}; the lifted blade travels {:.0} mm, {:.0} mm in the order of the file, no order less than {:.0} mm",
        facts.kiss_lines, facts.nodes, facts.travel_mm, facts.travel_in_file_order_mm, facts.least_travel_mm
    )
}
