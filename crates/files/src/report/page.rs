//! What `page` prints.

use serde::Serialize;

/// The answer of `page`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PageReport {
    /// The page's width.
    pub page_width_mm: f64,
    /// The page's height.
    pub page_height_mm: f64,
    /// Left, top, right and bottom of what can be printed and cut.
    pub room_mm: [f64; 4],
    /// The sheet's width.
    pub sheet_width_mm: f64,
    /// The sheet's height.
    pub sheet_height_mm: f64,
    /// How many sheets lie on a page.
    pub sheets_per_page: usize,
    /// No plan for this page holds more; proven.
    pub proven_most: usize,
    /// Whether the two agree.
    pub proved: bool,
    /// Where each sheet lies.
    pub positions: Vec<PositionReport>,
    /// The share of the page that is no sheet, 0 to 1.
    pub waste: f64,
    /// The area of the page that is no sheet.
    pub waste_mm2: f64,
    /// The largest sheets of which so many lie on this page.
    pub largest: Vec<LargestReport>,
    /// The files of print and cut that were written.
    pub written: Vec<String>,
}

/// Where a sheet lies on the page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PositionReport {
    /// Its left edge.
    pub x_mm: f64,
    /// Its top edge.
    pub y_mm: f64,
    /// Its width as it lies.
    pub width_mm: f64,
    /// Its height as it lies.
    pub height_mm: f64,
    /// 0 upright, 90 on its side.
    pub turn_deg: u32,
}

/// The largest sheet of which so many lie on the page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LargestReport {
    /// How many on a page.
    pub sheets_per_page: usize,
    /// Which side changed: `both` in proportion, `width` or `height` alone.
    pub changed: &'static str,
    /// The sheet's width.
    pub width_mm: f64,
    /// The sheet's height.
    pub height_mm: f64,
    /// Whether it is proven that no larger one would do.
    pub proved: bool,
}

/// The answer of `page` when numbers of sheets are wanted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PagesReport {
    /// The page's width.
    pub page_width_mm: f64,
    /// The page's height.
    pub page_height_mm: f64,
    /// Left, top, right and bottom of what can be printed and cut.
    pub room_mm: [f64; 4],
    /// How many pages are printed in all.
    pub page_count: u64,
    /// No plan needs fewer pages; proven.
    pub proven_least: u64,
    /// Whether the two agree.
    pub proved: bool,
    /// The designs, in the order in which they were given.
    pub designs: Vec<DesignReport>,
    /// The pages that differ.
    pub pages: Vec<PrintedPageReport>,
    /// The share of all pages that is no sheet, 0 to 1.
    pub waste: f64,
    /// The files of print and cut that were written.
    pub written: Vec<String>,
}

/// A design of several.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DesignReport {
    /// Its name, or its file's.
    pub name: String,
    /// The sheet's width.
    pub sheet_width_mm: f64,
    /// The sheet's height.
    pub sheet_height_mm: f64,
    /// How many sheets are wanted.
    pub wanted: u64,
    /// How many are printed.
    pub printed: u64,
}

/// A page, and how often it is printed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PrintedPageReport {
    /// How often.
    pub times: u64,
    /// Where each sheet lies.
    pub positions: Vec<SheetReport>,
}

/// Where a sheet of one of several designs lies.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetReport {
    /// The number of its design, from 0.
    pub design: usize,
    /// Where it lies.
    #[serde(flatten)]
    pub position: PositionReport,
}
