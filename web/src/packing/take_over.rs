//! From the layout that a search found to the one on the desk.

use std::sync::Arc;

use stickleaf_sheet::{Layout, Piece, Sticker};

use crate::messages::PackAim;

/// Takes over what packing may change: the pieces, the note on how they came there, and the size of the stickers or the
/// height of the sheet if the aim is to change that. What the artist changed meanwhile stays.
pub fn take_over(layout: &mut Layout, packed: Layout, aim: PackAim) {
    match aim {
        PackAim::Grow => {
            for sticker in &mut layout.stickers {
                if let Some(packed) = packed.sticker(&sticker.id) {
                    take_size(sticker, packed);
                }
            }
        }
        PackAim::Shorten => layout.sheet.height = packed.sheet.height,
        PackAim::Place | PackAim::Fill | PackAim::Even => {}
    }
    let is_known = |piece: &Piece| layout.sticker(&piece.sticker).is_some();
    layout.pieces = packed.pieces.into_iter().filter(is_known).collect();
    layout.carried = packed.carried;
}

fn take_size(sticker: &mut Sticker, packed: &Sticker) {
    // Lines that stay the same object keep what has been worked out of them.
    if *sticker.outline != *packed.outline {
        sticker.outline = Arc::clone(&packed.outline);
        sticker.path.clone_from(&packed.path);
    }
    if let (Some(art), Some(packed)) = (&mut sticker.art, &packed.art) {
        (art.at, art.pixels_per_mm) = (packed.at, packed.pixels_per_mm);
    }
}

/// Stickers of which wanted copies lie nowhere, by name, and how many.
pub fn lacking(layout: &Layout) -> Vec<(String, usize)> {
    let lacks = |sticker: &Sticker| {
        let wanted = sticker.wanted.least() as usize;
        let count = wanted.saturating_sub(layout.placed(&sticker.id));
        (count > 0).then(|| (sticker.name.clone(), count))
    };
    layout.stickers.iter().filter_map(lacks).collect()
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::Wanted;

    use super::*;

    fn layout(half: f64, height: f64) -> Layout {
        let outline = format!("M-{half} -{half}H{half}V{half}H-{half}Z");
        let mut sticker = Sticker::new("box", "Box", path::parse(&outline).unwrap());
        sticker.wanted = Wanted::AtLeast(3);
        let mut layout = Layout { stickers: vec![sticker], ..Layout::default() };
        layout.pieces = vec![Piece::new("box".into(), Placement::at(30.0, 30.0))];
        layout.sheet.height = height;
        layout
    }

    fn taken(aim: PackAim) -> (f64, f64, usize) {
        let mut desk = Layout { pieces: Vec::new(), ..layout(5.0, 148.0) };
        take_over(&mut desk, layout(6.0, 90.0), aim);
        (desk.stickers[0].outline.bounds().x1, desk.sheet.height, desk.pieces.len())
    }

    #[test]
    fn only_what_the_aim_changes_is_taken_over() {
        assert_eq!(taken(PackAim::Fill), (5.0, 148.0, 1));
        assert_eq!(taken(PackAim::Even), (5.0, 148.0, 1));
        assert_eq!(taken(PackAim::Grow), (6.0, 148.0, 1));
        assert_eq!(taken(PackAim::Shorten), (5.0, 90.0, 1));
    }

    #[test]
    fn pieces_of_a_sticker_that_is_gone_are_left_out() {
        let mut desk = Layout::default();
        take_over(&mut desk, layout(6.0, 90.0), PackAim::Fill);
        assert!(desk.pieces.is_empty());
    }

    #[test]
    fn what_is_lacking_is_named() {
        assert_eq!(lacking(&layout(5.0, 148.0)), [("Box".to_owned(), 2)]);
    }
}
