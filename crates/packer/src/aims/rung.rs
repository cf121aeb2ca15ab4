//! One step of the ladder: a layout with a size, gap or height put in, made ready for an attempt.

use std::sync::Arc;

use kurbo::{Point, Vec2};
use stickleaf_sheet::Layout;

use crate::answer::Place;
use crate::body::Body;
use crate::build::placement_on_grid;
use crate::ground::Ground;

/// How a free piece lies, told so that it can be carried over to another size or sheet: by the centre of its shape.
#[derive(Clone, Copy, Debug)]
pub struct Lie {
    /// Position of the sticker in the layout's list.
    pub sticker: usize,
    /// Where the centre of its shape lies.
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
    /// For what the fields of the ground were made.
    made_for: MadeFor,
}

/// The largest distance asked and the tallest sheet.
#[derive(Clone, Copy)]
struct MadeFor {
    distance: f64,
    height: f64,
}

/// Fields are made for distances this much larger than asked, so that they last for some steps.
const HEADROOM: f64 = 1.25;

impl Rung {
    /// The rung of this layout.
    ///
    /// Cost: some milliseconds for each sticker.
    pub fn new(level: f64, layout: Layout) -> Rung {
        let made_for = MadeFor { distance: asked(&layout) * HEADROOM, height: layout.sheet.height };
        let mut roomy = layout.clone();
        roomy.rules.spacing = made_for.distance;
        let mut rung = Rung { level, ground: Ground::new(&roomy), layout, made_for };
        rung.put_in();
        rung
    }

    /// The rung of another layout; what this one has made ready of the outlines is kept if it still holds.
    pub fn moved_to(mut self, level: f64, layout: Layout) -> Rung {
        let distance = asked(&layout);
        let holds = distance <= self.made_for.distance
            && layout.sheet.height <= self.made_for.height
            && distance * HEADROOM * HEADROOM >= self.made_for.distance
            && self.has_outlines_of(&layout);
        if !holds {
            return Rung::new(level, layout);
        }
        (self.level, self.layout) = (level, layout);
        self.put_in();
        self
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
    fn put_in(&mut self) {
        let Rung { layout, ground, .. } = self;
        (ground.sheet, ground.margin) = (layout.sheet, layout.rules.margin);
        ground.spacing = layout.rules.spacing;
        for (kind, zone) in ground.kinds[ground.stickers..].iter_mut().zip(layout.zones()) {
            kind.clearance = Some(zone.clearance);
        }
    }

    /// The free pieces of a layout with the same stickers, as they lie.
    pub fn lies(&self, layout: &Layout) -> Vec<Lie> {
        let free = layout.pieces.iter().filter(|piece| !piece.locked).filter_map(|piece| {
            let kind = layout.sticker_index(&piece.sticker)?;
            Some(Body::new(&self.ground, kind, &piece.placement, false))
        });
        lies_of(&free.collect::<Vec<_>>())
    }

    /// Bodies that lie like this, those beyond the sheet brought back onto it; then what is held.
    pub fn bodies(&self, lies: &[Lie]) -> Vec<Body> {
        let origin = stickleaf_outline::Placement::at(0.0, 0.0);
        let free = lies.iter().map(|lie| {
            let mut body = Body::new(&self.ground, lie.sticker, &origin, false);
            body.lie(&self.ground, lie.at, lie.degrees, lie.mirrored);
            let (inner, bounds) = (self.ground.inner(), body.bounds);
            let shift = Vec2::new(
                back((bounds.x0, bounds.x1), (inner.x0, inner.x1)),
                back((bounds.y0, bounds.y1), (inner.y0, inner.y1)),
            );
            if shift != Vec2::ZERO {
                body.lie(&self.ground, lie.at + shift, lie.degrees, lie.mirrored);
            }
            body
        });
        free.chain(self.ground.held(&self.layout)).collect()
    }

    /// The places of the free bodies, rounded as answers are.
    pub fn places(&self, bodies: &[Body]) -> Vec<Place> {
        let free = bodies.iter().filter(|body| !body.held);
        free.map(|body| Place { sticker: body.kind, placement: placement_on_grid(&self.ground, body) })
            .collect()
    }
}

/// How the free bodies lie.
pub fn lies_of(bodies: &[Body]) -> Vec<Lie> {
    let lie =
        |body: &Body| Lie { sticker: body.kind, at: body.at, degrees: body.degrees, mirrored: body.mirrored };
    bodies.iter().filter(|body| !body.held).map(lie).collect()
}

/// How far a span moves so that it lies in `room`; not at all if it is too long for that.
fn back(span: (f64, f64), room: (f64, f64)) -> f64 {
    if span.1 - span.0 > room.1 - room.0 {
        0.0
    } else {
        (room.0 - span.0).max(0.0) + (room.1 - span.1).min(0.0)
    }
}

/// The largest distance that a layout asks of two bodies.
fn asked(layout: &Layout) -> f64 {
    layout.zones().iter().map(|zone| zone.clearance).fold(layout.rules.spacing, f64::max)
}
