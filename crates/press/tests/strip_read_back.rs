//! The colour strip read back by a PDF library that did not write it: page, colours, places.
//!
//! Source: ISO 32000-1, 8.6 for colours, 14.11.2 for the page's box.

use lopdf::content::Content;
use lopdf::{Document, Object};
use stickleaf_press::strip::Strip;
use stickleaf_press::tone::MainColour;

#[test]
fn patches_are_filled_in_their_colours() {
    let colours = [[200, 30, 40], [20, 90, 160], [128, 128, 128]];
    let strip = Strip::new(&colours.map(|rgb| MainColour { rgb, share: 0.3 }));
    let document = Document::load_mem(&strip.pdf()).unwrap();
    let page = *document.get_pages().get(&1).unwrap();
    let media = document.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap().clone();
    let number = |object: &Object| f64::from(object.as_float().unwrap());
    assert!((number(&media[2]) - strip.width / 25.4 * 72.0).abs() < 1e-3);
    assert!((number(&media[3]) - strip.height / 25.4 * 72.0).abs() < 1e-3);
    let content = Content::decode(&document.get_page_content(page)).unwrap();
    let of = |operator: &str| -> Vec<Vec<f64>> {
        let named = content.operations.iter().filter(|operation| operation.operator == operator);
        named.map(|operation| operation.operands.iter().map(number).collect()).collect()
    };
    let fills = of("scn");
    let areas = of("re");
    assert_eq!((fills.len(), areas.len()), (75, 75));
    for ((fill, area), patch) in fills.iter().zip(&areas).zip(&strip.patches) {
        for (found, expected) in fill.iter().zip(patch.rgb) {
            assert_eq!((found * 255.0).round() as u8, expected);
        }
        assert!((area[0] - patch.area.x0).abs() < 1e-4 && (area[1] - patch.area.y0).abs() < 1e-4);
    }
}
