//! Empty room on layouts made by chance: what is said to fit passes the rule check, and nothing larger does anywhere.

use kurbo::Point;
use proptest::prelude::*;
use stickleaf_outline::{Outline, Placement, Turn, path, shapes};
use stickleaf_sheet::{
    Background, DOT_SLACK, Layout, Piece, ROOM_TOLERANCE, RULE_TOLERANCE, Rules, Sheet, Sticker, Zone,
    check_piece, dot, empty_room, placed_cut_lines,
};

fn outline() -> impl Strategy<Value = Outline> {
    (0u64..6, 3.0..14.0f64).prop_map(|(kind, size)| match kind {
        0 => shapes::square(size),
        1 => shapes::star(5, size, size * 0.4),
        2 => shapes::crescent(size),
        3 => shapes::c(size * 2.0, size * 0.3),
        4 => shapes::disc(size, 48),
        _ => shapes::blob((size * 1000.0) as u64, size),
    })
}

fn zone(width: f64, height: f64) -> impl Strategy<Value = Zone> {
    (0.0..0.5f64, 0.0..0.5f64, 0.0..4.0f64).prop_map(move |(across, down, clearance)| {
        let (w, h) = (5.0 + width * across, 5.0 + height * down);
        Zone::new("title", path::parse(&format!("M-3 -3H{w}V{h}H-3Z")).unwrap(), clearance)
    })
}

prop_compose! {
    /// Pieces lie anywhere, on each other and past the edge as well.
    fn layout()(
        width in 30.0..120.0f64, height in 30.0..120.0f64, round in 0.0..0.5f64,
        border in prop_oneof![Just(0.0), 0.3..2.0f64], spacing in prop_oneof![Just(0.0), 0.5..4.0f64], margin in 0.0..6.0f64,
        outlines in prop::collection::vec(outline(), 1..4),
        zone in prop::option::of(zone(40.0, 40.0)),
        places in prop::collection::vec((0usize..3, -0.1..1.1f64, -0.1..1.1f64, 0.0..360.0f64, any::<bool>()), 0..14),
    ) -> Layout {
        let stickers: Vec<Sticker> =
            outlines.into_iter().enumerate().map(|(i, line)| Sticker::new(format!("s{i}"), "S", line)).collect();
        let pieces = places.into_iter().map(|(sticker, x, y, degrees, mirrored)| {
            let at = Point::new(x * width, y * height);
            let placement = Placement { at, turn: Turn::degrees(degrees), mirrored };
            Piece::new(stickers[sticker % stickers.len()].id.clone(), placement)
        }).collect();
        Layout {
            sheet: Sheet { width, height, corner_radius: round * width.min(height), resolution_ppi: 600.0 },
            rules: Rules { border, spacing, margin, ..Rules::default() },
            backgrounds: vec![Background { name: "B".into(), zones: zone.into_iter().collect(), ..Background::default() }],
            background: Some("B".into()),
            stickers,
            pieces,
            ..Layout::default()
        }
    }
}

/// The layout with a dot of this diameter as its last piece, wherever it lies; the lines of all pieces but that one.
fn with_dot(layout: &Layout, diameter: f64) -> (Layout, Vec<Outline>) {
    let mut with = layout.clone();
    with.stickers.push(dot("new", "New", diameter, &layout.rules).unwrap());
    with.pieces.push(Piece::new("new".into(), Placement::at(0.0, 0.0)));
    let mut lines = placed_cut_lines(&with);
    lines.pop();
    (with, lines)
}

/// Whether the last piece breaks a hard rule at this place.
fn is_broken_at(at: Point, (with, lines): &mut (Layout, Vec<Outline>)) -> bool {
    let last = lines.len();
    let line = with.stickers[with.stickers.len() - 1].cut_line(&with.rules);
    lines.push(line.placed(&Placement::at(at.x, at.y)));
    let is_broken = !check_piece(with, lines, last).is_empty();
    lines.pop();
    is_broken
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn dots_fit_where_there_is_room_all_at_once(layout in layout()) {
        let room = empty_room(&layout, 6, 3.0);
        prop_assert!(room.is_complete);
        let mut with = layout.clone();
        for (i, disc) in room.discs.iter().enumerate() {
            let id = format!("dot{i}");
            with.stickers.push(dot(id.clone(), id.clone(), 2.0 * disc.radius, &layout.rules).unwrap());
            with.pieces.push(Piece::new(id.into(), Placement::at(disc.centre.x, disc.centre.y)));
        }
        let lines = placed_cut_lines(&with);
        for index in layout.pieces.len()..lines.len() {
            prop_assert_eq!(check_piece(&with, &lines, index), vec![]);
        }
        for pair in room.discs.windows(2) {
            prop_assert!(pair[1].radius <= pair[0].radius + ROOM_TOLERANCE);
            prop_assert!(pair[1].radius >= 1.5 - ROOM_TOLERANCE);
        }
    }

}

proptest! {
    // A check of pieces that overlap takes its time.
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn nothing_larger_fits_anywhere(layout in layout(), jitter in (0.0..1.0f64, 0.0..1.0f64)) {
        let room = empty_room(&layout, 1, 3.0);
        let largest = room.discs.first().map_or(1.5, |disc| disc.radius);
        let larger = 2.0 * (largest + ROOM_TOLERANCE + RULE_TOLERANCE + DOT_SLACK / 2.0);
        let mut with = with_dot(&layout, larger);
        let (columns, rows) = (9u32, 9u32);
        for column in 0..columns {
            for row in 0..rows {
                let x = layout.sheet.width * (f64::from(column) + jitter.0) / f64::from(columns);
                let y = layout.sheet.height * (f64::from(row) + jitter.1) / f64::from(rows);
                prop_assert!(is_broken_at(Point::new(x, y), &mut with), "at {}, {}", x, y);
            }
        }
        // The likeliest places are round the one that was found.
        if let Some(disc) = room.discs.first() {
            for step in 0..60u32 {
                let away = libm::exp(-f64::from(step % 12) * 0.7);
                let (sine, cosine) = libm::sincos(f64::from(step) * 2.399_963);
                let at = Point::new(disc.centre.x + away * cosine, disc.centre.y + away * sine);
                prop_assert!(is_broken_at(at, &mut with), "at {:?}", at);
            }
        }
    }
}
