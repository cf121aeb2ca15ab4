//! The composed sheet as a picture within the PDF: colours and transparency apart, packed row by row.

use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, TDEFLStatus, compress_to_output, create_comp_flags_from_zip_params,
};
use stickleaf_sheet::Layout;

use crate::compose::{ComposeOptions, compose};
use crate::frame::Frame;
use crate::picture::Pictures;
use crate::progress::Progress;
use crate::trouble::PressError;

/// A picture ready to be embedded.
pub(crate) struct PackedPicture {
    pub(crate) frame: Frame,
    /// Red, green and blue, packed by the deflate of zlib.
    pub(crate) rgb: Vec<u8>,
    /// How much of each pixel is there, packed likewise.
    pub(crate) alpha: Vec<u8>,
}

/// Composes the sheet and packs it.
pub(crate) fn packed(
    layout: &Layout,
    pictures: &mut dyn Pictures,
    options: &ComposeOptions,
    progress: &mut Progress<'_>,
) -> Result<PackedPicture, PressError> {
    let frame = Frame::new(&layout.sheet, options.resolution_ppi, options.bleed)?;
    let (mut rgb, mut alpha) = (Packer::new(), Packer::new());
    let mut take = |rows: &[u8]| {
        let colours: Vec<u8> =
            rows.chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
        let covers: Vec<u8> = rows.chunks_exact(4).map(|pixel| pixel[3]).collect();
        rgb.push(&colours)?;
        alpha.push(&covers)
    };
    compose(layout, pictures, options, progress, &mut take)?;
    Ok(PackedPicture { frame, rgb: rgb.finish()?, alpha: alpha.finish()? })
}

/// How hard is packed, 0 to 10; pictures hardly become smaller above.
const LEVEL: i32 = 6;

/// Packs bytes that come bit by bit.
struct Packer {
    state: Box<CompressorOxide>,
    packed: Vec<u8>,
}

impl Packer {
    fn new() -> Packer {
        // With a window of 15 bits the stream has the header of zlib.
        let flags = create_comp_flags_from_zip_params(LEVEL, 15, 0);
        Packer { state: Box::new(CompressorOxide::new(flags)), packed: Vec::new() }
    }

    fn push(&mut self, bytes: &[u8]) -> Result<(), PressError> {
        self.run(bytes, TDEFLFlush::None)
    }

    fn finish(mut self) -> Result<Vec<u8>, PressError> {
        self.run(&[], TDEFLFlush::Finish)?;
        Ok(self.packed)
    }

    fn run(&mut self, bytes: &[u8], flush: TDEFLFlush) -> Result<(), PressError> {
        let packed = &mut self.packed;
        let mut take = |bytes: &[u8]| {
            packed.extend_from_slice(bytes);
            true
        };
        match compress_to_output(&mut self.state, bytes, flush, &mut take).0 {
            TDEFLStatus::Okay | TDEFLStatus::Done => Ok(()),
            TDEFLStatus::BadParam | TDEFLStatus::PutBufFailed => {
                Err(PressError::Unwritten("the picture could not be packed".to_owned()))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_in_parts_is_unpacked_whole() {
        let bytes: Vec<u8> = (0..300_000_u32).map(|i| (i.wrapping_mul(2_654_435_761) >> 27) as u8).collect();
        let mut packer = Packer::new();
        bytes.chunks(7000).for_each(|part| packer.push(part).unwrap());
        let packed = packer.finish().unwrap();
        assert!(packed.len() < bytes.len());
        assert_eq!(miniz_oxide::inflate::decompress_to_vec_zlib(&packed).unwrap(), bytes);
    }
}
