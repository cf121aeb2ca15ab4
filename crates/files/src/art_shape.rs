//! A sticker's art as it stands in a file, and the way from there to art and back.

use kurbo::Point;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use stickleaf_sheet::{Art, Part};

use crate::carry::{self, Fields};
use crate::convert::length;
use crate::number::Number;
use crate::read_error::{ReadError, ValueError};
use crate::shape::zero;

/// Where a sticker's picture is and how it lies on the outline.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(
    expecting = "an object such as {\"file\": \"art/crab.png\", \"x_mm\": -10, \"y_mm\": -8, \"pixels_per_mm\": 23.6}"
)]
#[schemars(rename = "Art")]
pub(crate) struct ArtShape {
    /// The file, beside the layout or in its bundle.
    pub file: String,
    /// Where the picture's left edge lies, in the outline's own millimetres.
    #[serde(default = "zero")]
    pub x_mm: Number,
    /// Where the picture's top edge lies, in the outline's own millimetres.
    #[serde(default = "zero")]
    pub y_mm: Number,
    /// How many pixels make a millimetre; absent for a drawing without pixels.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(extend("exclusiveMinimum" = 0))]
    pub pixels_per_mm: Option<Number>,
    /// The picture that the file was cut out of; absent if it is a whole one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part_of: Option<PartShape>,
    #[serde(flatten)]
    pub more: Fields,
}

/// The picture that a file of pixels was cut out of, and where.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(
    expecting = "an object such as {\"picture\": \"sea.png\", \"width_px\": 4250, \"height_px\": 6500, \"left_px\": 812, \"top_px\": 96}"
)]
#[schemars(rename = "PartOf")]
pub(crate) struct PartShape {
    /// The picture, as the layout called it. It need not be there any more.
    pub picture: String,
    /// Its pixels in a row.
    #[schemars(range(min = 1))]
    pub width_px: u32,
    /// Its rows.
    #[schemars(range(min = 1))]
    pub height_px: u32,
    /// How many of its columns lie to the left of the part.
    pub left_px: u32,
    /// How many of its rows lie above the part.
    pub top_px: u32,
    /// Where its left edge lies, in the outline's own millimetres; worked out from the part's own place if absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub x_mm: Option<Number>,
    /// Where its top edge lies, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub y_mm: Option<Number>,
    #[serde(flatten)]
    pub more: Fields,
}

/// The art; an error that names the place if a number cannot be.
pub(crate) fn art_of(shape: ArtShape, place: &str) -> Result<Art, ReadError> {
    let pixels_per_mm = shape.pixels_per_mm.map(|pixels| pixels.0);
    if pixels_per_mm.is_some_and(|pixels| pixels <= 0.0) {
        let place = format!("{place}.pixels_per_mm");
        return Err(ReadError::Value { place, source: ValueError::PixelsPerMm });
    }
    let x = length(shape.x_mm, &format!("{place}.x_mm"))?;
    let y = length(shape.y_mm, &format!("{place}.y_mm"))?;
    let mut at = Point::new(x, y);
    let mut more = Fields::new();
    let part = match (shape.part_of, pixels_per_mm) {
        (None, _) => None,
        (Some(part), Some(per_mm)) => {
            let place = format!("{place}.part_of");
            at = place_of_whole(&part, at, per_mm, &place)?;
            carry::tuck(&mut more, "part_of", part.more);
            Some(Part {
                of: part.picture,
                of_width_px: part.width_px,
                of_height_px: part.height_px,
                left_px: part.left_px,
                top_px: part.top_px,
            })
        }
        (Some(_), None) => {
            let place = format!("{place}.pixels_per_mm");
            return Err(ReadError::Value { place, source: ValueError::PartWithoutSize });
        }
    };
    more.extend(shape.more);
    Ok(Art { file: shape.file, at, pixels_per_mm, part, carried: carry::carried(more) })
}

/// How far a part may lie from where its picture says, in millimetres, before its own place counts.
const PART_TOLERANCE: f64 = 1e-6;

/// Where the whole picture lies whose part lies here: where it says, so that nothing is lost to rounding, unless the part
/// was moved by a program that knew nothing of that.
fn place_of_whole(part: &PartShape, at: Point, per_mm: f64, place: &str) -> Result<Point, ReadError> {
    let along = |said: Option<Number>, own: f64, before_px: u32, field: &str| {
        let before = f64::from(before_px) / per_mm;
        let said = said.map(|said| length(said, &format!("{place}.{field}"))).transpose()?;
        let is_there = |said: &f64| (said + before - own).abs() <= PART_TOLERANCE;
        Ok::<f64, ReadError>(said.filter(is_there).unwrap_or(own - before))
    };
    Ok(Point::new(
        along(part.x_mm, at.x, part.left_px, "x_mm")?,
        along(part.y_mm, at.y, part.top_px, "y_mm")?,
    ))
}

/// The shape in which art is written.
pub(crate) fn art_shape(art: &Art) -> ArtShape {
    let mut more = carry::fields(&art.carried);
    let part_more = carry::untuck(&mut more, "part_of");
    let file_at = art.file_at();
    ArtShape {
        file: art.file.clone(),
        x_mm: Number(file_at.x),
        y_mm: Number(file_at.y),
        pixels_per_mm: art.pixels_per_mm.map(Number),
        part_of: art.part.as_ref().map(|part| PartShape {
            picture: part.of.clone(),
            width_px: part.of_width_px,
            height_px: part.of_height_px,
            left_px: part.left_px,
            top_px: part.top_px,
            x_mm: Some(Number(art.at.x)),
            y_mm: Some(Number(art.at.y)),
            more: part_more,
        }),
        more,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Art, ReadError> {
        art_of(serde_json::from_str(text).unwrap(), "stickers[0].art")
    }

    #[test]
    fn a_part_stands_where_its_own_pixels_lie_and_keeps_the_place_of_the_whole_to_the_bit() {
        let at = Point::new(-11.1 / 3.0, 0.1 + 0.2);
        let part = Part { of: "sea.png".into(), of_width_px: 900, of_height_px: 700, left_px: 7, top_px: 31 };
        let art = Art { part: Some(part), ..Art::new("sea-crab.png", at, Some(23.62)) };
        let text = serde_json::to_string(&art_shape(&art)).unwrap();
        assert_eq!(read(&text).unwrap(), art);
        let shape: ArtShape = serde_json::from_str(&text).unwrap();
        assert!((shape.x_mm.0 - (at.x + 7.0 / 23.62)).abs() < 1e-12);
        assert!((shape.y_mm.0 - (at.y + 31.0 / 23.62)).abs() < 1e-12);
    }

    #[test]
    fn a_part_that_was_moved_by_another_program_takes_its_picture_along() {
        let file = r#"{"file": "a.png", "x_mm": 5, "y_mm": 6, "pixels_per_mm": 10,
            "part_of": {"picture": "sea.png", "width_px": 900, "height_px": 700, "left_px": 20, "top_px": 30, "x_mm": -2, "y_mm": 3, "note": 1}}"#;
        let art = read(file).unwrap();
        assert_eq!((art.at, art.file_at()), (Point::new(3.0, 3.0), Point::new(5.0, 6.0)));
        assert_eq!(art_shape(&art).part_of.unwrap().more.len(), 1);
        let unsized_part = file.replace("\"pixels_per_mm\": 10,", "");
        assert!(read(&unsized_part).unwrap_err().to_string().contains("stickers[0].art.pixels_per_mm"));
    }
}
