//! One sheet of real drawings, once as SVG and once as a picture that another program rendered from it.
//!
//! The two ways share nothing but the last steps: strokes, curves, clips and transforms on the one side, pixels on the
//! other. So each checks the other.

use std::path::Path;

use stickleaf_art::{Import, ImportOptions, import};

fn sheet(file: &str) -> Import {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-layouts/rooftop-night");
    let bytes = std::fs::read(folder.join(file)).unwrap();
    import(&bytes, &ImportOptions { file_name: file.into(), ..ImportOptions::default() }).unwrap()
}

#[test]
fn the_svg_and_its_picture_give_the_same_drawings() {
    let (drawn, pictured) = (sheet("rooftop-night.svg"), sheet("rooftop-night.png"));
    assert!((drawn.width_mm - pictured.width_mm).abs() < 0.05);
    assert_eq!(drawn.drawings.len(), pictured.drawings.len());
    // A pixel is 0.085 mm wide, and both outlines may stray by 0.05 mm.
    for (a, b) in drawn.drawings.iter().zip(&pictured.drawings) {
        assert!((a.centre - b.centre).hypot2().sqrt() < 0.1, "{}: {:?} and {:?}", a.name, a.centre, b.centre);
        let (inner, outer) = (a.outline.bounds(), b.outline.bounds());
        assert!((inner.width() - outer.width()).abs() < 0.15, "{}: {inner:?} and {outer:?}", a.name);
        assert!((inner.height() - outer.height()).abs() < 0.15, "{}: {inner:?} and {outer:?}", a.name);
        let apart = (a.outline.area() - b.outline.area()).abs();
        assert!(apart < 0.1 * a.outline.perimeter(), "{}: {apart} mm2 apart", a.name);
    }
}

#[test]
fn the_drawings_have_their_names_and_few_points() {
    let drawn = sheet("rooftop-night.svg");
    for name in ["owl", "cat", "north-star", "zzz"] {
        assert!(drawn.drawings.iter().any(|drawing| drawing.name == name), "{name}");
    }
    for drawing in &drawn.drawings {
        assert!(drawing.outline.points().len() < 250, "{}: {}", drawing.name, drawing.outline.points().len());
    }
}
