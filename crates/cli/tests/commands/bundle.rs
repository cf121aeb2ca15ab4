//! Bundles hold of a picture what its stickers need, and nothing that is made of them changes by that.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::program::Folder;

/// The sample's 44 drawings on one picture of 300 pixels to the inch.
fn picture() -> Vec<u8> {
    let sample =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-layouts/rooftop-night/rooftop-night.png");
    fs::read(sample).unwrap()
}

/// A folder with `sheet.json`: every drawing of the picture in its place, though some lie too near each other; every second
/// one turned and every third flipped.
fn traced() -> Folder {
    let folder = Folder::new();
    folder.put("night.png", &picture());
    folder.run("trace night.png -o sheet.json --keep-positions --sheet 165x220mm").with_status(1);
    let mut layout = folder.json("sheet.json");
    for (index, piece) in layout["pieces"].as_array_mut().unwrap().iter_mut().enumerate() {
        if index % 2 == 0 {
            piece["turn_deg"] = (index * 17 % 360).into();
        }
        if index % 3 == 0 {
            piece["mirrored"] = true.into();
        }
    }
    folder.put("sheet.json", layout.to_string().as_bytes());
    folder
}

/// What a layout file, placement file or placement in a bundle says beside where its art lies.
fn without_art(mut layout: Value) -> Value {
    for sticker in layout["stickers"].as_array_mut().unwrap() {
        sticker["art"] = Value::Null;
    }
    layout
}

fn export(folder: &Folder, from: &str, to: &str, ppi: u32) {
    let line = format!(
        "export {from} --sheet {to}.png --print {to}.pdf --card-page --guide {to}-guide.png --cut {to}.svg --table {to}.csv \
         --placement {to}.json --ppi {ppi}"
    );
    let ended = folder.run(&line);
    assert!(ended.status < 2, "{ended:?}");
}

#[test]
fn all_that_is_made_of_a_bundle_is_made_of_the_layout_to_the_byte() {
    let folder = traced();
    let report = folder.run("export sheet.json --bundle sheet.stickleaf --report json").json();
    let facts = &report["bundle_facts"];
    assert_eq!((facts["with_parts"].as_u64(), &facts["left"]), (Some(44), &serde_json::json!(["night.png"])));
    // The bundle stands for itself.
    fs::remove_file(folder.path().join("night.png")).unwrap();
    let elsewhere = Folder::new();
    elsewhere.put("sheet.stickleaf", &fs::read(folder.path().join("sheet.stickleaf")).unwrap());
    folder.put("night.png", &picture());
    for ppi in [72, 300] {
        export(&folder, "sheet.json", "a", ppi);
        export(&elsewhere, "sheet.stickleaf", "a", ppi);
        for made in ["a.png", "a.pdf", "a-guide.png", "a.svg", "a.csv"] {
            let read = |folder: &Folder| fs::read(folder.path().join(made)).unwrap();
            assert!(read(&folder) == read(&elsewhere), "{made} at {ppi}");
        }
        assert_eq!(without_art(folder.json("a.json")), without_art(elsewhere.json("a.json")));
    }
}

#[test]
fn a_bundle_of_parts_is_no_larger_and_whole_pictures_can_be_asked_for() {
    let folder = traced();
    let size = |line: &str| {
        let report = folder.run(&format!("export sheet.json --bundle {line} --report json")).json();
        report["bundle_facts"]["bytes"].as_u64().unwrap()
    };
    let (parts, whole) = (size("parts.stickleaf"), size("whole.stickleaf --whole-pictures"));
    assert!(whole >= picture().len() as u64, "{whole}");
    assert!(parts as f64 <= 1.1 * whole as f64, "{parts} bytes with parts, {whole} with the whole picture");
    // Written again, it is the same: parts are not cut again.
    folder.run("export parts.stickleaf --bundle again.stickleaf");
    let read = |name: &str| fs::read(folder.path().join(name)).unwrap();
    assert!(read("parts.stickleaf") == read("again.stickleaf"));
}

#[test]
fn a_changed_picture_finds_the_stickers_of_a_bundle_by_their_place() {
    let folder = traced();
    folder.run("export sheet.json --bundle sheet.stickleaf");
    let report = folder.run("trace night.png --update sheet.stickleaf -o new.stickleaf --report json").json();
    assert_eq!(report["replaced"], serde_json::json!(["night.png"]));
    let fates = report["stickers"].as_array().unwrap();
    assert_eq!(fates.len(), 44);
    for fate in fates {
        assert_eq!((&fate["fate"], &fate["found_by"]), (&"unchanged".into(), &"place".into()), "{fate}");
    }
    // The new picture comes in as parts too, and prints the same.
    export(&folder, "sheet.stickleaf", "a", 150);
    export(&folder, "new.stickleaf", "b", 150);
    let read = |name: &str| fs::read(folder.path().join(name)).unwrap();
    assert!(read("a.png") == read("b.png"));
}
