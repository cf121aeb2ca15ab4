//! `finish`: cut lines that a drag blade can follow, and how far they moved for it.

use stickleaf_files::report::{self, FinishReport, FinishedReport, Spot, finding_reports};
use stickleaf_sheet::{Layout, LengthUnit, Sticker, check, moved_by_finish, thickened_all};

use crate::check::{finding_lines, outcome, summary};
use crate::columns::columns;
use crate::options::FinishCommand;
use crate::{Outcome, Trouble, disk, layouts, output};

/// Finishes the cut lines and writes the layout; lacking if a hard rule is broken, as when a line came too near to
/// another.
pub fn run(typed: &FinishCommand) -> Result<Outcome, Trouble> {
    let on_standard = disk::is_standard(&typed.output);
    if on_standard && typed.report.is_json() {
        return Err(Trouble::OutputTwice);
    }
    disk::can_write(&typed.output, &[&typed.layout])?;
    let mut layout = layouts::read(&typed.layout)?;
    if let Some(asked) = typed.sticker.iter().find(|id| layout.sticker(id).is_none()) {
        let known = layout.stickers.iter().map(|sticker| sticker.id.to_string()).collect();
        return Err(Trouble::NoSuchSticker { asked: asked.clone(), known });
    }
    let rules = layout.rules;
    let is_meant =
        |sticker: &Sticker| typed.sticker.is_empty() || typed.sticker.iter().any(|id| **id == *sticker.id);
    for sticker in layout.stickers.iter_mut().filter(|sticker| is_meant(sticker)) {
        sticker.radii.inner = typed.inner_radius_mm.unwrap_or(sticker.radii.inner);
        sticker.radii.outer = typed.outer_radius_mm.unwrap_or(sticker.radii.outer);
        if typed.thicken {
            *sticker = thickened_all(sticker, &rules);
        }
    }
    layouts::write(&typed.output, &layout, &typed.layout)?;
    let findings = check(&layout);
    let finished: Vec<FinishedReport> = layout
        .stickers
        .iter()
        .filter(|sticker| is_meant(sticker))
        .map(|sticker| finished(sticker, &layout))
        .collect();
    if typed.report.is_json() {
        output::print(&report::text(&FinishReport {
            layout: disk::shown(&typed.output),
            stickers: finished,
            findings: finding_reports(&layout, &findings),
        }));
    } else {
        let print = if on_standard { |text: &str| output::tell(text.trim_end()) } else { output::print };
        print(&lines(&finished));
        print(&format!("{}{}\n", finding_lines(&layout, &findings), summary(&findings)));
        if !on_standard {
            print(&format!("wrote {}\n", typed.output.display()));
        }
    }
    Ok(outcome(&findings))
}

fn finished(sticker: &Sticker, layout: &Layout) -> FinishedReport {
    let moved = moved_by_finish(sticker, &layout.rules);
    FinishedReport {
        id: sticker.id.to_string(),
        name: sticker.name.clone(),
        inner_radius_mm: sticker.radii.inner,
        outer_radius_mm: sticker.radii.outer,
        wide_spots: sticker.wide_spots.len(),
        moved_mm: moved.map_or(0.0, |moved| moved.most),
        moved_at: moved.map(|moved| Spot::new(moved.at)),
        gained_mm2: moved.map_or(0.0, |moved| moved.area),
        least_border_mm: sticker.border_width(&layout.rules),
    }
}

fn lines(finished: &[FinishedReport]) -> String {
    let heads = ["sticker", "moved out by at most", "area gained mm²", "spots widened", "border at least"];
    let mut rows = vec![heads.map(str::to_owned).to_vec()];
    let mm = |mm: f64| LengthUnit::Millimetres.text(mm);
    rows.extend(finished.iter().map(|one| {
        let gained = format!("{:.2}", one.gained_mm2);
        let spots = one.wide_spots.to_string();
        vec![one.name.clone(), mm(one.moved_mm), gained, spots, mm(one.least_border_mm)]
    }));
    columns(&rows)
}
