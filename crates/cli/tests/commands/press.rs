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

/// The colour of a PNG of so many pixels to the inch at a place in millimetres.
fn colour_at(folder: &Folder, file: &str, ppi: f64, at: (f64, f64)) -> [u8; 3] {
    let bytes = std::fs::read(folder.path().join(file)).unwrap();
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
    let mut rgba = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut rgba).unwrap();
    let px = |mm: f64| (mm / 25.4 * ppi) as usize;
    let start = (px(at.1) * info.width as usize + px(at.0)) * 4;
    [rgba[start], rgba[start + 1], rgba[start + 2]]
}

#[test]
fn the_strip_shows_the_colours_that_its_corrections_make() {
    let folder = coloured_box([200, 30, 30, 255]);
    let report = folder
        .run("export sheet.json --colours strip.svg --sheet s.png --patch 42 --ppi 100 --report json")
        .with_status(0)
        .json();
    assert_eq!(report["correction"], json!({"lighter": 0.03, "warmer": -0.015}));
    let [red, green, blue] = colour_at(&folder, "s.png", 100.0, (20.0, 20.0));
    let strip = folder.text("strip.svg");
    let patch = |rgb: [u8; 3], name: u32| {
        let [red, green, blue] = rgb;
        format!("fill=\"#{red:02X}{green:02X}{blue:02X}\"><title>{name}</title>")
    };
    assert!(strip.contains(&patch([red, green, blue], 42)), "{red} {green} {blue}: {strip}");
    assert!(strip.contains(&patch([200, 30, 30], 33)));
    // The stock beside the art takes no ink, and numbers say the same as the patch.
    assert_eq!(colour_at(&folder, "s.png", 100.0, (40.0, 30.0)), [255; 3]);
    let line = "export sheet.json --sheet t.png --lighter 0.03 --warmer -0.015 --ppi 100";
    folder.run(line).with_status(0);
    assert_eq!(colour_at(&folder, "t.png", 100.0, (20.0, 20.0)), [red, green, blue]);
}

#[test]
fn corrections_that_are_not_on_the_strip_are_refused() {
    let folder = coloured_box([200, 30, 30, 255]);
    for wrong in ["--patch 60", "--patch 43 --lighter 0.1", "--lighter 0.5", "--warmer nan"] {
        folder.run(&format!("export sheet.json --sheet s.png {wrong}")).with_status(2);
    }
    assert!(!folder.names().contains(&"s.png".to_owned()));
}

#[test]
fn a_drawing_traced_at_another_width_is_printed_at_that_width() {
    let folder = Folder::with(&[(
        "box.svg",
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10"><rect x="2" y="2" width="16" height="6"/></svg>"#,
    )]);
    folder.run("trace box.svg -o sheet.json --width-mm 60 --keep-positions").with_status(0);
    // 20 mm drawn at 96 to the inch, made three times as wide.
    let layout = folder.json("sheet.json");
    let per_mm = layout["stickers"][0]["art"]["pixels_per_mm"].as_f64().unwrap();
    assert!((per_mm - 96.0 / 25.4 / 3.0).abs() < 1e-3, "{per_mm}");
    folder.run("export sheet.json --sheet sheet.png").with_status(0);
}

#[test]
fn the_layout_s_own_correction_is_taken_unless_something_else_is_typed() {
    let folder = coloured_box([200, 30, 30, 255]);
    let own = folder.text("sheet.json").replacen(
        '{',
        r#"{"correction": {"lighter": 0.03, "warmer": -0.015, "later": 1},"#,
        1,
    );
    folder.put("own.json", own.as_bytes());
    let colour = |line: &str| {
        folder.run(&format!("export {line} --sheet s.png --ppi 100")).with_status(0);
        colour_at(&folder, "s.png", 100.0, (20.0, 20.0))
    };
    let (plain, corrected) = (colour("sheet.json"), colour("sheet.json --patch 42"));
    assert_ne!(plain, corrected);
    assert_eq!(colour("own.json"), corrected);
    assert_eq!(colour("own.json --no-correction"), plain);
    assert_eq!(colour("own.json --patch 33"), plain);
    assert_eq!(colour("own.json --lighter 0"), plain);
    assert_eq!(colour("own.json --warmer -0.03"), colour("sheet.json --patch 31"));
    // It goes into the placement file and the bundle, and is said.
    folder.run("export own.json --placement p.json --bundle b.stickleaf").with_status(0);
    assert_eq!(folder.json("p.json")["correction"], json!({"lighter": 0.03, "warmer": -0.015, "later": 1}));
    assert_eq!((colour("p.json"), colour("b.stickleaf")), (corrected, corrected));
    let said = folder.run("export own.json --sheet s.png --ppi 100").with_status(0).err;
    assert!(said.contains("lighter by 0.03") && said.contains("--no-correction"), "{said}");
    for wrong in [r#"{"lighter": 0.5}"#, "42"] {
        let wrong = folder.text("sheet.json").replacen('{', &format!("{{\"correction\": {wrong},"), 1);
        folder.put("wrong.json", wrong.as_bytes());
        let said = folder.run("export wrong.json --sheet w.png").with_status(2).err;
        assert!(said.contains("correction"), "{said}");
    }
}
