//! A page of label stock: its size, what the printer leaves free, what the cutter reaches.

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What printers leave free at every edge unless they say otherwise, in millimetres (common practice, no source).
pub const USUAL_PRINTER_MARGIN: f64 = 5.0;

/// Pages by name, in millimetres, upright. Sources: ISO 216 for A3 to A5; ASME Y14.1 for Letter, 8.5 x 11 in; Legal, 8.5 x
/// 14 in, is common practice with no source.
pub const PAGE_SIZES: [(&str, f64, f64); 5] = [
    ("A5", 148.0, 210.0),
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("Letter", 215.9, 279.4),
    ("Legal", 215.9, 355.6),
];

/// The size of a page by its name, whose letters may be small or large; nothing for another name.
pub fn page_size(name: &str) -> Option<(f64, f64)> {
    PAGE_SIZES
        .iter()
        .find(|(known, ..)| known.eq_ignore_ascii_case(name))
        .map(|&(_, width, height)| (width, height))
}

/// A page of label stock and what may be used of it. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Stock {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
    /// What the printer leaves free at every edge.
    pub printer_margin: f64,
    /// Width and height of what the cutter can read and cut, in the middle of the page; nothing for all of it.
    pub reach: Option<(f64, f64)>,
    /// Between two sheets; 0 for a shared edge.
    pub gap: f64,
}

impl Default for Stock {
    /// A4 with an ordinary printer's margin, sheets edge to edge.
    fn default() -> Stock {
        Stock { width: 210.0, height: 297.0, printer_margin: USUAL_PRINTER_MARGIN, reach: None, gap: 0.0 }
    }
}

/// What is wrong with a page, and what to do about it.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PageError {
    /// A length that is none.
    #[error("{what} is {mm} mm; give {asked}")]
    Length {
        /// Which length.
        what: &'static str,
        /// What was given.
        mm: f64,
        /// What it may be.
        asked: &'static str,
    },
    /// The margins leave nothing of the page.
    #[error(
        "a printer margin of {margin} mm on every side leaves nothing of a page of {width} x {height} mm; give a smaller one"
    )]
    NoRoom {
        /// The printer's margin.
        margin: f64,
        /// The page's width.
        width: f64,
        /// The page's height.
        height: f64,
    },
    /// The cutter's reach is larger than the page.
    #[error(
        "a reach of {reach_width} x {reach_height} mm is larger than the page of {width} x {height} mm; give the part of the page that the cutter can cut"
    )]
    Reach {
        /// The reach's width.
        reach_width: f64,
        /// The reach's height.
        reach_height: f64,
        /// The page's width.
        width: f64,
        /// The page's height.
        height: f64,
    },
    /// More sheets than can be planned.
    #[error("{count} sheets of one design are too many for one plan; give at most {most} at a time")]
    TooMany {
        /// How many are wanted.
        count: u64,
        /// How many may be.
        most: u64,
    },
    /// The sheet does not fit on the page, either way round.
    #[error(
        "the sheet of {sheet_width} x {sheet_height} mm does not fit, either way round, into the {width} x {height} mm of the page that can be printed and cut; take a larger page, smaller margins, or a smaller sheet"
    )]
    SheetTooLarge {
        /// The sheet's width.
        sheet_width: f64,
        /// The sheet's height.
        sheet_height: f64,
        /// The width that can be used.
        width: f64,
        /// The height that can be used.
        height: f64,
    },
}

/// No page and no sheet is longer than this, in millimetres.
const LONGEST: f64 = 10_000.0;

impl Stock {
    /// The part of the page that can be printed and cut, in the page's coordinates.
    pub fn room(&self) -> Result<kurbo::Rect, PageError> {
        length("the page's width", self.width)?;
        length("the page's height", self.height)?;
        distance("the printer margin", self.printer_margin)?;
        distance("the gap between sheets", self.gap)?;
        let page = kurbo::Rect::new(0.0, 0.0, self.width, self.height);
        let printed = page.inset(-self.printer_margin);
        if printed.width() <= 0.0 || printed.height() <= 0.0 {
            let (margin, width, height) = (self.printer_margin, self.width, self.height);
            return Err(PageError::NoRoom { margin, width, height });
        }
        let Some((reach_width, reach_height)) = self.reach else { return Ok(printed) };
        length("the reach's width", reach_width)?;
        length("the reach's height", reach_height)?;
        if reach_width > self.width || reach_height > self.height {
            let (width, height) = (self.width, self.height);
            return Err(PageError::Reach { reach_width, reach_height, width, height });
        }
        let reach = kurbo::Rect::from_center_size(page.center(), (reach_width, reach_height));
        Ok(printed.intersect(reach))
    }
}

/// Refuses what is no length.
pub(crate) fn length(what: &'static str, mm: f64) -> Result<(), PageError> {
    let is_length = mm.is_finite() && mm > 0.0 && mm <= LONGEST;
    if is_length {
        Ok(())
    } else {
        Err(PageError::Length { what, mm, asked: "more than 0 and at most 10000 mm" })
    }
}

fn distance(what: &'static str, mm: f64) -> Result<(), PageError> {
    let is_distance = mm.is_finite() && (0.0..=LONGEST).contains(&mm);
    if is_distance { Ok(()) } else { Err(PageError::Length { what, mm, asked: "0 to 10000 mm" }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_are_known_by_name() {
        assert_eq!(page_size("a4"), Some((210.0, 297.0)));
        // 8.5 x 11 in at 25.4 mm (international inch, 1959).
        let letter = page_size("LETTER").unwrap();
        assert!((letter.0 - 8.5 * 25.4).abs() < 1e-9 && letter.1 == 11.0 * 25.4);
        assert_eq!(page_size("legal"), Some((letter.0, 355.6)));
        assert_eq!(page_size("a7"), None);
    }

    #[test]
    fn an_iso_page_cut_in_half_is_the_next_one() {
        // ISO 216: halves of the longer side, rounded down to whole millimetres.
        let size = |name| page_size(name).unwrap();
        for (large, small) in [("A3", "A4"), ("A4", "A5")] {
            let ((width, height), (half, side)) = (size(large), size(small));
            assert_eq!(((height / 2.0).floor(), width), (half, side));
        }
    }

    #[test]
    fn the_room_is_what_printer_and_cutter_share() {
        let stock = Stock { printer_margin: 10.0, reach: Some((200.0, 250.0)), ..Stock::default() };
        assert_eq!(stock.room(), Ok(kurbo::Rect::new(10.0, 23.5, 200.0, 273.5)));
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        let refused = |stock: Stock| stock.room().unwrap_err();
        assert!(matches!(refused(Stock { width: f64::NAN, ..Stock::default() }), PageError::Length { .. }));
        assert!(matches!(refused(Stock { gap: -1.0, ..Stock::default() }), PageError::Length { .. }));
        assert!(matches!(
            refused(Stock { printer_margin: 105.0, ..Stock::default() }),
            PageError::NoRoom { .. }
        ));
        assert!(matches!(
            refused(Stock { reach: Some((300.0, 200.0)), ..Stock::default() }),
            PageError::Reach { .. }
        ));
    }
}
