//! Sheet millimetres to canvas pixels and back.

use kurbo::{Point, Rect, Size, Vec2};
use stickleaf_sheet::Sheet;

/// The closest look: a hundredth of a millimetre is one and a half pixels wide.
const MOST_PX_PER_MM: f64 = 150.0;

/// The furthest look, as a part of the scale at which the sheet just fits.
const LEAST_OF_FIT: f64 = 0.4;

/// Room left round the sheet when it is fitted into the canvas, in pixels.
const ROOM_PX: f64 = 28.0;

/// How much of the sheet always stays in sight, in pixels.
const IN_SIGHT_PX: f64 = 48.0;

/// How the sheet lies on the canvas: a scale and where the sheet's top left corner is.
///
/// Pixels are those of the page (CSS pixels), counted from the canvas's top left corner, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Pixels to the millimetre; always above zero.
    pub scale: f64,
    /// Where the sheet's (0, 0) is on the canvas, in pixels.
    pub origin: Point,
    /// The canvas in pixels.
    pub canvas: Size,
}

impl View {
    /// The whole sheet in the middle of the canvas.
    ///
    /// A canvas without area, as before the page is laid out, counts as one pixel.
    pub fn fitted(sheet: &Sheet, canvas: Size) -> View {
        let scale = fit_scale(sheet, canvas);
        let origin = Point::new(
            (canvas.width - sheet.width * scale) / 2.0,
            (canvas.height - sheet.height * scale) / 2.0,
        );
        View { scale, origin, canvas }
    }

    /// The pixel over a point of the sheet.
    pub fn to_canvas(&self, point: Point) -> Point {
        self.origin + point.to_vec2() * self.scale
    }

    /// The point of the sheet, in millimetres, under a pixel.
    pub fn to_sheet(&self, pixel: Point) -> Point {
        ((pixel - self.origin) / self.scale).to_point()
    }

    /// A length in pixels as millimetres of the sheet.
    pub fn length(&self, px: f64) -> f64 {
        px / self.scale
    }

    /// The part of the plane that the canvas shows, in sheet millimetres.
    pub fn seen(&self) -> Rect {
        let far = Point::new(self.canvas.width, self.canvas.height);
        Rect::from_points(self.to_sheet(Point::ZERO), self.to_sheet(far))
    }

    /// Moved by so many pixels, some of the sheet staying in sight.
    pub fn panned(&self, by: Vec2, sheet: &Sheet) -> View {
        View { origin: self.origin + by, ..*self }.held(sheet)
    }

    /// Scaled by a factor while the point under `about` stays there, within the closest and the furthest look.
    pub fn zoomed(&self, factor: f64, about: Point, sheet: &Sheet) -> View {
        self.carried(self.to_sheet(about), self.scale * factor, about, sheet)
    }

    /// A view of this scale, brought within limits, with the sheet's `point` under `pixel`.
    pub fn carried(&self, point: Point, scale: f64, pixel: Point, sheet: &Sheet) -> View {
        let least = fit_scale(sheet, self.canvas) * LEAST_OF_FIT;
        let scale =
            if scale.is_finite() { scale.clamp(least, MOST_PX_PER_MM.max(least)) } else { self.scale };
        View { scale, origin: pixel - point.to_vec2() * scale, ..*self }.held(sheet)
    }

    /// The same view with some of the sheet in sight.
    fn held(self, sheet: &Sheet) -> View {
        let hold = |origin: f64, length_px: f64, canvas_px: f64| {
            let least = IN_SIGHT_PX.min(length_px).min(canvas_px) - length_px;
            let most = canvas_px - IN_SIGHT_PX.min(length_px).min(canvas_px);
            if origin.is_finite() { origin.clamp(least.min(most), most.max(least)) } else { 0.0 }
        };
        let origin = Point::new(
            hold(self.origin.x, sheet.width * self.scale, self.canvas.width),
            hold(self.origin.y, sheet.height * self.scale, self.canvas.height),
        );
        View { origin, ..self }
    }
}

fn fit_scale(sheet: &Sheet, canvas: Size) -> f64 {
    let room = |px: f64| (px - 2.0 * ROOM_PX).max(px / 2.0).max(1.0);
    (room(canvas.width) / sheet.width).min(room(canvas.height) / sheet.height).min(MOST_PX_PER_MM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn a6() -> Sheet {
        Sheet::default()
    }

    #[test]
    fn a_fitted_sheet_is_whole_and_in_the_middle() {
        let view = View::fitted(&a6(), Size::new(800.0, 600.0));
        let (start, end) = (view.to_canvas(Point::ZERO), view.to_canvas(Point::new(105.0, 148.0)));
        assert!((start.x - (800.0 - end.x)).abs() < 1e-9);
        assert!((start.y - ROOM_PX).abs() < 1e-9 && (end.y - (600.0 - ROOM_PX)).abs() < 1e-9);
    }

    #[test]
    fn the_sheet_cannot_be_lost() {
        let view = View::fitted(&a6(), Size::new(800.0, 600.0));
        for by in [Vec2::new(1e6, 0.0), Vec2::new(-1e6, 1e6), Vec2::new(0.0, -1e6)] {
            let seen = view.panned(by, &a6()).seen();
            assert!(!seen.intersect(a6().bounds()).is_zero_area(), "{by:?}");
        }
    }

    #[test]
    fn a_canvas_without_area_is_no_trouble() {
        let view = View::fitted(&a6(), Size::ZERO);
        assert!(view.scale > 0.0 && view.origin.is_finite());
        assert!(view.zoomed(2.0, Point::ZERO, &a6()).origin.is_finite());
    }

    proptest! {
        #[test]
        fn there_and_back(x in -200.0..400.0, y in -200.0..400.0, factor in 0.1..20.0, px in 0.0..800.0) {
            let view = View::fitted(&a6(), Size::new(800.0, 600.0)).zoomed(factor, Point::new(px, 100.0), &a6());
            let back = view.to_sheet(view.to_canvas(Point::new(x, y)));
            prop_assert!((back - Point::new(x, y)).hypot2() < 1e-16);
        }

        #[test]
        fn zoom_keeps_the_point_under_the_finger(factor in 0.5..20.0, x in 250.0..500.0, y in 100.0..500.0) {
            let view = View::fitted(&a6(), Size::new(800.0, 600.0));
            let finger = Point::new(x, y);
            let after = view.zoomed(factor, finger, &a6());
            prop_assert!((after.to_canvas(view.to_sheet(finger)) - finger).hypot2() < 1e-12);
        }
    }
}
