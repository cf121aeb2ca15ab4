//! What `export` says of pictures, and does with their colours.

use png::{BitDepth, ColorType, Encoder};
use serde_json::json;

use crate::program::{Folder, boxes};

/// A picture of 100 x 100 pixels of one colour.
fn picture(colour: [u8; 4]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 100, 100);
    encoder.set_color(ColorType::Rgba);
    encoder.set_depth(BitDepth::Eight);
    encoder.write_header().unwrap().write_image_data(&colour.repeat(100 * 100)).unwrap();
    bytes
}

/// A folder with the layout `sheet.json`, whose one box of 10 mm is 100 pixels of this colour.
fn coloured_box(colour: [u8; 4]) -> Folder {
    let art = r#""art": {"file": "box.png", "x_mm": -5, "y_mm": -5, "pixels_per_mm": 10}, "wanted""#;
    let folder = Folder::new();
    let layout = boxes("{\"exactly\": 1}", &[(20.0, 20.0)]).replace("\"wanted\"", art);
    folder.put("sheet.json", layout.as_bytes());
    folder.put("box.png", &picture(colour));
    folder
}

#[test]
fn coarse_pictures_are_named_before_anything_is_written() {
    let folder = coloured_box([200, 30, 30, 255]);
    // 10 pixels to the millimetre are 254 to the inch, and the rules ask 300 unless they say otherwise.
    let ended = folder.run("export sheet.json --sheet s.png --ppi 100").with_status(0);
    let (table, written) = ended.err.split_once("wrote s.png").unwrap();
    assert!(table.contains("254  warning: under 300 it prints soft"), "{table}");
    assert!(!written.contains("254"));
    let report = folder.run("export sheet.json --print p.pdf --ppi 100 --report json").with_status(0).json();
    let picture = json!({"sticker": "box", "file": "box.png", "effective_ppi": report["pictures"][0]["effective_ppi"],
               "coarse": true});
    assert_eq!(report["pictures"], json!([picture]));
    assert!((report["pictures"][0]["effective_ppi"].as_f64().unwrap() - 254.0).abs() < 1e-9);
    // What needs no picture says nothing of them.
    let report = folder.run("export sheet.json --table t.csv --report json").with_status(0).json();
    assert_eq!(report["pictures"], json!([]));
}

#[test]
fn a_missing_picture_ends_it_before_anything_is_written() {
    let folder = coloured_box([200, 30, 30, 255]);
    std::fs::remove_file(folder.path().join("box.png")).unwrap();
    let ended = folder.run("export sheet.json --table t.csv --sheet s.png").with_status(2);
    assert!(ended.err.contains("box.png is not there"), "{ended:?}");
    assert_eq!(folder.names(), ["sheet.json"]);
}
