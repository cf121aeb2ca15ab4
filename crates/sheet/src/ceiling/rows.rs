//! Points in a narrow rectangle, row by row.
//!
//! How many points at least d apart can lie in a rectangle that is w wide and h high?
//!
//! **Runs.** Take any k + 1 of the points and sort them by x: the k steps add up to w at most, so two neighbours are no
//! more than w/k apart in x, hence at least √(d² - (w/k)²) apart in y. So any k + 1 points, in the order of y, advance by
//! at least that much from the first to the last. The height therefore falls into 1 + ⌊h / √(d² - (w/k)²)⌋ windows that
//! are half open and hold no more than k points each. This holds for every whole k above w/d. For k = 1 it counts zigzags
//! exactly as long as w is √3/2 d or less.
//!
//! **Three in a row that is a little too narrow.** If √3/2 d ≤ w < d, three points of a strip advance by
//! √3/2 w + 1/2 √(d² - w²) at least: let d = 1 and w = cos t with t ≤ 30°; we show that they advance by sin(60° + t).
//! Of the three points that touch the four sides of the box about them, one lies in a corner; say (0, 0), and let w' ≤ w
//! and H be the width and height of the box. Either one of the others is (x, H) and the last (w', y). Then
//! y ≥ √(1 - w'²), and H ≥ √(1 - x²), and H ≥ y + √(1 - (w' - x)²). The first bound falls with x, the second rises, and
//! with w' = cos t' they meet at x = cos(60° + t'), where both are sin(60° + t'). Or one of the others is the corner (w', H), and
//! the last, (x, y), parts the way: H ≥ √(1 - x²) + √(1 - (w' - x)²), which is concave in x and so at least
//! 1 + √(1 - w'²) > sin(60° + t'). If w' < √3/2 the steps by `k = 1` add up to 1 or more. Since sin(60° + t') falls as w' grows to w, the claim
//! holds.
//!
//! Both are elementary; the optima for zigzags are those of Z. Füredi, "The densest packing of equal circles into a
//! parallel strip", Discrete & Computational Geometry 6 (1991).

use super::slack::ROUNDING;

/// The most points with pairwise distances of `apart` or more that a rectangle of these sides can hold, or more.
///
/// Worth something where the shorter side is no more than a few times that distance. All in millimetres.
pub fn most_in_rectangle(width: f64, height: f64, apart: f64) -> usize {
    most_in_strip(width, height, apart).min(most_in_strip(height, width, apart))
}

fn most_in_strip(width: f64, height: f64, apart: f64) -> usize {
    let fewest = (width / apart).floor().max(0.0) as usize + 1;
    let runs = (fewest..fewest + 3).map(|k| {
        let advance = advance(width / k as f64, apart);
        if advance > 0.0 { k.saturating_mul(whole(height / advance).saturating_add(1)) } else { usize::MAX }
    });
    let by_runs = runs.min().unwrap_or(usize::MAX);
    if fewest > 1 || width < apart * 3f64.sqrt() / 2.0 {
        return by_runs;
    }
    let one = advance(width, apart);
    let two = 3f64.sqrt() / 2.0 * width + one / 2.0;
    let pairs = whole(height / two);
    let another = usize::from((height - pairs as f64 * two) * ROUNDING + 1e-9 >= one);
    by_runs.min(pairs.saturating_mul(2).saturating_add(1 + another))
}

/// How far two points advance in y that are `apart` from each other and no more than `across` in x.
fn advance(across: f64, apart: f64) -> f64 {
    (apart * apart - across * across).max(0.0).sqrt()
}

fn whole(steps: f64) -> usize {
    (steps * ROUNDING).floor() as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_single_file_is_counted() {
        assert_eq!(most_in_rectangle(0.0, 30.0, 10.0), 4);
        assert_eq!(most_in_rectangle(0.0, 29.9, 10.0), 3);
        assert_eq!(most_in_rectangle(3.0, 4.0, 10.0), 1);
    }

    #[test]
    fn a_zigzag_is_counted() {
        // 6 across, 8 on: 10 apart.
        assert_eq!(most_in_rectangle(6.0, 24.0, 10.0), 4);
        assert_eq!(most_in_rectangle(23.9, 6.0, 10.0), 3);
    }

    #[test]
    fn three_of_a_narrow_strip_advance_by_the_height_of_a_tilted_triangle() {
        // An equilateral triangle of side 10 tilted by 20 degrees: 9.397 wide, 9.848 high.
        let radians = core::f64::consts::PI / 180.0;
        let (width, height) = (10.0 * libm::cos(20.0 * radians), 10.0 * libm::sin(80.0 * radians));
        assert_eq!(most_in_rectangle(width + 1e-6, height + 1e-6, 10.0), 3);
        assert_eq!(most_in_strip(width - 1e-6, height - 1e-3, 10.0), 2);
        assert_eq!(most_in_strip(width + 1e-6, 2.0 * height + 1e-6, 10.0), 5);
    }

    #[test]
    fn pairs_and_single_points_take_turns() {
        // Rows of two, 12 apart, and of one between them, 8 on: the distance is 10 from row to row.
        assert_eq!(most_in_strip(12.0, 16.0, 10.0), 6);
        assert_eq!(most_in_strip(12.0, 15.9, 10.0), 4);
    }
}
