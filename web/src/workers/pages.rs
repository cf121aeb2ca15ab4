//! Making what leaves of pages that several layouts share: their print, and the cut of each.

use js_sys::ArrayBuffer;
use kurbo::Size;
use stickleaf_press::cut::{self, CutOptions, CutPlan, Depths, DesignToCut};
use stickleaf_press::print::{self, DesignToPrint, PrintOptions, Profile};
use stickleaf_press::{Progress, SheetOnPage};
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{PlanOfSeveral, Stock, WantedSheets, plan_several};

use super::kept_pictures::KeptPictures;
use super::pressing::{BLEED, GROUND, buffer, cut_made, told, with_progress};
use crate::messages::{DesignAsk, Made, PagesOrder};
use crate::words::{self, Told};

/// A layout of the pages with its pictures.
struct Design {
    layout: Layout,
    pictures: KeptPictures,
    plan: CutPlan,
}

/// Makes what was ordered of the fewest pages that hold what is wanted; gives its facts and its bytes, or a sentence that
/// says why not.
pub fn make(
    designs: Vec<DesignAsk>,
    buffers: &[ArrayBuffer],
    stock: &Stock,
    order: PagesOrder,
) -> Result<(Made, ArrayBuffer), String> {
    let wanted: Vec<u64> = designs.iter().map(|design| design.wanted).collect();
    let passes = if let PagesOrder::Cut { passes, .. } = order { passes } else { 1 };
    let mut buffers = buffers;
    let mut read = Vec::with_capacity(designs.len());
    for DesignAsk { layout, pictures, .. } in designs {
        let layout = stickleaf_files::read(&layout).map_err(|error| error.told())?;
        let (own, others) = buffers.split_at(pictures.len().min(buffers.len()));
        buffers = others;
        let plan = cut::plan(&layout, &CutOptions { passes, ..CutOptions::default() });
        read.push(Design { layout, pictures: KeptPictures::new(pictures, own), plan });
    }
    let plan = planned(&read, &wanted, stock)?;
    match order {
        PagesOrder::Print { is_home } => printed(&mut read, &plan, is_home),
        PagesOrder::Cut { page, .. } => cut_of(&read, &plan, page),
    }
}

fn planned(designs: &[Design], wanted: &[u64], stock: &Stock) -> Result<PlanOfSeveral, String> {
    let wanted: Vec<WantedSheets> = designs
        .iter()
        .zip(wanted)
        .map(|(design, &count)| WantedSheets {
            width: design.layout.sheet.width,
            height: design.layout.sheet.height,
            count,
        })
        .collect();
    plan_several(stock, &wanted).map_err(|error| error.told())
}

fn printed(
    designs: &mut [Design],
    plan: &PlanOfSeveral,
    is_home: bool,
) -> Result<(Made, ArrayBuffer), String> {
    let options = PrintOptions {
        profile: if is_home { Profile::Home } else { Profile::Shop },
        page_width: plan.stock.width,
        page_height: plan.stock.height,
        printer_margin: plan.stock.printer_margin,
        bleed: BLEED,
        ground: GROUND,
    };
    let mut designs: Vec<DesignToPrint<'_>> = designs
        .iter_mut()
        .map(|Design { layout, pictures, plan }| DesignToPrint {
            layout,
            plan,
            pictures,
            resolution_ppi: layout.sheet.resolution_ppi,
            correction: layout.correction.unwrap_or_default(),
        })
        .collect();
    let pages: Vec<Vec<SheetOnPage>> = plan.pages.iter().map(SheetOnPage::all_of_several).collect();
    let print = |progress: &mut Progress<'_>| print::write(&mut designs, &pages, &options, progress);
    let (bytes, _) = with_progress(print).map_err(told)?;
    Ok((Made::default(), buffer(&bytes)))
}

fn cut_of(designs: &[Design], plan: &PlanOfSeveral, page: usize) -> Result<(Made, ArrayBuffer), String> {
    let Some(printed) = plan.pages.get(page) else { return Err(words::no_such_page().to_owned()) };
    let designs: Vec<DesignToCut<'_>> = designs
        .iter()
        .map(|Design { layout, plan, .. }| DesignToCut { name: &layout.name, sheet: &layout.sheet, plan })
        .collect();
    let whole = cut::page_cut(&designs, &SheetOnPage::all_of_several(printed));
    let size = Size::new(plan.stock.width, plan.stock.height);
    // A file is the same in every language.
    let svg = cut::write_page(&format!("Page {}", page + 1), size, &whole, Depths::All);
    let made = Made { sheets: Some(whole.sheets.len()), cut: Some(cut_made(&whole)), ..Made::default() };
    Ok((made, buffer(svg.as_bytes())))
}
