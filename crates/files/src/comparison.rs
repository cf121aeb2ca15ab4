//! Variants of a layout held against each other: their figures as a table for spreadsheets.

use csv::Writer;
use stickleaf_sheet::Summary;

use crate::number::Number;
use crate::table::harmless;

/// One variant and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// What it is called.
    pub name: String,
    /// Its figures; or a sentence that says why it was not packed.
    pub result: Result<Summary, String>,
    /// What it costs; nothing where that is not known.
    pub cost: Option<VariantCost>,
    /// What one should know about it, a sentence each.
    pub remarks: Vec<String>,
}

/// What a variant costs, ink aside, in cents and parts of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VariantCost {
    /// A sheet.
    pub sheet_cents: f64,
    /// A sticker of it.
    pub sticker_cents: f64,
}

/// The first row.
const HEADINGS: [&str; 11] = [
    "variant",
    "placed",
    "difference to the first",
    "wanted but not placed",
    "at most",
    "density (%)",
    "smallest gap between cut lines (mm)",
    "largest empty dot (mm across)",
    "cost of a sheet (ink aside)",
    "cost of a sticker (ink aside)",
    "remarks",
];

/// How many more pieces each variant holds than the first one; nothing where one of the two was not packed.
pub fn differences(variants: &[Compared]) -> Vec<Option<i64>> {
    let placed = |variant: &Compared| Some(variant.result.as_ref().ok()?.placed as i64);
    let first = variants.first().and_then(placed);
    variants.iter().map(|variant| Some(placed(variant)? - first?)).collect()
}

/// The table of the variants as comma-separated values (RFC 4180), in their order.
///
/// Numbers have a dot and at most three decimals; what is not known is left empty. Money is in whole units without the
/// currency's sign. A text that a spreadsheet would take for a formula gets an apostrophe in front.
pub fn table(variants: &[Compared]) -> String {
    let mut table = Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every row is as long as the first.
    let _ = table.write_record(HEADINGS);
    for (variant, difference) in variants.iter().zip(differences(variants)) {
        let _ = table.write_record(row(variant, difference));
    }
    String::from_utf8(table.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn row(variant: &Compared, difference: Option<i64>) -> [String; HEADINGS.len()] {
    let number = |value: f64| Number::thousandths(value).0.to_string();
    let figure = |get: fn(&Summary) -> Option<f64>| {
        variant.result.as_ref().ok().and_then(get).map(number).unwrap_or_default()
    };
    let money =
        |get: fn(VariantCost) -> f64| variant.cost.map(|cost| number(get(cost) / 100.0)).unwrap_or_default();
    let trouble = variant.result.as_ref().err();
    let remarks: Vec<&str> = trouble.into_iter().chain(&variant.remarks).map(String::as_str).collect();
    [
        harmless(&variant.name),
        figure(|summary| Some(summary.placed as f64)),
        difference.map(|difference| difference.to_string()).unwrap_or_default(),
        figure(|summary| Some(summary.missing as f64)),
        figure(|summary| Some(summary.ceiling as f64)),
        figure(|summary| Some(100.0 * summary.density)),
        figure(|summary| summary.smallest_gap),
        figure(|summary| summary.largest_dot),
        money(|cost| cost.sheet_cents),
        money(|cost| cost.sticker_cents),
        harmless(&remarks.join("; ")),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    pub(crate) fn compared(name: &str, placed: usize) -> Compared {
        let summary = Summary {
            placed,
            missing: 1,
            ceiling: 30,
            density: 0.7125,
            smallest_gap: Some(2.000_4),
            largest_dot: None,
        };
        Compared { name: name.into(), result: Ok(summary), cost: None, remarks: Vec::new() }
    }

    #[test]
    fn rows_tell_figures_and_what_was_not_packed() {
        let mut frame = compared("Frame", 21);
        frame.remarks = vec!["one".into(), "two".into()];
        frame.cost = Some(VariantCost { sheet_cents: 26.3, sticker_cents: 1.252_38 });
        let locked = Compared {
            name: "=Scene".into(),
            result: Err("Crab lies on zone \"sky\", and more".into()),
            cost: None,
            remarks: Vec::new(),
        };
        let table = table(&[compared("Plain", 24), frame, locked]);
        let rows: Vec<&str> = table.lines().collect();
        assert_eq!(rows[0], HEADINGS.join(","));
        assert_eq!(rows[1], "Plain,24,0,1,30,71.25,2,,,,");
        assert_eq!(rows[2], "Frame,21,-3,1,30,71.25,2,,0.263,0.013,one; two");
        assert_eq!(rows[3], "'=Scene,,,,,,,,,,\"Crab lies on zone \"\"sky\"\", and more\"");
    }

    #[test]
    fn without_a_first_there_is_no_difference() {
        let none = Compared { name: "a".into(), result: Err("no".into()), cost: None, remarks: Vec::new() };
        assert_eq!(differences(&[none, compared("b", 3)]), [None, None]);
        assert_eq!(differences(&[]), []);
    }
}
