//! The guide as PNG, in bands of rows, so that a large sheet needs little memory.

use std::io::Write;

use kurbo::Affine;
use stickleaf_sheet::{Layout, MM_PER_INCH};

use crate::art::BROWSER_PPI;
use crate::frame::Frame;
use crate::guide::drawn::write;
use crate::guide::parts::Parts;
use crate::picture::Drawing;
use crate::png_out::write_png;
use crate::progress::Progress;
use crate::svg::SvgDrawing;
use crate::trouble::PressError;

/// How many rows are drawn at once.
const BAND: u32 = 256;

/// Writes the guide as PNG and gives its frame: just as many pixels as the drawing has, clear where nothing is drawn.
pub fn write_pixels(
    layout: &Layout,
    parts: Parts,
    resolution_ppi: f64,
    progress: &mut Progress<'_>,
    out: impl Write,
) -> Result<Frame, PressError> {
    let frame = Frame::new(&layout.sheet, resolution_ppi, 0.0)?;
    let drawing = SvgDrawing::read(write(layout, parts).as_bytes()).map_err(PressError::Unwritten)?;
    let scale = Affine::scale(frame.per_mm() * MM_PER_INCH / BROWSER_PPI);
    write_png(out, &frame, |take| {
        for start in (0..frame.height_px).step_by(BAND as usize) {
            progress.tell(f64::from(start) / f64::from(frame.height_px))?;
            let rows = BAND.min(frame.height_px - start);
            let moved = scale.then_translate((0.0, -f64::from(start)).into());
            take(&drawing.painted(moved, frame.width_px, rows))?;
        }
        progress.tell(1.0).map_err(PressError::from)
    })?;
    Ok(frame)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Piece, Sheet, Sticker};

    use super::*;

    #[test]
    fn lines_lie_where_they_belong_and_the_rest_is_clear() {
        let mut sticker = Sticker::new("a", "A", path::parse("M-10 -10H10V10H-10Z").unwrap());
        sticker.border = Some(0.0);
        let layout = Layout {
            sheet: Sheet { width: 50.0, height: 40.0, corner_radius: 0.0, resolution_ppi: 508.0 },
            stickers: vec![sticker],
            pieces: vec![Piece::new("a".into(), Placement::at(25.0, 20.0))],
            ..Layout::default()
        };
        let parts = Parts { cut_lines: true, ..Parts::NONE };
        let mut bytes = Vec::new();
        let mut yes = |_| true;
        let frame = write_pixels(&layout, parts, 508.0, &mut Progress::new(&mut yes), &mut bytes).unwrap();
        // 50 x 40 mm at 20 pixels to the millimetre, whatever the height of a band.
        assert_eq!((frame.width_px, frame.height_px), (1000, 800));
        let pixels = crate::picture::read_png(&bytes).unwrap();
        assert_eq!(pixels.pixels_per_mm, Some(20.0));
        let pixel = |x: usize, y: usize| &pixels.rgba[(y * 1000 + x) * 4..][..4];
        // On the left and the lower cut line; within, and outside.
        assert_eq!((pixel(300, 400), pixel(500, 600)), (&[31, 107, 89, 255][..], &[31, 107, 89, 255][..]));
        assert_eq!((pixel(500, 400), pixel(100, 100)), (&[0; 4][..], &[0; 4][..]));
    }

    #[test]
    fn a_no_stops_it() {
        let mut no = |_| false;
        let stopped =
            write_pixels(&Layout::default(), Parts::ALL, 100.0, &mut Progress::new(&mut no), Vec::new());
        assert_eq!(stopped, Err(PressError::Stopped));
    }
}
