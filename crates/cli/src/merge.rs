//! `merge`: two pieces that lie near each other made one sticker.

use std::collections::{BTreeMap, HashSet};

use stickleaf_files::report::{self, MergeReport, finding_reports};
use stickleaf_press::{Progress, write_merged_art};
use stickleaf_sheet::{Art, LengthUnit, check, merged};

use crate::check::{finding_lines, outcome, summary};
use crate::options::MergeCommand;
use crate::pictures::LayoutPictures;
use crate::trace::unique_id;
use crate::{Outcome, Trouble, disk, layouts, output};

/// Makes one sticker of the two pieces and writes the layout, with a picture of both if one has to be made; lacking if a
/// hard rule is broken.
pub fn run(typed: &MergeCommand) -> Result<Outcome, Trouble> {
    let on_standard = disk::is_standard(&typed.output);
    if on_standard && typed.report.is_json() {
        return Err(Trouble::OutputTwice);
    }
    disk::can_write(&typed.output, &[&typed.layout])?;
    let mut layout = layouts::read(&typed.layout)?;
    let [first, second] = typed.pieces[..] else {
        return Err(Trouble::Merge(stickleaf_sheet::MergeError::NotTwo));
    };
    let name_of = |piece: usize| {
        let id = layout.pieces.get(piece).map(|piece| &piece.sticker);
        id.and_then(|id| layout.sticker(id)).map(|sticker| sticker.name.clone()).unwrap_or_default()
    };
    let name = typed.name.clone().unwrap_or_else(|| format!("{} + {}", name_of(first), name_of(second)));
    let mut taken: HashSet<String> = layout.stickers.iter().map(|sticker| sticker.id.to_string()).collect();
    let id = unique_id(&name, &mut taken);
    let mut one =
        merged(&layout, [first, second], id.as_str().into(), name.clone()).map_err(Trouble::Merge)?;
    let mut fresh = BTreeMap::new();
    if one.needs_art {
        let mut bytes = Vec::new();
        let mut pictures = LayoutPictures::of(&typed.layout)?;
        let ppi = layout.sheet.resolution_ppi;
        let made =
            write_merged_art(&one.parts, ppi, &mut pictures, &mut Progress::new(&mut |_| true), &mut bytes)
                .map_err(|source| Trouble::Press { file: disk::shown(&typed.output), source })?;
        let file = format!("{id}.png");
        let place = disk::folder_of(&typed.output).join(&file);
        if !layouts::is_bundle_name(&typed.output) && !on_standard {
            if place.exists() {
                return Err(Trouble::WouldOverwrite { file: disk::shown(&place) });
            }
            disk::write_bytes(&place, &bytes)?;
        }
        fresh.insert(file.clone(), bytes);
        one.sticker.art = Some(Art::new(file, made.at, Some(made.pixels_per_mm)));
    }
    one.apply(&mut layout);
    layout.validate().map_err(Trouble::Sheet)?;
    layouts::write_with(&typed.output, &layout, &typed.layout, &fresh)?;
    let findings = check(&layout);
    let size = one.sticker.outline.bounds().size();
    if typed.report.is_json() {
        output::print(&report::text(&MergeReport {
            layout: disk::shown(&typed.output),
            id,
            name,
            picture: fresh.into_keys().next(),
            width_mm: size.width,
            height_mm: size.height,
            findings: finding_reports(&layout, &findings),
        }));
    } else {
        let print = if on_standard { |text: &str| output::tell(text.trim_end()) } else { output::print };
        let number = |mm| LengthUnit::Millimetres.number(mm);
        print(&format!("{name} is one sticker, {} x {} mm\n", number(size.width), number(size.height)));
        print(&format!("{}{}\n", finding_lines(&layout, &findings), summary(&findings)));
        if !on_standard {
            print(&format!("wrote {}\n", typed.output.display()));
        }
    }
    Ok(outcome(&findings))
}
