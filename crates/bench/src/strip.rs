//! A strip packing instance as a layout.
//!
//! The strip's width becomes the sheet's width and its length runs down the sheet. The instance's picture, y up, is
//! turned by a quarter to get there, clockwise as seen: what ran to the right runs down, what ran up runs to the right.
//! Nothing is mirrored.

use std::fmt;

use kurbo::{Point, Vec2};
use stickleaf_outline::{GRID, Outline, OutlineError};
use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns, Wanted};
use thiserror::Error;

use crate::instance::{Instance, Item};

/// The widest sheet that a strip is scaled to, in millimetres.
///
/// Plain factors are at most 2.5 apart, so every strip comes out between 100 and 250 mm wide.
const WIDEST: f64 = 250.0;

/// An instance as a layout.
#[derive(Clone, Debug)]
pub struct Strip {
    /// The layout: no border, no margin, no spacing, all pieces wanted, none placed.
    pub layout: Layout,
    /// How many millimetres one unit of the instance is.
    pub scale: Scale,
    /// The largest distance by which rounding to the micrometre grid has moved a corner, in millimetres.
    pub moved: f64,
}

/// Why an instance is no layout.
#[derive(Debug, Error)]
pub enum StripError {
    /// An outline that cannot be used.
    #[error("item {index} (counted from 0): {source}")]
    Outline {
        /// Which one.
        index: usize,
        /// What is wrong with it.
        source: OutlineError,
    },
    /// A piece that no allowed turn lets into the strip.
    #[error(
        "item {index} (counted from 0) is wider than the strip in every allowed turn; check strip_height"
    )]
    TooWide {
        /// Which one.
        index: usize,
    },
}

/// A plain factor: 1, 2 or 5 times a power of ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    times: f64,
    over: f64,
}

impl Scale {
    /// The largest plain factor that brings a width to 250 mm or less.
    pub fn for_width(width: f64) -> Scale {
        let mut best = Scale { times: 1.0, over: 1.0 };
        while best.of(width) > WIDEST {
            best.over *= 10.0;
        }
        while (Scale { times: best.times * 10.0, ..best }).of(width) <= WIDEST {
            best.times *= 10.0;
        }
        let larger = [5.0, 2.0].map(|times| Scale { times: best.times * times, ..best });
        larger.into_iter().find(|scale| scale.of(width) <= WIDEST).unwrap_or(best)
    }

    /// A length of the instance in millimetres, as near as a number can be.
    pub fn of(self, length: f64) -> f64 {
        length * self.times / self.over
    }

    /// A length in millimetres in the instance's own units.
    pub fn back(self, mm: f64) -> f64 {
        mm * self.over / self.times
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.times / self.over)
    }
}

/// The layout of an instance, all pieces wanted on a sheet that surely holds them.
///
/// Lengths stay as they are where they lie on the micrometre grid after scaling; [`Strip::moved`] says otherwise.
/// Turns are the mirror image in number, since ours run clockwise: one by 90 degrees there is one by 270 here.
pub fn strip(instance: &Instance) -> Result<Strip, StripError> {
    let scale = Scale::for_width(instance.width);
    let width = scale.of(instance.width);
    let mut moved = 0.0_f64;
    let mut stickers = Vec::new();
    let (mut area, mut tallest) = (0.0, 0.0_f64);
    for (index, item) in instance.items.iter().enumerate() {
        let (outline, by) = outline(item, scale).map_err(|source| StripError::Outline { index, source })?;
        moved = moved.max(by);
        let (wide, tall) = resting_box(&outline, item, width).ok_or(StripError::TooWide { index })?;
        area += f64::from(item.demand) * wide * tall;
        tallest = tallest.max(tall);
        let mut sticker = Sticker::new(format!("item-{index}"), format!("Item {index}"), outline);
        sticker.wanted = Wanted::Exactly(item.demand);
        sticker.turns = turns(&item.turns);
        stickers.push(sticker);
    }
    // Rectangles put down in rows by falling height need no more than twice their area over the width, and the tallest
    // on top. Source: Coffman, Garey, Johnson, Tarjan, "Performance bounds for level-oriented two-dimensional packing
    // algorithms", SIAM Journal on Computing 9 (1980), next fit decreasing height.
    let height = (2.0 * area / width + tallest).ceil();
    let layout = Layout {
        name: instance.name.clone(),
        sheet: Sheet { width, height, corner_radius: 0.0, ..Sheet::default() },
        rules: Rules { spacing: 0.0, margin: 0.0, border: 0.0, ..Rules::default() },
        stickers,
        ..Layout::default()
    };
    Ok(Strip { layout, scale, moved })
}

/// The outline in millimetres, its (0, 0) near the middle, and how far rounding has moved a corner.
fn outline(item: &Item, scale: Scale) -> Result<(Outline, f64), OutlineError> {
    let points: Vec<Point> = item.ring.iter().map(|&(x, y)| Point::new(scale.of(y), scale.of(x))).collect();
    let mut moved = 0.0_f64;
    let points: Vec<Point> = points
        .into_iter()
        .map(|point| {
            let rounded = Point::new(on_grid(point.x), on_grid(point.y));
            // Less than a thousandth of the grid is the last bit of a decimal fraction.
            let by = (rounded - point).hypot2().sqrt();
            moved = if by > GRID / 1000.0 { moved.max(by) } else { moved };
            rounded
        })
        .collect();
    let whole = Outline::new(points.iter().copied())?;
    let middle = whole.bounds().center();
    let shift = Vec2::new(on_grid(middle.x), on_grid(middle.y));
    Ok((Outline::new(points.into_iter().map(|point| point - shift))?, moved))
}

/// The nearest number of whole micrometres, in millimetres.
fn on_grid(mm: f64) -> f64 {
    (mm / GRID).round() / 1000.0
}

/// Width and height of the lowest box that the piece takes up in an allowed quarter turn in which it fits the strip.
fn resting_box(outline: &Outline, item: &Item, width: f64) -> Option<(f64, f64)> {
    let bounds = outline.bounds();
    let size = |degrees: f64| {
        if degrees.rem_euclid(180.0) == 0.0 {
            (bounds.width(), bounds.height())
        } else {
            (bounds.height(), bounds.width())
        }
    };
    let quarters = item.turns.iter().filter(|turn| turn.rem_euclid(90.0) == 0.0);
    let fitting = quarters.map(|&turn| size(turn)).filter(|(wide, _)| *wide <= width);
    fitting.min_by(|a, b| a.1.total_cmp(&b.1))
}

fn turns(counterclockwise: &[f64]) -> Turns {
    let mut degrees: Vec<f64> = counterclockwise.iter().map(|turn| (-turn).rem_euclid(360.0)).collect();
    degrees.sort_by(f64::total_cmp);
    degrees.dedup();
    if degrees == [0.0] { Turns::None } else { Turns::Only(degrees) }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::Placement;

    use super::*;
    use crate::instance::{read, tests::SMALL};

    #[test]
    fn scale_is_plain_and_brings_the_width_into_range() {
        // The strip widths of the published instances, and a few odd ones.
        for (width, scale, mm) in [
            (4900.0, "0.05", 245.0),
            (15.0, "10", 150.0),
            (60.0, "2", 120.0),
            (38.0, "5", 190.0),
            (40.0, "5", 200.0),
            (2550.0, "0.05", 127.5),
            (104.0, "2", 208.0),
            (79.0, "2", 158.0),
            (70.0, "2", 140.0),
            (5752.0, "0.02", 115.04),
            (250.0, "1", 250.0),
            (250.1, "0.5", 125.05),
            (0.3, "500", 150.0),
        ] {
            let found = Scale::for_width(width);
            assert_eq!((found.to_string().as_str(), found.of(width)), (scale, mm), "{width}");
            assert!((found.back(found.of(width)) - width).abs() < 1e-9, "{width}");
        }
    }

    #[test]
    fn strip_runs_down_the_sheet_and_nothing_is_mirrored() {
        let strip = strip(&read(SMALL).unwrap()).unwrap();
        assert_eq!((strip.layout.sheet.width, strip.moved), (200.0, 0.0));
        strip.layout.validate().unwrap();
        // The L: its long arm lay below and ran to the right, its short arm stood up at the left end. A quarter turn
        // clockwise lets the long one hang down at the left, with the short one to the right at its upper end.
        let corner = |x: f64, y: f64| Point::new(50.0 * x - 50.0, 50.0 * y - 75.0);
        let points = strip.layout.stickers[1].outline.points();
        for (x, y) in [(0.0, 0.0), (0.0, 3.0), (1.0, 3.0), (1.0, 1.0), (2.0, 1.0), (2.0, 0.0)] {
            assert!(points.contains(&corner(x, y)), "{x} {y} in {points:?}");
        }
        assert_eq!(strip.layout.stickers[0].turns, Turns::None);
        assert_eq!(strip.layout.stickers[1].turns, Turns::Only(vec![0.0, 270.0]));
    }

    #[test]
    fn a_turn_there_is_the_same_turn_here() {
        // A piece turned there by 90 degrees counterclockwise and then laid down as a strip is the piece laid down as
        // a strip and then turned here, by 270 degrees clockwise.
        let instance = read(SMALL).unwrap();
        let mut turned = instance.clone();
        for corner in &mut turned.items[1].ring {
            *corner = (-corner.1, corner.0);
        }
        let here = strip(&instance).unwrap().layout.stickers[1].outline.clone();
        let there = strip(&turned).unwrap().layout.stickers[1].outline.clone();
        let here = here.placed(&Placement::turned(0.0, 0.0, 270.0));
        for point in here.points() {
            assert!(there.points().contains(point), "{point:?} in {there:?}");
        }
    }

    #[test]
    fn what_does_not_lie_on_the_grid_is_told() {
        let odd = SMALL.replace("[2, 2]", "[2, 2.00001]").replace("12.0", "12.00002");
        let moved = strip(&read(&odd).unwrap()).unwrap().moved;
        assert!((moved - 0.0005).abs() < 1e-9, "{moved}");
    }

    #[test]
    fn a_piece_wider_than_the_strip_is_refused() {
        let narrow = SMALL.replace("\"strip_height\": 4", "\"strip_height\": 1.5");
        assert!(strip(&read(&narrow).unwrap()).unwrap_err().to_string().contains("item 0"));
    }
}
