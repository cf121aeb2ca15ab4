//! The pictures of stickers and backgrounds, decoded once and shared by all who draw.

use std::collections::BTreeMap;

use kurbo::Rect;
use leptos::prelude::*;
use stickleaf_sheet::{Art, MM_PER_INCH};
use web_sys::{CanvasRenderingContext2d, File, HtmlImageElement, ImageBitmap};

/// A decoded picture, perhaps smaller than its file.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    source: Source,
    /// The width of the file's picture: pixels, or CSS pixels for a drawing without pixels.
    width_px: f64,
    /// Its height.
    height_px: f64,
}

#[derive(Clone, Debug, PartialEq)]
enum Source {
    Bitmap(ImageBitmap),
    Element(HtmlImageElement),
}

impl Picture {
    /// A decoded bitmap, perhaps smaller than the file's picture, whose size is given.
    pub fn bitmap(bitmap: ImageBitmap, width_px: f64, height_px: f64) -> Picture {
        Picture { source: Source::Bitmap(bitmap), width_px, height_px }
    }

    /// A loaded image element.
    pub fn element(element: HtmlImageElement) -> Picture {
        let (width_px, height_px) = (element.natural_width().into(), element.natural_height().into());
        Picture { source: Source::Element(element), width_px, height_px }
    }

    /// The same picture, taken to be of this size.
    pub fn sized(self, width_px: f64, height_px: f64) -> Picture {
        Picture { width_px, height_px, ..self }
    }

    /// Where the file's picture lies, in the millimetres of the sticker's own outline.
    ///
    /// A drawing without pixels has the millimetre as its unit; browsers count 96 of its pixels to the inch
    /// (CSS Values and Units).
    pub fn place(&self, art: &Art) -> Rect {
        let pixels_per_mm = art.pixels_per_mm.unwrap_or(96.0 / MM_PER_INCH);
        let size = kurbo::Size::new(self.width_px, self.height_px) / pixels_per_mm;
        Rect::from_origin_size(art.file_at(), size)
    }

    /// Where the whole picture of a background lies on a card with this edge: as wide as the card, from its top down, in
    /// the picture's own proportions. A card that becomes shorter cuts it off, as it cuts off the zones.
    pub fn across(&self, edge: Rect) -> Rect {
        across(edge, self.width_px, self.height_px)
    }

    /// How many pixels the file's picture has in a row; nothing for a drawing without pixels.
    pub fn columns(&self) -> Option<f64> {
        matches!(self.source, Source::Bitmap(_)).then_some(self.width_px)
    }

    /// Draws the whole picture into a rectangle of the context's own units; whatever the context clips is left out.
    pub fn draw(&self, context: &CanvasRenderingContext2d, place: Rect) {
        let Rect { x0, y0, .. } = place;
        let (width, height) = (place.width(), place.height());
        let drawn = match &self.source {
            Source::Bitmap(bitmap) => {
                context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, x0, y0, width, height)
            }
            Source::Element(element) => {
                context.draw_image_with_html_image_element_and_dw_and_dh(element, x0, y0, width, height)
            }
        };
        // A picture that cannot be drawn leaves its outline empty, as one that is missing does.
        let _ = drawn;
    }
}

fn across(edge: Rect, width_px: f64, height_px: f64) -> Rect {
    // A drawing that tells no size of its own has the card's proportions.
    let is_known = width_px > 0.0 && height_px > 0.0;
    let height = if is_known { edge.width() * height_px / width_px } else { edge.height() };
    Rect::new(edge.x0, edge.y0, edge.x1, edge.y0 + height)
}

/// All pictures there are, by file name.
#[derive(Clone, Copy)]
pub struct Pictures {
    by_file: RwSignal<BTreeMap<String, Picture>, LocalStorage>,
    asked: StoredValue<Vec<String>>,
    /// The files that pictures came from, each with the name under which its picture is kept.
    sources: StoredValue<Vec<(SourceMark, String)>>,
}

/// What tells a file of this visit from others: its name, its bytes, and when it was last changed.
#[derive(Clone, Debug, PartialEq)]
struct SourceMark {
    name: String,
    bytes: f64,
    changed_ms: f64,
}

impl SourceMark {
    fn of(file: &File) -> SourceMark {
        SourceMark { name: file.name(), bytes: file.size(), changed_ms: file.last_modified() }
    }
}

impl Pictures {
    /// None yet.
    pub fn new() -> Pictures {
        Pictures {
            by_file: RwSignal::new_local(BTreeMap::new()),
            asked: StoredValue::new(Vec::new()),
            sources: StoredValue::new(Vec::new()),
        }
    }

    /// The picture of this name, once it is there; the caller is called again when another one comes.
    pub fn get(self, file: &str) -> Option<Picture> {
        self.by_file.with(|pictures| pictures.get(file).cloned())
    }

    /// All of them by name, for one frame of drawing; not followed.
    pub fn with_untracked<T>(self, look: impl FnOnce(&BTreeMap<String, Picture>) -> T) -> T {
        self.by_file.with_untracked(look)
    }

    /// Makes the caller be called again when another picture comes.
    pub fn track(self) {
        self.by_file.track();
    }

    /// Adds a picture, or puts it in another one's place.
    pub fn put(self, file: String, picture: Picture) {
        self.by_file.update(|pictures| {
            pictures.insert(file, picture);
        });
    }

    /// Remembers which file a picture comes from.
    pub fn note_source(self, file: &File, name: &str) {
        self.sources.update_value(|sources| sources.push((SourceMark::of(file), name.to_owned())));
    }

    /// The name under which the picture of this file is there already, so that it need not be decoded again.
    pub fn name_of(self, file: &File) -> Option<String> {
        let mark = SourceMark::of(file);
        let is_there = |name: &String| self.with_untracked(|pictures| pictures.contains_key(name));
        self.sources.with_value(|sources| {
            let known = sources.iter().filter(|(known, _)| *known == mark).map(|(_, name)| name);
            known.rev().find(|name| is_there(name)).cloned()
        })
    }

    /// Forgets all of them, what was asked for, and where they came from.
    pub fn clear(self) {
        self.asked.set_value(Vec::new());
        self.sources.set_value(Vec::new());
        self.by_file.set(BTreeMap::new());
    }

    /// True the first time that this file is asked for since it was last forgotten.
    pub fn is_new(self, file: &str) -> bool {
        let mut is_new = false;
        self.asked.update_value(|asked| {
            is_new = !asked.iter().any(|known| known == file);
            if is_new {
                asked.push(file.to_owned());
            }
        });
        is_new
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_background_keeps_its_scale_on_a_lower_card() {
        let (whole, lower) = (Rect::new(10.0, 20.0, 220.0, 316.0), Rect::new(10.0, 20.0, 220.0, 216.0));
        assert_eq!(across(whole, 1050.0, 1480.0), whole);
        assert_eq!(across(lower, 1050.0, 1480.0), whole);
        assert_eq!(across(lower, 0.0, 0.0), lower);
    }
}
