//! Which pixels of its picture a sticker needs.

use kurbo::Rect;
use stickleaf_sheet::{Rules, Sticker};

use crate::art::MOST_SHORT;

/// How far past the cut line pixels are kept, in millimetres: whatever the filter reaches for from there, down to a print of
/// 72 pixels to the inch. There a pixel whose corner the cut line touches has its middle 0.25 mm outside of it, and the filter
/// reaches two pixels further, 0.71 mm.
const REACH: f64 = 1.0;

/// How many pixels are kept beyond that, for prints that are finer than the picture: the filter's two, the touched one, and
/// one for rounding.
const REACH_PX: f64 = 4.0;

/// Left edges lie on whole eights of pixels, so that those of one bit stay in their bytes.
const STEP_PX: u32 = 8;

/// Pixels of a picture, in whole columns and rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Window {
    pub(super) top: u32,
    pub(super) left: u32,
    pub(super) width: u32,
    pub(super) height: u32,
}

impl Window {
    /// The whole picture of this size.
    pub(super) fn whole((width, height): (u32, u32)) -> Window {
        Window { top: 0, left: 0, width, height }
    }

    pub(super) fn pixels(&self) -> u64 {
        u64::from(self.width) * u64::from(self.height)
    }

    /// What the sticker's cut line takes in of a picture of this size, with what the filter reaches for round it. Nothing
    /// where the layout does not say how large a pixel is, or the picture ends short of the outline: what becomes of such a
    /// sticker hangs on the whole file.
    pub(super) fn of(sticker: &Sticker, rules: &Rules, size: (u32, u32)) -> Option<Window> {
        let art = sticker.art.as_ref().filter(|art| art.part.is_none())?;
        let per_mm = art.pixels_per_mm?;
        let in_pixels = |mm: Rect| {
            let corner = |x: f64, y: f64| ((kurbo::Point::new(x, y) - art.at) * per_mm).to_point();
            Rect::from_points(corner(mm.x0, mm.y0), corner(mm.x1, mm.y1))
        };
        let picture = Rect::new(0.0, 0.0, size.0.into(), size.1.into());
        let drawing = in_pixels(sticker.outline.bounds());
        let reaches_round = picture.inflate(MOST_SHORT * per_mm, MOST_SHORT * per_mm);
        if reaches_round.union(drawing) != reaches_round {
            return None;
        }
        let line = in_pixels(sticker.cut_line(rules).bounds().inflate(REACH, REACH));
        let part = line.inflate(REACH_PX, REACH_PX).intersect(picture);
        if part.width() < 1.0 || part.height() < 1.0 {
            return None;
        }
        let left = part.x0.floor() as u32 / STEP_PX * STEP_PX;
        let (top, right, bottom) = (part.y0.floor() as u32, part.x1.ceil() as u32, part.y1.ceil() as u32);
        Some(Window { top, left, width: right - left, height: bottom - top })
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;
    use stickleaf_outline::path;
    use stickleaf_sheet::Art;

    use super::*;

    fn sticker(at: (f64, f64), per_mm: Option<f64>) -> Sticker {
        let mut sticker = Sticker::new("a", "A", path::parse("M-5 -4H5V4H-5Z").unwrap());
        sticker.art = Some(Art::new("a.png", Point::new(at.0, at.1), per_mm));
        sticker
    }

    #[test]
    fn it_takes_in_the_cut_line_and_what_the_filter_reaches_for() {
        let rules = Rules { border: 2.0, ..Rules::default() };
        let window = Window::of(&sticker((-20.0, -30.0), Some(10.0)), &rules, (400, 600)).unwrap();
        // The drawing begins at column 150 and row 260; 2 mm of border, 1 mm and 4 pixels before that are column 116, in the
        // eight from 112, and row 226. A cut line errs to the outside by less than a pixel.
        assert_eq!((window.left, window.top), (112, 225));
        assert_eq!((window.left + window.width, window.top + window.height), (285, 375));
    }

    #[test]
    fn it_ends_where_the_picture_does() {
        let near = sticker((-6.0, -4.5), Some(10.0));
        let window = Window::of(&near, &Rules::default(), (112, 88)).unwrap();
        assert_eq!(window, Window::whole((112, 88)));
    }

    #[test]
    fn what_hangs_on_the_whole_file_has_none() {
        let rules = Rules::default();
        assert_eq!(Window::of(&sticker((-6.0, -5.0), None), &rules, (400, 600)), None);
        // The picture ends more than a millimetre short of the drawing.
        assert_eq!(Window::of(&sticker((-6.0, -5.0), Some(10.0)), &rules, (90, 600)), None);
    }
}
