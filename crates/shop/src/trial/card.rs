//! The test card: trial cuts in rows, the lightest first, on as little stock as they need.
//!
//! A trial is a triangle in a square. The triangle is to come off the backing by itself: its sharp corners show what a
//! setting does where the blade turns, and the square round it gives the nail an edge to lift. The number stands below, to
//! be printed and not cut: a cut number would be one more trial.

use crate::trial::scale::Scale;
use crate::trial::strokes;

/// How a card is laid out, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardOptions {
    /// The side of a trial's square.
    pub square: f64,
    /// Between two trials, and round all of them.
    pub gap: f64,
    /// How wide the card may be.
    pub most_width: f64,
}

impl Default for CardOptions {
    fn default() -> CardOptions {
        CardOptions { square: 10.0, gap: 3.0, most_width: 105.0 }
    }
}

/// How high the numbers are; lower where the square is too narrow for one.
const NUMBER_HEIGHT: f64 = 2.4;
/// From a square to its number.
const NUMBER_GAP: f64 = 1.0;
/// From the square's sides to the triangle's corners, as a share of the side.
const INSET: f64 = 0.18;

/// A card of trials, in millimetres; y down, its top left corner at (0, 0).
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
    /// The trials, the lightest first, row by row.
    pub cells: Vec<Cell>,
}

/// One trial.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// The setting's position on the scale.
    pub setting: usize,
    /// What the setting is called.
    pub name: String,
    /// What is written below.
    pub label: String,
    /// How often each line is gone over.
    pub passes: u32,
    /// The corners of the triangle, cut first.
    pub triangle: [(f64, f64); 3],
    /// The corners of the square round it.
    pub square: [(f64, f64); 4],
    /// The strokes of the number.
    pub number: Vec<Vec<(f64, f64)>>,
}

impl Card {
    /// A card of these settings of the scale, those beyond it left out. Sizes that make no sense are put right: a square
    /// has at least 2 mm, a gap at least 1 mm, and at least one trial lies in a row.
    pub fn new(scale: &Scale, settings: &[usize], options: &CardOptions) -> Card {
        let (side, gap) = (options.square.max(2.0), options.gap.max(1.0));
        let mut settings: Vec<usize> = settings.iter().copied().filter(|&i| i < scale.count()).collect();
        settings.sort_unstable();
        let (step_x, step_y) = (side + gap, side + NUMBER_GAP + NUMBER_HEIGHT + gap);
        let columns = columns(settings.len(), (step_x, step_y), gap, options.most_width);
        let rows = settings.len().div_ceil(columns);
        let cell = |(i, &setting): (usize, &usize)| {
            let at = (gap + (i % columns) as f64 * step_x, gap + (i / columns) as f64 * step_y);
            Cell::new(scale, setting, at, side)
        };
        Card {
            width: gap + columns as f64 * step_x,
            height: gap + rows as f64 * step_y,
            cells: settings.iter().enumerate().map(cell).collect(),
        }
    }
}

/// How many trials lie in a row so that the card is smallest; of equal cards the widest, which is quickest to read.
fn columns(count: usize, step: (f64, f64), gap: f64, most_width: f64) -> usize {
    let area =
        |columns: usize| (gap + columns as f64 * step.0) * (gap + count.div_ceil(columns) as f64 * step.1);
    let fits = |&columns: &usize| columns == 1 || gap + columns as f64 * step.0 <= most_width;
    (1..=count.max(1))
        .take_while(fits)
        .reduce(|best, columns| if area(columns) <= area(best) { columns } else { best })
        .unwrap_or(1)
}

impl Cell {
    fn new(scale: &Scale, setting: usize, (x, y): (f64, f64), side: f64) -> Cell {
        let at = |across: f64, down: f64| (x + across * side, y + down * side);
        let label = scale.label(setting);
        let size = (NUMBER_HEIGHT / strokes::HEIGHT).min(side / strokes::width(&label).max(1.0));
        let left = x + (side - strokes::width(&label) * size) / 2.0;
        let top = y + side + NUMBER_GAP;
        let placed =
            |stroke: Vec<(f64, f64)>| stroke.iter().map(|p| (left + p.0 * size, top + p.1 * size)).collect();
        Cell {
            setting,
            name: scale.name(setting).to_owned(),
            passes: scale.passes_of(setting),
            triangle: [at(0.5, INSET), at(1.0 - INSET, 1.0 - INSET), at(INSET, 1.0 - INSET)],
            square: [at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)],
            number: strokes::strokes(&label).into_iter().map(placed).collect(),
            label,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn twelve_trials_take_the_smallest_card() {
        let scale = Scale::numbers(1.0, 12.0, 12).unwrap();
        let all: Vec<usize> = (0..12).collect();
        let card = Card::new(&scale, &all, &CardOptions::default());
        // A step is 13 mm across and 16.4 mm down, with 3 mm at the left and at the top. At most 105 mm, 7 trials, wide:
        // 1 x 12: 16 x 199.8 = 3197 mm²; 2 x 6: 29 x 101.4 = 2941; 3 x 4: 42 x 68.6 = 2881; 4 x 3: 55 x 52.2 = 2871;
        // 6 x 2: 81 x 35.8 = 2900.
        assert_eq!((card.width, (card.height * 10.0).round()), (55.0, 522.0));
        assert_eq!(card.cells.len(), 12);
    }

    proptest! {
        #[test]
        fn trials_lie_on_the_card_apart_from_each_other(
            count in 1..60_usize, square in 3.0..20.0_f64, gap in 1.0..5.0_f64, most_width in 10.0..300.0_f64,
        ) {
            let scale = Scale::numbers(0.25, 12.75, count).unwrap();
            let all: Vec<usize> = (0..count).collect();
            let card = Card::new(&scale, &all, &CardOptions { square, gap, most_width });
            let boxes: Vec<[f64; 4]> = card.cells.iter().map(|cell| {
                let points = cell.square.iter().chain(&cell.triangle).chain(cell.number.iter().flatten());
                points.fold([f64::MAX, f64::MAX, f64::MIN, f64::MIN], |b, &(x, y)| {
                    [b[0].min(x), b[1].min(y), b[2].max(x), b[3].max(y)]
                })
            }).collect();
            for (i, a) in boxes.iter().enumerate() {
                prop_assert!(a[0] >= gap - 1e-9 && a[1] >= gap - 1e-9);
                prop_assert!(a[2] <= card.width - gap + 1e-9 && a[3] <= card.height - gap + 1e-9);
                for b in &boxes[..i] {
                    let apart = (a[0] - b[2]).max(b[0] - a[2]).max(a[1] - b[3]).max(b[1] - a[3]);
                    prop_assert!(apart >= gap - 1e-9, "{apart}");
                }
            }
            prop_assert!(card.width <= most_width.max(square + 2.0 * gap) + 1e-9);
        }
    }
}
