//! Moving all bodies at once so that no contact is missing anything, as far as contacts are straight.

use kurbo::Vec2;

use crate::body::Body;
use crate::contact::Contact;
use crate::ground::Ground;

/// How far one body moves.
#[derive(Clone, Copy, Debug, Default)]
struct Move {
    shift: Vec2,
    radians: f64,
}

/// How easily a body moves: along, and in turn.
#[derive(Clone, Copy, Debug, Default)]
struct Ease {
    shift: f64,
    turn: f64,
}

/// Room for the work, kept from step to step so that nothing is allocated.
#[derive(Default)]
pub struct Push {
    /// The contacts of the coming step.
    pub contacts: Vec<Contact>,
    moves: Vec<Move>,
    eases: Vec<Ease>,
    weights: Vec<f64>,
}

/// A body's inertia when it turns is that of a disc of this share of its reach.
const GYRATION: f64 = 0.6;

/// What a step found before it moved anything, in millimetres.
#[derive(Clone, Copy, Debug, Default)]
pub struct Missing {
    /// The most that a contact misses.
    pub most: f64,
    /// What all contacts miss together.
    pub total: f64,
}

impl Push {
    /// What the contacts miss.
    pub fn missing(&self) -> Missing {
        let depth = |contact: &Contact| contact.depth.max(0.0);
        Missing {
            most: self.contacts.iter().map(depth).fold(0.0, f64::max),
            total: self.contacts.iter().map(depth).sum(),
        }
    }

    /// Moves the bodies so that the contacts miss less, none further than `most` millimetres.
    ///
    /// Each contact in turn pushes its two bodies apart by what it still misses, `sweeps` times over: the projection
    /// method for linear inequalities (S. Agmon, "The relaxation method for linear inequalities", Canadian Journal of
    /// Mathematics 6, 1954), weighed by how easily the bodies move.
    pub fn step(&mut self, ground: &Ground, bodies: &mut [Body], sweeps: usize, most: f64) {
        self.prepare(ground, bodies);
        for _ in 0..sweeps {
            if !self.sweep() {
                break;
            }
        }
        for (body, step) in bodies.iter_mut().zip(&self.moves) {
            if !body.held && (step.shift != Vec2::ZERO || step.radians != 0.0) {
                apply(ground, body, *step, most);
            }
        }
    }

    fn prepare(&mut self, ground: &Ground, bodies: &[Body]) {
        let ease = |body: &Body| {
            let kind = &ground.kinds[body.kind];
            let gyration = kind.shape.reach * GYRATION;
            let turn = if kind.turns_freely() { 1.0 / (gyration * gyration) } else { 0.0 };
            if body.held { Ease::default() } else { Ease { shift: 1.0, turn } }
        };
        self.eases.clear();
        self.eases.extend(bodies.iter().map(ease));
        self.moves.clear();
        self.moves.resize(bodies.len(), Move::default());
        let eases = &self.eases;
        self.weights.clear();
        self.weights.extend(self.contacts.iter().map(|contact| {
            let one = |index: usize, lever: f64| eases[index].shift + eases[index].turn * lever * lever;
            let both = one(contact.a, contact.lever_a) + contact.b.map_or(0.0, |b| one(b, contact.lever_b));
            if both > 0.0 { 1.0 / both } else { 0.0 }
        }));
    }

    /// One push at every contact; whether any was needed.
    fn sweep(&mut self) -> bool {
        let mut any = false;
        for (contact, &weight) in self.contacts.iter().zip(&self.weights) {
            let normal = contact.normal;
            let a = self.moves[contact.a];
            let mut left = contact.depth - normal.dot(a.shift) - contact.lever_a * a.radians;
            if let Some(b) = contact.b {
                left += normal.dot(self.moves[b].shift) + contact.lever_b * self.moves[b].radians;
            }
            if left <= 1e-7 {
                continue;
            }
            any = true;
            let push = left * weight;
            let ease = self.eases[contact.a];
            let a = &mut self.moves[contact.a];
            a.shift += normal * (push * ease.shift);
            a.radians += push * ease.turn * contact.lever_a;
            if let Some(index) = contact.b {
                let ease = self.eases[index];
                let b = &mut self.moves[index];
                b.shift -= normal * (push * ease.shift);
                b.radians -= push * ease.turn * contact.lever_b;
            }
        }
        any
    }
}

fn apply(ground: &Ground, body: &mut Body, step: Move, most: f64) {
    let kind = &ground.kinds[body.kind];
    let length = step.shift.hypot2().sqrt();
    let shift = if length > most { step.shift * (most / length) } else { step.shift };
    let turn_most = most / kind.shape.reach;
    let radians = step.radians.clamp(-turn_most, turn_most);
    let degrees = kind.nearest_turn(body.degrees + radians.to_degrees());
    body.lie(ground, body.at + shift, degrees, body.mirrored);
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, path};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker, Turns};

    use super::*;
    use crate::contact::{Extra, rough_contacts};

    fn settle(turns: Turns, places: &[(f64, f64)], width: f64) -> (Ground, Vec<Body>, Missing) {
        let mut sticker = Sticker::new("box", "Box", path::parse("M-5 -5H5V5H-5Z").unwrap());
        sticker.turns = turns;
        let ground = Ground::new(&Layout {
            sheet: Sheet { width, height: 60.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![sticker],
            ..Layout::default()
        });
        let body = |&(x, y): &(f64, f64)| Body::new(&ground, 0, &Placement::at(x, y), false);
        let mut bodies: Vec<Body> = places.iter().map(body).collect();
        let mut push = Push::default();
        for _ in 0..60 {
            rough_contacts(&ground, &bodies, Extra::default(), 0.5, &mut push.contacts);
            push.step(&ground, &mut bodies, 40, 1.0);
        }
        rough_contacts(&ground, &bodies, Extra::default(), 0.5, &mut push.contacts);
        let missing = push.missing();
        (ground, bodies, missing)
    }

    #[test]
    fn two_boxes_on_each_other_move_apart_and_keep_upright() {
        let (ground, bodies, missing) = settle(Turns::None, &[(25.0, 30.0), (28.0, 31.0)], 60.0);
        assert!(missing.most < 0.01, "{missing:?}");
        assert!(bodies.iter().all(|body| body.degrees == 0.0));
        assert!(crate::overlap::overlap(&ground, &bodies[0], &bodies[1], 2.0) < 0.01);
    }

    #[test]
    fn boxes_pushed_past_the_edge_come_back() {
        let (_, bodies, missing) = settle(Turns::Any, &[(2.0, 30.0), (9.0, 31.0)], 60.0);
        assert!(missing.most < 0.01, "{missing:?}");
        assert!(bodies.iter().all(|body| body.bounds.x0 > 3.98));
    }

    #[test]
    fn what_has_no_room_stays_missing() {
        let (_, _, missing) =
            settle(Turns::None, &[(9.0, 10.0), (11.0, 18.0), (10.0, 30.0), (9.0, 36.0)], 20.0);
        assert!(missing.most < 0.01);
        let (_, _, missing) = settle(Turns::None, &[(8.0, 30.0)], 16.0);
        assert!(missing.most > 0.9, "{missing:?}");
    }
}
