//! Sizes and units that standards lay down.

use stickleaf_sheet::{LengthUnit, MM_PER_INCH, SHEET_SIZES, Sheet};

#[test]
fn an_inch_is_25_4_millimetres() {
    // The international inch is exactly 25.4 mm: agreement of the national laboratories, 1959.
    assert_eq!(MM_PER_INCH, 25.4);
    assert_eq!(LengthUnit::Inches.text(25.4), "1 in");
    assert_eq!(LengthUnit::Inches.text(12.7), "0.5 in");
}

#[test]
fn a_sizes_follow_iso_216() {
    // ISO 216: A0 has an area of 1 m², its sides stand 1 to sqrt 2; halving the longer side and rounding down to whole
    // millimetres gives the next size: 841 x 1189, 594 x 841, 420 x 594, 297 x 420, 210 x 297, 148 x 210, 105 x 148.
    assert_eq!((1000.0 / libm::pow(2.0, 0.25)).round(), 841.0);
    assert_eq!((1000.0 * libm::pow(2.0, 0.25)).round(), 1189.0);
    let mut found = 0;
    let (mut width, mut height) = (841, 1189);
    for size in 0..=10 {
        if let Some(&(_, w, h)) = SHEET_SIZES.iter().find(|(name, _, _)| *name == format!("A{size}")) {
            assert_eq!((w, h), (f64::from(width), f64::from(height)), "A{size}");
            found += 1;
        }
        (width, height) = (height / 2, width);
    }
    assert!(found >= 2, "A5 and A6 are among the sizes");
}

#[test]
fn an_inch_sheet_has_whole_pixels_above_600_to_the_inch() {
    // 4.25 x 6.5 in as 4250 x 6500 and as 3400 x 5200 pixels (common practice, no source): 1000 and 800 to the inch.
    let &(_, width, height) =
        SHEET_SIZES.iter().find(|(name, _, _)| name.starts_with("4.25")).expect("the size is offered");
    assert_eq!((width, height), (4.25 * 25.4, 6.5 * 25.4));
    let sheet = Sheet { width, height, ..Sheet::default() };
    assert_eq!(sheet.pixels(1000.0), (4250, 6500));
    assert_eq!(sheet.pixels(800.0), (3400, 5200));
    for pixels in [4250.0, 3400.0] {
        assert!(pixels / (width / 25.4) > 600.0);
    }
}
