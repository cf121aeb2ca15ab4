//! The composed sheet: ground, white borders and art in bands of rows, so that a large sheet needs little memory.

mod band;
mod copy;
mod ground;
mod piece;

use std::io::Write;

use stickleaf_sheet::{Correction, Layout, placed_cut_lines};

use crate::compose::band::Band;
use crate::compose::ground::Ground;
use crate::compose::piece::Laid;
use crate::coverage::{Window, coverage};
use crate::frame::{Frame, card_edge};
use crate::picture::Pictures;
use crate::png_out::{RowTaker, write_png};
use crate::progress::Progress;
use crate::tone::Corrector;
use crate::trouble::PressError;

pub(crate) use crate::compose::ground::GroundPicture;
pub(crate) use crate::compose::piece::paint;

/// How many rows are composed at once.
const BAND: usize = 128;

/// How the sheet is composed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ComposeOptions {
    /// Pixels to the inch.
    pub resolution_ppi: f64,
    /// How far the ground runs past the card's edge, in millimetres; with 0 the picture is the card.
    pub bleed: f64,
    /// The colour of the ground below the background picture.
    pub ground: [u8; 3],
    /// How all colours are shifted for the printer.
    pub correction: Correction,
}

/// Writes the composed sheet as PNG and gives its frame: background, white borders, art.
///
/// Past the card's round corners, bleed included, the picture is clear. The file says its true size (pHYs) and that its
/// colours are sRGB. Art is looked up once, in linear light (`resample`); where a piece lies upright, at the scale of its
/// picture and on whole pixels, its pixels are copied as they are.
pub fn write_sheet(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    options: &ComposeOptions,
    progress: &mut Progress<'_>,
    out: impl Write,
) -> Result<Frame, PressError> {
    let frame = Frame::new(&layout.sheet, options.resolution_ppi, options.bleed)?;
    write_png(out, &frame, |take| compose(layout, pictures, options, progress, take))?;
    Ok(frame)
}

/// Composes the sheet band by band; `take` gets whole rows of red, green, blue and alpha.
pub fn compose(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    options: &ComposeOptions,
    progress: &mut Progress<'_>,
    take: &mut RowTaker<'_>,
) -> Result<(), PressError> {
    let frame = Frame::new(&layout.sheet, options.resolution_ppi, options.bleed)?;
    let mut ground = Ground::of(layout, pictures, &frame)?;
    let mut pieces = laid_pieces(layout, pictures, &frame)?;
    let opacity = layout.chosen_background().map_or(1.0, |background| background.picture_opacity);
    let bleed = f64::from(frame.bleed_px) / frame.per_mm();
    let edge = frame.ring(&card_edge(&layout.sheet, bleed));
    let rows = frame.height_px as usize;
    let mut corrector = Corrector::new(options.correction);
    for start in (0..rows).step_by(BAND) {
        progress.tell(start as f64 / rows as f64)?;
        let height = BAND.min(rows - start);
        let window = Window { x: 0, y: start as i64, width: frame.width_px as usize, height };
        let mut band = Band::plain(window, options.ground);
        ground.lay(&mut band);
        if opacity < 1.0 {
            band.fade(options.ground, opacity);
        }
        for piece in &mut pieces {
            piece.lay(&mut band);
        }
        let mut rgba = band.masked(&coverage([&edge[..]], window));
        corrector.correct(&mut rgba);
        take(&rgba)?;
    }
    progress.tell(1.0)?;
    Ok(())
}

fn laid_pieces(layout: &Layout, pictures: &mut dyn Pictures, frame: &Frame) -> Result<Vec<Laid>, PressError> {
    let lines = placed_cut_lines(layout);
    let pieces = layout.pieces.iter().zip(lines);
    pieces
        .filter_map(|(piece, line)| Some((layout.sticker(&piece.sticker)?, piece, line)))
        .map(|(sticker, piece, line)| Laid::new(sticker, &piece.placement, &line, frame, pictures))
        .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Art, Piece, Sheet, Sticker};

    use super::*;
    use crate::picture::{NoPicture, Picture, Pixels};

    /// A noisy opaque picture of so many pixels each way.
    struct Noise(u32);

    impl Noise {
        fn pixels(&self) -> Pixels {
            let value = |i: u32| (i.wrapping_mul(2_654_435_761) >> 24) as u8;
            let rgba = (0..self.0 * self.0 * 4).map(|i| if i % 4 == 3 { 255 } else { value(i) }).collect();
            Pixels { width_px: self.0, height_px: self.0, rgba, pixels_per_mm: None, has_profile: false }
        }
    }

    impl Pictures for Noise {
        fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
            match file {
                "art.png" => Ok(Picture::Pixels(Arc::new(self.pixels()))),
                _ => Err(NoPicture::Missing("is not there".into())),
            }
        }
    }

    /// One piece of 10 mm square at 10 pixels to the millimetre on a small card, its art as large as its cut line.
    fn layout(placement: Placement) -> Layout {
        let mut sticker = Sticker::new("a", "A", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.border = Some(0.0);
        sticker.art = Some(Art::new("art.png", (-5.0, -5.0).into(), Some(10.0)));
        Layout {
            sheet: Sheet { width: 40.0, height: 30.0, corner_radius: 3.0, resolution_ppi: 254.0 },
            stickers: vec![sticker],
            pieces: vec![Piece::new("a".into(), placement)],
            ..Layout::default()
        }
    }

    fn composed(layout: &Layout, bleed: f64) -> (Frame, Vec<u8>) {
        let options = ComposeOptions {
            resolution_ppi: 254.0,
            bleed,
            ground: [10, 20, 30],
            correction: Correction::NONE,
        };
        let mut rgba = Vec::new();
        let mut yes = |_| true;
        let mut take = |rows: &[u8]| {
            rgba.extend_from_slice(rows);
            Ok(())
        };
        compose(layout, &mut Noise(100), &options, &mut Progress::new(&mut yes), &mut take).unwrap();
        (Frame::new(&layout.sheet, 254.0, bleed).unwrap(), rgba)
    }

    #[test]
    fn a_straight_piece_is_copied_to_the_bit() {
        let art = Noise(100).pixels().rgba;
        for bleed in [0.0, 2.0] {
            let (frame, rgba) = composed(&layout(Placement::at(12.3, 11.2)), bleed);
            let (left, top) = (73 + frame.bleed_px as usize, 62 + frame.bleed_px as usize);
            for y in 0..100 {
                let start = ((y + top) * frame.width_px as usize + left) * 4;
                assert_eq!(rgba[start..start + 400], art[y * 400..y * 400 + 400], "row {y}");
            }
        }
    }

    #[test]
    fn quarter_turns_and_flips_move_pixels_without_changing_them() {
        // The middle of a pixel comes to the middle of a pixel, where the filter gives it back.
        let art = Noise(100).pixels().rgba;
        let at = |x: usize, y: usize| &art[(y * 100 + x) * 4..][..4];
        let (frame, rgba) = composed(&layout(Placement::turned(20.0, 15.0, 90.0)), 0.0);
        let flipped = Placement { mirrored: true, ..Placement::at(20.0, 15.0) };
        let (_, flipped) = composed(&layout(flipped), 0.0);
        for y in 0..100usize {
            for x in 0..100usize {
                let start = ((y + 100) * frame.width_px as usize + x + 150) * 4;
                assert_eq!(&rgba[start..start + 4], at(y, 99 - x), "turned {x} {y}");
                assert_eq!(&flipped[start..start + 4], at(99 - x, y), "flipped {x} {y}");
            }
        }
    }

    #[test]
    fn round_corners_are_clear_and_the_ground_reaches_past_the_edge() {
        let (frame, rgba) = composed(&layout(Placement::at(20.0, 15.0)), 2.0);
        let pixel = |x: u32, y: u32| &rgba[((y * frame.width_px + x) * 4) as usize..][..4];
        assert_eq!((frame.width_px, frame.height_px), (440, 340));
        assert_eq!(pixel(0, 0), [0; 4]);
        assert_eq!(pixel(200, 0), [10, 20, 30, 255]);
        // The corner's radius is 3 + 2 mm: area cut off is (1 - pi / 4) times 50 pixels squared.
        let clear: f64 = rgba.chunks_exact(4).map(|p| 1.0 - f64::from(p[3]) / 255.0).sum();
        assert!((clear - (4.0 - core::f64::consts::PI) * 2500.0).abs() < 3.0, "{clear}");
    }

    #[test]
    fn missing_art_and_art_of_another_size_are_named() {
        let refused = |change: fn(&mut Art)| {
            let mut layout = layout(Placement::at(20.0, 15.0));
            change(layout.stickers[0].art.as_mut().unwrap());
            let options = ComposeOptions {
                resolution_ppi: 254.0,
                bleed: 0.0,
                ground: [255; 3],
                correction: Correction::NONE,
            };
            let mut yes = |_| true;
            write_sheet(&layout, &mut Noise(100), &options, &mut Progress::new(&mut yes), Vec::new())
                .unwrap_err()
        };
        assert!(matches!(refused(|art| art.file = "gone.png".into()), PressError::Missing { .. }));
        let error = refused(|art| art.pixels_per_mm = Some(15.0));
        assert!(error.to_string().contains("outline of A"), "{error}");
    }

    #[test]
    fn a_no_stops_it() {
        let options = ComposeOptions {
            resolution_ppi: 254.0,
            bleed: 0.0,
            ground: [255; 3],
            correction: Correction::NONE,
        };
        let mut told = 0;
        let mut listener = |_| {
            told += 1;
            told < 2
        };
        let layout = layout(Placement::at(20.0, 15.0));
        let stopped =
            write_sheet(&layout, &mut Noise(100), &options, &mut Progress::new(&mut listener), Vec::new());
        assert_eq!(stopped, Err(PressError::Stopped));
    }

    #[test]
    fn the_file_says_its_size_and_its_colours() {
        let mut bytes = Vec::new();
        let options = ComposeOptions {
            resolution_ppi: 600.0,
            bleed: 0.0,
            ground: [255; 3],
            correction: Correction::NONE,
        };
        let mut yes = |_| true;
        let layout = layout(Placement::at(20.0, 15.0));
        write_sheet(&layout, &mut Noise(100), &options, &mut Progress::new(&mut yes), &mut bytes).unwrap();
        let reader = png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
        let info = reader.info();
        // 40 x 30 mm at 600 pixels to the inch; 600 / 0.0254 = 23622.05 per metre.
        assert_eq!(info.size(), (945, 709));
        assert_eq!(info.pixel_dims.unwrap().xppu, 23622);
        assert!(info.srgb.is_some());
    }
}
