//! What is made of planned pages: their print, and their cut.

use serde_json::json;

use crate::program::{Folder, boxes};

/// Two layouts of 60 x 40 mm with sharp corners: one with two boxes, one with one.
fn folder() -> Folder {
    Folder::with(&[
        ("two.json", &boxes("{\"exactly\": 2}", &[(15.0, 20.0), (40.0, 20.0)])),
        ("one.json", &boxes("{\"exactly\": 1}", &[(30.0, 20.0)])),
    ])
}

#[test]
fn a_page_is_cut_as_a_whole() {
    let folder = folder();
    // Two by two cards edge to edge on 120 x 80 mm.
    let page = "--page 120x80 --printer-margin-mm 0";
    let line = format!("export two.json --cut cut.svg --whole-page --passes 3 {page} --report json");
    let facts = folder.run(&line).with_status(0).json()["cut_facts"].clone();
    assert_eq!((&facts["sheets"], &facts["kiss_lines"], &facts["passes"]), (&json!(4), &json!(8), &json!(3)));
    // Three level lines and three upright ones, so that no shared edge is cut twice as deep.
    assert_eq!(facts["through_mm"], json!(3.0 * 120.0 + 3.0 * 80.0));
    let svg = folder.text("cut.svg");
    assert!(svg.contains("width=\"120mm\" height=\"80mm\"") && svg.contains("id=\"sheet-4-piece-2\""));
    assert_eq!((svg.matches("<path").count(), svg.matches("-pass-3").count()), (8 + 6 * 3, 6));
    // The plan of the page has the same cut to offer.
    folder.run(&format!("page two.json --cut same.svg --passes 3 {page}")).with_status(0);
    let same = folder.text("same.svg");
    let lines =
        |svg: &str| svg.lines().filter(|line| line.contains("<path")).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(lines(&svg), lines(&same));
}

#[test]
fn designs_that_share_pages_are_printed_and_cut_there() {
    let folder = folder();
    // Four to a page: five of one and two of the other need two pages that differ.
    let line = "page two.json one.json --wanted 5,2 --page 120x80 --printer-margin-mm 0 --ppi 100 --print p.pdf --cut c.svg --depth each --report json";
    let report = folder.run(line).with_status(0).json();
    assert_eq!((&report["page_count"], &report["proved"]), (&json!(2), &json!(true)));
    let pages = report["pages"].as_array().unwrap().len();
    let mut expected = vec!["p.pdf".to_owned()];
    for page in 1..=pages {
        let infix = if pages == 1 { String::new() } else { format!("-page-{page}") };
        expected.extend(["kiss", "through"].map(|depth| format!("c-{depth}{infix}.svg")));
    }
    assert_eq!(report["written"], json!(expected));
    let pdf = std::fs::read(folder.path().join("p.pdf")).unwrap();
    let count = format!("/Count {pages}");
    assert!(pdf.windows(count.len()).any(|window| window == count.as_bytes()));
    let kiss: usize = expected
        .iter()
        .filter(|file| file.contains("kiss"))
        .zip(report["pages"].as_array().unwrap())
        .map(|(file, page)| {
            folder.text(file).matches("<path").count() * page["times"].as_u64().unwrap() as usize
        })
        .sum();
    let printed = |design: usize| report["designs"][design]["printed"].as_u64().unwrap() as usize;
    assert_eq!(kiss, 2 * printed(0) + printed(1), "every box of every sheet");
}

#[test]
fn files_that_would_be_lost_are_refused() {
    let folder = folder();
    let refused = |line: &str, word: &str| folder.refuses(line, word);
    refused("page two.json --print -", "give the file a name");
    refused("page two.json --cut two.json", "another name");
    refused("page two.json --print x.svg --cut x.svg", "another name");
    refused("export two.json --whole-page --table t.csv", "--cut");
    let ended = folder.run("page two.json --wanted 0 --print p.pdf").with_status(0);
    assert!(ended.err.contains("no sheet is wanted"), "{ended:?}");
}
