//! Cut lines for a drag blade.

use crate::program::Folder;

/// A sticker with a sharp notch and a thin tail on a sheet of 100 x 60 mm, its border 0.5 mm.
fn tailed() -> Folder {
    let layout = r#"{"format": "stickleaf-layout", "version": 1,
        "sheet": {"width_mm": 100, "height_mm": 60}, "rules": {"border_mm": 0.5},
        "stickers": [{"id": "fox", "name": "Fox",
            "outline": "M-30 -20H10V-6H0V-0.5H40V0.5H0V20H-30Z", "wanted": {"exactly": 1}}],
        "pieces": [{"sticker": "fox", "x_mm": 50, "y_mm": 30}]}"#;
    Folder::with(&[("sharp.json", layout)])
}

fn rules(report: &serde_json::Value) -> Vec<String> {
    let findings = report["findings"].as_array().unwrap();
    findings.iter().map(|finding| finding["rule"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn radii_and_width_answer_the_warnings_and_say_what_moved() {
    let folder = tailed();
    let before = folder.run("check sharp.json --report json").json();
    assert_eq!(rules(&before), ["thin_part", "inner_corner"]);
    let asked = "finish sharp.json -o soft.json --inner-radius-mm 0.6 --thicken --report json";
    let report = folder.run(asked).with_status(0).json();
    assert_eq!(rules(&report), [""; 0]);
    let fox = &report["stickers"][0];
    // The tail is 2 mm wide with its border and becomes 3: half a millimetre on either side, more in the notch beside it.
    assert!(fox["moved_mm"].as_f64().unwrap() > 0.49, "{fox}");
    assert_eq!((fox["wide_spots"].as_u64(), fox["least_border_mm"].as_f64()), (Some(1), Some(0.5)));
    let written = folder.json("soft.json");
    assert_eq!(written["stickers"][0]["radii"]["inner_mm"], 0.6);
    assert_eq!(written["stickers"][0]["wide_spots"].as_array().unwrap().len(), 1);
    assert_eq!(written["stickers"][0]["outline"], folder.json("sharp.json")["stickers"][0]["outline"]);
    // Taken back, the line is where it was.
    let back = folder.run("finish soft.json -o back.json --inner-radius-mm 0 --report json").json();
    assert_eq!(back["stickers"][0]["inner_radius_mm"], 0.0);
    assert!(folder.json("back.json")["stickers"][0].get("radii").is_none());
}

#[test]
fn only_the_stickers_asked_for_are_finished_and_unknown_ones_refused() {
    let folder = tailed();
    let refused = folder.run("finish sharp.json -o soft.json --sticker cat --thicken").with_status(2).err;
    assert!(refused.contains("cat") && refused.contains("fox"), "{refused}");
    let said =
        folder.run("finish sharp.json -o soft.json --sticker fox --outer-radius-mm 1").with_status(0).out;
    assert!(said.contains("moved out by at most") && said.contains("Fox"), "{said}");
    folder.run("finish sharp.json -o soft.json --inner-radius-mm -1").with_status(2);
}

#[test]
fn traced_stickers_may_be_rounded_at_once() {
    let folder = Folder::new();
    let svg = r#"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
        <path id="l" d="M5 5H15V25H45V35H5Z"/></svg>"#;
    folder.put("l.svg", svg.as_bytes());
    folder
        .run("trace l.svg -o l.json --border-mm 0.5 --inner-radius-mm 0.5 --outer-radius-mm 1")
        .with_status(0);
    let radii = &folder.json("l.json")["stickers"][0]["radii"];
    assert_eq!((radii["inner_mm"].as_f64(), radii["outer_mm"].as_f64()), (Some(0.5), Some(1.0)));
}
