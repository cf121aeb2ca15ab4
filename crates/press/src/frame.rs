//! The sheet as a picture: how its millimetres become pixels, and its edge as a line.

use kurbo::{Affine, Point, Rect};
use stickleaf_outline::Pen;
use stickleaf_sheet::{MM_PER_INCH, Sheet};

use crate::trouble::PressError;

/// The most pixels of a sheet: 300 x 400 mm at 1200 pixels to the inch have 268 million.
const MOST_PIXELS: u64 = 400_000_000;

/// How far the chords of round corners may stray, in millimetres: a fortieth of a pixel at 600 to the inch.
const ARC_TOLERANCE: f64 = 0.001;

/// How the sheet lies in a picture of it.
///
/// The scale is exact. The card's top left corner lies on the corner of a pixel; where its width is no whole number of
/// pixels, the last column is the one that the rounded width leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Pixels to the inch.
    pub resolution_ppi: f64,
    /// Pixels in a row, bleed on both sides included.
    pub width_px: u32,
    /// Rows, bleed above and below included.
    pub height_px: u32,
    /// How far the picture reaches past the card's edge, in whole pixels.
    pub bleed_px: u32,
}

impl Frame {
    /// The picture of the sheet at this resolution, reaching `bleed` millimetres past the card, rounded to whole pixels.
    pub fn new(sheet: &Sheet, resolution_ppi: f64, bleed: f64) -> Result<Frame, PressError> {
        let (width, height) = sheet.pixels(resolution_ppi);
        let bleed_px = (bleed / MM_PER_INCH * resolution_ppi).round().clamp(0.0, 100_000.0) as u32;
        let width_px = width.saturating_add(2 * bleed_px);
        let height_px = height.saturating_add(2 * bleed_px);
        if u64::from(width_px) * u64::from(height_px) > MOST_PIXELS {
            return Err(PressError::TooManyPixels { ppi: resolution_ppi, width_px, height_px });
        }
        Ok(Frame { resolution_ppi, width_px, height_px, bleed_px })
    }

    /// How many pixels make a millimetre.
    pub fn per_mm(&self) -> f64 {
        self.resolution_ppi / MM_PER_INCH
    }

    /// Where a point of the sheet lies in the picture.
    pub fn pixel(&self, mm: Point) -> Point {
        let (per_mm, bleed) = (self.per_mm(), f64::from(self.bleed_px));
        Point::new(mm.x * per_mm + bleed, mm.y * per_mm + bleed)
    }

    /// Which point of the sheet lies at a place in the picture.
    pub fn mm(&self, pixel: Point) -> Point {
        let (per_mm, bleed) = (self.per_mm(), f64::from(self.bleed_px));
        Point::new((pixel.x - bleed) / per_mm, (pixel.y - bleed) / per_mm)
    }

    /// A closed line of the sheet in pixels.
    pub(crate) fn ring(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|&point| self.pixel(point)).collect()
    }
}

/// The transform that does what the function does, which must be affine.
pub(crate) fn affine(map: impl Fn(Point) -> Point) -> Affine {
    let origin = map(Point::ZERO);
    let (x, y) = (map(Point::new(1.0, 0.0)) - origin, map(Point::new(0.0, 1.0)) - origin);
    Affine::new([x.x, x.y, y.x, y.y, origin.x, origin.y])
}

/// The card's edge moved outwards by so many millimetres, as a closed line; round corners keep their middle.
pub(crate) fn card_edge(sheet: &Sheet, outwards: f64) -> Vec<Point> {
    let rect = sheet.bounds().inflate(outwards, outwards);
    let radius = if sheet.corner_radius > 0.0 { (sheet.corner_radius + outwards).max(0.0) } else { 0.0 };
    rounded(rect, radius)
}

/// A rectangle with round corners as a closed line, clockwise as seen.
fn rounded(rect: Rect, radius: f64) -> Vec<Point> {
    let Rect { x0, y0, x1, y1 } = rect;
    if radius <= 0.0 {
        return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec();
    }
    let mut pen = Pen::new(ARC_TOLERANCE);
    pen.move_to(Point::new(x0 + radius, y0));
    for (line, arc) in [
        ((x1 - radius, y0), (x1, y0 + radius)),
        ((x1, y1 - radius), (x1 - radius, y1)),
        ((x0 + radius, y1), (x0, y1 - radius)),
        ((x0, y0 + radius), (x0 + radius, y0)),
    ] {
        pen.line_to(line.into());
        pen.arc_to(radius, radius, 0.0, false, true, arc.into());
    }
    pen.finish().into_iter().next().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_picture_has_the_drawing_size_and_the_corner_on_a_pixel() {
        // Common practice, no source: 4.25 x 6.5 in at 1000 px to the inch is 4250 x 6500 px.
        let sheet = Sheet { width: 4.25 * MM_PER_INCH, height: 6.5 * MM_PER_INCH, ..Sheet::default() };
        let frame = Frame::new(&sheet, 1000.0, 0.0).unwrap();
        assert_eq!((frame.width_px, frame.height_px), (4250, 6500));
        let frame = Frame::new(&sheet, 1000.0, 2.0).unwrap();
        assert_eq!((frame.width_px, frame.bleed_px), (4250 + 2 * 79, 79));
        assert_eq!(frame.pixel(Point::ZERO), Point::new(79.0, 79.0));
        assert_eq!(frame.mm(Point::new(1079.0, 79.0)), Point::new(25.4, 0.0));
        assert!(matches!(Frame::new(&sheet, 20_000.0, 0.0), Err(PressError::TooManyPixels { .. })));
    }

    #[test]
    fn the_edge_encloses_the_card() {
        let sheet = Sheet::default();
        let area = stickleaf_outline::ring_area(&card_edge(&sheet, 0.0));
        assert!((area - sheet.area()).abs() < 0.02, "{area}");
        let grown = stickleaf_outline::ring_area(&card_edge(&sheet, 2.0));
        // Steiner: area + length times width + pi width squared.
        let length = 2.0 * (97.0 + 140.0) + 8.0 * core::f64::consts::PI;
        let expected = sheet.area() + 2.0 * length + 4.0 * core::f64::consts::PI;
        assert!((grown - expected).abs() < 0.03, "{grown} of {expected}");
    }
}
