//! Layouts made at random: sheets, rules, stickers, zones and pieces that lie there already.

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, shapes};
use stickleaf_sheet::{Background, Layout, Piece, Rules, Sheet, Sticker, Turns, Wanted, Zone};
use tests::shapes::{Chance, inscribed, star};

use crate::judge;

/// Tries for a locked piece before it is left out.
const TRIES: u32 = 20;

/// The layout of this number.
pub fn layout(number: u64) -> Layout {
    let mut chance = Chance::new(number);
    let chance = &mut chance;
    let sheet = sheet(chance);
    let rules = Rules {
        spacing: if one_in(chance, 4) { 0.0 } else { chance.between(0.0, 4.0) },
        margin: if one_in(chance, 5) { 0.0 } else { chance.between(0.0, 6.0) },
        border: if one_in(chance, 3) { 0.0 } else { chance.between(0.1, 2.0) },
        ..Rules::default()
    };
    let room = sheet.width.min(sheet.height);
    let count = chance.count(1, 4);
    let zones = (0..chance.count(0, 3)).filter_map(|index| zone(chance, &sheet, index)).collect();
    let mut layout = Layout {
        sheet,
        rules,
        backgrounds: vec![Background { name: "ground".into(), zones, ..Background::default() }],
        background: (!one_in(chance, 3)).then(|| "ground".into()),
        stickers: (0..count).map(|index| sticker(chance, index, room)).collect(),
        ..Layout::default()
    };
    lock_some(chance, &mut layout);
    for _ in 0..chance.count(0, 6).saturating_sub(3) {
        let piece = piece(chance, &layout);
        layout.pieces.push(piece);
    }
    layout
}

fn one_in(chance: &mut Chance, count: u32) -> bool {
    chance.count(1, count) == 1
}

fn sheet(chance: &mut Chance) -> Sheet {
    let (width, height) = (chance.between(25.0, 80.0), chance.between(25.0, 110.0));
    let corner_radius = match chance.count(0, 2) {
        0 => 0.0,
        1 => chance.between(0.0, 8.0),
        _ => chance.between(0.0, width.min(height) / 2.0),
    };
    Sheet { width, height, corner_radius, resolution_ppi: 600.0 }
}

fn zone(chance: &mut Chance, sheet: &Sheet, index: u32) -> Option<Zone> {
    let (x, y) = (chance.between(0.0, sheet.width), chance.between(0.0, sheet.height));
    let size = chance.between(3.0, 15.0);
    let rectangle = |x0: f64, y0: f64, x1: f64, y1: f64| {
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec()
    };
    let points = match chance.count(0, 3) {
        0 => rectangle(0.0, 0.0, sheet.width, size),
        1 => rectangle(x, -5.0, x + size, y),
        2 => inscribed(Point::new(x, y), size, 40),
        _ => star(Point::new(x, y), size, size / 2.0, 5),
    };
    let clearance = if one_in(chance, 3) { 0.0 } else { chance.between(0.0, 3.0) };
    Some(Zone::new(format!("zone {index}"), Outline::new(points).ok()?, clearance))
}

fn sticker(chance: &mut Chance, index: u32, room: f64) -> Sticker {
    // Now and then one that hardly fits, or does not.
    let size =
        if one_in(chance, 12) { chance.between(0.6, 1.5) * room } else { chance.between(4.0, 0.5 * room) };
    let drawn = shape(chance, size);
    // About some point beside its middle too.
    let (x, y) = (chance.between(-size, size), chance.between(-size, size));
    let shift = if one_in(chance, 2) { kurbo::Vec2::new(x, y) } else { kurbo::Vec2::ZERO };
    let outline = Outline::new(drawn.points().iter().map(|&point| point + shift));
    let mut sticker = Sticker::new(format!("s{index}"), format!("Sticker {index}"), outline.unwrap_or(drawn));
    sticker.turns = match chance.count(0, 4) {
        0 => Turns::None,
        1 => Turns::Any,
        2 => Turns::Within(chance.between(0.0, 60.0)),
        3 => Turns::Only(vec![0.0, 90.0, 180.0, 270.0]),
        _ => Turns::Only((0..chance.count(1, 3)).map(|_| chance.between(0.0, 360.0)).collect()),
    };
    sticker.mirror = one_in(chance, 3);
    if one_in(chance, 4) {
        sticker.border = Some(chance.between(0.0, 3.0));
    }
    let count = chance.count(0, 4);
    sticker.wanted =
        if one_in(chance, 2) { Wanted::Exactly(count) } else { Wanted::AtLeast(count.saturating_sub(1)) };
    sticker
}

/// A box, an L, a disc, a star or anything else of about this size.
fn shape(chance: &mut Chance, size: f64) -> Outline {
    let share = chance.between(0.2, 1.0);
    match chance.count(0, 10) {
        0 => shapes::square(size),
        1 => shapes::rectangle(size, size * share),
        2 => shapes::l(size),
        3 => shapes::crescent(size / 2.0),
        4 => shapes::c(size, size / 4.0),
        5 => shapes::comb(3, size / 8.0),
        6 => made(&inscribed(Point::ZERO, size / 2.0, 36), size),
        7 => made(&star(Point::ZERO, size / 2.0, size * share / 2.0, 5), size),
        8 => made(&chance.ragged_star(), size),
        _ => made(&tangle(chance, size), size),
    }
}

fn made(points: &[Point], size: f64) -> Outline {
    Outline::new(points.iter().copied()).unwrap_or_else(|_| shapes::square(size))
}

/// A random polygon that does not cross itself: points joined in any order, then untangled crossing by crossing.
fn tangle(chance: &mut Chance, size: f64) -> Vec<Point> {
    let half = size / 2.0;
    let mut points: Vec<Point> = (0..chance.count(4, 9))
        .map(|_| Point::new(chance.between(-half, half), chance.between(-half, half)))
        .collect();
    // Each reversal between two edges that cross makes the whole shorter, so this ends.
    while let Some((a, b)) = crossing(&points) {
        points[a + 1..=b].reverse();
    }
    points
}

fn crossing(points: &[Point]) -> Option<(usize, usize)> {
    let count = points.len();
    let side = |a: usize, b: usize, c: usize| {
        (points[b % count] - points[a]).cross(points[c % count] - points[a]) > 0.0
    };
    let cross = |a: usize, b: usize| {
        let (a_next, b_next) = ((a + 1) % count, (b + 1) % count);
        side(a, a_next, b) != side(a, a_next, b_next) && side(b, b_next, a) != side(b, b_next, a_next)
    };
    let pairs = (0..count).flat_map(|a| (a + 2..count).map(move |b| (a, b)));
    pairs.filter(|&(a, b)| (b + 1) % count != a).find(|&(a, b)| cross(a, b))
}

fn piece(chance: &mut Chance, layout: &Layout) -> Piece {
    let sticker = &layout.stickers[chance.count(0, layout.stickers.len() as u32 - 1) as usize];
    let (x, y) = (chance.between(0.0, layout.sheet.width), chance.between(0.0, layout.sheet.height));
    let mut placement = Placement::turned(x, y, chance.between(0.0, 360.0));
    placement.mirrored = one_in(chance, 6);
    Piece::new(sticker.id.clone(), placement)
}

/// Locks some pieces where they keep the rules; now and then one more where it may not.
fn lock_some(chance: &mut Chance, layout: &mut Layout) {
    for _ in 0..chance.count(0, 4).saturating_sub(2) {
        for _ in 0..TRIES {
            let locked = Piece { locked: true, ..piece(chance, layout) };
            layout.pieces.push(locked);
            if judge::faults(layout).is_empty() || one_in(chance, 100) {
                break;
            }
            layout.pieces.pop();
        }
    }
}
