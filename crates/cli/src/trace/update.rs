//! `trace --update`: changed pictures for a layout that was made from them.

use std::collections::{BTreeMap, HashSet};
use std::path::Path;

use stickleaf_art::{Drawing, Import};
use stickleaf_files::report::{self, FateReport, UpdateReport, finding_reports};
use stickleaf_sheet::{Art, Layout, MatchedBy, Reimport, Sticker, check, reimport};

use super::{Artwork, drawing_place, dropped, imported, notes, notes_lines, radii, unique_id};
use crate::check::{finding_lines, outcome, summary};
use crate::columns::columns;
use crate::options::TraceCommand;
use crate::{Outcome, Trouble, disk, layouts, output};

/// What a changed picture did to the layout.
struct Update {
    /// The picture that it takes the place of, as the layout called it.
    replaced: String,
    fates: Vec<FateReport>,
}

/// Lets the changed pictures take the place of those that the layout was made from; lacking if a hard rule is broken.
pub fn run(typed: &TraceCommand, source: &Path) -> Result<Outcome, Trouble> {
    let on_standard = disk::is_standard(&typed.output);
    let mut layout = layouts::read(source)?;
    let border = typed.border_mm.unwrap_or(layout.rules.border);
    let mut artworks = Vec::new();
    let mut updates = Vec::new();
    let mut fresh = BTreeMap::new();
    for file in &typed.art {
        let replaced = replaced_picture(&layout, file, typed.replaces.as_deref())?;
        let import = imported(file, typed, border)?;
        let name = name_in(&layout, source, &typed.output, file);
        if !disk::is_standard(file) {
            fresh.insert(name.clone(), disk::read(file)?);
        }
        let drawings = stickers(&import, &name, typed);
        let found = reimport(&layout, &replaced, &drawings);
        let mut fates = known_fates(&layout, &found);
        let mut taken: HashSet<String> =
            layout.stickers.iter().map(|sticker| sticker.id.to_string()).collect();
        let id = |_: &Layout, name: &str| unique_id(name, &mut taken).into();
        found.apply(&mut layout, &drawings, |_| !typed.no_new, id);
        fates.extend(new_fates(&layout, &found, &drawings, typed.no_new));
        updates.push(Update { replaced, fates });
        artworks.push(Artwork { file, import });
    }
    layout.validate().map_err(Trouble::Sheet)?;
    layouts::write_with(&typed.output, &layout, source, &fresh)?;
    let findings = check(&layout);
    if typed.report.is_json() {
        output::print(&report::text(&UpdateReport {
            layout: disk::shown(&typed.output),
            replaced: updates.iter().map(|update| update.replaced.clone()).collect(),
            stickers: updates.into_iter().flat_map(|update| update.fates).collect(),
            dropped: artworks.iter().flat_map(dropped).collect(),
            notes: artworks.iter().flat_map(notes).collect(),
            findings: finding_reports(&layout, &findings),
        }));
    } else {
        let print = if on_standard { |text: &str| output::tell(text.trim_end()) } else { output::print };
        for (update, artwork) in updates.iter().zip(&artworks) {
            print(&update_lines(update, artwork));
        }
        print(&format!("{}{}\n", finding_lines(&layout, &findings), summary(&findings)));
        if !on_standard {
            print(&format!("wrote {}\n", typed.output.display()));
        }
    }
    Ok(outcome(&findings))
}

/// The picture that a changed one takes the place of: the one asked for, else the one of the same name, else the only one.
fn replaced_picture(layout: &Layout, file: &Path, asked: Option<&str>) -> Result<String, Trouble> {
    let mut known: Vec<&str> = Vec::new();
    for art in layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref()) {
        if !known.contains(&art.picture()) {
            known.push(art.picture());
        }
    }
    let last = |name: &str| name.rsplit(['/', '\\']).next().unwrap_or(name).to_owned();
    let own_name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let wanted = asked.map_or(own_name, str::to_owned);
    let exact = known.iter().find(|name| **name == wanted);
    let by_name = exact.or_else(|| known.iter().find(|name| last(name) == last(&wanted)));
    match (by_name, &known[..]) {
        (Some(name), _) => Ok((*name).to_owned()),
        (None, [only]) if asked.is_none() => Ok((*only).to_owned()),
        _ => {
            let known = known.iter().map(|name| (*name).to_owned()).collect();
            Err(Trouble::NoSuchPicture { asked: wanted, known })
        }
    }
}

/// The name by which the layout will know the picture: from the layout that is read, as those of its other pictures, or
/// from the one that is written if the others lie in a bundle, under a name that none of these has.
fn name_in(layout: &Layout, source: &Path, written: &Path, file: &Path) -> String {
    if !layouts::is_bundle_name(source) {
        return disk::relative_to_folder_of(source, file);
    }
    let name = disk::relative_to_folder_of(written, file);
    let is_used = |name: &String| {
        let mut arts = layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref());
        arts.any(|art| art.file == *name || art.picture() == name)
    };
    let numbered = (2..).map(|number| format!("{number}-{name}"));
    std::iter::once(name.clone()).chain(numbered).find(|name| !is_used(name)).unwrap_or_default()
}

fn stickers(import: &Import, file: &str, typed: &TraceCommand) -> Vec<Sticker> {
    let sticker = |drawing: &Drawing| {
        let mut sticker = Sticker::new("", &*drawing.name, drawing.outline.clone());
        sticker.wanted = typed.wanted;
        sticker.turns = typed.turns.clone();
        sticker.radii = radii(typed);
        sticker.art = Some(Art::new(file, drawing_place(drawing), import.pixels_per_mm));
        sticker
    };
    import.drawings.iter().map(sticker).collect()
}

/// What becomes of the stickers that were there, in the order of the layout.
fn known_fates(layout: &Layout, found: &Reimport) -> Vec<FateReport> {
    let of_sticker = |index: usize, fate: &'static str| {
        let sticker = &layout.stickers[index];
        FateReport {
            id: Some(sticker.id.to_string()),
            name: sticker.name.clone(),
            fate,
            found_by: None,
            pieces: layout.placed(&sticker.id),
            area_before_mm2: Some(sticker.outline.area()),
            area_after_mm2: None,
            area_moved_mm2: None,
        }
    };
    let matched = found.matched.iter().map(|one| {
        let fate = if one.is_unchanged() { "unchanged" } else { "updated" };
        let by = match one.by {
            MatchedBy::Place => "place",
            MatchedBy::Shape => "shape",
        };
        let report = FateReport {
            found_by: Some(by),
            area_after_mm2: Some(one.area_after),
            area_moved_mm2: Some(one.area_moved),
            ..of_sticker(one.sticker, fate)
        };
        (one.sticker, report)
    });
    let gone = found.gone.iter().map(|&index| (index, of_sticker(index, "gone")));
    let mut fates: Vec<(usize, FateReport)> = matched.chain(gone).collect();
    fates.sort_by_key(|(index, _)| *index);
    fates.into_iter().map(|(_, fate)| fate).collect()
}

/// The drawings that belong to no sticker; they have become the last ones of the layout unless they are left out.
fn new_fates(layout: &Layout, found: &Reimport, drawings: &[Sticker], left_out: bool) -> Vec<FateReport> {
    let first = layout.stickers.len() - if left_out { 0 } else { found.new.len() };
    let new = found.new.iter().enumerate();
    new.map(|(nth, &index)| FateReport {
        id: layout.stickers.get(first + nth).map(|sticker| sticker.id.to_string()),
        name: drawings[index].name.clone(),
        fate: "new",
        found_by: None,
        pieces: 0,
        area_before_mm2: None,
        area_after_mm2: Some(drawings[index].outline.area()),
        area_moved_mm2: None,
    })
    .collect()
}

/// What became of each sticker, as a table with remarks.
fn update_lines(update: &Update, artwork: &Artwork<'_>) -> String {
    let heads = ["sticker", "", "area mm²", "was", "moved"];
    let mut rows = vec![heads.map(str::to_owned).to_vec()];
    let area = |area: Option<f64>| area.map_or_else(String::new, |area| format!("{area:.1}"));
    for fate in &update.fates {
        let word = match (fate.fate, &fate.id) {
            ("new", None) => "new, left out",
            ("gone", _) => "gone, kept as it is",
            (word, _) => word,
        };
        let areas = [fate.area_after_mm2, fate.area_before_mm2, fate.area_moved_mm2].map(area);
        rows.push([fate.name.clone(), word.to_owned()].into_iter().chain(areas).collect());
    }
    let count = |word: &str| update.fates.iter().filter(|fate| fate.fate == word).count();
    let sum = format!(
        "{} for {}: {} updated, {} unchanged, {} new, {} gone\n",
        artwork.file.display(),
        update.replaced,
        count("updated"),
        count("unchanged"),
        count("new"),
        count("gone"),
    );
    format!("{}{}{sum}", columns(&rows), notes_lines(artwork))
}
