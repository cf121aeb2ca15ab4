//! The print at 600 pixels to the inch as two readers of PDF see it, against the composed sheet.

use stickleaf_press::cut::{CutOptions, plan};
use stickleaf_press::print::{DesignToPrint, PrintOptions, Profile, write};
use stickleaf_press::{Progress, SheetOnPage};
use stickleaf_sheet::{Correction, Layout};

use crate::pictures::{Grey, difference};
use crate::readers::{boxes, complaints, rasterised};
use crate::sheets::{Drawn, composed_png, sample};

const RESOLUTION_PPI: f64 = 600.0;

/// ISO 216: A4.
const PAGE: (f64, f64) = (210.0, 297.0);

/// The most that a print and the composed sheet may differ by, in levels of 255, in the mean and in the mean of any square
/// of 5 x 5 pixels. Upright both readers give every pixel as it is. Turned, MuPDF does so too; poppler takes for each pixel
/// the nearest one and is a row off here and there, 0.04 mm.
const UPRIGHT: (f64, f64) = (0.0, 0.0);
const TURNED: (f64, f64) = (1.0, 24.0);

/// Where the turned sheet's left edge lies: its right one, where its own first row is, is 4000 pixels from the page's left.
const TURNED_X: f64 = 4000.0 / 600.0 * 25.4 - 148.0;

/// Where the sheets lie: whole pixels at 600 to the inch, so that no reader has to look between pixels. One is turned.
fn sheets() -> Vec<SheetOnPage> {
    vec![
        SheetOnPage { x: 12.7, y: 12.7, ..SheetOnPage::default() },
        SheetOnPage { x: TURNED_X, y: 177.8, is_turned: true, ..SheetOnPage::default() },
    ]
}

fn options(profile: Profile) -> PrintOptions {
    PrintOptions {
        profile,
        page_width: PAGE.0,
        page_height: PAGE.1,
        printer_margin: 5.0,
        bleed: 0.0,
        ground: [255; 3],
    }
}

fn printed(layout: &Layout, drawn: &mut Drawn, profile: Profile) -> Vec<u8> {
    let mut yes = |_| true;
    let lines = plan(layout, &CutOptions::default());
    let design = DesignToPrint {
        layout,
        plan: &lines,
        pictures: drawn,
        resolution_ppi: RESOLUTION_PPI,
        correction: Correction::NONE,
    };
    let progress = &mut Progress::new(&mut yes);
    write(&mut [design], &[sheets()], &options(profile), progress).expect("a print").0
}

#[test]
fn two_readers_see_the_composed_sheet() {
    let (mut layout, mut drawn) = sample("title-and-corners.json", RESOLUTION_PPI);
    // Grey pictures, so that no reader's rule for making grey of colours is in the way.
    for pixels in drawn.0.values_mut() {
        let pixels = std::sync::Arc::make_mut(pixels);
        for pixel in pixels.rgba.chunks_exact_mut(4) {
            pixel[0] = pixel[1];
            pixel[2] = pixel[1];
        }
    }
    layout.sheet.corner_radius = 0.0;
    let expected = Grey::read(&composed_png(&layout, &mut drawn, RESOLUTION_PPI));
    let pdf = printed(&layout, &mut drawn, Profile::Home);
    for (reader, page) in rasterised(&pdf, RESOLUTION_PPI as u32) {
        let (width, height) = (expected.width_px, expected.height_px);
        let upright = page.part(300, 300, width, height);
        let turned = page.part(4000 - height, 4200, height, width).turned_back();
        for (way, found, most) in [("upright", upright, UPRIGHT), ("turned", turned, TURNED)] {
            let (mean, square) = difference(&found, &expected);
            println!("{reader}, {way}: {mean:.3} levels in the mean, {square:.1} in the worst square");
            assert!(mean <= most.0, "{reader}, {way}: {mean} levels in the mean");
            assert!(square <= most.1, "{reader}, {way}: {square} levels in the worst square");
        }
    }
}

#[test]
fn the_print_has_no_faults_and_the_boxes_of_the_page_and_the_cards() {
    let (layout, mut drawn) = sample("plain.json", 100.0);
    for profile in [Profile::Shop, Profile::Home] {
        let pdf = printed(&layout, &mut drawn, profile);
        assert_eq!(complaints(&pdf), "", "{profile:?}");
        let found = boxes(&pdf);
        let points = |mm: f64| mm / 25.4 * 72.0;
        // The cards: 105 x 148 mm upright at the left, the other turned below it; from the page's foot up.
        let (right, foot): (f64, f64) = (TURNED_X + 148.0, 297.0 - 177.8 - 105.0);
        let cards = [points(12.7), points(foot), points(right), points(297.0 - 12.7)];
        for (name, expected) in
            [("MediaBox", [0.0, 0.0, points(210.0), points(297.0)]), ("TrimBox", cards), ("BleedBox", cards)]
        {
            let (_, numbers) = found.iter().find(|(found, _)| found == name).expect(name);
            // pdfinfo prints hundredths of a point.
            let is_same =
                numbers.iter().zip(expected).all(|(found, expected)| (found - expected).abs() < 0.006);
            assert!(is_same, "{name}: {numbers:?} is not {expected:?}");
        }
    }
}
