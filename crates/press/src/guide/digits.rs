//! Digits as strokes of a pen, so that a guide needs no font.

/// Width and height of a digit, in its own units; the y axis points down.
pub(crate) const WIDTH: f64 = 4.0;
/// The height of a digit.
pub(crate) const HEIGHT: f64 = 6.0;
/// From one digit to the next.
pub(crate) const ADVANCE: f64 = 5.6;

/// The strokes of 0 to 9 as path data, each in a box of [`WIDTH`] by [`HEIGHT`] with its top left corner at (0, 0).
pub(crate) const STROKES: [&str; 10] = [
    "M0 2A2 2 0 0 1 4 2V4A2 2 0 0 1 0 4Z",
    "M0.6 1.4L2.4 0V6",
    "M0.1 1.6A1.9 1.9 0 1 1 3.4 3.2L0 6H4",
    "M0.2 0H3.9L1.9 2.4A1.8 1.8 0 1 1 0.2 5.1",
    "M3.1 6V0L0 4.3H4",
    "M3.7 0H0.6L0.3 2.7A1.9 1.75 0 1 1 0.1 5.2",
    "M3.4 0.1A3.6 4.2 0 0 0 0 3.9A2 2 0 1 0 0.4 2.8",
    "M0 0H4L1.4 6",
    "M2 2.8A1.6 1.4 0 1 1 2.01 2.8A2 1.6 0 1 1 1.99 2.8",
    "M0.6 5.9A3.6 4.2 0 0 0 4 2.1A2 2 0 1 0 3.6 3.2",
];

/// How wide a number is, in the digits' own units.
pub(crate) fn width(number: usize) -> f64 {
    (number.to_string().len() as f64 - 1.0) * ADVANCE + WIDTH
}

#[cfg(test)]
mod tests {
    use kurbo::{BezPath, Shape};

    use super::*;

    #[test]
    fn every_digit_keeps_to_its_box_and_looks_like_no_other() {
        let mut seen = Vec::new();
        for data in STROKES {
            let path = BezPath::from_svg(data).unwrap();
            let bounds = path.bounding_box();
            assert!(bounds.x0 > -0.1 && bounds.x1 < WIDTH + 0.1, "{data}: {bounds:?}");
            assert!(bounds.y0 > -0.1 && bounds.y1 < HEIGHT + 0.1, "{data}: {bounds:?}");
            assert!(bounds.height() > 5.5, "{data}: {bounds:?}");
            assert!(!seen.contains(&data));
            seen.push(data);
        }
    }

    #[test]
    fn numbers_grow_with_their_digits() {
        assert_eq!((width(7), width(12)), (WIDTH, WIDTH + ADVANCE));
    }
}
