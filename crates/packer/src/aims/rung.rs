//! One step of the ladder: a layout with a size, gap or height put in, made ready for an attempt.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_outline::{Placement, Turn};
use stickleaf_sheet::Layout;

use crate::aims::measure::Measure;
use crate::answer::Place;
use crate::body::Body;
use crate::build::placement_on_grid;
use crate::ground::Ground;

/// How a free piece lies, told so that it can be carried over to another size or sheet: by the middle of its outline.
#[derive(Clone, Copy, Debug)]
pub struct Lie {
    /// Position of the sticker in the layout's list.
    pub sticker: usize,
    /// Where the middle of the rectangle round its outline lies.
    pub at: Point,
    /// Its turn in degrees.
    pub degrees: f64,
    /// Whether it is flipped.
    pub mirrored: bool,
}

/// A layout whose rules, sheet and stickers are those of one step.
pub struct Rung {
    /// The size, gap or height, told so that more is better.
    pub level: f64,
    /// The layout that is searched for; its free pieces mean nothing.
    pub layout: Layout,
    /// The same, made ready for the search.
    pub ground: Ground,
    /// For each sticker, the middle of the rectangle round its outline.
    middles: Vec<Point>,
    /// For what the fields of the ground were made.
    made_for: MadeFor,
    /// What making ready has cost since this was last asked, in points looked up.
    work: u64,
}

/// The largest distance asked and the tallest sheet.
#[derive(Clone, Copy)]
struct MadeFor {
    distance: f64,
    height: f64,
}

/// Fields are made for distances this much larger than asked, so that they last for some steps.
const HEADROOM: f64 = 1.25;
/// What it costs to make one kind of piece ready, in points looked up; measured.
const KIND_WORK: u64 = 20_000;

impl Rung {
    /// The rung of this layout.
    ///
    /// Cost: some milliseconds for each sticker.
    pub fn new<M: Measure>(measure: &M, level: f64, layout: Layout) -> Rung {
        let made_for = MadeFor { distance: asked(&layout) * HEADROOM, height: layout.sheet.height };
        let mut roomy = layout.clone();
        roomy.rules.spacing = made_for.distance;
        let ground = Ground::new(&roomy);
        let work = KIND_WORK * ground.kinds.len() as u64;
        let mut rung = Rung { level, ground, layout, middles: Vec::new(), made_for, work };
        rung.put_in(measure);
        rung
    }

    /// Makes it the rung of another layout; what has been made ready of the outlines is kept if it still holds.
    pub fn move_to<M: Measure>(&mut self, measure: &M, level: f64, layout: Layout) {
        let distance = asked(&layout);
        let holds = distance <= self.made_for.distance
            && layout.sheet.height <= self.made_for.height
            && distance * HEADROOM * HEADROOM >= self.made_for.distance
            && self.has_outlines_of(&layout);
        if !holds {
            let spent = self.work;
            *self = Rung::new(measure, level, layout);
            self.work += spent;
            return;
        }
        (self.level, self.layout) = (level, layout);
        self.put_in(measure);
    }

    /// What making ready has cost since this was last asked, in points looked up.
    pub fn work_done(&mut self) -> u64 {
        std::mem::take(&mut self.work)
    }

    fn has_outlines_of(&self, layout: &Layout) -> bool {
        let lines = || self.ground.kinds.iter().map(|kind| &kind.shape.line);
        let stickers = layout.stickers.iter().map(|sticker| sticker.cut_line(&layout.rules));
        let zones = layout.zones().iter().map(|zone| zone.outline.clone());
        let count = layout.stickers.len() + layout.zones().len();
        lines().len() == count
            && lines().zip(stickers.chain(zones)).all(|(line, other)| Arc::ptr_eq(line, &other))
    }

    /// Puts the numbers of the layout into the ground.
    fn put_in<M: Measure>(&mut self, measure: &M) {
        let Rung { layout, ground, .. } = self;
        (ground.sheet, ground.margin) = (layout.sheet, layout.rules.margin);
        ground.spacing = layout.rules.spacing;
        for (kind, zone) in ground.kinds[ground.stickers..].iter_mut().zip(layout.zones()) {
            kind.clearance = Some(zone.clearance);
        }
        let middle = |(index, middle): (usize, &Point)| {
            (middle.to_vec2() * measure.scale_of(index, self.level)).to_point()
        };
        self.middles = measure.middles().iter().enumerate().map(middle).collect();
    }

    /// Where the middle of a free body's outline lies.
    pub fn middle(&self, body: &Body) -> Point {
        body.placement(&self.ground).apply(self.middles[body.kind])
    }

    /// How the free bodies lie.
    pub fn lies_of(&self, bodies: &[Body]) -> Vec<Lie> {
        let lie = |body: &Body| Lie {
            sticker: body.kind,
            at: self.middle(body),
            degrees: body.degrees,
            mirrored: body.mirrored,
        };
        bodies.iter().filter(|body| !body.held).map(lie).collect()
    }

    /// The free pieces of a layout with the same stickers, as they lie.
    pub fn lies(&self, layout: &Layout) -> Vec<Lie> {
        let free = layout.pieces.iter().filter(|piece| !piece.locked).filter_map(|piece| {
            let kind = layout.sticker_index(&piece.sticker)?;
            Some(Body::new(&self.ground, kind, &piece.placement, false))
        });
        self.lies_of(&free.collect::<Vec<_>>())
    }

    /// Bodies that lie like this, then what is held.
    pub fn bodies(&self, lies: &[Lie]) -> Vec<Body> {
        let free = lies.iter().map(|lie| {
            let turned =
                Placement { at: Point::ZERO, turn: Turn::degrees(lie.degrees), mirrored: lie.mirrored };
            let at = lie.at - turned.apply(self.middles[lie.sticker]).to_vec2();
            let mut body = Body::new(&self.ground, lie.sticker, &Placement { at, ..turned }, false);
            // Degrees beyond a full turn, or below none, are kept as they are.
            body.lie(&self.ground, body.at, lie.degrees, lie.mirrored);
            body
        });
        free.chain(self.ground.held(&self.layout)).collect()
    }

    /// Brings bodies that lie partly beyond the sheet back onto it.
    pub fn bring_back(&self, bodies: &mut [Body]) {
        let inner = self.ground.inner();
        for body in bodies.iter_mut().filter(|body| !body.held) {
            let shift = Vec2::new(
                back((body.bounds.x0, body.bounds.x1), (inner.x0, inner.x1)),
                back((body.bounds.y0, body.bounds.y1), (inner.y0, inner.y1)),
            );
            if shift != Vec2::ZERO {
                body.lie(&self.ground, body.at + shift, body.degrees, body.mirrored);
            }
        }
    }

    /// The places of the free bodies, rounded as answers are.
    pub fn places(&self, bodies: &[Body]) -> Vec<Place> {
        let free = bodies.iter().filter(|body| !body.held);
        free.map(|body| Place { sticker: body.kind, placement: placement_on_grid(&self.ground, body) })
            .collect()
    }
}

/// How far a span moves so that it lies in `room`; not at all if it is too long for that.
fn back(span: (f64, f64), room: (f64, f64)) -> f64 {
    if span.1 - span.0 > room.1 - room.0 {
        0.0
    } else {
        (room.0 - span.0).max(0.0) + (room.1 - span.1).min(0.0)
    }
}

/// The largest distance that a layout asks of two bodies, in millimetres.
pub fn asked(layout: &Layout) -> f64 {
    layout.zones().iter().map(|zone| zone.clearance).fold(layout.rules.spacing, f64::max)
}
