//! A background style: what is printed on the sheet besides the stickers.

use std::sync::Arc;

use kurbo::{Point, Rect};
use stickleaf_outline::Outline;

use crate::carried::Carried;

/// A style that the sheet can have: its zones and, if wanted, a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Background {
    /// What the artist calls it; two backgrounds of a layout never share a name.
    pub name: String,
    /// The parts that stickers keep out of.
    pub zones: Vec<Zone>,
    /// The picture's file, beside the layout or in its bundle.
    pub picture: Option<String>,
    /// How much of the picture is seen, on the screen and in print: 1 for all of it, 0 for the plain ground alone.
    pub picture_opacity: f64,
    /// What its file says beyond that.
    pub carried: Carried,
}

impl Default for Background {
    /// Plain ground without a name or zones.
    fn default() -> Background {
        Background {
            name: String::new(),
            zones: Vec::new(),
            picture: None,
            picture_opacity: 1.0,
            carried: Carried::default(),
        }
    }
}

/// A part of the sheet that stickers keep out of: a title band, a motif, a frame, a hole to hang it by.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What the artist calls it.
    pub name: String,
    /// Its edge, in sheet millimetres. It may reach past the sheet.
    pub outline: Arc<Outline>,
    /// The path data that it was read from, written back as it was.
    pub path: Option<Arc<str>>,
    /// Least distance from a cut line to the zone, in millimetres.
    pub clearance: f64,
    /// What its file says beyond that.
    pub carried: Carried,
}

impl Zone {
    /// A zone with this edge and clearance.
    pub fn new(name: impl Into<String>, outline: Outline, clearance: f64) -> Zone {
        Zone {
            name: name.into(),
            outline: Arc::new(outline),
            path: None,
            clearance,
            carried: Carried::default(),
        }
    }

    /// The same zone stretched so that its bounds are these, in sheet millimetres; nothing if it would be no zone any more:
    /// too thin for the grid that outlines lie on.
    pub fn fitted(&self, bounds: Rect) -> Option<Zone> {
        let own = self.outline.bounds();
        let stretch = |x: f64, from: (f64, f64), to: (f64, f64)| {
            // A shift alone is exact: no quotient of two lengths comes in.
            let scale = if to.1 - to.0 == from.1 - from.0 { 1.0 } else { (to.1 - to.0) / (from.1 - from.0) };
            to.0 + (x - from.0) * scale
        };
        let point = |p: &Point| {
            Point::new(
                stretch(p.x, (own.x0, own.x1), (bounds.x0, bounds.x1)),
                stretch(p.y, (own.y0, own.y1), (bounds.y0, bounds.y1)),
            )
        };
        let outline = Outline::new(self.outline.points().iter().map(point)).ok()?;
        Some(Zone { outline: Arc::new(outline), path: None, ..self.clone() })
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::path;

    use super::*;

    #[test]
    fn a_fitted_zone_has_the_bounds_asked_for_and_keeps_its_shape() {
        let arrow = path::parse("M10 10H20V5L30 15L20 25V20H10Z").unwrap();
        let mut zone = Zone::new("arrow", arrow, 1.5);
        zone.path = Some("M10 10".into());
        let moved = zone.fitted(Rect::new(12.5, 7.0, 32.5, 27.0)).unwrap();
        assert_eq!(moved.outline.area(), zone.outline.area());
        assert_eq!(
            (moved.path, moved.clearance),
            (None, 1.5),
            "path data of another place is not written back"
        );
        let wide = zone.fitted(Rect::new(0.0, 5.0, 40.0, 25.0)).unwrap();
        assert_eq!(wide.outline.bounds(), Rect::new(0.0, 5.0, 40.0, 25.0));
        assert!((wide.outline.area() - 2.0 * zone.outline.area()).abs() < 1e-6);
        assert_eq!(zone.fitted(Rect::new(0.0, 0.0, 0.0, 10.0)), None);
    }
}
