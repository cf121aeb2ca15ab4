//! Finding the size at which something begins to fail.

use kurbo::Point;

/// The largest size up to `limit` with nothing wrong, and where it is wrong just above; nothing if `limit` itself is
/// sound.
///
/// By halving between 0, which is taken as sound, and the limit, until the two ends are within `tolerance`. With several
/// changes from sound to wrong it finds one of them.
pub(crate) fn largest_sound(
    limit: f64,
    tolerance: f64,
    fault: impl Fn(f64) -> Option<Point>,
) -> Option<(f64, Point)> {
    if limit.is_nan() || limit <= 0.0 {
        return None;
    }
    let mut at = fault(limit)?;
    let (mut sound, mut wrong) = (0.0, limit);
    while wrong - sound > tolerance {
        let middle = (sound + wrong) / 2.0;
        match fault(middle) {
            Some(place) => (wrong, at) = (middle, place),
            None => sound = middle,
        }
    }
    Some((sound, at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_step_is_found_and_a_sound_limit_gives_nothing() {
        let fault = |size: f64| (size > 1.234).then_some(Point::new(size, 0.0));
        let (sound, at) = largest_sound(3.0, 0.001, fault).unwrap();
        assert!((sound - 1.234).abs() <= 0.001 && (at.x - 1.234).abs() <= 0.001);
        assert_eq!(largest_sound(1.2, 0.001, fault), None);
        assert_eq!(largest_sound(-1.0, 0.001, |_| Some(Point::ZERO)), None);
    }
}
