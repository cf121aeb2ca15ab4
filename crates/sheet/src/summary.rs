//! What a packed layout amounts to, in few figures: enough to hold it against another one.

use crate::ceiling::{Ceiling, ceiling_with_reason};
use crate::check::placed_cut_lines;
use crate::layout::Layout;
use crate::room::{LEAST_DOT, empty_room_beside};
use crate::score::{Score, score_with};

/// The figures of a layout. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Summary {
    /// Pieces on the sheet.
    pub placed: usize,
    /// Wanted copies that have no place.
    pub missing: usize,
    /// No layout under these rules holds more; proven.
    pub ceiling: usize,
    /// Area inside the cut lines over the usable area, 0 to 1; see [`Score::density`].
    pub density: f64,
    /// The smallest gap between two cut lines; nothing with fewer than two pieces.
    pub smallest_gap: Option<f64>,
    /// How large the largest round cut line is across that would still fit; nothing if it is smaller than a dot can be.
    pub largest_dot: Option<f64>,
}

/// The figures of a valid layout.
///
/// Cost: that of a [`ceiling_with_reason`], and some milliseconds for the dot.
pub fn summary(layout: &Layout) -> Summary {
    summary_with(layout, ceiling_with_reason(layout))
}

/// The same [`summary`] for one who has the ceiling already.
pub fn summary_with(layout: &Layout, ceiling: Ceiling) -> Summary {
    let lines = placed_cut_lines(layout);
    let Score { placed, missing, ceiling, density, smallest_gap, .. } = score_with(layout, &lines, ceiling);
    let dot = empty_room_beside(layout, &lines, 1, LEAST_DOT).discs.first().map(|disc| 2.0 * disc.radius);
    Summary {
        placed,
        missing: missing.iter().map(|(_, count)| count).sum(),
        ceiling: ceiling.most,
        density,
        smallest_gap,
        largest_dot: dot,
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};

    use super::*;
    use crate::{Piece, ROOM_TOLERANCE, Rules, Sheet, Sticker, Wanted};

    #[test]
    fn the_figures_of_two_boxes_are_worked_by_hand() {
        let mut sticker = Sticker::new("box", "Box", shapes::square(10.0));
        sticker.wanted = Wanted::Exactly(3);
        let layout = Layout {
            sheet: Sheet { width: 50.0, height: 20.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 5.0, ..Rules::default() },
            stickers: vec![sticker],
            pieces: [10.0, 23.0].map(|x| Piece::new("box".into(), Placement::at(x, 10.0))).to_vec(),
            ..Layout::default()
        };
        let summary = summary(&layout);
        assert_eq!((summary.placed, summary.missing, summary.ceiling), (2, 1, 3));
        assert_eq!(summary.smallest_gap, Some(3.0));
        assert!((summary.density - 200.0 / 400.0).abs() < 1e-9);
        // Right of the second box, which ends at 28 mm, the usable strip of 10 mm height holds a dot of its height.
        let dot = summary.largest_dot.unwrap();
        assert!(dot <= 10.0 && dot > 10.0 - 2.0 * ROOM_TOLERANCE, "{dot}");
    }

    #[test]
    fn a_full_strip_has_no_room_for_a_dot() {
        let layout = Layout {
            sheet: Sheet { width: 20.0, height: 20.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 5.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            pieces: vec![Piece::new("box".into(), Placement::at(10.0, 10.0))],
            ..Layout::default()
        };
        let summary = summary(&layout);
        assert_eq!((summary.smallest_gap, summary.largest_dot), (None, None));
    }
}
