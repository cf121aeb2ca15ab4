//! Pieces that lie on the sheet already, with what tells quickly what is near them and what room they leave.

use kurbo::Rect;

use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::rearrange::boxes::Boxes;
use crate::room::Room;

/// Bodies that stay where they are while more are put down.
pub struct Laid {
    /// In the order in which they were put down. Add to them by [`Laid::put`] only.
    pub bodies: Vec<Body>,
    /// The room that they leave.
    pub room: Room,
    boxes: Boxes,
    /// No body has a say further from its bounds than this, in millimetres.
    furthest: f64,
}

impl Laid {
    /// These bodies.
    pub fn new(ground: &Ground, bodies: &[Body]) -> Laid {
        let asked = |kind: &Kind| kind.clearance.unwrap_or(ground.spacing);
        let most = |of: &dyn Fn(&Kind) -> f64| ground.kinds.iter().map(of).fold(0.0, f64::max);
        Laid {
            room: Room::new(ground, bodies),
            boxes: Boxes::new(ground.sheet.bounds(), bodies.iter().map(|body| body.bounds).collect()),
            bodies: bodies.to_vec(),
            furthest: most(&asked).max(ground.spacing) + most(&|kind| kind.shape.field.doubt()) + BLUR,
        }
    }

    /// Puts one more down.
    pub fn put(&mut self, ground: &Ground, body: Body) {
        self.room.take(ground, &body);
        self.boxes.push(body.bounds);
        self.bodies.push(body);
    }

    /// The bodies that may be too near something with these bounds, in order; `on` says when it is enough.
    pub fn near<'a>(&'a self, bounds: Rect, mut on: impl FnMut(&'a Body) -> bool) {
        let over = bounds.inflate(self.furthest, self.furthest);
        self.boxes.near(over, |index| on(&self.bodies[index]));
    }
}

/// What rounding takes away at most, in millimetres, and much more.
const BLUR: f64 = 1e-3;

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;
    use crate::build::{NOISE, is_free};

    #[test]
    fn what_is_put_down_is_in_the_way_from_then_on() {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 300.0, height: 300.0, ..Sheet::default() },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        });
        let body = |x: f64, y: f64| Body::new(&ground, 0, &Placement::at(x, y), false);
        let mut laid = Laid::new(&ground, &[]);
        let is_free = |laid: &Laid, x: f64, y: f64| is_free(&ground, laid, &body(x, y), NOISE, &mut 0);
        for row in 0..12 {
            for column in 0..12 {
                let (x, y) = (9.0 + 12.0 * f64::from(column), 9.0 + 12.0 * f64::from(row));
                assert!(is_free(&laid, x, y), "{x} {y}");
                laid.put(&ground, body(x, y));
                assert!(!is_free(&laid, x + 11.99, y) && !is_free(&laid, x, y + 11.99));
            }
        }
        assert_eq!(laid.bodies.len(), 144);
    }
}
