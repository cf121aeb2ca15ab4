//! What is written reads back the same, and nothing that is read does harm.

mod generated;

use proptest::prelude::*;
use stickleaf_files::{ReadError, placement_file, read, read_bytes, write};

/// A layout file as a newer 1.x might write it: every object has a field that is not known here.
const WITH_UNKNOWN_FIELDS: &str = r##"{
  "format": "stickleaf-layout", "version": 1.4, "name": "Tide pool", "mood": {"sea": ["calm", 1, null]},
  "sheet": {"width_mm": 105, "height_mm": 148, "corner_radius_mm": 4, "resolution_ppi": 600, "paper": "matt"},
  "rules": {"spacing_mm": 2, "margin_mm": 4, "tear_mm": 0.25},
  "backgrounds": [{"name": "Title band", "tone": "#abc", "picture": "band.svg",
    "zones": [{"name": "title", "outline": "M0 0H105V22H0Z", "clearance_mm": 2, "words": "Tide pool"}]}],
  "background": "Title band",
  "stickers": [
    {"id": "crab", "name": "Crab", "outline": "M0 0L20 0L20 12C20 16 0 16 0 12Z", "shiny": true,
     "wanted": {"exactly": 2, "rather": 3}, "turns": {"within_deg": 15, "rather_deg": 0},
     "art": {"file": "art/crab.png", "x_mm": -1, "y_mm": -2.5, "pixels_per_mm": 23.622, "page": 2}},
    {"id": "dot", "outline": "M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z", "turns": {"only_deg": [0, 90], "rather_deg": 90}}
  ],
  "pieces": [{"sticker": "crab", "x_mm": 40, "y_mm": 60, "turn_deg": 7.5, "locked": true, "note": "by the rock"}],
  "zeta": 1, "alpha": 2
}"##;

#[test]
fn unknown_fields_are_written_back_where_they_were() {
    let layout = read(WITH_UNKNOWN_FIELDS).unwrap();
    let before: serde_json::Value = serde_json::from_str(WITH_UNKNOWN_FIELDS).unwrap();
    let text = write(&layout);
    let after: serde_json::Value = serde_json::from_str(&text).unwrap();
    for place in [
        "/mood",
        "/sheet/paper",
        "/rules/tear_mm",
        "/backgrounds/0/tone",
        "/backgrounds/0/zones/0/words",
        "/stickers/0/shiny",
        "/stickers/0/wanted/rather",
        "/stickers/0/turns/rather_deg",
        "/stickers/1/turns/rather_deg",
        "/stickers/0/art/page",
        "/pieces/0/note",
        "/zeta",
        "/alpha",
    ] {
        assert!(before.pointer(place).is_some(), "{place} is not in the file to begin with");
        assert_eq!(before.pointer(place), after.pointer(place), "{place}");
    }
    assert!(text.find("\"zeta\"") < text.find("\"alpha\""), "the order is that of the file");
    assert_eq!(read(&text).unwrap(), layout);
}

#[test]
fn outlines_are_written_back_as_they_were_read_until_they_change() {
    let mut layout = read(WITH_UNKNOWN_FIELDS).unwrap();
    let text = write(&layout);
    assert!(text.contains("\"M0 0L20 0L20 12C20 16 0 16 0 12Z\"") && text.contains("\"M0 0H105V22H0Z\""));
    layout.stickers[0].outline = layout.stickers[1].outline.clone();
    let changed = write(&layout);
    assert!(!changed.contains("20 12C20 16"));
    assert_eq!(read(&changed).unwrap().stickers[0].outline, layout.stickers[1].outline);
}

#[test]
fn a_layout_is_written_to_be_read() {
    let expected = r#"{
  "format": "stickleaf-layout",
  "version": 1,
  "name": "",
  "sheet": {"width_mm": 105, "height_mm": 148, "corner_radius_mm": 4, "resolution_ppi": 600},
  "rules": {
    "spacing_mm": 2,
    "margin_mm": 4,
    "border_mm": 1.5,
    "print_to_cut_mm": 0.5,
    "thinnest_mm": 3,
    "smallest_mm": 8,
    "inner_radius_mm": 0.5,
    "least_ppi": 300
  },
  "backgrounds": [],
  "stickers": [{"id": "dot", "name": "dot", "outline": "M0 0H9V9H0Z", "wanted": {"exactly": 1}, "turns": "none"}],
  "pieces": [{"sticker": "dot", "x_mm": 40.125, "y_mm": 60, "turn_deg": 7.5, "locked": false}]
}
"#;
    let text = r#"{"version": 1, "format": "stickleaf-layout", "sheet": {"height_mm": 148.0, "width_mm": 105e0},
        "stickers": [{"outline": "M0 0H9V9H0Z", "id": "dot"}],
        "pieces": [{"turn_deg": 7.50, "sticker": "dot", "y_mm": 60.000, "x_mm": 40.125}]}"#;
    assert_eq!(write(&read(text).unwrap()), expected);
}

#[test]
fn a_rough_sticker_is_known_as_such_and_all_others_say_nothing_of_it() {
    let text = r#"{"format": "stickleaf-layout", "version": 1, "sheet": {"width_mm": 105, "height_mm": 148},
        "stickers": [{"id": "blob-1", "outline": "M0 0H9V9H0Z", "rough": true}, {"id": "crab", "outline": "M0 0H9V9H0Z"}]}"#;
    let layout = read(text).unwrap();
    assert!(layout.stickers[0].is_rough && !layout.stickers[1].is_rough);
    let written: serde_json::Value = serde_json::from_str(&write(&layout)).unwrap();
    assert_eq!(written["stickers"][0]["rough"], true);
    assert_eq!(written["stickers"][1].get("rough"), None);
    assert!(read(&text.replace("true", "\"very\"")).is_err());
}

#[test]
fn a_byte_order_mark_does_no_harm() {
    assert!(read(&format!("\u{feff}{WITH_UNKNOWN_FIELDS}")).is_ok());
}

#[test]
fn bytes_that_are_no_text_are_refused() {
    let png = [0x89, b'P', b'N', b'G', 13, 10, 26, 10, 0, 0, 0, 13];
    assert_eq!(read_bytes(&png), Err(ReadError::NotText { at: 0 }));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_layout_file_reads_back_the_same(layout in generated::layout()) {
        let text = write(&layout);
        let read = read(&text).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(&read, &layout);
        prop_assert_eq!(write(&read), text);
    }

    #[test]
    fn a_placement_file_reads_back_as_its_layout(layout in generated::layout()) {
        let text = placement_file::write(&layout, "1.2.3");
        prop_assert_eq!(read(&text).map_err(|error| TestCaseError::fail(error.to_string()))?, layout);
    }

    #[test]
    fn any_bytes_are_a_layout_or_an_error(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = read_bytes(&bytes);
    }

    #[test]
    fn a_damaged_file_is_a_layout_or_an_error(
        at in any::<prop::sample::Index>(),
        length in 0usize..30,
        patch in "[0-9eE+\\-\\[\\]{}\",:.a-z ]{0,12}",
    ) {
        let mut text = WITH_UNKNOWN_FIELDS.to_owned();
        let start = at.index(text.len());
        text.replace_range(start..text.len().min(start + length), &patch);
        if let Ok(layout) = read(&text) {
            prop_assert_eq!(read(&write(&layout)), Ok(layout));
        }
    }
}
