//! A changed picture for a layout that was made from it.

use serde_json::Value;

use crate::program::Folder;

/// An SVG of 100 x 60 mm with these shapes.
fn svg(shapes: &str) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60">{shapes}</svg>"#
    )
}

const CRAB: &str = r#"<rect id="crab" x="10" y="10" width="20" height="12"/>"#;
const FISH: &str = r#"<circle id="fish" cx="50" cy="20" r="8"/>"#;
const STAR: &str = r#"<path id="star" d="M70 10H90L80 30Z"/>"#;
/// The crab with a claw on its right side.
const CLAWED: &str = r#"<path id="crab" d="M10 10H30V14H34V18H30V22H10Z"/>"#;
const SHELL: &str = r#"<rect id="shell" x="10" y="40" width="14" height="10"/>"#;

/// A folder with a traced layout whose pieces lie where the drawings are in their picture.
fn traced() -> Folder {
    let folder = Folder::new();
    folder.put("sea.svg", svg(&format!("{CRAB}{FISH}{STAR}")).as_bytes());
    folder.run("trace sea.svg -o sea.json --keep-positions").with_status(0);
    folder
}

fn fates(report: &Value) -> Vec<(String, String)> {
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    report["stickers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| (text(&one["name"]), text(&one["fate"])))
        .collect()
}

#[test]
fn a_changed_picture_gives_its_outlines_and_everything_else_stays() {
    let folder = traced();
    folder.put("sea.svg", svg(&format!("{CLAWED}{FISH}{SHELL}")).as_bytes());
    let report =
        folder.run("trace sea.svg --update sea.json -o new.json --report json").with_status(0).json();
    let named = |name: &str, fate: &str| (name.to_owned(), fate.to_owned());
    let expected =
        [named("crab", "updated"), named("fish", "unchanged"), named("star", "gone"), named("shell", "new")];
    assert_eq!(fates(&report), expected);
    let crab = &report["stickers"][0];
    assert_eq!(
        (crab["area_before_mm2"].as_f64(), crab["area_after_mm2"].as_f64()),
        (Some(240.0), Some(256.0))
    );
    assert!((crab["area_moved_mm2"].as_f64().unwrap() - 16.0).abs() < 1e-6);
    assert_eq!((crab["found_by"].as_str(), crab["pieces"].as_u64()), (Some("place"), Some(1)));
    let (old, new) = (folder.json("sea.json"), folder.json("new.json"));
    assert_eq!(old["pieces"], new["pieces"]);
    assert_eq!(new["stickers"][2]["gone"], Value::Bool(true));
    assert_eq!(new["stickers"].as_array().unwrap().len(), 4);
    assert!(report["findings"].as_array().unwrap().iter().any(|finding| finding["rule"] == "gone"));
    // The picture of the first day brings the star back.
    folder.put("sea.svg", svg(&format!("{CRAB}{FISH}{STAR}")).as_bytes());
    let back = folder.run("trace sea.svg --update new.json -o back.json --no-new --report json").json();
    assert_eq!(fates(&back)[2], named("star", "unchanged"));
    assert_eq!(fates(&back)[3], named("shell", "gone"));
    assert_eq!(folder.json("back.json")["stickers"][2].get("gone"), None);
}

#[test]
fn new_drawings_can_be_left_out() {
    let folder = traced();
    folder.put("sea.svg", svg(&format!("{CRAB}{FISH}{STAR}{SHELL}")).as_bytes());
    let said = folder.run("trace sea.svg --update sea.json -o new.json --no-new").with_status(0).out;
    assert!(said.contains("0 updated, 3 unchanged, 1 new, 0 gone"), "{said}");
    assert!(said.contains("new, left out"), "{said}");
    assert_eq!(folder.json("sea.json")["stickers"], folder.json("new.json")["stickers"]);
}

#[test]
fn another_name_stands_for_the_only_picture_and_has_to_be_told_among_several() {
    let folder = traced();
    folder.put("sea-v2.svg", svg(&format!("{CLAWED}{FISH}{STAR}")).as_bytes());
    folder.run("trace sea-v2.svg --update sea.json -o new.json").with_status(0);
    assert_eq!(folder.json("new.json")["stickers"][0]["art"]["file"], "sea-v2.svg");
    folder.put("land.svg", svg(SHELL).as_bytes());
    folder.run("trace sea.svg land.svg -o both.json").with_status(0);
    let refused = folder.run("trace sea-v2.svg --update both.json -o new.json").with_status(2).err;
    assert!(refused.contains("--replaces") && refused.contains("land.svg"), "{refused}");
    let asked = "trace sea-v2.svg --update both.json --replaces sea.svg -o new.json --report json";
    let report = folder.run(asked).with_status(0).json();
    assert_eq!(report["replaced"], serde_json::json!(["sea.svg"]));
    assert_eq!(fates(&report).len(), 3);
}

#[test]
fn a_bundle_gets_the_changed_picture_and_keeps_the_old_one_for_what_is_gone() {
    let folder = traced();
    folder.run("export sea.json --bundle sea.stickleaf").with_status(0);
    folder.put("sea.svg", svg(&format!("{CLAWED}{FISH}")).as_bytes());
    folder.run("trace sea.svg --update sea.stickleaf -o new.stickleaf").with_status(0);
    folder.run("export new.stickleaf --sheet new.png --placement new.json").with_status(0);
    let placement = folder.json("new.json");
    let files: Vec<&str> = placement["stickers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|sticker| sticker["art"]["file"].as_str().unwrap())
        .collect();
    assert_eq!(files[0], files[1]);
    assert_ne!(files[0], files[2]);
}
