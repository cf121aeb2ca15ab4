//! What else a run is made of: sheets of other layouts that are kept, beside those of the one on the desk. Kept with the
//! project.

use std::sync::Arc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use stickleaf_press::cut::{self, CutOptions};
use stickleaf_sheet::Layout;
use stickleaf_shop::page::{Stock, plan};
use stickleaf_shop::run::Design;

use crate::browser::keep::{keep, kept};
use crate::keeping::Why;
use crate::state::Desk;

const OTHERS: &str = "stickleaf.run-others.";

/// So many sheets of it are wanted until another number is typed in.
const USUAL_SHEETS: u64 = 100;

/// Another layout of the run.
#[derive(Clone, Debug)]
pub struct Other {
    /// Its project, by its id.
    pub id: String,
    /// How many sheets of it are wanted.
    pub sheets: u64,
    /// The layout as it was kept when it was put here.
    pub layout: Arc<Layout>,
}

/// The other layouts of a run. A handle, copied freely.
#[derive(Clone, Copy)]
pub struct RunOrder {
    desk: Desk,
    /// In the order in which they were put here.
    pub others: RwSignal<Vec<Other>>,
}

impl RunOrder {
    /// As they were kept with the project on the desk; follows the desk from project to project.
    pub fn new(desk: Desk) -> RunOrder {
        let order = RunOrder { desk, others: RwSignal::new(Vec::new()) };
        let project = Memo::new(move |_| order.project());
        Effect::new(move |before: Option<Option<String>>| {
            let now = project.get();
            let has_others = order.others.with_untracked(|others| !others.is_empty());
            if matches!(before, Some(None)) && has_others {
                // What was put here before there was a project is that project's.
                order.write();
            } else {
                order.read(now.as_deref());
            }
            now
        });
        order
    }

    /// How many sheets of another layout are wanted from now on.
    pub fn set_other(self, id: &str, sheets: u64) {
        self.others.update(|others| {
            others.iter_mut().filter(|other| other.id == id).for_each(|other| other.sheets = sheets);
        });
        self.write();
    }

    /// Takes another layout out of the run.
    pub fn remove(self, id: &str) {
        self.others.update(|others| others.retain(|other| other.id != id));
        self.write();
    }

    /// Puts a kept layout into the run, if it is not there yet.
    ///
    /// Errors: it cannot be read from the device.
    pub async fn add(self, id: &str) -> Result<(), Why> {
        let layout = load(self.desk, id).await?;
        self.put(id, USUAL_SHEETS, layout);
        self.write();
        Ok(())
    }

    /// Them as designs of the run, on pages of this stock, the card gone over so often. Their ink is not known.
    pub fn designs(self, stock: &Stock, passes: u32) -> Vec<Design> {
        let design = |other: &Other| Design {
            name: other.layout.name.clone(),
            sheets: other.sheets,
            stickers: other.layout.pieces.len() as u64,
            per_page: plan(stock, other.layout.sheet.width, other.layout.sheet.height)
                .map_or(0, |plan| plan.positions.len() as u64),
            sheet_mm2: other.layout.sheet.area(),
            work: cut::work(&cut::plan(&other.layout, &CutOptions { passes, ..CutOptions::default() })),
            coverage: None,
        };
        self.others.with(|others| others.iter().map(design).collect())
    }

    /// What a task about the design at this position is remembered by: positions change, projects stay.
    pub fn key(self, design: usize) -> String {
        let other = design
            .checked_sub(1)
            .and_then(|i| self.others.with(|others| others.get(i).map(|other| other.id.clone())));
        other.unwrap_or_else(|| "0".to_owned())
    }

    fn put(self, id: &str, sheets: u64, layout: Layout) {
        self.others.update(|others| {
            if others.iter().all(|other| other.id != id) {
                others.push(Other { id: id.to_owned(), sheets, layout: Arc::new(layout) });
            }
        });
    }

    fn read(self, project: Option<&str>) {
        self.others.set(Vec::new());
        let text = project.and_then(|project| kept(&format!("{OTHERS}{project}")));
        let kept: Vec<(String, u64)> =
            text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default();
        let project = project.map(str::to_owned);
        spawn_local(async move {
            for (id, sheets) in kept {
                let layout = load(self.desk, &id).await;
                if self.desk.keeping.id() != project {
                    return;
                }
                // One that was deleted is in no run any more.
                if let Ok(layout) = layout {
                    self.put(&id, sheets, layout);
                }
            }
        });
    }

    fn write(self) {
        let Some(project) = self.desk.keeping.id() else { return };
        let others: Vec<(String, u64)> = self
            .others
            .with_untracked(|others| others.iter().map(|other| (other.id.clone(), other.sheets)).collect());
        if let Ok(text) = serde_json::to_string(&others) {
            // Without storage it holds for this visit.
            keep(&format!("{OTHERS}{project}"), &text);
        }
    }

    /// The project on the desk, by its id; nothing before it was kept.
    fn project(self) -> Option<String> {
        self.desk.keeping.project.with(|project| project.as_ref().map(|project| project.id.clone()))
    }
}

async fn load(desk: Desk, id: &str) -> Result<Layout, Why> {
    let (project, text) = desk.keeping.store().await?.load(id).await?.ok_or(Why::Failed)?;
    if project.deleted_ms.is_some() {
        return Err(Why::Failed);
    }
    stickleaf_files::read(&text).map_err(|_| Why::Failed)
}
