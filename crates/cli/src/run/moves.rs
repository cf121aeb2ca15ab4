//! How the cost of a sheet moves with its size: as many to a page as are listed, each as large as it may be for that.

use serde::Serialize;
use stickleaf_shop::page::{Growing, Stock, largest_sheets};
use stickleaf_shop::run::{Design, run_sheet};
use stickleaf_shop::settings::Settings;

use crate::columns::columns;

/// Counts beyond that of now that are told.
const MORE: u64 = 2;

/// So many counts are told at most, those next to the count of now.
const MOST: usize = 8;

/// What a sheet costs if so many lie on a page.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Move {
    /// How many lie on a page.
    pub sheets_per_page: u64,
    /// The width of the largest sheet of this shape of which so many do.
    pub width_mm: f64,
    /// Its height.
    pub height_mm: f64,
    /// What it costs, in cents and parts of them, with the kiss lines and the stickers of now.
    pub sheet_cents: f64,
    /// What a sticker costs.
    pub sticker_cents: f64,
}

/// The moves of a run of one design on this page; none without prices, or where sheets on a page are not planned.
pub fn moves(settings: &Settings, stock: &Stock, design: &Design, size: (f64, f64)) -> Vec<Move> {
    let most = usize::try_from(design.per_page + MORE).unwrap_or(usize::MAX);
    let Ok(largest) = largest_sheets(stock, size.0, size.1, Growing::Both, most) else { return Vec::new() };
    let moved = largest.iter().filter_map(|sheet| {
        let per_page = sheet.count as u64;
        let other = Design { per_page, sheet_mm2: sheet.width * sheet.height, ..design.clone() };
        let run = run_sheet(settings, &[other]).ok().filter(|run| run.sheet_cents > 0.0)?;
        Some(Move {
            sheets_per_page: per_page,
            width_mm: sheet.width,
            height_mm: sheet.height,
            sheet_cents: run.sheet_cents,
            sticker_cents: run.sticker_cents,
        })
    });
    let mut moved: Vec<Move> = moved.collect();
    moved.drain(..moved.len().saturating_sub(MOST));
    moved
}

/// Them as a table.
pub fn lines(moves: &[Move], now: u64) -> String {
    if moves.len() < 2 {
        return String::new();
    }
    let mut rows = vec![["on a page", "largest sheet", "a sheet", "a sticker"].map(str::to_owned).to_vec()];
    let cents = |cents: f64| format!("{:.3}", cents / 100.0);
    rows.extend(moves.iter().map(|one| {
        let mark = if one.sheets_per_page == now { " (now)" } else { "" };
        vec![
            format!("{}{mark}", one.sheets_per_page),
            // Rounded down, so that so many still lie on the page.
            format!("{:.1} x {:.1} mm", floor(one.width_mm), floor(one.height_mm)),
            cents(one.sheet_cents),
            cents(one.sticker_cents),
        ]
    }));
    format!(
        "\nwhat a larger or smaller sheet of this shape would cost, with the stickers of now:\n{}",
        columns(&rows)
    )
}

fn floor(mm: f64) -> f64 {
    (mm * 10.0 + 1e-6).floor() / 10.0
}
