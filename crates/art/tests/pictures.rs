//! Pictures drawn from known shapes, written as PNG and read back.

use stickleaf_art::{FileKind, ImportError, ImportOptions, Note, TrueSize, import, import_with};
use stickleaf_outline::{Mask, Outline, Placement, border, shapes};

/// A PNG of the shapes: black, soft edges, at so many pixels to the millimetre, with or without saying so.
fn png_of(outlines: &[Outline], width: f64, height: f64, per_mm: f64, says_size: bool) -> Vec<u8> {
    let (width_px, height_px) = ((width * per_mm).round() as u32, (height * per_mm).round() as u32);
    let mask = Mask::drawn(outlines, width_px, height_px, 1.0 / per_mm).unwrap();
    let pixels: Vec<u8> = mask.cover().iter().flat_map(|&alpha| [0, alpha]).collect();
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width_px, height_px);
    encoder.set_color(png::ColorType::GrayscaleAlpha);
    if says_size {
        let per_metre = (per_mm * 1000.0).round() as u32;
        let unit = png::Unit::Meter;
        encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: per_metre, yppu: per_metre, unit }));
    }
    encoder.write_header().unwrap().write_image_data(&pixels).unwrap();
    bytes
}

fn at(shape: Outline, x: f64, y: f64) -> Outline {
    shape.placed(&Placement::at(x, y))
}

fn named(file_name: &str) -> ImportOptions {
    ImportOptions { file_name: file_name.to_owned(), ..ImportOptions::default() }
}

#[test]
fn drawings_come_back_with_their_place_size_and_area() {
    let truth = [at(shapes::disc(4.0, 360), 10.0, 10.0), at(shapes::star(5, 6.0, 3.0), 30.0, 11.0)];
    let found = import(&png_of(&truth, 42.0, 22.0, 600.0 / 25.4, true), &named("sea/crab.png")).unwrap();
    assert_eq!(found.notes, []);
    assert_eq!(found.pixels_per_mm, Some(600.0 / 25.4));
    assert!((found.width_mm - 42.0).abs() < 0.03);
    assert_eq!(found.drawings.len(), 2);
    for (drawing, truth) in found.drawings.iter().zip(&truth) {
        assert!((drawing.centre - truth.bounds().center()).hypot2().sqrt() < 0.05, "{:?}", drawing.centre);
        assert!((drawing.outline.area() - truth.area()).abs() < 0.05 * truth.perimeter());
        assert!((drawing.covered_mm2 - truth.area()).abs() < 0.01 * truth.area());
        assert!(drawing.outline.bounds().center().to_vec2().hypot2() < 1e-5);
    }
    assert_eq!([&found.drawings[0].name, &found.drawings[1].name], ["crab 1", "crab 2"]);
}

#[test]
fn one_drawing_takes_the_name_of_the_file() {
    let bytes = png_of(&[at(shapes::square(8.0), 10.0, 10.0)], 20.0, 20.0, 20.0, true);
    for (file, name) in
        [("crab.png", "crab"), ("C:\\art\\crab.v2.png", "crab.v2"), ("", "drawing"), ("crab", "crab")]
    {
        assert_eq!(import(&bytes, &named(file)).unwrap().drawings[0].name, name);
    }
}

#[test]
fn parts_that_one_border_surrounds_are_one_drawing_if_asked() {
    let parts = [at(shapes::disc(4.0, 90), 10.0, 10.0), at(shapes::disc(1.0, 90), 17.0, 10.0)];
    let bytes = png_of(&parts, 30.0, 20.0, 20.0, true);
    let joined = import(&bytes, &ImportOptions::default()).unwrap();
    assert_eq!(joined.drawings.len(), 1);
    let drawing = &joined.drawings[0];
    let own: f64 = parts.iter().map(Outline::area).sum();
    assert!((drawing.covered_mm2 - own).abs() < 0.5);
    // The bridge of 0.2 mm over the gap of 2 mm.
    assert!((drawing.outline.area() - own - 0.4).abs() < 1.0);
    for part in &parts {
        let moved = part.placed(&Placement::at(-drawing.centre.x, -drawing.centre.y));
        let cut_line = border(&drawing.outline, 1.5);
        assert!(moved.points().iter().all(|&point| cut_line.contains(point)));
    }
    let apart = ImportOptions { join: false, ..ImportOptions::default() };
    assert_eq!(import(&bytes, &apart).unwrap().drawings.len(), 2);
    let narrow = ImportOptions { border_mm: 0.9, ..ImportOptions::default() };
    assert_eq!(import(&bytes, &narrow).unwrap().drawings.len(), 2);
}

#[test]
fn specks_are_dropped_and_told_but_not_those_inside_a_drawing() {
    let ring = [at(shapes::disc(6.0, 90), 10.0, 10.0), at(shapes::disc(0.3, 12), 25.0, 4.0)];
    let mut mask = Mask::drawn(&ring, 600, 400, 0.05).unwrap().cover().to_vec();
    let hole = Mask::drawn(&[at(shapes::disc(3.0, 90), 10.0, 10.0)], 600, 400, 0.05).unwrap();
    mask.iter_mut().zip(hole.cover()).for_each(|(alpha, hole)| *alpha = alpha.saturating_sub(*hole));
    let dot = Mask::drawn(&[at(shapes::disc(0.3, 12), 10.0, 10.0)], 600, 400, 0.05).unwrap();
    mask.iter_mut().zip(dot.cover()).for_each(|(alpha, dot)| *alpha = alpha.saturating_add(*dot));
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, 600, 400);
    encoder.set_color(png::ColorType::GrayscaleAlpha);
    let pixels: Vec<u8> = mask.iter().flat_map(|&alpha| [0, alpha]).collect();
    encoder.write_header().unwrap().write_image_data(&pixels).unwrap();
    let options = ImportOptions { size: TrueSize::Ppi(508.0), ..ImportOptions::default() };
    let found = import(&bytes, &options).unwrap();
    assert_eq!((found.drawings.len(), found.dropped_count, found.dropped.len()), (1, 1, 1));
    assert!((found.dropped[0].at.x - 25.0).abs() < 0.05 && (found.dropped[0].size - 0.6).abs() < 0.1);
    // The hole is filled in the outline, but not counted as covered.
    let drawing = &found.drawings[0];
    assert!((drawing.outline.area() - ring[0].area()).abs() < 1.0);
    assert!((drawing.covered_mm2 - ring[0].area() * 0.75).abs() < 1.0);
}

#[test]
fn the_true_size_is_what_the_file_or_the_caller_says() {
    let bytes = png_of(&[at(shapes::square(8.0), 10.0, 10.0)], 20.0, 20.0, 10.0, false);
    let width = |size| import(&bytes, &ImportOptions { size, ..ImportOptions::default() }).unwrap().width_mm;
    assert!((width(TrueSize::FromFile) - 200.0 / 300.0 * 25.4).abs() < 1e-9);
    assert!((width(TrueSize::Ppi(100.0)) - 50.8).abs() < 1e-9);
    assert!((width(TrueSize::WidthMm(33.0)) - 33.0).abs() < 1e-9);
    let assumed = import(&bytes, &ImportOptions::default()).unwrap().notes;
    assert!(matches!(assumed[..], [Note::SizeAssumed { per_inch: 300.0, .. }]), "{assumed:?}");
}

#[test]
fn a_drawing_at_the_edge_and_a_full_picture_are_noted() {
    let cut_off = png_of(&[at(shapes::square(8.0), 3.0, 10.0)], 20.0, 20.0, 10.0, true);
    let notes = import(&cut_off, &named("crab.png")).unwrap().notes;
    assert_eq!(notes, [Note::TouchesEdge { name: "crab".into() }]);
    let full = png_of(&[at(shapes::square(40.0), 10.0, 10.0)], 20.0, 20.0, 10.0, true);
    assert_eq!(import(&full, &named("crab.png")).unwrap().notes, [Note::FullyCovered]);
}

#[test]
fn nothing_to_cut_and_wrong_files_are_named() {
    let clear = png_of(&[], 20.0, 20.0, 10.0, true);
    assert!(matches!(import(&clear, &named("")), Err(ImportError::NothingToCut { .. })));
    let tiny = png_of(&[at(shapes::square(0.5), 3.0, 10.0)], 20.0, 20.0, 10.0, true);
    assert_eq!(import(&tiny, &named("")), Err(ImportError::AllTooSmall { count: 1, least: 1.0 }));
    assert_eq!(import(b"", &named("")), Err(ImportError::Empty));
    assert_eq!(
        import(&[0xff, 0xd8, 0xff, 0xe0], &named("")),
        Err(ImportError::WrongKind { found: FileKind::Jpeg })
    );
    let huge = ImportOptions { size: TrueSize::WidthMm(20_000.0), ..ImportOptions::default() };
    assert!(matches!(import(&tiny, &huge), Err(ImportError::Size(_))));
    for size in [TrueSize::Ppi(0.0), TrueSize::WidthMm(f64::NAN)] {
        let options = ImportOptions { size, ..ImportOptions::default() };
        assert!(matches!(import(&tiny, &options), Err(ImportError::BadOption { .. })));
    }
}

#[test]
fn progress_runs_from_nothing_to_all_and_a_no_stops_it() {
    let bytes = png_of(&[at(shapes::square(8.0), 10.0, 10.0)], 20.0, 20.0, 20.0, true);
    let mut heard = Vec::new();
    import_with(&bytes, &named(""), &mut |share| {
        heard.push(share);
        true
    })
    .unwrap();
    assert!(
        heard.is_sorted() && heard.first() == Some(&0.0) && heard.last() == Some(&1.0) && heard.len() > 5
    );
    for stop_at in 0..heard.len() {
        let mut count = 0;
        let stopped = import_with(&bytes, &named(""), &mut |_| {
            count += 1;
            count <= stop_at
        });
        assert_eq!(stopped, Err(ImportError::Stopped));
        assert_eq!(count, stop_at + 1);
    }
}
