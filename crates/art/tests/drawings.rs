//! SVGs with known shapes.

use core::f64::consts::PI;

use stickleaf_art::{Import, ImportError, ImportOptions, Note, SvgError, TrueSize, import};

/// The drawings of a page of 100 by 100 mm with this content, one unit a millimetre.
fn page(content: &str) -> Result<Import, ImportError> {
    let head = r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:app="http://example.org/app" width="100mm" height="100mm" viewBox="0 0 100 100">"#;
    let options = ImportOptions { file_name: "art.svg".into(), ..ImportOptions::default() };
    import(format!("{head}{content}</svg>").as_bytes(), &options)
}

fn names(import: &Import) -> Vec<&str> {
    import.drawings.iter().map(|drawing| drawing.name.as_str()).collect()
}

fn area(content: &str) -> f64 {
    page(content).unwrap().drawings.iter().map(|drawing| drawing.outline.area()).sum()
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn every_shape_has_the_area_of_its_formula() {
    near(area(r#"<rect x="10" y="10" width="30" height="20"/>"#), 600.0, 0.01);
    near(area(r#"<rect x="10" y="10" width="30" height="20" rx="5"/>"#), 600.0 - (4.0 - PI) * 25.0, 3.0);
    near(area(r#"<circle cx="50" cy="50" r="20"/>"#), PI * 400.0, 0.05 * 2.0 * PI * 20.0);
    near(area(r#"<ellipse cx="50" cy="50" rx="20" ry="10"/>"#), PI * 200.0, 0.05 * 100.0);
    near(area(r#"<polygon points="10,10 50,10 10,40"/>"#), 600.0, 0.01);
    near(area(r#"<polyline points="10,10 50,10 10,40"/>"#), 600.0, 0.01);
    near(area(r#"<path d="M10 10h40v30h-40zm10 5v10h5v-10z"/>"#), 1200.0, 0.01);
    near(
        area(r#"<path d="M30 50A20 20 0 1 1 70 50A20 20 0 1 1 30 50Z"/>"#),
        PI * 400.0,
        0.05 * 2.0 * PI * 20.0,
    );
    near(area(r#"<path d="M10 50Q30 10 50 50T90 50Z"/>"#), 2.0 * (2.0 / 3.0) * 40.0 * 20.0, 0.05 * 200.0);
}

#[test]
fn strokes_count_as_drawn() {
    near(area(r#"<line x1="10" y1="50" x2="60" y2="50" stroke="red" stroke-width="4"/>"#), 200.0, 0.01);
    near(
        area(
            r#"<line x1="10" y1="50" x2="60" y2="50" stroke="red" stroke-width="4" stroke-linecap="round"/>"#,
        ),
        200.0 + PI * 4.0,
        0.05 * 110.0,
    );
    near(
        area(r#"<rect x="20" y="20" width="30" height="20" stroke="red" stroke-width="2"/>"#),
        32.0 * 22.0,
        0.01,
    );
    // Only a stroke: the ring is filled to its outer edge.
    near(
        area(r#"<circle cx="50" cy="50" r="20" fill="none" stroke="red" stroke-width="2"/>"#),
        PI * 441.0,
        7.0,
    );
    near(
        area(r#"<line x1="10" y1="50" x2="60" y2="50" stroke="red" stroke-width="4" stroke-dasharray="5"/>"#),
        200.0,
        0.01,
    );
    near(
        area(
            r#"<g transform="scale(2 1)"><line x1="20" y1="10" x2="20" y2="60" stroke="red" stroke-width="2"/></g>"#,
        ),
        4.0 * 50.0,
        0.01,
    );
}

#[test]
fn transforms_uses_and_styles_are_followed() {
    near(
        area(r#"<g transform="rotate(30 50 50) scale(2)"><rect x="20" y="20" width="10" height="5"/></g>"#),
        200.0,
        0.1,
    );
    let used = page(
        r##"<defs><rect id="box" width="10" height="10"/></defs>
            <use href="#box" x="10" y="10"/><use xlink:href="#box" x="60" y="10"/>"##,
    )
    .unwrap();
    assert_eq!(used.drawings.len(), 2);
    near(used.drawings[1].centre.x, 65.0, 0.01);
    near(
        area(
            "<style>.a{fill:none}.b{stroke:none}</style><rect class='a' width='90' height='90'/><rect class='b' x='10' y='10' width='10' height='10'/>",
        ),
        100.0,
        0.01,
    );
}

#[test]
fn units_and_the_view_box_give_the_true_size() {
    let width = |head: &str, size| {
        let text = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" {head}><rect x="0" y="0" width="48" height="48"/></svg>"#
        );
        let found = import(text.as_bytes(), &ImportOptions { size, ..ImportOptions::default() }).unwrap();
        (found.width_mm, found.drawings[0].outline.bounds().width(), found.notes.len())
    };
    for (head, size, page, square, notes) in [
        (r#"width="96" height="96""#, TrueSize::FromFile, 25.4, 12.7, 0),
        (r#"width="1in" height="1in" viewBox="0 0 96 96""#, TrueSize::FromFile, 25.4, 12.7, 0),
        (r#"width="96mm" height="96mm" viewBox="0 0 96 96""#, TrueSize::FromFile, 96.0, 48.0, 0),
        (r#"viewBox="0 0 96 96""#, TrueSize::FromFile, 25.4, 12.7, 1),
        (r#"viewBox="0 0 96 96""#, TrueSize::WidthMm(50.0), 50.0, 25.0, 0),
        (r#"width="96" height="96""#, TrueSize::Ppi(48.0), 50.8, 25.4, 0),
    ] {
        let found = width(head, size);
        near(found.0, page, 1e-4);
        near(found.1, square, 0.001_1);
        assert_eq!(found.2, notes, "{head}");
    }
}

#[test]
fn what_is_invisible_does_not_count() {
    let hidden = [
        r#"<rect width="50" height="50" fill="none"/>"#,
        r#"<rect width="50" height="50" opacity="0"/>"#,
        r#"<rect width="50" height="50" fill-opacity="0"/>"#,
        r#"<rect width="50" height="50" display="none"/>"#,
        r#"<rect width="50" height="50" visibility="hidden"/>"#,
        r#"<g opacity="0"><rect width="50" height="50"/></g>"#,
        r#"<defs><rect width="50" height="50"/></defs>"#,
        r#"<rect width="0" height="50"/>"#,
    ];
    for content in hidden {
        assert!(matches!(page(content), Err(ImportError::NothingToCut { .. })), "{content}");
        near(area(&format!(r#"{content}<rect x="10" y="10" width="20" height="20"/>"#)), 400.0, 0.01);
    }
}

#[test]
fn clip_paths_cut_off_what_they_hide() {
    let clip = r#"<clipPath id="c"><rect x="10" y="10" width="20" height="100"/></clipPath>"#;
    near(
        area(&format!(r#"{clip}<rect x="0" y="20" width="90" height="10" clip-path="url(#c)"/>"#)),
        200.0,
        0.01,
    );
    near(
        area(&format!(
            r#"{clip}<g transform="translate(5 0)" clip-path="url(#c)"><rect y="20" width="90" height="10"/></g>"#
        )),
        200.0,
        0.01,
    );
    let twice =
        r##"<clipPath id="d" clip-path="url(#c)"><rect x="0" y="25" width="90" height="2"/></clipPath>"##;
    near(
        area(&format!(r#"{clip}{twice}<rect x="0" y="20" width="90" height="10" clip-path="url(#d)"/>"#)),
        40.0,
        0.01,
    );
    let symbol = r##"<symbol id="s" viewBox="0 0 10 10"><rect x="5" width="90" height="10"/></symbol>
        <use href="#s" x="10" y="10" width="20" height="20"/>"##;
    near(area(symbol), 200.0, 0.01);
}

#[test]
fn groups_and_shapes_at_the_top_are_stickers_of_their_own() {
    let found = page(
        r#"<g id="fox"><rect x="10" y="10" width="8" height="8"/><rect x="20" y="10" width="8" height="8"/></g>
           <g id="owl"><rect x="30" y="10" width="8" height="8"/></g>
           <rect id="dot" x="40" y="10" width="4" height="8"/><rect x="60" y="10" width="4" height="8"/>"#,
    )
    .unwrap();
    assert_eq!(names(&found), ["fox", "owl", "dot", "art"]);
    assert_eq!(found.notes, []);
}

#[test]
fn a_group_without_id_holds_together() {
    let found = page(
        r#"<g><rect x="10" y="10" width="8" height="8"/><rect x="20" y="10" width="8" height="8"/></g>
           <g><rect x="30" y="10" width="8" height="8"/></g>"#,
    )
    .unwrap();
    assert_eq!(names(&found), ["art 1", "art 2"]);
    near(found.drawings[0].outline.bounds().width(), 18.0, 0.01);
}

#[test]
fn a_group_whose_parts_are_far_apart_is_split_and_said() {
    let found = page(
        r#"<g id="moon"><rect x="10" y="10" width="8" height="8"/><rect x="40" y="10" width="8" height="8"/></g>
           <g id="owl"><rect x="60" y="10" width="8" height="8"/></g>"#,
    )
    .unwrap();
    assert_eq!(names(&found), ["moon 1", "moon 2", "owl"]);
    assert_eq!(found.notes, [Note::GroupSplit { name: "\"moon\"".into(), drawings: 2 }]);
}

#[test]
fn a_layer_round_everything_is_looked_into() {
    let found = page(
        r#"<g id="layer1" app:label="Layer 1"><g id="g1"><title>Fox</title><rect x="10" y="10" width="8" height="8"/>
           <rect x="20" y="10" width="8" height="8"/></g><path id="moon" d="M50 10h8v8h-8z"/></g>"#,
    )
    .unwrap();
    assert_eq!(names(&found), ["Fox", "moon"]);
    assert_eq!(found.notes, []);
}

#[test]
fn shapes_that_overlap_are_one_sticker() {
    let face = r#"<circle cx="50" cy="50" r="20"/><circle cx="45" cy="45" r="2"/><rect x="60" y="45" width="20" height="10"/>"#;
    let found = page(face).unwrap();
    assert_eq!((found.drawings.len(), &found.notes[..]), (1, &[][..]));
    let layers = page(&format!(r#"<g id="ink">{face}</g><g id="paint">{face}</g>"#)).unwrap();
    assert_eq!(layers.drawings.len(), 1);
    assert!(matches!(layers.notes[..], [Note::Merged { shapes: 2, .. }]), "{:?}", layers.notes);
}

#[test]
fn shapes_drawn_edge_to_edge_enclose_their_hole() {
    // Two brackets that meet at x = 30 but for half a micrometre, as rounding leaves it: a ring of 40 by 40 mm.
    let brackets = r#"<g><path d="M10 10h20v10h-10v20h10v10h-20z"/><path d="M50 10h-19.9995v10h9.9995v20h-9.9995v10h19.9995z"/></g>"#;
    assert_eq!(page(brackets).unwrap().drawings.len(), 1);
    near(area(brackets), 1600.0, 0.1);
}

#[test]
fn what_cannot_be_cut_is_noted() {
    let square = r#"<rect x="10" y="10" width="8" height="8"/>"#;
    let notes = |content: &str| page(&format!("{square}{content}")).unwrap().notes;
    assert_eq!(notes("<text x='50' y='50'>Hello</text>"), [Note::Text { count: 1 }]);
    assert_eq!(notes("<image href='cat.png' width='5' height='5'/>"), [Note::Pictures { count: 1 }]);
    assert_eq!(notes("<rect x='150' y='10' width='8' height='8'/>"), [Note::OffPage { count: 1 }]);
    let mask = "<mask id='m'><rect width='9' height='9' fill='white'/></mask><rect x='50' y='50' width='9' height='9' mask='url(#m)'/>";
    assert_eq!(notes(mask), [Note::Masks { count: 1 }]);
    let blur = "<filter id='f'><feGaussianBlur stdDeviation='1'/></filter><rect x='50' y='50' width='9' height='9' filter='url(#f)'/>";
    assert_eq!(notes(blur), [Note::Effects { count: 1 }]);
}

#[test]
fn specks_are_dropped_and_told() {
    let found =
        page(r#"<rect x="10" y="10" width="8" height="8"/><circle cx="50" cy="50" r="0.2"/>"#).unwrap();
    assert_eq!((found.drawings.len(), found.dropped_count), (1, 1));
    near(found.dropped[0].at.x, 50.0, 0.01);
}

#[test]
fn trouble_is_named() {
    let text = |text: &str| import(text.as_bytes(), &ImportOptions::default());
    let malformed = text("<svg xmlns='http://www.w3.org/2000/svg'>\n<rect></svg>").unwrap_err();
    assert!(matches!(malformed, ImportError::Svg(SvgError::Malformed { row: 2, .. })), "{malformed}");
    assert!(matches!(text("<p/>"), Err(ImportError::Svg(SvgError::NotSvg { .. }))));
    let empty = page("").unwrap_err().to_string();
    assert!(empty.starts_with("there is nothing to cut in this file"), "{empty}");
    let words = page("<text>Hi</text>").unwrap_err().to_string();
    assert!(words.contains("convert text to outlines in your drawing app"), "{words}");
    for far in [r#"<rect x="1e7" width="5" height="5"/>"#, r#"<circle r="1e30" stroke="red"/>"#] {
        assert_eq!(page(far), Err(ImportError::Svg(SvgError::TooLarge)));
    }
    let no_size = text(
        "<svg xmlns='http://www.w3.org/2000/svg' width='0' height='5'><rect width='5' height='5'/></svg>",
    );
    assert_eq!(no_size, Err(ImportError::Svg(SvgError::NoSize)));
    assert_eq!(import(b"<svg \xff/>", &ImportOptions::default()), Err(ImportError::Svg(SvgError::NotUtf8)));
}
