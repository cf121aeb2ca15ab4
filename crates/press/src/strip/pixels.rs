//! The strip as PNG.

use kurbo::Affine;
use stickleaf_sheet::{MM_PER_INCH, Sheet};

use crate::art::BROWSER_PPI;
use crate::frame::Frame;
use crate::picture::Drawing;
use crate::png_out::write_png;
use crate::strip::Strip;
use crate::svg::SvgDrawing;
use crate::trouble::PressError;

impl Strip {
    /// The strip as PNG at this resolution.
    pub fn png(&self, resolution_ppi: f64) -> Result<Vec<u8>, PressError> {
        let sheet = Sheet { width: self.width, height: self.height, corner_radius: 0.0, resolution_ppi };
        let frame = Frame::new(&sheet, resolution_ppi, 0.0)?;
        let drawing = SvgDrawing::read(self.svg().as_bytes()).map_err(PressError::Unwritten)?;
        let scale = Affine::scale(frame.per_mm() * MM_PER_INCH / BROWSER_PPI);
        let mut bytes = Vec::new();
        let rgba = drawing.painted(scale, frame.width_px, frame.height_px);
        write_png(&mut bytes, &frame, |take| take(&rgba))?;
        Ok(bytes)
    }
}

#[cfg(test)]
mod tests {
    use crate::picture::read_png;
    use crate::strip::Strip;
    use crate::tone::MainColour;

    #[test]
    fn patches_are_painted_in_their_colours_where_they_lie() {
        let strip = Strip::new(&[MainColour { rgb: [200, 30, 40], share: 1.0 }]);
        // 10 pixels to the millimetre.
        let pixels = read_png(&strip.png(254.0).unwrap()).unwrap();
        assert_eq!(pixels.width_px, (strip.width * 10.0).round() as u32);
        for patch in &strip.patches {
            let middle = patch.area.center().to_vec2() * 10.0;
            let start = (middle.y as usize * pixels.width_px as usize + middle.x as usize) * 4;
            assert_eq!(pixels.rgba[start..start + 3], patch.rgb, "{}", patch.name);
        }
    }
}
