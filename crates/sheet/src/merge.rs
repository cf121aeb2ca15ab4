//! Two stickers made one: the union of two pieces that lie near each other, with a bridge where there is a gap.

use std::sync::Arc;

use kurbo::Point;
use stickleaf_outline::{Outline, Placement, WideSpot, bridged, gap};
use thiserror::Error;

use crate::art::Art;
use crate::layout::Layout;
use crate::memo::Memos;
use crate::piece::Piece;
use crate::redraw::CSS_PIXELS_PER_MM;
use crate::sticker::{Sticker, StickerId, Turns, Wanted};

/// How far apart two drawings may lie and still be made one, in millimetres: a longer bridge would look like a mistake.
pub const MOST_MERGED_GAP: f64 = 10.0;

/// How nearly the pictures of two drawings must lie on each other to be one, in millimetres and in parts.
const SAME_PLACE: f64 = 0.01;

/// What comes of two pieces that are made one.
#[derive(Clone, Debug, PartialEq)]
pub struct Merged {
    /// The sticker, in the own millimetres of the first; with art if none has to be made for it.
    pub sticker: Sticker,
    /// Where the one piece of it lies: where the first lay.
    pub piece: Piece,
    /// The two stickers and how their drawings lie in it.
    pub parts: [(Sticker, Placement); 2],
    /// Whether a picture has to be made of those of the parts.
    pub needs_art: bool,
    pieces: [usize; 2],
}

/// Why two pieces are not made one.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MergeError {
    /// One of them is not there, or both are the same.
    #[error("choose two pieces to make one sticker of them")]
    NotTwo,
    /// They lie too far apart.
    #[error(
        "the two drawings lie {gap:.1} mm apart; move them to within {MOST_MERGED_GAP} mm of each other to make one sticker of them"
    )]
    TooFar {
        /// How far, in millimetres.
        gap: f64,
    },
    /// Their lines cannot be joined.
    #[error("no single line goes round both drawings; move one of them a little and try again")]
    NoOutline,
}

/// What comes of making one sticker of two pieces, under this id and name.
///
/// The outline goes round both drawings as they lie on the sheet, with a bridge along the shortest way between them; the
/// border closes round that, and its inward corners get the border's width as their radius, so that the bridge has no
/// notch. The wider border counts, and the larger radii. Turns are those of both if they agree, else none.
///
/// Drawings that lie as they do in one and the same picture keep it as it is; else a picture has to be made of both.
pub fn merged(
    layout: &Layout,
    [first, second]: [usize; 2],
    id: StickerId,
    name: String,
) -> Result<Merged, MergeError> {
    let of = |index: usize| {
        let piece = layout.pieces.get(index)?;
        Some((piece, layout.sticker(&piece.sticker)?))
    };
    let (Some((one, a)), Some((other, b))) = (of(first), of(second)) else { return Err(MergeError::NotTwo) };
    if first == second {
        return Err(MergeError::NotTwo);
    }
    let placement = between(&one.placement, &other.placement);
    let motion = placement.motion();
    let moved = b.outline.points().iter().map(|&point| motion.apply(point));
    let moved = Outline::new(moved).map_err(|_| MergeError::NoOutline)?;
    let apart = gap(&a.outline, &moved).distance;
    if apart > MOST_MERGED_GAP {
        return Err(MergeError::TooFar { gap: apart });
    }
    let outline = bridged(&[(*a.outline).clone(), moved]).ok_or(MergeError::NoOutline)?;
    let border = a.border_width(&layout.rules).max(b.border_width(&layout.rules));
    let mut radii = a.radii;
    radii.inner = radii.inner.max(b.radii.inner).max(border);
    radii.outer = radii.outer.max(b.radii.outer);
    let spots = b.wide_spots.iter().map(|spot| WideSpot { at: motion.apply(spot.at), ..*spot });
    let is_one_picture = match (&a.art, &b.art) {
        (Some(of_a), Some(of_b)) => is_one_picture(of_a, of_b, &placement),
        _ => false,
    };
    let needs_art = !is_one_picture && (a.art.is_some() || b.art.is_some());
    let sticker = Sticker {
        name,
        outline: Arc::new(outline),
        path: None,
        border: (border != layout.rules.border).then_some(border),
        radii,
        wide_spots: a.wide_spots.iter().copied().chain(spots).collect(),
        wanted: Wanted::Exactly(1),
        turns: if a.turns == b.turns { a.turns.clone() } else { Turns::None },
        mirror: a.mirror && b.mirror,
        art: a.art.clone().filter(|_| is_one_picture),
        is_rough: a.is_rough && b.is_rough,
        is_gone: false,
        memos: Memos::default(),
        ..Sticker::new(id.clone(), "", (*a.outline).clone())
    };
    let piece = Piece { locked: one.locked && other.locked, ..Piece::new(id, one.placement) };
    let parts = [(a.clone(), Placement::at(0.0, 0.0)), (b.clone(), placement)];
    Ok(Merged { sticker, piece, parts, needs_art, pieces: [first, second] })
}

impl Merged {
    /// Makes the change: the two pieces make way for the new one, which is the last, and one copy less of each of their stickers
    /// is wanted; a sticker of which none is wanted nor there any more goes too.
    pub fn apply(&self, layout: &mut Layout) {
        let mut index = 0;
        layout.pieces.retain(|_| {
            index += 1;
            !self.pieces.contains(&(index - 1))
        });
        for (part, _) in &self.parts {
            let placed = layout.placed(&part.id);
            let Some(position) = layout.sticker_index(&part.id) else { continue };
            let sticker = &mut layout.stickers[position];
            sticker.wanted = match sticker.wanted {
                Wanted::Exactly(count) => Wanted::Exactly(count.saturating_sub(1)),
                Wanted::AtLeast(count) => Wanted::AtLeast(count.saturating_sub(1)),
            };
            if placed == 0 && sticker.wanted.least() == 0 {
                layout.stickers.remove(position);
            }
        }
        layout.stickers.push(self.sticker.clone());
        layout.pieces.push(self.piece.clone());
    }
}

/// The placement in the own millimetres of a piece that lies like `one` of what lies like `other` on the sheet.
fn between(one: &Placement, other: &Placement) -> Placement {
    let motion = one.motion();
    let at = motion.apply_inverse(other.at);
    let turned = other.turn.to_degrees() - one.turn.to_degrees();
    let degrees = if one.mirrored { -turned } else { turned };
    Placement {
        at,
        turn: stickleaf_outline::Turn::degrees(degrees),
        mirrored: one.mirrored != other.mirrored,
    }
}

/// Whether the second drawing lies on the first one's picture just where it lies in it.
fn is_one_picture(a: &Art, b: &Art, placement: &Placement) -> bool {
    let per_mm = |art: &Art| art.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM);
    let is_upright = !placement.mirrored && placement.turn.distance_to(stickleaf_outline::Turn::NONE) < 1e-6;
    let corner: Point = b.at + placement.at.to_vec2();
    a.file == b.file
        && is_upright
        && (per_mm(a) / per_mm(b) - 1.0).abs() < SAME_PLACE * 0.01
        && (corner - a.at).hypot2() < SAME_PLACE * SAME_PLACE
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Region, Turn, path, thin_part};

    use super::*;
    use crate::check;

    fn sticker(name: &str, outline: &str) -> Sticker {
        let mut sticker = Sticker::new(name, name, path::parse(outline).unwrap());
        sticker.art = Some(Art::new("sea.png", Point::new(-30.0, -30.0), Some(10.0)));
        sticker
    }

    /// Two boxes of 10 and 6 mm, the second turned, 3 mm of gap between them.
    fn layout() -> Layout {
        Layout {
            stickers: vec![sticker("a", "M-5 -5H5V5H-5Z"), sticker("b", "M-3 -2H3V2H-3Z")],
            pieces: vec![
                Piece::new("b".into(), Placement::at(70.0, 100.0)),
                Piece::new("a".into(), Placement::turned(40.0, 60.0, 30.0)),
                Piece::new(
                    "b".into(),
                    Placement { turn: Turn::degrees(120.0), ..Placement::at(48.66, 65.0) },
                ),
            ],
            ..Layout::default()
        }
    }

    #[test]
    fn both_drawings_lie_in_the_new_outline_where_they_lay_on_the_sheet() {
        let layout = layout();
        let merged = merged(&layout, [1, 2], "ab".into(), "A + B".into()).unwrap();
        let whole = Region::of(&merged.sticker.outline.placed(&merged.piece.placement)).grown(0.002, 0.001);
        for &index in &[1usize, 2] {
            let piece = &layout.pieces[index];
            let outline = layout.sticker(&piece.sticker).unwrap().outline.placed(&piece.placement);
            assert!(Region::of(&outline).difference(&whole).area() < 1e-6, "{index}");
        }
        let placed = merged.parts[1].0.outline.placed(&merged.parts[1].1).placed(&merged.piece.placement);
        let was = layout.stickers[1].outline.placed(&layout.pieces[2].placement);
        assert!(placed.points().iter().zip(was.points()).all(|(a, b)| (*a - *b).hypot2() < 1e-12));
        assert!(merged.needs_art && merged.sticker.art.is_none());
        // Two borders and the bridge between them hold.
        assert_eq!(thin_part(&merged.sticker.cut_line(&layout.rules), 3.0), None);
    }

    #[test]
    fn two_pieces_make_way_for_one_and_what_is_still_wanted_stays() {
        let mut layout = layout();
        layout.stickers[1].wanted = Wanted::AtLeast(2);
        merged(&layout, [1, 2], "ab".into(), "A + B".into()).unwrap().apply(&mut layout);
        assert_eq!(layout.validate(), Ok(()));
        let ids: Vec<&str> = layout.stickers.iter().map(|sticker| &*sticker.id).collect();
        assert_eq!(ids, ["b", "ab"]);
        assert_eq!(layout.stickers[0].wanted, Wanted::AtLeast(1));
        assert_eq!(layout.pieces.iter().map(|piece| &*piece.sticker).collect::<Vec<_>>(), ["b", "ab"]);
        assert!(check(&layout).iter().all(|finding| !finding.is_broken()));
    }

    #[test]
    fn parts_of_one_picture_in_their_places_keep_it() {
        let mut layout = layout();
        // In the picture the second drawing lies 11 mm to the right of the first.
        layout.stickers[1].art.as_mut().unwrap().at = Point::new(-41.0, -30.0);
        let turn = Turn::degrees(30.0);
        let base = Placement { turn, ..Placement::at(40.0, 60.0) };
        layout.pieces[2].placement = Placement { at: base.apply(Point::new(11.0, 0.0)), ..base };
        let one = merged(&layout, [1, 2], "ab".into(), "A + B".into()).unwrap();
        assert!(!one.needs_art);
        assert_eq!(one.sticker.art, layout.stickers[0].art);
    }

    #[test]
    fn what_is_no_pair_or_too_far_apart_says_so() {
        let layout = layout();
        let ask = |pieces| merged(&layout, pieces, "ab".into(), "A + B".into());
        assert_eq!(ask([1, 1]), Err(MergeError::NotTwo));
        assert_eq!(ask([1, 9]), Err(MergeError::NotTwo));
        assert!(matches!(ask([0, 1]), Err(MergeError::TooFar { gap }) if gap > 30.0));
    }
}
