//! `export`: placement, table, composed sheet and cut lines for other programs.

mod colours;
pub mod cut;
mod resolution;

use std::path::{Path, PathBuf};

use stickleaf_files::report::{self, ExportReport, PrintFacts, SheetSize};
use stickleaf_files::{placement_file, table};
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::guide::{self, Parts};
use stickleaf_press::print::{self, DesignToPrint, PrintOptions};
use stickleaf_press::{Frame, PrintedPicture, Progress, SheetOnPage, printed_pictures};
use stickleaf_sheet::{Finding, Layout, check};
use stickleaf_shop::page;

use crate::check::{outcome, summary};
use crate::layouts::BundleArt;
use crate::options::{ExportCommand, GuidePart};
use crate::pictures::LayoutPictures;
use crate::{Outcome, Trouble, disk, layouts, output};

/// Writes what is asked for; lacking if a hard rule is broken in it, which is said.
pub fn run(typed: &ExportCommand) -> Result<Outcome, Trouble> {
    let cuts = typed.cut.files();
    let targets = [
        &typed.placement,
        &typed.table,
        &typed.guide,
        &typed.sheet,
        &typed.print.file,
        &typed.colours,
        &typed.bundle,
    ];
    let cut_paths = cuts.iter().map(|(path, _)| &**path);
    let paths: Vec<&Path> = targets.into_iter().flatten().map(|path| &**path).chain(cut_paths).collect();
    let on_standard = paths.iter().filter(|path| disk::is_standard(path)).count();
    if on_standard > 1 || (on_standard == 1 && typed.report.is_json()) {
        return Err(Trouble::OutputTwice);
    }
    for (i, path) in paths.iter().enumerate() {
        disk::can_write(path, &[&typed.layout])?;
        if paths[..i].iter().any(|other| other == path && !disk::is_standard(path)) {
            return Err(Trouble::WouldOverwrite { file: disk::shown(path) });
        }
    }
    let layout = layouts::read(&typed.layout)?;
    let findings = check(&layout);
    let mut pictures = LayoutPictures::of(&typed.layout)?;
    let shown = shown_pictures(&layout, typed, &mut pictures)?;
    if !typed.report.is_json() {
        output::tell_lines(&resolution::table(&layout, &shown));
    }
    let write = |path: &Option<PathBuf>, text: &dyn Fn() -> String| match path {
        Some(path) => disk::write(path, &text()),
        None => Ok(()),
    };
    write(&typed.placement, &|| placement_file::write(&layout, env!("CARGO_PKG_VERSION")))?;
    write(&typed.table, &|| table::write(&layout))?;
    let art = if typed.whole_pictures { BundleArt::Whole } else { BundleArt::Parts };
    let bundled = typed.bundle.as_deref();
    let bundled = bundled.map(|path| layouts::write_bundle(path, &layout, &typed.layout, art)).transpose()?;
    let guide_frame = typed.guide.as_deref().map(|path| guide(&layout, typed, path)).transpose()?;
    let frame = typed.sheet.as_deref().map(|path| sheet(&layout, typed, &mut pictures, path)).transpose()?;
    let cut_facts = (!cuts.is_empty()).then(|| cut::write(&layout, typed, &cuts)).transpose()?;
    if let Some(path) = &typed.colours {
        colours::write(&layout, &mut pictures, typed, path)?;
    }
    let printed =
        typed.print.file.as_deref().map(|path| print(&layout, typed, &mut pictures, path)).transpose()?;
    let outcome = outcome(&findings);
    if typed.report.is_json() {
        let broken = findings.iter().filter(|finding| finding.is_broken()).count();
        let name = |path: &Option<PathBuf>| path.as_deref().map(disk::shown);
        output::print(&report::text(&ExportReport {
            placement: name(&typed.placement),
            table: name(&typed.table),
            bundle: name(&typed.bundle),
            bundle_facts: bundled,
            guide: name(&typed.guide),
            guide_pixels: guide_frame.flatten().map(|frame| [frame.width_px, frame.height_px]),
            pictures: resolution::facts(&layout, &shown),
            sheet: name(&typed.sheet),
            sheet_size: frame.map(|frame| sheet_size(&layout, &frame)),
            print: name(&typed.print.file),
            print_facts: printed,
            correction: colours::facts(&layout, typed),
            colours: name(&typed.colours),
            cut: name(&typed.cut.file),
            cut_facts,
            broken,
            warnings: findings.len() - broken,
        }));
    } else {
        for path in paths.iter().filter(|path| !disk::is_standard(path)) {
            output::tell(&format!("wrote {}", path.display()));
        }
        if let (Some(path), Some(facts)) = (&typed.bundle, &bundled) {
            layouts::tell_bundle(path, facts);
        }
        if let Some(line) = colours::line(&layout, typed) {
            output::tell(&line);
        }
        if let Some(facts) = &cut_facts {
            output::tell(&cut::line(facts));
        }
        if let Some(printed) = &printed {
            output::tell(&print_line(printed));
        }
        if findings.iter().any(Finding::is_broken) {
            output::tell(&format!(
                "{}; see `stickleaf check {}`",
                summary(&findings),
                typed.layout.display()
            ));
        }
    }
    Ok(outcome)
}

/// Writes the guide; gives its frame if it is a picture of pixels.
fn guide(layout: &Layout, typed: &ExportCommand, path: &Path) -> Result<Option<Frame>, Trouble> {
    let mut parts = Parts::ALL;
    for part in &typed.guide_without {
        *match part {
            GuidePart::CutLines => &mut parts.cut_lines,
            GuidePart::Outlines => &mut parts.outlines,
            GuidePart::Numbers => &mut parts.numbers,
            GuidePart::Zones => &mut parts.zones,
            GuidePart::Margin => &mut parts.margin,
        } = false;
    }
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg")) {
        disk::write(path, &guide::write(layout, parts))?;
        return Ok(None);
    }
    let resolution_ppi = typed.ppi.unwrap_or(layout.sheet.resolution_ppi);
    let mut bytes = Vec::new();
    let mut go_on = |_| true;
    let frame =
        guide::write_pixels(layout, parts, resolution_ppi, &mut Progress::new(&mut go_on), &mut bytes)
            .map_err(|source| Trouble::Press { file: disk::shown(path), source })?;
    disk::write_bytes(path, &bytes)?;
    Ok(Some(frame))
}

/// The pictures that what is asked for is made of. One that is missing ends it before anything is written.
fn shown_pictures(
    layout: &Layout,
    typed: &ExportCommand,
    pictures: &mut LayoutPictures<'_>,
) -> Result<Vec<PrintedPicture>, Trouble> {
    let made = [&typed.sheet, &typed.print.file, &typed.colours];
    let Some(path) = made.into_iter().flatten().next() else { return Ok(Vec::new()) };
    printed_pictures(layout, pictures).map_err(|source| Trouble::Press { file: disk::shown(path), source })
}

/// Composes the sheet and writes it.
fn sheet(
    layout: &Layout,
    typed: &ExportCommand,
    pictures: &mut LayoutPictures<'_>,
    path: &Path,
) -> Result<Frame, Trouble> {
    let options = ComposeOptions {
        resolution_ppi: typed.ppi.unwrap_or(layout.sheet.resolution_ppi),
        bleed: typed.bleed_mm.unwrap_or(0.0),
        ground: [255; 3],
        correction: colours::correction(layout, typed),
    };
    let mut bytes = Vec::new();
    let mut go_on = |_| true;
    let frame = write_sheet(layout, pictures, &options, &mut Progress::new(&mut go_on), &mut bytes)
        .map_err(|source| Trouble::Press { file: disk::shown(path), source })?;
    disk::write_bytes(path, &bytes)?;
    Ok(frame)
}

/// How far a print's background runs past the card's edge if nothing is said, in millimetres (common practice, no source).
pub const USUAL_BLEED: f64 = 2.0;

/// Prints the page and writes it.
fn print(
    layout: &Layout,
    typed: &ExportCommand,
    pictures: &mut LayoutPictures<'_>,
    path: &Path,
) -> Result<PrintFacts, Trouble> {
    let bleed = typed.bleed_mm.unwrap_or(USUAL_BLEED);
    let (page, sheets) = if typed.card_page {
        let page = (layout.sheet.width + 2.0 * bleed, layout.sheet.height + 2.0 * bleed);
        (page, vec![SheetOnPage { x: bleed, y: bleed, ..SheetOnPage::default() }])
    } else {
        let stock = typed.stock.stock();
        let plan = page::plan(&stock, layout.sheet.width, layout.sheet.height)
            .map_err(|source| Trouble::Page { file: disk::shown(&typed.layout), source })?;
        ((stock.width, stock.height), SheetOnPage::all_of(&plan))
    };
    let options = PrintOptions {
        profile: typed.print.profile.profile(),
        page_width: page.0,
        page_height: page.1,
        printer_margin: typed.stock.printer_margin_mm,
        bleed,
        ground: [255; 3],
    };
    let design = DesignToPrint {
        layout,
        plan: &stickleaf_press::cut::plan(layout, &typed.cut.options()),
        pictures,
        resolution_ppi: typed.ppi.unwrap_or(layout.sheet.resolution_ppi),
        correction: colours::correction(layout, typed),
    };
    let mut go_on = |_| true;
    let (bytes, printed) = print::write(&mut [design], &[sheets], &options, &mut Progress::new(&mut go_on))
        .map_err(|source| Trouble::Press { file: disk::shown(path), source })?;
    disk::write_bytes(path, &bytes)?;
    Ok(PrintFacts {
        page_width_mm: page.0,
        page_height_mm: page.1,
        sheets: printed.sheets,
        ruler: printed.has_ruler,
    })
}

/// What is said of a print.
pub fn print_line(printed: &PrintFacts) -> String {
    let ruler = if printed.ruler { "; measure its ruler, which is 100 mm long" } else { "" };
    format!("{} sheets on the page; print it at 100 %, not fitted to the page{ruler}", printed.sheets)
}

fn sheet_size(layout: &Layout, frame: &Frame) -> SheetSize {
    SheetSize {
        width_px: frame.width_px,
        height_px: frame.height_px,
        bleed_px: frame.bleed_px,
        resolution_ppi: frame.resolution_ppi,
        card_width_mm: layout.sheet.width,
        card_height_mm: layout.sheet.height,
    }
}
