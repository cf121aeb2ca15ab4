//! SVG art, painted by resvg.

use kurbo::Affine;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use crate::picture::Drawing;

/// An SVG file, read and ready to be painted.
pub struct SvgDrawing(Tree);

impl SvgDrawing {
    /// The drawing in these bytes; the text of an error says what is wrong with them.
    ///
    /// Text elements are left out: letters have to be outlines. Pictures that it refers to are left out too.
    pub fn read(bytes: &[u8]) -> Result<SvgDrawing, String> {
        Tree::from_data(bytes, &Options::default()).map(SvgDrawing).map_err(|error| error.to_string())
    }
}

impl Drawing for SvgDrawing {
    fn size(&self) -> (f64, f64) {
        (f64::from(self.0.size().width()), f64::from(self.0.size().height()))
    }

    fn painted(&self, transform: Affine, width_px: u32, height_px: u32) -> Vec<u8> {
        let Some(mut canvas) = Pixmap::new(width_px, height_px) else { return Vec::new() };
        let [a, b, c, d, e, f] = transform.as_coeffs().map(|number| number as f32);
        resvg::render(&self.0, Transform::from_row(a, b, c, d, e, f), &mut canvas.as_mut());
        canvas.take_demultiplied()
    }
}
