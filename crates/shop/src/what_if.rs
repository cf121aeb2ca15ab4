//! What if something about a run were otherwise? The run again, with a few of its figures changed.

use crate::run::{Design, RunSheet, run_sheet};
use crate::settings::{Settings, SettingsError};

/// What is otherwise; nothing for what stays as it is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WhatIf {
    /// How many sheets are wanted.
    pub sheets: Option<u64>,
    /// How many sheets lie on a page.
    pub per_page: Option<u64>,
    /// How many stickers are on a sheet. What is cut, and the ink, stay those of the sheet that there is.
    pub stickers: Option<u64>,
    /// How often the card's line is gone over.
    pub passes: Option<u32>,
    /// How many of a hundred pages are spoilt.
    pub spoilage_percent: Option<f64>,
    /// How many machines cut side by side.
    pub cutters: Option<u32>,
    /// How many of a hundred of the price shall be left over.
    pub margin_percent: Option<f64>,
}

impl WhatIf {
    /// Whether nothing is otherwise.
    pub fn is_nothing(&self) -> bool {
        *self == WhatIf::default()
    }

    /// The shop's figures with what is otherwise about them.
    pub fn settings(&self, settings: &Settings) -> Settings {
        let mut settings = settings.clone();
        let replace = |figure: &mut f64, other: Option<f64>| *figure = other.unwrap_or(*figure);
        replace(&mut settings.printing.spoilage_percent, self.spoilage_percent);
        replace(&mut settings.selling.margin_percent, self.margin_percent);
        settings.cutting.passes = self.passes.unwrap_or(settings.cutting.passes);
        settings.cutting.cutters = self.cutters.unwrap_or(settings.cutting.cutters);
        settings
    }

    /// The design with what is otherwise about it.
    pub fn design(&self, design: &Design) -> Design {
        let mut design = design.clone();
        design.sheets = self.sheets.unwrap_or(design.sheets);
        design.per_page = self.per_page.unwrap_or(design.per_page);
        design.stickers = self.stickers.unwrap_or(design.stickers);
        if let Some(passes) = self.passes {
            let work = &mut design.work;
            // Each pass is a line that is begun; the ways of the lifted blade stay, for a pass ends where it began.
            work.lines = work.lines.saturating_sub(work.passes.into()) + u64::from(passes);
            work.passes = passes;
        }
        design
    }

    /// The run as it would be.
    ///
    /// Errors: what is otherwise makes no sense together with the other figures.
    pub fn run(&self, settings: &Settings, design: &Design) -> Result<RunSheet, SettingsError> {
        run_sheet(&self.settings(settings), &[self.design(design)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::CutWork;
    use crate::money::Cents;

    fn design() -> Design {
        Design {
            name: "Tide pool".to_owned(),
            sheets: 300,
            stickers: 20,
            per_page: 2,
            sheet_mm2: 15_000.0,
            work: CutWork {
                kiss: vec![100.0; 20],
                through: vec![500.0],
                passes: 4,
                travel: vec![20.0; 20],
                lines: 24,
            },
            coverage: None,
        }
    }

    fn priced() -> Settings {
        let mut settings = Settings::default();
        (settings.stock.pack_cents, settings.stock.pack_pages) = (Cents(1250), 25);
        settings
    }

    #[test]
    fn nothing_otherwise_is_the_run_itself() {
        let run = run_sheet(&priced(), &[design()]).unwrap();
        assert!(WhatIf::default().is_nothing());
        assert_eq!(WhatIf::default().run(&priced(), &design()).unwrap(), run);
    }

    /// Worked by hand.
    #[test]
    fn three_sheets_on_a_page_instead_of_two() {
        let run = WhatIf { per_page: Some(3), ..WhatIf::default() }.run(&priced(), &design()).unwrap();
        // 100 good pages, 5 % spoilt: 105.3, so 106 pages; 106 x 1250 / 25 = 5300 cents, 17.667 a sheet in place of 26.333.
        assert_eq!((run.pages, run.bill.total), (106, Cents(5300)));
        assert!((run.sheet_cents - 17.667).abs() < 0.001);
    }

    #[test]
    fn passes_change_what_the_blade_does_and_nothing_else() {
        let two = WhatIf { passes: Some(2), ..WhatIf::default() };
        let changed = two.design(&design());
        // 20 kiss lines and two passes.
        assert_eq!((changed.work.passes, changed.work.lines), (2, 22));
        let (was, is) = (run_sheet(&priced(), &[design()]).unwrap(), two.run(&priced(), &design()).unwrap());
        // A page holds two sheets, so two passes less of 500 mm are 2 m a page; 158 pages.
        assert!((was.blade_m - is.blade_m - 316.0).abs() < 1e-9);
        assert_eq!((was.pages, was.printing_s), (is.pages, is.printing_s));
    }

    #[test]
    fn figures_of_the_shop_are_changed_where_they_stand() {
        let what_if = WhatIf {
            spoilage_percent: Some(0.0),
            cutters: Some(2),
            margin_percent: Some(20.0),
            sheets: Some(10),
            stickers: Some(40),
            ..WhatIf::default()
        };
        let settings = what_if.settings(&priced());
        assert_eq!((settings.printing.spoilage_percent, settings.cutting.cutters), (0.0, 2));
        assert_eq!(settings.selling.margin_percent, 20.0);
        let run = what_if.run(&priced(), &design()).unwrap();
        // 5 pages for 250 cents: 25 a sheet, 0.625 a sticker.
        assert_eq!((run.pages, run.sheet_cents, run.sticker_cents), (5, 25.0, 0.625));
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        let mut settings = priced();
        settings.selling.fee_percent = 30.0;
        let all_kept = WhatIf { margin_percent: Some(80.0), ..WhatIf::default() };
        assert!(all_kept.run(&settings, &design()).is_err());
    }
}
