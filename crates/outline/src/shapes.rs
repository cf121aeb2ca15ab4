//! Sample shapes for tests, benches and examples, here and in other crates.
//!
//! Each lies about (0, 0), in millimetres. They are picked to be awkward in one way each: the disc is smooth, the star
//! has sharp tips, the comb deep slits, the C a bay, the crescent two horns, the dumbbell a neck; [`blob`] gives as many
//! different round-cornered drawings as wanted.

use core::f64::consts::{PI, TAU};

use kurbo::Point;

use crate::outline::Outline;

/// A square of this side.
pub fn square(side: f64) -> Outline {
    rectangle(side, side)
}

/// A rectangle of this width and height.
pub fn rectangle(width: f64, height: f64) -> Outline {
    let (x, y) = (width / 2.0, height / 2.0);
    ring([(-x, -y), (x, -y), (x, y), (-x, y)])
}

/// An L in a square of this side; its arms are a third of it wide.
pub fn l(side: f64) -> Outline {
    let (near, far) = (-side / 2.0, side / 2.0);
    let inner = near + side / 3.0;
    let foot = far - side / 3.0;
    ring([(near, near), (inner, near), (inner, foot), (far, foot), (far, far), (near, far)])
}

/// A disc drawn with `count` chords whose ends lie on the circle: its area is
/// `count / 2 * radius² * sin(2 pi / count)`.
pub fn disc(radius: f64, count: u32) -> Outline {
    ring((0..count).map(|i| polar(radius, TAU * f64::from(i) / f64::from(count))))
}

/// A star with so many tips, the first to the right.
pub fn star(tips: u32, outer: f64, inner: f64) -> Outline {
    let corner =
        |i: u32| polar(if i.is_multiple_of(2) { outer } else { inner }, PI * f64::from(i) / f64::from(tips));
    ring((0..2 * tips).map(corner))
}

/// A comb: teeth and slits as wide as `tooth`, six times as long, hanging from a bar twice as thick.
pub fn comb(teeth: u32, tooth: f64) -> Outline {
    let width = tooth * f64::from(2 * teeth - 1);
    let (left, top) = (-width / 2.0, -4.0 * tooth);
    let mut corners = vec![(left, top), (left + width, top)];
    for i in (0..teeth).rev() {
        let x = left + 2.0 * f64::from(i) * tooth;
        corners.extend([(x + tooth, 4.0 * tooth), (x, 4.0 * tooth)]);
        if i > 0 {
            corners.extend([(x, -2.0 * tooth), (x - tooth, -2.0 * tooth)]);
        }
    }
    ring(corners)
}

/// A moon with two pointed horns to the right: a disc of this radius less one half as far to the right.
pub fn crescent(radius: f64) -> Outline {
    // Both circles have the same radius; they meet above and below the middle of the way between their centres.
    let shift = radius / 2.0;
    let meet = libm::acos(shift / 2.0 / radius);
    let steps = 48u32;
    let outer = (0..steps)
        .map(|i| polar(radius, meet + (TAU - 2.0 * meet) * f64::from(i) / f64::from(steps)))
        .collect::<Vec<_>>();
    let inner = (0..steps).map(|i| {
        let (x, y) = polar(radius, (PI + meet) - 2.0 * meet * f64::from(i) / f64::from(steps));
        (x + shift, y)
    });
    ring(outer.into_iter().chain(inner))
}

/// A square C that opens to the right: side, thickness of its arms.
pub fn c(side: f64, thickness: f64) -> Outline {
    let (near, far) = (-side / 2.0, side / 2.0);
    let (inner_near, inner_far) = (near + thickness, far - thickness);
    ring([
        (near, near),
        (far, near),
        (far, inner_near),
        (inner_near, inner_near),
        (inner_near, inner_far),
        (far, inner_far),
        (far, far),
        (near, far),
    ])
}

/// Two discs of this radius, joined by a straight neck: the whole is four times the radius plus `length` wide.
pub fn dumbbell(radius: f64, neck: f64, length: f64) -> Outline {
    let open = libm::asin(neck / 2.0 / radius);
    let centre = length / 2.0 + radius;
    let steps = 60u32;
    let arc = |from: f64, x: f64| {
        (0..=steps).map(move |i| {
            let (dx, dy) = polar(radius, from + open + (TAU - 2.0 * open) * f64::from(i) / f64::from(steps));
            (x + dx, dy)
        })
    };
    ring(arc(0.0, -centre).chain(arc(PI, centre)))
}

/// A round-cornered drawing with lobes and bays, a different one for each seed; it stays between a quarter and the whole
/// of `radius` from (0, 0).
///
/// Waves of two to nine to the round are added up, so the ring never crosses itself.
pub fn blob(seed: u64, radius: f64) -> Outline {
    let mut state = seed;
    let mut random = || {
        // S. Vigna's splitmix64, the upper 53 bits as a share of one.
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    };
    let waves: Vec<(f64, f64, f64)> =
        (2u8..10).map(|k| (f64::from(k), random() / f64::from(k), random() * TAU)).collect();
    let most: f64 = waves.iter().map(|(_, height, _)| height).sum();
    let steps = 180u32;
    ring((0..steps).map(|i| {
        let angle = TAU * f64::from(i) / f64::from(steps);
        let sum: f64 = waves.iter().map(|(k, height, phase)| height * libm::sin(k * angle + phase)).sum();
        polar(radius * (0.625 + 0.375 * sum / most), angle)
    }))
}

fn polar(radius: f64, angle: f64) -> (f64, f64) {
    let (sine, cosine) = libm::sincos(angle);
    (radius * cosine, radius * sine)
}

/// # Panics
/// If the sizes asked for make no ring: a mistake in the test that asks.
fn ring(corners: impl IntoIterator<Item = (f64, f64)>) -> Outline {
    Outline::new(corners.into_iter().map(Point::from))
        .expect("the sizes of a sample shape make a simple ring")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: f64, wanted: f64, within: f64) {
        assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
    }

    #[test]
    fn areas_follow_their_formulae() {
        near(square(4.0).area(), 16.0, 1e-9);
        near(l(3.0).area(), 5.0, 1e-9);
        near(c(10.0, 2.0).area(), 100.0 - 8.0 * 6.0, 1e-9);
        // The bar, six teeth of one by six.
        near(comb(6, 1.0).area(), 22.0 + 36.0, 1e-9);
        near(disc(5.0, 360).area(), 180.0 * 25.0 * libm::sin(TAU / 360.0), 0.01);
        // Ten triangles from the middle.
        near(star(5, 6.0, 2.5).area(), 5.0 * 6.0 * 2.5 * libm::sin(PI / 5.0), 0.01);
        // The lens of two equal circles: 2 r² acos(d / 2 r) - d / 2 sqrt(4 r² - d²).
        let lens = 2.0 * 36.0 * libm::acos(0.25) - 1.5 * (144.0f64 - 9.0).sqrt();
        near(crescent(6.0).area(), PI * 36.0 - lens, 0.15);
        // The neck overlaps each disc by a thin cap.
        let bell = dumbbell(5.0, 2.0, 4.0);
        near(bell.area(), 2.0 * PI * 25.0 + 8.0, 0.6);
        near(bell.bounds().width(), 24.0, 0.02);
    }

    #[test]
    fn blobs_keep_within_their_ring() {
        for seed in 0..200 {
            for point in blob(seed, 10.0).points() {
                let radius = point.to_vec2().hypot2().sqrt();
                assert!((2.49..10.01).contains(&radius), "{radius} of seed {seed}");
            }
        }
        assert_ne!(blob(1, 10.0), blob(2, 10.0));
    }
}
