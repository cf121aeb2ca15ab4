//! `discs`: equal discs, as many as fit on a sheet, and as large as fit in a square.

use std::cmp::Ordering;

use kurbo::Point;
use stickleaf_outline::{Outline, path};
use stickleaf_packer::Aim;
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted, ceiling};

use crate::options::{DiscsCommand, rising};
use crate::picture::Panel;
use crate::reference_discs::{CONSTRUCTED, DISC_SHEETS, DiscSheet, RADII, RADII_SOURCE};
use crate::run::{Effort, Found, fuller, search};
use crate::table::{Table, mean, seconds};
use crate::trouble::Trouble;
use crate::verify::spaced;
use crate::{Outcome, output};

/// The side of the square in millimetres.
const SIDE: f64 = 100.0;

/// Runs both tables and prints them.
pub fn run(typed: &DiscsCommand) -> Result<Outcome, Trouble> {
    let effort = Effort { seconds: rising(&typed.seconds), threads: typed.search.threads.threads };
    let mut text = Vec::new();
    let mut faults = Vec::new();
    let mut sheets = Table::new(
        ["margin", "diameter", "spacing", "lattice", "constructed", "Oler", "at most"]
            .map(str::to_owned)
            .into_iter()
            .chain(effort.seconds.iter().map(|&moment| format!("ours {}", seconds(moment)))),
    );
    let mut squares = Table::new(
        ["N", "published radius"]
            .map(str::to_owned)
            .into_iter()
            .chain(effort.seconds.iter().map(|&moment| format!("ours {}", seconds(moment))))
            .chain(effort.seconds.iter().map(|&moment| format!("of it % {}", seconds(moment)))),
    );
    if !typed.only_grow {
        for (index, row) in DISC_SHEETS.iter().enumerate() {
            let title = format!("sheet {}", index + 1);
            let found = searched(&disc_sheet(row, OUTWARD), Aim::Fill, typed, &effort, fuller, &title)?;
            let wrong = found.iter().filter_map(|found| sheet_fault(row, &found.layout));
            faults.extend(wrong.map(|fault| format!("{title}: {fault}")));
            sheets.rows.push(sheet_cells(row, &found));
            picture(typed, &format!("discs-{:02}", index + 1), &found)?;
        }
        sheets.rows.push(sheet_sums(&sheets));
        text.push(sheet_report(&sheets));
        output::keep(&typed.search.output.table, &text.concat())?;
    }
    if !typed.only_fill {
        let mut shares: Vec<Vec<f64>> = Vec::new();
        for (index, &published) in RADII.iter().enumerate() {
            let count = index + 1;
            let title = format!("square {count}");
            let found = searched(&square(count), Aim::Grow, typed, &effort, larger, &title)?;
            let wrong = found.iter().filter_map(|found| spaced(&found.layout).err());
            faults.extend(wrong.map(|fault| format!("{title}: {fault}")));
            let radii: Vec<f64> = found.iter().map(|found| radius(&found.layout) / SIDE).collect();
            shares.push(radii.iter().map(|radius| 100.0 * radius / published).collect());
            let mut cells = vec![count.to_string(), format!("{published:.9}")];
            cells.extend(radii.iter().map(|radius| format!("{radius:.9}")));
            cells.extend(radii.iter().map(|radius| format!("{:.3}", 100.0 * radius / published)));
            squares.rows.push(cells);
            picture(typed, &format!("square-{count:02}"), &found)?;
        }
        squares.rows.push(square_means(&shares, effort.seconds.len()));
        text.push(square_report(&squares));
    }
    text.push(format!(
        "\n{} searches side by side, seed {}, on {}. Every layout is measured again by code that the packer does not \
         use.\n{}",
        effort.threads,
        typed.search.seed,
        output::machine(),
        faults.iter().map(|fault| format!("- INVALID: {fault}\n")).collect::<String>()
    ));
    output::finish(&typed.search.output.table, &text.concat())?;
    Ok(if faults.is_empty() { Outcome::Sound } else { Outcome::Lacking })
}

fn searched(
    layout: &Layout,
    aim: Aim,
    typed: &DiscsCommand,
    effort: &Effort,
    order: crate::run::Order,
    title: &str,
) -> Result<Vec<Found>, Trouble> {
    search(layout, aim, typed.search.seed, effort, order, title)
        .map_err(|source| Trouble::Pack { name: title.to_owned(), source })
}

fn picture(typed: &DiscsCommand, name: &str, found: &[Found]) -> Result<(), Trouble> {
    let Some(last) = found.last() else { return Ok(()) };
    let caption = format!("{} discs", last.layout.pieces.len());
    output::picture(&typed.search.output, name, &[Panel::of(&last.layout, name, caption)])
}

/// By how much an outline must be drawn larger for its chords, within a micrometre of the curve and rounded to the grid,
/// to stay outside the true circle, in millimetres.
const OUTWARD: f64 = 0.002;

/// A disc round (0, 0), its corners on the circle.
fn disc(radius: f64) -> Outline {
    let text =
        format!("M-{radius} 0A{radius} {radius} 0 1 1 {radius} 0A{radius} {radius} 0 1 1 -{radius} 0Z");
    path::parse(&text).expect("two half circles are an outline")
}

/// A layout of discs without a border, one turn being like another.
fn discs(size: (f64, f64), rules: Rules, radius: f64, wanted: Wanted) -> Layout {
    let mut sticker = Sticker::new("disc", "Disc", disc(radius));
    sticker.wanted = wanted;
    sticker.turns = Turns::None;
    Layout {
        sheet: Sheet { width: size.0, height: size.1, corner_radius: 0.0, ..Sheet::default() },
        rules: Rules { border: 0.0, ..rules },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

/// A sheet on which discs that are larger by so much than the row's, in millimetres, are asked for.
fn disc_sheet(row: &DiscSheet, larger: f64) -> Layout {
    let rules = Rules { margin: row.margin, spacing: row.spacing, ..Rules::default() };
    discs((100.0, 150.0), rules, row.diameter / 2.0 + larger, Wanted::AtLeast(1))
}

/// A square with so many discs, which start a hundredth smaller than a plain grid of rows and columns would let them be.
fn square(count: usize) -> Layout {
    let side = (1..).find(|side| side * side >= count).unwrap_or(1);
    let radius = 0.99 * SIDE / (2.0 * side as f64);
    let rules = Rules { margin: 0.0, spacing: 0.0, ..Rules::default() };
    discs((SIDE, SIDE), rules, radius, Wanted::Exactly(count as u32))
}

/// Fewest missing, then the largest true radius.
fn larger(a: &Found, b: &Found) -> Ordering {
    (a.missing.cmp(&b.missing)).then(radius(&b.layout).total_cmp(&radius(&a.layout)))
}

/// What is wrong with a sheet of discs, if anything, as outlines and as true circles.
fn sheet_fault(row: &DiscSheet, layout: &Layout) -> Option<String> {
    if let Err(fault) = spaced(layout) {
        return Some(fault.to_string());
    }
    let radius = row.diameter / 2.0;
    let middles: Vec<Point> = layout.pieces.iter().map(|piece| piece.placement.at).collect();
    let (to_edge, apart) = (least_to_edge(layout, &middles), least_apart(&middles));
    (to_edge < radius + row.margin - 1e-9 || apart < row.diameter + row.spacing - 1e-9)
        .then(|| format!("middles come within {apart} mm of each other and {to_edge} mm of the edge"))
}

fn least_to_edge(layout: &Layout, middles: &[Point]) -> f64 {
    let Sheet { width, height, .. } = layout.sheet;
    let to_edge =
        middles.iter().map(|middle| middle.x.min(middle.y).min(width - middle.x).min(height - middle.y));
    to_edge.fold(f64::INFINITY, f64::min)
}

fn least_apart(middles: &[Point]) -> f64 {
    let from = |(index, &middle): (usize, &Point)| {
        let others = middles[index + 1..].iter();
        others.map(|&other| (other - middle).hypot2().sqrt()).fold(f64::INFINITY, f64::min)
    };
    middles.iter().enumerate().map(from).fold(f64::INFINITY, f64::min)
}

/// The largest radius that true circles round the pieces' middles can have, in millimetres.
///
/// Worked out from the middles alone, so that neither chords nor roundings of the outline flatter it.
fn radius(layout: &Layout) -> f64 {
    let middles: Vec<Point> = layout.pieces.iter().map(|piece| piece.placement.at).collect();
    let radius = least_to_edge(layout, &middles).min(least_apart(&middles) / 2.0);
    if radius.is_finite() { radius } else { 0.0 }
}

fn sheet_cells(row: &DiscSheet, found: &[Found]) -> Vec<String> {
    let number = |mm: f64| format!("{mm}");
    let mut cells = [row.margin, row.diameter, row.spacing].map(number).to_vec();
    // Of outlines within the true circles, so that it bounds these as well.
    let at_most = ceiling(&disc_sheet(row, -OUTWARD));
    let counts = [row.lattice, row.constructed, row.bound, at_most].into_iter();
    cells.extend(
        counts.chain(found.iter().map(|found| found.layout.pieces.len())).map(|count| count.to_string()),
    );
    cells
}

/// The column of the program's own bound.
const AT_MOST: usize = 6;

/// The sums of all counts.
fn sheet_sums(table: &Table) -> Vec<String> {
    let sum = |column: usize| {
        let counts = table.rows.iter().filter_map(|row| row.get(column)?.parse::<usize>().ok());
        counts.sum::<usize>().to_string()
    };
    let mut cells = vec!["in all".to_owned(), String::new(), String::new()];
    cells.extend((3..table.heads.len()).map(sum));
    cells
}

fn sheet_report(table: &Table) -> String {
    format!(
        "Round stickers on a sheet of 100 by 150 mm, as many as fit.\n\n{}\n\
         - Ours: true circles, seen to keep the distances in full.\n\
         - Constructed: {CONSTRUCTED}. A floor for a good packer, not an optimum.\n\
         - Oler: N. Oler's inequality, 1961. No layout holds more.\n\
         - At most: what the program itself proves and shows as the ceiling. Proved best: {} of {} rows.\n\n",
        table.markdown(),
        table.rows.iter().filter(|row| row[AT_MOST] == row[row.len() - 1]).count(),
        table.rows.len() - 1
    )
}

fn square_means(shares: &[Vec<f64>], moments: usize) -> Vec<String> {
    let mut cells = vec!["mean".to_owned()];
    cells.extend(vec![String::new(); moments + 1]);
    let share = |moment: usize| mean(shares.iter().map(|row| row[moment])).unwrap_or_default();
    cells.extend((0..moments).map(|moment| format!("{:.3}", share(moment))));
    cells
}

fn square_report(table: &Table) -> String {
    format!(
        "Equal discs in a square of side 1, as large as fit.\n\n{}\n\
         - Published: {RADII_SOURCE}.\n\
         - Ours: the radius that true circles round the middles found can have.\n",
        table.markdown()
    )
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::Placement;
    use stickleaf_sheet::Piece;

    use super::*;

    #[test]
    fn radius_is_that_of_the_circles_and_not_of_the_chords() {
        let mut layout = square(4);
        assert_eq!(layout.stickers[0].wanted, Wanted::Exactly(4));
        let at = |x: f64, y: f64| Piece::new("disc".into(), Placement::at(x, y));
        layout.pieces = vec![at(25.0, 25.0), at(75.0, 25.0), at(25.0, 75.0), at(75.0, 75.0)];
        assert_eq!(radius(&layout), 25.0);
        layout.pieces[3] = at(74.0, 74.0);
        // From (74, 74) to (75, 25).
        assert_eq!(radius(&layout), (49.0f64 * 49.0 + 1.0).sqrt() / 2.0);
    }

    #[test]
    fn a_sheet_of_discs_is_as_the_row_says() {
        let layout = disc_sheet(&DISC_SHEETS[0], OUTWARD);
        assert_eq!((layout.rules.margin, layout.rules.spacing, layout.rules.border), (3.0, 2.0, 0.0));
        let bounds = layout.stickers[0].outline.bounds();
        assert!((bounds.width() - 10.004).abs() < 1e-9 && bounds.center().to_vec2().hypot2() < 1e-9);
    }
}
