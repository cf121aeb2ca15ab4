//! Colours of sRGB as stored, and as amounts of light.
//!
//! Source of the curve: IEC 61966-2-1.

use std::sync::OnceLock;

/// How finely amounts of light are told apart on the way back: a sixteenth of a stored step where the curve is steepest.
const LIGHT_STEPS: usize = 1 << 16;

/// The way from stored colours to light and back, worked out once.
pub(crate) struct Curve {
    to_light: [f32; 256],
    to_stored: Vec<u8>,
}

impl Curve {
    /// The curve of sRGB.
    pub(crate) fn srgb() -> &'static Curve {
        static CURVE: OnceLock<Curve> = OnceLock::new();
        CURVE.get_or_init(|| {
            let mut to_light = [0.0; 256];
            for (stored, light) in to_light.iter_mut().enumerate() {
                *light = light_of(stored as f64 / 255.0) as f32;
            }
            let stored =
                |step: usize| (stored_of(step as f64 / (LIGHT_STEPS - 1) as f64) * 255.0).round() as u8;
            Curve { to_light, to_stored: (0..LIGHT_STEPS).map(stored).collect() }
        })
    }

    /// The light of a stored value, 0 to 1.
    pub(crate) fn light(&self, stored: u8) -> f32 {
        self.to_light[usize::from(stored)]
    }

    /// The stored value nearest to this light; beyond 0 to 1 the nearer end.
    pub(crate) fn stored(&self, light: f32) -> u8 {
        let step = (light.clamp(0.0, 1.0) * (LIGHT_STEPS - 1) as f32 + 0.5) as usize;
        self.to_stored[step.min(LIGHT_STEPS - 1)]
    }
}

fn light_of(stored: f64) -> f64 {
    if stored <= 0.04045 { stored / 12.92 } else { libm::pow((stored + 0.055) / 1.055, 2.4) }
}

fn stored_of(light: f64) -> f64 {
    if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * libm::pow(light, 1.0 / 2.4) - 0.055 }
}

/// One colour laid over another with this cover, 0 to 1, as stored values.
///
/// Stored values are mixed and not light: that is how drawing programs and SVG show a soft edge, so the print looks as
/// the drawing did (SVG 2 leaves `color-interpolation` at `sRGB`).
pub(crate) fn over(above: [u8; 3], below: [u8; 3], cover: f32) -> [u8; 3] {
    let mix =
        |above: u8, below: u8| (f32::from(above) * cover + f32::from(below) * (1.0 - cover) + 0.5) as u8;
    [mix(above[0], below[0]), mix(above[1], below[1]), mix(above[2], below[2])]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stored_value_comes_back_from_light() {
        let curve = Curve::srgb();
        for stored in 0..=255 {
            assert_eq!(curve.stored(curve.light(stored)), stored);
        }
        // IEC 61966-2-1: half of the light is stored as 188, and 128 is 21.6 % of it.
        assert_eq!(curve.stored(0.5), 188);
        assert!((curve.light(128) - 0.2159).abs() < 1e-4);
    }

    #[test]
    fn full_cover_keeps_the_colour_to_the_bit_and_none_the_ground() {
        for value in 0..=255 {
            let (above, below) = ([value, 7, 255], [3, 200, 255 - value]);
            assert_eq!(over(above, below, 1.0), above);
            assert_eq!(over(above, below, 0.0), below);
        }
        assert_eq!(over([255; 3], [0; 3], 0.5), [128; 3]);
    }
}
