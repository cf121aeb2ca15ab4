//! From input to change: asks the hand what to do, and does it.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::{Background, Finding, Layout, RULE_TOLERANCE, Rule, Turns, Zone};

use crate::editor::Editor;
use crate::free_spot;
use crate::gesture::{Deed, Resting, Scene};
use crate::hit::{TurnHandle, turn_handle};
use crate::input::{Input, Key, Stride, Tool};
use crate::label::{Label, Work};
use crate::nudge::{kept_place, kept_turn, softly_snapped, swung};
use crate::sketch::Sketch;

/// How much a turn of the wheel by one pixel zooms: 100 px, one notch of most wheels, is a factor of 1.22.
const ZOOM_PER_PX: f64 = 0.002;

/// How much one key press zooms.
const ZOOM_PER_KEY: f64 = 1.25;

/// How far a sticking piece may be from the pointer, in millimetres.
const STICK_REACH: f64 = 1.5;

/// The clearance of a drawn zone in millimetres (common practice, no source).
const ZONE_CLEARANCE: f64 = 1.5;

/// The pieces in the hand, and the layout as it was before they were lifted.
#[derive(Clone, Debug)]
pub(crate) struct Lifted {
    before: Layout,
    places: Vec<(usize, Placement)>,
}

impl Editor {
    /// Does what a hand or a key asks for. Places and lengths that are not finite are passed over.
    pub fn input(&mut self, input: Input) {
        let deeds = match input {
            Input::Down(press) if press.at.is_finite() => {
                self.with_scene(|hand, scene| hand.down(&press, scene))
            }
            Input::Move { id, at, .. } if at.is_finite() => {
                self.with_scene(|hand, scene| hand.moved(id, at, scene))
            }
            Input::Up { id, at, time_ms } if at.is_finite() => {
                self.with_scene(|hand, scene| hand.up(id, at, time_ms, scene))
            }
            Input::Up { id, .. } | Input::Cancel { id } => self.hand.cancel(id),
            Input::Wheel { at, dx, dy, zoom } if at.is_finite() && dx.is_finite() && dy.is_finite() => {
                vec![Deed::Look(self.wheeled(at, Vec2::new(dx, dy), zoom))]
            }
            Input::Key { key, stride, time_ms } => {
                self.key(key, stride, time_ms);
                return;
            }
            _ => return,
        };
        for deed in deeds {
            self.act(deed);
        }
    }

    /// The handle by which the chosen pieces are turned; nothing if none is chosen that is free and may turn.
    pub fn turn_handle(&self) -> Option<TurnHandle> {
        turn_handle(self.layout(), self.lines(), &self.selection, &self.view)
    }

    /// Whether pieces or a zone are in the hand, and may still go back to where they were.
    pub fn is_carrying(&self) -> bool {
        self.lifted.is_some() || self.held_zone.is_some()
    }

    /// The one pointer that is down and has moved nothing yet: a press that may become a long one. Nothing while something is
    /// drawn.
    pub fn resting(&self) -> Option<Resting> {
        self.hand.resting().filter(|_| !self.tool.is_drawing())
    }

    /// Whether a pointer is down on the canvas.
    pub fn has_pointer(&self) -> bool {
        self.hand.has_pointer()
    }

    /// Whether a pointer is doing something: moving, turning, panning, choosing or drawing.
    pub fn is_busy(&self) -> bool {
        self.hand.is_busy()
    }

    /// Whether the pieces in the hand are being turned.
    pub fn is_turning(&self) -> bool {
        self.is_carrying() && self.hand.is_turning()
    }

    /// The box that is choosing pieces, in sheet millimetres.
    pub fn choosing_box(&self) -> Option<Rect> {
        self.hand.choosing()
    }

    /// The zone or the blob that is being drawn, in sheet millimetres.
    pub fn sketch(&self) -> Option<Sketch> {
        self.hand.sketch()
    }

    /// Gives up what the hand is doing, without a trace; false if it was carrying nothing.
    pub(crate) fn cancel_gesture(&mut self) -> bool {
        let carrying = self.is_carrying();
        for deed in self.hand.give_up() {
            self.act(deed);
        }
        carrying
    }

    /// Ends what the hand is doing; pieces stay where they were carried to.
    pub(crate) fn finish_gesture(&mut self) {
        for deed in self.hand.finish() {
            self.act(deed);
        }
    }

    fn with_scene(&mut self, ask: impl FnOnce(&mut crate::gesture::Hand, &Scene) -> Vec<Deed>) -> Vec<Deed> {
        let scene = Scene {
            layout: self.document.layout(),
            lines: self.document.lines(),
            selection: &self.selection,
            zone: self.zone,
            view: self.view,
            tool: self.tool,
            habits: self.habits,
            still: self.before_preview.is_some(),
        };
        ask(&mut self.hand, &scene)
    }

    fn act(&mut self, deed: Deed) {
        match deed {
            Deed::Choose(pieces) => self.select(pieces),
            Deed::Lift => self.lift(),
            Deed::Carry(travel) => self.carry(travel),
            Deed::Swing { about, degrees, travel } => self.swing(about, degrees, travel),
            Deed::ChooseZone(zone) => self.choose_zone_in_hand(zone),
            Deed::HoldZone(grip) => self.hold_zone(grip),
            Deed::CarryZone(travel) => self.carry_zone(travel),
            Deed::LetGo => self.let_go(),
            Deed::PutBack => {
                if let Some(held) = self.held_zone.take() {
                    self.put_zone_back(held);
                }
                if let Some(lifted) = self.lifted.take() {
                    self.document.set(lifted.before);
                    self.refresh();
                }
            }
            Deed::Look(view) => self.look(view),
            Deed::LookAtPiece(piece) => self.look_at_piece(piece),
            Deed::Fit => self.fit(),
            Deed::AddZone(sketch) => self.add_zone(&sketch),
            Deed::AddBlob(path) => self.add_blob(&path),
            Deed::Undo => {
                self.undo();
            }
            Deed::Redo => {
                self.redo();
            }
            Deed::Redraw => self.revision += 1,
        }
    }

    fn lift(&mut self) {
        let pieces = &self.layout().pieces;
        let free: Vec<usize> = self.selection.iter().copied().filter(|&i| !pieces[i].locked).collect();
        let places = free.iter().map(|&i| (i, pieces[i].placement)).collect();
        self.lifted = Some(Lifted { before: self.layout().clone(), places });
        self.document.lift(free);
        self.refresh();
    }

    fn carry(&mut self, travel: Vec2) {
        self.carry_with(|placement, _| Placement { at: placement.at + travel, ..*placement });
        let Some(&[(piece, _)]) = self.lifted.as_ref().map(|lifted| &lifted.places[..]) else { return };
        if self.habits.stick
            && self.live_findings().iter().any(Finding::is_broken)
            && let Some(placement) = self.slid(piece)
        {
            self.document.carry(&[(piece, placement)]);
            self.refresh();
        }
    }

    /// Turns the lifted pieces about a point of the sheet, then shifts them.
    ///
    /// Several go round together, and each turns as far as its sticker allows.
    fn swing(&mut self, about: Point, degrees: f64, travel: Vec2) {
        let step = self.habits.step;
        let together = softly_snapped(Turn::degrees(degrees), step);
        let are_several = self.lifted.as_ref().is_some_and(|lifted| lifted.places.len() > 1);
        self.carry_with(|placement, turns| {
            let lain = placement.turn.to_degrees();
            let wanted = if are_several {
                Turn::degrees(lain + together.to_degrees())
            } else {
                softly_snapped(Turn::degrees(lain + degrees), step)
            };
            let turn = kept_turn(wanted, turns);
            // The place of a single piece follows the turn that it really makes.
            let made = if are_several { together.to_degrees() } else { turn.to_degrees() - lain };
            let swung = swung(placement, about, made, turn);
            Placement { at: swung.at + travel, ..swung }
        });
    }

    /// Where a carried piece that comes a little too near keeps every rule.
    fn slid(&self, piece: usize) -> Option<Placement> {
        if self.live_findings().iter().any(|finding| self.least_push(finding) > STICK_REACH) {
            return None;
        }
        let others = free_spot::others(self.lines(), piece);
        let placement = &self.layout().pieces[piece].placement;
        free_spot::eased(self.layout(), &others, &self.document.cut_line(piece), placement, STICK_REACH)
    }

    /// At least so far has a carried piece to be pushed to mend a finding, in millimetres: what is missing; and all that is
    /// asked where it lies on something.
    fn least_push(&self, finding: &Finding) -> f64 {
        match finding.rule {
            Rule::Overlap => self.layout().rules.spacing,
            Rule::Zone => {
                let is_it = |zone: &&Zone| finding.zone.as_ref() == Some(&zone.name);
                let clearances = self.layout().zones().iter().filter(is_it).map(|zone| zone.clearance);
                clearances.fold(f64::INFINITY, f64::min)
            }
            _ => finding.limit - finding.measured - RULE_TOLERANCE,
        }
    }

    /// Puts every lifted piece where `place` says, given how it lay and which turns are allowed.
    fn carry_with(&mut self, place: impl Fn(&Placement, &Turns) -> Placement) {
        let Some(lifted) = &self.lifted else { return };
        let layout = &lifted.before;
        let places: Vec<(usize, Placement)> = lifted
            .places
            .iter()
            .filter_map(|&(piece, placement)| {
                let turns = &layout.sticker(&layout.pieces[piece].sticker)?.turns;
                let placed = place(&placement, turns);
                Some((piece, Placement { at: kept_place(placed.at, &layout.sheet), ..placed }))
            })
            .collect();
        self.document.carry(&places);
        self.refresh();
    }

    fn let_go(&mut self) {
        if let Some(held) = self.held_zone.take() {
            self.let_zone_go(held);
        }
        let Some(lifted) = self.lifted.take() else { return };
        let layout = self.layout().clone();
        let turned = |&(i, placement): &(usize, Placement)| layout.pieces[i].placement.turn != placement.turn;
        let work = if lifted.places.iter().any(turned) { Work::Turn } else { Work::Move };
        let pieces: Vec<usize> = lifted.places.iter().map(|&(piece, _)| piece).collect();
        let label = self.worked(work, &pieces);
        if layout == lifted.before {
            self.document.set(layout);
            self.refresh();
        } else {
            self.show(layout);
            self.history.remember(label, lifted.before);
        }
    }

    fn wheeled(&self, at: Point, by: Vec2, zoom: bool) -> crate::view::View {
        let sheet = &self.layout().sheet;
        if zoom {
            // A single jump of a coarse wheel stays within a factor of three.
            let factor = libm::exp((-by.y * ZOOM_PER_PX).clamp(-1.1, 1.1));
            self.view.zoomed(factor, at, sheet)
        } else {
            self.view.panned(-by, sheet)
        }
    }

    fn key(&mut self, key: Key, stride: Stride, time_ms: f64) {
        let step = stride.length(self.habits.step);
        let degrees = stride.degrees(self.habits.step);
        if self.zone_key(key, step, time_ms) {
            return;
        }
        match key {
            Key::Left => self.nudge_at(-step, 0.0, time_ms),
            Key::Right => self.nudge_at(step, 0.0, time_ms),
            Key::Up => self.nudge_at(0.0, -step, time_ms),
            Key::Down => self.nudge_at(0.0, step, time_ms),
            Key::TurnLeft => self.turn_at(-degrees, time_ms),
            Key::TurnRight => self.turn_at(degrees, time_ms),
            Key::Remove => self.remove(),
            Key::Duplicate => self.duplicate(),
            Key::ChooseAll => self.select((0..self.layout().pieces.len()).collect()),
            Key::Undo => {
                self.undo();
            }
            Key::Redo => {
                self.redo();
            }
            Key::ZoomIn => self.zoom(ZOOM_PER_KEY),
            Key::ZoomOut => self.zoom(1.0 / ZOOM_PER_KEY),
            Key::Fit => self.fit(),
            Key::Escape => self.escape(),
        }
    }

    fn escape(&mut self) {
        let busy = self.hand.is_busy();
        self.cancel_gesture();
        if busy {
            return;
        }
        if self.selection.is_empty() && self.zone.is_none() {
            self.set_tool(Tool::Move);
        } else {
            self.select(Vec::new());
        }
    }

    /// Adds a drawn zone to the chosen background as one undo step, and puts the tool away.
    fn add_zone(&mut self, sketch: &Sketch) {
        self.revision += 1;
        let Some(outline) = sketch.outline() else { return };
        let (names, name) = (self.names, self.free_zone_name());
        let added = self.change(Label::DrawZone, |layout| {
            let chosen = layout.background.get_or_insert_with(|| names.background.to_owned()).clone();
            if !layout.backgrounds.iter().any(|background| background.name == chosen) {
                layout.backgrounds.push(Background { name: chosen, ..Background::default() });
            }
            if let Some(zones) = layout.zones_mut() {
                zones.push(Zone::new(name, outline, ZONE_CLEARANCE));
            }
        });
        match added {
            Ok(()) => {
                self.tool = Tool::Move;
                self.choose_zone(self.layout().zones().len().checked_sub(1));
            }
            Err(error) => self.notice = Some(error.into()),
        }
    }
}
