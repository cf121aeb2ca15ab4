//! The layouts that people open first: sound, full, and with every picture they name.

use std::fs;
use std::path::{Path, PathBuf};

use stickleaf_sheet::{Finding, Layout, check, score};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../sample-layouts")
}

/// Every layout of the list, with the folder it lies in.
fn samples() -> Vec<(String, PathBuf, Layout)> {
    let list = fs::read_to_string(folder().join("index.json")).expect("the list of samples");
    let list: serde_json::Value = serde_json::from_str(&list).expect("a JSON list");
    let entries = list.as_array().expect("a list");
    entries
        .iter()
        .map(|entry| {
            let file = folder().join(entry["file"].as_str().expect("a file name"));
            let text =
                fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
            let layout =
                stickleaf_files::read(&text).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
            let name = entry["name"].as_str().expect("a name").to_owned();
            (name, file.parent().expect("a folder").to_owned(), layout)
        })
        .collect()
}

#[test]
fn there_is_a_sample_for_every_background_style() {
    let samples = samples();
    let styles: Vec<&str> =
        samples.iter().filter_map(|(_, _, layout)| layout.background.as_deref()).collect();
    for style in ["Plain", "Title band", "Title and corners", "Frame", "Scene with windows", "Hang tab"] {
        assert!(styles.contains(&style), "{style} has no sample");
    }
}

#[test]
fn every_sample_is_called_by_its_name_and_holds_the_rules_and_all_that_is_wanted() {
    for (name, _, layout) in samples() {
        assert_eq!(layout.name, name);
        let broken: Vec<Finding> = check(&layout).into_iter().filter(Finding::is_broken).collect();
        assert_eq!(broken, [], "{name}");
        let score = score(&layout);
        assert_eq!(score.missing, [], "{name}");
        assert!(
            score.placed <= score.ceiling.most,
            "{name}: {} of at most {}",
            score.placed,
            score.ceiling.most
        );
        assert!(score.density > 0.5, "{name} looks empty: {:.2}", score.density);
    }
}

#[test]
fn every_picture_that_a_sample_names_is_there() {
    for (name, folder, layout) in samples() {
        let art = layout.stickers.iter().filter_map(|sticker| sticker.art.as_ref()).map(|art| &art.file);
        let pictures = layout.backgrounds.iter().filter_map(|background| background.picture.as_ref());
        for file in art.chain(pictures) {
            assert!(folder.join(file).is_file(), "{name} names {file}");
        }
        assert!(
            layout.stickers.iter().all(|sticker| sticker.art.is_some()),
            "{name} has a sticker without art"
        );
    }
}
