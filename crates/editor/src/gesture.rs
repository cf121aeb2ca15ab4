//! What the pointers on the canvas are doing, as a state machine.
//!
//! It changes nothing itself: every input gives a list of deeds, and the editor does them. One gesture is one undo
//! step; a gesture that is taken away gives [`Deed::PutBack`] and leaves no trace.

use kurbo::{Point, Rect, Vec2};
use stickleaf_outline::Outline;
use stickleaf_sheet::Layout;

use crate::boxed::touches;
use crate::hit::{piece_at, turn_handle};
use crate::input::{Habits, PointerKind, Press, Tool};
use crate::sketch::Sketch;
use crate::tap::LastTap;
use crate::view::View;
use crate::zones::{ZoneGrip, handle_at, zone_at, zone_handles};

/// How long a tap with two or three fingers may last, in milliseconds.
const TAP_MS: f64 = 350.0;

/// How far two fingers may stray before they pan, zoom or turn, in pixels.
const PAIR_START_PX: f64 = 5.0;

/// The shortest distance between two points of a drawn path, in pixels.
const PATH_STEP_PX: f64 = 2.0;

/// What the editor shall do.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Deed {
    /// Choose these pieces.
    Choose(Vec<usize>),
    /// Take the chosen pieces that are not locked into the hand.
    Lift,
    /// Shift them by so many millimetres, counted from where they were lifted.
    Carry(Vec2),
    /// Turn them by so many degrees about a point of the sheet, then shift, counted from how they lay.
    Swing { about: Point, degrees: f64, travel: Vec2 },
    /// Choose this zone, or none.
    ChooseZone(Option<usize>),
    /// Take the chosen zone into the hand.
    HoldZone(ZoneGrip),
    /// Carry what is held of it by so many millimetres, counted from where it was.
    CarryZone(Vec2),
    /// The gesture is finished: one undo step.
    LetGo,
    /// The gesture never was.
    PutBack,
    /// Look at the sheet like this.
    Look(View),
    /// Look at this piece from near; if that is how it is looked at already, at the whole sheet.
    LookAtPiece(usize),
    /// Look at the whole sheet.
    Fit,
    /// A zone was drawn.
    AddZone(Sketch),
    /// A blob was drawn along this path.
    AddBlob(Vec<Point>),
    /// Two fingers tapped.
    Undo,
    /// Three fingers tapped.
    Redo,
    /// Only what the hand shows has changed.
    Redraw,
}

/// What the hand sees.
pub(crate) struct Scene<'a> {
    pub layout: &'a Layout,
    pub lines: &'a [Outline],
    pub selection: &'a [usize],
    /// The chosen zone.
    pub zone: Option<usize>,
    pub view: View,
    pub tool: Tool,
    pub habits: Habits,
    /// Whether pieces stay where they are for now.
    pub still: bool,
}

/// The pointers that are down, and what they do together.
#[derive(Clone, Debug, Default)]
pub(crate) struct Hand {
    pointers: Vec<Pointer>,
    gesture: Gesture,
    tap: Tap,
    last_tap: Option<LastTap>,
}

/// A pointer that rests where it came down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resting {
    /// Which pointer.
    pub id: u64,
    /// Where, in pixels of the canvas.
    pub at: Point,
    /// The piece that it is on.
    pub piece: Option<usize>,
}

#[derive(Clone, Copy, Debug)]
struct Pointer {
    id: u64,
    kind: PointerKind,
    /// Where it came down, in pixels.
    start: Point,
    /// Where it is, in pixels.
    at: Point,
    /// Whether it has left the place where it came down.
    strayed: bool,
}

/// Counts fingers for the taps that undo and redo.
#[derive(Clone, Copy, Debug, Default)]
struct Tap {
    start_ms: f64,
    most: usize,
    strayed: bool,
}

#[derive(Clone, Debug, Default)]
enum Gesture {
    #[default]
    Idle,
    /// One pointer is down and may still be a tap.
    Pressed { on: Target, extend: bool },
    /// Chosen pieces follow the pointer; `from` is the sheet's point that it took hold of.
    Moving { from: Point },
    /// The chosen zone, or sides of it, follow the pointer; `from` is the sheet's point that it took hold of.
    MovingZone { from: Point },
    /// The chosen pieces turn; `from` is the angle at which the pointer took hold.
    Turning { about: Point, from: f64 },
    /// The sheet's point `held` stays under the pointer.
    Panning { held: Point },
    /// Two fingers; they have not begun to do anything.
    Paired { on_piece: bool },
    /// The sheet's point `held` stays under the middle of two fingers, `apart` pixels make the scale `scale`.
    Pinching { held: Point, apart: f64, scale: f64 },
    /// Two fingers carry and turn the chosen pieces.
    Twisting { from: Point, angle: f64 },
    /// A box chooses what it touches, besides the pieces chosen before.
    Choosing { from: Point, to: Point, before: Vec<usize> },
    /// A zone or a blob is drawn, as the tool says.
    Sketching { path: Vec<Point>, tool: Tool },
    /// Nothing more until all pointers are lifted.
    Spent,
}

/// What a pointer came down on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Target {
    Piece(usize),
    Handle {
        about: Point,
    },
    Zone(usize),
    ZoneHandle(ZoneGrip),
    Ground,
    /// Whatever is there: the pointer came down to pan.
    Grip,
}

impl Hand {
    /// A pointer came down.
    pub fn down(&mut self, press: &Press, scene: &Scene) -> Vec<Deed> {
        let mut deeds = self.cancel(press.id);
        let pen_is_down = self.pointers.iter().any(|pointer| pointer.kind == PointerKind::Pen);
        match press.kind {
            // A palm that rests while the pen draws.
            PointerKind::Touch if pen_is_down => return deeds,
            PointerKind::Pen if !self.pointers.is_empty() => {
                // The palm came down before the pen did.
                deeds.extend(self.give_up());
                self.pointers.clear();
                self.gesture = Gesture::Idle;
            }
            PointerKind::Mouse if !self.pointers.is_empty() => return deeds,
            _ => {}
        }
        let strayed = false;
        self.pointers.push(Pointer {
            id: press.id,
            kind: press.kind,
            start: press.at,
            at: press.at,
            strayed,
        });
        if self.pointers.len() == 1 {
            self.tap = Tap { start_ms: press.time_ms, most: 1, strayed: false };
            let on = if press.pan { Target::Grip } else { target(press, scene) };
            let extend = press.extend || scene.tool == Tool::Choose;
            self.gesture = Gesture::Pressed { on, extend };
            return deeds;
        }
        self.tap.most = self.tap.most.max(self.pointers.len());
        if self.pointers.len() == 2 {
            let both_on_chosen = self.both_on_chosen(scene);
            deeds.extend(self.give_up());
            let may_pair = self.pointers.iter().all(|pointer| pointer.kind == PointerKind::Touch);
            self.gesture =
                if may_pair { Gesture::Paired { on_piece: both_on_chosen } } else { Gesture::Spent };
            self.anchor();
        }
        deeds
    }

    /// A pointer moved.
    pub fn moved(&mut self, id: u64, at: Point, scene: &Scene) -> Vec<Deed> {
        let Some(pointer) = self.pointers.iter_mut().find(|pointer| pointer.id == id) else {
            return Vec::new();
        };
        pointer.at = at;
        let start_px = if matches!(self.gesture, Gesture::Paired { .. }) {
            PAIR_START_PX
        } else {
            pointer.kind.drag_start_px()
        };
        if (at - pointer.start).hypot2() >= start_px * start_px {
            pointer.strayed = true;
            self.tap.strayed = true;
        }
        let mut deeds = Vec::new();
        self.begin(scene, &mut deeds);
        self.follow(scene, &mut deeds);
        deeds
    }

    /// A pointer was lifted.
    pub fn up(&mut self, id: u64, at: Point, time_ms: f64, scene: &Scene) -> Vec<Deed> {
        if !self.pointers.iter().any(|pointer| pointer.id == id) {
            return Vec::new();
        }
        let mut deeds = self.moved(id, at, scene);
        let kind = self.pointers.iter().find(|pointer| pointer.id == id).map(|pointer| pointer.kind);
        self.pointers.retain(|pointer| pointer.id != id);
        let before = self.last_tap.take();
        let all_up = self.pointers.is_empty();
        let next = match (std::mem::take(&mut self.gesture), all_up) {
            (Gesture::Pressed { on, extend }, _) => {
                let tap = kind.map(|kind| LastTap { kind, at, time_ms, on });
                match tap.zip(before).and_then(|(tap, before)| tap.twice(&before, extend, scene)) {
                    Some(deed) => deeds.push(deed),
                    None => {
                        deeds.extend(tapped(on, extend, scene));
                        self.last_tap = tap;
                    }
                }
                Gesture::Spent
            }
            (
                Gesture::Moving { .. }
                | Gesture::MovingZone { .. }
                | Gesture::Turning { .. }
                | Gesture::Twisting { .. },
                _,
            ) => {
                deeds.push(Deed::LetGo);
                Gesture::Spent
            }
            (Gesture::Choosing { .. }, _) => {
                deeds.push(Deed::Redraw);
                Gesture::Spent
            }
            (Gesture::Sketching { path, tool }, _) => {
                let is_blob = tool == Tool::DrawBlob;
                deeds.push(if is_blob { Deed::AddBlob(path) } else { Deed::AddZone(Sketch::of(&path)) });
                Gesture::Spent
            }
            // The finger that stays goes on panning.
            (Gesture::Pinching { .. }, false) if self.pointers.len() == 1 => {
                Gesture::Panning { held: scene.view.to_sheet(self.pointers[0].at) }
            }
            (_, false) => Gesture::Spent,
            _ => Gesture::Idle,
        };
        self.gesture = if all_up { Gesture::Idle } else { next };
        if all_up && !self.tap.strayed && time_ms - self.tap.start_ms <= TAP_MS {
            match self.tap.most {
                2 => deeds.push(Deed::Undo),
                3 => deeds.push(Deed::Redo),
                _ => {}
            }
        }
        deeds
    }

    /// The system took a pointer away.
    pub fn cancel(&mut self, id: u64) -> Vec<Deed> {
        if !self.pointers.iter().any(|pointer| pointer.id == id) {
            return Vec::new();
        }
        let deeds = self.give_up();
        self.pointers.retain(|pointer| pointer.id != id);
        self.tap.strayed = true;
        if self.pointers.is_empty() {
            self.gesture = Gesture::Idle;
        }
        deeds
    }

    /// Stops whatever is being done; the pointers that are down do nothing more until they are lifted.
    pub fn give_up(&mut self) -> Vec<Deed> {
        let next = if self.pointers.is_empty() { Gesture::Idle } else { Gesture::Spent };
        match std::mem::replace(&mut self.gesture, next) {
            Gesture::Moving { .. }
            | Gesture::MovingZone { .. }
            | Gesture::Turning { .. }
            | Gesture::Twisting { .. } => {
                vec![Deed::PutBack]
            }
            Gesture::Choosing { before, .. } => vec![Deed::Choose(before)],
            Gesture::Sketching { .. } => vec![Deed::Redraw],
            _ => Vec::new(),
        }
    }

    /// Like [`Hand::give_up`], but pieces stay where they were carried to.
    pub fn finish(&mut self) -> Vec<Deed> {
        let carrying = matches!(
            self.gesture,
            Gesture::Moving { .. }
                | Gesture::MovingZone { .. }
                | Gesture::Turning { .. }
                | Gesture::Twisting { .. }
        );
        let deeds = self.give_up();
        if carrying { vec![Deed::LetGo] } else { deeds }
    }

    /// The box that chooses pieces, in sheet millimetres.
    pub fn choosing(&self) -> Option<Rect> {
        match self.gesture {
            Gesture::Choosing { from, to, .. } => Some(Rect::from_points(from, to)),
            _ => None,
        }
    }

    /// The zone or the blob that is being drawn.
    pub fn sketch(&self) -> Option<Sketch> {
        match &self.gesture {
            Gesture::Sketching { path, tool: Tool::DrawBlob } => Some(Sketch::Blob(path.clone())),
            Gesture::Sketching { path, .. } => Some(Sketch::of(path)),
            _ => None,
        }
    }

    /// The one pointer that is down and has not strayed.
    pub fn resting(&self) -> Option<Resting> {
        let (Gesture::Pressed { on, .. }, [pointer]) = (&self.gesture, &self.pointers[..]) else {
            return None;
        };
        let piece = match on {
            Target::Piece(piece) => Some(*piece),
            Target::Ground | Target::Zone(_) => None,
            Target::Handle { .. } | Target::ZoneHandle(_) | Target::Grip => return None,
        };
        Some(Resting { id: pointer.id, at: pointer.at, piece })
    }

    /// Whether a pointer is down.
    pub fn has_pointer(&self) -> bool {
        !self.pointers.is_empty()
    }

    /// Whether a pointer is down and doing something.
    pub fn is_busy(&self) -> bool {
        !matches!(self.gesture, Gesture::Idle | Gesture::Spent | Gesture::Pressed { .. })
    }

    /// Whether a pointer, or two, turn a piece.
    pub fn is_turning(&self) -> bool {
        matches!(self.gesture, Gesture::Turning { .. } | Gesture::Twisting { .. })
    }

    /// Turns a press that has strayed into what it is going to be.
    fn begin(&mut self, scene: &Scene, deeds: &mut Vec<Deed>) {
        let Some(&first) = self.pointers.first() else { return };
        match self.gesture {
            Gesture::Pressed { on, extend } if first.strayed => {
                self.gesture = dragged(first, on, extend, scene, deeds);
            }
            Gesture::Paired { on_piece } if self.pointers.iter().any(|pointer| pointer.strayed) => {
                self.anchor();
                let (middle, span) = self.pair();
                let from = scene.view.to_sheet(middle);
                self.gesture = if on_piece {
                    deeds.push(Deed::Lift);
                    Gesture::Twisting { from, angle: angle_of(span) }
                } else {
                    Gesture::Pinching { held: from, apart: length(span).max(1.0), scale: scene.view.scale }
                };
            }
            _ => {}
        }
    }

    /// Lets what is going on follow the pointers.
    fn follow(&mut self, scene: &Scene, deeds: &mut Vec<Deed>) {
        let Some(&Pointer { at: pixel, .. }) = self.pointers.first() else { return };
        let (view, sheet) = (scene.view, &scene.layout.sheet);
        let here = view.to_sheet(pixel);
        let pair = (self.pointers.len() > 1).then(|| self.pair());
        match &mut self.gesture {
            Gesture::Moving { from } => deeds.push(Deed::Carry(here - *from)),
            Gesture::MovingZone { from } => deeds.push(Deed::CarryZone(here - *from)),
            Gesture::Turning { about, from } => {
                let degrees = angle_of(here - *about) - *from;
                deeds.push(Deed::Swing { about: *about, degrees, travel: Vec2::ZERO });
            }
            Gesture::Panning { held } => {
                deeds.push(Deed::Look(view.carried(*held, view.scale, pixel, sheet)));
            }
            Gesture::Pinching { held, apart, scale } => {
                let Some((middle, span)) = pair else { return };
                let wanted = *scale * (length(span).max(1.0) / *apart);
                deeds.push(Deed::Look(view.carried(*held, wanted, middle, sheet)));
            }
            Gesture::Twisting { from, angle } => {
                let Some((middle, span)) = pair else { return };
                let degrees = angle_of(span) - *angle;
                let travel = view.to_sheet(middle) - *from;
                deeds.push(Deed::Swing { about: *from, degrees, travel });
            }
            Gesture::Choosing { from, to, before } => {
                *to = here;
                let within = Rect::from_points(*from, *to);
                let touched = |piece: &usize| touches(&scene.lines[*piece], within);
                let mut chosen = before.clone();
                chosen.extend((0..scene.lines.len()).filter(touched));
                deeds.push(Deed::Choose(chosen));
            }
            Gesture::Sketching { path, .. } => {
                let step = view.length(PATH_STEP_PX);
                if path.last().is_none_or(|last| (here - *last).hypot2() >= step * step) {
                    path.push(here);
                    deeds.push(Deed::Redraw);
                }
            }
            Gesture::Idle | Gesture::Pressed { .. } | Gesture::Paired { .. } | Gesture::Spent => {}
        }
    }

    /// Counts straying from where the pointers are now.
    fn anchor(&mut self) {
        for pointer in &mut self.pointers {
            pointer.start = pointer.at;
            pointer.strayed = false;
        }
    }

    /// The middle of the first two pointers and the way from one to the other, in pixels.
    fn pair(&self) -> (Point, Vec2) {
        let (a, b) = (self.pointers[0].at, self.pointers[1].at);
        (a.midpoint(b), b - a)
    }

    /// Whether both fingers are on chosen pieces that are free.
    fn both_on_chosen(&self, scene: &Scene) -> bool {
        let on = |pointer: &Pointer| {
            let slop = scene.view.length(pointer.kind.slop_px());
            piece_at(scene.lines, scene.selection, scene.view.to_sheet(pointer.at), slop)
                .is_some_and(|piece| scene.selection.contains(&piece) && !scene.layout.pieces[piece].locked)
        };
        !scene.still
            && !scene.tool.is_drawing()
            && !scene.habits.fingers_only_look
            && self.pointers.iter().all(on)
    }
}

fn target(press: &Press, scene: &Scene) -> Target {
    if scene.tool.is_drawing() {
        return Target::Ground;
    }
    let handle = turn_handle(scene.layout, scene.lines, scene.selection, &scene.view);
    let reach = press.kind.handle_reach_px();
    if let Some(handle) = handle.filter(|handle| (handle.at - press.at).hypot2() <= reach * reach)
        && !scene.still
    {
        return Target::Handle { about: handle.about };
    }
    let slop = scene.view.length(press.kind.slop_px());
    let at = scene.view.to_sheet(press.at);
    // A chosen zone comes first: its handles, then itself, but for a piece that lies on it.
    let chosen = scene.zone.and_then(|zone| scene.layout.zones().get(zone)).filter(|_| !scene.still);
    let handles = chosen.map(|zone| zone_handles(zone, &scene.view)).unwrap_or_default();
    if let Some(grip) = handle_at(&handles, press.at, reach) {
        return Target::ZoneHandle(grip);
    }
    if let Some(piece) = piece_at(scene.lines, scene.selection, at, slop) {
        return Target::Piece(piece);
    }
    let zone = zone_at(scene.layout, scene.zone, at, slop).filter(|_| scene.tool == Tool::Move);
    zone.map_or(Target::Ground, Target::Zone)
}

/// What a tap does.
fn tapped(on: Target, extend: bool, scene: &Scene) -> Option<Deed> {
    match on {
        Target::Piece(piece) if extend => Some(Deed::Choose(toggled(scene.selection, piece))),
        Target::Piece(piece) => Some(Deed::Choose(vec![piece])),
        Target::Zone(zone) if !extend && !scene.still => Some(Deed::ChooseZone(Some(zone))),
        Target::Ground if !extend && !scene.tool.is_drawing() => Some(Deed::ChooseZone(None)),
        _ => None,
    }
}

/// What a drag becomes.
fn dragged(pointer: Pointer, on: Target, extend: bool, scene: &Scene, deeds: &mut Vec<Deed>) -> Gesture {
    let from = scene.view.to_sheet(pointer.start);
    let only_look = pointer.kind == PointerKind::Touch && scene.habits.fingers_only_look;
    match on {
        Target::Handle { about } if !only_look => {
            deeds.push(Deed::Lift);
            Gesture::Turning { about, from: angle_of(from - about) }
        }
        Target::Piece(piece) if !only_look && !scene.still && !scene.layout.pieces[piece].locked => {
            if !scene.selection.contains(&piece) {
                let chosen = if extend { toggled(scene.selection, piece) } else { vec![piece] };
                deeds.push(Deed::Choose(chosen));
            }
            deeds.push(Deed::Lift);
            Gesture::Moving { from }
        }
        Target::ZoneHandle(grip) if !only_look => {
            deeds.push(Deed::HoldZone(grip));
            Gesture::MovingZone { from }
        }
        Target::Zone(zone) if !only_look && !scene.still && scene.zone == Some(zone) => {
            deeds.push(Deed::HoldZone(ZoneGrip::WHOLE));
            Gesture::MovingZone { from }
        }
        Target::Grip => Gesture::Panning { held: from },
        _ if scene.tool.is_drawing() && !only_look && !scene.still => {
            Gesture::Sketching { path: vec![from], tool: scene.tool }
        }
        _ if pointer.kind == PointerKind::Touch && scene.tool != Tool::Choose => {
            Gesture::Panning { held: from }
        }
        _ => {
            let before = if extend { scene.selection.to_vec() } else { Vec::new() };
            Gesture::Choosing { from, to: from, before }
        }
    }
}

fn toggled(selection: &[usize], piece: usize) -> Vec<usize> {
    let mut chosen: Vec<usize> = selection.iter().copied().filter(|&other| other != piece).collect();
    if chosen.len() == selection.len() {
        chosen.push(piece);
    }
    chosen
}

fn length(way: Vec2) -> f64 {
    way.hypot2().sqrt()
}

/// The direction of a way in degrees, clockwise as seen from the right.
fn angle_of(way: Vec2) -> f64 {
    libm::atan2(way.y, way.x) * (180.0 / core::f64::consts::PI)
}
