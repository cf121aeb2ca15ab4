//! The schema: the committed copy is the one that the program prints, and files keep to it.

mod generated;

use std::path::{Path, PathBuf};

use proptest::prelude::*;
use serde_json::{Value, json};
use stickleaf_files::{placement_file, schema, write};

/// The committed copy must be what the program prints; `STICKLEAF_WRITE_SCHEMA=1` writes it anew.
fn assert_committed(name: &str, schema: &str) {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("schema").join(name);
    if std::env::var_os("STICKLEAF_WRITE_SCHEMA").is_some() {
        std::fs::write(&file, schema).unwrap();
    }
    let committed = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(
        committed, schema,
        "{name} has changed: read the difference, then set STICKLEAF_WRITE_SCHEMA=1"
    );
}

#[test]
fn the_committed_schemas_are_up_to_date() {
    assert_committed("layout.schema.json", &schema::layout());
    assert_committed("placement.schema.json", &schema::placement());
}

fn validator(schema: &str) -> jsonschema::Validator {
    let schema = serde_json::from_str(schema).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    jsonschema::draft202012::new(&schema).unwrap()
}

/// The example of a layout file that the documentation shows.
fn example() -> Value {
    json!({
        "format": "stickleaf-layout", "version": 1, "name": "Tide pool",
        "sheet": {"width_mm": 105, "height_mm": 148, "corner_radius_mm": 4, "resolution_ppi": 600},
        "rules": {"spacing_mm": 2, "margin_mm": 4, "border_mm": 1.5, "print_to_cut_mm": 0.5,
                  "thinnest_mm": 3, "smallest_mm": 8, "inner_radius_mm": 0.5, "least_ppi": 300},
        "backgrounds": [{"name": "Title band",
            "zones": [{"name": "title", "outline": "M0 0H105V22H0Z", "clearance_mm": 2}]}],
        "background": "Title band",
        "stickers": [
            {"id": "crab", "name": "Crab", "outline": "M0 0L20 0L20 12C20 16 0 16 0 12Z",
             "wanted": {"exactly": 2}, "turns": {"within_deg": 15}},
            {"id": "dot", "name": "Dot", "outline": "M-4 0A4 4 0 1 1 4 0A4 4 0 1 1 -4 0Z", "border_mm": 1,
             "wanted": {"at_least": 0}, "turns": "any"}
        ],
        "pieces": [{"sticker": "crab", "x_mm": 40, "y_mm": 60, "turn_deg": 7.5, "locked": true}]
    })
}

#[test]
fn the_example_keeps_to_the_schema_and_mistakes_do_not() {
    let validator = validator(&schema::layout());
    let example = example();
    let errors: Vec<String> = validator.iter_errors(&example).map(|error| error.to_string()).collect();
    assert_eq!(errors, [""; 0]);
    assert!(stickleaf_files::read(&example.to_string()).is_ok());
    for (place, wrong) in [
        ("/format", json!("another-layout")),
        ("/version", json!(2)),
        ("/sheet/width_mm", json!("wide")),
        ("/sheet/width_mm", json!(0)),
        ("/rules/spacing_mm", json!(-1)),
        ("/stickers/0/wanted", json!({})),
        ("/stickers/0/wanted", json!({"exactly": 1, "at_least": 1})),
        ("/stickers/0/turns", json!("sometimes")),
        ("/stickers/0", json!({"id": "no outline"})),
        ("/pieces/0/x_mm", json!(null)),
    ] {
        let mut mistaken = example.clone();
        *mistaken.pointer_mut(place).unwrap() = wrong;
        assert!(!validator.is_valid(&mistaken), "{place}");
        assert!(stickleaf_files::read(&mistaken.to_string()).is_err(), "{place}");
    }
}

/// All JSON files of the sample layouts.
fn samples() -> Vec<PathBuf> {
    fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                collect(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "json") {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-layouts"), &mut found);
    found
}

#[test]
fn the_sample_files_keep_to_the_schema_and_are_written_back_as_they_were() {
    let validator = validator(&schema::layout());
    let mut backgrounds_seen = 0;
    for file in samples() {
        let mut sample: Value = serde_json::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap();
        if sample.pointer("/0/zones").is_some() {
            // A list of background styles: put into a layout, it must do as well.
            sample = example()
                .as_object()
                .map(|layout| {
                    let mut layout = layout.clone();
                    layout.remove("background");
                    layout.insert("backgrounds".to_owned(), sample);
                    Value::Object(layout)
                })
                .unwrap();
            backgrounds_seen += sample["backgrounds"].as_array().unwrap().len();
        } else if sample["format"] != "stickleaf-layout" {
            continue;
        }
        let errors: Vec<String> = validator.iter_errors(&sample).map(|error| error.to_string()).collect();
        assert_eq!(errors, [""; 0], "{}", file.display());
        let layout = stickleaf_files::read(&sample.to_string())
            .unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let written: Value = serde_json::from_str(&write(&layout)).unwrap();
        if let Some(backgrounds) = sample.get("backgrounds") {
            assert_eq!(&written["backgrounds"], backgrounds, "{}", file.display());
        }
    }
    assert!(backgrounds_seen > 0, "the background styles of the samples are gone");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn what_is_written_keeps_to_the_schema(layout in generated::layout()) {
        let texts = [(schema::layout(), write(&layout)), (schema::placement(), placement_file::write(&layout, "1"))];
        for (schema, text) in texts {
            let value: Value = serde_json::from_str(&text).unwrap();
            let errors: Vec<String> = validator(&schema)
                .iter_errors(&value)
                .map(|error| format!("{}: {error}", error.instance_path()))
                .collect();
            prop_assert_eq!(errors, [""; 0]);
        }
    }
}
