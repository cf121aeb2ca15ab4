//! Where a sticker's picture is and how it lies on the outline.

use kurbo::{Point, Vec2};

use crate::carried::Carried;

/// Where a sticker's picture is and how it lies on the outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Art {
    /// The file, beside the layout or in its bundle.
    pub file: String,
    /// Where the picture's top left corner lies, in the outline's own millimetres: that of the whole picture, also where
    /// the file holds a part of it only. So a drawing keeps its place in its picture, and nothing that is made of it is
    /// rounded another way.
    pub at: Point,
    /// How many of its pixels make a millimetre; nothing for a drawing without pixels, whose unit is the millimetre.
    pub pixels_per_mm: Option<f64>,
    /// Which part of a picture the file holds; nothing if it is a whole one.
    pub part: Option<Part>,
    /// What its file says beyond that.
    pub carried: Carried,
}

/// The picture that a file of pixels was cut out of, and where: whole pixels, each as it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// The picture, as the layout called it.
    pub of: String,
    /// Its pixels in a row.
    pub of_width_px: u32,
    /// Its rows.
    pub of_height_px: u32,
    /// How many of its columns lie to the left of the part.
    pub left_px: u32,
    /// How many of its rows lie above the part.
    pub top_px: u32,
}

impl Art {
    /// A whole picture.
    pub fn new(file: impl Into<String>, at: Point, pixels_per_mm: Option<f64>) -> Art {
        Art { file: file.into(), at, pixels_per_mm, part: None, carried: Carried::default() }
    }

    /// The picture that the drawing came from: the file, or what the file is a part of. Stickers of one picture have the
    /// same.
    pub fn picture(&self) -> &str {
        self.part.as_ref().map_or(&self.file, |part| &part.of)
    }

    /// Where the top left corner of the file's own pixels lies, in the outline's own millimetres.
    pub fn file_at(&self) -> Point {
        match (&self.part, self.pixels_per_mm) {
            (Some(part), Some(per_mm)) => self.at + part.corner_px() / per_mm,
            _ => self.at,
        }
    }

    /// How many of its pixels are printed to the millimetre; nothing for a drawing without pixels, even one whose size
    /// was changed and is therefore counted in the pixels of browsers.
    pub fn pixels_printed(&self) -> Option<f64> {
        let is_drawing = self.file.to_lowercase().ends_with(".svg");
        self.pixels_per_mm.filter(|_| !is_drawing)
    }
}

impl Part {
    /// From the picture's top left corner to the part's, in pixels.
    pub fn corner_px(&self) -> Vec2 {
        Vec2::new(self.left_px.into(), self.top_px.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_lies_where_it_lay_in_its_picture() {
        let whole = Art::new("sea.png", Point::new(-30.0, -20.0), Some(10.0));
        assert_eq!((whole.picture(), whole.file_at()), ("sea.png", whole.at));
        let part =
            Part { of: "sea.png".into(), of_width_px: 900, of_height_px: 700, left_px: 250, top_px: 40 };
        let cut = Art { file: "sea-crab.png".into(), part: Some(part), ..whole };
        assert_eq!((cut.picture(), cut.file_at()), ("sea.png", Point::new(-5.0, -16.0)));
    }
}
