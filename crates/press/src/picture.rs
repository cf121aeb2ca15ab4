//! Pictures as they came: pixels, or drawings without pixels; and who gives them.

use std::io::{Cursor, ErrorKind};
use std::sync::Arc;

use kurbo::Affine;
use png::{ColorType, Decoder, DecodingError, Limits, Transformations, Unit};

/// Gives the pictures that a layout names.
pub trait Pictures {
    /// The picture in this file, as the layout names it, or why it is not there.
    ///
    /// It is asked for again and again, so whoever answers keeps what was decoded.
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture>;
}

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPicture {
    /// The file is not there; the text says so as the end of a sentence, such as `is not in the bundle`.
    Missing(String),
    /// The file is there and holds no picture; the text says what is wrong with it.
    Damaged(String),
}

/// A picture. Cheap to clone.
#[derive(Clone)]
pub enum Picture {
    /// Pixels.
    Pixels(Arc<Pixels>),
    /// A drawing without pixels of its own.
    Drawing(Arc<dyn Drawing>),
}

impl Picture {
    /// Width and height in its own units: pixels, or for a drawing the pixels of browsers, 96 to the inch.
    pub fn size(&self) -> (f64, f64) {
        match self {
            Picture::Pixels(pixels) => (f64::from(pixels.width_px), f64::from(pixels.height_px)),
            Picture::Drawing(drawing) => drawing.size(),
        }
    }
}

/// Pixels of sRGB with alpha, not premultiplied.
#[derive(Clone, Debug, PartialEq)]
pub struct Pixels {
    /// Pixels in a row.
    pub width_px: u32,
    /// Rows.
    pub height_px: u32,
    /// Red, green, blue and alpha of each pixel, row by row from the top.
    pub rgba: Vec<u8>,
    /// How many pixels make a millimetre, if the file says so and they are square.
    pub pixels_per_mm: Option<f64>,
    /// Whether the file brings a colour profile of its own, which is passed over: its colours are taken as sRGB.
    pub has_profile: bool,
}

/// A drawing that can be painted at any size: SVG.
pub trait Drawing {
    /// Width and height in the pixels of browsers, 96 to the inch.
    fn size(&self) -> (f64, f64);

    /// The drawing as the transform puts it on a canvas of so many pixels: sRGB with alpha, not premultiplied, row by
    /// row from the top. What lies outside of its own size is painted too.
    fn painted(&self, transform: Affine, width_px: u32, height_px: u32) -> Vec<u8>;
}

/// The most pixels of a picture: a sheet of 300 x 400 mm at 1000 pixels to the inch has 186 million.
const MOST_PIXELS: u64 = 200_000_000;

/// The pixels of a PNG of any kind: grey, colour or palette, any depth, interlaced or not; of an animation the still
/// picture. Of 16 bits the upper half is kept. A PNG without transparency is opaque.
///
/// The text of an error says what is wrong with the file, without a full stop.
pub fn read_png(bytes: &[u8]) -> Result<Pixels, String> {
    let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), Limits { bytes: 64 << 20 });
    decoder.set_ignore_text_chunk(true);
    let (width_px, height_px) = decoder.read_header_info().map_err(said)?.size();
    if u64::from(width_px) * u64::from(height_px) > MOST_PIXELS {
        return Err(format!("it has {width_px} x {height_px} pixels, more than 200 million"));
    }
    decoder.set_transformations(Transformations::EXPAND | Transformations::STRIP_16);
    let mut reader = decoder.read_info().map_err(said)?;
    let channels = reader.output_color_type().0.samples();
    let color = reader.output_color_type().0;
    let size = width_px as usize * height_px as usize;
    let mut rgba = vec![0; size * 4];
    // Fewer channels are read into the end of the same memory and spread out from the front.
    let start = size * (4 - channels);
    reader.next_frame(&mut rgba[start..]).map_err(said)?;
    spread(&mut rgba, start, color);
    let info = reader.info();
    Ok(Pixels {
        width_px,
        height_px,
        rgba,
        pixels_per_mm: info.pixel_dims.and_then(|dims| {
            let is_true = dims.unit == Unit::Meter && dims.xppu == dims.yppu && dims.xppu > 0;
            is_true.then(|| whole_per_inch(dims.xppu))
        }),
        has_profile: info.icc_profile.is_some(),
    })
}

/// What the decoder found, in plain words where there are some.
fn said(error: DecodingError) -> String {
    match error {
        DecodingError::IoError(error) if error.kind() == ErrorKind::UnexpectedEof => {
            "it ends before it is complete".to_owned()
        }
        other => other.to_string(),
    }
}

/// Pixels to the millimetre from pixels to the metre; if these are a whole number to the inch rounded, that is meant.
fn whole_per_inch(per_metre: u32) -> f64 {
    let per_inch = (f64::from(per_metre) * 0.0254).round();
    if (per_inch / 0.0254).round() == f64::from(per_metre) {
        per_inch / 25.4
    } else {
        f64::from(per_metre) / 1000.0
    }
}

/// Pixels of fewer channels at the end of the memory become four channels from its front on.
fn spread(rgba: &mut [u8], start: usize, color: ColorType) {
    let channels = color.samples();
    if channels == 4 {
        return;
    }
    for pixel in 0..rgba.len() / 4 {
        let from = start + pixel * channels;
        let values = match color {
            ColorType::Grayscale => [rgba[from], rgba[from], rgba[from], 255],
            ColorType::GrayscaleAlpha => [rgba[from], rgba[from], rgba[from], rgba[from + 1]],
            _ => [rgba[from], rgba[from + 1], rgba[from + 2], 255],
        };
        rgba[pixel * 4..pixel * 4 + 4].copy_from_slice(&values);
    }
}

#[cfg(test)]
mod tests {
    use png::{BitDepth, Encoder};

    use super::*;

    fn encoded(color: ColorType, depth: BitDepth, width: u32, data: &[u8], tables: [&[u8]; 2]) -> Vec<u8> {
        let mut bytes = Vec::new();
        let bits = color.samples() * depth as usize;
        let height = data.len() / (width as usize * bits).div_ceil(8);
        let mut encoder = Encoder::new(&mut bytes, width, height as u32);
        encoder.set_color(color);
        encoder.set_depth(depth);
        if !tables[0].is_empty() {
            encoder.set_palette(tables[0].to_vec());
        }
        if !tables[1].is_empty() {
            encoder.set_trns(tables[1].to_vec());
        }
        encoder.write_header().unwrap().write_image_data(data).unwrap();
        bytes
    }

    #[test]
    fn every_kind_of_png_becomes_four_channels() {
        let read = |color, depth, width, data: &[u8], tables| {
            read_png(&encoded(color, depth, width, data, tables)).unwrap().rgba
        };
        let none: [&[u8]; 2] = [&[], &[]];
        let eight = BitDepth::Eight;
        assert_eq!(read(ColorType::Rgba, eight, 1, &[1, 2, 3, 4], none), [1, 2, 3, 4]);
        assert_eq!(read(ColorType::Rgb, eight, 2, &[1, 2, 3, 4, 5, 6], none), [1, 2, 3, 255, 4, 5, 6, 255]);
        assert_eq!(read(ColorType::Grayscale, eight, 2, &[7, 8], none), [7, 7, 7, 255, 8, 8, 8, 255]);
        assert_eq!(read(ColorType::GrayscaleAlpha, eight, 2, &[7, 9, 8, 0], none), [7, 7, 7, 9, 8, 8, 8, 0]);
        assert_eq!(
            read(ColorType::Grayscale, BitDepth::One, 2, &[0b0100_0000], none),
            [0, 0, 0, 255, 255, 255, 255, 255]
        );
        let deep = [1, 99, 2, 99, 3, 99, 4, 99];
        assert_eq!(read(ColorType::Rgba, BitDepth::Sixteen, 1, &deep, none), [1, 2, 3, 4]);
        let palette: [&[u8]; 2] = [&[1, 2, 3, 4, 5, 6], &[77]];
        assert_eq!(read(ColorType::Indexed, eight, 2, &[0, 1], palette), [1, 2, 3, 77, 4, 5, 6, 255]);
    }

    #[test]
    fn a_file_cut_short_anywhere_is_refused_with_a_reason() {
        let data: Vec<u8> = (0..40 * 40 * 4u32).map(|i| (i * i % 251) as u8).collect();
        let bytes = encoded(ColorType::Rgba, BitDepth::Eight, 40, &data, [&[], &[]]);
        for length in 0..bytes.len() - 12 {
            assert!(!read_png(&bytes[..length]).unwrap_err().is_empty(), "{length}");
        }
    }

    #[test]
    fn whole_pixels_to_the_inch_are_restored() {
        assert_eq!(whole_per_inch(23622), 600.0 / 25.4);
        assert_eq!(whole_per_inch(20000), 20.0);
    }
}
