//! A setting for detailed outlines: each with a few corners only, in a few turns.
//!
//! The no-fit polygons of true outlines with hundreds of corners in many turns take minutes to make. Those of rough
//! outlines take some tenths of a second. What is arranged with them is not yet an answer: the true outlines lack some
//! tenths of a millimetre here and there, and would gain by turning a little. Pushing does both.

use kurbo::Point;
use stickleaf_outline::Outline;
use stickleaf_sheet::Turns;

use crate::body::Body;
use crate::ground::{Ground, Kind};
use crate::rearrange::attempt::Rearrangement;
use crate::rearrange::collapse::collapsed;
use crate::rearrange::setting::{Setting, fixed_turns};

/// How many corners an outline has at most, and the share of its area that is no matter.
const CORNERS: usize = 16;
const SHARE: f64 = 0.002;
/// Degrees from one turn to the next: of these the finest that leads to few polygons.
const STEPS: [u32; 5] = [15, 20, 30, 45, 90];
/// How many no-fit polygons may be made; measured, one takes a quarter of a millisecond and twenty kilobytes.
const MOST_POLYGONS: usize = 1500;
/// How much larger gaps than asked can be looked up, so that the setting lasts for some steps.
const HEADROOM: f64 = 1.3;

/// Rough outlines in a few turns.
pub struct Rough {
    /// The setting of them.
    pub setting: Setting,
    reach: f64,
}

impl Rough {
    /// The rough setting for the kinds of these bodies on a ground that asks for gaps of up to `asked` millimetres.
    ///
    /// Cost: a few milliseconds now, and some tenths of a second when it is first used.
    pub fn new(ground: &Ground, bodies: &[Body], asked: f64) -> Rough {
        let free = |kind: usize| bodies.iter().any(|body| !body.held && body.kind == kind);
        let kinds: Vec<&Kind> =
            (0..ground.stickers).filter(|&kind| free(kind)).map(|kind| &ground.kinds[kind]).collect();
        let polygons = |step: u32| {
            let counts: Vec<usize> = kinds.iter().map(|kind| turns(kind, step).len()).collect();
            // Two kinds differ by at most so many turns.
            let of_two = |a: usize, b: usize| (a + b - 1).min(360 / step as usize);
            let rows = counts.iter().enumerate();
            rows.map(|(i, &a)| counts[..=i].iter().map(|&b| of_two(a, b)).sum::<usize>()).sum::<usize>()
        };
        let step = STEPS.into_iter().find(|&step| polygons(step) <= MOST_POLYGONS).unwrap_or(STEPS[4]);
        let held: Vec<Body> = bodies.iter().filter(|body| body.held).cloned().collect();
        let reach = asked * HEADROOM;
        let setting = Setting::with_rings(ground, &held, |kind| turns(kind, step), reach, rough_ring);
        Rough { setting, reach }
    }

    /// Whether gaps of so many millimetres can be looked up.
    pub fn is_good_for(&self, asked: f64) -> bool {
        asked <= self.reach
    }

    /// An attempt that starts from these bodies: the free ones first, then what is held.
    pub fn attempt(&self, ground: &Ground, bodies: &[Body]) -> Rearrangement {
        Rearrangement::new(ground, &self.setting, bodies)
    }
}

/// The ring with few corners; with more where it would cross itself.
fn rough_ring(ring: &[Point]) -> Vec<Point> {
    let simple = |times: usize| Outline::new(collapsed(ring, CORNERS * times, SHARE)).ok();
    let rough = [1, 2, 4].into_iter().find_map(simple);
    rough.map_or_else(|| ring.to_vec(), |outline| outline.points().to_vec())
}

/// The turns of a kind that are multiples of a step, in degrees; all of one that has fixed ones.
fn turns(kind: &Kind, step: u32) -> Vec<f64> {
    let times = |number: i32| f64::from(step) * f64::from(number);
    match kind.turns {
        _ if !kind.turns_freely() => fixed_turns(&kind.turns),
        Turns::Within(degrees) if degrees < 180.0 => {
            let most = (degrees / f64::from(step)).floor() as i32;
            (-most..=most).map(times).collect()
        }
        _ => (0..(360 / step) as i32).map(times).collect(),
    }
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Sheet, Sticker};

    use super::*;
    use crate::random::Chance;
    use crate::separate::Outcome;

    #[test]
    fn detailed_outlines_come_apart_nearly() {
        let mut sticker = Sticker::new("blob", "Blob", shapes::blob(3, 10.0));
        sticker.turns = Turns::Any;
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 90.0, height: 90.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            stickers: vec![sticker],
            ..Layout::default()
        });
        let corners = ground.kinds[0].shape.line.points().len();
        let heap = vec![Body::new(&ground, 0, &Placement::at(45.0, 45.0), false); 6];
        let rough = Rough::new(&ground, &heap, ground.spacing);
        assert!(rough.is_good_for(ground.spacing * 1.2) && !rough.is_good_for(ground.spacing * 1.4));
        assert_eq!(rough.setting.lies.list.len(), 24);
        assert!(corners > 3 * CORNERS, "{corners}");
        let mut attempt = rough.attempt(&ground, &heap);
        let outcome = attempt.work(&rough.setting, &mut Chance::new(1), &mut 20_000_000);
        assert_eq!(outcome, Outcome::Solved);
        let bodies = attempt.bodies(&ground, &rough.setting, &[]);
        for (index, body) in bodies.iter().enumerate() {
            for other in &bodies[..index] {
                let line = |body: &Body| ground.kinds[0].shape.line.placed(&body.placement(&ground));
                let gap = stickleaf_outline::gap(&line(body), &line(other)).distance;
                assert!(gap > ground.spacing - 1.0, "{gap}");
            }
        }
    }

    #[test]
    fn what_does_not_come_apart_is_gone_on_from() {
        let mut sticker = Sticker::new("blob", "Blob", shapes::blob(3, 10.0));
        sticker.turns = Turns::Any;
        let ground = |side: f64| {
            Ground::new(&Layout {
                sheet: Sheet { width: side, height: side, corner_radius: 0.0, resolution_ppi: 600.0 },
                stickers: vec![sticker.clone()],
                ..Layout::default()
            })
        };
        let (narrow, wide) = (ground(45.0), ground(90.0));
        let heap = vec![Body::new(&narrow, 0, &Placement::at(22.0, 22.0), false); 6];
        let rough = Rough::new(&narrow, &heap, narrow.spacing);
        let mut chance = Chance::new(1);
        let mut attempt = rough.attempt(&narrow, &heap);
        assert_eq!(attempt.work(&rough.setting, &mut chance, &mut 20_000_000), Outcome::Failed);
        let tangle = attempt.tangle();
        assert!(tangle.lacking > 0.0);
        let mut again = Rearrangement::again(&wide, &rough.setting, tangle, &mut chance);
        assert_eq!(again.work(&rough.setting, &mut chance, &mut 20_000_000), Outcome::Solved);
        assert_eq!(again.bodies(&wide, &rough.setting, &[]).len(), 6);
    }

    #[test]
    fn leaning_kinds_keep_within_their_turns() {
        let mut sticker = Sticker::new("l", "L", shapes::l(20.0));
        let mut of = |allowed: Turns, step: u32| {
            sticker.turns = allowed;
            let ground = Ground::new(&Layout { stickers: vec![sticker.clone()], ..Layout::default() });
            turns(&ground.kinds[0], step)
        };
        assert_eq!(of(Turns::Within(40.0), 15), [-30.0, -15.0, 0.0, 15.0, 30.0]);
        assert_eq!(of(Turns::Within(8.0), 15), [0.0]);
        assert_eq!(of(Turns::Only(vec![10.0, 20.0]), 90), [10.0, 20.0]);
        assert_eq!(of(Turns::Any, 90), [0.0, 90.0, 180.0, 270.0]);
    }
}
