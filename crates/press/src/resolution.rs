//! How finely pictures are printed at the size at which they lie on the sheet.

use stickleaf_sheet::{Layout, MM_PER_INCH, Rules, StickerId};

use crate::art::StickerArt;
use crate::compose::GroundPicture;
use crate::picture::{Picture, Pictures};
use crate::trouble::PressError;

/// Half a pixel to the inch is lost where a file counts whole pixels to the metre.
const LOST_PPI: f64 = 0.5;

/// A picture on the sheet and its effective resolution.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedPicture {
    /// What it is the picture of.
    pub subject: Subject,
    /// The file that the layout names.
    pub file: String,
    /// How many of its pixels come to an inch of paper; nothing for a drawing, whose lines are sharp at any size.
    pub effective_ppi: Option<f64>,
}

/// What a picture on the sheet shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A sticker, all of whose pieces have one size.
    Sticker(StickerId),
    /// The chosen background.
    Background,
}

impl PrintedPicture {
    /// Whether it has fewer pixels to the inch than the rules ask.
    pub fn is_coarse(&self, rules: &Rules) -> bool {
        self.effective_ppi.is_some_and(|ppi| ppi < rules.least_ppi - LOST_PPI)
    }
}

/// The pictures on the sheet with their effective resolutions: those of the stickers of which a piece is there, in the
/// order of the layout, then the background's.
///
/// Fails as composing would where a picture is missing, damaged or of another size.
pub fn printed_pictures(
    layout: &Layout,
    pictures: &mut dyn Pictures,
) -> Result<Vec<PrintedPicture>, PressError> {
    let mut printed = Vec::new();
    for sticker in &layout.stickers {
        if !layout.pieces.iter().any(|piece| piece.sticker == sticker.id) {
            continue;
        }
        let (Some(art), Some(placed)) = (&sticker.art, StickerArt::of(sticker, pictures)?) else { continue };
        printed.push(PrintedPicture {
            subject: Subject::Sticker(sticker.id.clone()),
            file: art.file.clone(),
            effective_ppi: ppi(&placed.picture, placed.per_mm),
        });
    }
    let file = layout.chosen_background().and_then(|chosen| chosen.picture.clone());
    if let (Some(file), Some(ground)) = (file, GroundPicture::of(layout, pictures)?) {
        printed.push(PrintedPicture {
            subject: Subject::Background,
            file: file.to_string(),
            effective_ppi: ppi(&ground.picture, ground.per_mm.0.min(ground.per_mm.1)),
        });
    }
    Ok(printed)
}

fn ppi(picture: &Picture, per_mm: f64) -> Option<f64> {
    match picture {
        Picture::Pixels(_) => Some(per_mm * MM_PER_INCH),
        Picture::Drawing(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use kurbo::Affine;
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Art, Piece, Sticker};

    use super::*;
    use crate::picture::{Drawing, NoPicture, Pixels};

    struct Square;

    impl Drawing for Square {
        fn size(&self) -> (f64, f64) {
            (200.0, 200.0)
        }

        fn painted(&self, _: Affine, width_px: u32, height_px: u32) -> Vec<u8> {
            vec![255; width_px as usize * height_px as usize * 4]
        }
    }

    /// A picture of 200 pixels square that says 10 to the millimetre, another that says nothing, and a drawing.
    struct Three;

    impl Pictures for Three {
        fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
            let pixels_per_mm = match file {
                "sized.png" => Some(10.0),
                "unsized.png" => None,
                "lines.svg" => return Ok(Picture::Drawing(Arc::new(Square))),
                _ => return Err(NoPicture::Missing("is not there".into())),
            };
            let rgba = vec![255; 200 * 200 * 4];
            let pixels = Pixels { width_px: 200, height_px: 200, rgba, pixels_per_mm, has_profile: false };
            Ok(Picture::Pixels(Arc::new(pixels)))
        }
    }

    fn layout(art: &[(&str, Option<f64>)]) -> Layout {
        let mut layout = Layout::default();
        for (file, pixels_per_mm) in art {
            let mut sticker = Sticker::new(*file, *file, path::parse("M0 0H10V10H0Z").unwrap());
            sticker.art = Some(Art::new(*file, (0.0, 0.0).into(), *pixels_per_mm));
            layout.pieces.push(Piece::new(sticker.id.clone(), Placement::at(20.0, 20.0)));
            layout.stickers.push(sticker);
        }
        layout
    }

    fn resolutions(layout: &Layout) -> Vec<Option<f64>> {
        let printed = printed_pictures(layout, &mut Three).unwrap();
        printed.into_iter().map(|picture| picture.effective_ppi.map(f64::round)).collect()
    }

    #[test]
    fn the_layout_counts_before_the_file_and_the_file_before_browsers() {
        // An inch has 25.4 mm; CSS has 96 pixels to the inch.
        let all =
            [("sized.png", None), ("sized.png", Some(20.0)), ("unsized.png", None), ("lines.svg", None)];
        assert_eq!(resolutions(&layout(&all)), [Some(254.0), Some(508.0), Some(96.0), None]);
    }

    #[test]
    fn only_what_is_coarser_than_the_rules_ask_is_coarse() {
        let all = [
            ("sized.png", Some(300.0 / 25.4)),
            ("sized.png", Some(299.6 / 25.4)),
            ("sized.png", Some(299.0 / 25.4)),
        ];
        let layout = layout(&all);
        let printed = printed_pictures(&layout, &mut Three).unwrap();
        let coarse: Vec<bool> = printed.iter().map(|picture| picture.is_coarse(&layout.rules)).collect();
        assert_eq!(coarse, [false, false, true]);
    }

    #[test]
    fn stickers_without_a_piece_are_passed_over_and_missing_pictures_are_not() {
        let mut layout = layout(&[("sized.png", None), ("gone.png", None)]);
        assert!(matches!(printed_pictures(&layout, &mut Three), Err(PressError::Missing { .. })));
        layout.pieces.pop();
        assert_eq!(resolutions(&layout), [Some(254.0)]);
    }
}
