//! Where the patches and their numbers lie.

use kurbo::{Affine, BezPath, Point, Rect, Vec2};

use crate::guide::digits;
use crate::strip::{AS_IT_IS, STEPS, correction};
use crate::tone::{MainColour, corrected};

/// The size of a patch in millimetres.
const PATCH: Vec2 = Vec2::new(8.0, 6.0);
/// The room for numbers left of the patches and above them.
const NUMBERS: f64 = 5.0;
/// The room round the patches of each colour.
const ROOM: f64 = 3.0;
/// How many colours lie side by side.
const ACROSS: usize = 2;
/// The height of a number.
const NUMBER_HEIGHT: f64 = 2.6;

/// A small sheet of patches, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Its width.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// The patches, colour by colour, each column by column.
    pub patches: Vec<Patch>,
    /// The numbers, as strokes of a pen.
    pub(crate) numbers: Vec<BezPath>,
}

/// A patch of one colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Column and row as two digits.
    pub name: u32,
    /// Where it lies.
    pub area: Rect,
    /// Red, green and blue of sRGB, corrected.
    pub rgb: [u8; 3],
}

impl Strip {
    /// The strip of these colours.
    pub fn new(colours: &[MainColour]) -> Strip {
        let block = PATCH * f64::from(STEPS) + Vec2::new(NUMBERS, NUMBERS);
        let pitch = block + Vec2::new(ROOM, ROOM);
        let rows = colours.len().div_ceil(ACROSS).max(1);
        let mut strip = Strip {
            width: ACROSS as f64 * pitch.x + ROOM,
            height: rows as f64 * pitch.y + ROOM,
            patches: Vec::new(),
            numbers: Vec::new(),
        };
        for (index, colour) in colours.iter().enumerate() {
            let (column, row) = ((index % ACROSS) as f64, (index / ACROSS) as f64);
            strip.add(colour.rgb, Point::new(ROOM + column * pitch.x, ROOM + row * pitch.y));
        }
        strip
    }

    /// The colours that the strip is of, as they are on the sheet: its middle patches.
    pub fn colours(&self) -> impl Iterator<Item = [u8; 3]> {
        self.patches.iter().filter(|patch| patch.name == AS_IT_IS).map(|patch| patch.rgb)
    }

    /// Adds the patches of a colour, with a number to each column and row.
    fn add(&mut self, rgb: [u8; 3], corner: Point) {
        let first = corner + Vec2::new(NUMBERS, NUMBERS);
        let middle = NUMBERS / 2.0;
        for place in 1..=STEPS {
            let along = f64::from(place) - 0.5;
            self.numbers.push(number(place, Point::new(first.x + along * PATCH.x, corner.y + middle)));
            self.numbers.push(number(place, Point::new(corner.x + middle, first.y + along * PATCH.y)));
        }
        for name in (1..=STEPS).flat_map(|column| (1..=STEPS).map(move |row| 10 * column + row)) {
            let Some(correction) = correction(name) else { continue };
            let (column, row) = (f64::from(name / 10 - 1), f64::from(name % 10 - 1));
            let at = first + Vec2::new(column * PATCH.x, row * PATCH.y);
            let area = Rect::from_origin_size(at, PATCH.to_size());
            self.patches.push(Patch { name, area, rgb: corrected(correction, rgb) });
        }
    }
}

/// A digit in strokes about a point.
fn number(digit: u32, middle: Point) -> BezPath {
    let scale = NUMBER_HEIGHT / digits::HEIGHT;
    let corner = middle - Vec2::new(digits::WIDTH, digits::HEIGHT) * (scale / 2.0);
    let strokes = digits::STROKES[digit as usize % 10];
    Affine::translate(corner.to_vec2())
        * Affine::scale(scale)
        * BezPath::from_svg(strokes).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_patch_is_on_the_strip_and_the_middle_one_is_the_colour_itself() {
        let colour = |rgb| MainColour { rgb, share: 0.3 };
        let colours = [colour([200, 30, 40]), colour([20, 90, 160]), colour([128; 3])];
        let strip = Strip::new(&colours);
        assert_eq!(strip.patches.len(), 3 * 25);
        let sheet = Rect::new(0.0, 0.0, strip.width, strip.height);
        for (i, patch) in strip.patches.iter().enumerate() {
            assert!(sheet.contains_rect(patch.area));
            assert!(strip.patches[..i].iter().all(|other| other.area.intersect(patch.area).area() < 1e-9));
        }
        let middle: Vec<[u8; 3]> = strip.colours().collect();
        assert_eq!(middle, colours.map(|colour| colour.rgb));
    }
}
