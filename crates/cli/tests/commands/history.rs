//! Runs are kept from one to the next.

use serde_json::json;

use crate::program::{Folder, boxes};

#[test]
fn runs_are_added_to_the_history_and_become_a_table() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 1}", &[(10.0, 10.0)]))]);
    let line = |sheets: u32, day: &str| {
        format!(
            "run sheet.json --sheets {sheets} --sheets-per-page 4 --history h.json --csv t.csv --day {day}"
        )
    };
    folder.run(&line(40, "monday")).with_status(0);
    let kept = folder.json("h.json");
    assert_eq!((&kept["runs"][0]["day"], &kept["runs"][0]["sheets"]), (&json!("monday"), &json!(40)));
    // What another version put there stays.
    folder.put(
        "h.json",
        folder.text("h.json").replace("\"monday\",", "\"monday\", \"mood\": \"good\",").as_bytes(),
    );
    folder.run(&line(20, "=friday")).with_status(0);
    let kept = folder.json("h.json");
    assert_eq!((kept["runs"].as_array().unwrap().len(), &kept["runs"][0]["mood"]), (2, &json!("good")));
    let table = folder.text("t.csv");
    let rows: Vec<Vec<&str>> = table.lines().map(|row| row.split(',').collect()).collect();
    assert_eq!(rows[0][..4], ["day", "name", "sheets", "pages"]);
    // 10 good pages of 95 in a hundred are 10.5, so 11; 5 are 5.3, so 6.
    assert_eq!((rows[1][0], rows[1][2], rows[1][3]), ("monday", "40", "11"));
    assert_eq!((rows[2][0], rows[2][2], rows[2][3]), ("'=friday", "20", "6"));
    let on_paper = folder.run("run sheet.json --sheets 8 --csv -").with_status(0);
    assert!(on_paper.out.starts_with("day,name") && on_paper.err.contains("what to do"), "{on_paper:?}");
}

#[test]
fn a_history_that_is_none_is_left_as_it_is() {
    let folder = Folder::with(&[
        ("sheet.json", &boxes("{\"exactly\": 1}", &[(10.0, 10.0)])),
        ("h.json", "{\"runs\": 3}"),
    ]);
    for (rest, what) in [
        ("--history h.json", "could not read h.json"),
        ("--history sheet.json", "another name"),
        ("--history new.json --csv new.json", "another name"),
        ("--history - ", "standard output"),
        ("--csv - --report json", "standard output"),
    ] {
        let ended = folder.run(&format!("run sheet.json --sheets 4 {rest}")).with_status(2);
        assert!(ended.err.contains(what) && ended.out.is_empty(), "{rest}: {ended:?}");
    }
    assert_eq!(
        (folder.names(), folder.text("h.json")),
        (vec!["h.json".into(), "sheet.json".into()], "{\"runs\": 3}".into())
    );
}
