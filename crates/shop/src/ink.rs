//! How much ink a sheet takes: measured from its composed picture, channel by channel, by a plain model.
//!
//! The model. A pixel's red, green and blue, as they are stored, are what cyan, magenta and yellow leave of the paper's white.
//! What all three have in common is printed in black. So black on half of a sheet is half a sheet of black, and a ramp from
//! black to white the same. Printers mix their inks in other ways and lay more than one drop; all that goes into one
//! figure, which the artist finds by noting how many sheets a set of bottles lasted.

use serde::{Deserialize, Serialize};

/// The share of the measured picture that each ink covers, 0 to 1.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Coverage {
    /// Cyan.
    pub cyan: f64,
    /// Magenta.
    pub magenta: f64,
    /// Yellow.
    pub yellow: f64,
    /// Black.
    pub black: f64,
}

impl Coverage {
    /// All inks together, 0 to 3: at most three lie on one spot.
    pub fn sum(&self) -> f64 {
        self.cyan + self.magenta + self.yellow + self.black
    }
}

/// Adds up the ink of a picture, row by row, in whole numbers.
#[derive(Clone, Copy, Debug, Default)]
pub struct InkMeter {
    /// Cyan, magenta, yellow and black, each pixel counting up to 255 times 255.
    inks: [u64; 4],
    pixels: u64,
}

/// One pixel's full share of an ink: a colour of 255 at an alpha of 255.
const FULL: f64 = 255.0 * 255.0;

impl InkMeter {
    /// Takes pixels of red, green, blue and alpha. Where the picture is clear there is no ink.
    pub fn take(&mut self, rgba: &[u8]) {
        for pixel in rgba.chunks_exact(4) {
            let [red, green, blue, alpha] = [pixel[0], pixel[1], pixel[2], pixel[3]].map(u64::from);
            let (cyan, magenta, yellow) = (255 - red, 255 - green, 255 - blue);
            let black = cyan.min(magenta).min(yellow);
            for (sum, ink) in self.inks.iter_mut().zip([cyan - black, magenta - black, yellow - black, black])
            {
                *sum += ink * alpha;
            }
            self.pixels += 1;
        }
    }

    /// What was measured; nothing covered where there was no pixel.
    pub fn coverage(&self) -> Coverage {
        let share = |ink: u64| ink as f64 / (FULL * self.pixels.max(1) as f64);
        let [cyan, magenta, yellow, black] = self.inks.map(share);
        Coverage { cyan, magenta, yellow, black }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn measured(pixels: impl IntoIterator<Item = [u8; 4]>) -> Coverage {
        let mut meter = InkMeter::default();
        for pixel in pixels {
            meter.take(&pixel);
        }
        meter.coverage()
    }

    #[test]
    fn pictures_of_known_coverage_are_exact() {
        let half_black = (0..100).map(|i| if i % 2 == 0 { [0, 0, 0, 255] } else { [255; 4] });
        assert_eq!(measured(half_black), Coverage { black: 0.5, ..Coverage::default() });
        let ramp = (0..=255).map(|grey| [grey, grey, grey, 255]);
        assert_eq!(measured(ramp), Coverage { black: 0.5, ..Coverage::default() });
        let red = measured([[255, 0, 0, 255]]);
        assert_eq!(red, Coverage { magenta: 1.0, yellow: 1.0, ..Coverage::default() });
        // A dark blue: 51 are left of blue, so 204 of 255 are in common to all three.
        let dark = measured([[0, 0, 51, 255]]);
        assert_eq!(dark, Coverage { cyan: 0.2, magenta: 0.2, yellow: 0.0, black: 0.8 });
    }

    #[test]
    fn clear_pixels_take_no_ink() {
        assert_eq!(measured([[0, 0, 0, 0], [0, 0, 0, 255]]).black, 0.5);
        assert_eq!(measured([]), Coverage::default());
        // An alpha of 51 is a fifth.
        assert_eq!(measured([[0, 0, 0, 51]]).black, 0.2);
    }

    #[test]
    fn bands_add_up_to_the_whole() {
        let rows: Vec<u8> = (0..4000_u32).map(|i| (i.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
        let (mut whole, mut bands) = (InkMeter::default(), InkMeter::default());
        whole.take(&rows);
        rows.chunks(400).for_each(|band| bands.take(band));
        assert_eq!(whole.coverage(), bands.coverage());
    }
}
