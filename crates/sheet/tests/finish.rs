//! What a rounded or widened cut line does to the layout: the border, the warnings and the ceiling.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, Radii, Region, WideSpot, path, shapes};
use stickleaf_sheet::{
    Background, Layout, Piece, Rule, Rules, Sheet, Sticker, Turns, Wanted, Zone, ceiling, check, scaled,
};

/// One sticker of this outline, upright, as many as fit.
fn layout(outline: Outline) -> Layout {
    let mut sticker = Sticker::new("one", "One", outline);
    sticker.wanted = Wanted::AtLeast(0);
    sticker.turns = Turns::None;
    Layout { stickers: vec![sticker], ..Layout::default() }
}

fn rules_found(layout: &Layout) -> Vec<Rule> {
    check(layout).iter().map(|finding| finding.rule).collect()
}

#[test]
fn rounding_answers_the_warning_about_a_sharp_corner_and_keeps_the_border() {
    let mut sharp = layout(path::parse("M-20 -30H20V30H-20V6H-4V-6H-20Z").unwrap());
    sharp.rules.border = 1.0;
    assert_eq!(rules_found(&sharp), [Rule::InnerCorner]);
    let mut soft = sharp.clone();
    soft.stickers[0].radii.inner = soft.rules.inner_radius + 0.02;
    assert_eq!(rules_found(&soft), []);
    let sticker = &soft.stickers[0];
    let line = Region::of(&sticker.cut_line(&soft.rules));
    let bordered = Region::of(&sticker.outline).grown(1.0, 0.001);
    assert!(bordered.difference(&line).area() < 1e-9);
    assert_eq!(sticker.sharp_line(&soft.rules), *sharp.stickers[0].cut_line(&sharp.rules));
    assert_eq!(sticker.sharp_line(&soft.rules), sticker.plain_line(&soft.rules));
}

#[test]
fn widening_answers_the_warning_about_a_thin_part_there() {
    let mut thin = layout(shapes::dumbbell(12.0, 1.0, 8.0));
    thin.rules.border = 0.5;
    assert!(rules_found(&thin).contains(&Rule::ThinPart));
    let at = thin.stickers[0].thin_part(&thin.rules).unwrap().at;
    thin.stickers[0].wide_spots.push(WideSpot { at, width: thin.rules.thinnest });
    assert!(!rules_found(&thin).contains(&Rule::ThinPart));
    // The spot goes along when the sticker is made larger, and so does what it does.
    let large = scaled(&thin.stickers[0], 1.5).unwrap();
    assert_eq!(large.wide_spots[0].at, Point::new(at.x * 1.5, at.y * 1.5));
    assert!(large.thin_part(&thin.rules).is_none());
}

#[test]
fn another_finish_is_another_line_at_once() {
    let mut layout = layout(shapes::l(30.0));
    let before = layout.stickers[0].cut_line(&layout.rules);
    layout.stickers[0].radii = Radii { inner: 3.0, outer: 0.0 };
    let after = layout.stickers[0].cut_line(&layout.rules);
    assert!(after.area() > before.area() + 1.0);
}

/// Where zones leave a slot of just the shape of a finished piece, the ceiling must still hold the piece that lies in it.
#[test]
fn the_ceiling_holds_a_finished_piece_in_a_slot_of_its_own_shape() {
    let outline = path::parse("M-17 -9H-6V-2.1H6V-9H17V9H6V2.1H-6V9H-17Z").unwrap();
    for (border, radii) in [(0.0, (2.0, 3.0)), (1.0, (5.9, 0.0)), (2.0, (2.0, 4.0)), (3.0, (2.9, 0.0))] {
        let mut layout = layout(outline.clone());
        layout.sheet = Sheet { width: 60.0, height: 44.0, corner_radius: 0.0, resolution_ppi: 300.0 };
        layout.rules = Rules { border, spacing: 0.0, margin: 2.0, ..Rules::default() };
        layout.stickers[0].radii = Radii { inner: radii.0, outer: radii.1 };
        layout.pieces = vec![Piece::new("one".into(), Placement::at(30.0, 22.0))];
        // Zones where the piece does not lie, less a thousandth: what is left is the piece.
        let line = layout.stickers[0].cut_line(&layout.rules).placed(&Placement::at(30.0, 22.0));
        let sheet = path::parse("M2 2H58V42H2Z").unwrap();
        let left = Region::of(&sheet).difference(&Region::of(&line).grown(0.001, 0.0005));
        let halves = ["M0 0H60V22H0Z", "M0 22H60V44H0Z"];
        let zones = halves.iter().flat_map(|half| {
            let half = Region::of(&path::parse(half).unwrap());
            left.intersection(&half).outer_rings()
        });
        layout.backgrounds = vec![Background {
            name: "slot".into(),
            zones: zones.map(|zone| Zone::new("zone", zone, 0.0)).collect(),
            ..Background::default()
        }];
        layout.background = Some("slot".into());
        let broken: Vec<_> = check(&layout).into_iter().filter(|finding| finding.is_broken()).collect();
        assert_eq!(broken, [], "{border}");
        assert!(ceiling(&layout) >= 1, "{border}");
    }
}
