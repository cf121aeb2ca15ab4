//! Where the cut lines lie: in the print, in the cut, and against what is printed, as other programs see them.

use kurbo::Size;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use stickleaf_press::cut::{CutOptions, Depths, DesignToCut, page_cut, plan, write_page};
use stickleaf_press::print::{DesignToPrint, PrintOptions, Profile, write};
use stickleaf_press::{Progress, SheetOnPage};
use stickleaf_sheet::{Correction, Layout, Rules};

use crate::pictures::Grey;
use crate::readers::rasterised;
use crate::sheets::{Drawn, black_stickers};

/// A hundred pixels to the millimetre.
const RESOLUTION_PPI: u32 = 2540;
const PER_MM: f64 = 100.0;

/// How far print and cut may be apart: 0.02 mm.
const REACH: i64 = 2;

/// Half covered by a line, in levels of grey: the print's kiss lines are of a light colour.
const HALF_LINE: u8 = 200;

/// Where the card lies on its page, in millimetres: whole pixels.
const CARD: (f64, f64) = (7.0, 9.0);

fn printed(layout: &Layout, drawn: &mut Drawn, profile: Profile, resolution_ppi: f64) -> Vec<u8> {
    let options = PrintOptions {
        profile,
        page_width: 64.0,
        page_height: 56.0,
        printer_margin: 3.0,
        bleed: 0.0,
        ground: [255; 3],
    };
    let lines = plan(layout, &CutOptions::default());
    let mut yes = |_| true;
    let correction = Correction::NONE;
    let design = DesignToPrint { layout, plan: &lines, pictures: drawn, resolution_ppi, correction };
    let page = vec![SheetOnPage { x: CARD.0, y: CARD.1, ..SheetOnPage::default() }];
    write(&mut [design], &[page], &options, &mut Progress::new(&mut yes)).expect("a print").0
}

/// An SVG of the card as resvg sees it at a hundred pixels to the millimetre, a rim of a millimetre round it.
fn drawn_by_resvg(svg: &str) -> Grey {
    seen_by_resvg(svg, 5200, 4000, PER_MM)
}

/// An SVG as resvg sees it at a hundred pixels to the millimetre, in a picture of this size, so many pixels from its corner.
fn seen_by_resvg(svg: &str, width_px: u32, height_px: u32, from_corner_px: f64) -> Grey {
    let tree = Tree::from_str(svg, &Options::default()).expect("an SVG");
    // CSS Values and Units: 96 user units to the inch.
    let scale = (PER_MM / (96.0 / 25.4)) as f32;
    let mut pixmap = Pixmap::new(width_px, height_px).expect("a picture");
    let way =
        Transform::from_scale(scale, scale).post_translate(from_corner_px as f32, from_corner_px as f32);
    resvg::render(&tree, way, &mut pixmap.as_mut());
    Grey::read(&pixmap.encode_png().expect("a PNG"))
}

/// The card and a rim of a millimetre round it, of a page.
fn card_of(page: &Grey) -> Grey {
    page.part(((CARD.0 - 1.0) * PER_MM) as usize, ((CARD.1 - 1.0) * PER_MM) as usize, 5200, 4000)
}

/// Nothing is printed that is not cut, nor cut that is not printed, and the middles lie on each other.
fn assert_same_lines(print: &Grey, cut: &Grey, reader: &str) {
    assert_eq!(print.dark_without_partner(cut, REACH), 0, "{reader}: printed, not cut");
    assert_eq!(cut.dark_without_partner(print, REACH), 0, "{reader}: cut, not printed");
    let (a, b) = (print.middle(), cut.middle());
    let apart_mm = libm::hypot(a.0 - b.0, a.1 - b.1) / PER_MM;
    println!("{reader}: middles of all lines {apart_mm:.5} mm apart");
    assert!(apart_mm < 0.02, "{reader}: {apart_mm} mm");
}

#[test]
fn the_cut_lies_where_the_print_says() {
    let (mut layout, mut drawn) = black_stickers(300.0);
    // Lines alone: without art there is nothing on the white ground but what is cut.
    layout.stickers.iter_mut().for_each(|sticker| sticker.art = None);
    let pdf = printed(&layout, &mut drawn, Profile::Shop, 300.0);
    let lines = plan(&layout, &CutOptions::default());
    let cut = drawn_by_resvg(&stickleaf_press::cut::write(&layout, &lines, Depths::All)).parted(HALF_LINE);
    let (_, _, ink) = cut.middle();
    // Each line is a tenth of a millimetre wide: ten pixels.
    assert!(ink > 10.0 * PER_MM * 250.0, "all lines are there: {ink}");
    for (reader, page) in rasterised(&pdf, RESOLUTION_PPI) {
        let print = card_of(&page).parted(HALF_LINE);
        assert_same_lines(&print, &cut, reader);
    }
}

#[test]
fn the_cut_of_a_page_lies_where_its_print_says() {
    let (mut layout, mut drawn) = black_stickers(300.0);
    layout.stickers.iter_mut().for_each(|sticker| sticker.art = None);
    // One upright, one on its side below it.
    let sheets = vec![
        SheetOnPage { x: 7.0, y: 4.0, ..SheetOnPage::default() },
        SheetOnPage { x: 9.0, y: 48.0, is_turned: true, ..SheetOnPage::default() },
    ];
    let page = Size::new(64.0, 104.0);
    let options = PrintOptions {
        profile: Profile::Shop,
        page_width: page.width,
        page_height: page.height,
        printer_margin: 3.0,
        bleed: 0.0,
        ground: [255; 3],
    };
    let lines = plan(&layout, &CutOptions::default());
    let whole = page_cut(&[DesignToCut { name: "Black", sheet: &layout.sheet, plan: &lines }], &sheets);
    let svg = write_page("Black", page, &whole, Depths::All);
    let correction = Correction::NONE;
    let design = DesignToPrint {
        layout: &layout,
        plan: &lines,
        pictures: &mut drawn,
        resolution_ppi: 300.0,
        correction,
    };
    let mut yes = |_| true;
    let (pdf, printed) =
        write(&mut [design], &[sheets], &options, &mut Progress::new(&mut yes)).expect("a print");
    assert!(!printed.has_ruler, "nothing but lines is on the page");
    let (width, height) = ((page.width * PER_MM) as u32, (page.height * PER_MM) as u32);
    let cut = seen_by_resvg(&svg, width, height, 0.0).parted(HALF_LINE);
    for (reader, page) in rasterised(&pdf, RESOLUTION_PPI) {
        let print = page.part(0, 0, width as usize, height as usize).parted(HALF_LINE);
        assert_same_lines(&print, &cut, reader);
    }
}

#[test]
fn stickers_are_printed_where_they_are_cut() {
    let (mut layout, mut drawn) = black_stickers(600.0);
    layout.rules = Rules { spacing: 0.5, ..layout.rules };
    let pdf = printed(&layout, &mut drawn, Profile::Home, 600.0);
    let pages = rasterised(&pdf, RESOLUTION_PPI);
    for i in 0..layout.pieces.len() {
        let mut alone = layout.clone();
        alone.pieces = vec![layout.pieces[i].clone()];
        let lines = plan(&alone, &CutOptions { overrun: 0.0, ..CutOptions::default() });
        let svg = stickleaf_press::cut::write(&alone, &lines, Depths::Kiss);
        let filled =
            drawn_by_resvg(&svg.replace("fill=\"none\" stroke=\"#000\"", "fill=\"#000\" stroke=\"none\""));
        for (reader, page) in &pages {
            // What is printed within half a millimetre of the cut line is this sticker and no other.
            let mut print = card_of(page);
            let near = grown(&filled, 50);
            print.levels.iter_mut().zip(near).filter(|(_, near)| !near).for_each(|(level, _)| *level = 255);
            let (a, b) = (print.middle(), filled.middle());
            let apart_mm = libm::hypot(a.0 - b.0, a.1 - b.1) / PER_MM;
            let grown_mm2 = (a.2 - b.2) / (PER_MM * PER_MM);
            println!(
                "{reader}, {}: {apart_mm:.5} mm apart, {grown_mm2:.4} mm2 larger",
                alone.pieces[0].sticker
            );
            assert!(apart_mm < 0.02, "{reader}, {}: {apart_mm} mm", alone.pieces[0].sticker);
        }
    }
}

/// Which pixels lie in a square of this reach about a dark one.
fn grown(picture: &Grey, reach: usize) -> Vec<bool> {
    let (width, height) = (picture.width_px, picture.height_px);
    let mut across = vec![false; width * height];
    for (i, _) in picture.levels.iter().enumerate().filter(|&(_, &level)| level < 128) {
        let x = i % width;
        across[i - reach.min(x)..=i + reach.min(width - 1 - x)].fill(true);
    }
    let mut all = across.clone();
    for (i, _) in across.iter().enumerate().filter(|&(_, &is_near)| is_near) {
        let y = i / width;
        for row in y.saturating_sub(reach)..=(y + reach).min(height - 1) {
            all[row * width + i % width] = true;
        }
    }
    all
}
