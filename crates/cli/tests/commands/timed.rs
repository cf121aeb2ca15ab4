//! The machine's figures from two jobs that were timed.

use serde_json::json;

use crate::program::{Folder, boxes};

fn folder() -> Folder {
    Folder::with(&[
        ("sheet.json", &boxes("{\"exactly\": 2}", &[(15.0, 20.0), (40.0, 20.0)])),
        // A machine that is at its speed at once, and lifted is anywhere at once.
        (
            "s.json",
            r#"{"cutting": {"passes": 1, "machine": {"speed_mm_s": 50, "lift_s": 0.5, "acceleration_mm_s2": 1e6, "travel_mm_s": 1e6}}}"#,
        ),
    ])
}

#[test]
fn speed_and_lift_time_follow_from_two_jobs() {
    let folder = folder();
    // How long both take on a known machine is what the report of a run says of it.
    let cutting = |settings: &str| {
        let line =
            format!("run sheet.json --sheets 1 --sheets-per-page 1 --settings {settings} --report json");
        folder.run(&line).with_status(0).json()["times"]["cutting_s"].as_f64().unwrap()
    };
    let truth = r#"{"printing": {"spoilage_percent": 0}, "cutting": {"passes": PASSES, "machine":
        {"speed_mm_s": 31, "lift_s": 0.8, "load_s": 0, "acceleration_mm_s2": 1e6, "travel_mm_s": 1e6}}}"#;
    folder.put("one.json", truth.replace("PASSES", "1").as_bytes());
    folder.put("two.json", truth.replace("PASSES", "2").as_bytes());
    let (one, two) = (cutting("one.json"), cutting("two.json"));
    // A second pass is the card's line once more, so that line by itself took the difference, and the kiss lines the rest.
    let (card, kiss) = (two - one, 2.0 * one - two);
    let line = format!(
        "run sheet.json --sheets 1 --settings s.json --timed sheet.json:kiss={kiss},sheet.json:through={card} --write-settings new.json \
         --report json"
    );
    let report = folder.run(&line).with_status(0).json();
    let found = |name: &str| report["timed"][name].as_f64().unwrap();
    assert!((found("speed_mm_s") - 31.0).abs() < 0.1 && (found("lift_s") - 0.8).abs() < 0.01, "{report}");
    let kept = folder.json("new.json");
    assert_eq!(kept["cutting"]["machine"]["speed_mm_s"], report["timed"]["speed_mm_s"]);
    assert_eq!(kept["cutting"]["passes"], json!(1));
}

#[test]
fn jobs_from_which_nothing_follows_are_refused() {
    let folder = folder();
    let refused = |timed: &str, word: &str| {
        folder.refuses(&format!("run sheet.json --sheets 1 --timed {timed}"), word);
    };
    refused("sheet.json:kiss=20", "give two");
    refused("sheet.json:kiss=20,sheet.json:kiss=30", "alike");
    refused("sheet.json:kiss=1,sheet.json:through=9000", "no speed suits");
    refused("sheet.json:kiss=-1,sheet.json:through=9", "above 0");
    refused("sheet.json=5", "LAYOUT:kiss");
    folder.refuses("run sheet.json --sheets 1 --write-settings x.json", "--timed");
}
