//! Parts of a PNG as PNGs of their own, every sample as it was.

use std::borrow::Cow;
use std::cell::RefCell;
use std::io::{Cursor, Write};
use std::rc::Rc;

use png::{
    BitDepth, ColorType, Compression, Decoder, DecodingError, Encoder, EncodingError, Info, Limits, Reader,
    StreamWriter, Transformations,
};

use crate::parts::window::Window;
use crate::progress::{Progress, Stopped};

/// How many bytes are gathered before they are written as one chunk.
const CHUNK: usize = 1 << 16;

/// How many rows pass between two words to whoever waits.
const ROWS_PER_WORD: u32 = 64;

/// An interlaced picture is held whole while it is cut up, but none that takes more bytes than this.
const MOST_INTERLACED: usize = 256 << 20;

/// Why there are no parts.
#[derive(Debug)]
pub(super) enum NoParts {
    /// The file is damaged, or of a kind that is better left alone.
    LeaveWhole,
    /// The caller asked to stop.
    Stopped,
}

impl From<Stopped> for NoParts {
    fn from(_: Stopped) -> NoParts {
        NoParts::Stopped
    }
}

impl From<DecodingError> for NoParts {
    fn from(_: DecodingError) -> NoParts {
        NoParts::LeaveWhole
    }
}

impl From<EncodingError> for NoParts {
    fn from(_: EncodingError) -> NoParts {
        NoParts::LeaveWhole
    }
}

/// Width and height of a PNG; nothing if it is none, or names its colours by code points (cICP), which a part could not.
pub(super) fn size(bytes: &[u8]) -> Option<(u32, u32)> {
    let reader = decoder(bytes).read_info().ok()?;
    reader.info().coding_independent_code_points.is_none().then(|| reader.info().size())
}

/// These windows of a PNG, each a PNG of the same kind: colour type, depth, palette and every sample stay, those of clear
/// pixels too, and so do what it says of its colours (gAMA, cHRM, sRGB, the profile of iCCP) and of its size (pHYs). Texts,
/// times and an animation stay behind, and none is interlaced.
///
/// It is read row by row, and only windows that a row runs through are open; an interlaced picture is held whole.
pub(super) fn cut_out(
    bytes: &[u8],
    windows: &[Window],
    progress: &mut Progress<'_>,
) -> Result<Vec<Vec<u8>>, NoParts> {
    let mut reader = decoder(bytes).read_info()?;
    let told = told(reader.info());
    let bits = reader.info().bits_per_pixel();
    let rows = reader.info().height;
    let mut cuts: Vec<Cut> = windows.iter().map(|&window| Cut::new(window)).collect();
    let held = if reader.info().interlaced { Some(whole(&mut reader)?) } else { None };
    let line = reader.output_line_size(reader.info().width).ok_or(NoParts::LeaveWhole)?;
    for number in 0..rows {
        if number.is_multiple_of(ROWS_PER_WORD) {
            progress.tell(f64::from(number) / f64::from(rows))?;
        }
        let row = match &held {
            Some(held) => &held[number as usize * line..][..line],
            None => reader.next_row()?.ok_or(NoParts::LeaveWhole)?.data(),
        };
        for cut in &mut cuts {
            cut.take(number, row, bits, &told)?;
        }
    }
    if held.is_none() {
        // What follows the last row is looked at too: a damaged file is left as it is.
        reader.finish()?;
    }
    Ok(cuts.into_iter().map(|cut| cut.file.0.take()).collect())
}

fn decoder(bytes: &[u8]) -> Decoder<Cursor<&[u8]>> {
    let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), Limits { bytes: 64 << 20 });
    decoder.set_ignore_text_chunk(true);
    decoder.set_transformations(Transformations::IDENTITY);
    decoder
}

/// All rows of an interlaced picture, one after the other.
fn whole(reader: &mut Reader<Cursor<&[u8]>>) -> Result<Vec<u8>, NoParts> {
    let size =
        reader.output_buffer_size().filter(|size| *size <= MOST_INTERLACED).ok_or(NoParts::LeaveWhole)?;
    let mut bytes = vec![0; size];
    reader.next_frame(&mut bytes)?;
    Ok(bytes)
}

/// What parts say of themselves as the whole does.
fn told(info: &Info<'_>) -> Info<'static> {
    let owned = |bytes: &Option<Cow<'_, [u8]>>| bytes.as_ref().map(|bytes| bytes.to_vec().into());
    let mut told = Info::default();
    told.bit_depth = info.bit_depth;
    told.color_type = info.color_type;
    told.palette = owned(&info.palette);
    let clear = |colour| clear_colour(colour, info.color_type, info.bit_depth).into();
    told.trns = info.trns.as_deref().map(clear);
    told.pixel_dims = info.pixel_dims;
    told.source_gamma = info.gama_chunk;
    told.source_chromaticities = info.chrm_chunk;
    told.srgb = info.srgb;
    told.icc_profile = owned(&info.icc_profile);
    told
}

/// The colour that is clear, two bytes to each sample as the format has it; the reader gives one where one is enough. With a
/// palette it is a list of opacities.
///
/// Source: PNG specification (W3C, ISO/IEC 15948), 11.3.1.1 tRNS.
fn clear_colour(colour: &[u8], kind: ColorType, depth: BitDepth) -> Vec<u8> {
    if kind == ColorType::Indexed || depth == BitDepth::Sixteen {
        return colour.to_vec();
    }
    colour.iter().flat_map(|&sample| [0, sample]).collect()
}

/// Bytes that are written through one handle and taken through another.
#[derive(Clone, Default)]
struct Sink(Rc<RefCell<Vec<u8>>>);

impl Write for Sink {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.borrow_mut().write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// A window and the file that is written of it.
struct Cut {
    window: Window,
    file: Sink,
    /// Open while rows of the picture run through the window.
    writer: Option<StreamWriter<'static, Sink>>,
}

impl Cut {
    fn new(window: Window) -> Cut {
        Cut { window, file: Sink::default(), writer: None }
    }

    /// Takes what belongs to it of a row of the whole picture.
    fn take(&mut self, number: u32, row: &[u8], bits: usize, told: &Info<'static>) -> Result<(), NoParts> {
        let Window { top, left, width, height } = self.window;
        if number < top || number >= top + height {
            return Ok(());
        }
        if number == top {
            let mut info = told.clone();
            (info.width, info.height) = (width, height);
            let mut encoder = Encoder::with_info(self.file.clone(), info)?;
            encoder.set_compression(Compression::Balanced);
            self.writer = Some(encoder.write_header()?.into_stream_writer_with_size(CHUNK)?);
        }
        let Some(writer) = &mut self.writer else { return Ok(()) };
        // The left edge lies on a whole byte: see `window`.
        let (first, count) = (left as usize * bits / 8, (width as usize * bits).div_ceil(8));
        writer.write_all(&row[first..first + count]).map_err(|_| NoParts::LeaveWhole)?;
        if number + 1 == top + height
            && let Some(writer) = self.writer.take()
        {
            writer.finish()?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use png::{PixelDimensions, ScaledFloat, Unit};
    use proptest::prelude::*;

    use super::*;
    use crate::picture::read_png;

    fn kinds() -> impl Strategy<Value = (ColorType, BitDepth)> {
        use BitDepth::{Eight, Four, One, Sixteen, Two};
        use ColorType::{Grayscale, GrayscaleAlpha, Indexed, Rgb, Rgba};
        prop::sample::select(vec![
            (Grayscale, One),
            (Grayscale, Two),
            (Grayscale, Four),
            (Grayscale, Eight),
            (Grayscale, Sixteen),
            (Indexed, One),
            (Indexed, Four),
            (Indexed, Eight),
            (Rgb, Eight),
            (Rgb, Sixteen),
            (GrayscaleAlpha, Eight),
            (GrayscaleAlpha, Sixteen),
            (Rgba, Eight),
            (Rgba, Sixteen),
        ])
    }

    /// A picture of noise of this kind.
    fn noise(kind: ColorType, depth: BitDepth, width: u32, height: u32) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = Encoder::new(&mut bytes, width, height);
        encoder.set_color(kind);
        encoder.set_depth(depth);
        encoder.set_source_gamma(ScaledFloat::new(0.5));
        encoder.set_pixel_dims(Some(PixelDimensions { xppu: 20000, yppu: 20000, unit: Unit::Meter }));
        match kind {
            ColorType::Indexed => {
                encoder.set_palette(
                    (0..768u32).map(|i| (i * 7 % 251) as u8).take(3 << depth as u32).collect::<Vec<u8>>(),
                );
                encoder.set_trns(vec![0, 90, 180]);
            }
            ColorType::Grayscale => encoder.set_trns(vec![0, 1]),
            ColorType::Rgb => encoder.set_trns(vec![0, 1, 0, 2, 0, 3]),
            _ => {}
        }
        let line = (width as usize * kind.samples() * depth as usize).div_ceil(8);
        let data: Vec<u8> = (0..(line * height as usize) as u32)
            .map(|i| (i.wrapping_mul(2_654_435_761) >> 24) as u8)
            .collect();
        encoder.write_header().unwrap().write_image_data(&data).unwrap();
        bytes
    }

    /// All samples of a picture as they stand in its file, one number each.
    fn samples(bytes: &[u8]) -> (Info<'static>, Vec<Vec<u16>>) {
        let mut reader = decoder(bytes).read_info().unwrap();
        let info = told(reader.info());
        let (width, depth) =
            (reader.info().width as usize * info.color_type.samples(), info.bit_depth as usize);
        let mut rows = Vec::new();
        while let Some(row) = reader.next_row().unwrap() {
            let sample = |i: usize| match depth {
                16 => u16::from_be_bytes([row.data()[2 * i], row.data()[2 * i + 1]]),
                _ => u16::from(row.data()[i * depth / 8] >> (8 - depth - i * depth % 8)) & ((1 << depth) - 1),
            };
            rows.push((0..width).map(sample).collect());
        }
        (info, rows)
    }

    proptest! {
        #[test]
        fn every_sample_stays_and_what_the_picture_says_of_itself(
            (kind, depth) in kinds(), left in 0u32..5, top in 0u32..40, width in 1u32..40, height in 1u32..40,
        ) {
            let bytes = noise(kind, depth, 80, 80);
            let window = Window { top, left: 8 * left, width, height };
            let other = Window { top: 3, left: 0, width: 80, height: 20 };
            let mut go_on = |_| true;
            let parts = cut_out(&bytes, &[window, other], &mut Progress::new(&mut go_on)).unwrap();
            let (whole_info, whole) = samples(&bytes);
            for (part, window) in parts.iter().zip([window, other]) {
                let (info, rows) = samples(part);
                prop_assert_eq!(rows.len(), window.height as usize);
                for (row, of_whole) in rows.iter().zip(&whole[window.top as usize..]) {
                    let channels = kind.samples();
                    let first = window.left as usize * channels;
                    prop_assert_eq!(&row[..], &of_whole[first..first + window.width as usize * channels]);
                }
                prop_assert_eq!(info.source_gamma, whole_info.source_gamma);
                prop_assert_eq!(&info.palette, &whole_info.palette);
                prop_assert_eq!(&info.trns, &whole_info.trns);
                let (read, of_whole) = (read_png(part).unwrap(), read_png(&bytes).unwrap());
                prop_assert_eq!(read.pixels_per_mm, of_whole.pixels_per_mm);
                let first = (window.top as usize * 80 + window.left as usize) * 4;
                prop_assert_eq!(&read.rgba[..window.width as usize * 4], &of_whole.rgba[first..][..window.width as usize * 4]);
            }
        }
    }

    #[test]
    fn a_profile_goes_along() {
        let mut bytes = Vec::new();
        let profile: Vec<u8> = (0..3000u32).map(|i| (i * i % 251) as u8).collect();
        let mut info = Info::with_size(64, 64);
        (info.color_type, info.bit_depth) = (ColorType::Rgba, BitDepth::Eight);
        info.icc_profile = Some(profile.clone().into());
        let mut writer = Encoder::with_info(&mut bytes, info).unwrap().write_header().unwrap();
        writer.write_image_data(&[200; 64 * 64 * 4]).unwrap();
        writer.finish().unwrap();
        let window = Window { top: 8, left: 8, width: 20, height: 20 };
        let mut go_on = |_| true;
        let parts = cut_out(&bytes, &[window], &mut Progress::new(&mut go_on)).unwrap();
        let reader = decoder(&parts[0]).read_info().unwrap();
        assert_eq!(reader.info().icc_profile.as_deref(), Some(&profile[..]));
    }

    #[test]
    fn a_file_cut_short_anywhere_is_left_whole() {
        let bytes = noise(ColorType::Rgba, BitDepth::Eight, 40, 40);
        let window = Window { top: 0, left: 0, width: 8, height: 4 };
        for length in 0..bytes.len() - 12 {
            let mut go_on = |_| true;
            let parts = cut_out(&bytes[..length], &[window], &mut Progress::new(&mut go_on));
            assert!(matches!(parts, Err(NoParts::LeaveWhole)), "{length}");
        }
    }

    #[test]
    fn a_no_stops_it() {
        let bytes = noise(ColorType::Rgb, BitDepth::Eight, 80, 80);
        let mut no = |_| false;
        let parts = cut_out(&bytes, &[Window::whole((80, 80))], &mut Progress::new(&mut no));
        assert!(matches!(parts, Err(NoParts::Stopped)));
    }
}
