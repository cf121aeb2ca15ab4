//! What else a run is made of: sheets of other layouts that are kept, beside those of the one on the desk. Kept with the
//! project.

use std::sync::Arc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::{Deserialize, Serialize};
use stickleaf_press::cut::{self, CutOptions};
use stickleaf_sheet::Layout;
use stickleaf_shop::ink::Coverage;
use stickleaf_shop::page::{Stock, plan};
use stickleaf_shop::run::Design;

use crate::browser::keep::{keep, kept};
use crate::correction;
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
    /// Which state of the project that is.
    revision: u64,
    /// How much ink covers a sheet of it, once it was measured.
    pub coverage: Option<Coverage>,
}

/// What is kept of another layout.
#[derive(Serialize, Deserialize)]
struct Kept {
    id: String,
    sheets: u64,
    /// The ink, and the state of the project that it was measured of.
    #[serde(default)]
    ink: Option<(u64, Coverage)>,
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
        let (revision, layout) = load(self.desk, id).await?;
        self.put(Other {
            id: id.to_owned(),
            sheets: USUAL_SHEETS,
            layout: Arc::new(layout),
            revision,
            coverage: None,
        });
        self.write();
        Ok(())
    }

    /// Notes how much ink covers a sheet of another layout, as it is here.
    pub fn set_coverage(self, id: &str, coverage: Coverage) {
        self.others.update(|others| {
            others
                .iter_mut()
                .filter(|other| other.id == id)
                .for_each(|other| other.coverage = Some(coverage));
        });
        self.write();
    }

    /// Those whose ink was not measured yet, by their ids.
    pub fn without_ink(self) -> Vec<String> {
        self.others.with_untracked(|others| {
            others.iter().filter(|other| other.coverage.is_none()).map(|other| other.id.clone()).collect()
        })
    }

    /// Them as designs of the run, on pages of this stock, the card gone over so often.
    pub fn designs(self, stock: &Stock, passes: u32) -> Vec<Design> {
        let design = |other: &Other| Design {
            name: other.layout.name.clone(),
            sheets: other.sheets,
            stickers: other.layout.pieces.len() as u64,
            per_page: plan(stock, other.layout.sheet.width, other.layout.sheet.height)
                .map_or(0, |plan| plan.positions.len() as u64),
            sheet_mm2: other.layout.sheet.area(),
            work: cut::work(&cut::plan(&other.layout, &CutOptions { passes, ..CutOptions::default() })),
            coverage: other.coverage,
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

    fn put(self, new: Other) {
        self.others.update(|others| {
            if others.iter().all(|other| other.id != new.id) {
                others.push(new);
            }
        });
    }

    fn read(self, project: Option<&str>) {
        self.others.set(Vec::new());
        let text = project.and_then(|project| kept(&format!("{OTHERS}{project}")));
        let kept = text.map(|text| read_kept(&text)).unwrap_or_default();
        let project = project.map(str::to_owned);
        spawn_local(async move {
            for Kept { id, sheets, ink } in kept {
                let loaded = load(self.desk, &id).await;
                if self.desk.keeping.id() != project {
                    return;
                }
                // One that was deleted is in no run any more, and what was measured of an older state is not its ink.
                if let Ok((revision, layout)) = loaded {
                    let coverage = ink.filter(|&(of, _)| of == revision).map(|(_, coverage)| coverage);
                    self.put(Other { id, sheets, layout: Arc::new(layout), revision, coverage });
                }
            }
        });
    }

    fn write(self) {
        let Some(project) = self.desk.keeping.id() else { return };
        let kept = |other: &Other| Kept {
            id: other.id.clone(),
            sheets: other.sheets,
            ink: other.coverage.map(|coverage| (other.revision, coverage)),
        };
        let others: Vec<Kept> = self.others.with_untracked(|others| others.iter().map(kept).collect());
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

/// A kept layout, and which state of its project it is.
async fn load(desk: Desk, id: &str) -> Result<(u64, Layout), Why> {
    let (project, text) = desk.keeping.store().await?.load(id).await?.ok_or(Why::Failed)?;
    if project.deleted_ms.is_some() {
        return Err(Why::Failed);
    }
    let layout = correction::read_kept(&text, project.changed_ms).map_err(|_| Why::Failed)?;
    Ok((project.revision, layout))
}

/// What was kept of a run; at first only ids and numbers of sheets were.
fn read_kept(text: &str) -> Vec<Kept> {
    let first = |text: &str| {
        let pairs: Vec<(String, u64)> = serde_json::from_str(text).unwrap_or_default();
        pairs.into_iter().map(|(id, sheets)| Kept { id, sheets, ink: None }).collect()
    };
    serde_json::from_str(text).unwrap_or_else(|_| first(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_older_page_kept_is_read() {
        let read = |text: &str| {
            read_kept(text).into_iter().map(|kept| (kept.id, kept.sheets, kept.ink)).collect::<Vec<_>>()
        };
        assert_eq!(read(r#"[["a", 3]]"#), [("a".to_owned(), 3, None)]);
        let ink = Coverage { black: 0.25, ..Coverage::default() };
        let kept = [Kept { id: "a".to_owned(), sheets: 3, ink: Some((7, ink)) }];
        assert_eq!(read(&serde_json::to_string(&kept).unwrap()), [("a".to_owned(), 3, Some((7, ink)))]);
        assert_eq!(read("no list"), []);
    }
}
