//! The card itself: its size, its round corners, and which part of it stickers can use.

use kurbo::{Point, Rect};
use stickleaf_outline::Region;

use crate::background::Zone;
use crate::rules::Rules;
use crate::units::MM_PER_INCH;

/// A sticker card. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Left to right.
    pub width: f64,
    /// Top to bottom.
    pub height: f64,
    /// Radius of its four round corners; zero for sharp ones.
    pub corner_radius: f64,
    /// The print's resolution in pixels to the inch.
    pub resolution_ppi: f64,
}

/// Sheet sizes that people ask for: name, width and height in millimetres.
///
/// Source: A6 and A5 by ISO 216; the inch sizes are common practice, no source.
pub const SHEET_SIZES: [(&str, f64, f64); 5] = [
    ("A6", 105.0, 148.0),
    ("A5", 148.0, 210.0),
    ("4 × 6 in", 4.0 * MM_PER_INCH, 6.0 * MM_PER_INCH),
    ("5 × 7 in", 5.0 * MM_PER_INCH, 7.0 * MM_PER_INCH),
    ("4.25 × 6.5 in", 4.25 * MM_PER_INCH, 6.5 * MM_PER_INCH),
];

/// How far the chords of round corners may stray when areas are measured, in millimetres.
const AREA_TOLERANCE: f64 = 0.0005;

impl Default for Sheet {
    /// An A6 card with round corners, printed at 600 pixels to the inch (common practice, no source).
    fn default() -> Sheet {
        Sheet { width: 105.0, height: 148.0, corner_radius: 4.0, resolution_ppi: 600.0 }
    }
}

impl Sheet {
    /// The rectangle around the card.
    pub fn bounds(&self) -> Rect {
        Rect::new(0.0, 0.0, self.width, self.height)
    }

    /// The size of a picture of the whole sheet in pixels at this resolution, rounded to the nearest.
    pub fn pixels(&self, ppi: f64) -> (u32, u32) {
        let pixels = |mm: f64| (mm / MM_PER_INCH * ppi).round().max(1.0) as u32;
        (pixels(self.width), pixels(self.height))
    }

    /// The area of the card in square millimetres, round corners taken off; exact.
    pub fn area(&self) -> f64 {
        let r = self.corner_radius;
        self.width * self.height - (4.0 - core::f64::consts::PI) * r * r
    }

    /// How far a point lies inside the edge of the card; negative outside. Round corners are counted.
    ///
    /// The card is convex, so a closed line lies at least as far inside as its corners do.
    pub fn distance_to_edge(&self, point: Point) -> f64 {
        let r = self.corner_radius;
        let x = (point.x - self.width / 2.0).abs() - (self.width / 2.0 - r);
        let y = (point.y - self.height / 2.0).abs() - (self.height / 2.0 - r);
        let (beyond_x, beyond_y) = (x.max(0.0), y.max(0.0));
        r - (beyond_x * beyond_x + beyond_y * beyond_y).sqrt() - x.max(y).min(0.0)
    }

    /// The point of the card's edge nearest to a point.
    pub fn nearest_on_edge(&self, point: Point) -> Point {
        let r = self.corner_radius;
        let core = Rect::new(r, r, self.width - r, self.height - r);
        let inner = Point::new(point.x.clamp(core.x0, core.x1), point.y.clamp(core.y0, core.y1));
        let away = point - inner;
        let length = away.hypot2().sqrt();
        if length > 0.0 {
            return inner + away * (r / length);
        }
        // Within the middle part: the nearest of the four sides.
        [
            (point.x, Point::new(0.0, point.y)),
            (self.width - point.x, Point::new(self.width, point.y)),
            (point.y, Point::new(point.x, 0.0)),
            (self.height - point.y, Point::new(point.x, self.height)),
        ]
        .into_iter()
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(point, |(_, on_edge)| on_edge)
    }

    /// The part of the card at least `inset` millimetres from its edge; nothing if it is too small for that.
    ///
    /// Corners stay round as far as the inset leaves them a radius.
    pub fn inset_region(&self, inset: f64) -> Region {
        let (width, height) = (self.width - 2.0 * inset, self.height - 2.0 * inset);
        if width <= 0.0 || height <= 0.0 {
            return Region::empty();
        }
        let radius = (self.corner_radius - inset).max(0.0);
        let ring = rounded_rectangle(Rect::new(inset, inset, inset + width, inset + height), radius);
        Region::from_rings([&ring[..]])
    }
}

/// The corners of a rectangle with round corners, clockwise as seen.
fn rounded_rectangle(rect: Rect, radius: f64) -> Vec<Point> {
    let mut pen = stickleaf_outline::Pen::new(AREA_TOLERANCE);
    let corners = [
        (Point::new(rect.x1 - radius, rect.y0), Point::new(rect.x1, rect.y0 + radius)),
        (Point::new(rect.x1, rect.y1 - radius), Point::new(rect.x1 - radius, rect.y1)),
        (Point::new(rect.x0 + radius, rect.y1), Point::new(rect.x0, rect.y1 - radius)),
        (Point::new(rect.x0, rect.y0 + radius), Point::new(rect.x0 + radius, rect.y0)),
    ];
    pen.move_to(corners[3].1);
    for (start, end) in corners {
        pen.line_to(start);
        pen.arc_to(radius, radius, 0.0, false, true, end);
    }
    pen.finish().remove(0)
}

/// The part of the sheet that density is measured against: the card less its margin and its zones as drawn.
pub fn usable_region(sheet: &Sheet, rules: &Rules, zones: &[Zone]) -> Region {
    zones
        .iter()
        .fold(sheet.inset_region(rules.margin), |rest, zone| rest.difference(&Region::of(&zone.outline)))
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::*;

    #[test]
    fn drawing_size_at_a_thousand_and_eight_hundred_pixels_to_the_inch() {
        // Common practice, no source: a 4.25 x 6.5 in card drawn at 1000 or at 800 px to the inch prints above 600 dpi.
        let sheet = Sheet { width: 4.25 * MM_PER_INCH, height: 6.5 * MM_PER_INCH, ..Sheet::default() };
        assert_eq!(sheet.pixels(1000.0), (4250, 6500));
        assert_eq!(sheet.pixels(800.0), (3400, 5200));
        for (width, _) in [sheet.pixels(1000.0), sheet.pixels(800.0)] {
            assert!(f64::from(width) / (sheet.width / MM_PER_INCH) > 600.0);
        }
    }

    #[test]
    fn a_sizes_follow_iso_216() {
        // ISO 216: A0 is 841 x 1189 mm; each next size halves the longer side, rounded down to a whole millimetre.
        let (mut width, mut height) = (841, 1189);
        for size in 1..=6 {
            (width, height) = (height / 2, width);
            if size >= 5 {
                let name = format!("A{size}");
                let found = SHEET_SIZES.iter().find(|(known, _, _)| *known == name);
                assert_eq!(found.map(|&(_, w, h)| (w, h)), Some((f64::from(width), f64::from(height))));
            }
        }
    }

    #[test]
    fn distance_to_edge_counts_round_corners() {
        let sheet = Sheet { width: 100.0, height: 60.0, corner_radius: 10.0, resolution_ppi: 600.0 };
        assert_eq!(sheet.distance_to_edge(Point::new(50.0, 4.0)), 4.0);
        assert_eq!(sheet.distance_to_edge(Point::new(50.0, -3.0)), -3.0);
        // The sharp corner itself lies 10 sqrt 2 - 10 outside the arc.
        assert!((sheet.distance_to_edge(Point::ZERO) + 10.0 * (2f64.sqrt() - 1.0)).abs() < 1e-12);
        assert_eq!(sheet.distance_to_edge(Point::new(10.0, 10.0)), 10.0);
        let on_arc = sheet.nearest_on_edge(Point::new(6.0, 7.0));
        assert!(sheet.distance_to_edge(on_arc).abs() < 1e-12);
        assert!(((on_arc - Point::new(6.0, 7.0)).hypot2().sqrt() - 5.0).abs() < 1e-12);
    }

    #[test]
    fn inset_region_keeps_the_true_area() {
        let sheet = Sheet { width: 100.0, height: 60.0, corner_radius: 10.0, resolution_ppi: 600.0 };
        let area = 92.0 * 52.0 - (4.0 - PI) * 36.0;
        assert!((sheet.inset_region(4.0).area() - area).abs() < 0.05);
        assert!((sheet.inset_region(12.0).area() - 76.0 * 36.0).abs() < 1e-6);
        assert!(sheet.inset_region(30.0).is_empty());
    }
}
