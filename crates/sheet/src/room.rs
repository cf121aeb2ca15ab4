//! The empty room of a layout: the largest round stickers that could still lie on it, and how much room there is where.
//!
//! The *room* at a point is the radius of the largest round cut line that could lie there with the point as its middle
//! and keep every hard rule: the spacing to all pieces, the clearance to all zones, the margin to the edge with its
//! round corners. It is negative where not even a dot could lie. From one point to another it changes by no more than
//! the points are apart, which is what the search in `cells` stands on.

mod bound;
mod cells;
mod chart;
mod dot;
mod obstacles;

use stickleaf_outline::{Disc, Outline};

use crate::check::placed_cut_lines;
use crate::layout::Layout;
use crate::room::cells::Search;
use crate::room::obstacles::Obstacles;

pub use chart::{RoomChart, room_chart};
pub use dot::{DOT_SLACK, dot};

/// How far the radius of a disc of empty room may fall short of the largest there is, in millimetres.
pub const ROOM_TOLERANCE: f64 = 0.001;

/// Smaller dots are never looked for, in millimetres across; no cutter follows them (common practice, no source).
pub const LEAST_DOT: f64 = 1.0;

/// The share of the tolerance that the search may use up; rounding gets the rest.
const SEARCH_TOLERANCE: f64 = ROOM_TOLERANCE / 2.0;

/// Middles and radii are rounded to so many parts of a millimetre, radii down. It costs two parts at most.
const PARTS: f64 = 10_000.0;

/// The empty room of a layout.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EmptyRoom {
    /// Round cut lines that could all lie on the sheet together, the largest first.
    pub discs: Vec<Disc>,
    /// Whether the search came to its end. If not, more or larger discs may have been missed.
    pub is_complete: bool,
}

/// The largest round cut lines that could still lie on the sheet: up to `most` of them, `least` millimetres or more across.
///
/// Each is the largest that keeps every hard rule against the pieces, the zones, the edge and the discs before it, as if
/// dots lay there already; its radius falls short of the largest there is by less than [`ROOM_TOLERANCE`]. So one that
/// is larger than `least` by less than that may be missing. None of the rule check's tolerance is used up. `least` is
/// taken as [`LEAST_DOT`] if it is smaller or no number.
///
/// Broken rules do no harm: what overlaps is kept away from all the same. The same layout gives the same discs on every
/// platform.
///
/// Cost: for ten discs on a card with a hundred pieces some milliseconds. It is bounded; on a sheet of many square
/// metres the bound may be met, and then [`EmptyRoom::is_complete`] says so.
pub fn empty_room(layout: &Layout, most: usize, least: f64) -> EmptyRoom {
    empty_room_beside(layout, &placed_cut_lines(layout), most, least)
}

/// The same [`empty_room`] for one who has the placed cut lines already.
pub fn empty_room_beside(layout: &Layout, lines: &[Outline], most: usize, least: f64) -> EmptyRoom {
    let least = if least > LEAST_DOT { least } else { LEAST_DOT };
    let mut search = Search::new(Obstacles::new(layout, lines), least / 2.0);
    let mut discs = Vec::new();
    while discs.len() < most {
        let Some(disc) = search.next_disc() else { break };
        discs.push(disc);
    }
    EmptyRoom { discs, is_complete: search.is_within_bounds() }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;
    use stickleaf_outline::{Placement, path, shapes};

    use super::*;
    use crate::{Background, Piece, Rules, Sheet, Sticker, Zone};

    /// A bare sheet of this size, margin 4 mm, spacing 2 mm, no border.
    fn bare(width: f64, height: f64, corner_radius: f64) -> Layout {
        Layout {
            sheet: Sheet { width, height, corner_radius, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, ..Rules::default() },
            ..Layout::default()
        }
    }

    /// One sticker with this outline and pieces of it at these places.
    fn with(mut layout: Layout, outline: Outline, places: &[(f64, f64)]) -> Layout {
        layout.stickers = vec![Sticker::new("s", "S", outline)];
        layout.pieces = places.iter().map(|&(x, y)| Piece::new("s".into(), Placement::at(x, y))).collect();
        layout
    }

    #[track_caller]
    fn first(layout: &Layout, radius: f64) -> Disc {
        let room = empty_room(layout, 1, 2.0);
        assert!(room.is_complete);
        let disc = room.discs[0];
        assert!(
            disc.radius <= radius + 1e-9 && disc.radius > radius - ROOM_TOLERANCE,
            "{disc:?} for {radius}"
        );
        disc
    }

    #[test]
    fn on_a_bare_sheet_it_is_half_the_shorter_side_less_the_margin() {
        first(&bare(105.0, 148.0, 4.0), 48.5);
        first(&bare(20.0, 300.0, 10.0), 6.0);
        // The whole card is a disc.
        let disc = first(&bare(80.0, 80.0, 40.0), 36.0);
        assert!((disc.centre - Point::new(40.0, 40.0)).hypot2() < 1e-4);
        assert_eq!(empty_room(&bare(9.5, 60.0, 0.0), 3, 2.0).discs, []);
    }

    #[test]
    fn the_second_disc_keeps_the_spacing_to_the_first() {
        // In a strip 12 mm high inside its margin the discs lie in a row: 12 + 2 + 12 + 2 + 12 = 40 mm.
        let room = empty_room(&bare(48.0, 20.0, 0.0), 9, 11.9);
        assert!(room.discs.len() <= 3 && !room.discs.is_empty());
        for (i, a) in room.discs.iter().enumerate() {
            for b in &room.discs[..i] {
                assert!((a.centre - b.centre).hypot2().sqrt() >= a.radius + b.radius + 2.0 - 1e-9);
                assert!(b.radius >= a.radius - ROOM_TOLERANCE, "the largest come first");
            }
        }
    }

    #[test]
    fn between_four_boxes_it_touches_their_corners() {
        // Boxes of 10 mm, their nearest corners 12 mm apart both ways: half a diagonal is 6 sqrt 2, less the spacing.
        let places = [(19.0, 19.0), (41.0, 19.0), (19.0, 41.0), (41.0, 41.0)];
        let disc =
            first(&with(bare(60.0, 60.0, 0.0), shapes::square(10.0), &places), 6.0 * 2f64.sqrt() - 2.0);
        assert!((disc.centre - Point::new(30.0, 30.0)).hypot2() < 1e-4);
    }

    #[test]
    fn zones_keep_their_own_clearance_and_round_corners_count() {
        // A band leaves 40 mm of height, 5 mm of clearance and the margin take 9 of them.
        let mut layout = bare(90.0, 60.0, 3.0);
        layout.backgrounds = vec![Background {
            name: "Band".into(),
            zones: vec![Zone::new("title", path::parse("M0 0H90V20H0Z").unwrap(), 5.0)],
            ..Background::default()
        }];
        layout.background = Some("Band".into());
        first(&layout, 15.5);
        // Only the corner is free: a disc in it keeps the margin to the arc as well as to the sides.
        let mut layout = bare(60.0, 60.0, 20.0);
        layout.rules.margin = 2.0;
        let l = path::parse("M0 0H60V60H20V20H0Z").unwrap();
        layout.backgrounds = vec![Background {
            name: "L".into(),
            zones: vec![Zone::new("l", l, 0.0)],
            ..Background::default()
        }];
        layout.background = Some("L".into());
        let disc = empty_room(&layout, 1, 2.0).discs[0];
        let to_edge = layout.sheet.distance_to_edge(disc.centre);
        assert!((to_edge - 2.0 - disc.radius).abs() < 0.001, "{disc:?} is {to_edge} from the edge");
    }

    #[test]
    fn the_bay_of_a_piece_is_room_and_its_inside_is_not() {
        // The bay is 20 wide and 25 deep; the spacing of 2 leaves a disc of radius 8.
        let c = path::parse("M-20 -15H20V-10H-5V10H20V15H-20Z").unwrap();
        let mut layout = with(bare(50.0, 40.0, 0.0), c, &[(25.0, 20.0)]);
        layout.rules.margin = 1.0;
        first(&layout, 8.0);
        // A large piece on everything: as much room as there is in it, none is free.
        let cover = shapes::square(55.0);
        assert_eq!(empty_room(&with(bare(60.0, 60.0, 0.0), cover, &[(30.0, 30.0)]), 3, 2.0).discs, []);
    }

    #[test]
    fn no_room_is_wanted_or_there_is_no_sheet_to_speak_of() {
        assert_eq!(empty_room(&bare(105.0, 148.0, 4.0), 0, 8.0).discs, []);
        assert_eq!(empty_room(&bare(5.0, 5.0, 0.0), 3, f64::NAN).discs, []);
        let huge = empty_room(&bare(1e7, 1e7, 0.0), 3, 0.0);
        assert_eq!(huge.discs[0].radius, 1e7 / 2.0 - 4.0);
    }
}
