//! A crowded layout in which little is missing, taken apart by moving and turning all pieces at once.
//!
//! Pushing moves each piece by what its own contacts miss and gets stuck where only a long row of pieces, each giving way
//! a little, makes room. A linear program sees the whole row: the best small moves of all pieces, those that leave least
//! missing where most is, again and again, no longer than can be trusted (sequential linear programming with a trust
//! region, as in A. M. Gomes and J. F. Oliveira, European Journal of Operational Research 171, 2006).

use crate::body::Body;
use crate::fit::{most_missing, needs};
use crate::ground::Ground;
use crate::moves::{Limits, best_moves};
use crate::touch::touches;

/// How far a piece moves in one step at first, and at least, in millimetres.
const FIRST_TRUST: f64 = 1.0;
const LEAST_TRUST: f64 = 0.005;
/// Steps at most, and in how many of them what is missing must have become less by which share.
const STEPS: usize = 40;
const WATCHED: usize = 6;
const PROGRESS: f64 = 0.8;
/// With so little missing it is left to a finer hand, in millimetres.
pub const ENOUGH: f64 = 0.002;
/// More than this missing, in millimetres, and it is not worth beginning.
const MOST: f64 = 2.0;
/// Beyond what the moves can reach, in millimetres; what an answer may miss, as a share of the moves.
const BEYOND: f64 = 0.05;
const ROUGHLY: f64 = 0.02;

/// What has come of squeezing.
pub struct Squeezed {
    /// The bodies where they lie then.
    pub bodies: Vec<Body>,
    /// What is missing where most is, in millimetres: [`ENOUGH`] or less if it has succeeded.
    pub missing: f64,
    /// What it cost, in points looked up.
    pub work: u64,
}

/// The bodies moved so that as little as possible is missing.
pub fn squeezed(ground: &Ground, bodies: &[Body]) -> Squeezed {
    let mut bodies = bodies.to_vec();
    let mut found = Vec::new();
    let mut trust = FIRST_TRUST;
    let mut work = touches(ground, &bodies, 2.5 * trust + BEYOND, &mut found);
    let mut asked = needs(ground, &bodies, &found);
    let mut missing = most_missing(&asked);
    let mut watched = f64::INFINITY;
    for step in 0..STEPS {
        if step.is_multiple_of(WATCHED) && missing > std::mem::replace(&mut watched, missing) * PROGRESS {
            break;
        }
        if !(ENOUGH..=MOST).contains(&missing) || trust < LEAST_TRUST {
            break;
        }
        let limits = Limits { trust, won: (-2.0 * missing, 0.0), may_turn: true, tolerance: ROUGHLY * trust };
        let (moves, spent) = best_moves(ground, &bodies, &asked, &limits);
        work += spent;
        let Some(moves) = moves else { break };
        let before = bodies.clone();
        moves.make(ground, &mut bodies);
        work += touches(ground, &bodies, 2.5 * trust + BEYOND, &mut found);
        let now = needs(ground, &bodies, &found);
        let left = most_missing(&now);
        if left < missing * 0.99 {
            (asked, missing) = (now, left);
        } else {
            bodies = before;
            trust *= 0.4;
        }
    }
    Squeezed { bodies, missing, work }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    fn row_of_boxes(width: f64) -> Squeezed {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width, height: 18.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![Sticker::new("box", "Box", shapes::square(10.0))],
            ..Layout::default()
        });
        // Four boxes of which the first two lack 1.5 mm, and room at the far end only.
        let body = |x: f64| Body::new(&ground, 0, &Placement::at(x, 9.0), false);
        squeezed(&ground, &[body(9.0), body(19.5), body(31.5), body(43.5)])
    }

    #[test]
    fn a_whole_row_gives_way() {
        let squeezed = row_of_boxes(54.1);
        assert!(squeezed.missing <= ENOUGH, "{}", squeezed.missing);
        let apart = squeezed.bodies.windows(2).map(|two| two[1].at.x - two[0].at.x);
        assert!(apart.into_iter().all(|apart| apart > 12.0 - 1.01 * ENOUGH));
    }

    #[test]
    fn what_has_no_room_is_shared_out() {
        // Four boxes, three spacings and two margins are 54 mm; spacings and margins share what is missing.
        let missing = row_of_boxes(53.0).missing;
        assert!((missing - 1.0 / 5.0).abs() < 1e-3, "{missing}");
    }
}
