//! How the cost of a sheet moves with its size.

use serde_json::json;

use crate::program::{Folder, boxes};

#[test]
fn smaller_sheets_are_cheaper_and_the_size_of_each_is_told() {
    let folder = Folder::with(&[
        ("sheet.json", &boxes("{\"exactly\": 2}", &[(15.0, 20.0), (40.0, 20.0)])),
        (
            "s.json",
            r#"{"currency": "€", "stock": {"pack_cents": 1000, "pack_pages": 10}, "printing": {"spoilage_percent": 0}}"#,
        ),
    ]);
    // Sheets of 60 x 40 mm: two by two of them on 120 x 80 mm, and one page costs 100 cents.
    let line = "run sheet.json --sheets 4 --settings s.json --page 120x80 --printer-margin-mm 0";
    let report = folder.run(&format!("{line} --report json")).with_status(0).json();
    let by_size = report["by_size"].as_array().unwrap();
    let of = |count: u64| by_size.iter().find(|row| row["sheets_per_page"] == count).unwrap();
    assert_eq!(of(4)["sheet_cents"], report["cost"]["sheet_cents"]);
    assert_eq!((&of(4)["sheet_cents"], &of(4)["width_mm"]), (&json!(25.0), &json!(60.0)));
    // One alone fills the page; it costs four times as much, and each of its two stickers half of that.
    assert_eq!((&of(1)["sheet_cents"], &of(1)["width_mm"]), (&json!(100.0), &json!(120.0)));
    assert_eq!(of(1)["sticker_cents"], json!(50.0));
    let table = folder.run(line).with_status(0).out;
    assert!(table.contains("4 (now)") && table.contains("a sticker costs € 0.125"), "{table}");
    let unpriced =
        folder.run("run sheet.json --sheets 4 --page 120x80 --printer-margin-mm 0").with_status(0).out;
    assert!(!unpriced.contains("(now)"), "{unpriced}");
}
