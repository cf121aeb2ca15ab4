//! One piece on the sheet: its white border, then its art, both within its cut line.

use std::sync::Arc;

use kurbo::{Affine, Point, Rect};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::Sticker;

use crate::art::StickerArt;
use crate::compose::band::Band;
use crate::compose::copy::whole_shift;
use crate::coverage::{Window, coverage};
use crate::frame::Frame;
use crate::picture::{Drawing, Picture, Pictures, Pixels};
use crate::resample::{Beyond, Sampler};
use crate::trouble::PressError;

/// The colour of the border.
const WHITE: [u8; 3] = [255; 3];

/// A piece ready to be laid on any band.
pub(crate) struct Laid {
    /// Its cut line in pixels.
    line: Vec<Point>,
    bounds: Rect,
    art: Paint,
}

/// What is painted within the border.
pub(crate) enum Paint {
    Nothing,
    /// Pixels copied from this many columns and rows further on.
    Copied(Arc<Pixels>, (i64, i64)),
    /// Pixels looked up, the way to those of the whole picture from the sheet's, and which of these is their first.
    LookedUp(Arc<Pixels>, Affine, (i64, i64)),
    /// A drawing painted where it lies, once its first row comes.
    Painted {
        drawing: Arc<dyn Drawing>,
        to_frame: Affine,
        done: Option<(Window, Vec<u8>)>,
    },
}

impl Laid {
    /// The piece of this sticker with this cut line, in sheet millimetres.
    pub(crate) fn new(
        sticker: &Sticker,
        placement: &Placement,
        line: &Outline,
        frame: &Frame,
        pictures: &mut dyn Pictures,
    ) -> Result<Laid, PressError> {
        let line = frame.ring(line.points());
        let bounds = line.iter().fold(Rect::from_points(line[0], line[0]), |all, &p| all.union_pt(p));
        let art = match StickerArt::of(sticker, pictures)? {
            None => Paint::Nothing,
            Some(art) => paint(&art, frame, placement),
        };
        Ok(Laid { line, bounds, art })
    }

    /// Lays what belongs on this band.
    pub(crate) fn lay(&mut self, band: &mut Band) {
        let Some(window) = band.window.around(self.bounds) else {
            if self.bounds.y1 < band.window.y as f64 {
                // Its rows have passed: what was painted is not needed any more.
                self.art = Paint::Nothing;
            }
            return;
        };
        let cover = coverage([&self.line[..]], window);
        let whole = Window {
            y: self.bounds.y0.floor() as i64,
            height: self.bounds.height().ceil() as usize + 1,
            ..window
        };
        let colour = self.art.looked_up(whole);
        for (index, &share) in cover.iter().enumerate() {
            if share <= 0.0 {
                continue;
            }
            let (x, y) = (window.x + (index % window.width) as i64, window.y + (index / window.width) as i64);
            band.lay(x, y, WHITE, share);
            if let Some((colour, alpha)) = colour(x, y) {
                band.lay(x, y, colour, alpha * share);
            }
        }
    }
}

/// What paints this art in its place.
pub(crate) fn paint(art: &StickerArt, frame: &Frame, placement: &Placement) -> Paint {
    match &art.picture {
        Picture::Drawing(drawing) => {
            Paint::Painted { drawing: drawing.clone(), to_frame: art.to_frame(frame, placement), done: None }
        }
        Picture::Pixels(pixels) => {
            let way = art.to_own(frame, placement);
            let (left, top) = art.first_pixel();
            match whole_shift(way, art.whole_size()) {
                Some((across, down)) => Paint::Copied(pixels.clone(), (across - left, down - top)),
                None => Paint::LookedUp(pixels.clone(), way, (left, top)),
            }
        }
    }
}

/// Gives colour and alpha for a column and row of the sheet's picture; nothing where it is clear.
pub(crate) type Lookup<'a> = Box<dyn Fn(i64, i64) -> Option<([u8; 3], f32)> + 'a>;

impl Paint {
    /// The way to look its colours up; `whole` is the window that its piece takes in all.
    pub(crate) fn looked_up(&mut self, whole: Window) -> Lookup<'_> {
        match self {
            Paint::Nothing => Box::new(|_, _| None),
            Paint::Copied(pixels, (across, down)) => {
                let (across, down) = (*across, *down);
                Box::new(move |x, y| pixel(&pixels.rgba, pixels.width_px as usize, x + across, y + down))
            }
            Paint::LookedUp(pixels, way, first) => {
                let way = *way;
                let reduction = way.determinant().abs().sqrt();
                let sampler = Sampler::new(pixels, Beyond::Clear, reduction).of_part(*first);
                Box::new(move |x, y| {
                    let at = way * Point::new(x as f64 + 0.5, y as f64 + 0.5);
                    Some(sampler.at(at.x, at.y))
                })
            }
            Paint::Painted { drawing, to_frame, done } => {
                let (window, rgba) = done.get_or_insert_with(|| {
                    let moved = to_frame.then_translate((-(whole.x as f64), -(whole.y as f64)).into());
                    (whole, drawing.painted(moved, whole.width as u32, whole.height as u32))
                });
                let (left, top, width) = (window.x, window.y, window.width);
                Box::new(move |x, y| pixel(rgba, width, x - left, y - top))
            }
        }
    }
}

/// The pixel in this column and row; nothing beyond the picture or where it is clear.
fn pixel(rgba: &[u8], width: usize, x: i64, y: i64) -> Option<([u8; 3], f32)> {
    if x < 0 || x >= width as i64 || y < 0 {
        return None;
    }
    let start = (y as usize * width + x as usize) * 4;
    match rgba.get(start..start + 4)? {
        [_, _, _, 0] => None,
        &[red, green, blue, alpha] => Some(([red, green, blue], f32::from(alpha) / 255.0)),
        _ => None,
    }
}
