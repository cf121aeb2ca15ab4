//! The shop's figures: machines, prices, time.

use leptos::prelude::*;
use stickleaf_shop::money::Cents;
use stickleaf_shop::settings::Settings;

use crate::month::Month;
use crate::panels::fields::{NumberField, TextField};
use crate::panels::month::shop_file::ShopFileButtons;
use crate::panels::month::timed::TimedJobs;
use crate::words::{self, Told};

/// One figure: its word, how it is looked up, and how it is changed.
struct Figure {
    word: fn() -> &'static str,
    look: fn(&Settings) -> f64,
    set: fn(&mut Settings, f64),
}

const fn figure(
    word: fn() -> &'static str,
    look: fn(&Settings) -> f64,
    set: fn(&mut Settings, f64),
) -> Figure {
    Figure { word, look, set }
}

/// Money is typed in whole units of the currency and parts of them.
fn cents(amount: f64) -> Cents {
    Cents::rounded(100.0 * amount)
}

/// A count that a field gave.
fn count(number: f64) -> u32 {
    // A float that is too large ends at the largest whole number, and one below 0 at 0.
    number.round() as u32
}

const PRINTING: [Figure; 4] = [
    figure(words::page_seconds, |s| s.printing.page_s, |s, n| s.printing.page_s = n),
    figure(words::printers, |s| s.printing.printers.into(), |s, n| s.printing.printers = count(n)),
    figure(words::spoilage, |s| s.printing.spoilage_percent, |s, n| s.printing.spoilage_percent = n),
    figure(words::pack_pages, |s| s.stock.pack_pages.into(), |s, n| s.stock.pack_pages = count(n)),
];

const CUTTING: [Figure; 9] = [
    figure(words::cut_speed, |s| s.cutting.machine.speed_mm_s, |s, n| s.cutting.machine.speed_mm_s = n),
    figure(words::travel_speed, |s| s.cutting.machine.travel_mm_s, |s, n| s.cutting.machine.travel_mm_s = n),
    figure(
        words::acceleration,
        |s| s.cutting.machine.acceleration_mm_s2,
        |s, n| s.cutting.machine.acceleration_mm_s2 = n,
    ),
    figure(words::lift_seconds, |s| s.cutting.machine.lift_s, |s, n| s.cutting.machine.lift_s = n),
    figure(words::load_seconds, |s| s.cutting.machine.load_s, |s, n| s.cutting.machine.load_s = n),
    figure(words::passes_word, |s| s.cutting.passes.into(), |s, n| s.cutting.passes = count(n)),
    figure(words::cutters, |s| s.cutting.cutters.into(), |s, n| s.cutting.cutters = count(n)),
    figure(words::blade_metres, |s| s.cutting.blade_m, |s, n| s.cutting.blade_m = n),
    figure(words::blade_used, |s| s.cutting.blade_used_m, |s, n| s.cutting.blade_used_m = n),
];

const PRICES: [Figure; 8] = [
    figure(words::pack_price, |s| s.stock.pack_cents.0 as f64 / 100.0, |s, n| s.stock.pack_cents = cents(n)),
    figure(words::in_hand, |s| s.stock.in_hand.into(), |s, n| s.stock.in_hand = count(n)),
    figure(words::ink_price, |s| s.ink.set_cents.0 as f64 / 100.0, |s, n| s.ink.set_cents = cents(n)),
    figure(words::ink_lasted, |s| s.ink.lasted_sheets.into(), |s, n| s.ink.lasted_sheets = count(n)),
    figure(
        words::blade_price,
        |s| s.cutting.blade_cents.0 as f64 / 100.0,
        |s, n| s.cutting.blade_cents = cents(n),
    ),
    figure(words::mat_price, |s| s.cutting.mat_cents.0 as f64 / 100.0, |s, n| s.cutting.mat_cents = cents(n)),
    figure(words::mat_pages, |s| s.cutting.mat_pages.into(), |s, n| s.cutting.mat_pages = count(n)),
    figure(
        words::packaging_price,
        |s| s.selling.packaging_cents.0 as f64 / 100.0,
        |s, n| s.selling.packaging_cents = cents(n),
    ),
];

const SELLING: [Figure; 7] = [
    figure(
        words::hour_price,
        |s| s.labour.hour_cents.0 as f64 / 100.0,
        |s, n| s.labour.hour_cents = cents(n),
    ),
    figure(words::page_minutes, |s| s.labour.page_min, |s, n| s.labour.page_min = n),
    figure(words::sheet_minutes, |s| s.labour.sheet_min, |s, n| s.labour.sheet_min = n),
    figure(
        words::order_fee,
        |s| s.selling.order_fee_cents.0 as f64 / 100.0,
        |s, n| s.selling.order_fee_cents = cents(n),
    ),
    figure(words::fee_percent, |s| s.selling.fee_percent, |s, n| s.selling.fee_percent = n),
    figure(words::order_sheets, |s| s.selling.sheets_per_order, |s, n| s.selling.sheets_per_order = n),
    figure(words::margin_percent, |s| s.selling.margin_percent, |s, n| s.selling.margin_percent = n),
];

/// All figures in their groups. What makes no sense stays in its field with the reason.
#[component]
pub fn Figures() -> impl IntoView {
    let month = expect_context::<Month>();
    let currency = Signal::derive(move || month.settings.with(|settings| settings.currency.clone()));
    let set_currency = move |text: String| {
        month.change(|settings| settings.currency = text.trim().to_owned()).map_err(|error| error.told())
    };
    view! {
        <Group title=words::printing_word() figures=&PRINTING />
        <Group title=words::cutting_word() figures=&CUTTING />
        <TimedJobs />
        <Group title=words::prices_title() figures=&PRICES />
        <div class="figure-group">
            <TextField label=words::currency_sign() text=currency take=Callback::new(set_currency) />
        </div>
        <Group title=words::selling_title() figures=&SELLING />
        <ShopFileButtons />
    }
}

#[component]
fn Group(title: &'static str, figures: &'static [Figure]) -> impl IntoView {
    let month = expect_context::<Month>();
    view! {
        <h3>{title}</h3>
        <div class="figure-group">
            {figures.iter().map(|figure| {
                let (look, set) = (figure.look, figure.set);
                let value = Signal::derive(move || month.settings.with(look));
                let take = move |number: f64| {
                    month.change(|settings| set(settings, number)).map_err(|error| words::sentence(&error.told()))
                };
                view! { <NumberField label=(figure.word)() value take=Callback::new(take) /> }
            }).collect_view()}
        </div>
    }
}
