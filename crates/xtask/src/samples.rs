//! Which of the sample layouts' files the page can come to: the list, the layouts on it, the pictures that those name.
//!
//! What else lies there, such as sheets to trace, is for people and tests: a visitor would load it for nothing.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::trouble::Trouble;

/// The list of layouts.
const LIST: &str = "index.json";

/// The files relative to the folder, in order of their names; none if there is no list.
///
/// A layout that is not there or not JSON is an error; that its pictures are there is for the tests of the samples.
pub fn files(folder: &Path) -> Result<BTreeSet<PathBuf>, Trouble> {
    let mut found = BTreeSet::new();
    if !folder.join(LIST).exists() {
        return Ok(found);
    }
    found.insert(PathBuf::from(LIST));
    for layout in named(&read(&folder.join(LIST))?, &["file"]) {
        let beside = layout.parent().unwrap_or(Path::new("")).to_owned();
        let content = read(&folder.join(&layout))?;
        for (list, path) in [("stickers", &["art", "file"][..]), ("backgrounds", &["picture"][..])] {
            found.extend(named(&content[list], path).into_iter().map(|picture| beside.join(picture)));
        }
        found.insert(layout);
    }
    Ok(found)
}

/// The file names that stand at this place in each entry of a list.
fn named(list: &Value, place: &[&str]) -> Vec<PathBuf> {
    let entries = list.as_array().map(Vec::as_slice).unwrap_or_default();
    let name = |entry| {
        place.iter().try_fold(entry, |value: &Value, key| value.get(key))?.as_str().map(PathBuf::from)
    };
    entries.iter().filter_map(name).collect()
}

fn read(path: &Path) -> Result<Value, Trouble> {
    let text = fs::read_to_string(path).map_err(Trouble::file("read", path))?;
    serde_json::from_str(&text).map_err(|error| Trouble::file("read", path)(error.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_its_layouts_and_their_pictures_are_found_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let write = |name: &str, text: &str| {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        };
        assert!(files(folder.path()).unwrap().is_empty(), "no list, no samples");
        write(LIST, r#"[{"name": "Pool", "file": "pool/crabs.json"}]"#);
        assert!(files(folder.path()).unwrap_err().to_string().contains("crabs.json"));
        write(
            "pool/crabs.json",
            r#"{"stickers": [{"art": {"file": "art/crab.svg"}}, {"id": "rough"}], "backgrounds": [{"picture": "sea.png"}, {}]}"#,
        );
        write("pool/sheet.png", "to trace");
        let found: Vec<PathBuf> = files(folder.path()).unwrap().into_iter().collect();
        assert_eq!(found, [LIST, "pool/art/crab.svg", "pool/crabs.json", "pool/sea.png"].map(PathBuf::from));
    }
}
