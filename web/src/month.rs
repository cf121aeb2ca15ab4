//! The month's work: a run of the sheet on the desk and of others with it, worked out from the shop's figures; what is done of it.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_press::cut::{self, CutOptions};
use stickleaf_sheet::Layout;
use stickleaf_shop::cutting::CutWork;
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::run::{Design, RunSheet, run_sheet};
use stickleaf_shop::settings::{Settings, SettingsError};

use crate::browser::keep::{keep, kept};
use crate::messages::{PictureAnswer, PictureAsk};
use crate::panels::month::Part;
use crate::picture_work::{Gathered, ask_once, gather};
use crate::run_order::RunOrder;
use crate::shop::Shop;
use crate::state::Desk;
use crate::words;

const SETTINGS: &str = "stickleaf.settings";
const TICKS: &str = "stickleaf.ticks.";

/// So many sheets are worked out until another number is typed in.
const USUAL_SHEETS: u64 = 100;

/// The run of the sheet on the desk. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Month {
    desk: Desk,
    /// The part that is looked at.
    pub part: RwSignal<Part>,
    /// The shop's figures.
    pub settings: RwSignal<Settings>,
    /// How many sheets are wanted.
    pub sheets: RwSignal<u64>,
    /// How much ink covers the sheet, once it was measured, and the state of the layout that it is of.
    ink: RwSignal<Option<(u64, Coverage)>>,
    /// Whether the ink is being measured.
    pub is_measuring: RwSignal<bool>,
    /// What was done, by the ids of tasks.
    pub ticks: RwSignal<BTreeSet<String>>,
    /// The run; nothing while no sheet lies on the page.
    pub run: Memo<Option<Result<RunSheet, SettingsError>>>,
}

impl Month {
    /// The figures as they were left, or as is usual.
    pub fn new(desk: Desk, shop: Shop, order: RunOrder) -> Month {
        let settings: RwSignal<Settings> = RwSignal::new(
            kept(SETTINGS).and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default(),
        );
        let sheets = RwSignal::new(USUAL_SHEETS);
        let ink: RwSignal<Option<(u64, Coverage)>> = RwSignal::new(None);
        let passes = Memo::new(move |_| settings.with(|settings| settings.cutting.passes));
        let work = Memo::new(move |_| {
            desk.finished.track();
            desk.peek(|editor| cut_work(editor.layout(), passes.get()))
        });
        let fresh = Memo::new(move |_| {
            let now = desk.finished.get();
            ink.get().filter(|(then, _)| *then == now).map(|(_, coverage)| coverage)
        });
        let run = Memo::new(move |_| {
            let per_page = shop.plan.with(|plan| plan.as_ref().ok().map(|plan| plan.positions.len()))?;
            let design = desk.layout.with(|layout| Design {
                name: layout.name.clone(),
                sheets: sheets.get(),
                stickers: layout.pieces.len() as u64,
                per_page: per_page as u64,
                sheet_mm2: layout.sheet.area(),
                work: work.get(),
                coverage: fresh.get(),
            });
            let others = shop.stock.with(|stock| order.designs(stock, passes.get()));
            let designs = [vec![design], others].concat();
            Some(settings.with(|settings| run_sheet(settings, &designs)))
        });
        let month = Month {
            desk,
            part: RwSignal::new(Part::default()),
            settings,
            sheets,
            ink,
            is_measuring: RwSignal::new(false),
            ticks: RwSignal::new(BTreeSet::new()),
            run,
        };
        Effect::new(move |_| month.ticks.set(kept_ticks(month.project())));
        month
    }

    /// Changes the figures if what comes of it makes sense, and keeps them; else says which one does not.
    pub fn change(self, edit: impl FnOnce(&mut Settings)) -> Result<(), SettingsError> {
        let mut settings = self.settings.get_untracked();
        edit(&mut settings);
        settings.validate()?;
        if let Ok(text) = serde_json::to_string(&settings) {
            // Without storage they hold for this visit.
            keep(SETTINGS, &text);
        }
        self.settings.set(settings);
        Ok(())
    }

    /// Ticks a task off, or takes the tick away; kept with the project.
    pub fn tick(self, task: &str) {
        self.ticks.update(|ticks| {
            if !ticks.remove(task) {
                ticks.insert(task.to_owned());
            }
        });
        if let Some(project) = self.project() {
            let ticks = self.ticks.with_untracked(serde_json::to_string);
            if let Ok(text) = ticks {
                keep(&format!("{TICKS}{project}"), &text);
            }
        }
    }

    /// Measures the ink of the sheet as it is now.
    pub fn measure_ink(self) {
        let revision = self.desk.finished.get_untracked();
        self.is_measuring.set(true);
        spawn_local(async move {
            let Gathered { layout, pictures, buffers } = gather(self.desk).await;
            ask_once(self.desk, &PictureAsk::Ink { layout, pictures }, &buffers, move |answer, _| {
                match answer {
                    PictureAnswer::Inked(coverage) => self.ink.set(Some((revision, coverage))),
                    PictureAnswer::Refused(why) => self.desk.say_trouble(words::sentence(&why)),
                    _ => return false,
                }
                self.is_measuring.set(false);
                true
            });
        });
    }

    /// The project on the desk, by its id; nothing before it was kept.
    fn project(self) -> Option<String> {
        self.desk.keeping.project.with(|project| project.as_ref().map(|project| project.id.clone()))
    }
}

fn kept_ticks(project: Option<String>) -> BTreeSet<String> {
    let text = project.and_then(|project| kept(&format!("{TICKS}{project}")));
    text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default()
}

/// What there is to cut on a sheet, its card gone over so often.
fn cut_work(layout: &Layout, passes: u32) -> CutWork {
    cut::work(&cut::plan(layout, &CutOptions { passes, ..CutOptions::default() }))
}
