//! A sticker's picture in its place: which pixels make a millimetre, and where it begins.

use kurbo::{Affine, Point, Rect, Vec2};
use stickleaf_outline::Placement;
use stickleaf_sheet::{MM_PER_INCH, Part, Sticker};

use crate::frame::{Frame, affine};
use crate::picture::{NoPicture, Picture, Pictures};
use crate::trouble::PressError;

/// The pixels of browsers to the inch, in which a drawing without pixels counts. Source: CSS Values and Units, 6.2.
pub(crate) const BROWSER_PPI: f64 = 96.0;

/// How far a sticker's outline may reach past its picture, in millimetres: more than any line strays when it is traced.
pub(crate) const MOST_SHORT: f64 = 1.0;

/// A sticker's picture in its place.
#[derive(Clone)]
pub(crate) struct StickerArt {
    pub(crate) picture: Picture,
    /// Where the top left corner of the picture lies, in the sticker's own millimetres; of the whole one, if this is a
    /// part of it.
    pub(crate) at: Point,
    /// How many of its units make a millimetre.
    pub(crate) per_mm: f64,
    /// Which part of the whole picture it is; nothing if it is that.
    part: Option<Part>,
}

impl StickerArt {
    /// The picture of a sticker; nothing if it has none.
    ///
    /// A picture that ends short of the outline is another one than the one that was traced, which is an error.
    pub(crate) fn of(
        sticker: &Sticker,
        pictures: &mut dyn Pictures,
    ) -> Result<Option<StickerArt>, PressError> {
        let Some(art) = &sticker.art else { return Ok(None) };
        let picture = found(pictures, &art.file)?;
        let usual = match &picture {
            Picture::Drawing(_) => BROWSER_PPI / MM_PER_INCH,
            Picture::Pixels(pixels) => pixels.pixels_per_mm.unwrap_or(BROWSER_PPI / MM_PER_INCH),
        };
        let part = art.part.clone().filter(|_| matches!(picture, Picture::Pixels(_)));
        let placed = StickerArt { picture, at: art.at, per_mm: art.pixels_per_mm.unwrap_or(usual), part };
        placed.reaches_round(sticker, &art.file)?;
        Ok(Some(placed))
    }

    fn reaches_round(&self, sticker: &Sticker, file: &str) -> Result<(), PressError> {
        let (picture, line) = (self.bounds(), sticker.outline.bounds());
        let short = [picture.x0 - line.x0, picture.y0 - line.y0, line.x1 - picture.x1, line.y1 - picture.y1];
        let short_mm = short.into_iter().fold(0.0, f64::max);
        if short_mm <= MOST_SHORT {
            return Ok(());
        }
        Err(PressError::OtherSize {
            sticker: sticker.name.clone(),
            file: file.to_owned(),
            width_mm: picture.width(),
            height_mm: picture.height(),
            short_mm,
        })
    }

    /// Where the pixels that are there lie, in the sticker's own millimetres.
    fn bounds(&self) -> Rect {
        let (width, height) = self.picture.size();
        let corner = self.part.as_ref().map_or(Vec2::ZERO, Part::corner_px) / self.per_mm;
        Rect::from_origin_size(self.at + corner, (width / self.per_mm, height / self.per_mm))
    }

    /// Width and height of the whole picture in its own units.
    pub(crate) fn whole_size(&self) -> (f64, f64) {
        let of_whole = |part: &Part| (f64::from(part.of_width_px), f64::from(part.of_height_px));
        self.part.as_ref().map_or_else(|| self.picture.size(), of_whole)
    }

    /// From the whole picture's first column and row to those that are there.
    pub(crate) fn first_pixel(&self) -> (i64, i64) {
        self.part.as_ref().map_or((0, 0), |part| (part.left_px.into(), part.top_px.into()))
    }

    /// A point of the sticker in the whole picture's own units.
    pub(crate) fn own(&self, mm: Point) -> Point {
        ((mm - self.at) * self.per_mm).to_point()
    }

    /// The way from the pixels of a sheet's picture to the whole picture's own units.
    pub(crate) fn to_own(&self, frame: &Frame, placement: &Placement) -> Affine {
        let motion = placement.motion();
        affine(|pixel| self.own(motion.apply_inverse(frame.mm(pixel))))
    }

    /// The way from the whole picture's own units to the pixels of a sheet's picture.
    pub(crate) fn to_frame(&self, frame: &Frame, placement: &Placement) -> Affine {
        let motion = placement.motion();
        affine(|own| frame.pixel(motion.apply(self.at + own.to_vec2() / self.per_mm)))
    }
}

/// The picture in this file, or the reason why there is none.
pub(crate) fn found(pictures: &mut dyn Pictures, file: &str) -> Result<Picture, PressError> {
    pictures.picture(file).map_err(|none| match none {
        NoPicture::Missing(why) => PressError::Missing { file: file.to_owned(), why },
        NoPicture::Damaged(reason) => PressError::Damaged { file: file.to_owned(), reason },
    })
}
