//! The print read back by a PDF library that did not write it: boxes, layers, colours, pictures.
//!
//! Sources: ISO 32000-1 for boxes, optional content and separations; ISO 19593-1:2018 for the metadata of the layers, keys
//! as in the Ghent Workgroup's public description; ISO 216 for the page.

use lopdf::{Dictionary, Document, Object};
use stickleaf_outline::{Placement, path};
use stickleaf_press::cut::{self, CutOptions, CutPlan};
use stickleaf_press::print::{DesignToPrint, PrintOptions, Profile, write};
use stickleaf_press::{NoPicture, Picture, Pictures, Progress, SheetOnPage};
use stickleaf_sheet::{Correction, Layout, Piece, Sheet, Sticker};

struct NoArt;

impl Pictures for NoArt {
    fn picture(&mut self, _: &str) -> Result<Picture, NoPicture> {
        Err(NoPicture::Missing("is not there".into()))
    }
}

fn layout() -> Layout {
    Layout {
        name: "Tide pool".to_owned(),
        sheet: Sheet { width: 100.0, height: 140.0, corner_radius: 4.0, resolution_ppi: 150.0 },
        stickers: vec![Sticker::new("a", "A", path::parse("M-8 -5H8V5H-8Z").unwrap())],
        pieces: vec![Piece::new("a".into(), Placement::turned(40.0, 60.0, 30.0))],
        ..Layout::default()
    }
}

fn options(profile: Profile) -> PrintOptions {
    PrintOptions {
        profile,
        page_width: 210.0,
        page_height: 297.0,
        printer_margin: 5.0,
        bleed: 2.0,
        ground: [255; 3],
    }
}

/// An upright sheet and one on its side.
fn two_sheets() -> Vec<SheetOnPage> {
    vec![
        SheetOnPage { x: 20.0, y: 15.0, ..SheetOnPage::default() },
        SheetOnPage { x: 20.0, y: 160.0, is_turned: true, ..SheetOnPage::default() },
    ]
}

fn design<'a>(layout: &'a Layout, plan: &'a CutPlan, pictures: &'a mut NoArt) -> DesignToPrint<'a> {
    DesignToPrint { layout, plan, pictures, resolution_ppi: 150.0, correction: Correction::NONE }
}

fn printed(profile: Profile) -> (Vec<u8>, Document) {
    let layout = layout();
    let plan = cut::plan(&layout, &CutOptions::default());
    let mut yes = |_| true;
    let (bytes, printed) = write(
        &mut [design(&layout, &plan, &mut NoArt)],
        &[two_sheets()],
        &options(profile),
        &mut Progress::new(&mut yes),
    )
    .unwrap();
    assert_eq!((printed.sheets, printed.has_ruler), (2, true));
    let document = Document::load_mem(&bytes).unwrap();
    (bytes, document)
}

fn page(document: &Document) -> &Dictionary {
    let pages = document.get_pages();
    assert_eq!(pages.len(), 1);
    document.get_dictionary(pages[&1]).unwrap()
}

/// A box in millimetres from the page's top left corner: left, top, right, bottom.
fn box_mm(page: &Dictionary, name: &[u8]) -> [f64; 4] {
    let numbers: Vec<f64> = page
        .get(name)
        .unwrap()
        .as_array()
        .unwrap()
        .iter()
        .map(|n| f64::from(n.as_float().unwrap()))
        .collect();
    let mm = |units: f64| units * 25.4 / 72.0;
    [mm(numbers[0]), 297.0 - mm(numbers[3]), mm(numbers[2]), 297.0 - mm(numbers[1])]
}

fn assert_box(found: [f64; 4], expected: [f64; 4]) {
    for (found, expected) in found.into_iter().zip(expected) {
        // A number in the file has seven digits: a ten thousandth of a millimetre on this page.
        assert!((found - expected).abs() < 2e-4, "{found} is not {expected}");
    }
}

#[test]
fn the_boxes_are_those_of_the_page_and_the_cards() {
    for profile in [Profile::Shop, Profile::Home] {
        let (_, document) = printed(profile);
        let page = page(&document);
        assert_box(box_mm(page, b"MediaBox"), [0.0, 0.0, 210.0, 297.0]);
        assert_box(box_mm(page, b"TrimBox"), [20.0, 15.0, 160.0, 260.0]);
        assert_box(box_mm(page, b"BleedBox"), [18.0, 13.0, 162.0, 262.0]);
    }
}

#[test]
fn the_layers_say_which_step_they_are() {
    let (_, document) = printed(Profile::Shop);
    let properties = document.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap();
    let groups = properties.get(b"OCGs").unwrap().as_array().unwrap();
    let steps: Vec<(String, String)> = groups
        .iter()
        .map(|group| {
            let group = document.get_dictionary(group.as_reference().unwrap()).unwrap();
            assert_eq!(group.get(b"Type").unwrap().as_name().unwrap(), b"OCG");
            let metadata = group.get(b"GTS_Metadata").unwrap().as_dict().unwrap();
            let word = |key: &[u8]| {
                String::from_utf8(metadata.get(key).unwrap().as_name().unwrap().to_vec()).unwrap()
            };
            (word(b"GTS_ProcStepsGroup"), word(b"GTS_ProcStepsType"))
        })
        .collect();
    let expected = [("Structural", "PartialCutting"), ("Structural", "Cutting")];
    assert_eq!(steps, expected.map(|(group, step)| (group.to_owned(), step.to_owned())));
}

#[test]
fn the_lines_are_vectors_in_overprinting_spot_colours() {
    let (_, document) = printed(Profile::Shop);
    let mut colours = Vec::new();
    for object in document.objects.values() {
        let Ok(stream) = object.as_stream() else { continue };
        if stream.dict.get(b"Subtype").and_then(Object::as_name).ok() != Some(b"Form") {
            continue;
        }
        let resources = stream.dict.get(b"Resources").unwrap().as_dict().unwrap();
        assert!(resources.get(b"XObject").is_err(), "no pictures within a layer");
        let state = resources.get(b"ExtGState").unwrap().as_dict().unwrap().get(b"Overprint").unwrap();
        let state = document.get_dictionary(state.as_reference().unwrap()).unwrap();
        assert!(state.get(b"OP").unwrap().as_bool().unwrap() && state.get(b"op").unwrap().as_bool().unwrap());
        let spaces = resources.get(b"ColorSpace").unwrap().as_dict().unwrap();
        for (_, space) in spaces.iter() {
            let space = space.as_array().unwrap();
            assert_eq!(space[0].as_name().unwrap(), b"Separation");
            colours.push(String::from_utf8(space[1].as_name().unwrap().to_vec()).unwrap());
        }
        let content = lopdf::content::Content::decode(&stream.decompressed_content().unwrap()).unwrap();
        let only_lines = ["gs", "CS", "SCN", "w", "m", "l", "c", "h", "S"];
        assert!(content.operations.iter().all(|op| only_lines.contains(&&*op.operator)), "vectors only");
    }
    colours.sort();
    assert_eq!(colours, ["Kiss line", "Through line"]);
}

#[test]
fn the_sheet_is_embedded_once_and_home_prints_no_lines() {
    for profile in [Profile::Shop, Profile::Home] {
        let (_, document) = printed(profile);
        let is = |object: &Object, kind: &[u8]| {
            let stream = object.as_stream().ok();
            stream.is_some_and(|s| s.dict.get(b"Subtype").and_then(Object::as_name).ok() == Some(kind))
        };
        let images: Vec<&Object> = document.objects.values().filter(|object| is(object, b"Image")).collect();
        assert_eq!(images.len(), 2, "colours and transparency");
        for image in images {
            let dict = &image.as_stream().unwrap().dict;
            // 104 x 144 mm at 150 to the inch: 591 x 827 for the card, 12 for the bleed on each side.
            assert_eq!(dict.get(b"Width").unwrap().as_i64().unwrap(), 591 + 24);
            assert_eq!(dict.get(b"Height").unwrap().as_i64().unwrap(), 827 + 24);
        }
        let forms = document.objects.values().filter(|object| is(object, b"Form")).count();
        assert_eq!(forms, if profile == Profile::Shop { 2 } else { 0 });
        assert_eq!(document.catalog().unwrap().has(b"OCProperties"), profile == Profile::Shop);
    }
}

#[test]
fn the_same_layout_gives_the_same_bytes() {
    assert_eq!(printed(Profile::Shop).0, printed(Profile::Shop).0);
}

#[test]
fn sheets_past_the_page_are_refused() {
    let layout = layout();
    let plan = cut::plan(&layout, &CutOptions::default());
    let mut sheets = two_sheets();
    sheets[0].x = 120.0;
    let mut composed = false;
    let mut tell = |_| {
        composed = true;
        true
    };
    let mut art = NoArt;
    let designs = &mut [design(&layout, &plan, &mut art)];
    let progress = &mut Progress::new(&mut tell);
    let refused = write(designs, &[sheets], &options(Profile::Home), progress).unwrap_err();
    assert!(refused.to_string().contains("does not fit on the page"), "{refused}");
    assert!(!composed, "before anything was made");
}

#[test]
fn designs_share_pages_and_are_embedded_once_each() {
    let small = layout();
    let mut wide = layout();
    (wide.name, wide.sheet.width, wide.sheet.height) = ("Wide".to_owned(), 90.0, 60.0);
    let plans = [&small, &wide].map(|layout| cut::plan(layout, &CutOptions::default()));
    let at = |design: usize, x: f64, y: f64| SheetOnPage { design, x, y, is_turned: false };
    let pages = [vec![at(0, 5.0, 5.0), at(1, 110.0, 5.0), at(0, 5.0, 150.0)], vec![at(1, 5.0, 5.0)]];
    let (mut art, mut more_art) = (NoArt, NoArt);
    let designs = &mut [design(&small, &plans[0], &mut art), design(&wide, &plans[1], &mut more_art)];
    let mut shares = Vec::new();
    let mut tell = |share| {
        shares.push(share);
        true
    };
    let progress = &mut Progress::new(&mut tell);
    let (bytes, printed) = write(designs, &pages, &options(Profile::Shop), progress).unwrap();
    assert_eq!(printed.sheets, 4);
    assert!(shares.is_sorted() && shares.last() == Some(&1.0), "{shares:?}");
    let document = Document::load_mem(&bytes).unwrap();
    let pages = document.get_pages();
    assert_eq!(pages.len(), 2);
    let [first, second] = [1, 2].map(|number| document.get_dictionary(pages[&number]).unwrap());
    assert_box(box_mm(first, b"TrimBox"), [5.0, 5.0, 200.0, 290.0]);
    assert_box(box_mm(second, b"TrimBox"), [5.0, 5.0, 95.0, 65.0]);
    let subtypes: Vec<&[u8]> = document
        .objects
        .values()
        .filter_map(|object| object.as_stream().ok()?.dict.get(b"Subtype").and_then(Object::as_name).ok())
        .collect();
    let count = |kind: &[u8]| subtypes.iter().filter(|subtype| **subtype == kind).count();
    assert_eq!((count(b"Image"), count(b"Form")), (4, 4), "two pictures and two forms for each design");
    let objects = |page: &Dictionary| {
        let resources = page.get(b"Resources").unwrap().as_dict().unwrap();
        let names = resources.get(b"XObject").unwrap().as_dict().unwrap().iter();
        names.map(|(name, _)| String::from_utf8(name.clone()).unwrap()).collect::<Vec<_>>()
    };
    assert_eq!(objects(first).len(), 6);
    assert_eq!(objects(second), ["Sheet2", "Kiss2", "Through2"]);
}
