//! Evening out the gaps of a layout that leaves room.

use kurbo::Vec2;

use crate::body::Body;
use crate::contact::{Extra, rough_contacts};
use crate::ground::Ground;
use crate::push::Push;

/// Pieces pushed apart by more and more than the rules ask.
pub struct Settle {
    bodies: Vec<Body>,
    push: Push,
    extra: f64,
    misses: usize,
}

/// The first extra spacing asked, in millimetres, how it grows, and the last.
const FIRST_EXTRA: f64 = 0.3;
const GROWTH: f64 = 1.25;
const LAST_EXTRA: f64 = 40.0;
/// With less missing of the extra spacing than this share of it, it counts as reached.
const REACHED: f64 = 0.15;
/// So often it may be missed in a row before settling ends.
const MOST_MISSES: usize = 3;
const STEPS: usize = 60;
const SWEEPS: usize = 12;

impl Settle {
    /// Starts from these bodies, drawn out to the sheet's margins.
    pub fn new(ground: &Ground, mut bodies: Vec<Body>) -> Settle {
        draw_out(ground, &mut bodies);
        Settle { bodies, push: Push::default(), extra: FIRST_EXTRA, misses: 0 }
    }

    /// Spreads the bodies a little more; whether there may be room for yet more.
    ///
    /// What comes back may break rules: the caller checks it.
    pub fn spread(&mut self, ground: &Ground) -> (Vec<Body>, bool) {
        let extra = Extra { spacing: self.extra, margin: self.extra / 2.0 };
        let mut most = f64::INFINITY;
        for _ in 0..STEPS {
            rough_contacts(ground, &self.bodies, extra, 1.0, &mut self.push.contacts);
            most = self.push.missing().most;
            if most < 0.02 {
                break;
            }
            self.push.step(ground, &mut self.bodies, SWEEPS, 1.0);
        }
        if most <= self.extra * REACHED {
            self.extra *= GROWTH;
            self.misses = 0;
        } else {
            self.misses += 1;
        }
        (self.bodies.clone(), self.misses < MOST_MISSES && self.extra < LAST_EXTRA)
    }
}

/// Moves the free bodies so that what they take up together reaches from margin to margin, across and down.
///
/// A body keeps its place among the others: one at the left end goes to the left margin, one in the middle to the middle.
fn draw_out(ground: &Ground, bodies: &mut [Body]) {
    let free = bodies.iter().filter(|body| !body.held).map(|body| body.bounds);
    let Some(taken) = free.reduce(|a, b| a.union(b)) else { return };
    let inner = ground.inner();
    for body in bodies.iter_mut().filter(|body| !body.held) {
        let x = drawn_out((body.bounds.x0, body.bounds.x1), (taken.x0, taken.x1), (inner.x0, inner.x1));
        let y = drawn_out((body.bounds.y0, body.bounds.y1), (taken.y0, taken.y1), (inner.y0, inner.y1));
        let (degrees, mirrored) = (body.degrees, body.mirrored);
        body.lie(ground, body.at + Vec2::new(x, y), degrees, mirrored);
    }
}

/// How far a span moves so that it lies in `room` as it lay in `taken`.
fn drawn_out(span: (f64, f64), taken: (f64, f64), room: (f64, f64)) -> f64 {
    let width = span.1 - span.0;
    let (play, new_play) = (taken.1 - taken.0 - width, room.1 - room.0 - width);
    let share = if play > 1e-6 { (span.0 - taken.0) / play } else { 0.5 };
    room.0 + share * new_play - span.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_keeps_its_place_among_the_others() {
        assert_eq!(drawn_out((4.0, 6.0), (4.0, 14.0), (4.0, 44.0)), 0.0);
        assert_eq!(drawn_out((12.0, 14.0), (4.0, 14.0), (4.0, 44.0)), 30.0);
        assert_eq!(drawn_out((8.0, 10.0), (4.0, 14.0), (4.0, 44.0)), 15.0);
        // One alone goes to the middle.
        assert_eq!(drawn_out((4.0, 6.0), (4.0, 6.0), (4.0, 44.0)), 19.0);
    }
}
