//! A picture's cover: how opaque each pixel is, and how large a pixel is.

use thiserror::Error;

use crate::outline::{MOST_COORDINATE, Outline};

/// How opaque each pixel of a picture is. One byte a pixel, so that a drawing of 27 million pixels fits a browser tab.
///
/// Promises: at least one pixel; as many bytes as pixels; a finite, positive pixel size; no side longer than
/// [`MOST_COORDINATE`].
#[derive(Clone, PartialEq)]
pub struct Mask {
    width_px: u32,
    height_px: u32,
    pixel: f64,
    cover: Vec<u8>,
}

/// Why bytes do not make a mask.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MaskError {
    /// No pixels.
    #[error("the picture has no pixels; its width and height must be at least 1")]
    Empty,
    /// Size and bytes disagree.
    #[error(
        "a picture of {width_px} x {height_px} pixels needs one byte of cover for each, but {bytes} were given"
    )]
    WrongLength {
        /// Pixels in a row.
        width_px: u32,
        /// Rows.
        height_px: u32,
        /// How many bytes there were.
        bytes: usize,
    },
    /// A pixel size that is no length.
    #[error("a pixel cannot be {pixel} mm wide; give a size above 0")]
    BadPixel {
        /// The size given, in millimetres.
        pixel: f64,
    },
    /// A picture larger than an outline may be.
    #[error("at {pixel} mm a pixel the picture is more than 10 m across; give it a smaller true size")]
    TooLarge {
        /// The size of a pixel, in millimetres.
        pixel: f64,
    },
}

impl Mask {
    /// The mask of these bytes, row by row from the top, 0 for clear and 255 for opaque; pixels are squares of `pixel`
    /// millimetres.
    pub fn new(width_px: u32, height_px: u32, pixel: f64, cover: Vec<u8>) -> Result<Mask, MaskError> {
        if width_px == 0 || height_px == 0 {
            return Err(MaskError::Empty);
        }
        if u64::from(width_px) * u64::from(height_px) != cover.len() as u64 {
            return Err(MaskError::WrongLength { width_px, height_px, bytes: cover.len() });
        }
        if !(pixel.is_finite() && pixel > 0.0) {
            return Err(MaskError::BadPixel { pixel });
        }
        if f64::from(width_px.max(height_px)) * pixel > MOST_COORDINATE {
            return Err(MaskError::TooLarge { pixel });
        }
        Ok(Mask { width_px, height_px, pixel, cover })
    }

    /// The outlines as a picture, soft at the edges: each pixel's cover is the share of it that lies inside.
    ///
    /// The picture's top left corner is (0, 0). Outlines that overlap add up to at most full cover; what lies outside
    /// of the picture is cut off. For tests, and to show an outline where no picture is at hand.
    ///
    /// The share is exact along a row and sampled 16 times across it, so it is right within a sixteenth at a level edge
    /// and much closer elsewhere.
    ///
    /// Errors: as [`Mask::new`].
    pub fn drawn(outlines: &[Outline], width_px: u32, height_px: u32, pixel: f64) -> Result<Mask, MaskError> {
        const LINES: u32 = 16;
        let count = width_px as usize * height_px as usize;
        let mut mask = Mask::new(width_px, height_px, pixel, vec![0; count])?;
        let width = width_px as usize;
        let mut shares = vec![0.0; width];
        for outline in outlines {
            let bounds = outline.bounds();
            let top = (bounds.y0 / pixel).floor().max(0.0) as u32;
            let bottom = ((bounds.y1 / pixel).ceil().max(0.0) as u32).min(height_px);
            for row in top..bottom {
                shares.fill(0.0);
                for line in 0..LINES {
                    let y = (f64::from(row) + (f64::from(line) + 0.5) / f64::from(LINES)) * pixel;
                    for pair in crossings(outline, y).chunks_exact(2) {
                        add_stretch(&mut shares, pair[0] / pixel, pair[1] / pixel);
                    }
                }
                let start = row as usize * width;
                for (cover, share) in mask.cover[start..start + width].iter_mut().zip(&shares) {
                    *cover =
                        cover.saturating_add((share * 255.0 / f64::from(LINES)).round().min(255.0) as u8);
                }
            }
        }
        Ok(mask)
    }

    /// Pixels in a row.
    pub fn width_px(&self) -> u32 {
        self.width_px
    }

    /// Rows.
    pub fn height_px(&self) -> u32 {
        self.height_px
    }

    /// The side of a pixel in millimetres.
    pub fn pixel(&self) -> f64 {
        self.pixel
    }

    /// All the bytes, row by row from the top.
    pub fn cover(&self) -> &[u8] {
        &self.cover
    }

    /// One row of bytes, counted from 0 at the top.
    pub fn row(&self, row: u32) -> &[u8] {
        let start = row as usize * self.width_px as usize;
        &self.cover[start..start + self.width_px as usize]
    }

    /// The cover of a pixel; 0 outside of the picture.
    pub fn at(&self, x: i64, y: i64) -> u8 {
        let inside =
            (0..i64::from(self.width_px)).contains(&x) && (0..i64::from(self.height_px)).contains(&y);
        if inside { self.cover[y as usize * self.width_px as usize + x as usize] } else { 0 }
    }
}

impl std::fmt::Debug for Mask {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Mask({} x {} px of {} mm)", self.width_px, self.height_px, self.pixel)
    }
}

/// Where a level line crosses the outline, from left to right.
fn crossings(outline: &Outline, y: f64) -> Vec<f64> {
    let mut xs: Vec<f64> = outline
        .edges()
        .filter(|(a, b)| (a.y > y) != (b.y > y))
        .map(|(a, b)| a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y))
        .collect();
    xs.sort_by(f64::total_cmp);
    xs
}

/// Adds to each pixel the part of the stretch from `start` to `end`, in pixels, that lies in it.
fn add_stretch(shares: &mut [f64], start: f64, end: f64) {
    let (start, end) = (start.max(0.0), end.min(shares.len() as f64));
    let mut x = start;
    while x < end {
        let next = (x.floor() + 1.0).min(end);
        shares[x as usize] += next - x;
        x = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::path;

    #[test]
    fn size_and_bytes_must_agree() {
        assert!(Mask::new(2, 3, 0.1, vec![0; 6]).is_ok());
        assert_eq!(Mask::new(0, 3, 0.1, vec![]), Err(MaskError::Empty));
        let wrong = MaskError::WrongLength { width_px: 2, height_px: 3, bytes: 5 };
        assert_eq!(Mask::new(2, 3, 0.1, vec![0; 5]), Err(wrong));
        for pixel in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(matches!(Mask::new(1, 1, pixel, vec![0]), Err(MaskError::BadPixel { .. })), "{pixel}");
        }
        assert!(matches!(Mask::new(2, 1, 6000.0, vec![0; 2]), Err(MaskError::TooLarge { .. })));
    }

    #[test]
    fn outside_of_the_picture_is_clear() {
        let mask = Mask::new(2, 1, 1.0, vec![7, 9]).unwrap();
        assert_eq!([mask.at(0, 0), mask.at(1, 0)], [7, 9]);
        assert_eq!([mask.at(-1, 0), mask.at(2, 0), mask.at(0, 1), mask.at(0, -1)], [0; 4]);
    }

    #[test]
    fn a_drawn_square_covers_the_share_of_each_pixel() {
        let square = path::parse("M0.5 1H2.25V2H0.5Z").unwrap();
        let mask = Mask::drawn(&[square], 4, 3, 1.0).unwrap();
        assert_eq!(mask.row(0), [0; 4]);
        assert_eq!(mask.row(1), [128, 255, 64, 0]);
        assert_eq!(mask.row(2), [0; 4]);
    }
}
