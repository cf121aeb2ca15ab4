//! Every command does what it says.

use serde_json::{Value, json};

use crate::program::{Folder, boxes, sample};

/// Three shapes on a page of 100 x 60 mm: a square of 20 mm, a disc of 20 mm across, and a speck.
const SVG: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60">
  <rect id="Box" x="10" y="10" width="20" height="20"/><circle id="Ball" cx="70" cy="30" r="10"/>
  <rect id="speck" x="50" y="50" width="0.4" height="0.4"/></svg>"#;

/// A clear picture of 200 x 100 pixels with two covered squares of 40 pixels, at (20, 20) and (120, 40).
fn two_squares() -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, 200, 100);
    encoder.set_color(png::ColorType::Rgba);
    let covered = |x: u32, y: u32| {
        [(20, 20), (120, 40)]
            .iter()
            .any(|(left, top)| (*left..left + 40).contains(&x) && (*top..top + 40).contains(&y))
    };
    let pixels = (0..100).flat_map(|y| (0..200).map(move |x| (x, y)));
    let data: Vec<u8> = pixels.flat_map(|(x, y)| [90, 30, 30, if covered(x, y) { 255 } else { 0 }]).collect();
    encoder.write_header().unwrap().write_image_data(&data).unwrap();
    bytes
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[test]
fn trace_makes_a_sticker_of_each_drawing_and_says_what_was_dropped() {
    let folder = Folder::with(&[("art/shapes.svg", SVG)]);
    let ended = folder.run("trace art/shapes.svg -o sheet.json").with_status(0);
    assert!(ended.out.contains("Box") && ended.out.contains("1 part too small and dropped"), "{ended:?}");
    let layout = folder.json("sheet.json");
    assert_eq!(layout["sheet"]["width_mm"], 100, "a picture of a whole card gives the card its size");
    assert_eq!(layout["sheet"]["height_mm"], 60);
    assert_eq!(layout["stickers"][0]["id"], "box");
    assert_eq!(layout["stickers"][0]["wanted"], json!({"at_least": 1}));
    assert_eq!(layout["stickers"][0]["turns"], json!({"within_deg": 15}));
    // The middle of the square is at (20, 20), so that the page's corner lies at (-20, -20) from it.
    assert_eq!(layout["stickers"][0]["art"], json!({"file": "art/shapes.svg", "x_mm": -20, "y_mm": -20}));
    assert_eq!(layout["pieces"], json!([]));
}

#[test]
fn trace_takes_the_true_size_of_a_picture() {
    let folder = Folder::new();
    folder.put("two.png", &two_squares());
    let ended = folder.run("trace two.png -o sheet.json --width-mm 100 --report json").with_status(0);
    let report = ended.json();
    assert_eq!(report["stickers"].as_array().unwrap().len(), 2);
    // 200 pixels on 100 mm: a square of 40 pixels is 20 mm.
    assert!((number(&report["stickers"][0]["width_mm"]) - 20.0).abs() < 0.1, "{report}");
    assert!((number(&report["stickers"][0]["area_mm2"]) - 400.0).abs() < 4.0, "{report}");
    assert_eq!(folder.json("sheet.json")["stickers"][0]["art"]["pixels_per_mm"], 2);
    let by_ppi = folder.run("trace two.png -o sheet.json --ppi 25.4 --report json").with_status(0).json();
    assert!((number(&by_ppi["stickers"][0]["width_mm"]) - 40.0).abs() < 0.1, "{by_ppi}");
}

#[test]
fn trace_writes_the_options_into_the_layout() {
    let folder = Folder::with(&[("a.svg", SVG), ("b.svg", SVG)]);
    folder.put("lay/.keep", b"");
    folder
        .run("trace a.svg b.svg -o lay/sheet.json --sheet 4x6in --turns any --wanted 3 --border-mm 2 --min-size-mm 0.2")
        .with_status(0);
    let layout = folder.json("lay/sheet.json");
    assert_eq!(layout["sheet"]["width_mm"], 101.6);
    assert_eq!(layout["rules"]["border_mm"], 2);
    let stickers = layout["stickers"].as_array().unwrap();
    let ids: Vec<&str> = stickers.iter().map(|sticker| sticker["id"].as_str().unwrap()).collect();
    assert_eq!(ids, ["box", "ball", "speck", "box-2", "ball-2", "speck-2"]);
    assert!(
        stickers
            .iter()
            .all(|sticker| sticker["turns"] == "any" && sticker["wanted"] == json!({"exactly": 3}))
    );
    assert_eq!(stickers[3]["art"]["file"], "../b.svg");
}

#[test]
fn trace_keeps_positions_and_tells_when_they_break_a_rule() {
    let folder = Folder::with(&[("shapes.svg", SVG)]);
    folder.run("trace shapes.svg -o sheet.json --keep-positions").with_status(0);
    let pieces = folder.json("sheet.json")["pieces"].clone();
    assert_eq!(pieces[0], json!({"sticker": "box", "x_mm": 20, "y_mm": 20, "turn_deg": 0, "locked": false}));
    assert_eq!(pieces[1]["x_mm"], 70);
    // With a border of 8 mm the square comes within 2 mm of the edge.
    let ended = folder.run("trace shapes.svg -o sheet.json --keep-positions --border-mm 8").with_status(1);
    assert!(ended.out.contains("Box is 1.99 mm from the sheet's edge; 4 mm is asked"), "{ended:?}");
}

#[test]
fn pack_places_what_is_wanted_and_the_check_finds_nothing() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 6}", &[]))]);
    let ended = folder.run("pack sheet.json -o packed.json --rounds 200 --seed 7").with_status(0);
    assert!(ended.out.contains("wrote packed.json") && ended.err.contains("placed"), "{ended:?}");
    assert_eq!(folder.json("packed.json")["pieces"].as_array().unwrap().len(), 6);
    assert_eq!(folder.json("packed.json")["packed"]["seed"], 7);
    let check = folder.run("check packed.json --report json").with_status(0).json();
    assert_eq!(check["broken"], 0);
}

#[test]
fn pack_reports_every_field() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"at_least\": 2}", &[]))]);
    let line = "pack sheet.json -o packed.json --aim fill --rounds 30 --seed 3 --report json";
    let report = folder.run(line).with_status(0).json();
    for field in [
        "aim",
        "seed",
        "seconds",
        "rounds",
        "placed",
        "wanted",
        "by_sticker",
        "ceiling",
        "density",
        "cover",
        "findings",
        "smallest_gap_mm",
        "height_mm",
        "scale",
    ] {
        assert!(!report[field].is_null(), "{field}: {report}");
    }
    assert_eq!((&report["aim"], &report["seed"], &report["wanted"]), (&json!("fill"), &json!(3), &json!(2)));
    assert_eq!(report["by_sticker"]["box"], report["placed"]);
    assert_eq!(report["height_mm"], 40.0);
    let placed = number(&report["placed"]);
    // Boxes of 100 mm² on 52 x 32 mm of usable area and on 60 x 40 mm in all.
    assert!((number(&report["density"]) - placed * 100.0 / (52.0 * 32.0)).abs() < 1e-9);
    assert!((number(&report["cover"]) - placed * 100.0 / 2400.0).abs() < 1e-9);
    assert!(placed <= number(&report["ceiling"]) && number(&report["smallest_gap_mm"]) > 1.99);
}

#[test]
fn pack_gives_the_same_for_the_same_seed_rounds_and_threads() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"at_least\": 1}", &[]))]);
    for threads in ["1", "3"] {
        for file in ["first.json", "second.json"] {
            let options = format!("--aim fill --rounds 12 --seed 5 --threads {threads}");
            folder.run(&format!("pack sheet.json -o {file} {options}")).with_status(0);
        }
        assert_eq!(folder.text("first.json"), folder.text("second.json"));
    }
}

#[test]
fn pack_names_what_found_no_place() {
    // Four columns and two rows of boxes are all that 52 x 32 mm can hold in rows; twenty is far beyond any layout.
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 20}", &[]))]);
    let ended = folder.run("pack sheet.json -o packed.json --rounds 20 --report json").with_status(1);
    let report = ended.json();
    let placed = report["placed"].as_u64().unwrap();
    assert_eq!(report["missing"]["box"], 20 - placed);
    assert!(ended.err.contains(&format!("no place found for {} of Box", 20 - placed)), "{ended:?}");
    folder.run("check packed.json").with_status(0);
}

/// Boxes that turn freely, as many as fit: no proof says that there can be no more, so filling never ends by itself.
fn without_end() -> String {
    boxes("{\"at_least\": 1}", &[]).replace("\"outline\"", "\"turns\": \"any\", \"outline\"")
}

#[test]
fn pack_stops_when_the_time_is_over() {
    let folder = Folder::with(&[("sheet.json", &without_end())]);
    let line = "pack sheet.json -o packed.json --aim fill --seconds 0.5 --threads 2 --report json";
    let report = folder.run(line).with_status(0).json();
    // Rounds take milliseconds; the rest is patience with a busy machine.
    assert!((0.5..20.0).contains(&number(&report["seconds"])), "{report}");
    assert!(number(&report["rounds"]) >= 1.0, "{report}");
}

#[test]
fn pack_leaves_locked_pieces_where_they_are() {
    let locked =
        boxes("{\"exactly\": 3}", &[(30.0, 20.0)]).replace("\"y_mm\": 20", "\"y_mm\": 20, \"locked\": true");
    let folder = Folder::with(&[("sheet.json", &locked)]);
    folder.run("pack sheet.json -o packed.json --rounds 100").with_status(0);
    let pieces = folder.json("packed.json")["pieces"].clone();
    let kept = json!({"sticker": "box", "x_mm": 30, "y_mm": 20, "turn_deg": 0, "locked": true});
    assert!(pieces.as_array().unwrap().contains(&kept), "{pieces}");
}

#[test]
fn pack_reads_standard_input_and_writes_standard_output() {
    let folder = Folder::new();
    let ended = folder.run_with("pack - -o - --rounds 50", &boxes("{\"exactly\": 2}", &[])).with_status(0);
    assert_eq!(ended.json()["pieces"].as_array().unwrap().len(), 2);
    let checked = folder.run_with("check -", &ended.out).with_status(0);
    assert!(checked.out.contains("all hard rules hold"));
    assert_eq!(folder.names(), [""; 0]);
}

#[cfg(unix)]
#[test]
fn pack_keeps_the_best_so_far_when_interrupted() {
    use std::io::{BufRead as _, BufReader, Read as _};
    let folder = Folder::with(&[("sheet.json", &without_end())]);
    let words = ["pack", "sheet.json", "-o", "packed.json", "--aim", "fill", "--seconds", "600"];
    let mut child = folder.program(&words).spawn().unwrap();
    let mut told = BufReader::new(child.stderr.take().unwrap());
    // The first line of progress says that the search runs.
    let mut text = String::new();
    told.read_line(&mut text).unwrap();
    let interrupt = std::process::Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert!(interrupt.unwrap().success());
    told.read_to_string(&mut text).unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0), "{text}");
    assert!(text.contains("stopped; the best layout so far is kept"), "{text}");
    assert!(!folder.json("packed.json")["pieces"].as_array().unwrap().is_empty());
    folder.run("check packed.json").with_status(0);
}

#[test]
fn pack_says_how_large_how_even_and_how_low_it_got() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 2}", &[]))]);
    let given = folder.json("sheet.json")["sheet"]["height_mm"].as_f64().unwrap();
    let packed = |aim: &str| {
        let line = format!("pack sheet.json -o {aim}.json --aim {aim} --rounds 60 --report json");
        let report = folder.run(&line).with_status(0).json();
        folder.run(&format!("check {aim}.json")).with_status(0);
        assert_eq!((&report["aim"], &report["placed"]), (&json!(aim), &json!(2)));
        report
    };
    assert!(packed("grow")["scale"].as_f64().unwrap() > 1.1);
    // Two small boxes on a card of 60 mm: much further apart than the spacing asks.
    assert!(packed("even")["smallest_gap_mm"].as_f64().unwrap() > 10.0);
    let report = packed("shorten");
    let height = report["height_mm"].as_f64().unwrap();
    assert!(height < given, "{report}");
    assert_eq!(folder.json("shorten.json")["sheet"]["height_mm"].as_f64(), Some(height));
    let ended = folder.run("pack sheet.json -o again.json --aim shorten --rounds 60").with_status(0);
    assert!(ended.out.contains(" high\n"), "{ended:?}");
}

#[test]
fn check_names_the_rule_the_pieces_the_gap_and_the_place() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 2}", &[(20.0, 20.0), (31.4, 20.0)]))]);
    let ended = folder.run("check sheet.json").with_status(1);
    assert!(ended.out.contains("broken   Box 1 is 1.4 mm from Box 2; 2 mm is asked (at 25.7, "), "{ended:?}");
    assert!(ended.out.contains("1 rule broken"), "{ended:?}");
    let report = folder.run("check sheet.json --report json").with_status(1).json();
    assert_eq!(report["broken"], 1);
    let finding = &report["findings"][0];
    assert_eq!((&finding["rule"], &finding["severity"]), (&json!("spacing"), &json!("broken")));
    assert_eq!((&finding["pieces"], &finding["names"]), (&json!([0, 1]), &json!(["Box 1", "Box 2"])));
    assert!((number(&finding["measured"]) - 1.4).abs() < 1e-9);
    assert_eq!((&finding["limit"], &finding["unit"]), (&json!(2.0), &json!("mm")));
    assert_eq!(finding["at"]["from"]["x_mm"], 25.0);
    assert!((number(&finding["at"]["to"]["x_mm"]) - 26.4).abs() < 1e-9);
}

#[test]
fn count_says_what_is_there() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 3}", &[(10.0, 10.0), (25.0, 10.0)]))]);
    let ended = folder.run("count sheet.json").with_status(0);
    assert!(ended.out.contains("smallest gap   5 mm"), "{ended:?}");
    let report = folder.run("count sheet.json --report json").with_status(0).json();
    assert_eq!((&report["placed"], &report["wanted"]), (&json!(2), &json!(3)));
    assert_eq!(report["by_sticker"], json!({"box": 2}));
    assert_eq!(report["missing"], json!({"box": 1}));
    assert_eq!(report["smallest_gap_mm"], 5.0);
    assert!((number(&report["density"]) - 200.0 / (52.0 * 32.0)).abs() < 1e-9);
    assert!(report["aim"].is_null() && report["seed"].is_null());
}

#[test]
fn room_names_dots_and_stickers_that_would_fit() {
    // The boxes end at 15 mm: between them and the margin of 4 mm there are 39 mm of the 60, and 32 of height.
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 3}", &[(10.0, 10.0), (10.0, 30.0)]))]);
    let ended = folder.run("room sheet.json --count 2").with_status(0);
    assert!(ended.out.contains("32.00 mm") || ended.out.contains("31.99 mm"), "{ended:?}");
    assert!(ended.out.lines().any(|line| line.starts_with("Box") && line.contains("full")), "{ended:?}");
    let report = folder.run("room sheet.json --count 2 --report json").with_status(0).json();
    assert_eq!((&report["least_mm"], &report["complete"]), (&json!(8.0), &json!(true)));
    let dots = report["dots"].as_array().unwrap();
    assert!(dots.len() <= 2 && (number(&dots[0]["diameter_mm"]) - 32.0).abs() < 0.002, "{report}");
    assert_eq!(number(&dots[0]["y_mm"]), 20.0);
    let fit = &report["stickers"][0];
    assert_eq!((&fit["sticker"], &fit["name"], &fit["scale"]), (&json!("box"), &json!("Box"), &json!(1.0)));
    assert_eq!((&fit["turn_deg"], &fit["mirrored"]), (&json!(0.0), &json!(false)));
    // Put there, it breaks no rule.
    let place = (number(&fit["x_mm"]), number(&fit["y_mm"]));
    folder.put("more.json", boxes("{\"exactly\": 3}", &[(10.0, 10.0), (10.0, 30.0), place]).as_bytes());
    assert_eq!(folder.run("check more.json --report json").with_status(0).json()["broken"], 0);
}

#[test]
fn room_says_what_would_fit_smaller_or_not_at_all() {
    let tight = boxes("{\"exactly\": 1}", &[]).replace("\"width_mm\": 60", "\"width_mm\": 17");
    let folder = Folder::with(&[("sheet.json", &tight)]);
    let ended = folder.run("room sheet.json").with_status(0);
    assert!(ended.out.contains("9.00 mm") || ended.out.contains("8.99 mm"), "{ended:?}");
    let report = folder.run("room sheet.json --report json").with_status(0).json();
    let scale = number(&report["stickers"][0]["scale"]);
    assert!(scale <= 0.9 && scale > 0.88, "9 mm are left for a box of 10: {report}");
    folder.put("sheet.json", tight.replace("\"width_mm\": 17", "\"width_mm\": 12").as_bytes());
    let ended = folder.run("room sheet.json").with_status(0);
    assert!(
        ended.out.contains("no dot of 8 mm or more fits") && ended.out.contains("even at half"),
        "{ended:?}"
    );
}

#[test]
fn rough_adds_a_plain_shape_of_the_size_asked_for() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 0}", &[]))]);
    let line = "rough sheet.json --shape heart --width-mm 20 --height-mm 18 --wanted 2 -o plan.json";
    let ended = folder.run(line).with_status(0);
    assert!(ended.out.contains("added Heart, 20 x 18 mm\nwrote plan.json"), "{ended:?}");
    let heart = folder.json("plan.json")["stickers"][1].clone();
    assert_eq!(
        (&heart["id"], &heart["name"], &heart["rough"]),
        (&json!("heart"), &json!("Heart"), &json!(true))
    );
    assert_eq!((&heart["wanted"], &heart["turns"]), (&json!({"exactly": 2}), &json!({"within_deg": 15})));
    let packed = folder.run("pack plan.json -o packed.json --rounds 5 --report json").with_status(0).json();
    assert_eq!(packed["by_sticker"]["heart"], 2);
    // A second one gets an id of its own, and the height that suits its width.
    let line = "rough plan.json --shape heart --width-mm 40 --name Heart -o more.json --report json";
    let report = folder.run(line).with_status(0).json();
    assert_eq!(report["id"], "heart-2");
    assert_eq!((number(&report["width_mm"]), number(&report["height_mm"])), (40.0, 36.0));
    assert!(
        folder.json("sheet.json")["stickers"][0].get("rough").is_none(),
        "finished art says nothing of it"
    );
}

#[test]
fn export_writes_files_that_agree_and_open_again() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 2}", &[(10.0, 10.0), (25.0, 30.0)]))]);
    let line = "export sheet.json --placement p.json --table t.csv --cut c.svg --report json";
    let report = folder.run(line).with_status(0).json();
    assert_eq!((&report["placement"], &report["broken"]), (&json!("p.json"), &json!(0)));
    let placement = folder.json("p.json");
    assert_eq!(placement["format"], "stickleaf-placement");
    let piece = &placement["pieces"][1];
    assert_eq!((&piece["copy"], &piece["centre_mm"]), (&json!(2), &json!({"x": 25, "y": 30})));
    // 25 mm at 600 pixels to the inch: 25 / 25.4 * 600 = 590.551 pixels.
    assert_eq!(piece["centre_px"]["x"], 590.551);
    assert_eq!(piece["bounds_mm"], json!({"x": 20, "y": 25, "width": 10, "height": 10}));
    assert_eq!(piece["cut_line"], "M20 25L30 25L30 35L20 35Z");
    assert_eq!(folder.text("t.csv").lines().nth(2).unwrap().split(',').nth(3), Some("25"));
    // The blade is set down in the middle of a long side and goes half a millimetre past where it began.
    assert!(folder.text("c.svg").contains("d=\"M25 25L30 25L30 35L20 35L20 25L25 25L25.5 25\""));
    // The placement opens as the layout that it came from.
    folder.run("pack p.json -o again.json --rounds 1").with_status(0);
    let again = folder.json("again.json");
    assert_eq!(again["format"], "stickleaf-layout");
    assert!(again.get("score").is_none() && again["pieces"][1].get("cut_line").is_none(), "{again}");
    assert_eq!(folder.run("count p.json").out, folder.run("count sheet.json").out);
}

#[test]
fn export_writes_a_layout_that_breaks_rules_and_says_so() {
    let folder = Folder::with(&[("sheet.json", &boxes("{\"exactly\": 2}", &[(10.0, 10.0), (12.0, 10.0)]))]);
    let ended = folder.run("export sheet.json --cut c.svg").with_status(1);
    assert!(ended.err.contains("1 rule broken"), "{ended:?}");
    assert_eq!(folder.names(), ["c.svg", "sheet.json"]);
}

#[test]
fn schema_prints_both_or_one() {
    let folder = Folder::new();
    let both = folder.run("schema").with_status(0).json();
    assert_eq!(both["layout"], folder.run("schema layout").with_status(0).json());
    assert_eq!(both["placement"], folder.run("schema placement --report json").with_status(0).json());
    assert_eq!(both["layout"]["$schema"], "https://json-schema.org/draft/2020-12/schema");
}

#[test]
fn help_names_every_command() {
    let help = Folder::new().run("--help").with_status(0).out;
    for command in ["trace", "pack", "check", "count", "room", "rough", "card", "export", "schema"] {
        assert!(help.contains(&format!("\n  {command} ")), "{help}");
    }
}

#[test]
fn the_sample_drawings_go_all_the_way() {
    let folder = Folder::new();
    let art = sample("rooftop-night/rooftop-night.svg");
    let words = ["trace", art.to_str().unwrap(), "-o", "sheet.json", "--wanted", "0+"];
    assert!(folder.program(&words).output().unwrap().status.success());
    assert_eq!(folder.json("sheet.json")["stickers"].as_array().unwrap().len(), 44);
    let packed = folder
        .run("pack sheet.json -o packed.json --aim fill --rounds 3 --report json")
        .with_status(0)
        .json();
    assert!(number(&packed["placed"]) > 10.0, "{packed}");
    folder.run("export packed.json --placement p.json").with_status(0);
    assert_eq!(folder.run("check p.json --report json").with_status(0).json()["broken"], 0);
}
