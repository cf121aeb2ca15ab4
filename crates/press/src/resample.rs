//! Pixels looked up between pixels: once, in linear light, with a filter that keeps lines crisp.
//!
//! The filter is the cubic of Catmull and Rom, which goes through the pixels it is given and sharpens a little. Where the
//! picture is reduced it is widened in proportion, so that every pixel counts and nothing flickers. Past the lightest and the
//! darkest of the pixels that count for more than nothing it does not go: in linear light a dark line beside a light plane
//! would get a rim that is darker still, and eyes see that in print.
//! Source: R. Keys, "Cubic convolution interpolation for digital image processing", IEEE Transactions on Acoustics,
//! Speech, and Signal Processing 29 (1981), with a = -1/2; E. Catmull and R. Rom, "A class of local interpolating
//! splines", 1974.

use crate::colour::Curve;
use crate::picture::Pixels;

/// What lies beyond a picture's edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beyond {
    /// Nothing: clear.
    Clear,
    /// The pixels of the edge, again and again.
    Edge,
}

/// A picture to be looked up at one scale.
pub(crate) struct Sampler<'a> {
    pixels: &'a Pixels,
    curve: &'static Curve,
    beyond: Beyond,
    /// Which column and row of the whole picture its first pixel is.
    first: (i64, i64),
    /// How many of its pixels come to one of the result, at least 1.
    reduction: f32,
}

impl<'a> Sampler<'a> {
    /// `reduction`: how many of the picture's pixels come to one of the result; below 1 it is enlarged.
    pub(crate) fn new(pixels: &'a Pixels, beyond: Beyond, reduction: f64) -> Sampler<'a> {
        Sampler { pixels, curve: Curve::srgb(), beyond, first: (0, 0), reduction: reduction.max(1.0) as f32 }
    }

    /// The same for pixels that are a part of a larger picture, whose own pixels places are given in; `first` is the column
    /// and row of the part's first pixel.
    ///
    /// It gives the very same colours as the whole picture would, bit for bit, wherever the rest of that within reach of
    /// the filter is clear.
    pub(crate) fn of_part(self, first: (i64, i64)) -> Sampler<'a> {
        Sampler { first, ..self }
    }

    /// The colour and alpha at a point in pixels of the whole picture, the middle of its first pixel at (0.5, 0.5).
    pub(crate) fn at(&self, x: f64, y: f64) -> ([u8; 3], f32) {
        let columns = self.taps(x);
        let rows = self.taps(y);
        let mut sum = [0.0f32; 4];
        let mut total = 0.0;
        let mut near = Range::NONE;
        for (row, weight_y) in rows {
            let row = self.within(row - self.first.1, self.pixels.height_px);
            for (column, weight_x) in columns.clone() {
                // Summed in this order wherever the picture ends, so that a part of it gives the same bits.
                let weight = weight_x * weight_y;
                total += weight;
                let column = self.within(column - self.first.0, self.pixels.width_px);
                let (Some(row), Some(column)) = (row, column) else { continue };
                let start = (row * self.pixels.width_px as usize + column) * 4;
                let pixel = &self.pixels.rgba[start..start + 4];
                let alpha = weight * (f32::from(pixel[3]) / 255.0);
                for (sum, &stored) in sum.iter_mut().zip(&pixel[..3]) {
                    *sum += alpha * self.curve.light(stored);
                }
                sum[3] += alpha;
                if weight_x > 0.0 && weight_y > 0.0 && pixel[3] > 0 {
                    near.take(&pixel[..3]);
                }
            }
        }
        self.stored(sum, total, &near)
    }

    /// The sums of premultiplied light and alpha as a stored colour within the range and an alpha of 0 to 1.
    fn stored(&self, sum: [f32; 4], total: f32, near: &Range) -> ([u8; 3], f32) {
        let alpha = (sum[3] / total).clamp(0.0, 1.0);
        if sum[3] <= 0.0 || alpha < 1e-4 {
            return ([0; 3], 0.0);
        }
        let colour = [0, 1, 2].map(|i| near.held(i, self.curve.stored(sum[i] / sum[3])));
        (colour, alpha)
    }

    /// The pixels that count about a point along one side, with their weights.
    fn taps(&self, at: f64) -> impl Iterator<Item = (i64, f32)> + Clone + use<> {
        let reduction = self.reduction;
        let middle = at - 0.5;
        let reach = 2.0 * f64::from(reduction);
        let (first, last) = ((middle - reach).ceil() as i64, (middle + reach).floor() as i64);
        (first..=last).map(move |pixel| (pixel, cubic((middle - pixel as f64) as f32 / reduction)))
    }

    fn within(&self, pixel: i64, count: u32) -> Option<usize> {
        let last = i64::from(count) - 1;
        match self.beyond {
            Beyond::Edge => Some(pixel.clamp(0, last) as usize),
            Beyond::Clear => (0..=last).contains(&pixel).then_some(pixel as usize),
        }
    }
}

/// The darkest and the lightest stored value of each colour among some pixels.
struct Range {
    low: [u8; 3],
    high: [u8; 3],
}

impl Range {
    /// Of no pixels.
    const NONE: Range = Range { low: [255; 3], high: [0; 3] };

    fn take(&mut self, colour: &[u8]) {
        for (i, &value) in colour.iter().enumerate() {
            self.low[i] = self.low[i].min(value);
            self.high[i] = self.high[i].max(value);
        }
    }

    /// The value, or the nearest one that the pixels have; of no pixels the value itself.
    fn held(&self, i: usize, value: u8) -> u8 {
        if self.low[i] <= self.high[i] { value.clamp(self.low[i], self.high[i]) } else { value }
    }
}

/// The weight of a pixel this far away; source at the top of the file.
fn cubic(away: f32) -> f32 {
    let x = away.abs();
    if x < 1.0 {
        (1.5 * x - 2.5) * x * x + 1.0
    } else if x < 2.0 {
        ((-0.5 * x + 2.5) * x - 4.0) * x + 2.0
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(width: u32, rgba: Vec<u8>) -> Pixels {
        let height_px = rgba.len() as u32 / 4 / width;
        Pixels { width_px: width, height_px, rgba, pixels_per_mm: None, has_profile: false }
    }

    #[test]
    fn the_middle_of_a_pixel_is_that_pixel() {
        let rgba: Vec<u8> =
            (0..8 * 8 * 4u32).map(|i| (i * 37 % 256) as u8 | (if i % 4 == 3 { 255 } else { 0 })).collect();
        let picture = picture(8, rgba.clone());
        let sampler = Sampler::new(&picture, Beyond::Clear, 1.0);
        for y in 0..8 {
            for x in 0..8 {
                let (colour, alpha) = sampler.at(x as f64 + 0.5, y as f64 + 0.5);
                let start = (y * 8 + x) * 4;
                assert_eq!((&colour[..], alpha), (&rgba[start..start + 3], 1.0));
            }
        }
    }

    #[test]
    fn a_plain_picture_stays_plain_at_any_scale_and_place() {
        let picture = picture(9, [200, 90, 13, 255].repeat(81));
        for reduction in [0.3, 1.0, 1.7, 4.2] {
            let sampler = Sampler::new(&picture, Beyond::Edge, reduction);
            for at in [-3.0, 0.1, 4.37, 8.8, 20.0] {
                let (colour, alpha) = sampler.at(at, 9.0 - at);
                assert!((alpha - 1.0).abs() < 1e-5 && colour == [200, 90, 13], "{colour:?} {alpha}");
            }
        }
    }

    #[test]
    fn black_and_white_mixed_evenly_are_half_the_light() {
        // A chequered picture reduced eight times: 188 is half of the light in sRGB, 128 would be half of the stored value.
        let rgba = (0..64u32)
            .flat_map(|i| [if (i + i / 8) % 2 == 0 { 255 } else { 0 }; 3].into_iter().chain([255]))
            .collect();
        let picture = picture(8, rgba);
        let (colour, _) = Sampler::new(&picture, Beyond::Edge, 8.0).at(4.0, 4.0);
        assert!(colour.iter().all(|&value| (187..=189).contains(&value)), "{colour:?}");
    }

    #[test]
    fn a_dark_line_gets_no_rim() {
        // Light grey, then a dark plane: between the pixels nothing is lighter than the one or darker than the other.
        let row = [[190; 3], [190; 3], [190; 3], [48; 3], [48; 3], [48; 3]];
        let rgba: Vec<u8> = (0..6).flat_map(|_| row).flat_map(|[r, g, b]| [r, g, b, 255]).collect();
        let picture = picture(6, rgba);
        for reduction in [0.5, 1.0, 1.6] {
            let sampler = Sampler::new(&picture, Beyond::Edge, reduction);
            let values: Vec<u8> = (0..120).map(|i| sampler.at(f64::from(i) / 20.0, 3.1).0[0]).collect();
            assert!(values.is_sorted_by(|a, b| a >= b), "{reduction}: {values:?}");
            assert_eq!((values[0], values[119]), (190, 48));
        }
    }

    #[test]
    fn clear_pixels_lend_no_colour() {
        // Red beside clear green: the edge must not turn brown.
        let picture = picture(2, vec![255, 0, 0, 255, 0, 255, 0, 0]);
        let (colour, alpha) = Sampler::new(&picture, Beyond::Clear, 1.0).at(1.0, 0.5);
        assert_eq!(colour, [255, 0, 0]);
        assert!(alpha > 0.4 && alpha < 0.7, "{alpha}");
    }
}
