//! Whatever the bytes, reading them gives drawings that keep their promises or an error with a name, and never a panic.

use proptest::prelude::*;
use stickleaf_art::{ImportError, ImportOptions, TrueSize, import};
use stickleaf_outline::Outline;

fn assert_sound(bytes: &[u8], options: &ImportOptions) {
    match import(bytes, options) {
        Ok(found) => {
            assert!(!found.drawings.is_empty());
            for drawing in &found.drawings {
                let again = Outline::new(drawing.outline.points().iter().copied());
                assert_eq!(again.as_ref(), Ok(&drawing.outline), "on the grid and without crossings");
                assert!(
                    drawing.covered_mm2.is_finite() && drawing.centre.is_finite() && !drawing.name.is_empty()
                );
            }
            let mut names: Vec<&str> = found.drawings.iter().map(|drawing| drawing.name.as_str()).collect();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), found.drawings.len());
            assert!(found.notes.iter().all(|note| !note.to_string().is_empty()));
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

fn png_of(width: u32, pixels: &[u8], interlace: bool) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, pixels.len() as u32 / width);
    encoder.set_color(png::ColorType::GrayscaleAlpha);
    let data: Vec<u8> = pixels.iter().flat_map(|&alpha| [0, alpha]).collect();
    encoder.write_header().unwrap().write_image_data(&data).unwrap();
    if interlace {
        // The picture then claims to be interlaced and is not; its check sum no longer agrees either.
        bytes[28] = 1;
    }
    bytes
}

const SVG: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">
<defs><clipPath id="c"><circle cx="20" cy="20" r="9"/></clipPath><path id="p" d="M1 1C9 1 9 9 1 9Z"/></defs>
<g id="fox" transform="rotate(10)"><rect x="10" y="10" width="20" height="20" clip-path="url(#c)"/></g>
<use href="#p" x="40" y="10" stroke="red" stroke-width="2" stroke-dasharray="1 2"/>
<g opacity=".5"><path fill-rule="evenodd" d="M50 30h20v20h-20zM55 35h5v5h-5z"/><text>Hi</text></g></svg>"##;

fn options() -> impl Strategy<Value = ImportOptions> {
    let size = prop_oneof![
        Just(TrueSize::FromFile),
        (0.1..5000.0).prop_map(TrueSize::Ppi),
        (1e-6..9999.0).prop_map(TrueSize::WidthMm),
    ];
    (size, any::<u8>(), 0.001..2.0, 0.0..3.0, 0.0..3.0, any::<bool>()).prop_map(
        |(size, alpha_threshold, detail_mm, min_size_mm, border_mm, join)| ImportOptions {
            file_name: "art".into(),
            size,
            alpha_threshold,
            detail_mm,
            min_size_mm,
            border_mm,
            join,
        },
    )
}

/// An SVG of elements, attributes and numbers that belong together only by chance.
fn wild_svg() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        (-200.0..200.0f64).prop_map(|number| format!("{number:.3}")),
        prop::sample::select(vec!["0", "1e9", "-1e-9", "1e38", "NaN", "50%", "3mm", ""])
            .prop_map(String::from),
    ];
    let path = prop::collection::vec(
        (prop::sample::select(b"MLHVCSQTAZmlhvcsqtaz".to_vec()), number.clone()),
        0..12,
    )
    .prop_map(|parts| {
        parts
            .iter()
            .map(|(letter, number)| format!("{}{number} {number} ", *letter as char))
            .collect::<String>()
    });
    let attribute = prop_oneof![
        (
            prop::sample::select(vec![
                "x",
                "y",
                "width",
                "height",
                "r",
                "cx",
                "cy",
                "rx",
                "stroke-width",
                "opacity"
            ]),
            number.clone()
        )
            .prop_map(|(name, value)| format!(r#"{name}="{value}""#)),
        path.prop_map(|data| format!(r#"d="{data}""#)),
        number.clone().prop_map(|number| format!(r#"transform="scale({number}) rotate({number})""#)),
        prop::sample::select(vec![
            r##"stroke="red""##,
            r##"fill="none""##,
            r##"clip-path="url(#a)""##,
            r##"mask="url(#a)""##,
            r##"href="#a""##,
            r##"id="a""##,
            r##"display="none""##,
            r##"stroke-linejoin="round""##,
        ])
        .prop_map(String::from),
    ];
    let tag = prop::sample::select(vec![
        "g", "rect", "circle", "path", "use", "clipPath", "mask", "text", "line", "svg", "symbol", "defs",
    ]);
    let element = (tag, prop::collection::btree_map("[a-z]{1}", attribute, 0..5), any::<bool>());
    prop::collection::vec(element, 0..14).prop_map(|elements| {
        let mut text = String::from(r#"<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">"#);
        let mut open = Vec::new();
        for (tag, attributes, closes) in elements {
            let mut seen = Vec::new();
            text.push_str(&format!("<{tag}"));
            for attribute in attributes.values() {
                let name = attribute.split('=').next();
                if !seen.contains(&name) {
                    text.push_str(&format!(" {attribute}"));
                    seen.push(name);
                }
            }
            text.push('>');
            if closes { text.push_str(&format!("</{tag}>")) } else { open.push(tag) }
        }
        open.iter().rev().for_each(|tag| text.push_str(&format!("</{tag}>")));
        text + "</svg>"
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn bytes_of_any_kind(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        assert_sound(&bytes, &ImportOptions::default());
    }

    #[test]
    fn pictures_of_noise(
        (width, pixels) in (1u32..24, 1u32..24).prop_flat_map(|(width, height)| {
            (Just(width), prop::collection::vec(prop_oneof![Just(0), Just(255), any::<u8>()], (width * height) as usize))
        }),
        options in options(),
        interlace in prop::bool::weighted(0.1),
    ) {
        assert_sound(&png_of(width, &pixels, interlace), &options);
    }

    #[test]
    fn damaged_pictures(changes in prop::collection::vec((any::<u16>(), any::<u8>()), 1..6), length in any::<u16>()) {
        let pixels: Vec<u8> = (0..400u32).map(|i| (i * i % 256) as u8).collect();
        let mut bytes = png_of(20, &pixels, false);
        for (place, byte) in changes {
            let place = usize::from(place) % bytes.len();
            bytes[place] = byte;
        }
        bytes.truncate(usize::from(length) % (2 * bytes.len()));
        assert_sound(&bytes, &ImportOptions::default());
    }

    #[test]
    fn damaged_drawings(changes in prop::collection::vec((any::<u16>(), any::<u8>()), 1..6), options in options()) {
        let mut bytes = SVG.as_bytes().to_vec();
        for (place, byte) in changes {
            let place = usize::from(place) % bytes.len();
            bytes[place] = byte % 128;
        }
        assert_sound(&bytes, &options);
    }

    #[test]
    fn wild_drawings(text in wild_svg(), options in options()) {
        assert_sound(text.as_bytes(), &options);
    }
}

#[test]
fn the_undamaged_drawing_is_read() {
    let found = import(SVG.as_bytes(), &ImportOptions::default()).unwrap();
    assert_eq!(found.drawings.len(), 3);
}

#[test]
fn nested_and_looping_files_end() {
    let head = r#"<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">"#;
    let deep = format!("{head}{}<rect width='5' height='5'/>{}</svg>", "<g>".repeat(900), "</g>".repeat(900));
    assert_sound(deep.as_bytes(), &ImportOptions::default());
    let loops = format!("{head}<g id='a'><use href='#a'/><rect width='5' height='5'/></g></svg>");
    assert_sound(loops.as_bytes(), &ImportOptions::default());
    let laughs =
        (0..9).map(|i| format!("<g id='g{}'>{}</g>", i + 1, format!("<use href='#g{i}'/>").repeat(10)));
    let laughs = format!("{head}<rect id='g0' width='5' height='5'/>{}</svg>", laughs.collect::<String>());
    assert!(matches!(import(laughs.as_bytes(), &ImportOptions::default()), Err(ImportError::Svg(_))));
}
