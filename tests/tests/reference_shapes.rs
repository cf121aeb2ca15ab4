//! Closed forms: borders of convex shapes, and pictures of shapes whose area is known.

use core::f64::consts::PI;

use kurbo::Point;
use stickleaf_outline::{
    BORDER_TOLERANCE, HALF_COVER, LEAST_DETAIL, Mask, Outline, TraceOptions, USUAL_DETAIL, border,
    inner_disc, islands, trace,
};
use tests::picture;
use tests::shapes::{Chance, chord_depth, inscribed, outline, star};

#[test]
fn borders_of_convex_shapes_follow_steiner() {
    // J. Steiner, "Über parallele Flächen", 1840: a convex shape of area A and length L grown by r has the area
    // A + L r + pi r² and the length L + 2 pi r. Both grow with the shape, so a border that lies between two widths
    // lies between two of these values.
    let mut chance = Chance::new(1840);
    for _ in 0..200 {
        let shape = outline(&chance.convex());
        let width = chance.between(0.1, 5.0);
        let line = border(&shape, width);
        let area = |r: f64| shape.area() + shape.perimeter() * r + PI * r * r;
        let length = |r: f64| shape.perimeter() + 2.0 * PI * r;
        let most = width + BORDER_TOLERANCE;
        assert!(line.area() >= area(width) && line.area() <= area(most), "{width}: {}", line.area());
        assert!(
            line.perimeter() >= length(width) && line.perimeter() <= length(most),
            "{width}: {} {} {}",
            line.perimeter(),
            length(width),
            length(most)
        );
    }
}

#[test]
fn the_disc_inside_regular_polygons_is_known() {
    // The incircle of a regular polygon in a circle of radius R has the radius R cos(pi / n).
    for corners in [3, 4, 5, 6, 8, 12, 100] {
        let radius = 20.0;
        let found = inner_disc(&outline(&inscribed(Point::new(3.0, -4.0), radius, corners)));
        let exact = radius - chord_depth(radius, corners);
        // At most a ten-thousandth of the shape's smaller side too small, and too large only by rounding.
        assert!(found.radius <= exact + 0.001 && found.radius >= exact - 40.0 * 1e-4, "{corners}: {found:?}");
    }
}

/// The outline traced in a picture of the shape, drawn exactly with soft edges and pixels of this size.
fn traced(shape: &[Point], side: f64, pixel: f64, detail: f64) -> Outline {
    let size = (side / pixel).ceil() as usize;
    let cover = picture::bytes(&picture::coverage(shape, size, size, pixel));
    let mask = Mask::new(size as u32, size as u32, pixel, cover).expect("a picture with pixels");
    let found = islands(&mask, HALF_COVER, 0.0).islands;
    assert_eq!(found.len(), 1);
    trace(&mask, &found[0], &TraceOptions { detail, ..TraceOptions::default() }).expect("a drawing")
}

/// The area of the traced outline tends to the true one as pixels shrink.
///
/// A line through places where the cover is half, taken to change evenly between the middles of pixels, errs by a small
/// part of a pixel, to either side; at corners by a part of the pixel's area. Measured: up to 0.9 hundredths of a pixel
/// along the whole line, at the coarsest pixels.
fn assert_tends_to(shape: &[Point], exact: f64) {
    let length = outline(shape).perimeter();
    let error = |pixel: f64, detail: f64| (traced(shape, 24.0, pixel, detail).area() - exact).abs();
    for pixel in [0.4, 0.2, 0.1, 0.05] {
        let found = error(pixel, LEAST_DETAIL);
        assert!(found <= length * pixel / 50.0, "{pixel}: {found}");
        // Nor may the usual detail stray further than it says.
        let usual = error(pixel, USUAL_DETAIL);
        assert!(usual <= length * (pixel / 50.0 + USUAL_DETAIL), "{pixel}: {usual}");
    }
    assert!(error(0.05, LEAST_DETAIL) < error(0.4, LEAST_DETAIL) / 10.0);
}

#[test]
fn traced_discs_tend_to_their_area() {
    let (radius, corners) = (10.0, 720);
    let exact = f64::from(corners) / 2.0 * radius * radius * libm::sin(2.0 * PI / f64::from(corners));
    assert_tends_to(&inscribed(Point::new(12.03, 11.96), radius, corners), exact);
}

#[test]
fn traced_stars_tend_to_their_area() {
    let (outer, inner, tips) = (11.0, 5.0, 7);
    let exact = f64::from(tips) * outer * inner * libm::sin(PI / f64::from(tips));
    assert_tends_to(&star(Point::new(12.03, 11.96), outer, inner, tips), exact);
}

#[test]
fn traced_borders_follow_steiner() {
    // Picture, trace and border together, on a convex shape: Steiner's area, off by no more than the traced line is.
    let (radius, corners, pixel, width) = (9.0, 6, 0.05, 1.5);
    let shape = inscribed(Point::new(12.0, 12.0), radius, corners);
    let exact = outline(&shape);
    let line = border(&traced(&shape, 24.0, pixel, LEAST_DETAIL), width);
    let steiner = exact.area() + exact.perimeter() * width + PI * width * width;
    let most = line.perimeter() * (BORDER_TOLERANCE + LEAST_DETAIL + pixel / 50.0);
    assert!((line.area() - steiner).abs() <= most, "{} {steiner} {most}", line.area());
}
