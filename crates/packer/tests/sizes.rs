//! Grow, even and shorten, against what can be worked out.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, gap, path, shapes};
use stickleaf_packer::{Aim, PackOptions, Packing, pack};
use stickleaf_sheet::{
    Art, Background, Layout, Piece, Rules, Sheet, Sticker, Turns, Wanted, Zone, check_pieces,
    placed_cut_lines, smallest_gap,
};

fn layout(outline: Outline, count: u32, (width, height): (f64, f64), margin: f64, spacing: f64) -> Layout {
    let mut sticker = Sticker::new("s", "S", outline);
    sticker.wanted = Wanted::Exactly(count);
    Layout {
        sheet: Sheet { width, height, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin, spacing, ..Rules::default() },
        stickers: vec![sticker],
        ..Layout::default()
    }
}

fn packed(layout: &Layout, aim: Aim, rounds: u64) -> Packing {
    let packing = pack(layout, &PackOptions { aim, seed: 1 }, Some(rounds), &mut |_| true).unwrap();
    assert_eq!(check_pieces(&packing.layout, &placed_cut_lines(&packing.layout)), []);
    packing
}

#[test]
fn four_squares_grow_until_they_touch() {
    // Two by two in 50 x 50 mm, margin 4, spacing 2: sides of 20 mm.
    let packing = packed(&layout(shapes::square(10.0), 4, (50.0, 50.0), 4.0, 2.0), Aim::Grow, 100);
    assert!((packing.progress.scale - 2.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn pieces_that_do_not_fit_shrink() {
    let packing = packed(&layout(shapes::square(30.0), 4, (50.0, 50.0), 4.0, 2.0), Aim::Grow, 400);
    assert_eq!(packing.missing, []);
    assert!((packing.progress.scale - 2.0 / 3.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn a_row_of_squares_makes_the_sheet_low() {
    // Four in a row and four below: 4 + 10 + 2 + 10 + 4.
    let packing = packed(&layout(shapes::square(10.0), 8, (54.0, 90.0), 4.0, 2.0), Aim::Shorten, 100);
    assert!((packing.layout.sheet.height - 30.0).abs() < 0.01, "{:?}", packing.progress);
    let packing = packed(&layout(shapes::square(10.0), 8, (54.0, 20.0), 4.0, 2.0), Aim::Shorten, 200);
    assert_eq!(packing.missing, []);
    assert!((packing.layout.sheet.height - 30.0).abs() < 0.01, "{:?}", packing.progress);
}

#[test]
fn two_squares_move_apart() {
    let mut layout = layout(shapes::square(10.0), 2, (60.0, 30.0), 4.0, 2.0);
    layout.stickers[0].turns = Turns::None;
    let packing = packed(&layout, Aim::Even, 100);
    let gap = smallest_gap(&placed_cut_lines(&packing.layout));
    assert_eq!(packing.progress.gap, gap);
    // Each keeps half of the gap from the edge: 20 + g + g = 60; up and down there is room for the diagonal.
    assert!(gap.unwrap() > 19.9, "{:?}", packing.progress);
}

#[test]
fn stickers_with_a_locked_piece_keep_their_size_and_pictures_grow_along() {
    let mut layout = layout(shapes::square(10.0), 1, (80.0, 40.0), 4.0, 2.0);
    layout.rules.border = 1.0;
    layout.stickers[0].turns = Turns::None;
    let art = |pixels_per_mm| Art::new("a.png", Point::new(-6.0, -5.0), pixels_per_mm);
    layout.stickers[0].art = Some(art(Some(24.0)));
    let mut still = Sticker::new("still", "Still", shapes::square(12.0));
    still.art = Some(art(None));
    layout.stickers.push(still.clone());
    let mut locked = Piece::new("still".into(), Placement::at(65.0, 20.0));
    locked.locked = true;
    layout.pieces = vec![locked.clone()];
    let packing = packed(&layout, Aim::Grow, 60);
    let (after, scale) = (&packing.layout, packing.progress.scale);
    assert_eq!((&after.stickers[1], &after.pieces[0]), (&still, &locked));
    // As high as the sheet is: 40 = 2 margins + 2 borders + the side.
    assert!((scale - 3.0).abs() < 0.01, "{scale}");
    let grown = after.stickers[0].art.clone().unwrap();
    assert_eq!(grown.at, Point::new(-6.0 * scale, -5.0 * scale));
    assert_eq!(grown.pixels_per_mm, Some(24.0 / scale));
    let side = after.stickers[0].outline.bounds().width();
    assert!((side - 10.0 * scale).abs() <= 0.001, "{side} at {scale}");
    let cut = after.stickers[0].cut_line(&after.rules).bounds().width();
    assert!((cut - side - 2.0).abs() <= 0.02, "the border is still 1 mm wide");
}

#[test]
fn a_drawing_without_pixels_grows_with_its_sticker() {
    let mut layout = layout(shapes::square(10.0), 1, (38.0, 38.0), 4.0, 2.0);
    layout.stickers[0].turns = Turns::None;
    let at = Point::new(-5.0, -5.0);
    layout.stickers[0].art = Some(Art::new("a.svg", at, None));
    let packing = packed(&layout, Aim::Grow, 60);
    // Browsers count 96 pixels to the inch (CSS Values and Units), and each is `scale` times as large now.
    let density = packing.layout.stickers[0].art.clone().unwrap().pixels_per_mm.unwrap();
    assert!((density * packing.progress.scale - 96.0 / 25.4).abs() < 1e-9);
}

#[test]
fn a_piece_with_room_to_spare_lies_in_the_middle_of_it() {
    // Four boxes of 20 mm in a row on a sheet of 98 mm: 6 mm between them, 3 and the margin of 4 at the ends leave
    // nothing to choose across; the fifth, small and below, has all the room to itself.
    let mut layout = layout(shapes::rectangle(20.0, 10.0), 4, (106.0, 60.0), 4.0, 2.0);
    layout.stickers[0].turns = Turns::None;
    let mut dot = Sticker::new("dot", "Dot", shapes::disc(4.0, 40));
    dot.wanted = Wanted::Exactly(1);
    layout.stickers.push(dot);
    let packing = packed(&layout, Aim::Even, 150);
    let lines = placed_cut_lines(&packing.layout);
    let smallest = packing.progress.gap.unwrap();
    let dot = packing.layout.pieces.iter().position(|piece| &*piece.sticker == "dot").unwrap();
    let room = (0..5).filter(|&i| i != dot).map(|i| gap(&lines[i], &lines[dot]).distance);
    let room = room.fold(f64::INFINITY, f64::min);
    assert!(room >= smallest, "{room} of {smallest}");
    for line in &lines {
        let edge = line.points().iter().map(|p| packing.layout.sheet.distance_to_edge(*p));
        assert!(edge.fold(f64::INFINITY, f64::min) >= (smallest / 2.0).min(4.0) - 0.002);
    }
}

#[test]
fn zones_that_lie_free_are_never_cut_off() {
    let mut layout = layout(shapes::square(10.0), 2, (60.0, 90.0), 4.0, 2.0);
    let zone = |name: &str, outline: Outline| Zone::new(name, outline, 0.0);
    let rectangle = |data: &str| path::parse(data).unwrap();
    let mut background = Background { name: "Sea".into(), ..Background::default() };
    background.zones = vec![zone("foot", rectangle("M0 80H60V90H0Z"))];
    layout.backgrounds = vec![background];
    layout.background = Some("Sea".into());
    // The band at the foot goes away with the foot.
    let low = packed(&layout, Aim::Shorten, 40).layout;
    assert!((low.sheet.height - 18.0).abs() < 0.01, "{}", low.sheet.height);
    layout.backgrounds[0].zones.push(zone("moon", rectangle("M20 40H40V55H20Z")));
    assert_eq!(packed(&layout, Aim::Shorten, 40).layout.sheet.height, 55.0);
}
