//! Roughing in: blobs and plain shapes that stand for drawings still to be made.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Outline, Placement};
use stickleaf_sheet::{Layout, LayoutError, Piece, Sticker, Turns, Wanted};

use crate::blob::blob;
use crate::editor::Editor;
use crate::free_spot;
use crate::label::Label;
use crate::nudge::kept_place;
use crate::refusal::Refusal;

/// How far a rough sticker tilts, in degrees: as much as drawings that are brought in.
const TILT: f64 = 15.0;

impl Editor {
    /// Adds a sticker and puts one piece of it at the free spot nearest to the sheet's middle, as one undo step named
    /// `label`.
    ///
    /// What comes back is the new piece, which is chosen; nothing if there is no free spot: then the sticker lies on
    /// the tray only, and what was chosen stays so. A preview is ended, a carried piece let go first.
    ///
    /// Errors: the layout would make no sense, as with an id that is there already; then it stays as it was.
    pub fn add_sticker(&mut self, label: &str, sticker: Sticker) -> Result<Option<usize>, LayoutError> {
        self.finish_gesture();
        self.end_preview(false);
        let mut layout = self.layout().clone();
        let middle = layout.sheet.bounds().center();
        let spot = free_spot::free_for(&layout, self.lines(), &sticker, middle);
        let id = sticker.id.clone();
        layout.stickers.push(sticker);
        layout.pieces.extend(spot.map(|placement| Piece::new(id, placement)));
        let piece = spot.map(|_| layout.pieces.len() - 1);
        self.adopt(label, layout)?;
        if let Some(piece) = piece {
            self.select(vec![piece]);
        }
        Ok(piece)
    }

    /// Makes a rough sticker of what was drawn, lying where it was drawn, as one undo step. The tool stays in the hand,
    /// for the next one.
    pub(crate) fn add_blob(&mut self, path: &[Point]) {
        self.revision += 1;
        if let Err(refusal) = self.try_blob(path) {
            self.notice = Some(refusal);
        }
    }

    fn try_blob(&mut self, path: &[Point]) -> Result<(), Refusal> {
        let drawn = blob(path)?;
        let at = kept_place(drawn.bounds().center(), &self.layout().sheet);
        let (id, name) = unused_name(self.layout(), self.names.blob);
        let mut sticker = Sticker::new(id.clone(), name, shifted(&drawn, -at.to_vec2()));
        sticker.is_rough = true;
        sticker.wanted = Wanted::AtLeast(1);
        sticker.turns = Turns::Within(TILT);
        self.change(Label::DrawBlob, |layout| {
            layout.stickers.push(sticker);
            layout.pieces.push(Piece::new(id, Placement::at(at.x, at.y)));
        })?;
        // While one draws on, a chosen piece would only be in the way.
        self.select(Vec::new());
        Ok(())
    }
}

/// The outline moved by a way on the grid, and on the grid again.
fn shifted(outline: &Outline, by: Vec2) -> Outline {
    let moved = outline.points().iter().map(|&point| point + by);
    // Where it lay it was sound, and whole micrometres further it is so too.
    Outline::new(moved).unwrap_or_else(|_| outline.placed(&Placement::at(by.x, by.y)))
}

/// An id and a name with the lowest number that no sticker has.
fn unused_name(layout: &Layout, blob: &str) -> (Arc<str>, String) {
    let is_free = |(id, name): &(String, String)| {
        layout.stickers.iter().all(|sticker| *sticker.id != **id && sticker.name != *name)
    };
    let (id, name) = (1..)
        .map(|number| (format!("blob-{number}"), format!("{blob} {number}")))
        .find(is_free)
        .unwrap_or_default();
    (id.into(), name)
}
