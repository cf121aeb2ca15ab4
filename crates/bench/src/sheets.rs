//! `sheets`: fixed sheets of real drawings, filled by us, by boxes and by grids.

use std::time::Instant;

use kurbo::Rect;
use stickleaf_packer::Aim;
use stickleaf_sheet::{Layout, ceiling, score};

use crate::options::{SheetsCommand, rising};
use crate::picture::Panel;
use crate::run::{Effort, Found, fuller, search};
use crate::table::{Table, seconds};
use crate::themes::{THEMES, Theme};
use crate::trouble::Trouble;
use crate::verify::spaced;
use crate::{Outcome, art, boxes, chance::Chance, free, grids, output};

/// How many tries the boxes have, each with an order of its own.
const TRIES: usize = 200_000;

/// How many ways to cut up the free part of a sheet are looked for.
const WAYS: usize = 60;

/// The seed of the reference's chance.
const SEED: u64 = 1;

/// What a way to fill came to.
#[derive(Clone, Debug)]
struct Filled {
    /// Pieces that lie there.
    count: usize,
    /// Stickers of which none lies there.
    missing: usize,
    /// In per cent of the usable area.
    density: f64,
    /// What is wrong, if anything.
    fault: Option<String>,
}

/// All about one sheet.
struct Row {
    theme: Theme,
    ceiling: usize,
    cells: usize,
    one_kind: Option<grids::OneKind>,
    boxes: Filled,
    boxes_seconds: f64,
    ours: Vec<Filled>,
}

/// Fills all sheets and prints the table.
pub fn run(typed: &SheetsCommand) -> Result<Outcome, Trouble> {
    let effort = Effort { seconds: rising(&typed.seconds), threads: typed.search.threads.threads };
    let is_there = |name: &&String| THEMES.iter().any(|theme| theme.name == **name);
    if let Some(name) = typed.only.iter().find(|name| !is_there(name)) {
        return Err(Trouble::NoSuch { name: name.clone(), there: THEMES.map(|theme| theme.name).join(", ") });
    }
    let folder = art::folder();
    let mut rows = Vec::new();
    for theme in THEMES {
        if typed.only.is_empty() || typed.only.iter().any(|name| name == theme.name) {
            rows.push(row(theme, &art::layout(&theme, &folder)?, typed, &effort)?);
            output::keep(&typed.search.output.table, &report(&rows, typed, &effort))?;
        }
    }
    output::finish(&typed.search.output.table, &report(&rows, typed, &effort))?;
    let is_sound = |row: &Row| row.ours.iter().chain([&row.boxes]).all(|filled| filled.fault.is_none());
    let is_complete = |row: &Row| row.ours.last().is_none_or(|filled| filled.missing == 0);
    Ok(if rows.iter().all(|row| is_sound(row) && is_complete(row)) {
        Outcome::Sound
    } else {
        Outcome::Lacking
    })
}

fn row(theme: Theme, layout: &Layout, typed: &SheetsCommand, effort: &Effort) -> Result<Row, Trouble> {
    let mut chance = Chance::new(SEED);
    let ways = ways(layout, &mut chance);
    let start = Instant::now();
    let boxed = boxes::fill(layout, &ways, TRIES, &mut chance);
    let boxes_seconds = start.elapsed().as_secs_f64();
    let boxes = filled(&boxed, score(&boxed).density);
    let found = search(layout, Aim::Fill, typed.search.seed, effort, fuller, theme.name)
        .map_err(|source| Trouble::Pack { name: theme.name.to_owned(), source })?;
    let ours: Vec<Filled> = found.iter().map(|found| filled(&found.layout, found.progress.density)).collect();
    if let (Some(Found { layout: best, .. }), Some(last)) = (found.last(), ours.last()) {
        let caption = |filled: &Filled| format!("{} stickers, density {:.1} %", filled.count, filled.density);
        let title = format!("{}: Stickleaf", theme.name);
        let panels = [Panel::of(best, title, caption(last)), Panel::of(&boxed, "boxes", caption(&boxes))];
        output::picture(&typed.search.output, &theme.name.replace(' ', "-"), &panels)?;
        eprintln!("{}: {} by us, {} by boxes", theme.name, last.count, boxes.count);
    }
    Ok(Row {
        theme,
        ceiling: ceiling(layout),
        cells: grids::one_cell(layout, &ways),
        one_kind: grids::one_kind(layout, &ways),
        boxes,
        boxes_seconds,
        ours,
    })
}

/// Ways to cut up the free part, in rectangles that hold the smallest sticker at least.
fn ways(layout: &Layout, chance: &mut Chance) -> Vec<Vec<Rect>> {
    let choices = boxes::choices(layout);
    let sides = choices.iter().flatten().map(|boxed| boxed.bounds.width().min(boxed.bounds.height()));
    free::ways(layout, sides.fold(f64::INFINITY, f64::min), WAYS, chance)
}

fn filled(layout: &Layout, density: f64) -> Filled {
    Filled {
        count: layout.pieces.len(),
        missing: layout.stickers.iter().filter(|sticker| layout.placed(&sticker.id) == 0).count(),
        density: 100.0 * density,
        fault: spaced(layout).err().map(|fault| fault.to_string()),
    }
}

/// The count, with what is missing or wrong.
fn count(filled: &Filled) -> String {
    match (&filled.fault, filled.missing) {
        (Some(_), _) => "INVALID".to_owned(),
        (None, 0) => filled.count.to_string(),
        (None, missing) => format!("{} ({missing} missing)", filled.count),
    }
}

fn report(rows: &[Row], typed: &SheetsCommand, effort: &Effort) -> String {
    let mut heads =
        ["sheet", "background", "stickers", "at most", "one cell", "one kind", "boxes", "dense %"]
            .map(str::to_owned)
            .to_vec();
    for &moment in &effort.seconds {
        heads.extend([format!("ours {}", seconds(moment)), "dense %".to_owned()]);
    }
    let mut table = Table::new(heads);
    for row in rows {
        let kinds = row.theme.motifs.len();
        let cells = match kinds.saturating_sub(row.cells) {
            0 => row.cells.to_string(),
            missing => format!("{} ({missing} missing)", row.cells),
        };
        let grid = row.one_kind.as_ref();
        let mut cells = vec![
            row.theme.name.to_owned(),
            row.theme.style.name().to_owned(),
            kinds.to_string(),
            row.ceiling.to_string(),
            cells,
            grid.map_or("-".to_owned(), |grid| format!("{} at {:.1} %", grid.count, 100.0 * grid.density)),
        ];
        for filled in [&row.boxes].into_iter().chain(&row.ours) {
            cells.extend([count(filled), format!("{:.1}", filled.density)]);
        }
        table.rows.push(cells);
    }
    table.rows.push(sums(rows));
    let faults = rows.iter().flat_map(|row| {
        let all = row.ours.iter().chain([&row.boxes]).filter_map(|filled| filled.fault.as_ref());
        all.map(|fault| format!("- {} is INVALID: {fault}\n", row.theme.name))
    });
    let boxes_seconds = rows.iter().map(|row| row.boxes_seconds).fold(0.0, f64::max);
    format!(
        "{}\n\
         An A6 card, 105 by 148 mm, margin 4 mm, spacing 2 mm, border 1.5 mm. At least one of each sticker is wanted, then \
         as many as fit. Faces and words may lean by 15 degrees, everything else turns freely. Drawings: OpenMoji \
         (CC BY-SA 4.0), see tests/art/README.md.\n\n\
         - At most: proven, no layout holds more.\n\
         - One cell: a grid whose cells hold any of the stickers, {WAYS} ways to lay it round the zones.\n\
         - One kind: the grid of that single sticker which covers most. It need not hold one of each, so compare its \
         density.\n\
         - Boxes: every sticker in the smallest upright box of any turn it may have, boxes packed by the maximal \
         rectangles method with five rules, the best of {TRIES} orders ({boxes_seconds:.1} s on one thread at most).\n\
         - Ours: {} searches side by side, seed {}, on {}. One run tells the best so far at each time.\n\
         - Every layout, the boxes' too, is measured again by code that the packer does not use: spacing, margin, \
         clearance from zones, turns.\n{}",
        table.markdown(),
        effort.threads,
        typed.search.seed,
        output::machine(),
        faults.collect::<String>(),
    )
}

/// The sums of the counts and the means of the densities.
fn sums(rows: &[Row]) -> Vec<String> {
    let mut cells = vec!["in all, mean".to_owned(), String::new()];
    let sum = |value: fn(&Row) -> usize| rows.iter().map(value).sum::<usize>().to_string();
    cells.extend([sum(|row| row.theme.motifs.len()), sum(|row| row.ceiling), sum(|row| row.cells)]);
    let grids = rows.iter().filter_map(|row| row.one_kind.as_ref());
    let mean = |densities: f64| densities / rows.len() as f64;
    cells.push(format!("{:.1} %", mean(grids.map(|grid| 100.0 * grid.density).sum())));
    let moments = rows.first().map_or(0, |row| row.ours.len());
    for column in 0..=moments {
        let filled = |row: &Row| if column == 0 { row.boxes.clone() } else { row.ours[column - 1].clone() };
        let all: Vec<Filled> = rows.iter().map(filled).collect();
        cells.push(all.iter().map(|filled| filled.count).sum::<usize>().to_string());
        cells.push(format!("{:.1}", mean(all.iter().map(|filled| filled.density).sum())));
    }
    cells
}
