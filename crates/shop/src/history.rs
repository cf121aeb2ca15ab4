//! What runs used, kept from run to run, and as a table for spreadsheets.

use csv::Writer;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::money::Cents;
use crate::run::RunSheet;

/// All runs. Fields that this version does not know are kept.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct History {
    /// The runs, in the order in which they were noted.
    pub runs: Vec<RunRecord>,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

/// One run.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct RunRecord {
    /// The day, as the artist writes it.
    pub day: String,
    /// What was made: the designs' names.
    pub name: String,
    /// How many good sheets.
    pub sheets: u64,
    /// How many pages of label stock were planned, spoilt ones with them.
    pub pages: u64,
    /// How many of them were to come out good; 0 if that was not noted.
    pub good_pages: u64,
    /// How many were spoilt, counted afterwards; nothing if nobody counted.
    pub spoilt_pages: Option<u64>,
    /// How many metres the blades cut.
    pub blade_m: f64,
    /// How often the blade was changed.
    pub blade_changes: u64,
    /// The area covered by ink, all inks together, in square millimetres; nothing if it was not measured.
    pub ink_mm2: Option<f64>,
    /// Printing, machines together, in seconds.
    pub printing_s: f64,
    /// Cutting, machines together, in seconds.
    pub cutting_s: f64,
    /// What it cost.
    pub cost_cents: Cents,
    /// What was asked for a sheet.
    pub price_cents: Cents,
    /// Anything else.
    pub note: String,
    /// Fields of other versions.
    #[serde(flatten)]
    pub more: Map<String, Value>,
}

impl RunRecord {
    /// A run as it was planned, to be put right afterwards.
    pub fn planned(day: &str, run: &RunSheet) -> RunRecord {
        let names: Vec<&str> = run.designs.iter().map(|design| &*design.name).collect();
        RunRecord {
            day: day.to_owned(),
            name: names.join(", "),
            sheets: run.usage.sheets,
            pages: run.pages,
            good_pages: run.good_pages,
            spoilt_pages: None,
            blade_m: run.blade_m,
            blade_changes: run.blade_changes,
            ink_mm2: run.usage.ink_mm2,
            printing_s: run.printing_s,
            cutting_s: run.cutting_s,
            cost_cents: run.bill.total,
            price_cents: run.price.sheet,
            note: String::new(),
            more: Map::new(),
        }
    }
}

/// The first row.
const HEADINGS: [&str; 14] = [
    "day",
    "name",
    "sheets",
    "pages",
    "blade_m",
    "blade_changes",
    "ink_mm2",
    "printing_s",
    "cutting_s",
    "cost",
    "price_of_a_sheet",
    "note",
    "good_pages",
    "spoilt_pages",
];

/// The runs as comma-separated values (RFC 4180), one row each.
///
/// Money is in whole units with two decimals, without the currency's sign; other numbers have at most three decimals. What was
/// not measured is empty. A text that a spreadsheet would take for a formula gets an apostrophe in front.
pub fn csv(history: &History) -> String {
    let mut table = Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every row is as long as the first.
    let _ = table.write_record(HEADINGS);
    for run in &history.runs {
        let _ = table.write_record([
            harmless(&run.day),
            harmless(&run.name),
            run.sheets.to_string(),
            run.pages.to_string(),
            number(run.blade_m),
            run.blade_changes.to_string(),
            run.ink_mm2.map_or_else(String::new, number),
            number(run.printing_s),
            number(run.cutting_s),
            run.cost_cents.text(""),
            run.price_cents.text(""),
            harmless(&run.note),
            run.good_pages.to_string(),
            run.spoilt_pages.map_or_else(String::new, |spoilt| spoilt.to_string()),
        ]);
    }
    String::from_utf8(table.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn number(value: f64) -> String {
    ((value * 1000.0).round() / 1000.0 + 0.0).to_string()
}

/// The text, with an apostrophe in front if a spreadsheet would run it as a formula.
///
/// Source: OWASP, "CSV Injection": a cell that begins with = + - @, a tab or a carriage return.
fn harmless(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_become_rows() {
        let run = RunRecord {
            day: "2026-11-27".to_owned(),
            name: "Tide pool, \"big\"".to_owned(),
            sheets: 300,
            pages: 158,
            good_pages: 150,
            spoilt_pages: Some(9),
            blade_m: 1264.0,
            blade_changes: 2,
            printing_s: 14220.0,
            cutting_s: 0.1 + 0.2,
            cost_cents: Cents(7900),
            price_cents: Cents(5),
            note: "=1+1".to_owned(),
            ..RunRecord::default()
        };
        let text = csv(&History { runs: vec![run], ..History::default() });
        let rows: Vec<&str> = text.lines().collect();
        assert_eq!(rows[0].split(',').count(), 14);
        assert_eq!(
            rows[1],
            "2026-11-27,\"Tide pool, \"\"big\"\"\",300,158,1264,2,,14220,0.3,79.00,0.05,'=1+1,150,9"
        );
    }

    #[test]
    fn a_history_is_read_with_gaps_and_keeps_what_it_does_not_know() {
        let text = r#"{"runs":[{"name":"Tide pool","weather":"dry"}],"shop":"mine"}"#;
        let history: History = serde_json::from_str(text).unwrap();
        let again = serde_json::to_value(&history).unwrap();
        assert_eq!((&again["shop"], &again["runs"][0]["weather"]), (&"mine".into(), &"dry".into()));
        assert_eq!(again["runs"][0]["cost_cents"], 0);
    }
}
