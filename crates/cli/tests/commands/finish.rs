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

#[test]
fn two_pieces_become_one_sticker_with_a_picture_of_both() {
    let folder = Folder::new();
    let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
        <rect id="box" x="5" y="5" width="14" height="14" fill="#c33"/>
        <rect id="bar" x="30" y="5" width="20" height="8" fill="#338"/></svg>"##;
    folder.put("two.svg", svg.as_bytes());
    folder.run("trace two.svg -o two.json --keep-positions --sheet 60x40").with_status(1);
    let refused = folder.run("merge two.json --pieces 0,1 -o one.json").with_status(2).err;
    assert!(refused.contains("11.0 mm apart"), "{refused}");
    // Nearer than in the picture: there has to be a picture of both.
    let near = folder.text("two.json").replace("\"x_mm\": 40", "\"x_mm\": 34");
    folder.put("near.json", near.as_bytes());
    let report = folder.run("merge near.json --pieces 0,1 -o one.json --report json").json();
    assert_eq!(
        (report["name"].as_str(), report["picture"].as_str()),
        (Some("box + bar"), Some("box-bar.png"))
    );
    assert!((report["width_mm"].as_f64().unwrap() - 39.0).abs() < 0.02, "{report}");
    let one = folder.json("one.json");
    assert_eq!(one["pieces"].as_array().unwrap().len(), 1);
    assert_eq!(one["stickers"].as_array().unwrap().len(), 1);
    folder.run("export one.json --sheet one.png --bundle one.stickleaf");
    assert!(folder.names().contains(&"one.png".to_owned()));
}
