//! Sizes and units that standards lay down.

use stickleaf_art::{ImportOptions, Note, import};
use stickleaf_sheet::{LengthUnit, MM_PER_INCH, SHEET_SIZES, Sheet};
use tests::art::Picture;

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

/// A picture of one opaque square, 472 pixels wide and high, in a clear rim of 64.
fn square_picture(per_metre: Option<u32>) -> Vec<u8> {
    let is_inside = |v: u32| (64..536).contains(&v);
    let alpha = |i: u32| if is_inside(i % 600) && is_inside(i / 600) { 255 } else { 0 };
    let rgba = (0..600 * 600).flat_map(|i| [10, 20, 30, alpha(i)]).collect();
    Picture { width_px: 600, height_px: 600, rgba }.png(per_metre)
}

#[test]
fn a_picture_says_how_many_pixels_make_a_metre() {
    // PNG specification (W3C, ISO/IEC 15948), section 11.3.4.3 "pHYs": whole pixels per metre. 600 to the inch are
    // 600 / 0.0254 = 23622.05 to the metre, written as 23622.
    for (per_metre, per_inch) in [(23622, 600.0), (11811, 300.0), (2835, 72.0), (20000, 508.0)] {
        let found = import(&square_picture(Some(per_metre)), &ImportOptions::default()).expect("a square");
        let read = found.pixels_per_mm.expect("a picture has pixels") * 25.4;
        // Rounding to a whole number of pixels per metre loses at most half of one.
        assert!((read - per_inch).abs() <= 0.5 * 0.0254, "{per_metre}: {read}");
        let side = 472.0 / per_inch * 25.4;
        let area = found.drawings[0].outline.area();
        assert!((area / (side * side) - 1.0).abs() < 0.01, "{per_metre}: {area}");
        assert!((found.width_mm - 600.0 / per_inch * 25.4).abs() < 600.0 / per_inch * 25.4 * 1e-3);
    }
    // Without that chunk the size is a guess, and said to be one.
    let silent = import(&square_picture(None), &ImportOptions::default()).expect("a square");
    assert!(silent.notes.iter().any(|note| matches!(note, Note::SizeAssumed { .. })), "{:?}", silent.notes);
}

#[test]
fn svg_lengths_follow_css() {
    // CSS Values and Units Level 3, section 6.2: 1in = 2.54cm = 25.4mm = 72pt = 6pc = 96px; SVG 2, section 8.9: a
    // number without a unit counts px.
    for inch in ["1in", "2.54cm", "25.4mm", "72pt", "6pc", "96px", "96"] {
        // As the size of a shape, in a drawing twice as wide.
        let shape = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="192" height="192"><rect width="{inch}" height="{inch}"/></svg>"#
        );
        // As the size of the whole drawing, whose own units are something else.
        let drawing = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{inch}" height="{inch}" viewBox="0 0 7 7"><rect width="7" height="7"/></svg>"#
        );
        for (svg, width) in [(shape, 2.0 * 25.4), (drawing, 25.4)] {
            let found = import(svg.as_bytes(), &ImportOptions::default()).expect(inch);
            // Single precision in the library that reads lengths: seven digits.
            assert!((found.width_mm - width).abs() < 1e-4, "{inch}: {}", found.width_mm);
            let bounds = found.drawings[0].outline.bounds();
            assert!((bounds.width() - 25.4).abs() < 0.001_1, "{inch}: {bounds:?}");
            assert!((bounds.height() - 25.4).abs() < 0.001_1, "{inch}: {bounds:?}");
        }
    }
}
