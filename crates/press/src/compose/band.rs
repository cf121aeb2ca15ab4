//! A band of rows being composed: opaque colours, layer upon layer.

use crate::colour::over;
use crate::coverage::Window;

/// A band of rows. Everything on it is opaque until the card's edge is cut out at the end.
pub(crate) struct Band {
    pub(crate) window: Window,
    rgb: Vec<[u8; 3]>,
}

impl Band {
    /// A band of one colour.
    pub(crate) fn plain(window: Window, colour: [u8; 3]) -> Band {
        Band { window, rgb: vec![colour; window.width * window.height] }
    }

    /// Lays a colour over the pixel in this column and row of the whole picture, which must lie in the band.
    pub(crate) fn lay(&mut self, x: i64, y: i64, colour: [u8; 3], cover: f32) {
        let index = (y - self.window.y) as usize * self.window.width + (x - self.window.x) as usize;
        self.rgb[index] = over(colour, self.rgb[index], cover);
    }

    /// Lets a colour show through everything laid so far: of that, `opacity` is left, 0 to 1.
    ///
    /// Stored values are mixed and not light, as browsers do it: the print looks as the screen did.
    pub(crate) fn fade(&mut self, colour: [u8; 3], opacity: f64) {
        for pixel in &mut self.rgb {
            for (own, ground) in pixel.iter_mut().zip(colour) {
                *own = (f64::from(*own) * opacity + f64::from(ground) * (1.0 - opacity)).round() as u8;
            }
        }
    }

    /// The band as red, green, blue and alpha, seen through the shares given. Where nothing is seen, all four are 0.
    pub(crate) fn masked(&self, shares: &[f32]) -> Vec<u8> {
        let mut rgba = Vec::with_capacity(self.rgb.len() * 4);
        for (colour, share) in self.rgb.iter().zip(shares) {
            let alpha = (share * 255.0 + 0.5) as u8;
            let [red, green, blue] = if alpha == 0 { [0; 3] } else { *colour };
            rgba.extend([red, green, blue, alpha]);
        }
        rgba
    }
}
