//! The largest disc of empty room, found another way: by a plain look at a grid with the distances of another library
//! (`geo`), and where a published packing of discs lacks one.

use core::f64::consts::FRAC_PI_2;

use geo::algorithm::Contains;
use geo::algorithm::line_measures::{Distance, Euclidean};
use kurbo::Point;
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{
    Background, Layout, Piece, ROOM_TOLERANCE, Rules, Sheet, Sticker, Zone, empty_room, placed_cut_lines,
};
use tests::data::{count, list, number, points, read};
use tests::shapes::{Chance, GRID_SHIFT, chord_depth, inscribed, outline};

/// How many corners each round corner of the card is drawn with for the other library: within 0.1 µm at 20 mm.
const CARD_CORNERS: u32 = 250;

fn polygon(points: impl IntoIterator<Item = Point>) -> geo::Polygon<f64> {
    let ring: Vec<(f64, f64)> = points.into_iter().map(|point| (point.x, point.y)).collect();
    geo::Polygon::new(ring.into(), Vec::new())
}

/// The card's edge, drawn from its definition.
fn card(sheet: &Sheet) -> geo::Polygon<f64> {
    let r = sheet.corner_radius;
    let middles = [(sheet.width - r, sheet.height - r), (r, sheet.height - r), (r, r), (sheet.width - r, r)];
    polygon(middles.iter().zip(0u32..).flat_map(|(&(x, y), quarter)| {
        (0..=CARD_CORNERS).map(move |step| {
            let part = f64::from(quarter) + f64::from(step) / f64::from(CARD_CORNERS);
            let (sine, cosine) = libm::sincos(FRAC_PI_2 * part);
            Point::new(x + r * cosine, y + r * sine)
        })
    }))
}

/// What another library knows of a layout.
struct Other {
    card: geo::Polygon<f64>,
    margin: f64,
    bodies: Vec<(geo::Polygon<f64>, f64)>,
}

impl Other {
    fn new(layout: &Layout) -> Other {
        let lines = placed_cut_lines(layout);
        let of = |outline: &Outline| polygon(outline.points().iter().copied());
        let pieces = lines.iter().map(|line| (of(line), layout.rules.spacing));
        let zones = layout.zones().iter().map(|zone| (of(&zone.outline), zone.clearance));
        Other {
            card: card(&layout.sheet),
            margin: layout.rules.margin,
            bodies: pieces.chain(zones).collect(),
        }
    }

    /// The room at a point; minus one where something lies, and outside the card.
    fn room(&self, point: Point) -> f64 {
        let at = geo::Point::new(point.x, point.y);
        if !self.card.contains(&at) {
            return -1.0;
        }
        let mut room = Euclidean.distance(&at, self.card.exterior()) - self.margin;
        for (body, need) in &self.bodies {
            // The distance of a point that lies inside is zero.
            let apart = Euclidean.distance(&at, body);
            room = if apart == 0.0 { -1.0 } else { room.min(apart - need) };
            if room < 0.0 {
                return -1.0;
            }
        }
        room
    }

    /// The best of the grid's points, each of the likeliest moved uphill in ever smaller steps.
    fn largest(&self, layout: &Layout) -> f64 {
        const STEP: f64 = 2.0;
        const FOLLOWED: usize = 10;
        let (columns, rows) = (layout.sheet.width / STEP, layout.sheet.height / STEP);
        let mut spots: Vec<(f64, Point)> = (0..columns as u32)
            .flat_map(|column| (0..rows as u32).map(move |row| (f64::from(column), f64::from(row))))
            .map(|(column, row)| Point::new((column + 0.5) * STEP, (row + 0.5) * STEP))
            .map(|point| (self.room(point), point))
            .collect();
        spots.sort_by(|a, b| b.0.total_cmp(&a.0));
        spots.truncate(FOLLOWED);
        let climb = |&(mut room, mut point): &(f64, Point)| {
            let mut step = STEP;
            while step > 1e-5 {
                let round = (0..16).map(|i| libm::sincos(FRAC_PI_2 * f64::from(i) / 4.0));
                let best = round
                    .map(|(sine, cosine)| Point::new(point.x + step * cosine, point.y + step * sine))
                    .map(|near| (self.room(near), near))
                    .max_by(|a, b| a.0.total_cmp(&b.0));
                match best {
                    Some((more, near)) if more > room => (room, point) = (more, near),
                    _ => step /= 2.0,
                }
            }
            room
        };
        spots.iter().map(climb).fold(-1.0, f64::max)
    }
}

/// Lumpy and ragged pieces anywhere on a card of 60 to 110 mm with round corners and a zone.
fn layout(chance: &mut Chance) -> Layout {
    let shapes = [outline(&chance.blob()), outline(&chance.ragged_star()), outline(&chance.convex())];
    let stickers: Vec<Sticker> =
        shapes.into_iter().zip(0..).map(|(shape, i)| Sticker::new(format!("s{i}"), "S", shape)).collect();
    let (width, height) = (chance.between(60.0, 110.0), chance.between(60.0, 110.0));
    let pieces = (0..chance.count(0, 7))
        .map(|i| {
            let (x, y) = (chance.between(0.0, width), chance.between(0.0, height));
            let placement = Placement::turned(x, y, chance.between(0.0, 360.0));
            Piece::new(stickers[i as usize % 3].id.clone(), placement)
        })
        .collect();
    let zone = outline(&chance.blob());
    let zone = zone.placed(&Placement::at(chance.between(0.0, width), chance.between(0.0, height)));
    let zones = vec![Zone::new("motif", zone, chance.between(0.0, 4.0))];
    Layout {
        sheet: Sheet { width, height, corner_radius: chance.between(0.0, 20.0), resolution_ppi: 600.0 },
        rules: Rules {
            spacing: chance.between(0.0, 3.0),
            margin: chance.between(0.0, 5.0),
            ..Rules::default()
        },
        backgrounds: vec![Background { name: "B".into(), zones, ..Background::default() }],
        background: Some("B".into()),
        stickers,
        pieces,
        ..Layout::default()
    }
}

#[test]
fn the_largest_disc_is_what_a_search_with_another_library_finds() {
    let mut chance = Chance::new(11);
    let mut found = 0;
    for round in 0..24 {
        let layout = layout(&mut chance);
        let other = Other::new(&layout);
        let theirs = other.largest(&layout);
        let ours = empty_room(&layout, 1, 2.0).discs.first().copied();
        let Some(disc) = ours else {
            assert!(theirs < 1.0 + ROOM_TOLERANCE, "{round}: {theirs} is left");
            continue;
        };
        // As large as said there, no less than what the other search finds, and that does find it.
        assert!((other.room(disc.centre) - disc.radius).abs() < 2e-4, "{round}: {disc:?}");
        assert!(disc.radius > theirs - ROOM_TOLERANCE, "{round}: {disc:?}, but {theirs} fits");
        assert!(theirs > disc.radius - 0.02, "{round}: {disc:?}, found only {theirs}");
        found += 1;
    }
    assert!(found > 18, "{found}");
}

/// Source of the packings: `data/published-counts.json`; `data/SOURCES.md` says where they come from.
#[test]
fn where_a_published_packing_lacks_a_disc_there_is_room_for_it() {
    const SIDE: f64 = 200.0;
    const CORNERS: u32 = 360;
    let counts = read("published-counts.json");
    for case in list(&counts, "circles_in_unit_square") {
        let n = count(case, "n");
        let radius = SIDE * number(case, "radius_published").min(number(case, "radius_constructed"));
        let middles: Vec<Point> =
            points(&case["centres"]).iter().map(|p| (p.to_vec2() * SIDE).to_point()).collect();
        let layout = Layout {
            sheet: Sheet { width: SIDE, height: SIDE, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 0.0, spacing: 0.0, ..Rules::default() },
            stickers: vec![Sticker::new("one", "One", outline(&inscribed(Point::ZERO, radius, CORNERS)))],
            pieces: middles.iter().map(|at| Piece::new("one".into(), Placement::at(at.x, at.y))).collect(),
            ..Layout::default()
        };
        // The polygons lie inside their discs, by a chord's depth at most.
        let more = chord_depth(radius, CORNERS) + 2.0 * GRID_SHIFT + ROOM_TOLERANCE;
        for (lacking, middle) in middles.iter().enumerate().take(12) {
            let mut layout = layout.clone();
            layout.pieces.remove(lacking);
            let disc = empty_room(&layout, 1, 0.0).discs[0];
            assert!(
                disc.radius > radius - ROOM_TOLERANCE,
                "N = {n} without {lacking}: {disc:?} for {radius}"
            );
            // Between five discs, four in the corners, the fifth touches all others: its room is its own size.
            let is_middle = (*middle - Point::new(SIDE / 2.0, SIDE / 2.0)).hypot2().sqrt() < 1e-6 * SIDE;
            if n == 5 && is_middle {
                assert!(disc.radius < radius + more, "{disc:?} for {radius}");
            }
        }
    }
}
