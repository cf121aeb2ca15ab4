//! Trial cuts: the card, what outcomes say, and the log.

use serde_json::json;

use crate::program::Folder;

#[test]
fn a_card_of_all_settings_and_then_of_those_worth_trying() {
    let folder = Folder::new();
    let first = folder.run("card --from 2 --to 18 -o card.svg --report json").with_status(0).json();
    assert_eq!(first["card"]["trials"].as_array().unwrap().len(), 9);
    assert_eq!(first["trials"]["verdict"], "open");
    let svg = folder.text("card.svg");
    assert_eq!(svg.matches("<g id=\"trial-").count(), 9);
    assert!(svg.contains("<g id=\"printed\"") && svg.contains("<g id=\"cut-lines\""));
    // Three in a row: 3 mm and 3 x 13 mm across.
    assert!(svg.contains("width=\"42mm\"") && first["card"]["width_mm"] == 42.0, "{svg}");
    // 6 is not through, 14 too deep: 8, 10, 12 are left.
    let line = "card --from 2 --to 18 --outcomes 6=not-through,14.0=too-deep --report json";
    let next = folder.run(line).with_status(0).json();
    assert_eq!((&next["trials"]["from"], &next["trials"]["to"]), (&json!("8"), &json!("12")));
    assert_eq!(next["trials"]["next"], json!(["10", "8", "12"]));
    assert_eq!(next["card"]["file"], json!(null));
}

#[test]
fn settings_can_be_given_by_the_step_between_them() {
    let folder = Folder::new();
    let card = folder.run("card --from 1 --to 2 --step 0.3 --report json").with_status(0).json();
    assert_eq!(card["card"]["trials"], json!([["1", "1"], ["1.3", "1.3"], ["1.6", "1.6"], ["1.9", "1.9"]]));
    for (line, what) in [
        ("card --from 1 --to 2 --step 0", "above 0"),
        ("card --from 1 --to 9 --step 0.01", "801 settings make no scale"),
        ("card --from 1 --to 9 --step 1 --steps 3", "--steps"),
        ("card --named a,b --step 1", "--named"),
    ] {
        let ended = folder.run(line).with_status(2);
        assert!(ended.err.contains(what), "{line}: {ended:?}");
    }
}

#[test]
fn a_card_says_when_a_setting_is_found_or_there_is_none() {
    let folder = Folder::new();
    let found =
        folder.run("card --named soft,plain,strong --outcomes plain=clean,Plain=clean,plain=clean -o c.svg");
    let found = found.with_status(0);
    assert!(found.out.contains("plain cuts clean, with a chance of"), "{found:?}");
    assert!(found.out.contains("manual"), "cautions stand beside it");
    assert!(folder.names().is_empty(), "nothing is left to try");
    let once = folder.run("card --from 1 --to 9 --outcomes 5=clean").with_status(0);
    assert!(once.out.contains("5 most likely cuts clean") && once.out.contains("try next: 5,"), "{once:?}");
    let repeated = "2=not-through,2=not-through,2=not-through,3=too-deep,3=too-deep,3=too-deep";
    let none = folder.run(&format!("card --from 1 --to 4 --steps 4 --outcomes {repeated}")).with_status(1);
    assert!(none.out.contains("2 does not go through, 3 goes too deep; give finer steps"), "{none:?}");
}

#[test]
fn outcomes_that_contradict_are_said_so() {
    let line = "card --from 1 --to 9 --outcomes 5=clean,4=too-deep,6=clean,7=too-deep --report json";
    let said = Folder::new().run(line).with_status(1).json();
    assert_eq!(said["trials"]["contradicting_settings"], json!(["4"]));
    assert_eq!(said["trials"]["contradicting"], json!([2]));
}

#[test]
fn passes_go_over_the_same_line() {
    let folder = Folder::new();
    folder.run("card --from 3 --to 5 --passes -o card.svg").with_status(0);
    let svg = folder.text("card.svg");
    // A triangle and a square for each of 3 + 4 + 5 passes, and three printed numbers.
    assert_eq!(svg.matches("<path").count(), 2 * 12 + 3);
    assert_eq!(svg.matches("d=\"M3 3L13 3L13 13L3 13Z\"").count(), 3);
}

#[test]
fn the_log_is_begun_added_to_and_asked() {
    let folder = Folder::new();
    let work = "--log log.json --machine Desk --blade 45 --material Matt";
    folder
        .run(&format!("card --from 1 --to 9 --outcomes 4=clean,8=too-deep --add {work} --blade-m 10"))
        .with_status(0);
    folder
        .run(&format!("card --from 1 --to 9 --outcomes 6=clean --add {work} --blade-m 30 --day monday"))
        .with_status(0);
    let log = folder.json("log.json");
    assert_eq!(log["entries"].as_array().unwrap().len(), 3);
    assert_eq!((&log["entries"][2]["day"], &log["entries"][2]["setting"]), (&json!("monday"), &json!(6.0)));
    // Half way between 4 at 10 m and 6 at 30 m.
    let asked = folder.run(&format!("card {work} --blade-m 20 --report json")).with_status(0).json();
    assert_eq!(asked["log"]["suggestion"]["setting"], 5.0);
    assert_eq!(asked["log"]["suggestion"]["entries"], 2);
    assert_eq!(folder.json("log.json"), log, "asking changes nothing");
    let other = folder.run("card --log log.json --machine Other").with_status(1);
    assert!(other.out.contains("no clean cut of this machine"), "{other:?}");
}

#[test]
fn what_makes_no_sense_is_refused_and_nothing_written() {
    let folder = Folder::with(&[("log.json", "{\"entries\": 3}")]);
    for (line, what) in [
        ("card", "--from"),
        ("card --from 9 --to 1", "lightest first"),
        ("card --from 1.5 --to 3 --passes", "lightest first"),
        ("card --from 1 --to 9 --outcomes 99=clean", "there is no setting 99; the settings are 1, 2"),
        ("card --from 1 --to 9 --outcomes 3=fine", "too-deep"),
        ("card --named a,A", "twice"),
        ("card --log log.json", "could not read log.json"),
        ("card --log log.json --outcomes 3=clean", "--from"),
        ("card --log none.json", "there is no such file"),
        ("card --from 1 --to 9 --log log.json -o log.json", "another name"),
        ("card --from 1 --to 9 --log new.json --add --outcomes 3=clean -o new.json", "another name"),
        ("card --from 1 --to 9 -o - --report json", "standard output"),
    ] {
        let ended = folder.run(line).with_status(2);
        assert!(ended.err.contains(what) && ended.out.is_empty(), "{line}: {ended:?}");
    }
    assert_eq!(folder.names(), ["log.json"]);
    assert_eq!(folder.text("log.json"), "{\"entries\": 3}");
}
