//! `run`: so many sheets of one or more layouts: pages, time, ink, blades, stock, cost and price.

mod moves;
mod timed;

use std::path::Path;

use serde::Serialize;
use stickleaf_files::report;
use stickleaf_press::cut::{self, CutOptions};
use stickleaf_press::{Progress, ink_coverage};
use stickleaf_sheet::{Finding, Layout, check};
use stickleaf_shop::costs::Post;
use stickleaf_shop::page::plan;
use stickleaf_shop::run::{Deed, Design, RunSheet, run_sheet};
use stickleaf_shop::settings::Settings;

use crate::columns::columns;
use crate::options::RunCommand;
use crate::pictures::LayoutPictures;
use crate::{Outcome, Trouble, disk, history, layouts, output};

/// Prints the run sheet; lacking if a hard rule is broken in a layout, or its ink could not be measured.
pub fn run(typed: &RunCommand) -> Result<Outcome, Trouble> {
    if typed.sheets.len() != typed.layouts.len() {
        return Err(Trouble::SheetCounts { layouts: typed.layouts.len(), counts: typed.sheets.len() });
    }
    let history = history::read(typed)?;
    let mut settings = match &typed.settings {
        Some(file) => read_settings(file)?,
        None => Settings::default(),
    };
    if let Some(passes) = typed.passes {
        settings.cutting.passes = passes;
    }
    if let Some(file) = &typed.write_settings {
        let keep: Vec<&Path> = typed.layouts.iter().map(|file| &**file).collect();
        disk::can_write(file, &keep)?;
    }
    let found = timed::put(&mut settings, &typed.timed)?;
    if let Some(file) = &typed.write_settings {
        disk::write(file, &report::text(&settings))?;
    }
    let mut designs = Vec::new();
    let mut sizes = Vec::new();
    let mut notes = Vec::new();
    let mut is_lacking = false;
    for (file, &sheets) in typed.layouts.iter().zip(&typed.sheets) {
        let layout = layouts::read(file)?;
        if check(&layout).iter().any(Finding::is_broken) {
            notes.push(format!("rules are broken in {0}; see `stickleaf check {0}`", disk::shown(file)));
            is_lacking = true;
        }
        let (design, missing_ink) = design(typed, &settings, file, &layout, sheets)?;
        if let Some(why) = missing_ink {
            notes.push(format!(
                "the ink of {} could not be measured and counts for nothing: {why}",
                disk::shown(file)
            ));
            is_lacking = true;
        }
        designs.push(design);
        sizes.push((layout.sheet.width, layout.sheet.height));
    }
    let run = run_sheet(&settings, &designs).map_err(Trouble::Settings)?;
    let moves = match (&designs[..], &sizes[..], typed.sheets_per_page) {
        ([design], [size], None) => moves::moves(&settings, &typed.stock.stock(), design, *size),
        _ => Vec::new(),
    };
    history::write(typed, history, &run)?;
    if typed.report.is_json() {
        let by_size = &moves[..];
        let report = RunReport { timed: found, by_size, ..RunReport::new(&settings, &designs, &run, &notes) };
        output::print(&report::text(&report));
    } else {
        if let Some(found) = &found {
            output::tell(&timed::line(found, typed.write_settings.as_deref()));
        }
        // A table on standard output is not to be mixed with words.
        let is_taken = typed.csv.as_deref().is_some_and(disk::is_standard);
        let by_size = moves::lines(&moves, designs[0].per_page);
        if is_taken {
            output::tell(&lines(&settings, &run, &by_size))
        } else {
            output::print(&lines(&settings, &run, &by_size))
        }
        for note in &notes {
            output::tell(note);
        }
    }
    Ok(if is_lacking { Outcome::Lacking } else { Outcome::Done })
}

/// Reads the shop's figures; what the file leaves out is as usual.
pub fn read_settings(file: &Path) -> Result<Settings, Trouble> {
    serde_json::from_slice(&disk::read(file)?)
        .map_err(|error| Trouble::SettingsFile { file: disk::shown(file), reason: error.to_string() })
}

/// A layout as a design of the run, and why its ink could not be measured, if it could not.
fn design(
    typed: &RunCommand,
    settings: &Settings,
    file: &Path,
    layout: &Layout,
    sheets: u64,
) -> Result<(Design, Option<String>), Trouble> {
    let per_page = match typed.sheets_per_page {
        Some(count) => count,
        None => {
            let plan = plan(&typed.stock.stock(), layout.sheet.width, layout.sheet.height)
                .map_err(|source| Trouble::Page { file: disk::shown(file), source })?;
            plan.positions.len() as u64
        }
    };
    let mut go_on = |_| true;
    let measured = ink_coverage(layout, &mut LayoutPictures::of(file)?, &mut Progress::new(&mut go_on));
    let (coverage, missing) = match measured {
        Ok(coverage) => (Some(coverage), None),
        Err(why) => (None, Some(why.to_string())),
    };
    let options = CutOptions { passes: settings.cutting.passes, ..CutOptions::default() };
    let name = if layout.name.is_empty() { disk::shown(file) } else { layout.name.clone() };
    let design = Design {
        name,
        sheets,
        stickers: layout.pieces.len() as u64,
        per_page,
        sheet_mm2: layout.sheet.area(),
        work: cut::work(&cut::plan(layout, &options)),
        coverage,
    };
    Ok((design, missing))
}

/// The answer of `run`.
#[derive(Debug, Serialize)]
struct RunReport<'a> {
    sheets: u64,
    sheets_per_page: Vec<u64>,
    pages: u64,
    passes: u32,
    lengths: Lengths,
    times: Times,
    /// How much ink covers a sheet of each design; null where it could not be measured.
    ink: Vec<Option<Ink>>,
    cost: Cost,
    packs_to_buy: u64,
    blade_changes: u64,
    /// What followed from two timed jobs; null without them.
    timed: Option<timed::Found>,
    /// How the cost moves with the size of the sheet; empty for several designs and without prices.
    by_size: &'a [moves::Move],
    run: &'a RunSheet,
    notes: &'a [String],
}

/// Lengths of the whole run, in metres.
#[derive(Debug, Serialize)]
struct Lengths {
    kiss_m: f64,
    through_m: f64,
    travel_m: f64,
    blade_m: f64,
}

/// Estimates, in seconds.
#[derive(Debug, Serialize)]
struct Times {
    printing_s: f64,
    cutting_s: f64,
    done_s: f64,
    at_best_s: f64,
    labour_s: f64,
}

/// Shares of a sheet, 0 to 1.
#[derive(Debug, Serialize)]
struct Ink {
    cyan: f64,
    magenta: f64,
    yellow: f64,
    black: f64,
    sum: f64,
}

/// Estimates, in whole cents for the run and in parts of them for a sheet and a sticker.
#[derive(Debug, Serialize)]
struct Cost {
    currency: String,
    total_cents: i64,
    posts: serde_json::Map<String, serde_json::Value>,
    sheet_cents: f64,
    sticker_cents: f64,
    price_cents: i64,
}

impl<'a> RunReport<'a> {
    fn new(settings: &Settings, designs: &[Design], run: &'a RunSheet, notes: &'a [String]) -> RunReport<'a> {
        let metres = |length: fn(&Design) -> f64| -> f64 {
            let pages = designs.iter().zip(&run.designs);
            pages.map(|(design, run)| length(design) * (design.per_page * run.pages) as f64 / 1000.0).sum()
        };
        let posts = run.bill.posts.iter().map(|&(post, cents)| (word(post).to_owned(), cents.0.into()));
        RunReport {
            sheets: run.usage.sheets,
            sheets_per_page: designs.iter().map(|design| design.per_page).collect(),
            pages: run.pages,
            passes: settings.cutting.passes,
            lengths: Lengths {
                kiss_m: metres(|design| design.work.kiss_length()),
                through_m: metres(|design| design.work.through_length()),
                travel_m: metres(|design| design.work.travel_length()),
                blade_m: run.blade_m,
            },
            times: Times {
                printing_s: run.printing_s,
                cutting_s: run.cutting_s,
                done_s: run.schedule.done_s,
                at_best_s: run.schedule.at_best_s,
                labour_s: 60.0 * run.bill.labour_min,
            },
            ink: designs
                .iter()
                .map(|design| {
                    design.coverage.map(|ink| Ink {
                        cyan: ink.cyan,
                        magenta: ink.magenta,
                        yellow: ink.yellow,
                        black: ink.black,
                        sum: ink.sum(),
                    })
                })
                .collect(),
            cost: Cost {
                currency: settings.currency.clone(),
                total_cents: run.bill.total.0,
                posts: posts.collect(),
                sheet_cents: run.sheet_cents,
                sticker_cents: run.sticker_cents,
                price_cents: run.price.sheet.0,
            },
            packs_to_buy: run.packs_to_buy,
            blade_changes: run.blade_changes,
            timed: None,
            by_size: &[],
            run,
            notes,
        }
    }
}

fn word(post: Post) -> &'static str {
    match post {
        Post::Stock => "stock",
        Post::Ink => "ink",
        Post::Blades => "blades",
        Post::Mats => "mats",
        Post::Packaging => "packaging",
        Post::Labour => "labour",
    }
}

/// A time in hours and minutes, or in minutes and seconds where it is short.
fn time(seconds: f64) -> String {
    let whole = seconds.round() as u64;
    match (whole / 3600, whole / 60 % 60, whole % 60) {
        (0, 0, seconds) => format!("{seconds} s"),
        (0, minutes, seconds) => format!("{minutes} min {seconds:02} s"),
        (hours, minutes, _) => format!("{hours} h {minutes:02} min"),
    }
}

fn lines(settings: &Settings, run: &RunSheet, by_size: &str) -> String {
    let mut text = design_lines(run);
    let done = time(run.schedule.done_s);
    let at_best = if run.schedule.done_s > run.schedule.at_best_s * 1.001 {
        format!(", not before {}", time(run.schedule.at_best_s))
    } else {
        String::new()
    };
    text.push_str(&format!(
        "\n{} sheets on {} pages, spoilt ones with them; packs to buy: {}\n\
         printing {}, cutting {}; side by side done after {done}{at_best}\n\
         the blade cuts {:.1} m and is changed {} times\n",
        run.usage.sheets,
        run.pages,
        run.packs_to_buy,
        time(run.printing_s),
        time(run.cutting_s),
        run.blade_m,
        run.blade_changes,
    ));
    text.push_str(&cost_lines(settings, run));
    text.push_str(by_size);
    text.push_str("\nwhat to do:\n");
    for (number, task) in run.tasks.iter().enumerate() {
        text.push_str(&format!("{:>3}. {}\n", number + 1, deed(run, &task.deed)));
    }
    text.push_str(CAUTIONS);
    text
}

/// What to mind; the machine's manual and the law go first.
const CAUTIONS: &str = "\ntimes and costs are estimates from the figures typed in. A blade is sharp and moves by itself: \
    hands, hair and pets away, stay with it, change it with the plug pulled. Several passes can cut through the mat and into \
    the machine: try them on a test card first. The machine's manual goes before anything said here.\n";

fn design_lines(run: &RunSheet) -> String {
    let head = ["sheet", "sheets", "pages", "cut a page", "blade a page", "kiss", "through", "stops"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    rows.extend(run.designs.iter().map(|design| {
        vec![
            design.name.clone(),
            design.sheets.to_string(),
            design.pages.to_string(),
            time(design.page_cut_s),
            format!("{:.1} m", design.page_blade_m),
            format!("{:.0} mm", design.kiss_mm),
            format!("{:.0} mm in {} passes", design.through_mm, design.passes),
            design.corners.to_string(),
        ]
    }));
    let mut text = columns(&rows);
    for design in &run.designs {
        if let Some(ink) = design.coverage {
            text.push_str(&format!(
                "ink on {}: cyan {:.1} %, magenta {:.1} %, yellow {:.1} %, black {:.1} % of a sheet\n",
                design.name,
                100.0 * ink.cyan,
                100.0 * ink.magenta,
                100.0 * ink.yellow,
                100.0 * ink.black
            ));
        }
    }
    text
}

fn cost_lines(settings: &Settings, run: &RunSheet) -> String {
    if run.bill.posts.is_empty() {
        return "no prices are given, so there is no cost; give them with --settings\n".to_owned();
    }
    let currency = &settings.currency;
    let sign = if currency.is_empty() { String::new() } else { format!("{currency} ") };
    let mut rows = vec![vec!["cost".to_owned(), "run".to_owned(), "a sheet".to_owned()]];
    let each = |cents: f64| format!("{:.3}", cents / 100.0);
    for &(post, cents) in &run.bill.posts {
        rows.push(vec![word(post).to_owned(), cents.text(currency), each(cents.each(run.usage.sheets))]);
    }
    rows.push(vec!["all".to_owned(), run.bill.total.text(currency), each(run.sheet_cents)]);
    format!(
        "\n{}a sticker costs {sign}{}; ask {} a sheet to have {} % of it left after {sign}{} in fees\n",
        columns(&rows),
        each(run.sticker_cents),
        run.price.sheet.text(currency),
        settings.selling.margin_percent,
        each(run.price.fees)
    )
}

fn deed(run: &RunSheet, deed: &Deed) -> String {
    let name = |design: usize| &*run.designs[design].name;
    match *deed {
        Deed::Buy { packs } => format!("buy {packs} packs of label stock"),
        Deed::Try => "try the setting on a test card".to_owned(),
        Deed::Print { design, pages } => format!("print {pages} pages of {}", name(design)),
        Deed::Cut { design, pages } => format!("cut {pages} pages of {}, kiss lines first", name(design)),
        Deed::ChangeBlade { after_m } => {
            format!("change the blade after {after_m:.0} m, with the plug pulled")
        }
        Deed::Pack { sheets } => format!("pack {sheets} sheets"),
    }
}
