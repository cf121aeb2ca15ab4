//! The ceiling is a promise: no layout that passes the check holds more pieces. It is held against sheets whose count is
//! known by counting, against layouts that the packer finds, and against the two bounds that anyone can work out.

use core::f64::consts::PI;

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, Region, path, shapes};
use stickleaf_packer::{Aim, PackOptions, pack};
use stickleaf_sheet::{
    Background, CeilingReason, Finding, Layout, Piece, RULE_TOLERANCE, Rules, Sheet, Sticker, Turns, Wanted,
    Zone, ceiling, ceiling_with_reason, check,
};
use tests::data::{count, list, number, read};
use tests::shapes::{Chance, outline};

/// How many rounds the packer gets for each layout.
const ROUNDS: u64 = 6;

/// How many layouts are made at random.
const LAYOUTS: u64 = 30;

/// A sheet with these zones, given as path data and clearance, to be filled with copies of one outline without border.
fn sheet(size: (f64, f64), outline: Outline, turns: Turns, zones: &[(&str, f64)]) -> Layout {
    let mut sticker = Sticker::new("one", "One", outline);
    sticker.wanted = Wanted::AtLeast(0);
    sticker.turns = turns;
    let zone = |&(data, clearance): &(&str, f64)| {
        Zone::new("zone", path::parse(data).expect("sound path data"), clearance)
    };
    Layout {
        sheet: Sheet { width: size.0, height: size.1, corner_radius: 0.0, resolution_ppi: 600.0 },
        rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
        stickers: vec![sticker],
        backgrounds: vec![Background {
            name: "zones".into(),
            zones: zones.iter().map(zone).collect(),
            ..Background::default()
        }],
        background: Some("zones".into()),
        ..Layout::default()
    }
}

/// The layout with copies of its first sticker at these places.
fn with_pieces(layout: &Layout, places: &[Placement]) -> Layout {
    let pieces = places.iter().map(|&place| Piece::new(layout.stickers[0].id.clone(), place)).collect();
    Layout { pieces, ..layout.clone() }
}

fn broken(layout: &Layout) -> Vec<Finding> {
    check(layout).into_iter().filter(Finding::is_broken).collect()
}

/// The bounds by the area of the grown pieces and, for the inscribed discs in the whole sheet, by Oler's inequality.
///
/// Source of the latter: N. Oler, "An inequality in the geometry of numbers", Acta Mathematica 105 (1961).
fn simple_bound(layout: &Layout) -> usize {
    let (sheet, rules, sticker) = (&layout.sheet, &layout.rules, &layout.stickers[0]);
    let half = (rules.spacing - RULE_TOLERANCE).max(0.0) / 2.0;
    let margin = (rules.margin - RULE_TOLERANCE).max(0.0);
    let grown = Region::of(&sticker.cut_line(rules)).grown(half, 0.001).area();
    let mut room = sheet.inset_region(margin).grown(half + 0.003, 0.001);
    for zone in layout.zones() {
        let clearance = (zone.clearance - RULE_TOLERANCE).max(0.0);
        room = room.difference(&Region::of(&zone.outline).grown(clearance - half - 0.003, 0.001));
    }
    let by_area = room.area() / grown;
    let apart = 2.0 * (sticker.disc_radius(rules) + half);
    let inset = margin + sticker.disc_radius(rules);
    let (width, height) = (sheet.width - 2.0 * inset, sheet.height - 2.0 * inset);
    if width < 0.0 || height < 0.0 {
        return 0;
    }
    let round = (sheet.corner_radius - inset).max(0.0);
    let area = width * height - (4.0 - PI) * round * round;
    let edge = 2.0 * (width + height) - (8.0 - 2.0 * PI) * round;
    let by_discs = 2.0 / 3f64.sqrt() * area / (apart * apart) + edge / (2.0 * apart) + 1.0;
    (by_area.min(by_discs) * (1.0 + 1e-6)).floor() as usize
}

#[test]
fn published_sheets_are_never_above_the_simple_bounds() {
    let counts = read("published-counts.json");
    for case in list(&counts, "circles_on_sheet_100x150") {
        let disc = shapes::disc(number(case, "diameter") / 2.0, 360);
        let mut layout = sheet((100.0, 150.0), disc, Turns::Any, &[]);
        (layout.rules.margin, layout.rules.spacing) = (number(case, "margin"), number(case, "gap"));
        let bound = ceiling(&layout);
        assert!(bound >= count(case, "constructed") && bound <= simple_bound(&layout), "{bound}: {case}");
    }
    for case in list(&counts, "pallet_loading") {
        let outline = shapes::rectangle(number(case, "l"), number(case, "w"));
        let size = (number(case, "L"), number(case, "W"));
        let mut layout = sheet(size, outline, Turns::Only(vec![0.0, 90.0]), &[]);
        (layout.rules.margin, layout.rules.spacing) = (0.0, 0.0);
        let bound = ceiling(&layout);
        assert!(bound >= count(case, "optimum") && bound <= count(case, "area_bound"), "{bound}: {case}");
        // Upright only, by counting: what a grid in one orientation holds, and not one more.
        layout.stickers[0].turns = Turns::None;
        let along = |whole: &str, part: &str| (number(case, whole) / number(case, part)).floor() as usize;
        assert_eq!(ceiling(&layout), along("L", "l") * along("W", "w"), "{case}");
    }
}

#[test]
fn a_few_discs_in_a_square_are_proved_best() {
    // `circles_in_unit_square`: proved optimal by R. Peikert and others up to 20, and others before them up to 9.
    let counts = read("published-counts.json");
    for case in list(&counts, "circles_in_unit_square").iter().filter(|case| count(case, "n") <= 15) {
        let (n, radius) = (count(case, "n"), 200.0 * number(case, "radius_published"));
        let mut layout = sheet((200.0, 200.0), shapes::disc(radius - 1e-9, 360), Turns::Any, &[]);
        (layout.rules.margin, layout.rules.spacing) = (0.0, 0.0);
        assert_eq!(ceiling(&layout), n);
    }
}

#[test]
fn labels_that_stay_upright_are_counted_in_rows_and_columns() {
    // 40 x 30 mm and 2 mm between: three across 4 + 3 · 42 + 2 mm and six down 4 + 6 · 32 + 2 mm. The check
    // forgives a few micrometres; a twentieth of a millimetre less, and a column is lost.
    let label = shapes::rectangle(40.0, 30.0);
    let size = (2.0 * 4.0 + 3.0 * 42.0 - 2.0, 2.0 * 4.0 + 6.0 * 32.0 - 2.0);
    assert_eq!(ceiling(&sheet(size, label.clone(), Turns::None, &[])), 18);
    assert_eq!(ceiling(&sheet((size.0 + 39.0, size.1 + 29.0), label.clone(), Turns::None, &[])), 18);
    assert_eq!(ceiling(&sheet((size.0 - 0.05, size.1), label.clone(), Turns::None, &[])), 12);
    // A band across the top takes a row.
    let band = [("M-1 -1H200V30H-1Z", 2.0)];
    assert_eq!(ceiling(&sheet(size, label, Turns::None, &band)), 15);
}

#[test]
fn rooms_count_one_by_one() {
    // Two rooms of 62 x 42 mm less margin, joined by a channel 9 mm wide, for discs 20 mm across: 3 x 2 in a grid each.
    let walls = [("M70 -1H80V20.5H70Z", 0.0), ("M70 29.5H80V60H70Z", 0.0)];
    let layout = sheet((150.0, 50.0), shapes::disc(10.0, 180), Turns::Any, &walls);
    let places: Vec<Placement> = [14.0, 36.0, 58.0, 92.0, 114.0, 136.0]
        .into_iter()
        .flat_map(|x| [14.0, 36.0].map(|y| Placement::at(x, y)))
        .collect();
    let full = with_pieces(&layout, &places);
    assert_eq!(broken(&full), []);
    assert_eq!(ceiling_with_reason(&layout).reason, CeilingReason::Parts);
    assert_eq!((ceiling(&layout), ceiling(&full)), (12, 12));
}

#[test]
fn a_room_too_narrow_counts_for_nothing() {
    let disc = || shapes::disc(10.0, 180);
    let bare = ceiling(&sheet((100.0, 50.0), disc(), Turns::Any, &[]));
    let wall = [("M100 -1H110V60H100Z", 4.0)];
    // Eighteen millimetres between the wall and the margin hold no disc of twenty.
    assert_eq!(ceiling(&sheet((132.0, 50.0), disc(), Turns::Any, &wall)), bare);
    assert_eq!(
        ceiling_with_reason(&sheet((27.0, 50.0), disc(), Turns::Any, &[])).reason,
        CeilingReason::NoRoom
    );
}

#[test]
fn a_sticker_that_reaches_through_a_channel_is_counted() {
    // Two bells, each in a room of its own with its neck in the channel: no room has space for a whole one.
    let bell = shapes::dumbbell(8.0, 3.0, 20.0);
    let walls = [("M40 -1H60V20H40Z", 0.0), ("M40 24H60V46H40Z", 0.0), ("M40 50H60V80H40Z", 0.0)];
    let layout = sheet((100.0, 70.0), bell, Turns::None, &walls);
    let full = with_pieces(&layout, &[Placement::at(50.0, 22.0), Placement::at(50.0, 48.0)]);
    assert_eq!(broken(&full), []);
    assert!(ceiling(&layout) >= 2 && ceiling(&full) >= 2);
}

#[test]
fn a_piece_that_lies_as_its_sticker_does_not_allow_is_counted() {
    // Too long to lie upright; across the corners it fits, and a turn that is not allowed is only a warning.
    let layout = sheet((100.0, 100.0), shapes::rectangle(120.0, 4.0), Turns::None, &[]);
    assert_eq!(ceiling(&layout), 0);
    let turned = with_pieces(&layout, &[Placement::turned(50.0, 50.0, 45.0)]);
    assert_eq!(broken(&turned), []);
    assert!(ceiling(&turned) >= 1);
}

/// A sheet of any size with any rules, up to three zones, and a sticker or two of any shape.
fn random_layout(chance: &mut Chance) -> Layout {
    let size = (chance.between(50.0, 120.0), chance.between(50.0, 150.0));
    let zone = |chance: &mut Chance| {
        let (x, y) = (chance.between(-10.0, size.0), chance.between(-10.0, size.1));
        let (width, height) = match chance.count(0, 2) {
            0 => (chance.between(3.0, 6.0), 60.0),
            1 => (60.0, chance.between(3.0, 6.0)),
            _ => (chance.between(8.0, 40.0), chance.between(8.0, 40.0)),
        };
        let corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)];
        Zone::new("zone", outline(&corners.map(Point::from)), if chance.count(0, 1) == 0 { 0.0 } else { 1.5 })
    };
    let zones = (0..chance.count(0, 3)).map(|_| zone(chance)).collect();
    let stickers = (0..1 + chance.count(0, 1)).map(|i| random_sticker(chance, i)).collect();
    let any = |chance: &mut Chance, most: f64| {
        if chance.count(0, 3) == 0 { 0.0 } else { chance.between(0.0, most) }
    };
    Layout {
        sheet: Sheet {
            width: size.0,
            height: size.1,
            corner_radius: any(chance, 15.0),
            resolution_ppi: 600.0,
        },
        rules: Rules {
            border: any(chance, 2.5),
            margin: any(chance, 6.0),
            spacing: any(chance, 4.0),
            ..Rules::default()
        },
        stickers,
        backgrounds: vec![Background { name: "zones".into(), zones, ..Background::default() }],
        background: Some("zones".into()),
        ..Layout::default()
    }
}

fn random_sticker(chance: &mut Chance, number: u32) -> Sticker {
    let half = chance.between(6.0, 20.0);
    let drawn = match chance.count(0, 5) {
        0 => shapes::disc(half, 90),
        1 => shapes::rectangle(2.0 * half, half * chance.between(0.6, 2.0)),
        2 => shapes::star(5, half, half / 2.0),
        3 => shapes::c(2.0 * half, half / 2.0),
        4 => shapes::l(2.0 * half),
        _ => shapes::blob(u64::from(chance.count(0, 999)), half),
    };
    let mut sticker = Sticker::new(format!("{number}"), "Sticker", drawn);
    sticker.wanted = if number == 0 { Wanted::AtLeast(0) } else { Wanted::Exactly(2) };
    sticker.turns = match chance.count(0, 3) {
        0 => Turns::None,
        1 => Turns::Only(vec![0.0, 90.0]),
        2 => Turns::Within(15.0),
        _ => Turns::Any,
    };
    sticker
}

/// What the packer finds for this; nothing if it finds that nothing fits.
fn packed(layout: &Layout, aim: Aim) -> Option<Layout> {
    let options = PackOptions { aim, seed: 1 };
    let found = pack(layout, &options, Some(ROUNDS), &mut |_| true).ok()?.layout;
    assert_eq!(broken(&found), []);
    Some(found)
}

#[test]
fn whatever_the_packer_finds_is_within_the_ceiling() {
    let mut chance = Chance::new(7);
    let (mut looked_at, mut met) = (0, 0);
    for number in 0..LAYOUTS {
        let layout = random_layout(&mut chance);
        if layout.validate().is_err() {
            continue;
        }
        let most = ceiling(&layout);
        let Some(full) = packed(&layout, Aim::Fill) else { continue };
        looked_at += 1;
        let placed = full.pieces.len();
        assert!(placed <= most.max(ceiling(&full)), "{number}: {placed} of {most}");
        if layout.stickers.len() > 1 {
            continue;
        }
        assert!(placed <= most && most <= simple_bound(&layout), "{number}: {placed} of {most}");
        if placed == most {
            met += 1;
            // The packer stops at the ceiling, so it is asked for one more outright.
            let mut more = layout.clone();
            more.stickers[0].wanted = Wanted::Exactly(most as u32 + 1);
            let tried = packed(&more, Aim::Place).map_or(0, |found| found.pieces.len());
            assert!(tried <= most, "{number}: {tried} of {most}");
        }
        // The lowest sheet that holds them has no more room than it needs.
        let mut exact = full.clone();
        exact.stickers[0].wanted = Wanted::Exactly(placed as u32);
        if placed > 0
            && layout.zones().is_empty()
            && let Some(mut low) = packed(&exact, Aim::Shorten)
        {
            low.stickers[0].wanted = Wanted::AtLeast(0);
            assert!(ceiling(&low) >= placed, "{number}: {placed} on a low sheet");
            low.pieces.clear();
            assert!(ceiling(&low) >= placed, "{number}: {placed} on a low empty sheet");
        }
    }
    assert!(looked_at > 20 && met > 0, "{looked_at} {met}");
}
