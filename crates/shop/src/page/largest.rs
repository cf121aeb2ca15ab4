//! What if the sheet were a little smaller or larger? The largest one of which so many still lie on the page.

use crate::page::plan::holds;
use crate::page::stock::{PageError, Stock};

/// Which side of the sheet changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Growing {
    /// Its width; the height stays.
    Width,
    /// Its height; the width stays.
    Height,
    /// Both, in proportion.
    Both,
}

/// The largest sheet of which so many lie on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Largest {
    /// How many on a page.
    pub count: usize,
    /// The sheet's width in millimetres.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// Whether it is proved that no larger one would do.
    pub is_proved: bool,
}

/// No sheet is made smaller than this, in millimetres.
const LEAST_SIDE: f64 = 20.0;

/// Where the count on the page jumps as the sheet changes: for 1 to `most` on a page the largest sheet that still gives so
/// many, to the micrometre. Counts that no sheet of at least 20 mm each way gives are left out; so are those that a larger
/// count gives with the same sheet.
pub fn largest_sheets(
    stock: &Stock,
    sheet_width: f64,
    sheet_height: f64,
    growing: Growing,
    most: usize,
) -> Result<Vec<Largest>, PageError> {
    let room = stock.room()?;
    let longest = room.width().max(room.height());
    let size = |factor: f64| match growing {
        Growing::Width => (sheet_width * factor, sheet_height),
        Growing::Height => (sheet_width, sheet_height * factor),
        Growing::Both => (sheet_width * factor, sheet_height * factor),
    };
    let side = match growing {
        Growing::Width => sheet_width,
        Growing::Height => sheet_height,
        Growing::Both => sheet_width.max(sheet_height),
    };
    let least_side = match growing {
        Growing::Both => sheet_width.min(sheet_height),
        _ => side,
    };
    // Steps of a micrometre of the side that counts.
    let factor = |step: u64| step as f64 / 1000.0 / side;
    let least = (LEAST_SIDE / least_side * side * 1000.0).ceil() as u64;
    let mut above = (longest * 1000.0).floor() as u64 + 1;
    let mut sheets: Vec<Largest> = Vec::new();
    for count in 1..=most {
        let mut is_proved = true;
        let mut fits = |step: u64| -> Result<bool, PageError> {
            let answer = holds(stock, size(factor(step)), count)?;
            is_proved &= answer.is_some();
            Ok(answer.unwrap_or(false))
        };
        if least >= above || !fits(least)? {
            break;
        }
        // It fits at `low` and not at `high`; a smaller sheet always fits where a larger one did.
        let (mut low, mut high) = (least, above);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if fits(middle)? {
                low = middle;
            } else {
                high = middle;
            }
        }
        above = high;
        let (width, height) = size(factor(low));
        if sheets.last().is_some_and(|last| last.width == width && last.height == height) {
            sheets.pop();
        }
        sheets.push(Largest { count, width, height, is_proved });
    }
    Ok(sheets)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn a4() -> Stock {
        Stock { width: 210.0, height: 297.0, printer_margin: 5.0, reach: None, gap: 0.0 }
    }

    #[test]
    fn the_jumps_of_a_growing_width_are_those_of_arithmetic() {
        // In a room of 200 x 287 mm, 140 mm high sheets: two rows upright, or across 287 mm beside them.
        let jumps = largest_sheets(&a4(), 100.0, 140.0, Growing::Width, 4).unwrap();
        let widths: Vec<(usize, f64)> = jumps.iter().map(|jump| (jump.count, jump.width)).collect();
        // One: as long as the room. Two: two rows of the whole width. Four: two rows of half of it; three is no jump of
        // its own, since a sheet of more than 100 mm leaves 200 mm for one column, whose 287 mm hold two.
        assert_eq!(widths, [(1, 287.0), (2, 200.0), (4, 100.0)]);
    }

    #[test]
    fn just_above_a_jump_there_is_one_less() {
        for growing in [Growing::Width, Growing::Height, Growing::Both] {
            for jump in largest_sheets(&a4(), 90.0, 130.0, growing, 6).unwrap() {
                assert!(jump.is_proved);
                assert_eq!(holds(&a4(), (jump.width, jump.height), jump.count), Ok(Some(true)));
                let (mut width, mut height) = (jump.width, jump.height);
                match growing {
                    Growing::Width => width += 0.002,
                    Growing::Height => height += 0.002,
                    Growing::Both => (width, height) = (width * 1.00002, height * 1.00002),
                }
                assert_eq!(
                    holds(&a4(), (width, height), jump.count),
                    Ok(Some(false)),
                    "{growing:?} {jump:?}"
                );
            }
        }
    }
}
