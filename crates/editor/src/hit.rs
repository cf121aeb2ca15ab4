//! What lies under a point, and where the handle for turning is.

use kurbo::{Point, Vec2};
use stickleaf_outline::{Outline, Turn, depth};
use stickleaf_sheet::{Layout, Piece, Turns};

use crate::view::View;

/// How far outside the piece the handle stands, in pixels.
const HANDLE_AWAY_PX: f64 = 30.0;

/// How near to the canvas's edge a handle may stand, in pixels.
const HANDLE_ROOM_PX: f64 = 22.0;

/// The piece on whose inside the point lies, else the nearest within `slop` millimetres.
///
/// Where several lie on each other a chosen one comes first, then the one drawn last.
pub(crate) fn piece_at(lines: &[Outline], selection: &[usize], point: Point, slop: f64) -> Option<usize> {
    let on = |piece: &usize| lines[*piece].contains(point);
    let under = selection.iter().copied().find(on).or_else(|| (0..lines.len()).rev().find(on));
    under.or_else(|| {
        (0..lines.len())
            .filter(|&piece| lines[piece].bounds().inflate(slop, slop).contains(point))
            .map(|piece| (piece, -depth(&lines[piece], point)))
            .filter(|&(_, away)| away <= slop)
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(piece, _)| piece)
    })
}

/// A handle by which the chosen pieces are turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnHandle {
    /// Which piece, if only one is chosen.
    pub piece: Option<usize>,
    /// The middle of the handle, in pixels of the canvas.
    pub at: Point,
    /// Where its stalk leaves the pieces, in pixels of the canvas.
    pub foot: Point,
    /// The point that the pieces turn about, in sheet millimetres.
    pub about: Point,
}

/// The point that chosen pieces turn about: a single one about its own, several about the middle of their points. In sheet
/// millimetres; nothing if none of them is free and may turn.
pub(crate) fn turned_about(layout: &Layout, selection: &[usize]) -> Option<Point> {
    let free: Vec<&Piece> = selection
        .iter()
        .filter_map(|&piece| layout.pieces.get(piece))
        .filter(|piece| !piece.locked)
        .collect();
    let may_turn =
        |piece: &&Piece| layout.sticker(&piece.sticker).is_some_and(|sticker| sticker.turns != Turns::None);
    let sum: Vec2 = free.iter().map(|piece| piece.placement.at.to_vec2()).sum();
    free.iter().any(may_turn).then(|| (sum / free.len() as f64).to_point())
}

/// The handle of the chosen pieces, if one of them is free and may turn.
///
/// It stands outside the cut lines: above a single piece as the piece lies, above several as seen; where the canvas ends
/// there, below or beside them.
pub(crate) fn turn_handle(
    layout: &Layout,
    lines: &[Outline],
    selection: &[usize],
    view: &View,
) -> Option<TurnHandle> {
    let about = turned_about(layout, selection)?;
    let piece = if let &[piece] = selection { Some(piece) } else { None };
    let turn = piece.map_or(Turn::NONE, |piece| layout.pieces[piece].placement.turn);
    let (sine, cosine) = turn.sine_cosine();
    let up = Vec2::new(sine, -cosine);
    let sides = [up, -up, Vec2::new(-up.y, up.x), Vec2::new(up.y, -up.x)];
    let standing = |side: Vec2| {
        let points = selection.iter().flat_map(|&piece| lines[piece].points());
        let reach = points.map(|&point| (point - about).dot(side)).fold(0.0, f64::max);
        let foot = view.to_canvas(about + side * reach);
        TurnHandle { piece, at: foot + side * HANDLE_AWAY_PX, foot, about }
    };
    let room = view.canvas.to_rect().inset(-HANDLE_ROOM_PX);
    let seen = sides.into_iter().map(standing).find(|handle| room.contains(handle.at));
    Some(seen.unwrap_or_else(|| standing(up)))
}

#[cfg(test)]
mod tests {
    use kurbo::Size;
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Piece, Sheet, Sticker};

    use super::*;

    fn squares(places: &[(f64, f64)]) -> Vec<Outline> {
        let square = path::parse("M-5 -5H5V5H-5Z").unwrap();
        places.iter().map(|&(x, y)| square.placed(&Placement::at(x, y))).collect()
    }

    #[test]
    fn the_nearest_piece_within_reach_is_hit() {
        let lines = squares(&[(10.0, 10.0), (22.0, 10.0)]);
        let hit = |x, slop| piece_at(&lines, &[], Point::new(x, 10.0), slop);
        assert_eq!(hit(10.0, 0.0), Some(0));
        assert_eq!(hit(15.9, 2.0), Some(0));
        assert_eq!(hit(16.1, 2.0), Some(1));
        assert_eq!(hit(16.1, 0.5), None);
    }

    #[test]
    fn a_chosen_piece_is_hit_before_the_one_on_top() {
        let lines = squares(&[(10.0, 10.0), (12.0, 10.0)]);
        let point = Point::new(11.0, 10.0);
        assert_eq!(piece_at(&lines, &[], point, 0.0), Some(1));
        assert_eq!(piece_at(&lines, &[0], point, 0.0), Some(0));
    }

    #[test]
    fn the_handle_stands_above_and_in_sight() {
        let mut sticker = Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap());
        let mut layout = Layout { sheet: Sheet::default(), ..Layout::default() };
        layout.pieces = vec![Piece::new("box".into(), Placement::at(50.0, 70.0))];
        let view = View::fitted(&layout.sheet, Size::new(800.0, 600.0));
        let lines = squares(&[(50.0, 70.0)]);
        layout.stickers = vec![sticker.clone()];
        assert_eq!(turn_handle(&layout, &lines, &[0], &view), None, "an upright sticker has no handle");
        sticker.turns = Turns::Any;
        layout.stickers = vec![sticker];
        let handle = turn_handle(&layout, &lines, &[0], &view).unwrap();
        assert!((handle.foot - view.to_canvas(Point::new(50.0, 65.0))).hypot2() < 1e-18);
        assert_eq!(handle.at, handle.foot - Vec2::new(0.0, HANDLE_AWAY_PX));
        layout.pieces[0].placement.at.y = 2.0;
        let lines = squares(&[(50.0, 2.0)]);
        let handle = turn_handle(&layout, &lines, &[0], &view).unwrap();
        assert!(handle.at.y > view.to_canvas(Point::new(0.0, 2.0)).y, "at the upper edge it stands below");
    }
}
