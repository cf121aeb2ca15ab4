//! Colours as people see them: the main colours of a sheet, and a correction of them for a printer that is off.
//!
//! Everything here counts in Oklab, where equal steps look about equally large. Source: B. Ottosson, "A perceptual color
//! space for image processing", 2020; CSS Color 4, 9.2.

mod correction;
mod main_colours;

pub use correction::{Corrector, corrected};
pub(crate) use main_colours::ColourCounter;
pub use main_colours::{MainColour, main_colours};

use color::{ColorSpace, Oklab};

use crate::colour::Curve;

/// A stored colour in Oklab: lightness 0 to 1, then how red and how yellow.
pub(crate) fn oklab(stored: [u8; 3]) -> [f32; 3] {
    let curve = Curve::srgb();
    Oklab::from_linear_srgb(stored.map(|value| curve.light(value)))
}

/// The stored colour nearest to one in Oklab; what sRGB cannot show is cut off at its edge, for each light by itself.
fn stored(oklab: [f32; 3]) -> [u8; 3] {
    let curve = Curve::srgb();
    Oklab::to_linear_srgb(oklab).map(|light| curve.stored(light))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_pairs_are_met() {
        // CSS Color 4 and its test suite: the named colour green, #008000, is oklab(51.975% -0.1403 0.10768); white and
        // black are its ends (from memory).
        let near = |found: [f32; 3], expected: [f32; 3]| {
            found.iter().zip(expected).all(|(found, expected)| (found - expected).abs() < 1e-4)
        };
        assert!(near(oklab([0, 128, 0]), [0.51975, -0.1403, 0.10768]), "{:?}", oklab([0, 128, 0]));
        assert!(near(oklab([255; 3]), [1.0, 0.0, 0.0]));
        assert!(near(oklab([0; 3]), [0.0; 3]));
    }

    #[test]
    fn stored_colours_come_back() {
        for red in (0..=255).step_by(5) {
            for green in (0..=255).step_by(15) {
                for blue in (0..=255).step_by(17) {
                    let colour = [red as u8, green as u8, blue as u8];
                    assert_eq!(stored(oklab(colour)), colour);
                }
            }
        }
    }
}
