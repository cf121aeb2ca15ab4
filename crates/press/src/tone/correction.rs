//! The correction of colours for a printer, applied.

use stickleaf_sheet::{Correction, MOST_LIGHTER, MOST_WARMER};

use crate::tone::{oklab, stored};

/// Where warmth lies in Oklab, as red and yellow: from the white of D65 to that of D50, warmer daylight, seen side by side.
///
/// Source: the tristimulus values of both in ASTM E308, (0.95047, 1, 1.08883) and (0.96422, 1, 0.82521), through Ottosson's
/// matrices.
const WARM: [f32; 2] = [0.218_87, 0.975_75];

/// What becomes of a colour. Shifts beyond the most allowed are taken as that.
pub fn corrected(correction: Correction, colour: [u8; 3]) -> [u8; 3] {
    if correction.is_none() {
        return colour;
    }
    let lighter = correction.lighter.clamp(-MOST_LIGHTER, MOST_LIGHTER) as f32;
    let warmer = correction.warmer.clamp(-MOST_WARMER, MOST_WARMER) as f32;
    let [light, red, yellow] = oklab(colour);
    let share = (4.0 * light * (1.0 - light)).max(0.0);
    stored([light + share * lighter, red + share * warmer * WARM[0], yellow + share * warmer * WARM[1]])
}

/// How many answers are kept.
const KEPT: usize = 1 << 14;

/// Corrects whole rows; colours that come again are not worked out again.
pub struct Corrector {
    correction: Correction,
    /// Colours and what became of them, each in the place that it hashes to.
    kept: Vec<([u8; 3], [u8; 3])>,
}

impl Corrector {
    /// What corrects so.
    pub fn new(correction: Correction) -> Corrector {
        let black = [0; 3];
        let black = (black, corrected(correction, black));
        Corrector { correction, kept: vec![black; if correction.is_none() { 0 } else { KEPT }] }
    }

    /// Corrects pixels of red, green, blue and alpha; alpha stays.
    pub fn correct(&mut self, rgba: &mut [u8]) {
        if self.correction.is_none() {
            return;
        }
        for pixel in rgba.chunks_exact_mut(4) {
            let colour = [pixel[0], pixel[1], pixel[2]];
            let number = u32::from_be_bytes([0, colour[0], colour[1], colour[2]]);
            let kept = &mut self.kept[(number.wrapping_mul(2_654_435_761) >> 18) as usize];
            if kept.0 != colour {
                *kept = (colour, corrected(self.correction, colour));
            }
            pixel[..3].copy_from_slice(&kept.1);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn white_black_and_alpha_stay() {
        for (lighter, warmer) in [(0.2, 0.2), (-0.2, 0.1), (0.05, -0.2)] {
            let correction = Correction { lighter, warmer };
            assert_eq!((corrected(correction, [255; 3]), corrected(correction, [0; 3])), ([255; 3], [0; 3]));
        }
        let mut pixel = [90, 100, 110, 77];
        Corrector::new(Correction { lighter: 0.1, warmer: 0.0 }).correct(&mut pixel);
        assert!(pixel[0] > 90 && pixel[3] == 77, "{pixel:?}");
    }

    #[test]
    fn a_middle_tone_is_shifted_in_full() {
        // Where the lightness is a half, four times it times the rest is 1. That grey is 0.125 of the light: 99 (98.9).
        let grey = [99; 3];
        let shifted = oklab(corrected(Correction { lighter: 0.1, warmer: 0.0 }, grey));
        assert!((shifted[0] - 0.6).abs() < 0.003, "{shifted:?}");
        let warm = corrected(Correction { lighter: 0.0, warmer: 0.05 }, grey);
        assert!(warm[0] > warm[1] && warm[1] > warm[2], "{warm:?}");
        let cool = corrected(Correction { lighter: 0.0, warmer: -0.05 }, grey);
        assert!(cool[0] < cool[1] && cool[1] < cool[2], "{cool:?}");
    }

    proptest! {
        #[test]
        fn no_two_greys_change_places(lighter in -MOST_LIGHTER..MOST_LIGHTER) {
            let correction = Correction { lighter, warmer: 0.0 };
            let greys: Vec<u8> = (0..=255).map(|value| corrected(correction, [value; 3])[1]).collect();
            prop_assert!(greys.is_sorted());
        }

        #[test]
        fn rows_are_corrected_as_each_colour_is(
            pixels in prop::collection::vec(any::<[u8; 4]>(), 1..60),
            lighter in -0.1..0.1, warmer in -0.1..0.1,
        ) {
            let correction = Correction { lighter, warmer };
            let mut rows: Vec<u8> = pixels.iter().chain(&pixels).flatten().copied().collect();
            Corrector::new(correction).correct(&mut rows);
            for (found, [red, green, blue, alpha]) in rows.chunks_exact(4).zip(pixels.iter().chain(&pixels).copied()) {
                let [r, g, b] = corrected(correction, [red, green, blue]);
                prop_assert_eq!(found, [r, g, b, alpha]);
            }
        }
    }
}
