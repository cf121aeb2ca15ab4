//! The month's work: a run of the sheet on the desk and of others with it, worked out from the shop's figures; what is done of it.

use std::collections::BTreeSet;

use js_sys::ArrayBuffer;
use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::Serialize;
use serde::de::DeserializeOwned;
use stickleaf_press::cut::{self, CutOptions, Depths};
use stickleaf_press::unit_cost;
use stickleaf_sheet::Layout;
use stickleaf_shop::cutting::CutWork;
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::run::{Design, RunSheet, run_sheet};
use stickleaf_shop::settings::{Settings, SettingsError};
use stickleaf_shop::what_if::WhatIf;

use crate::browser::keep::{keep, kept};
use crate::keeping;
use crate::messages::{PictureAnswer, PictureAsk};
use crate::panels::month::Part;
use crate::picture_work::{Gathered, ask_once, gather};
use crate::run_order::RunOrder;
use crate::shop::Shop;
use crate::state::{Desk, Offer};
use crate::words;

const SETTINGS: &str = "stickleaf.settings";
const TICKS: &str = "stickleaf.ticks.";
const SHEETS: &str = "stickleaf.sheets.";

/// So many sheets are worked out until another number is typed in.
const USUAL_SHEETS: u64 = 100;

/// The run of the sheet on the desk. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct Month {
    desk: Desk,
    shop: Shop,
    order: RunOrder,
    /// The part that is looked at.
    pub part: RwSignal<Part>,
    /// The shop's figures.
    pub settings: RwSignal<Settings>,
    /// How many sheets are wanted.
    pub sheets: RwSignal<u64>,
    /// How much ink covers the sheet, once it was measured, and the state of the layout that it is of.
    ink: RwSignal<Option<(u64, Coverage)>>,
    /// What the figures and the number of sheets were before something was put into them.
    before: StoredValue<Option<(Settings, u64)>>,
    /// What was done of the run before this one.
    ticks_before: StoredValue<BTreeSet<String>>,
    /// Whether the ink is being measured.
    pub is_measuring: RwSignal<bool>,
    /// What was done, by the ids of tasks.
    pub ticks: RwSignal<BTreeSet<String>>,
    /// The sheet on the desk as a design of a run; nothing while none lies on the page.
    pub design: Memo<Option<Design>>,
    /// What is tried beside it.
    pub what_if: RwSignal<WhatIf>,
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
            desk.peek(|editor| cut_work(editor.layout(), Depths::All, passes.get()))
        });
        let fresh = Memo::new(move |_| {
            let now = desk.finished.get();
            ink.get().filter(|(then, _)| *then == now).map(|(_, coverage)| coverage)
        });
        let design = Memo::new(move |_| {
            let per_page = shop.plan.with(|plan| plan.as_ref().ok().map(|plan| plan.positions.len()))?;
            Some(desk.layout.with(|layout| Design {
                name: layout.name.clone(),
                sheets: sheets.get(),
                stickers: layout.pieces.len() as u64,
                per_page: per_page as u64,
                sheet_mm2: layout.sheet.area(),
                work: work.get(),
                coverage: fresh.get(),
            }))
        });
        let run = Memo::new(move |_| {
            let design = design.get()?;
            let others = shop.stock.with(|stock| order.designs(stock, passes.get()));
            let designs = [vec![design], others].concat();
            Some(settings.with(|settings| run_sheet(settings, &designs)))
        });
        let month = Month {
            desk,
            shop,
            order,
            part: RwSignal::new(Part::default()),
            settings,
            sheets,
            ink,
            before: StoredValue::new(None),
            ticks_before: StoredValue::new(BTreeSet::new()),
            is_measuring: RwSignal::new(false),
            ticks: RwSignal::new(BTreeSet::new()),
            design,
            what_if: RwSignal::new(WhatIf::default()),
            run,
        };
        Effect::new(move |before: Option<Option<String>>| {
            let now = month.project();
            month.follow(before.flatten(), now.as_deref());
            now
        });
        month
    }

    /// Takes up what was noted of the project that lies on the desk now. A sheet that has just become a project keeps what
    /// was noted before it was one.
    fn follow(self, before: Option<String>, now: Option<&str>) {
        if before.as_deref() == now {
            return;
        }
        let ticks = kept_with(TICKS, now);
        let sheets = kept_with(SHEETS, now);
        let is_unknown = ticks.is_none() && sheets.is_none();
        if before.is_none() && is_unknown {
            self.keep_ticks();
            self.set_sheets(self.sheets.get_untracked());
        } else {
            self.ticks.set(ticks.unwrap_or_default());
            self.sheets.set(sheets.unwrap_or(USUAL_SHEETS));
        }
    }

    /// Works another number of sheets out; kept with the project, for the next run of it.
    pub fn set_sheets(self, sheets: u64) {
        self.sheets.set(sheets);
        self.keep_with(SHEETS, &sheets);
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

    /// What a sheet of another layout would cost in a run of the same length, and a sticker of it, in cents and without ink,
    /// which is not measured for it. Nothing while no prices are known, or no such sheet lies on the page.
    pub fn costs_of(self, layout: &Layout) -> Option<(f64, f64)> {
        let sheets = self.sheets.get();
        self.shop
            .stock
            .with(|stock| self.settings.with(|settings| unit_cost(layout, stock, settings, sheets)))
    }

    /// Puts what was found into the figures, and the number of sheets; says so, and offers to take it back.
    pub fn put(self, settings: Settings, sheets: u64) -> Result<(), SettingsError> {
        let before = (self.settings.get_untracked(), self.sheets.get_untracked());
        self.change(|now| *now = settings)?;
        self.set_sheets(sheets);
        self.before.set_value(Some(before));
        self.desk.say(words::figures_are_taken(), Some(Offer::FiguresBack));
        Ok(())
    }

    /// Takes back what was last put into the figures.
    pub fn take_back(self) {
        if let Some((settings, sheets)) = self.before.try_update_value(Option::take).flatten() {
            // They made sense before.
            let _ = self.change(|now| *now = settings);
            self.set_sheets(sheets);
        }
    }

    /// Ticks a task off, or takes the tick away; kept with the project.
    pub fn tick(self, task: &str) {
        self.ticks.update(|ticks| {
            if !ticks.remove(task) {
                ticks.insert(task.to_owned());
            }
        });
        self.keep_ticks();
    }

    /// Takes all ticks away, for another run of the sheet; says so, and offers to have them back.
    pub fn begin_again(self) {
        let ticks = self.ticks.try_update(std::mem::take);
        self.ticks_before.set_value(ticks.unwrap_or_default());
        self.keep_ticks();
        self.desk.say(words::tasks_begin_again(), Some(Offer::TicksBack));
    }

    /// Has the ticks back that were taken away last.
    pub fn ticks_back(self) {
        self.ticks.set(self.ticks_before.get_value());
        self.keep_ticks();
    }

    fn keep_ticks(self) {
        self.ticks.with_untracked(|ticks| self.keep_with(TICKS, ticks));
    }

    /// Keeps something with the project on the desk; before it is one, for as long as it lies there.
    fn keep_with(self, what: &str, value: &impl Serialize) {
        let project = self
            .desk
            .keeping
            .project
            .with_untracked(|project| project.as_ref().map(|project| project.id.clone()));
        if let (Some(project), Ok(text)) = (project, serde_json::to_string(value)) {
            // Without storage it holds for this visit.
            keep(&format!("{what}{project}"), &text);
        }
    }

    /// Measures the ink of the sheet as it is now, and of the others of the run whose ink is not known yet.
    pub fn measure_ink(self) {
        let revision = self.desk.finished.get_untracked();
        let others = self.order.without_ink();
        self.is_measuring.set(true);
        spawn_local(async move {
            let Gathered { layout, pictures, buffers } = gather(self.desk).await;
            self.ask_ink(layout, pictures, buffers, others, move |coverage| {
                self.ink.set(Some((revision, coverage)))
            });
        });
    }

    /// Measures the ink of the first of these, and then of the rest.
    fn measure_others(self, mut others: Vec<String>) {
        let Some(id) = others.pop() else { return self.is_measuring.set(false) };
        spawn_local(async move {
            match keeping::with_pictures(self.desk, &id).await {
                Ok((layout, found)) => {
                    let (pictures, buffers) = found.into_iter().unzip();
                    self.ask_ink(layout, pictures, buffers, others, move |coverage| {
                        self.order.set_coverage(&id, coverage)
                    });
                }
                Err(why) => {
                    self.desk.say_trouble(words::could_not_do(words::measure_ink(), why));
                    self.measure_others(others);
                }
            }
        });
    }

    /// Has the ink of a layout measured and noted, and goes on with the others whether that could be done or not.
    fn ask_ink(
        self,
        layout: String,
        pictures: Vec<String>,
        buffers: Vec<ArrayBuffer>,
        others: Vec<String>,
        note: impl Fn(Coverage) + 'static,
    ) {
        ask_once(self.desk, &PictureAsk::Ink { layout, pictures }, &buffers, move |answer, _| {
            match answer {
                PictureAnswer::Inked(coverage) => note(coverage),
                PictureAnswer::Refused(why) => self.desk.say_trouble(words::sentence(&why)),
                _ => return false,
            }
            self.measure_others(others.clone());
            true
        });
    }

    /// The project on the desk, by its id; nothing before it was kept.
    fn project(self) -> Option<String> {
        self.desk.keeping.project.with(|project| project.as_ref().map(|project| project.id.clone()))
    }
}

/// What was kept with a project.
fn kept_with<T: DeserializeOwned>(what: &str, project: Option<&str>) -> Option<T> {
    serde_json::from_str(&kept(&format!("{what}{}", project?))?).ok()
}

/// What there is to cut on a sheet of these depths, its card gone over so often.
pub fn cut_work(layout: &Layout, depths: Depths, passes: u32) -> CutWork {
    cut::work_of(&cut::plan(layout, &CutOptions { passes, ..CutOptions::default() }), depths)
}
