//! What cannot be done ends with status 2, a message that names the file and what to do, and nothing lost.

use crate::program::{Folder, boxes};

/// A layout file with this outline.
fn with_outline(outline: &str) -> String {
    boxes("{\"exactly\": 1}", &[]).replace("M-5 -5H5V5H-5Z", outline)
}

/// Runs the line where `out` holds something already; the message must hold all parts and the file stay as it was.
#[track_caller]
fn refuses(folder: &Folder, line: &str, parts: &[&str]) {
    folder.put("out", b"something old");
    let ended = folder.run(line).with_status(2);
    assert_eq!(ended.out, "", "nothing is printed as an answer");
    for part in parts {
        assert!(ended.err.contains(part), "{:?} lacks {part:?}", ended.err);
    }
    assert!(!ended.err.contains("panicked"), "{}", ended.err);
    assert_eq!(folder.text("out"), "something old");
}

#[test]
fn layouts_that_cannot_be_read_are_named_with_the_place() {
    let good = boxes("{\"exactly\": 1}", &[(10.0, 10.0)]);
    let cases = [
        (String::new(), "the file is empty"),
        (good[..60].to_owned(), "it ends too early"),
        (good.replace("\"version\": 1", "\"version\": 3"), "newer Stickleaf"),
        (good.replace("stickleaf-layout", "drawing"), "not a Stickleaf layout"),
        (good.replace("\"width_mm\": 60", "\"width_mm\": \"wide\""), "line 2, column"),
        (good.replace("\"width_mm\": 60", "\"width_mm\": -60"), "the sheet's width is -60"),
        (good.replace("\"border_mm\": 0", "\"border_mm\": -1"), "the border is -1"),
        (good.replace("\"border_mm\": 0", "\"margin_mm\": 20"), "no usable part"),
        (good.replace("\"sticker\": \"box\"", "\"sticker\": \"cat\""), "sticker \"cat\""),
        (with_outline("M0 0L10 NaNL5 5Z"), "stickers[0].outline"),
        (with_outline("M0 0L10 10L10 0L0 8Z"), "crosses or touches itself"),
    ];
    for (text, what) in cases {
        let folder = Folder::with(&[("crab.json", &text)]);
        for line in [
            "pack crab.json -o out --rounds 1",
            "check crab.json",
            "count crab.json --report json",
            "room crab.json",
            "rough crab.json --shape star -o out",
            "compare crab.json --rounds 1 --table out",
            "export crab.json --placement out",
        ] {
            refuses(&folder, line, &["could not read crab.json: ", what]);
        }
    }
}

#[test]
fn art_that_cannot_be_traced_is_named() {
    let folder = Folder::with(&[
        ("empty.png", ""),
        ("text.png", "this is no picture"),
        ("blank.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"10mm\"/>"),
        ("broken.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"><rect"),
    ]);
    folder.put("broken.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0");
    folder.put("photo.jpg", b"\xff\xd8\xff\xe0\0\x10JFIF\0");
    for (file, what) in [
        ("empty.png", "the file is empty"),
        ("text.png", "neither PNG nor SVG"),
        ("blank.svg", "nothing to cut"),
        ("broken.svg", "could not trace"),
        ("broken.png", "could not trace"),
        ("photo.jpg", "a JPEG picture"),
    ] {
        refuses(&folder, &format!("trace {file} -o out"), &[file, what]);
    }
}

#[test]
fn files_that_are_not_there_are_named() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 1}", &[]))]);
    refuses(&folder, "check none.json", &["could not read none.json: there is no such file"]);
    refuses(&folder, "trace none.png -o out", &["could not read none.png"]);
    refuses(&folder, "pack sheet.json -o none/packed.json --rounds 1", &["there is no folder none"]);
    refuses(&folder, "pack sheet.json -o . --rounds 1", &["this is a folder"]);
}

#[test]
fn what_is_read_is_never_written_over() {
    let text = boxes("{\"exactly\": 1}", &[]);
    let svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9mm\" height=\"9mm\"><rect width=\"9\" height=\"9\"/></svg>";
    let folder = Folder::with(&[("sheet.json", &text), ("art.svg", svg)]);
    refuses(&folder, "pack sheet.json -o ./sheet.json --rounds 1", &["./sheet.json", "another name"]);
    refuses(&folder, "rough sheet.json --shape disc -o sheet.json", &["another name"]);
    refuses(&folder, "export sheet.json --placement sheet.json", &["another name"]);
    refuses(
        &folder,
        "export sheet.json --placement p.json --table p.csv --cut p.json",
        &["p.json", "another name"],
    );
    refuses(&folder, "trace art.svg -o art.svg", &["art.svg", "another name"]);
    assert_eq!(folder.text("sheet.json"), text);
    assert_eq!(folder.text("art.svg"), svg);
    assert_eq!(folder.names(), ["art.svg", "out", "sheet.json"]);
}

#[test]
fn two_answers_do_not_go_to_one_place() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 1}", &[]))]);
    refuses(&folder, "pack sheet.json -o - --report json", &["standard output"]);
    refuses(&folder, "export sheet.json --table - --cut -", &["standard output"]);
    refuses(&folder, "compare sheet.json --rounds 1 --table -", &["standard output"]);
    refuses(&folder, "compare sheet.json --rounds 1 --table a --picture a", &["a is needed", "another name"]);
    refuses(&folder, "compare sheet.json --rounds 1 --table sheet.json", &["another name"]);
}

#[test]
fn options_that_make_no_sense_are_named() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 1}", &[]))]);
    refuses(&folder, "pack sheet.json -o out --seconds -1", &["--seconds"]);
    refuses(&folder, "pack sheet.json -o out --seconds 1e999", &["--seconds"]);
    refuses(&folder, "pack sheet.json -o out --threads 0", &["--threads"]);
    refuses(&folder, "pack sheet.json -o out --aim everything", &["--aim", "place", "fill"]);
    refuses(&folder, "trace a.png -o out --ppi 300 --width-mm 100", &["--ppi", "--width-mm"]);
    refuses(&folder, "trace a.png -o out --border-mm nan", &["--border-mm", "0 or more"]);
    refuses(&folder, "trace a.png -o out --wanted some", &["2+ for at least two"]);
    refuses(&folder, "export sheet.json", &["--placement"]);
    refuses(&folder, "check", &["LAYOUT"]);
    refuses(&folder, "compare sheet.json --spacings-mm 1,-2", &["--spacings-mm", "0 or more"]);
    refuses(&folder, "compare sheet.json --aim grow", &["--aim", "fill", "place"]);
    refuses(&folder, "compare sheet.json --sheets a6,b7", &["--sheets", "100x150"]);
    refuses(&folder, "room sheet.json --count 0", &["--count", "1..=1000"]);
}

#[test]
fn shapes_that_cannot_be_are_explained() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 1}", &[]))]);
    let shape = |rest: &str| format!("rough sheet.json -o out --shape {rest}");
    refuses(&folder, &shape("cube"), &["--shape", "ribbon"]);
    refuses(&folder, &shape("star --width-mm -3"), &["--width-mm", "above 0"]);
    refuses(&folder, &shape("star --width-mm 0.2"), &["the width is 0.2 mm", "from 1 to 1000 mm"]);
    refuses(&folder, &shape("disc --width-mm 20 --height-mm 18"), &["choose an oval"]);
}

#[test]
fn what_cannot_be_packed_is_explained() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 0}", &[]))]);
    refuses(
        &folder,
        "pack sheet.json -o out --rounds 1",
        &["could not pack sheet.json", "no copies are wanted"],
    );
    let locked =
        boxes("{\"exactly\": 2}", &[(5.0, 20.0)]).replace("\"y_mm\": 20", "\"y_mm\": 20, \"locked\": true");
    folder.put("sheet.json", locked.as_bytes());
    refuses(&folder, "pack sheet.json -o out --rounds 1", &["Box is 0 mm", "unlock or move"]);
    refuses(&folder, "compare sheet.json --rounds 1 --table out", &["sheet.json", "Box is 0 mm"]);
}
