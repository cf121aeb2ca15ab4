//! Count and density.

use stickleaf_outline::{Outline, gap_within};

use crate::ceiling::{Ceiling, ceiling_with_reason};
use crate::check::placed_cut_lines;
use crate::layout::Layout;
use crate::sheet::usable_region;
use crate::sticker::StickerId;

/// What a layout amounts to.
#[derive(Clone, Debug, PartialEq)]
pub struct Score {
    /// Copies on the sheet, for every sticker of the layout in its order.
    pub by_sticker: Vec<(StickerId, usize)>,
    /// Copies on the sheet in all.
    pub placed: usize,
    /// Copies that must be there in all.
    pub wanted: usize,
    /// Stickers of which copies are missing, and how many.
    pub missing: Vec<(StickerId, usize)>,
    /// Area inside the cut lines over the usable area: the card less its margin and its zones as drawn.
    ///
    /// Between 0 and 1 where the rules hold.
    pub density: f64,
    /// Area inside the cut lines over the whole card.
    pub cover: f64,
    /// No layout under these rules holds more, and why; see [`ceiling_with_reason`].
    pub ceiling: Ceiling,
    /// The smallest gap of any two cut lines in millimetres; nothing with fewer than two pieces.
    pub smallest_gap: Option<f64>,
}

/// Count, density, cover, ceiling and smallest gap of a valid layout.
pub fn score(layout: &Layout) -> Score {
    score_with(layout, &placed_cut_lines(layout), ceiling_with_reason(layout))
}

/// The same [`score`] for one who has the placed cut lines and the ceiling already.
pub fn score_with(layout: &Layout, lines: &[Outline], ceiling: Ceiling) -> Score {
    let usable = usable_region(&layout.sheet, &layout.rules, layout.zones()).area();
    score_from(layout, lines, ceiling, usable, smallest_gap(lines))
}

/// The same [`score`] for one who has everything already that takes long: the placed cut lines, the ceiling, the area of the
/// [`usable_region`] and the smallest gap.
pub fn score_from(
    layout: &Layout,
    lines: &[Outline],
    ceiling: Ceiling,
    usable: f64,
    smallest_gap: Option<f64>,
) -> Score {
    let by_sticker: Vec<(StickerId, usize)> =
        layout.stickers.iter().map(|sticker| (sticker.id.clone(), layout.placed(&sticker.id))).collect();
    let least = |i: usize| layout.stickers[i].wanted.least() as usize;
    let missing = by_sticker
        .iter()
        .enumerate()
        .filter(|&(i, &(_, count))| count < least(i))
        .map(|(i, (id, count))| (id.clone(), least(i) - count))
        .collect();
    // The sum of nothing is minus zero; adding zero tidies that away.
    let inked = lines.iter().map(Outline::area).sum::<f64>() + 0.0;
    Score {
        placed: layout.pieces.len(),
        wanted: (0..layout.stickers.len()).map(least).sum(),
        missing,
        by_sticker,
        density: if usable > 0.0 { inked / usable } else { 0.0 },
        cover: inked / layout.sheet.area(),
        ceiling,
        smallest_gap,
    }
}

/// The smallest gap of any two of these cut lines, in millimetres; nothing with fewer than two.
pub fn smallest_gap(lines: &[Outline]) -> Option<f64> {
    let mut best = f64::INFINITY;
    for (i, line) in lines.iter().enumerate() {
        for other in &lines[i + 1..] {
            if let Some(gap) = gap_within(line, other, best) {
                best = gap.distance;
            }
        }
    }
    (lines.len() > 1).then_some(best)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};

    use super::*;
    use crate::{Piece, Rules, Sheet, Sticker, Wanted};

    #[test]
    fn density_of_two_boxes_is_worked_by_hand() {
        let mut sticker = Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.wanted = Wanted::Exactly(3);
        let layout = Layout {
            sheet: Sheet { width: 50.0, height: 40.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 5.0, ..Rules::default() },
            stickers: vec![sticker],
            pieces: [10.0, 23.0].map(|x| Piece::new("box".into(), Placement::at(x, 10.0))).to_vec(),
            ..Layout::default()
        };
        let score = score(&layout);
        assert!((score.density - 200.0 / (40.0 * 30.0)).abs() < 1e-9);
        assert!((score.cover - 200.0 / 2000.0).abs() < 1e-12);
        assert_eq!((score.placed, score.wanted), (2, 3));
        assert_eq!(score.missing, [("box".into(), 1)]);
        assert_eq!(score.smallest_gap, Some(3.0));
    }
}
