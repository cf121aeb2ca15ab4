//! Variants are packed as `pack` packs them, and held against the first.

use serde_json::{Value, json};

use crate::program::{Folder, boxes};

/// Boxes of 10 mm on a card of 60 x 40 mm that has a style with a band 14 mm high and one without zones.
fn with_styles(places: &[(f64, f64)]) -> Value {
    let mut layout: Value = serde_json::from_str(&boxes("{\"at_least\": 1}", places)).unwrap();
    layout["backgrounds"] = json!([
        {"name": "Plain", "zones": []},
        {"name": "Band", "zones": [{"name": "title", "outline": "M0 0H60V14H0Z", "clearance_mm": 1}]},
    ]);
    layout
}

/// A folder with this layout as `sheet.json`.
fn folder(layout: &Value) -> Folder {
    Folder::with(&[("sheet.json", &layout.to_string())])
}

/// The figures that both reports hold.
fn figures(report: &Value) -> Value {
    json!([report["placed"], report["ceiling"], report["density"], report["smallest_gap_mm"]])
}

#[test]
fn each_background_holds_what_pack_finds_with_the_same_seed_and_rounds() {
    let layout = with_styles(&[]);
    let folder = folder(&layout);
    let line = "compare sheet.json --rounds 40 --seed 5 --report json";
    let report = folder.run(line).with_status(0).json();
    assert_eq!(
        (&report["aim"], &report["seed"], &report["rounds_each"]),
        (&json!("fill"), &json!(5), &json!(40))
    );
    assert_eq!(report["seconds_each"], Value::Null);
    let names: Vec<&Value> = report["variants"].as_array().unwrap().iter().map(|row| &row["name"]).collect();
    assert_eq!(names, ["No background", "Plain", "Band"]);
    for (index, name) in [Value::Null, json!("Plain"), json!("Band")].into_iter().enumerate() {
        let mut chosen = layout.clone();
        chosen["background"] = name;
        folder.put("one.json", chosen.to_string().as_bytes());
        let packed = folder
            .run("pack one.json -o packed.json --aim fill --rounds 40 --seed 5 --report json")
            .with_status(0)
            .json();
        assert_eq!(figures(&report["variants"][index]), figures(&packed), "{index}");
    }
    // Four columns and two rows of boxes lie on the bare card, one row below the band.
    assert_eq!(report["variants"][0]["placed"], 8);
    assert_eq!(report["variants"][2]["difference"], -4);
}

#[test]
fn every_variant_starts_from_a_bare_sheet_with_its_locked_pieces() {
    let mut layout = with_styles(&[(10.0, 30.0), (30.0, 17.0)]);
    layout["pieces"][1]["locked"] = json!(true);
    let with_free = folder(&layout).run("compare sheet.json --rounds 20 --report json").with_status(1).json();
    layout["pieces"].as_array_mut().unwrap().remove(0);
    let bare = folder(&layout).run("compare sheet.json --rounds 20 --report json").with_status(1).json();
    assert_eq!(with_free["variants"], bare["variants"]);
    // Below the band the locked box breaks a rule, so there is nothing to pack.
    let band = &bare["variants"][2];
    assert_eq!((&band["placed"], &band["difference"]), (&Value::Null, &Value::Null));
    assert!(band["not_packed"].as_str().unwrap().contains("unlock or move"), "{band}");
}

#[test]
fn spacings_borders_and_sheets_are_compared_as_asked() {
    let folder = folder(&with_styles(&[]));
    let line =
        "compare sheet.json --rounds 20 --spacings 0,4 --borders-mm 1 --sheets 60x40,80x40 --report json";
    let rows = folder.run(line).with_status(0).json()["variants"].clone();
    let named: Vec<(&str, u64)> = rows
        .as_array()
        .unwrap()
        .iter()
        .map(|row| (row["name"].as_str().unwrap(), row["placed"].as_u64().unwrap()))
        .collect();
    // In 52 x 32 mm: five by three without spacing, four by two with 4 mm; three by two if they are 12 mm.
    assert_eq!(
        named,
        [
            ("0 mm spacing", 15),
            ("4 mm spacing", 8),
            ("1 mm border", 6),
            ("60 × 40 mm", 8),
            ("80 × 40 mm", 12)
        ]
    );
    assert_eq!(rows[2]["remarks"], json!([]));
    let narrow =
        folder.run("compare sheet.json --rounds 1 --borders 0.2 --report json").with_status(0).json();
    assert!(narrow["variants"][0]["remarks"][0].as_str().unwrap().contains("print-to-cut error"));
}

#[test]
fn wanted_copies_without_a_place_are_told_by_the_status() {
    let mut layout = with_styles(&[]);
    layout["stickers"][0]["wanted"] = json!({"exactly": 6});
    let folder = folder(&layout);
    let ended = folder.run("compare sheet.json --aim place --rounds 60").with_status(1);
    assert!(ended.out.contains("Band: 2 wanted copies found no place"), "{ended:?}");
    let plain = ended.out.lines().find(|line| line.starts_with("Plain")).unwrap();
    assert_eq!(plain.split_whitespace().nth(1), Some("6"), "{ended:?}");
    layout["backgrounds"] = json!([]);
    folder.put("sheet.json", layout.to_string().as_bytes());
    folder.run("compare sheet.json --aim place --rounds 60").with_status(0);
}

#[test]
fn the_table_and_the_picture_are_written() {
    let folder = folder(&with_styles(&[]));
    let line = "compare sheet.json --seconds 0.1 --threads 2 --table t.csv --picture p.svg --report text";
    let ended = folder.run(line).with_status(0);
    assert!(ended.out.contains("wrote t.csv") && ended.out.contains("wrote p.svg"), "{ended:?}");
    assert_eq!(folder.text("t.csv").lines().count(), 4);
    assert!(folder.text("t.csv").starts_with("variant,placed,difference to the first,"));
    let picture = folder.text("p.svg");
    assert!(picture.starts_with("<svg") && picture.contains("4 fewer than No background"), "{picture}");
}

#[test]
fn prices_tell_what_a_sheet_and_a_sticker_of_each_cost() {
    let folder = folder(&with_styles(&[]));
    // Four cards on a page, 100 from 25 pages, which cost 10.00: ten cents each. Eight boxes lie on the bare card, four
    // below the band.
    let settings = json!({"currency": "€", "printing": {"spoilage_percent": 0}, "stock": {"pack_pages": 25, "pack_cents": 1000}});
    folder.put("shop.json", settings.to_string().as_bytes());
    let line = "compare sheet.json --rounds 40 --settings shop.json --page 120x80 --printer-margin-mm 0";
    let ended = folder.run(&format!("{line} --table t.csv --picture p.svg")).with_status(0);
    let row = |name: &str| {
        let line = ended.out.lines().find(|line| line.starts_with(name)).unwrap();
        line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(row("Plain")[7..], ["€ 0.100", "€ 0.013"], "{ended:?}");
    assert_eq!(row("Band")[7..], ["€ 0.100", "€ 0.025"], "{ended:?}");
    assert!(ended.out.contains("costs are those of a run of 100 sheets, ink aside"), "{ended:?}");
    let table = folder.text("t.csv");
    assert!(table.lines().nth(2).unwrap().contains(",0.1,0.013,"), "{table}");
    assert!(folder.text("p.svg").contains("a sticker costs € 0.025"));

    let report = folder.run(&format!("{line} --run 50 --report json")).with_status(0).json();
    let band = &report["variants"][2];
    // 50 cards take 13 pages, 5.20 for 50.
    assert_eq!((&report["currency"], &band["sheet_cents"]), (&json!("€"), &json!(10.4)));
    assert_eq!(band["sticker_cents"], json!(2.6));

    let unpriced = folder.run("compare sheet.json --rounds 1 --report json").with_status(0).json();
    assert_eq!(
        (&unpriced["currency"], &unpriced["variants"][0]["sheet_cents"]),
        (&Value::Null, &Value::Null)
    );
    folder.run("compare sheet.json --rounds 1 --run 50").with_status(2);
}
