//! The cost of a run, post by post. Each post is rounded to the cent once, for the whole run.

use serde::Serialize;

use crate::money::Cents;
use crate::settings::Settings;

/// What a run uses up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Usage {
    /// Sheets that are sold.
    pub sheets: u64,
    /// Pages that are printed, spoilt ones with them.
    pub pages: u64,
    /// The ink: square millimetres times how much covers them; nothing if it could not be measured.
    pub ink_mm2: Option<f64>,
    /// How many metres the blades cut.
    pub blade_m: f64,
}

/// What money is spent on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Post {
    /// Label stock.
    Stock,
    /// Ink.
    Ink,
    /// Blades.
    Blades,
    /// Mats.
    Mats,
    /// Packaging.
    Packaging,
    /// The artist's time.
    Labour,
}

/// The cost of a run.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Bill {
    /// What each post costs; those that cost nothing are left out.
    pub posts: Vec<(Post, Cents)>,
    /// All of them.
    pub total: Cents,
    /// Minutes of the artist's own time.
    pub labour_min: f64,
}

/// The cost of what a run uses up. Fees depend on the price and belong to it (`price.rs`).
pub fn bill(settings: &Settings, usage: &Usage) -> Bill {
    let (cutting, labour) = (&settings.cutting, &settings.labour);
    let labour_min = usage.pages as f64 * labour.page_min + usage.sheets as f64 * labour.sheet_min;
    let ink = usage.ink_mm2.map_or(0.0, |mm2| settings.ink.cents(mm2, 1.0));
    let blades = cutting.blade_cents.0 as f64 * usage.blade_m / cutting.blade_m;
    let all = [
        (Post::Stock, Cents::of(settings.stock.pack_cents, usage.pages, settings.stock.pack_pages.into())),
        (Post::Ink, Cents::rounded(ink)),
        (Post::Blades, Cents::rounded(blades)),
        (Post::Mats, Cents::of(cutting.mat_cents, usage.pages, cutting.mat_pages.into())),
        (Post::Packaging, Cents::of(settings.selling.packaging_cents, usage.sheets, 1)),
        (Post::Labour, Cents::rounded(labour.hour_cents.0 as f64 * labour_min / 60.0)),
    ];
    let posts: Vec<(Post, Cents)> = all.into_iter().filter(|(_, cents)| cents.0 != 0).collect();
    let total = posts.iter().map(|&(_, cents)| cents).sum();
    Bill { posts, total, labour_min }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand, post by post.
    #[test]
    fn a_run_costs_what_the_spreadsheet_says() {
        let mut settings = Settings::default();
        // A pack of 25 pages for 12.50; 158 pages: 158 x 1250 / 25 = 7900.
        (settings.stock.pack_cents, settings.stock.pack_pages) = (Cents(1250), 25);
        // Ink: a set for 48.00 lasted 400 sheets of 15000 mm² at 0.4: 2.4 million mm². 158 pages with 2 sheets of 15000 mm² at
        // 0.5: 2.37 million mm². 4800 x 2.37 / 2.4 = 4740.
        settings.ink.set_cents = Cents(4800);
        (settings.ink.lasted_sheets, settings.ink.sheet_mm2, settings.ink.sheet_coverage) =
            (400, 15_000.0, 0.4);
        // A blade for 9.00 lasts 300 m; 158 pages of 5 m: 790 m. 900 x 790 / 300 = 2370.
        (settings.cutting.blade_cents, settings.cutting.blade_m) = (Cents(900), 300.0);
        // A mat for 8.00 lasts 80 pages: 800 x 158 / 80 = 1580.
        (settings.cutting.mat_cents, settings.cutting.mat_pages) = (Cents(800), 80);
        // Packaging 0.12 a sheet: 300 x 12 = 3600.
        settings.selling.packaging_cents = Cents(12);
        // 158 pages x 1.5 min + 300 sheets x 0.5 min = 237 + 150 = 387 min; 18.00 an hour: 1800 x 387 / 60 = 11610.
        settings.labour = crate::settings::Labour { hour_cents: Cents(1800), page_min: 1.5, sheet_min: 0.5 };
        let usage =
            Usage { sheets: 300, pages: 158, ink_mm2: Some(158.0 * 2.0 * 15_000.0 * 0.5), blade_m: 790.0 };
        let bill = bill(&settings, &usage);
        let cents: Vec<i64> = bill.posts.iter().map(|(_, cents)| cents.0).collect();
        assert_eq!(cents, [7900, 4740, 2370, 1580, 3600, 11_610]);
        assert_eq!((bill.total, bill.labour_min), (Cents(31_800), 387.0));
        assert_eq!(bill.total.each(300), 106.0);
    }

    #[test]
    fn what_has_no_price_costs_nothing() {
        let bill =
            bill(&Settings::default(), &Usage { sheets: 10, pages: 10, ink_mm2: Some(1e6), blade_m: 3.0 });
        assert_eq!((bill.posts, bill.total), (vec![], Cents(0)));
    }
}
