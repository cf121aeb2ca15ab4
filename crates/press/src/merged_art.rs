//! One picture made of those of several drawings that have become one sticker.

use std::io::Write;

use kurbo::{Point, Rect};
use stickleaf_outline::{Placement, border};
use stickleaf_sheet::{MM_PER_INCH, Sticker};

use crate::art::StickerArt;
use crate::compose::paint;
use crate::coverage::{Window, coverage};
use crate::frame::Frame;
use crate::picture::{Picture, Pictures};
use crate::png_out::write_png;
use crate::progress::Progress;
use crate::trouble::PressError;

/// How far past its outline a drawing is taken, in millimetres: the half clear pixels at its edge, and what a traced line
/// may stray.
const EDGE: f64 = 0.15;

/// How much clear room is left round the drawings, in millimetres.
const ROOM: f64 = 0.5;

/// Where a picture that was made lies on its sticker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MergedArt {
    /// Where its top left corner lies, in the sticker's own millimetres.
    pub at: Point,
    /// How many of its pixels make a millimetre: as many as of the finest of the pictures.
    pub pixels_per_mm: f64,
    /// Pixels in a row.
    pub width_px: u32,
    /// Rows.
    pub height_px: u32,
}

/// Writes the picture of drawings that lie so in the millimetres of one sticker, as PNG with a clear ground, each cut out
/// along its outline.
///
/// Its pixels lie on those of the first picture with pixels, so that such a drawing is copied as it is; others are looked
/// up, and drawings without pixels are painted at `resolution_ppi` or finer.
pub fn write_merged_art(
    parts: &[(Sticker, Placement)],
    resolution_ppi: f64,
    pictures: &mut dyn Pictures,
    progress: &mut Progress<'_>,
    out: impl Write,
) -> Result<MergedArt, PressError> {
    let mut arts = Vec::new();
    for (sticker, placement) in parts {
        arts.extend(StickerArt::of(sticker, pictures)?.map(|art| (art, sticker, placement)));
    }
    let is_pixels = |art: &StickerArt| matches!(art.picture, Picture::Pixels(_));
    let finest = arts.iter().filter(|(art, ..)| is_pixels(art)).map(|(art, ..)| art.per_mm);
    let has_drawing = arts.iter().any(|(art, ..)| !is_pixels(art));
    let least = if has_drawing { resolution_ppi / MM_PER_INCH } else { 0.0 };
    let per_mm = finest.fold(least, f64::max).max(1.0);
    let lines: Vec<_> =
        arts.iter().map(|(_, sticker, placement)| border(&sticker.outline, EDGE).placed(placement)).collect();
    let bounds = lines.iter().map(|line| line.bounds()).reduce(|all, one| all.union(one));
    let bounds = bounds.unwrap_or(Rect::ZERO).inflate(ROOM, ROOM);
    // The grid of the picture that is copied as it is.
    let upright = arts.iter().find(|(art, _, placement)| {
        is_pixels(art) && art.per_mm == per_mm && **placement == Placement::at(0.0, 0.0)
    });
    let grid = upright.map_or(bounds.origin(), |(art, ..)| art.at);
    let first = |low: f64, grid: f64| grid + ((low - grid) * per_mm).floor() / per_mm;
    let at = Point::new(first(bounds.x0, grid.x), first(bounds.y0, grid.y));
    let count = |from: f64, to: f64| ((to - from) * per_mm).ceil().clamp(1.0, 60_000.0) as u32;
    let (width_px, height_px) = (count(at.x, bounds.x1), count(at.y, bounds.y1));
    let frame = Frame { resolution_ppi: per_mm * MM_PER_INCH, width_px, height_px, bleed_px: 0 };
    let window = Window { x: 0, y: 0, width: width_px as usize, height: height_px as usize };
    let mut rgba = vec![0u8; window.width * window.height * 4];
    let all = arts.len() as f64;
    for (number, ((art, _, placement), line)) in arts.iter().zip(&lines).enumerate() {
        progress.tell(number as f64 / all)?;
        let moved = Placement { at: placement.at - at.to_vec2(), ..**placement };
        let ring: Vec<Point> = line.points().iter().map(|&point| frame.pixel(point - at.to_vec2())).collect();
        let cover = coverage([&ring[..]], window);
        let mut painted = paint(art, &frame, &moved);
        let colour = painted.looked_up(window);
        for (index, &share) in cover.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            let (x, y) = ((index % window.width) as i64, (index / window.width) as i64);
            if let Some((colour, alpha)) = colour(x, y) {
                lay(&mut rgba[index * 4..index * 4 + 4], colour, alpha * share);
            }
        }
    }
    write_png(out, &frame, |take| {
        for row in rgba.chunks(window.width * 4) {
            take(row)?;
        }
        Ok(())
    })?;
    progress.tell(1.0)?;
    Ok(MergedArt { at, pixels_per_mm: per_mm, width_px, height_px })
}

/// Lays a colour over a pixel that may be clear.
///
/// Source: T. Porter, T. Duff, "Compositing digital images", SIGGRAPH 1984: the operator *over*.
fn lay(pixel: &mut [u8], colour: [u8; 3], alpha: f32) {
    let below = f32::from(pixel[3]) / 255.0 * (1.0 - alpha);
    let whole = alpha + below;
    if whole <= 0.0 {
        return;
    }
    for (channel, &colour) in pixel.iter_mut().zip(&colour) {
        *channel = ((f32::from(colour) * alpha + f32::from(*channel) * below) / whole + 0.5) as u8;
    }
    pixel[3] = (whole * 255.0 + 0.5) as u8;
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use stickleaf_outline::path;
    use stickleaf_sheet::Art;

    use super::*;
    use crate::picture::{NoPicture, Pixels, read_png};

    /// A picture of 40 x 40 pixels, each of a colour of its own.
    struct Chart;

    fn chart() -> Pixels {
        let rgba = (0..40u32 * 40).flat_map(|i| [(i % 40 * 6) as u8, (i / 40 * 6) as u8, 90, 255]).collect();
        Pixels { width_px: 40, height_px: 40, rgba, pixels_per_mm: None, has_profile: false }
    }

    impl Pictures for Chart {
        fn picture(&mut self, _: &str) -> Result<Picture, NoPicture> {
            Ok(Picture::Pixels(Arc::new(chart())))
        }
    }

    fn sticker() -> Sticker {
        let mut sticker = Sticker::new("a", "A", path::parse("M-1 -1H1V1H-1Z").unwrap());
        sticker.art = Some(Art::new("chart.png", Point::new(-2.0, -2.0), Some(10.0)));
        sticker
    }

    #[test]
    fn an_upright_drawing_is_copied_and_a_turned_one_comes_beside_it_and_nothing_else() {
        let parts = [(sticker(), Placement::at(0.0, 0.0)), (sticker(), Placement::turned(5.0, 0.0, 90.0))];
        let mut bytes = Vec::new();
        let mut go_on = |_| true;
        let made =
            write_merged_art(&parts, 600.0, &mut Chart, &mut Progress::new(&mut go_on), &mut bytes).unwrap();
        assert_eq!(made.pixels_per_mm, 10.0);
        let picture = read_png(&bytes).unwrap();
        let pixel = |x: f64, y: f64| {
            let column = ((x - made.at.x) * 10.0) as usize;
            let row = ((y - made.at.y) * 10.0) as usize;
            let start = (row * picture.width_px as usize + column) * 4;
            picture.rgba[start..start + 4].to_vec()
        };
        // Within the first outline each pixel is the chart's own: 2.05 mm right of the picture's edge is column 20.
        assert_eq!(pixel(0.05, 0.05), [20 * 6, 20 * 6, 90, 255]);
        assert_eq!(pixel(-0.95, 0.75), [10 * 6, 27 * 6, 90, 255]);
        // Turned by a quarter clockwise, what was up lies to the right.
        let turned = pixel(5.95, 0.05);
        assert!(turned[3] == 255 && turned[1] <= 12 * 6 && turned[0] > 15 * 6, "{turned:?}");
        // Between them the pictures go on, but the drawings do not.
        assert_eq!(pixel(2.5, 0.0)[3], 0);
    }
}
