//! What the artist types in once: machines, prices, time. Kept as JSON; fields that are left out get the default.
//!
//! Money is 0 unless it is given, and then counts for nothing. The other defaults are guesses of what is ordinary (common
//! practice, no source), to be replaced by the artist's own figures.

use serde::{Deserialize, Serialize};

use crate::cutting::CutMachine;
use crate::money::Cents;

/// Everything about the shop that a run depends on.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The currency's sign, as it stands before amounts.
    pub currency: String,
    /// Printing.
    pub printing: Printing,
    /// Cutting.
    pub cutting: Cutting,
    /// Label stock.
    pub stock: StockPack,
    /// Ink.
    pub ink: InkSet,
    /// The artist's own time.
    pub labour: Labour,
    /// Selling.
    pub selling: Selling,
}

/// How pages are printed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Printing {
    /// How long one page takes, in seconds.
    pub page_s: f64,
    /// How many printers print side by side.
    pub printers: u32,
    /// How many of a hundred pages are spoilt in printing and cutting together.
    pub spoilage_percent: f64,
}

impl Default for Printing {
    fn default() -> Printing {
        Printing { page_s: 120.0, printers: 1, spoilage_percent: 5.0 }
    }
}

/// How pages are cut.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Cutting {
    /// The machine.
    pub machine: CutMachine,
    /// How many of them cut side by side.
    pub cutters: u32,
    /// How often the card's line is gone over; four where the setting is for a kiss cut (common practice, no source).
    pub passes: u32,
    /// What a blade costs.
    pub blade_cents: Cents,
    /// How many metres a blade lasts.
    pub blade_m: f64,
    /// How many metres the blade has cut already.
    pub blade_used_m: f64,
    /// What a mat costs.
    pub mat_cents: Cents,
    /// How many pages a mat lasts.
    pub mat_pages: u32,
}

impl Default for Cutting {
    fn default() -> Cutting {
        Cutting {
            machine: CutMachine::default(),
            cutters: 1,
            passes: 4,
            blade_cents: Cents(0),
            blade_m: 500.0,
            blade_used_m: 0.0,
            mat_cents: Cents(0),
            mat_pages: 100,
        }
    }
}

/// How label stock is bought.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct StockPack {
    /// What a pack costs.
    pub pack_cents: Cents,
    /// How many pages are in it.
    pub pack_pages: u32,
    /// How many pages are in hand.
    pub in_hand: u32,
}

impl Default for StockPack {
    fn default() -> StockPack {
        StockPack { pack_cents: Cents(0), pack_pages: 25, in_hand: 0 }
    }
}

/// What a set of ink costs, and how far it went: "it lasted so many sheets of this coverage".
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct InkSet {
    /// What a set costs.
    pub set_cents: Cents,
    /// How many sheets it lasted.
    pub lasted_sheets: u32,
    /// How large those sheets were, in square millimetres.
    pub sheet_mm2: f64,
    /// How much ink covered them on average, all inks together, 0 to 3; see `ink.rs`.
    pub sheet_coverage: f64,
}

impl Default for InkSet {
    /// A postcard with a third of its area in ink.
    fn default() -> InkSet {
        InkSet { set_cents: Cents(0), lasted_sheets: 1000, sheet_mm2: 105.0 * 148.0, sheet_coverage: 0.5 }
    }
}

impl InkSet {
    /// What the ink for an area costs that is covered so much, in cents and parts of them.
    pub fn cents(&self, area_mm2: f64, coverage: f64) -> f64 {
        let went = f64::from(self.lasted_sheets) * self.sheet_mm2 * self.sheet_coverage;
        if went > 0.0 { self.set_cents.0 as f64 * area_mm2 * coverage / went } else { 0.0 }
    }
}

/// The artist's own time.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Labour {
    /// What an hour is worth.
    pub hour_cents: Cents,
    /// Minutes of handling a page: feeding, loading, weeding, looking it over.
    pub page_min: f64,
    /// Minutes of handling a finished sheet: into its sleeve, into its envelope.
    pub sheet_min: f64,
}

impl Default for Labour {
    fn default() -> Labour {
        Labour { hour_cents: Cents(0), page_min: 1.0, sheet_min: 0.5 }
    }
}

/// Packing and selling.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Selling {
    /// Sleeve, backing card, envelope of one sheet.
    pub packaging_cents: Cents,
    /// What each order costs in fees.
    pub order_fee_cents: Cents,
    /// How many of a hundred the selling place keeps of the price.
    pub fee_percent: f64,
    /// How many sheets an order has on average.
    pub sheets_per_order: f64,
    /// How many of a hundred of the price shall be left over.
    pub margin_percent: f64,
}

impl Default for Selling {
    fn default() -> Selling {
        Selling {
            packaging_cents: Cents(0),
            order_fee_cents: Cents(0),
            fee_percent: 0.0,
            sheets_per_order: 1.0,
            margin_percent: 50.0,
        }
    }
}

/// A figure that cannot be, and what it may be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{what} is {value}; give {asked}")]
pub struct SettingsError {
    /// Which figure, by its name in the file.
    pub what: &'static str,
    /// What was given.
    pub value: f64,
    /// What it may be.
    pub asked: &'static str,
}

impl Settings {
    /// Refuses figures that make no sense: times and lengths below 0, no machine, more than all spoilt.
    pub fn validate(&self) -> Result<(), SettingsError> {
        let (printing, cutting, machine) = (&self.printing, &self.cutting, &self.cutting.machine);
        let positive = [
            ("cutting.machine.speed_mm_s", machine.speed_mm_s),
            ("cutting.machine.travel_mm_s", machine.travel_mm_s),
            ("cutting.machine.acceleration_mm_s2", machine.acceleration_mm_s2),
            ("cutting.blade_m", cutting.blade_m),
            ("selling.sheets_per_order", self.selling.sheets_per_order),
            ("printing.printers", f64::from(printing.printers)),
            ("cutting.cutters", f64::from(cutting.cutters)),
            ("cutting.passes", f64::from(cutting.passes)),
        ];
        let not_negative = [
            ("printing.page_s", printing.page_s),
            ("cutting.machine.lift_s", machine.lift_s),
            ("cutting.machine.load_s", machine.load_s),
            ("cutting.blade_used_m", cutting.blade_used_m),
            ("ink.sheet_mm2", self.ink.sheet_mm2),
            ("ink.sheet_coverage", self.ink.sheet_coverage),
            ("labour.page_min", self.labour.page_min),
            ("labour.sheet_min", self.labour.sheet_min),
        ];
        let shares = [
            ("printing.spoilage_percent", printing.spoilage_percent),
            ("selling.fee_percent", self.selling.fee_percent),
            ("selling.margin_percent", self.selling.margin_percent),
        ];
        /// No length and no time is longer: an hour is 3600 s, and a blade lasts less than a thousand kilometres.
        const MOST: f64 = 1e6;
        type Figures<'a> = &'a [(&'static str, f64)];
        let refused = |figures: Figures<'_>, asked, holds: fn(f64) -> bool| {
            let wrong = figures.iter().find(|(_, value)| !holds(*value));
            wrong.map_or(Ok(()), |&(what, value)| Err(SettingsError { what, value, asked }))
        };
        refused(&positive, "a number above 0, a million at most", |value| value > 0.0 && value <= MOST)?;
        refused(&not_negative, "0 or more, a million at most", |value| (0.0..=MOST).contains(&value))?;
        refused(&shares, "0 or more and less than 100", |value| (0.0..100.0).contains(&value))?;
        if self.selling.fee_percent + self.selling.margin_percent >= 100.0 {
            return Err(SettingsError {
                what: "selling.fee_percent and selling.margin_percent together",
                value: self.selling.fee_percent + self.selling.margin_percent,
                asked: "less than 100, or no price is high enough",
            });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_out_gets_the_default() {
        let settings: Settings =
            serde_json::from_str(r#"{"printing": {"printers": 3}, "currency": "€"}"#).unwrap();
        assert_eq!(settings.printing, Printing { printers: 3, ..Printing::default() });
        assert_eq!(settings.validate(), Ok(()));
        assert_eq!(
            serde_json::from_str::<Settings>(&serde_json::to_string(&settings).unwrap()).unwrap(),
            settings
        );
    }

    #[test]
    fn figures_that_cannot_be_are_named() {
        let mut settings = Settings::default();
        settings.printing.spoilage_percent = 100.0;
        assert_eq!(settings.validate().unwrap_err().what, "printing.spoilage_percent");
        let mut settings = Settings::default();
        settings.cutting.machine.speed_mm_s = f64::NAN;
        assert_eq!(settings.validate().unwrap_err().what, "cutting.machine.speed_mm_s");
        let mut settings = Settings::default();
        settings.selling.fee_percent = 60.0;
        assert!(settings.validate().unwrap_err().to_string().contains("less than 100"));
    }

    #[test]
    fn ink_is_priced_by_what_a_set_went_for() {
        // A set for 40.00 lasted 500 sheets of 10000 mm² with half of it in ink: 2.5 million mm² of ink, so that a sheet of
        // 20000 mm² with a quarter in ink, 5000 mm², costs 4000 x 5000 / 2500000 = 8 cents.
        let ink =
            InkSet { set_cents: Cents(4000), lasted_sheets: 500, sheet_mm2: 10_000.0, sheet_coverage: 0.5 };
        assert_eq!(ink.cents(20_000.0, 0.25), 8.0);
    }
}
