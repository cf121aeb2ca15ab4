//! Whatever is made of a layout is the same to the byte when its stickers have their own parts of a picture.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::Point;
use proptest::prelude::*;
use stickleaf_outline::{Placement, Turn, shapes};
use stickleaf_press::compose::{ComposeOptions, write_sheet};
use stickleaf_press::{NoPicture, Parted, Picture, Pictures, Progress, ink_coverage, parted, read_png};
use stickleaf_sheet::{Art, Background, Correction, Layout, Piece, Sheet, Sticker};

/// Pictures by name, decoded each time.
struct Files(BTreeMap<String, Vec<u8>>);

impl Pictures for Files {
    fn picture(&mut self, file: &str) -> Result<Picture, NoPicture> {
        let bytes = self.0.get(file).ok_or_else(|| NoPicture::Missing("is not there".into()))?;
        read_png(bytes).map(|pixels| Picture::Pixels(Arc::new(pixels))).map_err(NoPicture::Damaged)
    }
}

const WIDTH: u32 = 640;
const HEIGHT: u32 = 480;

/// A picture all over which something is drawn, as see-through as it comes: the hardest to cut up unnoticed.
fn busy() -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, WIDTH, HEIGHT);
    encoder.set_color(png::ColorType::Rgba);
    let value = |i: u32| {
        let pixel = i / 4;
        let (x, y) = (pixel % WIDTH, pixel / WIDTH);
        // Patches of noise, so that the file packs at all.
        ((x / 3).wrapping_mul(2_654_435_761) ^ (y / 3 + 77 * (i % 4)).wrapping_mul(40_503_001)).to_be_bytes()
            [0]
    };
    let data: Vec<u8> = (0..WIDTH * HEIGHT * 4).map(value).collect();
    encoder.write_header().unwrap().write_image_data(&data).unwrap();
    bytes
}

/// Stickers of one picture that lie at these places of it, in its pixels, each with a piece on the sheet.
fn layout(per_mm: f64, places: &[(f64, f64, f64)], turns: &[(f64, bool)]) -> Layout {
    let mut layout = Layout::default();
    layout.sheet = Sheet { width: 60.0, height: 50.0, corner_radius: 3.0, ..layout.sheet };
    layout.rules.border = 0.7;
    for (index, (&(x, y, size), &(turn, mirrored))) in places.iter().zip(turns).enumerate() {
        let mut sticker = Sticker::new(format!("s{index}"), "S", shapes::square(size / per_mm));
        let corner = Point::new(-x / per_mm, -y / per_mm);
        sticker.art = Some(Art::new("pool/sea.png", corner, Some(per_mm)));
        let at = Point::new(10.3 + 13.0 * index as f64, 20.7);
        let placement = Placement { at, turn: Turn::degrees(turn), mirrored };
        layout.pieces.push(Piece::new(sticker.id.clone(), placement));
        layout.stickers.push(sticker);
    }
    layout
}

fn cut_up(layout: &Layout, files: &BTreeMap<String, Vec<u8>>) -> Parted {
    let mut go_on = |_| true;
    parted(layout, |file| files.get(file).cloned(), &mut Progress::new(&mut go_on)).unwrap()
}

fn composed(layout: &Layout, files: &BTreeMap<String, Vec<u8>>, resolution_ppi: f64) -> Vec<u8> {
    let options =
        ComposeOptions { resolution_ppi, bleed: 1.0, ground: [250, 240, 230], correction: Correction::NONE };
    let mut bytes = Vec::new();
    let mut go_on = |_| true;
    let mut pictures = Files(files.clone());
    write_sheet(layout, &mut pictures, &options, &mut Progress::new(&mut go_on), &mut bytes).unwrap();
    bytes
}

/// The files that are there afterwards.
fn files_with(parted: &Parted, files: &BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let mut all = files.clone();
    for left in &parted.left {
        all.remove(left);
    }
    all.extend(parted.parts.clone());
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn the_sheet_is_the_same_to_the_byte(
        per_mm in 8.0..40.0f64,
        places in prop::collection::vec((110.0..530.0f64, 110.0..370.0f64, 60.0..120.0f64), 2..4),
        turns in prop::collection::vec((prop_oneof![Just(0.0), Just(90.0), 0.0..360.0f64], any::<bool>()), 4),
        resolution_ppi in prop_oneof![Just(72.0), 72.0..900.0f64],
        is_same_scale in any::<bool>(),
    ) {
        let files = BTreeMap::from([("pool/sea.png".to_owned(), busy())]);
        let layout = layout(per_mm, &places, &turns);
        let parted = cut_up(&layout, &files);
        prop_assume!(!parted.left.is_empty());
        let resolution_ppi = if is_same_scale { (per_mm * 25.4).max(72.0) } else { resolution_ppi };
        let kept = files_with(&parted, &files);
        prop_assert!(!kept.contains_key("pool/sea.png"));
        prop_assert_eq!(composed(&layout, &files, resolution_ppi), composed(&parted.layout, &kept, resolution_ppi));
    }
}

#[test]
fn ink_is_measured_the_same() {
    let files = BTreeMap::from([("pool/sea.png".to_owned(), busy())]);
    let layout = layout(23.7, &[(130.0, 140.0, 100.0), (420.0, 300.0, 90.0)], &[(12.0, false), (0.0, true)]);
    let parted = cut_up(&layout, &files);
    let kept = files_with(&parted, &files);
    let ink = |layout: &Layout, files: &BTreeMap<String, Vec<u8>>| {
        let mut go_on = |_| true;
        ink_coverage(layout, &mut Files(files.clone()), &mut Progress::new(&mut go_on)).unwrap()
    };
    assert_eq!(parted.left, ["pool/sea.png"]);
    assert_eq!(ink(&layout, &files), ink(&parted.layout, &kept));
}

#[test]
fn stickers_of_the_same_pixels_share_a_file_and_each_knows_its_place_in_the_picture() {
    let files = BTreeMap::from([("pool/sea.png".to_owned(), busy())]);
    let mut layout =
        layout(20.0, &[(130.0, 140.0, 100.0), (420.0, 300.0, 90.0)], &[(0.0, false), (0.0, false)]);
    let mut twin = layout.stickers[0].clone();
    twin.id = "twin".into();
    layout.stickers.push(twin);
    let parted = cut_up(&layout, &files);
    let art = |index: usize| parted.layout.stickers[index].art.clone().unwrap();
    assert_eq!(parted.parts.keys().collect::<Vec<_>>(), ["pool/sea-s0.png", "pool/sea-s1.png"]);
    assert_eq!((art(0).file, art(2).file), ("pool/sea-s0.png".to_owned(), "pool/sea-s0.png".to_owned()));
    for (index, sticker) in layout.stickers.iter().enumerate() {
        let before = sticker.art.as_ref().unwrap();
        assert_eq!((art(index).at, art(index).picture()), (before.at, "pool/sea.png"));
    }
    // The second time nothing is left to cut up.
    let again = cut_up(&parted.layout, &files_with(&parted, &files));
    assert_eq!((again.layout, again.parts.len()), (parted.layout.clone(), 0));
}

#[test]
fn what_is_better_left_whole_stays_whole() {
    let files = BTreeMap::from([("pool/sea.png".to_owned(), busy())]);
    let two = || layout(20.0, &[(130.0, 140.0, 100.0), (420.0, 300.0, 90.0)], &[(0.0, false), (0.0, false)]);
    let stays = |layout: &Layout, files: &BTreeMap<String, Vec<u8>>| {
        let parted = cut_up(layout, files);
        parted.layout == *layout && parted.parts.is_empty() && parted.left.is_empty()
    };
    assert!(!stays(&two(), &files));
    // Behind the stickers too.
    let mut behind = two();
    behind.backgrounds.push(Background { picture: Some("pool/sea.png".into()), ..Background::default() });
    assert!(stays(&behind, &files));
    // A sticker that does not say how large a pixel is.
    let mut of_no_size = two();
    of_no_size.stickers[1].art.as_mut().unwrap().pixels_per_mm = None;
    assert!(stays(&of_no_size, &files));
    // A single drawing that is nearly all of it.
    let one = layout(20.0, &[(320.0, 240.0, 420.0)], &[(0.0, false)]);
    assert!(stays(&one, &files));
    // Missing, damaged, no PNG.
    assert!(stays(&two(), &BTreeMap::new()));
    let mut short = files.clone();
    short.get_mut("pool/sea.png").unwrap().truncate(20_000);
    assert!(stays(&two(), &short));
    let drawing = BTreeMap::from([("pool/sea.png".to_owned(), b"<svg xmlns='x'/>".to_vec())]);
    assert!(stays(&two(), &drawing));
}
