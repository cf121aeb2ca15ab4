//! Whether pixels can be copied as they are, and from where.

use kurbo::Affine;

/// How far off a whole pixel a copy may lie: at 600 pixels to the inch 1.3 micrometres, the rounding of a place.
const WHOLE_PIXEL: f64 = 1.0 / 32.0;

/// By how many whole pixels the picture is shifted, if the transform does nothing else to so many of its pixels.
pub(crate) fn whole_shift(from_frame: Affine, size: (f64, f64)) -> Option<(i64, i64)> {
    let [a, b, c, d, e, f] = from_frame.as_coeffs();
    let longest = size.0.max(size.1);
    let is_scale_one = [a - 1.0, b, c, d - 1.0].iter().all(|off| off.abs() * longest <= WHOLE_PIXEL);
    let is_whole = |shift: f64| (shift - shift.round()).abs() <= WHOLE_PIXEL;
    (is_scale_one && is_whole(e) && is_whole(f)).then_some((e.round() as i64, f.round() as i64))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_shift_by_whole_pixels_is_a_copy() {
        let shift = |coefficients| whole_shift(Affine::new(coefficients), (4000.0, 100.0));
        assert_eq!(shift([1.0, 0.0, 0.0, 1.0, -12.01, 7.0]), Some((-12, 7)));
        assert_eq!(shift([1.0, 0.0, 0.0, 1.0, 0.5, 0.0]), None);
        assert_eq!(shift([1.0001, 0.0, 0.0, 1.0, 0.0, 0.0]), None);
        assert_eq!(shift([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]), None);
        assert_eq!(shift([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]), None);
    }
}
