//! `packing`: published strip instances, against published densities.

use std::cmp::Ordering;

use stickleaf_packer::Aim;
use stickleaf_sheet::Layout;

use crate::cases::{Case, Verdict, cases, lowest};
use crate::options::{PackingCommand, rising};
use crate::picture::Panel;
use crate::published::{Published, SOURCE, WIDENED};
use crate::run::{Effort, Found, search};
use crate::table::{Table, figure, greatest, mean, seconds};
use crate::trouble::Trouble;
use crate::{Outcome, output};

/// All runs of one case.
struct Row {
    /// For each moment, the results of all seeds.
    moments: Vec<Vec<Verdict>>,
    /// The densest layout of the last moment, and its density.
    best: Option<(f64, Layout)>,
}

/// Runs all instances and prints the table.
pub fn run(typed: &PackingCommand) -> Result<Outcome, Trouble> {
    let cases = cases(&typed.instances, &typed.only)?;
    let effort = Effort { seconds: rising(&typed.seconds), threads: typed.threads.threads };
    let mut rows = Vec::new();
    for case in &cases {
        rows.push(row(case, typed, &effort)?);
        output::keep(&typed.output.table, &report(&cases[..rows.len()], &rows, typed, &effort))?;
    }
    output::finish(&typed.output.table, &report(&cases, &rows, typed, &effort))?;
    let is_sound = |row: &Row| {
        let results = row.moments.iter().flatten();
        let last = row.moments.iter().last().into_iter().flatten();
        results.clone().all(|result| !matches!(result, Verdict::Invalid(_)))
            && last.clone().all(|result| matches!(result, Verdict::Sound(_)))
    };
    Ok(if rows.iter().all(is_sound) { Outcome::Sound } else { Outcome::Lacking })
}

fn row(case: &Case, typed: &PackingCommand, effort: &Effort) -> Result<Row, Trouble> {
    let name = &case.instance.name;
    let mut row = Row { moments: vec![Vec::new(); effort.seconds.len()], best: None };
    for &seed in &typed.seeds {
        let title = format!("{name} seed {seed}");
        let found = search(&case.strip.layout, Aim::Shorten, seed, effort, shorter, &title)
            .map_err(|source| Trouble::Pack { name: name.clone(), source })?;
        for (results, found) in row.moments.iter_mut().zip(&found) {
            results.push(case.judge(&found.layout));
        }
        let last = found.into_iter().next_back().zip(row.moments.last().and_then(|results| results.last()));
        match last {
            Some((found, &Verdict::Sound(density))) => {
                eprintln!("{title}: {density:.2} % after {} rounds", found.progress.round);
                if row.best.as_ref().is_none_or(|(best, _)| density > *best) {
                    row.best = Some((density, found.layout));
                }
            }
            Some((_, other)) => eprintln!("{title}: {other}"),
            None => {}
        }
    }
    if let Some((density, layout)) = &row.best {
        output::picture(&typed.output, name, &[panel(case, *density, layout)])?;
    }
    Ok(row)
}

/// Fewest missing, then the lower end of the pieces.
fn shorter(a: &Found, b: &Found) -> Ordering {
    (a.missing.cmp(&b.missing)).then(lowest(&a.layout).total_cmp(&lowest(&b.layout)))
}

/// The densities of a moment if all are sound; else what is wrong with the first that is not.
fn densities(results: &[Verdict]) -> Result<Vec<f64>, String> {
    let one = |result: &Verdict| match result {
        Verdict::Sound(density) => Ok(*density),
        Verdict::Invalid(_) => Err("INVALID".to_owned()),
        Verdict::Lacking(_) => Err(result.to_string()),
    };
    results.iter().map(one).collect()
}

fn report(cases: &[Case], rows: &[Row], typed: &PackingCommand, effort: &Effort) -> String {
    let mut heads = ["instance", "pieces", "published best", "published mean"].map(str::to_owned).to_vec();
    for &moment in &effort.seconds {
        heads.extend(["best", "mean"].map(|word| format!("{word} {}", seconds(moment))));
    }
    heads.push("best length".to_owned());
    let mut table = Table::new(heads);
    for (case, row) in cases.iter().zip(rows) {
        let published = case.published;
        let mut cells = vec![
            case.instance.name.clone(),
            case.instance.pieces().to_string(),
            figure(published.map(|row| row.best), 2),
            figure(published.and_then(|row| row.mean), 2),
        ];
        for results in &row.moments {
            match densities(results) {
                Ok(list) => {
                    cells.extend([greatest(list.iter().copied()), mean(list)].map(|value| figure(value, 2)));
                }
                Err(word) => cells.extend([word, "-".to_owned()]),
            }
        }
        let length = row.best.as_ref().map(|(best, _)| case.density(*best));
        cells.push(figure(length, 4));
        table.rows.push(cells);
    }
    table.rows.extend(mean_row(cases, rows, effort));
    let moved = cases.iter().filter(|case| case.strip.moved > 0.0).map(|case| {
        let (name, micrometres) = (&case.instance.name, 1000.0 * case.strip.moved);
        format!("- {name}: rounding to the micrometre grid moved corners by up to {micrometres:.2} µm.\n")
    });
    let faults = cases.iter().zip(rows).flat_map(|(case, row)| {
        let results = row.moments.iter().flatten();
        let faults = results.filter(|result| matches!(result, Verdict::Invalid(_)));
        faults.map(|fault| format!("- {} is {}\n", case.instance.name, fault))
    });
    let scales =
        cases.iter().map(|case| format!("{} {}", case.instance.name, case.strip.scale)).collect::<Vec<_>>();
    format!(
        "{}\n\
         Density in per cent: area of the pieces over strip width times used length. Higher is better.\n\n\
         - Published: {SOURCE}. {WIDENED}\n\
         - Ours: best and mean over runs with the seeds {}, {} searches side by side in each, on {}. One run of the \
         longest time tells the best so far at the shorter times as well: a search gets better as it goes on and does \
         not know when it ends.\n\
         - Every layout is looked at again by code that the packer does not use: all pieces there, turned as they may \
         be, inside the strip, no two sharing more than a billionth of the smaller one.\n\
         - Millimetres in a unit: {}. The best length is in the instance's units.\n{}{}",
        table.markdown(),
        typed.seeds.iter().map(u64::to_string).collect::<Vec<_>>().join(", "),
        effort.threads,
        output::machine(),
        scales.join(", "),
        moved.collect::<String>(),
        faults.collect::<String>(),
    )
}

/// The means over the instances of which a best and a mean are published; nothing if there are none.
fn mean_row(cases: &[Case], rows: &[Row], effort: &Effort) -> Option<Vec<String>> {
    let compared: Vec<(Published, &Row)> = cases
        .iter()
        .zip(rows)
        .filter_map(|(case, row)| Some((case.published.filter(|row| row.mean.is_some())?, row)))
        .collect();
    let figures =
        |value: fn(&Published) -> Option<f64>| mean(compared.iter().filter_map(|(row, _)| value(row)));
    let mut cells = vec![
        format!("mean of the {} with a published mean", compared.len()),
        String::new(),
        figure(figures(|row| Some(row.best)), 2),
        figure(figures(|row| row.mean), 2),
    ];
    for moment in 0..effort.seconds.len() {
        let all: Result<Vec<Vec<f64>>, String> =
            compared.iter().map(|(_, row)| densities(&row.moments[moment])).collect();
        // A mean over fewer instances than the published one would not compare.
        let lists = all.unwrap_or_default();
        let best = mean(lists.iter().filter_map(|list| greatest(list.iter().copied())));
        let middle = mean(lists.iter().filter_map(|list| mean(list.iter().copied())));
        cells.extend([best, middle].map(|value| figure(value, 2)));
    }
    (!compared.is_empty()).then_some(cells)
}

fn panel(case: &Case, density: f64, layout: &Layout) -> Panel {
    let caption = format!("{} pieces, density {density:.2} %", layout.pieces.len());
    Panel { size: (layout.sheet.width, lowest(layout)), ..Panel::of(layout, &case.instance.name, caption) }
}
