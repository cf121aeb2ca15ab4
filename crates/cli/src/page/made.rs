//! What is made of planned pages: their print and their cut.

use std::path::{Path, PathBuf};

use kurbo::Size;
use stickleaf_press::cut::{self, CutPlan, DesignToCut};
use stickleaf_press::print::{self, DesignToPrint, PrintOptions};
use stickleaf_press::{Progress, SheetOnPage};
use stickleaf_sheet::{Correction, Finding, Layout, check};

use crate::options::{PageCommand, beside};
use crate::pictures::LayoutPictures;
use crate::{Trouble, disk, export, output};

/// The files that are asked for beside the answer. Where there are several pages, cuts get names of their own after these.
pub fn targets(typed: &PageCommand) -> Vec<PathBuf> {
    let cuts = typed.cut.files().into_iter().map(|(file, _)| file);
    [&typed.picture, &typed.print.file].into_iter().flatten().cloned().chain(cuts).collect()
}

/// Writes the print of these pages and the cut of each, as far as they are asked for; gives the files that were written.
///
/// Each page is in the print once, however often it is to be printed. Broken rules are said, and written as they are.
pub fn write(
    typed: &PageCommand,
    layouts: &[Layout],
    names: &[String],
    pages: &[Vec<SheetOnPage>],
) -> Result<Vec<PathBuf>, Trouble> {
    if typed.print.file.is_none() && typed.cut.file.is_none() {
        return Ok(Vec::new());
    }
    if pages.is_empty() {
        output::tell("no sheet is wanted, so there is no page to print or to cut");
        return Ok(Vec::new());
    }
    for (file, layout) in typed.layouts.iter().zip(layouts) {
        if check(layout).iter().any(Finding::is_broken) {
            let file = disk::shown(file);
            output::tell(&format!("rules are broken in {file}; see `stickleaf check {file}`"));
        }
    }
    let plans: Vec<CutPlan> = layouts.iter().map(|layout| cut::plan(layout, &typed.cut.options())).collect();
    let mut written = Vec::new();
    if let Some(file) = &typed.print.file {
        write_print(typed, layouts, &plans, pages, file)?;
        written.push(file.clone());
    }
    written.extend(write_cuts(typed, layouts, names, &plans, pages)?);
    if !typed.report.is_json() {
        for file in &written {
            output::tell(&format!("wrote {}", file.display()));
        }
    }
    Ok(written)
}

fn write_print(
    typed: &PageCommand,
    layouts: &[Layout],
    plans: &[CutPlan],
    pages: &[Vec<SheetOnPage>],
    file: &Path,
) -> Result<(), Trouble> {
    let mut pictures: Vec<LayoutPictures<'_>> =
        typed.layouts.iter().map(|file| LayoutPictures::of(file)).collect::<Result<_, _>>()?;
    let mut designs: Vec<DesignToPrint<'_>> = layouts
        .iter()
        .zip(plans)
        .zip(&mut pictures)
        .map(|((layout, plan), pictures)| DesignToPrint {
            layout,
            plan,
            pictures,
            resolution_ppi: typed.ppi.unwrap_or(layout.sheet.resolution_ppi),
            correction: if typed.no_correction {
                Correction::NONE
            } else {
                layout.correction.unwrap_or_default()
            },
        })
        .collect();
    let stock = typed.stock.stock();
    let options = PrintOptions {
        profile: typed.print.profile.profile(),
        page_width: stock.width,
        page_height: stock.height,
        printer_margin: stock.printer_margin,
        bleed: typed.bleed_mm,
        ground: [255; 3],
    };
    let mut go_on = |_| true;
    let (bytes, _) = print::write(&mut designs, pages, &options, &mut Progress::new(&mut go_on))
        .map_err(|source| Trouble::Press { file: disk::shown(file), source })?;
    disk::write_bytes(file, &bytes)
}

/// Writes the cut of each page: into the file that was named, or into one for each page where there are several.
fn write_cuts(
    typed: &PageCommand,
    layouts: &[Layout],
    names: &[String],
    plans: &[CutPlan],
    pages: &[Vec<SheetOnPage>],
) -> Result<Vec<PathBuf>, Trouble> {
    let stock = typed.stock.stock();
    let size = Size::new(stock.width, stock.height);
    let designs: Vec<DesignToCut<'_>> = layouts
        .iter()
        .zip(plans)
        .zip(names)
        .map(|((layout, plan), name)| DesignToCut { name, sheet: &layout.sheet, plan })
        .collect();
    let mut written = Vec::new();
    for (index, sheets) in pages.iter().enumerate() {
        let whole = cut::page_cut(&designs, sheets);
        let title = match names {
            [name] => name.clone(),
            _ => format!("Page {}", index + 1),
        };
        for (file, depths) in typed.cut.files() {
            let file = if pages.len() == 1 { file } else { page_file(&file, index) };
            disk::write(&file, &cut::write_page(&title, size, &whole, depths))?;
            written.push(file);
        }
        if typed.cut.file.is_some() && !typed.report.is_json() {
            output::tell(&format!("{title}: {}", export::cut::line(&export::cut::page_facts(&whole))));
        }
    }
    Ok(written)
}

/// The file of one page of several.
fn page_file(file: &Path, index: usize) -> PathBuf {
    beside(file, &format!("page-{}", index + 1))
}
