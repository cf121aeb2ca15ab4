//! Numbers as straight strokes of a pen, so that a card needs no font.

/// How high a digit is, in its own units; it is 4 wide, and the next begins 6 further on. The y axis points down.
pub(crate) const HEIGHT: f64 = 6.0;
const WIDTH: f64 = 4.0;
const ADVANCE: f64 = 6.0;
const DOT_ADVANCE: f64 = 3.0;

/// The strokes of a digit, a dot or a minus sign as corners; nothing for any other sign.
fn sign(sign: char) -> &'static [&'static [(f64, f64)]] {
    match sign {
        '0' => &[&[
            (1.0, 0.0),
            (3.0, 0.0),
            (4.0, 1.0),
            (4.0, 5.0),
            (3.0, 6.0),
            (1.0, 6.0),
            (0.0, 5.0),
            (0.0, 1.0),
            (1.0, 0.0),
        ]],
        '1' => &[&[(1.0, 1.2), (2.4, 0.0), (2.4, 6.0)]],
        '2' => &[&[(0.0, 1.2), (1.0, 0.0), (3.0, 0.0), (4.0, 1.0), (4.0, 2.2), (0.0, 6.0), (4.0, 6.0)]],
        '3' => &[&[
            (0.0, 0.0),
            (4.0, 0.0),
            (2.0, 2.4),
            (3.0, 2.4),
            (4.0, 3.4),
            (4.0, 5.0),
            (3.0, 6.0),
            (1.0, 6.0),
            (0.0, 5.0),
        ]],
        '4' => &[&[(3.0, 6.0), (3.0, 0.0), (0.0, 4.2), (4.0, 4.2)]],
        '5' => &[&[
            (3.8, 0.0),
            (0.4, 0.0),
            (0.0, 2.6),
            (3.0, 2.6),
            (4.0, 3.6),
            (4.0, 5.0),
            (3.0, 6.0),
            (0.0, 6.0),
        ]],
        '6' => &[&[
            (3.4, 0.0),
            (1.4, 0.8),
            (0.0, 3.2),
            (0.0, 5.0),
            (1.0, 6.0),
            (3.0, 6.0),
            (4.0, 5.0),
            (4.0, 3.8),
            (3.0, 2.8),
            (0.2, 2.8),
        ]],
        '7' => &[&[(0.0, 0.0), (4.0, 0.0), (1.4, 6.0)]],
        '8' => &[
            &[
                (1.0, 0.0),
                (3.0, 0.0),
                (3.8, 0.8),
                (3.8, 2.0),
                (3.0, 2.8),
                (1.0, 2.8),
                (0.2, 2.0),
                (0.2, 0.8),
                (1.0, 0.0),
            ],
            &[(1.0, 2.8), (0.0, 3.8), (0.0, 5.0), (1.0, 6.0), (3.0, 6.0), (4.0, 5.0), (4.0, 3.8), (3.0, 2.8)],
        ],
        '9' => &[&[
            (0.6, 6.0),
            (2.6, 5.2),
            (4.0, 2.8),
            (4.0, 1.0),
            (3.0, 0.0),
            (1.0, 0.0),
            (0.0, 1.0),
            (0.0, 2.2),
            (1.0, 3.2),
            (3.8, 3.2),
        ]],
        '.' => &[&[(0.2, 5.6), (0.6, 5.6), (0.6, 6.0), (0.2, 6.0), (0.2, 5.6)]],
        '-' => &[&[(0.4, 3.0), (3.6, 3.0)]],
        _ => &[],
    }
}

fn advance(sign: char) -> f64 {
    if sign == '.' { DOT_ADVANCE } else { ADVANCE }
}

/// How wide the number is, in the digits' own units.
pub(crate) fn width(text: &str) -> f64 {
    (text.chars().map(advance).sum::<f64>() - (ADVANCE - WIDTH)).max(0.0)
}

/// The strokes of the number, its top left corner at (0, 0), in the digits' own units.
pub(crate) fn strokes(text: &str) -> Vec<Vec<(f64, f64)>> {
    let mut left = 0.0;
    let mut strokes = Vec::new();
    for letter in text.chars() {
        let shifted = |stroke: &&[(f64, f64)]| stroke.iter().map(|&(x, y)| (x + left, y)).collect();
        strokes.extend(sign(letter).iter().map(shifted));
        left += advance(letter);
    }
    strokes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_digit_keeps_to_its_box_and_looks_like_no_other() {
        let digits: Vec<_> = "0123456789.-".chars().map(|c| strokes(&c.to_string())).collect();
        for (i, digit) in digits.iter().enumerate() {
            assert!(!digit.is_empty());
            for &(x, y) in digit.iter().flatten() {
                assert!((0.0..=WIDTH).contains(&x) && (0.0..=HEIGHT).contains(&y));
            }
            assert!(digits[..i].iter().all(|other| other != digit));
        }
    }

    #[test]
    fn a_number_is_as_wide_as_its_signs() {
        assert_eq!((width("7"), width("12"), width("1.5"), width("")), (4.0, 10.0, 13.0, 0.0));
        let right = strokes("12.8").iter().flatten().map(|&(x, _)| x).fold(0.0, f64::max);
        assert!(right <= width("12.8"));
    }
}
