//! Sheets on pages of label stock: counted, proved, drawn, refused.

use serde_json::{Value, json};

use crate::program::Folder;

/// The text of a layout with a sheet of this size and nothing on it.
fn bare(name: &str, width: f64, height: f64) -> String {
    json!({
        "format": "stickleaf-layout", "version": 1, "name": name,
        "sheet": {"width_mm": width, "height_mm": height, "corner_radius_mm": 4}, "stickers": []
    })
    .to_string()
}

fn folder() -> Folder {
    // 4.25 x 6.5 in, and A6 by ISO 216.
    Folder::with(&[
        ("inches.json", &bare("Inches", 107.95, 165.1)),
        ("a6.json", &bare("Tide & pool", 105.0, 148.0)),
    ])
}

#[test]
fn two_sheets_of_four_and_a_quarter_by_six_and_a_half_inches_lie_on_letter() {
    // Common practice, no source.
    let line = "page inches.json --page letter --printer-margin-mm 6.35 --gap-mm 3 --report json";
    let report = folder().run(line).with_status(0).json();
    assert_eq!(
        (&report["sheets_per_page"], &report["proven_most"], &report["proved"]),
        (&json!(2), &json!(2), &json!(true))
    );
    let positions = report["positions"].as_array().unwrap();
    assert!(positions.iter().all(|position| position["turn_deg"] == 90 && position["width_mm"] == 165.1));
    let waste = 1.0 - 2.0 * 107.95 * 165.1 / (215.9 * 279.4);
    assert!((report["waste"].as_f64().unwrap() - waste).abs() < 1e-9);
    let upright: Vec<&Value> =
        report["largest"].as_array().unwrap().iter().filter(|row| row["changed"] == "width").collect();
    // Two above each other in 266.7 mm, 3 mm apart.
    assert!(
        upright.iter().any(|row| row["sheets_per_page"] == 2 && row["width_mm"] == 131.85),
        "{upright:?}"
    );
}

#[test]
fn margin_and_reach_both_count() {
    let folder = folder();
    let count = |line: &str| folder.run(line).with_status(0).json()["sheets_per_page"].clone();
    assert_eq!(count("page a6.json --page a4 --printer-margin-mm 0 --report json"), 4);
    // Two upright and one across below them; four have more area than 210 x 290 mm.
    assert_eq!(count("page a6.json --page a4 --printer-margin-mm 0 --reach 210x290 --report json"), 3);
    assert_eq!(count("page a6.json --page a4 --printer-margin-mm 0 --gap-mm 1 --report json"), 2);
    assert_eq!(count("page a6.json --page 211x298 --printer-margin-mm 0 --gap-mm 1 --report json"), 4);
    assert_eq!(count("page a6.json --page a3 --printer-margin-mm 0 --report json"), 8);
}

#[test]
fn the_table_says_what_is_proved_and_that_a_shared_edge_has_sharp_corners() {
    let folder = folder();
    let ended = folder.run("page a6.json --printer-margin-mm 0 --picture page.svg").with_status(0);
    assert!(
        ended.out.contains("4; no plan holds more, proven") && ended.out.contains("share an edge"),
        "{ended:?}"
    );
    let picture = folder.text("page.svg");
    assert!(
        picture.starts_with("<svg") && picture.contains("Tide &amp; pool") && picture.contains(">4</text>")
    );
    assert!(!folder.run("page a6.json --gap-mm 2").with_status(0).out.contains("share an edge"));
}

#[test]
fn several_layouts_share_the_fewest_pages() {
    let folder = folder();
    let line = "page inches.json a6.json --page a3 --gap-mm 2 --wanted 30,12 --picture p.svg --report json";
    let report = folder.run(line).with_status(0).json();
    assert_eq!(report["page_count"], report["proven_least"]);
    let pages = report["pages"].as_array().unwrap();
    let mut printed = [0, 0];
    for page in pages {
        for position in page["positions"].as_array().unwrap() {
            printed[position["design"].as_u64().unwrap() as usize] += page["times"].as_u64().unwrap();
        }
    }
    assert!(printed[0] >= 30 && printed[1] >= 12, "{printed:?}");
    assert_eq!(
        (&report["designs"][0]["printed"], &report["designs"][1]["name"]),
        (&json!(printed[0]), &json!("Tide & pool"))
    );
    assert!(folder.text("p.svg").contains("Page 1, printed"));
    let table = folder.run("page inches.json a6.json --page a3 --wanted 30,12").with_status(0).out;
    assert!(table.contains("no plan needs fewer, proven") && table.contains("page 1, printed"), "{table}");
}

#[test]
fn what_cannot_be_planned_is_refused_with_advice() {
    let folder = folder();
    let refused = |line: &str, word: &str| folder.refuses(line, word);
    refused("page a6.json --page 100x100", "does not fit");
    refused("page a6.json --page a5 --printer-margin-mm 40", "larger page");
    refused("page a6.json --page a4 --reach 297x210", "larger than the page");
    refused("page a6.json --printer-margin-mm 105", "smaller one");
    refused("page a6.json --page b4", "letter");
    refused("page a6.json inches.json", "--wanted");
    refused("page a6.json --wanted 3,4", "--wanted");
    refused("page a6.json --picture a6.json", "another name");
    refused("page a6.json --picture -", "give the file a name");
}
