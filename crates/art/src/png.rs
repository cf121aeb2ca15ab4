//! PNG bytes to a picture's cover; colours are passed over.

use std::io::{Cursor, ErrorKind};

use png::{ColorType, Decoder, DecodingError, InterlaceInfo, Limits, Reader, Transformations, Unit};
use thiserror::Error;

use crate::progress::{Progress, Stopped};

/// The most pixels that a picture may have: a sheet of 300 x 400 mm at 1000 pixels to the inch has 186 million.
pub const MOST_PIXELS: u64 = 200_000_000;

/// How many rows pass between two words to whoever waits.
const ROWS_PER_WORD: u32 = 64;

/// The bytes that every PNG starts with. Source: PNG specification (W3C, ISO/IEC 15948), section 5.2.
pub(crate) const SIGNATURE: [u8; 8] = [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n'];

/// What a PNG says that matters for cutting.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Pixels in a row.
    pub width_px: u32,
    /// Rows.
    pub height_px: u32,
    /// How opaque each pixel is, row by row from the top: 0 clear, 255 opaque. Of 16-bit pictures the upper half.
    pub cover: Vec<u8>,
    /// How many pixels make a millimetre across and down, if the file says so (its pHYs chunk).
    pub pixels_per_mm: Option<(f64, f64)>,
}

/// Why bytes are not a picture to cut.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum PngError {
    /// The file ends too early.
    #[error("the picture ends before it is complete; copy or export it again")]
    CutShort,
    /// The file breaks the rules of PNG.
    #[error("the picture is damaged ({reason}); copy or export it again")]
    Damaged {
        /// What the decoder found.
        reason: String,
    },
    /// More pixels than [`MOST_PIXELS`].
    #[error(
        "the picture has {width_px} x {height_px} pixels, more than 200 million; export it at a lower resolution"
    )]
    TooManyPixels {
        /// Pixels in a row.
        width_px: u32,
        /// Rows.
        height_px: u32,
    },
    /// No alpha channel, so nothing tells the drawing from the paper.
    #[error("this picture has no transparency; save it as PNG with a transparent background")]
    NoTransparency,
    /// The caller asked to stop.
    #[error("reading was stopped")]
    Stopped,
}

impl From<Stopped> for PngError {
    fn from(_: Stopped) -> PngError {
        PngError::Stopped
    }
}

impl From<DecodingError> for PngError {
    fn from(error: DecodingError) -> PngError {
        match error {
            DecodingError::IoError(error) if error.kind() == ErrorKind::UnexpectedEof => PngError::CutShort,
            other => PngError::Damaged { reason: other.to_string() },
        }
    }
}

/// The cover of a PNG of any kind: grey, colour or palette, any depth, interlaced or not; of an animation the still
/// picture.
///
/// It is decoded row by row and only one byte a pixel is kept, so that the memory needed is that of the cover and the
/// file. `progress` is told the share of rows read.
pub fn read_png(bytes: &[u8], progress: &mut Progress<'_>) -> Result<Picture, PngError> {
    let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), Limits { bytes: 64 << 20 });
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    let (width_px, height_px) = decoder.read_header_info()?.size();
    if u64::from(width_px) * u64::from(height_px) > MOST_PIXELS {
        return Err(PngError::TooManyPixels { width_px, height_px });
    }
    // A palette or a single colour marked as clear becomes an alpha channel; 16 bits become 8.
    decoder.set_transformations(Transformations::EXPAND | Transformations::STRIP_16);
    let mut reader = decoder.read_info()?;
    let channels = match reader.output_color_type().0 {
        ColorType::GrayscaleAlpha => 2,
        ColorType::Rgba => 4,
        ColorType::Grayscale | ColorType::Rgb | ColorType::Indexed => return Err(PngError::NoTransparency),
    };
    let pixels_per_mm = pixels_per_mm(&reader);
    let cover = read_cover(&mut reader, channels, progress)?;
    Ok(Picture { width_px, height_px, cover, pixels_per_mm })
}

fn read_cover(
    reader: &mut Reader<Cursor<&[u8]>>,
    channels: usize,
    progress: &mut Progress<'_>,
) -> Result<Vec<u8>, PngError> {
    let (width, height) = (reader.info().width as usize, reader.info().height);
    let mut cover = vec![0; width * height as usize];
    // Interlaced, seven passes go over the picture with fifteen lines for every eight of it.
    let lines = if reader.info().interlaced { height / 8 * 15 + 15 } else { height };
    let mut line = 0u32;
    let mut thin = Vec::with_capacity(width);
    while let Some(row) = reader.next_interlaced_row()? {
        let alphas = row.data().chunks_exact(channels).map(|pixel| pixel[channels - 1]);
        match row.interlace() {
            InterlaceInfo::Null(_) => {
                let bytes = cover.chunks_exact_mut(width).nth(line as usize).into_iter().flatten();
                bytes.zip(alphas).for_each(|(byte, alpha)| *byte = alpha);
            }
            InterlaceInfo::Adam7(pass) => {
                thin.clear();
                thin.extend(alphas);
                png::expand_interlaced_row(&mut cover, width, &thin, pass, 8);
            }
        }
        line += 1;
        if line.is_multiple_of(ROWS_PER_WORD) {
            progress.tell(f64::from(line) / f64::from(lines))?;
        }
    }
    Ok(cover)
}

/// How many pixels make a millimetre across and down, if the file says so.
///
/// The file holds whole pixels per metre. If it holds what a whole number of pixels to the inch is rounded to, that
/// number is meant: 23622 per metre is 600 to the inch.
fn pixels_per_mm(reader: &Reader<Cursor<&[u8]>>) -> Option<(f64, f64)> {
    let size = reader.info().pixel_dims?;
    if size.unit != Unit::Meter || size.xppu == 0 || size.yppu == 0 {
        return None;
    }
    let exact = |per_metre: u32| {
        let per_inch = (f64::from(per_metre) * 0.0254).round();
        if (per_inch / 0.0254).round() == f64::from(per_metre) {
            per_inch / 25.4
        } else {
            f64::from(per_metre) / 1000.0
        }
    };
    Some((exact(size.xppu), exact(size.yppu)))
}

#[cfg(test)]
mod tests {
    use png::{BitDepth, Encoder, PixelDimensions};

    use super::*;

    fn encoded(
        color: ColorType,
        depth: BitDepth,
        width: u32,
        data: &[u8],
        more: impl Fn(&mut Encoder<'_, &mut Vec<u8>>),
    ) -> Vec<u8> {
        let mut bytes = Vec::new();
        let samples = data.len() / (color.samples() * if depth == BitDepth::Sixteen { 2 } else { 1 });
        let mut encoder = Encoder::new(&mut bytes, width, samples as u32 / width);
        encoder.set_color(color);
        encoder.set_depth(depth);
        more(&mut encoder);
        encoder.write_header().unwrap().write_image_data(data).unwrap();
        bytes
    }

    /// The check sum of a chunk. Source: PNG specification, annex D, without its table.
    fn check_sum(bytes: &[u8]) -> u32 {
        let bit = |sum: u32, _| if sum & 1 == 1 { 0xedb8_8320 ^ (sum >> 1) } else { sum >> 1 };
        !bytes.iter().fold(u32::MAX, |sum, &byte| (0..8).fold(sum ^ u32::from(byte), bit))
    }

    fn read(bytes: &[u8]) -> Result<Picture, PngError> {
        read_png(bytes, &mut Progress::new(&mut |_| true))
    }

    #[test]
    fn every_kind_of_transparency_is_read() {
        let rgba = encoded(ColorType::Rgba, BitDepth::Eight, 2, &[1, 2, 3, 0, 4, 5, 6, 200], |_| {});
        assert_eq!(read(&rgba).unwrap().cover, [0, 200]);
        let grey = encoded(ColorType::GrayscaleAlpha, BitDepth::Eight, 1, &[9, 7, 9, 8], |_| {});
        assert_eq!(read(&grey).unwrap().cover, [7, 8]);
        let deep = [0, 0, 0, 0, 0, 0, 0x7f, 0xff, 0, 0, 0, 0, 0, 0, 0x80, 0];
        let deep = encoded(ColorType::Rgba, BitDepth::Sixteen, 2, &deep, |_| {});
        assert_eq!(read(&deep).unwrap().cover, [0x7f, 0x80]);
        let palette = encoded(ColorType::Indexed, BitDepth::Eight, 3, &[0, 1, 2], |encoder| {
            encoder.set_palette(vec![0; 9]);
            encoder.set_trns(vec![0, 99]);
        });
        assert_eq!(read(&palette).unwrap().cover, [0, 99, 255]);
        let one_clear_grey = encoded(ColorType::Grayscale, BitDepth::Eight, 2, &[5, 6], |encoder| {
            encoder.set_trns(vec![0, 5]);
        });
        assert_eq!(read(&one_clear_grey).unwrap().cover, [0, 255]);
    }

    #[test]
    fn an_interlaced_picture_is_put_together() {
        // The encoder writes no interlaced files, so the seven passes are laid out here: PNG specification, 8.2.
        let (width, height) = (11usize, 9usize);
        let alpha = |x: usize, y: usize| (x * 20 + y) as u8;
        let mut data = Vec::new();
        let passes = [
            (0, 0, 8, 8),
            (4, 0, 8, 8),
            (0, 4, 4, 8),
            (2, 0, 4, 4),
            (0, 2, 2, 4),
            (1, 0, 2, 2),
            (0, 1, 1, 2),
        ];
        for (x0, y0, dx, dy) in passes {
            for y in (y0..height).step_by(dy) {
                data.push(0);
                data.extend((x0..width).step_by(dx).flat_map(|x| [7, alpha(x, y)]));
            }
        }
        let mut bytes = SIGNATURE.to_vec();
        let mut chunk = |name: &[u8; 4], data: &[u8]| {
            bytes.extend((data.len() as u32).to_be_bytes());
            let body = [&name[..], data].concat();
            bytes.extend(&body);
            bytes.extend(check_sum(&body).to_be_bytes());
        };
        chunk(b"IHDR", &[0, 0, 0, width as u8, 0, 0, 0, height as u8, 8, 4, 0, 0, 1]);
        chunk(b"IDAT", &stored_zlib(&data));
        chunk(b"IEND", &[]);
        let cover = read(&bytes).unwrap().cover;
        for (i, &byte) in cover.iter().enumerate() {
            assert_eq!(byte, alpha(i % width, i / width), "{i}");
        }
    }

    /// The bytes as a zlib stream of one block without compression. Source: RFC 1950 and RFC 1951, 3.2.4.
    fn stored_zlib(data: &[u8]) -> Vec<u8> {
        let length = data.len() as u16;
        let mut bytes = vec![0x78, 0x01, 1];
        bytes.extend(length.to_le_bytes());
        bytes.extend((!length).to_le_bytes());
        bytes.extend(data);
        let (mut low, mut high) = (1u32, 0u32);
        for &byte in data {
            low = (low + u32::from(byte)) % 65521;
            high = (high + low) % 65521;
        }
        bytes.extend((high << 16 | low).to_be_bytes());
        bytes
    }

    #[test]
    fn no_transparency_is_said() {
        let rgb = encoded(ColorType::Rgb, BitDepth::Eight, 1, &[1, 2, 3], |_| {});
        assert_eq!(read(&rgb), Err(PngError::NoTransparency));
        let palette = encoded(ColorType::Indexed, BitDepth::Eight, 1, &[0], |encoder| {
            encoder.set_palette(vec![0; 3]);
        });
        assert_eq!(read(&palette), Err(PngError::NoTransparency));
    }

    #[test]
    fn the_true_size_is_read_and_whole_pixels_to_the_inch_restored() {
        let with = |xppu, yppu, unit| {
            encoded(ColorType::GrayscaleAlpha, BitDepth::Eight, 1, &[0, 0], |encoder| {
                encoder.set_pixel_dims(Some(PixelDimensions { xppu, yppu, unit }));
            })
        };
        let size = |bytes: &[u8]| read(bytes).unwrap().pixels_per_mm;
        assert_eq!(size(&with(23622, 11811, Unit::Meter)), Some((600.0 / 25.4, 300.0 / 25.4)));
        assert_eq!(size(&with(20000, 10000, Unit::Meter)), Some((20.0, 10.0)));
        assert_eq!(size(&with(1, 1, Unit::Unspecified)), None);
        assert_eq!(size(&with(0, 0, Unit::Meter)), None);
        assert_eq!(size(&encoded(ColorType::GrayscaleAlpha, BitDepth::Eight, 1, &[0, 0], |_| {})), None);
    }

    #[test]
    fn a_file_cut_short_anywhere_gives_a_named_error() {
        let data: Vec<u8> = (0..40 * 40 * 2u32).map(|i| (i * i % 251) as u8).collect();
        let bytes = encoded(ColorType::GrayscaleAlpha, BitDepth::Eight, 40, &data, |_| {});
        // The last chunk, of twelve bytes, only says that the file ends.
        for length in 8..bytes.len() - 12 {
            let error = read(&bytes[..length]).unwrap_err();
            assert!(matches!(error, PngError::CutShort | PngError::Damaged { .. }), "{length}: {error:?}");
        }
    }

    #[test]
    fn an_absurd_size_is_refused_before_memory_is_taken() {
        let mut bytes = encoded(ColorType::GrayscaleAlpha, BitDepth::Eight, 1, &[0, 0], |_| {});
        // Width and height stand at bytes 16 to 24; the check sum of the chunk after its 13 bytes follows.
        bytes[16..24].copy_from_slice(&[0, 1, 0, 0, 0, 1, 0, 0]);
        let sum = check_sum(&bytes[12..29]);
        bytes[29..33].copy_from_slice(&sum.to_be_bytes());
        let refused = PngError::TooManyPixels { width_px: 65536, height_px: 65536 };
        assert_eq!(read(&bytes), Err(refused));
    }
}
