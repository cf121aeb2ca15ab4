//! `trace`: artwork in, a layout with one sticker for each separate drawing out.

mod update;

use std::collections::HashSet;
use std::path::Path;

use kurbo::Point;
use stickleaf_art::{Drawing, Import, ImportOptions, TrueSize, import};
use stickleaf_files::report::{self, DroppedReport, NoteReport, TraceReport, TracedReport, finding_reports};
use stickleaf_outline::{Placement, Radii};
use stickleaf_sheet::{Art, Finding, Layout, LengthUnit, MM_PER_INCH, Piece, Rules, Sheet, Sticker, check};

use crate::check::{finding_lines, outcome, summary};
use crate::columns::columns;
use crate::options::TraceCommand;
use crate::{Outcome, Trouble, disk, layouts, output};

/// The pixels of browsers to the inch, in which a drawing without pixels counts. Source: CSS Values and Units, 6.2.
const BROWSER_PPI: f64 = 96.0;

/// Pictures within these sizes, in millimetres, are taken to be of a whole card.
const CARD_SIZES: std::ops::RangeInclusive<f64> = 40.0..=500.0;

/// One piece of artwork and what was found in it.
struct Artwork<'a> {
    file: &'a Path,
    import: Import,
}

/// Traces and writes the layout; lacking if pieces that keep their positions break a hard rule.
pub fn run(typed: &TraceCommand) -> Result<Outcome, Trouble> {
    let on_standard = disk::is_standard(&typed.output);
    if on_standard && typed.report.is_json() {
        return Err(Trouble::OutputTwice);
    }
    let keep: Vec<&Path> = typed.art.iter().map(|path| &**path).collect();
    disk::can_write(&typed.output, &keep)?;
    if let Some(source) = &typed.update {
        disk::can_write(&typed.output, &[source])?;
        return update::run(typed, source);
    }
    let border = typed.border_mm.unwrap_or(Rules::default().border);
    let artworks = typed
        .art
        .iter()
        .map(|file| Ok(Artwork { file, import: imported(file, typed, border)? }))
        .collect::<Result<Vec<_>, Trouble>>()?;
    let layout = layout_of(&artworks, typed, border);
    layout.validate().map_err(Trouble::Sheet)?;
    layouts::write(&typed.output, &layout, &typed.output.with_extension("json"))?;
    let findings = check(&layout);
    if typed.report.is_json() {
        output::print(&report::text(&trace_report(&artworks, &layout, &findings, typed)));
    } else {
        let print = if on_standard { |text: &str| output::tell(text.trim_end()) } else { output::print };
        print(&found_lines(&artworks, &layout));
        if typed.keep_positions {
            print(&format!("{}{}\n", finding_lines(&layout, &findings), summary(&findings)));
        }
        if !on_standard {
            print(&format!("wrote {}\n", typed.output.display()));
        }
    }
    Ok(outcome(&findings))
}

fn imported(file: &Path, typed: &TraceCommand, border_mm: f64) -> Result<Import, Trouble> {
    let usual = ImportOptions::default();
    let name = if disk::is_standard(file) { String::new() } else { file.to_string_lossy().into_owned() };
    let options = ImportOptions {
        file_name: name,
        size: match (typed.ppi, typed.width_mm) {
            (Some(ppi), _) => TrueSize::Ppi(ppi),
            (None, Some(width)) => TrueSize::WidthMm(width),
            (None, None) => TrueSize::FromFile,
        },
        alpha_threshold: typed.alpha.unwrap_or(usual.alpha_threshold),
        detail_mm: typed.detail_mm.unwrap_or(usual.detail_mm),
        min_size_mm: typed.min_size_mm.unwrap_or(usual.min_size_mm),
        border_mm,
        join: !typed.no_join,
    };
    let bytes = disk::read(file)?;
    let mut found =
        import(&bytes, &options).map_err(|source| Trouble::Art { file: disk::shown(file), source })?;
    if found.pixels_per_mm.is_none() && options.size != TrueSize::FromFile {
        // A drawing without pixels that was made larger or smaller: its pixels are those that browsers count.
        let as_drawn = import(&bytes, &ImportOptions { size: TrueSize::FromFile, ..options });
        found.pixels_per_mm =
            as_drawn.ok().map(|drawn| BROWSER_PPI / MM_PER_INCH * drawn.width_mm / found.width_mm);
    }
    Ok(found)
}

/// The layout: a sticker for each drawing, on the sheet asked for or the one that suits the artwork.
fn layout_of(artworks: &[Artwork<'_>], typed: &TraceCommand, border: f64) -> Layout {
    let mut ids = HashSet::new();
    let mut layout = Layout {
        name: artworks.first().map(|artwork| stem(artwork.file)).unwrap_or_default(),
        sheet: sheet_for(artworks, typed),
        rules: Rules { border, ..Rules::default() },
        ..Layout::default()
    };
    for Artwork { file, import } in artworks {
        let beside = (!disk::is_standard(file)).then(|| disk::relative_to_folder_of(&typed.output, file));
        for drawing in &import.drawings {
            let mut sticker =
                Sticker::new(unique_id(&drawing.name, &mut ids), &*drawing.name, drawing.outline.clone());
            sticker.wanted = typed.wanted;
            sticker.turns = typed.turns.clone();
            sticker.radii = radii(typed);
            sticker.art =
                beside.as_deref().map(|file| Art::new(file, drawing_place(drawing), import.pixels_per_mm));
            if typed.keep_positions {
                let placement = Placement::at(drawing.centre.x, drawing.centre.y);
                layout.pieces.push(Piece::new(sticker.id.clone(), placement));
            }
            layout.stickers.push(sticker);
        }
    }
    layout
}

/// The radii asked for.
fn radii(typed: &TraceCommand) -> Radii {
    Radii { inner: typed.inner_radius_mm, outer: typed.outer_radius_mm }
}

/// Where the picture's corner lies in the drawing's own millimetres.
fn drawing_place(drawing: &Drawing) -> Point {
    Point::ZERO - drawing.centre.to_vec2()
}

fn sheet_for(artworks: &[Artwork<'_>], typed: &TraceCommand) -> Sheet {
    let usual = Sheet::default();
    let (width, height) = match (typed.sheet, artworks) {
        (Some(size), _) => (size.width, size.height),
        (None, [Artwork { import, .. }])
            if (typed.keep_positions || import.drawings.len() > 1)
                && CARD_SIZES.contains(&import.width_mm)
                && CARD_SIZES.contains(&import.height_mm) =>
        {
            (on_grid(import.width_mm), on_grid(import.height_mm))
        }
        _ => (usual.width, usual.height),
    };
    Sheet { width, height, corner_radius: usual.corner_radius.min(width.min(height) / 2.0), ..usual }
}

/// The length to the nearest micrometre.
fn on_grid(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0
}

fn stem(file: &Path) -> String {
    if disk::is_standard(file) {
        String::new()
    } else {
        file.file_stem().unwrap_or_default().to_string_lossy().into()
    }
}

/// A short name of small letters, digits and hyphens that no other sticker has.
pub fn unique_id(name: &str, taken: &mut HashSet<String>) -> String {
    let words: Vec<String> = name
        .to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    let plain = if words.is_empty() { "sticker".to_owned() } else { words.join("-") };
    let candidates = std::iter::once(plain.clone()).chain((2..).map(|number| format!("{plain}-{number}")));
    for id in candidates {
        if taken.insert(id.clone()) {
            return id;
        }
    }
    unreachable!("the candidates never end")
}

/// What was found, as a table with remarks.
fn found_lines(artworks: &[Artwork<'_>], layout: &Layout) -> String {
    let mut rows = vec![["sticker", "width mm", "height mm", "area mm²"].map(str::to_owned).to_vec()];
    for sticker in &layout.stickers {
        let bounds = sticker.outline.bounds();
        let number = |mm: f64| format!("{mm:.1}");
        let sizes = [bounds.width(), bounds.height(), sticker.outline.area()].map(number);
        rows.push(std::iter::once(sticker.name.clone()).chain(sizes).collect());
    }
    let mut text = columns(&rows);
    artworks.iter().for_each(|artwork| text.push_str(&notes_lines(artwork)));
    let (width, height) = (layout.sheet.width, layout.sheet.height);
    let number = |mm| LengthUnit::Millimetres.number(mm);
    let count = layout.stickers.len();
    let stickers = if count == 1 { "sticker" } else { "stickers" };
    text.push_str(&format!("{count} {stickers}, sheet {} x {} mm\n", number(width), number(height)));
    text
}

/// What else is worth knowing about a piece of artwork.
fn notes_lines(Artwork { file, import }: &Artwork<'_>) -> String {
    let file = file.display();
    let mut text = String::new();
    if import.dropped_count > 0 {
        let largest = import.dropped.iter().map(|speck| speck.size).fold(0.0, f64::max);
        let (count, parts) = (import.dropped_count, if import.dropped_count == 1 { "part" } else { "parts" });
        let largest = LengthUnit::Millimetres.text(largest);
        text.push_str(&format!("{file}: {count} {parts} too small and dropped, the largest {largest}\n"));
    }
    for note in &import.notes {
        text.push_str(&format!("{file}: {note}\n"));
    }
    text
}

fn trace_report(
    artworks: &[Artwork<'_>],
    layout: &Layout,
    findings: &[Finding],
    typed: &TraceCommand,
) -> TraceReport {
    let files = artworks.iter().flat_map(|Artwork { file, import }| import.drawings.iter().map(|_| *file));
    let stickers = layout.stickers.iter().zip(files).map(|(sticker, file)| TracedReport {
        id: sticker.id.to_string(),
        name: sticker.name.clone(),
        file: disk::shown(file),
        width_mm: sticker.outline.bounds().width(),
        height_mm: sticker.outline.bounds().height(),
        area_mm2: sticker.outline.area(),
    });
    TraceReport {
        layout: disk::shown(&typed.output),
        width_mm: layout.sheet.width,
        height_mm: layout.sheet.height,
        stickers: stickers.collect(),
        dropped: artworks.iter().flat_map(dropped).collect(),
        dropped_count: artworks.iter().map(|artwork| artwork.import.dropped_count).sum(),
        notes: artworks.iter().flat_map(notes).collect(),
        findings: finding_reports(layout, findings),
    }
}

fn dropped<'a>(artwork: &'a Artwork<'_>) -> impl Iterator<Item = DroppedReport> + 'a {
    let Artwork { file, import } = artwork;
    import.dropped.iter().map(|speck| DroppedReport {
        file: disk::shown(file),
        size_mm: speck.size,
        x_mm: speck.at.x,
        y_mm: speck.at.y,
    })
}

fn notes<'a>(artwork: &'a Artwork<'_>) -> impl Iterator<Item = NoteReport> + 'a {
    let Artwork { file, import } = artwork;
    import.notes.iter().map(|note| NoteReport { file: disk::shown(file), text: note.to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_short_and_differ() {
        let mut taken = HashSet::new();
        let mut id = |name: &str| unique_id(name, &mut taken);
        assert_eq!(id("Sea Star!"), "sea-star");
        assert_eq!(id("sea star"), "sea-star-2");
        assert_eq!(id("sea-star-2"), "sea-star-2-2");
        assert_eq!(id("..."), "sticker");
    }
}
