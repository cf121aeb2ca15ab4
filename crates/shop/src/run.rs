//! A run: so many sheets of each design, and all that follows: pages, order of work, time, ink, blades, stock, cost, price.

use serde::Serialize;

use crate::costs::{Bill, Price, Usage, bill, price};
use crate::cutting::CutWork;
use crate::ink::Coverage;
use crate::schedule::{Pages, Schedule, schedule};
use crate::settings::{Settings, SettingsError};

/// One design of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// What it is called.
    pub name: String,
    /// How many sheets are wanted.
    pub sheets: u64,
    /// How many stickers are on a sheet.
    pub stickers: u64,
    /// How many sheets lie on a page.
    pub per_page: u64,
    /// The area of a sheet in square millimetres, bleed left out.
    pub sheet_mm2: f64,
    /// What there is to cut on a sheet.
    pub work: CutWork,
    /// How much ink covers a sheet; nothing if it could not be measured.
    pub coverage: Option<Coverage>,
}

/// What a run comes to. Times in seconds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunSheet {
    /// Each design, in the order in which they were given.
    pub designs: Vec<DesignRun>,
    /// What to do, in order.
    pub tasks: Vec<Task>,
    /// Pages in all, spoilt ones with them.
    pub pages: u64,
    /// Pages that are to come out good.
    pub good_pages: u64,
    /// How many pages are to be bought, in whole packs, beside those in hand.
    pub packs_to_buy: u64,
    /// Printing, machines together.
    pub printing_s: f64,
    /// Cutting, machines together, loading with it.
    pub cutting_s: f64,
    /// How the machines work side by side.
    pub schedule: Schedule,
    /// How many metres the blades cut.
    pub blade_m: f64,
    /// How often the blade is changed.
    pub blade_changes: u64,
    /// What is used up.
    pub usage: Usage,
    /// What it costs.
    pub bill: Bill,
    /// What one sheet costs, in cents and parts of them.
    pub sheet_cents: f64,
    /// What one sticker costs, in cents and parts of them.
    pub sticker_cents: f64,
    /// What to ask for a sheet.
    pub price: Price,
}

/// What one design comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DesignRun {
    /// What it is called.
    pub name: String,
    /// How many sheets are wanted.
    pub sheets: u64,
    /// How many pages are printed, spoilt ones with them.
    pub pages: u64,
    /// How long a page takes to cut, loading with it.
    pub page_cut_s: f64,
    /// How many metres the blade cuts on a page.
    pub page_blade_m: f64,
    /// The kiss lines of a sheet, in millimetres.
    pub kiss_mm: f64,
    /// The through line of a sheet, all passes.
    pub through_mm: f64,
    /// How often the through line is gone over.
    pub passes: u32,
    /// The ways of the lifted blade on a sheet.
    pub travel_mm: f64,
    /// At how many places on a sheet the blade stops within its lines.
    pub corners: u64,
    /// How much ink covers a sheet.
    pub coverage: Option<Coverage>,
}

/// Something to do; what is done is ticked off by its id.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Task {
    /// Stays the same as long as the task does.
    pub id: String,
    /// What it is.
    pub deed: Deed,
}

/// What there is to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Deed {
    /// Buy so many packs of label stock.
    Buy {
        /// How many packs.
        packs: u64,
    },
    /// Try the setting on a test card.
    Try,
    /// Print these pages.
    Print {
        /// Which design, by its position.
        design: usize,
        /// How many pages.
        pages: u64,
    },
    /// Cut these pages.
    Cut {
        /// Which design, by its position.
        design: usize,
        /// How many pages.
        pages: u64,
    },
    /// Change the blade before it has cut so many more metres.
    ChangeBlade {
        /// How many metres from the start of the run.
        after_m: f64,
    },
    /// Pack so many sheets.
    Pack {
        /// How many sheets.
        sheets: u64,
    },
}

/// No run has more sheets than this.
const MOST_SHEETS: u64 = 1_000_000;

/// The run sheet. A design of which no sheet lies on a page, or no sheet is wanted, takes no pages.
///
/// Every figure in money and time is an estimate from what was typed in. Errors: settings that make no sense.
pub fn run_sheet(settings: &Settings, designs: &[Design]) -> Result<RunSheet, SettingsError> {
    settings.validate()?;
    let runs: Vec<DesignRun> = designs.iter().map(|design| design_run(settings, design)).collect();
    let pages: Vec<Pages> = runs
        .iter()
        .map(|run| Pages { count: run.pages, print_s: settings.printing.page_s, cut_s: run.page_cut_s })
        .collect();
    let all_pages: u64 = runs.iter().map(|run| run.pages).sum();
    let sheets: u64 = designs.iter().map(|design| design.sheets.min(MOST_SHEETS)).sum();
    let stickers: u64 = designs.iter().map(|design| design.sheets.min(MOST_SHEETS) * design.stickers).sum();
    let blade_m = runs.iter().map(|run| run.page_blade_m * run.pages as f64).sum();
    let inks = designs.iter().zip(&runs).map(|(design, run)| {
        let sheets = (run.pages * design.per_page) as f64;
        design.coverage.map(|coverage| sheets * design.sheet_mm2 * coverage.sum())
    });
    let usage = Usage { sheets, pages: all_pages, ink_mm2: inks.sum(), blade_m };
    let bill = bill(settings, &usage);
    let schedule = schedule(&pages, settings.printing.printers, settings.cutting.cutters);
    let to_buy = all_pages.saturating_sub(settings.stock.in_hand.into());
    let packs_to_buy = to_buy.div_ceil(u64::from(settings.stock.pack_pages.max(1)));
    let changes = blade_changes(settings, blade_m);
    let sheet_cents = bill.total.each(sheets);
    Ok(RunSheet {
        tasks: tasks(&runs, &schedule, packs_to_buy, &changes, sheets),
        pages: all_pages,
        good_pages: designs.iter().map(good_pages).sum(),
        packs_to_buy,
        printing_s: pages.iter().map(|pages| pages.count as f64 * pages.print_s).sum(),
        cutting_s: pages.iter().map(|pages| pages.count as f64 * pages.cut_s).sum(),
        schedule,
        blade_m,
        blade_changes: changes.len() as u64,
        usage,
        sheet_cents,
        sticker_cents: bill.total.each(stickers),
        price: price(&settings.selling, sheet_cents),
        bill,
        designs: runs,
    })
}

fn design_run(settings: &Settings, design: &Design) -> DesignRun {
    let work = &design.work;
    let machine = &settings.cutting.machine;
    let per_page = design.per_page as f64;
    DesignRun {
        name: design.name.clone(),
        sheets: design.sheets,
        pages: pages_for(design.sheets.min(MOST_SHEETS), design.per_page, settings.printing.spoilage_percent),
        page_cut_s: machine.load_s + per_page * machine.seconds(work),
        page_blade_m: per_page * work.blade_metres(),
        kiss_mm: work.kiss_length(),
        through_mm: work.through_length(),
        passes: work.passes,
        travel_mm: work.travel_length(),
        corners: work.corners() as u64,
        coverage: design.coverage,
    }
}

/// How many pages have to come out good.
fn good_pages(design: &Design) -> u64 {
    if design.per_page == 0 { 0 } else { design.sheets.min(MOST_SHEETS).div_ceil(design.per_page) }
}

/// How many pages give so many good sheets when so many of a hundred are spoilt.
fn pages_for(sheets: u64, per_page: u64, spoilage_percent: f64) -> u64 {
    if per_page == 0 {
        return 0;
    }
    let good = sheets.div_ceil(per_page) as f64;
    // The trace of arithmetic is no page.
    (good / (1.0 - spoilage_percent / 100.0) - 1e-9).ceil() as u64
}

/// After how many metres of the run the blade is due, each time.
fn blade_changes(settings: &Settings, blade_m: f64) -> Vec<f64> {
    let life = settings.cutting.blade_m;
    let first = (life - settings.cutting.blade_used_m).max(0.0);
    // A blade that lasts a hundred times less than a run is a slip of the hand.
    (0..1000).map(|i| first + f64::from(i) * life).take_while(|&after| after < blade_m).collect()
}

fn tasks(runs: &[DesignRun], schedule: &Schedule, packs: u64, changes: &[f64], sheets: u64) -> Vec<Task> {
    let mut tasks = Vec::new();
    let mut add = |id: String, deed: Deed| tasks.push(Task { id, deed });
    if packs > 0 {
        add("buy".to_owned(), Deed::Buy { packs });
    }
    if !schedule.order.is_empty() {
        add("try".to_owned(), Deed::Try);
    }
    for &design in &schedule.order {
        let pages = runs[design].pages;
        add(format!("print-{design}"), Deed::Print { design, pages });
        add(format!("cut-{design}"), Deed::Cut { design, pages });
    }
    for (i, &after_m) in changes.iter().enumerate() {
        add(format!("blade-{i}"), Deed::ChangeBlade { after_m });
    }
    if sheets > 0 {
        add("pack".to_owned(), Deed::Pack { sheets });
    }
    tasks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::money::Cents;

    fn design(sheets: u64, per_page: u64) -> Design {
        Design {
            name: "Tide pool".to_owned(),
            sheets,
            stickers: 20,
            per_page,
            sheet_mm2: 15_000.0,
            work: CutWork {
                kiss: vec![100.0; 20],
                through: vec![500.0],
                passes: 4,
                travel: vec![20.0; 20],
                lines: 24,
            },
            coverage: Some(Coverage { black: 0.5, ..Coverage::default() }),
        }
    }

    #[test]
    fn pages_allow_for_what_is_spoilt() {
        // 300 sheets, two on a page: 150 good pages; 5 % spoilt: 150 / 0.95 = 157.9, so 158.
        assert_eq!(pages_for(300, 2, 5.0), 158);
        assert_eq!(pages_for(300, 2, 0.0), 150);
        assert_eq!(pages_for(1, 4, 0.0), 1);
        assert_eq!((pages_for(0, 2, 5.0), pages_for(5, 0, 5.0)), (0, 0));
    }

    #[test]
    fn blades_are_changed_when_they_are_due() {
        let mut settings = Settings::default();
        (settings.cutting.blade_m, settings.cutting.blade_used_m) = (300.0, 250.0);
        // Due after 50 m, and then every 300 m: at 50 and at 350 of 400 m.
        assert_eq!(blade_changes(&settings, 400.0), [50.0, 350.0]);
        assert_eq!(blade_changes(&settings, 50.0), Vec::<f64>::new());
    }

    /// Worked by hand, step by step.
    #[test]
    fn a_run_comes_to_what_the_spreadsheet_says() {
        let mut settings = Settings::default();
        (settings.stock.pack_cents, settings.stock.pack_pages, settings.stock.in_hand) = (Cents(1250), 25, 8);
        settings.printing.page_s = 90.0;
        let run = run_sheet(&settings, &[design(300, 2)]).unwrap();
        assert_eq!((run.good_pages, run.pages), (150, 158));
        // 158 less 8 in hand: 150, six packs.
        assert_eq!(run.packs_to_buy, 6);
        assert_eq!(run.printing_s, 158.0 * 90.0);
        // A sheet: 20 x 100 mm + 4 x 500 mm = 4 m, a page 8 m, the run 1264 m; a blade of 500 m is changed at 500 and 1000.
        assert_eq!((run.blade_m, run.blade_changes), (1264.0, 2));
        // Stock only: 158 x 1250 / 25 = 7900 cents, 26.33 a sheet.
        assert_eq!(run.bill.total, Cents(7900));
        assert!((run.sheet_cents - 26.333).abs() < 0.001 && (run.sticker_cents - 1.3167).abs() < 0.0001);
        assert_eq!(run.bill.total.shares(300).sum::<Cents>(), Cents(7900));
        let ids: Vec<&str> = run.tasks.iter().map(|task| &*task.id).collect();
        assert_eq!(ids, ["buy", "try", "print-0", "cut-0", "blade-0", "blade-1", "pack"]);
    }

    #[test]
    fn fewer_sheets_on_a_page_never_make_them_cheaper() {
        let mut settings = Settings::default();
        settings.stock.pack_cents = Cents(1250);
        let cost = |per_page: u64| run_sheet(&settings, &[design(300, per_page)]).unwrap().sheet_cents;
        let costs: Vec<f64> = (1..=6).map(cost).collect();
        assert!(costs.windows(2).all(|pair| pair[0] >= pair[1]), "{costs:?}");
    }

    #[test]
    fn ink_that_was_not_measured_is_not_guessed() {
        let mut unknown = design(10, 2);
        unknown.coverage = None;
        let run = run_sheet(&Settings::default(), &[design(10, 2), unknown]).unwrap();
        assert_eq!(run.usage.ink_mm2, None);
    }
}
