//! What other programs want to know of each piece, worked out from the layout.

use kurbo::{Point, Rect};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, MM_PER_INCH, StickerId, placed_cut_lines};

/// One piece with everything resolved. Lengths in sheet millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceFacts {
    /// Which sticker it is a copy of.
    pub sticker: StickerId,
    /// Which copy, counted from 1.
    pub copy: usize,
    /// Its sticker's name and its copy number.
    pub name: String,
    /// Where it lies.
    pub placement: Placement,
    /// The line that the blade follows, where it lies on the sheet.
    pub cut_line: Outline,
    /// The smallest upright rectangle around the cut line.
    pub bounds: Rect,
    /// The middle of the bounds.
    pub centre: Point,
}

/// The facts of every piece of a valid layout, in the order of the pieces.
pub fn piece_facts(layout: &Layout) -> Vec<PieceFacts> {
    let lines = placed_cut_lines(layout);
    layout
        .pieces
        .iter()
        .zip(lines)
        .enumerate()
        .map(|(index, (piece, cut_line))| {
            let bounds = cut_line.bounds();
            PieceFacts {
                sticker: piece.sticker.clone(),
                copy: layout.copy_number(index),
                name: layout.piece_name(index),
                placement: piece.placement,
                bounds,
                centre: bounds.center(),
                cut_line,
            }
        })
        .collect()
}

/// A length on the sheet in pixels of the print.
pub(crate) fn pixels(layout: &Layout, mm: f64) -> f64 {
    mm / MM_PER_INCH * layout.sheet.resolution_ppi
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;
    use stickleaf_sheet::{Piece, Rules, Sticker};

    use super::*;

    #[test]
    fn facts_of_a_turned_box_are_worked_by_hand() {
        // A box of 10 x 20 mm whose (0, 0) is its top left corner, a quarter turn clockwise: it reaches to the left.
        let layout = Layout {
            rules: Rules { border: 0.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", path::parse("M0 0H10V20H0Z").unwrap())],
            pieces: [(50.0, 0.0), (60.0, 90.0)]
                .map(|(x, turn)| Piece::new("box".into(), Placement::turned(x, 30.0, turn)))
                .to_vec(),
            ..Layout::default()
        };
        let facts = piece_facts(&layout);
        assert_eq!((facts[1].copy, &*facts[1].name), (2, "Box 2"));
        assert_eq!(facts[1].bounds, Rect::new(40.0, 30.0, 60.0, 40.0));
        assert_eq!(facts[1].centre, Point::new(50.0, 35.0));
        // 25.4 mm are 600 pixels at 600 pixels to the inch.
        assert_eq!(pixels(&layout, 25.4), 600.0);
    }
}
