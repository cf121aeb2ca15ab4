//! Layout, selection, view, gesture and history in one: the entry.

use kurbo::{Point, Size};
use stickleaf_outline::Outline;
use stickleaf_sheet::{Finding, Layout, LayoutError, Piece, Score};

use crate::act::Lifted;
use crate::document::Document;
use crate::gesture::Hand;
use crate::history::History;
use crate::input::{Habits, Tool};
use crate::label::{Label, ZoneWork};
use crate::measure::Measure;
use crate::names::Names;
use crate::refusal::Refusal;
use crate::view::View;
use crate::zones::HeldZone;

/// A layout under a hand. See the crate's first page.
#[derive(Clone, Debug)]
pub struct Editor {
    pub(crate) document: Document,
    pub(crate) history: History,
    pub(crate) selection: Vec<usize>,
    pub(crate) view: View,
    /// Whether the view follows the canvas's size, as after [`Editor::fit`].
    pub(crate) fitted: bool,
    pub(crate) hand: Hand,
    pub(crate) tool: Tool,
    /// What the artist likes the hand to do.
    pub habits: Habits,
    /// What it calls what it makes.
    pub names: Names,
    pub(crate) revision: u64,
    pub(crate) layout_revision: u64,
    pub(crate) measures: Vec<Measure>,
    pub(crate) live: Vec<Finding>,
    pub(crate) before_preview: Option<Layout>,
    pub(crate) notice: Option<Refusal>,
    pub(crate) last_nudge: Option<LastNudge>,
    pub(crate) lifted: Option<Lifted>,
    /// The chosen zone of the background in force.
    pub(crate) zone: Option<usize>,
    pub(crate) held_zone: Option<HeldZone>,
}

/// The last step made with a key, so that further ones may join it.
#[derive(Clone, Debug)]
pub(crate) struct LastNudge {
    pub time_ms: f64,
    pub layout_revision: u64,
    pub what: Nudged,
}

/// What such a step was done to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Nudged {
    /// These pieces.
    Pieces(Vec<usize>),
    /// This zone, in this way.
    Zone(usize, ZoneWork),
}

/// How much room a piece gets that is looked at from near, as a multiple of its size: a turn handle fits beside it.
const PIECE_ROOM: f64 = 1.6;

/// How large the canvas is taken to be until its size is known, in pixels.
const FIRST_CANVAS: Size = Size::new(800.0, 600.0);

impl Editor {
    /// An editor for a valid layout, nothing chosen, the whole sheet in view.
    pub fn new(layout: Layout) -> Editor {
        let view = View::fitted(&layout.sheet, FIRST_CANVAS);
        Editor {
            document: Document::new(layout),
            history: History::default(),
            selection: Vec::new(),
            view,
            fitted: true,
            hand: Hand::default(),
            tool: Tool::Move,
            habits: Habits::default(),
            names: Names::default(),
            revision: 1,
            layout_revision: 1,
            measures: Vec::new(),
            live: Vec::new(),
            before_preview: None,
            notice: None,
            last_nudge: None,
            lifted: None,
            zone: None,
            held_zone: None,
        }
    }

    /// The layout as it is seen now, a carried piece where the hand holds it.
    pub fn layout(&self) -> &Layout {
        self.document.layout()
    }

    /// The cut line of every piece where it lies now, in the order of the pieces.
    pub fn lines(&self) -> &[Outline] {
        self.document.lines()
    }

    /// Everything that breaks a rule, then the warnings.
    ///
    /// The whole check after every finished change; while a piece is carried, its own hard rules are the live ones.
    pub fn findings(&self) -> &[Finding] {
        self.document.findings()
    }

    /// The hard rules broken by the pieces under the hand, else by the chosen pieces.
    pub fn live_findings(&self) -> &[Finding] {
        self.document.live().unwrap_or(&self.live)
    }

    /// The distances worth drawing for the pieces under the hand, else for the chosen ones: all broken ones, or the one
    /// of a single piece that has least to spare.
    pub fn measures(&self) -> &[Measure] {
        &self.measures
    }

    /// Counts, density, ceiling and smallest gap. While a piece is carried the smallest gap is the live one.
    pub fn score(&self) -> &Score {
        self.document.score()
    }

    /// A number that grows with every visible change.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// A number that grows with every finished change of the layout, not while a piece is carried: time to save.
    pub fn layout_revision(&self) -> u64 {
        self.layout_revision
    }

    /// Changes the layout as one undo step, named as the artist would say it.
    ///
    /// Chosen pieces stay chosen as far as they are still there. A carried piece is let go first.
    ///
    /// Errors: the layout would make no sense; then it stays as it was.
    pub fn change(
        &mut self,
        label: impl Into<Label>,
        edit: impl FnOnce(&mut Layout),
    ) -> Result<(), LayoutError> {
        self.finish_gesture();
        self.stop_preview();
        let mut layout = self.layout().clone();
        edit(&mut layout);
        self.adopt(label, layout)
    }

    /// Takes another layout as one undo step: what packing found, or an opened file.
    ///
    /// Nothing is chosen afterwards. A sheet of another size is brought into view whole.
    ///
    /// Errors: the layout makes no sense; then the old one stays.
    pub fn replace(&mut self, label: impl Into<Label>, layout: Layout) -> Result<(), LayoutError> {
        self.finish_gesture();
        self.stop_preview();
        self.adopt(label, layout)?;
        self.select(Vec::new());
        Ok(())
    }

    /// Begins anew with another layout: nothing is chosen, the whole sheet is in view, and there is nothing to take back.
    ///
    /// Both revisions go on counting, so that no state of this layout is taken for one of the last. What the artist likes
    /// the hand to do stays.
    ///
    /// Errors: the layout makes no sense; then everything stays.
    pub fn begin(&mut self, layout: Layout) -> Result<(), LayoutError> {
        layout.validate()?;
        let Size { width, height } = self.view.canvas;
        let (revision, layout_revision) = (self.revision + 1, self.layout_revision + 1);
        *self = Editor {
            habits: self.habits,
            names: self.names,
            revision,
            layout_revision,
            ..Editor::new(layout)
        };
        self.set_canvas_size(width, height);
        Ok(())
    }

    /// Shows the best places found so far while packing goes on; they are not in the history.
    ///
    /// Pieces of stickers that the layout does not have are refused as a whole: the picture stays as it was.
    pub fn preview(&mut self, pieces: Vec<Piece>) {
        self.cancel_gesture();
        self.preview_layout(Layout { pieces, ..self.layout().clone() });
    }

    /// The same with everything that packing may change: sizes of stickers and of the sheet too.
    ///
    /// A layout that makes no sense is refused: the picture stays as it was. The view stays where it is.
    pub fn preview_layout(&mut self, layout: Layout) {
        self.cancel_gesture();
        if layout.validate().is_err() {
            return;
        }
        let shown = self.layout().clone();
        self.before_preview.get_or_insert(shown);
        self.document.set(layout);
        self.selection.clear();
        self.refresh();
    }

    /// Whether a preview is shown. Meanwhile the hand can look around, but moves no piece.
    pub fn is_previewing(&self) -> bool {
        self.before_preview.is_some()
    }

    /// Ends the preview: keeps what it shows as one undo step, or goes back to what was there before.
    pub fn end_preview(&mut self, keep: bool) {
        let Some(before) = self.before_preview.take() else { return };
        if keep {
            if before != *self.layout() {
                self.history.remember(Label::Pack, before);
                self.layout_revision += 1;
            }
        } else {
            self.document.set(before);
        }
        self.refresh();
    }

    /// Takes the last change back; false if there is none. A carried piece only goes back to where it was.
    pub fn undo(&mut self) -> bool {
        self.step_through_history(History::undo)
    }

    /// Does again what was undone last; false if there is nothing.
    pub fn redo(&mut self) -> bool {
        self.step_through_history(History::redo)
    }

    /// Whether there is something to take back.
    pub fn can_undo(&self) -> bool {
        self.undo_label().is_some()
    }

    /// Whether there is something to do again.
    pub fn can_redo(&self) -> bool {
        self.redo_label().is_some()
    }

    /// What undo would take back, as the artist would say it.
    pub fn undo_label(&self) -> Option<&Label> {
        self.history.undo_label()
    }

    /// What redo would do again.
    pub fn redo_label(&self) -> Option<&Label> {
        self.history.redo_label()
    }

    /// The chosen pieces, by their position in the layout, in ascending order.
    pub fn selection(&self) -> &[usize] {
        &self.selection
    }

    /// Chooses these pieces and nothing else. Positions that are not there are passed over.
    pub fn select(&mut self, mut pieces: Vec<usize>) {
        pieces.retain(|&piece| piece < self.layout().pieces.len());
        pieces.sort_unstable();
        pieces.dedup();
        self.selection = pieces;
        self.zone = None;
        self.refresh();
    }

    /// How the sheet lies on the canvas.
    pub fn view(&self) -> &View {
        &self.view
    }

    /// Tells the size of the canvas in CSS pixels. A sheet that was fitted stays so, else its middle stays.
    pub fn set_canvas_size(&mut self, width_px: f64, height_px: f64) {
        let size = |px: f64| if px.is_finite() { px.clamp(0.0, 100_000.0) } else { 0.0 };
        let canvas = Size::new(size(width_px), size(height_px));
        let old = self.view.canvas;
        if canvas == old {
            return;
        }
        if self.fitted {
            self.view = View::fitted(&self.layout().sheet, canvas);
        } else {
            let by = (canvas - old) / 2.0;
            let view = View { canvas, ..self.view };
            self.view = view.panned(by.to_vec2(), &self.layout().sheet);
        }
        self.revision += 1;
    }

    /// Brings the whole sheet into view.
    pub fn fit(&mut self) {
        self.view = View::fitted(&self.layout().sheet, self.view.canvas);
        self.fitted = true;
        self.revision += 1;
    }

    /// Zooms by a factor about the middle of the canvas.
    pub fn zoom(&mut self, factor: f64) {
        let middle = (self.view.canvas / 2.0).to_vec2().to_point();
        self.look(self.view.zoomed(factor, middle, &self.layout().sheet));
    }

    /// Brings a point of the sheet, in millimetres, to the middle of the canvas, so near that a square of `width_mm`
    /// about it just fits.
    ///
    /// Looks no closer and from no further away than zooming does. What is not finite or has no width is passed over.
    pub fn look_at(&mut self, point: Point, width_mm: f64) {
        if point.is_finite() && width_mm.is_finite() && width_mm > 0.0 {
            let canvas = self.view.canvas;
            let middle = (canvas / 2.0).to_vec2().to_point();
            let scale = canvas.width.min(canvas.height).max(1.0) / width_mm;
            self.look(self.view.carried(point, scale, middle, &self.layout().sheet));
        }
    }

    /// Brings a piece so near that it fills most of the canvas; if it is looked at like that already, the whole sheet.
    ///
    /// A piece that is not there is passed over.
    pub fn look_at_piece(&mut self, piece: usize) {
        let Some(bounds) = self.lines().get(piece).map(Outline::bounds) else { return };
        let canvas = self.view.canvas;
        let scale = |px: f64, mm: f64| px.max(1.0) / (mm * PIECE_ROOM);
        let scale = scale(canvas.width, bounds.width()).min(scale(canvas.height, bounds.height()));
        let middle = (canvas / 2.0).to_vec2().to_point();
        let near = self.view.carried(bounds.center(), scale, middle, &self.layout().sheet);
        if near == self.view { self.fit() } else { self.look(near) }
    }

    /// What a pointer does on the sheet.
    pub fn tool(&self) -> Tool {
        self.tool
    }

    /// Takes up a tool. A carried piece is let go first.
    pub fn set_tool(&mut self, tool: Tool) {
        if tool != self.tool {
            self.finish_gesture();
            self.tool = tool;
            self.revision += 1;
        }
    }

    /// Why the last thing that the hand did on the canvas could not be done, if so; it is told once.
    pub fn take_notice(&mut self) -> Option<Refusal> {
        self.notice.take()
    }

    /// The piece under a pixel, or the nearest one within so many pixels; a chosen one first, then the topmost.
    pub fn hit(&self, x_px: f64, y_px: f64, slop_px: f64) -> Option<usize> {
        let point = self.view.to_sheet(Point::new(x_px, y_px));
        crate::hit::piece_at(self.lines(), &self.selection, point, self.view.length(slop_px))
    }

    /// Takes a layout as one undo step, if it makes sense and is another one.
    pub(crate) fn adopt(&mut self, label: impl Into<Label>, layout: Layout) -> Result<(), LayoutError> {
        layout.validate()?;
        if layout == *self.layout() {
            return Ok(());
        }
        let before = self.layout().clone();
        self.show(layout);
        self.history.remember(label, before);
        Ok(())
    }

    /// Puts another layout under the hand, without a word to the history.
    pub(crate) fn show(&mut self, layout: Layout) {
        let resized = layout.sheet.bounds() != self.layout().sheet.bounds();
        if layout.background != self.layout().background {
            self.zone = None;
        }
        self.document.set(layout);
        self.layout_revision += 1;
        if resized {
            self.view = View::fitted(&self.layout().sheet, self.view.canvas);
            self.fitted = true;
        }
        let count = self.layout().pieces.len();
        self.selection.retain(|&piece| piece < count);
        self.zone = self.zone.filter(|&zone| zone < self.layout().zones().len());
        self.refresh();
    }

    /// Works out again what is shown beside the pieces under the hand or chosen.
    pub(crate) fn refresh(&mut self) {
        let carried = self.document.carried();
        let pieces = if carried.is_empty() { &self.selection[..] } else { carried };
        self.measures = self.document.measures(pieces);
        self.live = self
            .findings()
            .iter()
            .filter(|finding| finding.is_broken())
            .filter(|finding| finding.pieces.iter().any(|piece| self.selection.contains(piece)))
            .cloned()
            .collect();
        self.revision += 1;
    }

    pub(crate) fn look(&mut self, view: View) {
        if view != self.view {
            self.view = view;
            self.fitted = false;
            self.revision += 1;
        }
    }

    fn stop_preview(&mut self) {
        self.end_preview(false);
    }

    fn step_through_history(&mut self, step: impl FnOnce(&mut History, &Layout) -> Option<Layout>) -> bool {
        self.stop_preview();
        if self.cancel_gesture() {
            return true;
        }
        let Some(layout) = step(&mut self.history, self.document.layout()) else { return false };
        self.show(layout);
        true
    }
}
