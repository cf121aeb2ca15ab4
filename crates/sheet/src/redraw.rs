//! Another drawing in a sticker's place: the pieces stay where they are, whatever shape the sticker takes.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Outline, Region, WideSpot};

use crate::art::Art;
use crate::memo::Memos;
use crate::sticker::Sticker;
use crate::units::MM_PER_INCH;

/// How many pixels make a millimetre of a drawing without pixels whose size was changed: 96 to the inch (CSS Values and
/// Units).
pub(crate) const CSS_PIXELS_PER_MM: f64 = 96.0 / MM_PER_INCH;

/// How large a drawing becomes that takes a sticker's place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DrawnSize {
    /// As large as it was drawn, so that it keeps its scale to the rest of its picture.
    #[default]
    True,
    /// As large as fits into the bounds of the outline that was there, in its own proportions.
    Fitted,
}

/// The sticker with the outline and the art of a drawing.
///
/// It keeps its id, its name, how many are wanted, how it may turn, its border and whatever else it is, but is no longer
/// rough, nor gone from its picture, and spots at which the old drawing was made wider are forgotten. The middle of the new outline's bounds comes to where that of the old one's was, rounded to the grid: every
/// piece keeps its place about its middle, however it is turned or flipped.
///
/// Nothing comes back if the drawing would be too fine for the grid at that size, or more than ten metres away.
pub fn redrawn(sticker: &Sticker, drawing: &Sticker, size: DrawnSize) -> Option<Sticker> {
    let (old, new) = (sticker.outline.bounds(), drawing.outline.bounds());
    let scale = match size {
        DrawnSize::True => 1.0,
        DrawnSize::Fitted => (old.width() / new.width()).min(old.height() / new.height()),
    };
    let shift = on_grid(old.center() - new.center().to_vec2() * scale);
    let place = |point: Point| (point.to_vec2() * scale + shift).to_point();
    let art = drawing.art.as_ref().map(|art| Art {
        at: place(art.at),
        pixels_per_mm: if scale == 1.0 {
            art.pixels_per_mm
        } else {
            Some(art.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM) / scale)
        },
        ..art.clone()
    });
    let outline = outline_through(drawing.outline.points().iter().map(|&point| place(point)))?;
    Some(Sticker {
        outline: Arc::new(outline),
        path: None,
        art,
        wide_spots: Vec::new(),
        is_rough: false,
        is_gone: false,
        memos: Memos::default(),
        ..sticker.clone()
    })
}

/// The sticker with its outline stretched to this width and height in millimetres about the middle of its bounds; for
/// stickers without art, since a stretched drawing would no longer be the artist's.
///
/// Nothing comes back for lengths that are not above 0, or so small or large that no outline is left.
pub fn resized(sticker: &Sticker, width: f64, height: f64) -> Option<Sticker> {
    if !(width > 0.0 && height > 0.0) {
        return None;
    }
    let bounds = sticker.outline.bounds();
    let middle = bounds.center();
    let (x, y) = (width / bounds.width(), height / bounds.height());
    let stretched = sticker.outline.points().iter().map(|&point| {
        let from = point - middle;
        middle + Vec2::new(from.x * x, from.y * y)
    });
    let outline = Arc::new(outline_through(stretched)?);
    let wide_spots = sticker.wide_spots.iter().map(|spot| {
        let from = spot.at - middle;
        WideSpot { at: middle + Vec2::new(from.x * x, from.y * y), ..*spot }
    });
    let wide_spots = wide_spots.collect();
    Some(Sticker { outline, path: None, wide_spots, memos: Memos::default(), ..sticker.clone() })
}

/// The sticker with its outline and its picture made so many times as large about its (0, 0); border, radii and the
/// width of wide spots stay.
///
/// Nothing comes back if the outline would be too fine for the grid at that size.
pub fn scaled(sticker: &Sticker, scale: f64) -> Option<Sticker> {
    let larger = |point: Point| (point.to_vec2() * scale).to_point();
    let outline = Outline::new(sticker.outline.points().iter().map(|&point| larger(point))).ok()?;
    let mut scaled = Sticker {
        outline: Arc::new(outline),
        path: None,
        wide_spots: sticker.wide_spots.iter().map(|spot| WideSpot { at: larger(spot.at), ..*spot }).collect(),
        ..sticker.clone()
    };
    if let Some(art) = &mut scaled.art {
        art.at = larger(art.at);
        art.pixels_per_mm = Some(art.pixels_per_mm.unwrap_or(CSS_PIXELS_PER_MM) / scale);
    }
    Some(scaled)
}

/// The vector to the point of the grid that is nearest.
pub(crate) fn on_grid(point: Point) -> Vec2 {
    let nearest = |mm: f64| (mm * 1000.0).round() / 1000.0;
    Vec2::new(nearest(point.x), nearest(point.y))
}

/// The outline through these points; where rounding makes it touch itself, its largest part.
pub(crate) fn outline_through(points: impl Iterator<Item = Point>) -> Option<Outline> {
    let points: Vec<Point> = points.collect();
    let is_sound = |point: &Point| point.is_finite() && point.to_vec2().hypot2() < 1e8;
    if !points.iter().all(is_sound) {
        return None;
    }
    Outline::new(points.iter().copied())
        .ok()
        .or_else(|| Region::from_rings([&points[..]]).outer_rings().into_iter().next())
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;
    use stickleaf_outline::{Placement, Turn, path};

    use super::*;
    use crate::sticker::{Turns, Wanted};

    /// A box of 20 x 18 mm whose own (0, 0) is its top left corner.
    fn rough() -> Sticker {
        let mut sticker = Sticker::new("box", "Box", path::parse("M0 0H20V18H0Z").unwrap());
        sticker.wanted = Wanted::Exactly(3);
        sticker.turns = Turns::Any;
        sticker.border = Some(1.0);
        sticker.is_rough = true;
        sticker
    }

    /// A triangle of 10 x 12 mm in a picture of ten pixels to the millimetre.
    fn drawing() -> Sticker {
        let mut sticker = Sticker::new("drawing-1", "Kite", path::parse("M-5 -6H5L0 6Z").unwrap());
        sticker.art = Some(Art::new("kite.png", Point::new(-30.0, -40.0), Some(10.0)));
        sticker
    }

    #[test]
    fn a_drawing_takes_its_place_and_all_wishes_stay() {
        let new = redrawn(&rough(), &drawing(), DrawnSize::True).unwrap();
        assert_eq!((&*new.id, &*new.name, new.wanted), ("box", "Box", Wanted::Exactly(3)));
        assert_eq!((new.turns.clone(), new.border, new.is_rough), (Turns::Any, Some(1.0), false));
        assert_eq!(new.outline.bounds(), Rect::new(5.0, 3.0, 15.0, 15.0));
        let art = new.art.unwrap();
        // The picture moves along: (0, 0) of the drawing came to (10, 9).
        assert_eq!((art.at, art.pixels_per_mm), (Point::new(-20.0, -31.0), Some(10.0)));
    }

    #[test]
    fn every_piece_keeps_its_middle_turned_or_flipped() {
        let (old, new) = (rough(), redrawn(&rough(), &drawing(), DrawnSize::True).unwrap());
        for (degrees, mirrored) in [(0.0, false), (90.0, false), (37.0, true), (180.0, true)] {
            let placement = Placement { turn: Turn::degrees(degrees), mirrored, ..Placement::at(40.0, 70.0) };
            let middle = |sticker: &Sticker| placement.apply(sticker.outline.bounds().center());
            assert!((middle(&old) - middle(&new)).hypot2() < 1e-18, "{degrees}");
        }
    }

    #[test]
    fn a_fitted_drawing_touches_the_old_bounds_and_keeps_its_proportions() {
        let new = redrawn(&rough(), &drawing(), DrawnSize::Fitted).unwrap();
        // 18 mm high instead of 12: one and a half times as large.
        assert_eq!(new.outline.bounds(), Rect::new(2.5, 0.0, 17.5, 18.0));
        let art = new.art.unwrap();
        assert!((art.pixels_per_mm.unwrap() - 10.0 / 1.5).abs() < 1e-12);
        assert_eq!(art.at, Point::new(10.0 - 45.0, 9.0 - 60.0));
    }

    #[test]
    fn a_drawing_without_pixels_is_counted_as_browsers_do_once_its_size_is_changed() {
        let mut drawing = drawing();
        drawing.art.as_mut().unwrap().pixels_per_mm = None;
        let pixels = |size| redrawn(&rough(), &drawing, size).unwrap().art.unwrap().pixels_per_mm;
        assert_eq!(pixels(DrawnSize::True), None);
        assert!((pixels(DrawnSize::Fitted).unwrap() - 96.0 / 25.4 / 1.5).abs() < 1e-12);
    }

    #[test]
    fn a_rough_sticker_is_stretched_about_its_middle() {
        let wider = resized(&rough(), 30.0, 9.0).unwrap();
        assert_eq!(wider.outline.bounds(), Rect::new(-5.0, 4.5, 25.0, 13.5));
        assert!(wider.is_rough);
        for (width, height) in [(0.0, 9.0), (-1.0, 9.0), (f64::NAN, 9.0), (1e9, 9.0), (1e-7, 1e-7)] {
            assert_eq!(resized(&rough(), width, height), None, "{width} x {height}");
        }
    }
}
