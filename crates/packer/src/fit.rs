//! Layouts that lack a few micrometres, brought to where they lack nothing.
//!
//! Pushing never quite reaches what fits exactly: boxes that tile a sheet leave no room to push. So the search asks a
//! little less than the rules, and what it finds is mended here by moving all pieces at once.

use crate::body::Body;
use crate::build::on_grid;
use crate::ground::Ground;
use crate::moves::{Limits, Need, best_moves};
use crate::touch::{Touch, touches};

/// How much less than the rules the search asks at each place, in millimetres.
const LOOSE: f64 = 0.005;
/// How far pieces may move to be mended, in one program after the other, in millimetres; in the first ones they may turn.
const TRUST: [f64; 5] = [0.1, 0.05, 0.02, 0.02, 0.02];
const TURNING: usize = 2;
/// Beyond what the moves can reach, in millimetres.
const BEYOND: f64 = 0.02;
/// What may be won beyond what is asked, in millimetres.
const MOST_WON: f64 = 0.001;
/// What may be missing in the end, in millimetres: with what rounding takes away it is below [`crate::build::NOISE`].
const SLACK: f64 = 3e-7;
/// What an answer may miss, in millimetres.
const EXACTLY: f64 = 1e-8;

/// Does something on a ground whose rules ask a little less.
pub fn loosely<T>(ground: &mut Ground, work: impl FnOnce(&Ground) -> T) -> T {
    let (spacing, margin) = (ground.spacing, ground.margin);
    let clearances: Vec<Option<f64>> = ground.kinds.iter().map(|kind| kind.clearance).collect();
    ground.spacing -= LOOSE;
    ground.margin -= LOOSE;
    for clearance in ground.kinds.iter_mut().filter_map(|kind| kind.clearance.as_mut()) {
        *clearance -= LOOSE;
    }
    let outcome = work(ground);
    (ground.spacing, ground.margin) = (spacing, margin);
    for (kind, clearance) in ground.kinds.iter_mut().zip(clearances) {
        kind.clearance = clearance;
    }
    outcome
}

/// The bodies moved a little so that they keep the rules where answers are rounded to, if that can be; and what that
/// cost, in points looked up.
pub fn fitted(ground: &Ground, bodies: &[Body]) -> (Option<Vec<Body>>, u64) {
    let mut bodies = bodies.to_vec();
    let mut found: Vec<Touch> = Vec::new();
    let mut work = 0;
    for (number, trust) in TRUST.into_iter().enumerate() {
        if number >= TURNING {
            for body in bodies.iter_mut().filter(|body| !body.held) {
                *body = on_grid(ground, body);
            }
        }
        work += touches(ground, &bodies, 2.5 * trust + BEYOND, &mut found);
        let needs = needs(ground, &bodies, &found);
        let missing = most_missing(&needs);
        if missing <= SLACK && number >= TURNING {
            return (Some(bodies), work);
        }
        let won = (-2.0 * missing, MOST_WON);
        let limits = Limits { trust, won, may_turn: number < TURNING, tolerance: EXACTLY };
        let (moves, spent) = best_moves(ground, &bodies, &needs, &limits);
        work += spent;
        let Some(moves) = moves else { return (None, work) };
        moves.make(ground, &mut bodies);
    }
    work += touches(ground, &bodies, BEYOND, &mut found);
    ((most_missing(&needs(ground, &bodies, &found)) <= SLACK).then_some(bodies), work)
}

/// What the rules ask at these touches.
pub fn needs(ground: &Ground, bodies: &[Body], touches: &[Touch]) -> Vec<Need> {
    let need = |touch: &Touch| {
        let asked = touch.b.map_or(ground.margin, |b| ground.need(&bodies[touch.a], &bodies[b]));
        Need { least: asked - touch.distance, rate: 1.0, touch: *touch }
    };
    touches.iter().map(need).collect()
}

/// The most that is missing where something is, in millimetres.
pub fn most_missing(needs: &[Need]) -> f64 {
    needs.iter().map(|need| need.least).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;
    use crate::build::placement_on_grid;

    fn boxes(width: f64) -> Option<Vec<f64>> {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width, height: 18.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        });
        let body = |x: f64, y: f64| Body::new(&ground, 0, &Placement::at(x, y), false);
        let bodies = [body(9.003, 9.0), body(20.998, 9.002), body(32.996, 8.999)];
        let fitted = fitted(&ground, &bodies).0?;
        Some(fitted.iter().map(|body| placement_on_grid(&ground, body).at.x).collect())
    }

    #[test]
    fn boxes_that_fit_exactly_come_to_their_exact_places() {
        assert_eq!(boxes(42.0), Some(vec![9.0, 21.0, 33.0]));
        assert!(boxes(42.01).is_some());
    }

    #[test]
    fn what_lacks_a_micrometre_is_not_mended() {
        assert_eq!(boxes(41.999), None);
    }
}
