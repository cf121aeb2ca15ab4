//! Taking a bundle apart.

use js_sys::{ArrayBuffer, Uint8Array};
use stickleaf_files::bundle;
use stickleaf_press::{Drawing, SvgDrawing};

use crate::messages::{Unpacked, UnpackedPicture};
use crate::words::Told;

/// The bytes with which every PNG begins. Source: PNG specification, third edition, 5.2.
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";

/// What is in a bundle, and the bytes of its pictures; a sentence if it cannot be read.
pub fn unpack(buffers: &[ArrayBuffer]) -> Result<(Unpacked, Vec<ArrayBuffer>), String> {
    let bytes = buffers.first().map(|buffer| Uint8Array::new(buffer).to_vec()).unwrap_or_default();
    let bundle = bundle::read(&bytes).map_err(|error| error.told())?;
    drop(bytes);
    let (mut pictures, mut contents) = (Vec::new(), Vec::new());
    for (name, bytes) in bundle.pictures {
        pictures.push(UnpackedPicture { name, size_px: size_px(&bytes) });
        contents.push(Uint8Array::from(bytes.as_slice()).buffer());
    }
    let layout = stickleaf_files::write(&bundle.layout);
    Ok((Unpacked { layout, pictures, passed_over: bundle.passed_over }, contents))
}

/// What a picture says of its size: in pixels, or in CSS pixels for a drawing without pixels.
fn size_px(bytes: &[u8]) -> Option<(f64, f64)> {
    if bytes.starts_with(PNG) { png_size(bytes) } else { SvgDrawing::read(bytes).ok().map(|svg| svg.size()) }
}

/// The size that the header of a PNG gives. Source: PNG specification, third edition, 11.2.1: it is the first chunk.
fn png_size(bytes: &[u8]) -> Option<(f64, f64)> {
    let number = |at: usize| {
        let four = bytes.get(at..at + 4)?.try_into().ok()?;
        Some(f64::from(u32::from_be_bytes(four)))
    };
    Some((number(16)?, number(20)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_say_their_size() {
        // The whole header of the PNG specification's own signature, then a chunk of 13 bytes.
        let header = [PNG, b"\0\0\0\x0dIHDR\0\0\x02\x58\0\0\x01\x90"].concat();
        assert_eq!(size_px(&header), Some((600.0, 400.0)));
        assert_eq!(size_px(&header[..20]), None);
        // 25.4 mm are 96 CSS pixels (CSS Values and Units).
        let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" width="25.4mm" height="50.8mm"/>"#;
        assert_eq!(size_px(svg), Some((96.0, 192.0)));
        assert_eq!(size_px(b"neither"), None);
    }
}
