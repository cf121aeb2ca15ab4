//! The background picture on the card, and past its edge for the bleed.
//!
//! A picture covers the card from edge to edge. Past the edge comes, first, the picture's own bleed: what an SVG paints
//! there, or a PNG whose true size is the card and the same more on every side. What that leaves clear shows the colour of
//! the picture's edge, repeated outwards.

use std::sync::Arc;

use kurbo::{Affine, Point};
use stickleaf_sheet::{Layout, MM_PER_INCH, Sheet};

use crate::art::{BROWSER_PPI, found};
use crate::compose::band::Band;
use crate::compose::copy::whole_shift;
use crate::frame::Frame;
use crate::picture::{Drawing, Picture, Pictures, Pixels};
use crate::resample::{Beyond, Sampler};
use crate::trouble::PressError;

/// How much the picture's shape may differ from the card's, as a share: whole pixels make it differ a little.
const MOST_OFF_SHAPE: f64 = 0.01;

/// The widest bleed that a picture is taken to bring, in millimetres.
const MOST_OWN_BLEED: f64 = 15.0;

/// How nearly the bleed must be the same on all sides to be one, in millimetres.
const BLEED_TOLERANCE: f64 = 0.3;

/// A background picture in its place: its own units to the sheet's millimetres, for each axis.
pub(crate) struct GroundPicture {
    pub(crate) picture: Picture,
    /// How many of its units make a millimetre, across and down.
    pub(crate) per_mm: (f64, f64),
    /// How far it reaches past the card by its size, in millimetres.
    pub(crate) own_bleed: f64,
}

impl GroundPicture {
    /// The picture of the chosen background; nothing if it has none.
    pub(crate) fn of(
        layout: &Layout,
        pictures: &mut dyn Pictures,
    ) -> Result<Option<GroundPicture>, PressError> {
        let Some(file) = layout.chosen_background().and_then(|chosen| chosen.picture.as_deref()) else {
            return Ok(None);
        };
        let picture = found(pictures, file)?;
        let (width, height) = picture.size();
        let sheet = &layout.sheet;
        if let Some(own_bleed) = own_bleed(&picture, sheet) {
            let per_mm = |units: f64, mm: f64| units / (mm + 2.0 * own_bleed);
            let per_mm = (per_mm(width, sheet.width), per_mm(height, sheet.height));
            return Ok(Some(GroundPicture { picture, per_mm, own_bleed }));
        }
        let off = (width / height) / (sheet.width / sheet.height) - 1.0;
        if off.abs() > MOST_OFF_SHAPE || off.is_nan() {
            return Err(PressError::OtherShape {
                file: file.to_owned(),
                width,
                height,
                sheet_width: sheet.width,
                sheet_height: sheet.height,
            });
        }
        Ok(Some(GroundPicture {
            picture,
            per_mm: (width / sheet.width, height / sheet.height),
            own_bleed: 0.0,
        }))
    }

    /// The way from a point of the sheet in millimetres to the picture's own units.
    pub(crate) fn own(&self) -> Affine {
        let (across, down) = self.per_mm;
        Affine::new([across, 0.0, 0.0, down, self.own_bleed * across, self.own_bleed * down])
    }
}

/// How far the picture's true size reaches past the card, if by the same on every side.
fn own_bleed(picture: &Picture, sheet: &Sheet) -> Option<f64> {
    let per_mm = match picture {
        Picture::Drawing(_) => BROWSER_PPI / MM_PER_INCH,
        Picture::Pixels(pixels) => pixels.pixels_per_mm?,
    };
    let (width, height) = picture.size();
    let (across, down) = (width / per_mm - sheet.width, height / per_mm - sheet.height);
    let is_even = (across - down).abs() <= BLEED_TOLERANCE;
    let bleed = (across + down) / 4.0;
    (is_even && bleed > BLEED_TOLERANCE && bleed <= MOST_OWN_BLEED).then_some(bleed)
}

/// The ground, ready to be laid on any band.
pub(crate) enum Ground {
    Plain,
    Copied(Arc<Pixels>, (i64, i64)),
    LookedUp(Arc<Pixels>, Affine),
    Painted(PaintedGround),
}

impl Ground {
    /// The chosen background's picture; plain if there is none.
    pub(crate) fn of(
        layout: &Layout,
        pictures: &mut dyn Pictures,
        frame: &Frame,
    ) -> Result<Ground, PressError> {
        let Some(placed) = GroundPicture::of(layout, pictures)? else { return Ok(Ground::Plain) };
        let to_mm = crate::frame::affine(|pixel| frame.mm(pixel));
        let way = placed.own() * to_mm;
        Ok(match placed.picture.clone() {
            Picture::Drawing(drawing) => {
                Ground::Painted(PaintedGround::new(drawing, way.inverse(), frame, &layout.sheet))
            }
            Picture::Pixels(pixels) => {
                let way = drawn_to_size(way, &placed, frame, &layout.sheet);
                match whole_shift(way, placed.picture.size()) {
                    Some(shift) => Ground::Copied(pixels, shift),
                    None => Ground::LookedUp(pixels, way),
                }
            }
        })
    }

    /// Lays the part that belongs on this band.
    pub(crate) fn lay(&mut self, band: &mut Band) {
        let window = band.window;
        let mut each = |colour: &dyn Fn(i64, i64) -> ([u8; 3], f32)| {
            for y in window.y..window.y + window.height as i64 {
                for x in window.x..window.x + window.width as i64 {
                    let (colour, alpha) = colour(x, y);
                    band.lay(x, y, colour, alpha);
                }
            }
        };
        match self {
            Ground::Plain => {}
            Ground::Copied(pixels, (across, down)) => {
                each(&|x, y| edge_pixel(pixels, x + *across, y + *down))
            }
            Ground::LookedUp(pixels, way) => {
                let sampler = Sampler::new(pixels, Beyond::Edge, way.determinant().abs().sqrt());
                each(&|x, y| {
                    let at = *way * Point::new(x as f64 + 0.5, y as f64 + 0.5);
                    sampler.at(at.x, at.y)
                });
            }
            Ground::Painted(painted) => painted.lay(band),
        }
    }
}

/// A picture with just as many pixels as the card is copied, even where the card is a fraction of a pixel wider.
fn drawn_to_size(way: Affine, placed: &GroundPicture, frame: &Frame, sheet: &Sheet) -> Affine {
    let (width, height) = sheet.pixels(frame.resolution_ppi);
    let is_to_size =
        placed.own_bleed == 0.0 && placed.picture.size() == (f64::from(width), f64::from(height));
    let shift = -f64::from(frame.bleed_px);
    if is_to_size { Affine::translate((shift, shift)) } else { way }
}

fn edge_pixel(pixels: &Pixels, x: i64, y: i64) -> ([u8; 3], f32) {
    let x = x.clamp(0, i64::from(pixels.width_px) - 1) as usize;
    let y = y.clamp(0, i64::from(pixels.height_px) - 1) as usize;
    let start = (y * pixels.width_px as usize + x) * 4;
    let pixel = &pixels.rgba[start..start + 4];
    ([pixel[0], pixel[1], pixel[2]], f32::from(pixel[3]) / 255.0)
}

/// A drawing as the ground. The rows and columns on the card's edge are repeated below what it paints past it.
pub(crate) struct PaintedGround {
    drawing: Arc<dyn Drawing>,
    to_frame: Affine,
    width: usize,
    /// The first and last column and row that lie wholly on the card.
    columns: (i64, i64),
    rows: (i64, i64),
    /// The first and the last of these rows.
    top: Vec<u8>,
    bottom: Vec<u8>,
}

impl PaintedGround {
    fn new(drawing: Arc<dyn Drawing>, to_frame: Affine, frame: &Frame, sheet: &Sheet) -> PaintedGround {
        let bleed = i64::from(frame.bleed_px);
        let last = |mm: f64| bleed + ((mm * frame.per_mm() + 1e-6).floor() as i64 - 1).max(0);
        let (columns, rows) = ((bleed, last(sheet.width)), (bleed, last(sheet.height)));
        let width = frame.width_px as usize;
        let row =
            |y: i64| drawing.painted(to_frame.then_translate((0.0, -(y as f64)).into()), width as u32, 1);
        let (top, bottom) = (row(rows.0), row(rows.1));
        PaintedGround { drawing, to_frame, width, columns, rows, top, bottom }
    }

    fn lay(&self, band: &mut Band) {
        let window = band.window;
        let moved = self.to_frame.then_translate((0.0, -(window.y as f64)).into());
        let rgba = self.drawing.painted(moved, window.width as u32, window.height as u32);
        for y in window.y..window.y + window.height as i64 {
            let own = &rgba[(y - window.y) as usize * self.width * 4..][..self.width * 4];
            let edge = if y < self.rows.0 {
                &self.top
            } else if y > self.rows.1 {
                &self.bottom
            } else {
                own
            };
            for x in 0..self.width as i64 {
                let (colour, alpha) = rgba_at(own, x);
                let is_on_card = edge == own && (self.columns.0..=self.columns.1).contains(&x);
                if !is_on_card && alpha < 1.0 {
                    let (colour, alpha) = rgba_at(edge, x.clamp(self.columns.0, self.columns.1));
                    band.lay(x, y, colour, alpha);
                }
                band.lay(x, y, colour, alpha);
            }
        }
    }
}

fn rgba_at(row: &[u8], x: i64) -> ([u8; 3], f32) {
    let start = x as usize * 4;
    ([row[start], row[start + 1], row[start + 2]], f32::from(row[start + 3]) / 255.0)
}
