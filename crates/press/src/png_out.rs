//! PNG written row by row, with its true size and its colours named.

use std::io::Write;

use png::{BitDepth, ColorType, Compression, Encoder, PixelDimensions, SrgbRenderingIntent, Unit};

use crate::frame::Frame;
use crate::trouble::PressError;

/// How many bytes are gathered before they are written as one chunk.
const CHUNK: usize = 1 << 16;

/// Takes whole rows of red, green, blue and alpha.
pub type RowTaker<'a> = dyn FnMut(&[u8]) -> Result<(), PressError> + 'a;

/// Writes a picture of the sheet, whose rows are given by `give`. It says how many pixels make a metre, in whole ones as
/// the format has it, and that its colours are sRGB.
///
/// Source: PNG specification (W3C, ISO/IEC 15948), 11.3.4.3 pHYs and 11.3.2.5 sRGB.
pub(crate) fn write_png(
    out: impl Write,
    frame: &Frame,
    give: impl FnOnce(&mut RowTaker<'_>) -> Result<(), PressError>,
) -> Result<(), PressError> {
    let mut encoder = Encoder::new(out, frame.width_px, frame.height_px);
    encoder.set_color(ColorType::Rgba);
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::Balanced);
    encoder.set_source_srgb(SrgbRenderingIntent::RelativeColorimetric);
    let per_metre = (frame.resolution_ppi / 0.0254).round() as u32;
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter }));
    let mut writer = encoder.write_header().map_err(unwritten)?;
    let mut rows = writer.stream_writer_with_size(CHUNK).map_err(unwritten)?;
    give(&mut |rgba| rows.write_all(rgba).map_err(unwritten))?;
    rows.finish().map_err(unwritten)
}

fn unwritten(error: impl ToString) -> PressError {
    PressError::Unwritten(error.to_string())
}
