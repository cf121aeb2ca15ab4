//! `spread`: how far apart the same pieces come if they are only placed, and if they are spread out.

use stickleaf_packer::Aim;
use stickleaf_sheet::{Layout, Wanted, placed_cut_lines, smallest_gap};

use crate::options::{SpreadCommand, rising};
use crate::picture::Panel;
use crate::run::{Effort, Found, Order, search};
use crate::table::{Table, mean, seconds};
use crate::trouble::Trouble;
use crate::verify::spaced;
use crate::{Outcome, output};

/// Runs all layouts of the folder and prints the table.
pub fn run(typed: &SpreadCommand) -> Result<Outcome, Trouble> {
    let effort = Effort { seconds: rising(&typed.seconds), threads: typed.search.threads.threads };
    let moments = || effort.seconds.iter().map(|&moment| seconds(moment));
    let mut table = Table::new(
        ["layout", "pieces", "asked mm"]
            .map(str::to_owned)
            .into_iter()
            .chain(moments().map(|moment| format!("place {moment}")))
            .chain(moments().map(|moment| format!("even {moment}")))
            .chain(moments().map(|moment| format!("ratio {moment}"))),
    );
    let mut faults = Vec::new();
    let mut ratios: Vec<Vec<f64>> = vec![Vec::new(); effort.seconds.len()];
    for (name, layout) in layouts(typed)? {
        let searched = |aim: Aim, order: Order| {
            search(&layout, aim, typed.search.seed, &effort, order, &name)
                .map_err(|source| Trouble::Pack { name: name.clone(), source })
        };
        // Placing ends as soon as all have their place and have settled there.
        let (placed, spread) = (searched(Aim::Place, wider)?, searched(Aim::Even, wider)?);
        for found in placed.iter().chain(&spread) {
            if let Err(fault) = spaced(&found.layout) {
                faults.push(format!("- INVALID: {name}: {fault}\n"));
            } else if found.missing > 0 {
                faults.push(format!("- LACKING: {name}: {} pieces\n", found.missing));
            }
        }
        let gaps = |found: &[Found]| found.iter().map(gap).collect::<Vec<f64>>();
        let (placed_gaps, spread_gaps) = (gaps(&placed), gaps(&spread));
        let mut cells = vec![name.clone(), wanted(&layout).to_string(), format!("{}", layout.rules.spacing)];
        cells.extend(placed_gaps.iter().chain(&spread_gaps).map(|gap| format!("{gap:.3}")));
        for (moment, (before, after)) in placed_gaps.iter().zip(&spread_gaps).enumerate() {
            ratios[moment].push(after / before);
            cells.push(format!("{:.2}", after / before));
        }
        table.rows.push(cells);
        output::keep(&typed.search.output.table, &table.markdown())?;
        if let (Some(before), Some(after)) = (placed.last(), spread.last()) {
            let panel = |found: &Found, heading: &str| {
                Panel::of(&found.layout, heading, format!("smallest gap {:.2} mm", gap(found)))
            };
            output::picture(
                &typed.search.output,
                &format!("spread-{name}"),
                &[panel(before, "placed"), panel(after, "even")],
            )?;
        }
    }
    let mut means = vec![String::new(); table.heads.len() - ratios.len()];
    means[0] = "mean".to_owned();
    means.extend(ratios.iter().map(|of| format!("{:.2}", mean(of.iter().copied()).unwrap_or_default())));
    table.rows.push(means);
    let text = format!(
        "{}\n\
         - The smallest gap between two cut lines in millimetres, with the same pieces: as many of each sticker as the \
         layout wants at least, nothing locked.\n\
         - Place: as they lie when all have a place, and have been moved apart where they lie. Even: spread out.\n\
         - {} searches side by side, seed {}, on {}. Every layout is measured again by code that the packer does not \
         use.\n{}",
        table.markdown(),
        effort.threads,
        typed.search.seed,
        output::machine(),
        faults.concat()
    );
    output::finish(&typed.search.output.table, &text)?;
    Ok(if faults.is_empty() { Outcome::Sound } else { Outcome::Lacking })
}

/// The layouts of the folder by name, without pieces, so many of each sticker wanted as were wanted at least.
fn layouts(typed: &SpreadCommand) -> Result<Vec<(String, Layout)>, Trouble> {
    let mut layouts = Vec::new();
    for path in output::files(&typed.layouts, "json")? {
        // Other files may lie there too.
        let Ok(mut layout) = stickleaf_files::layout_file::read(&output::read(&path)?) else { continue };
        layout.pieces.clear();
        for sticker in &mut layout.stickers {
            sticker.wanted = Wanted::Exactly(sticker.wanted.least());
        }
        let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        layouts.push((name, layout));
    }
    if layouts.is_empty() {
        return Err(Trouble::NoLayouts(typed.layouts.clone()));
    }
    Ok(layouts)
}

fn wanted(layout: &Layout) -> u32 {
    layout.stickers.iter().map(|sticker| sticker.wanted.least()).sum()
}

/// The smallest gap between two cut lines in millimetres; zero if there are not two.
fn gap(found: &Found) -> f64 {
    smallest_gap(&placed_cut_lines(&found.layout)).unwrap_or(0.0)
}

/// Fewest missing, then furthest apart.
fn wider(a: &Found, b: &Found) -> std::cmp::Ordering {
    a.missing.cmp(&b.missing).then(gap(b).total_cmp(&gap(a)))
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::*;
    use crate::options::{Command, Options};

    #[test]
    fn spreading_two_boxes_widens_the_gap_and_says_by_how_much() {
        let folder = tempfile::tempdir().unwrap();
        let mut layout = Layout::default();
        let mut square =
            stickleaf_sheet::Sticker::new("box", "Box", stickleaf_outline::shapes::rectangle(20.0, 30.0));
        square.wanted = Wanted::Exactly(2);
        layout.stickers = vec![square];
        std::fs::write(folder.path().join("two.json"), stickleaf_files::layout_file::write(&layout)).unwrap();
        std::fs::write(folder.path().join("other.json"), "[]").unwrap();
        let table = folder.path().join("table.md");
        let typed = ["bench", "spread", "--seconds", "1", "--threads", "1", "-o"];
        let paths = [table.to_str().unwrap(), "--layouts", folder.path().to_str().unwrap()];
        let options = Options::try_parse_from(typed.iter().chain(&paths)).unwrap();
        let Command::Spread(typed) = options.command else { panic!("another command") };
        assert_eq!(run(&typed).unwrap(), Outcome::Sound);
        let text = std::fs::read_to_string(&table).unwrap();
        let row = text.lines().find(|line| line.starts_with("| two")).unwrap();
        let cells: Vec<f64> = row.split('|').filter_map(|cell| cell.trim().parse().ok()).collect();
        let [pieces, asked, place, even, ratio] = cells[..] else { panic!("{row}") };
        assert_eq!((pieces, asked), (2.0, 2.0));
        assert!(place >= 2.0 && even >= place && (ratio - even / place).abs() < 0.006, "{row}");
    }
}
