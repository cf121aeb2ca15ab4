//! Where on the sheet a piece would be least in the way.

use kurbo::Point;

use crate::body::Body;
use crate::ground::Ground;
use crate::overlap::{are_apart, edge_overlap, overlap};
use crate::random::Chance;
use crate::turns::random_turn;

/// How dear it is that two bodies overlap, or that one reaches past the edge. One to begin with.
pub struct Weights {
    count: usize,
    pairs: Vec<f64>,
}

impl Weights {
    /// All one, for so many bodies.
    pub fn new(count: usize) -> Weights {
        Weights { count, pairs: vec![1.0; (count + 1) * count] }
    }

    /// The weight of two bodies, or of a body and the edge (nothing).
    #[inline]
    pub fn of(&self, a: usize, b: Option<usize>) -> f64 {
        self.pairs[self.place(a, b)]
    }

    /// The same, to change it.
    pub fn of_mut(&mut self, a: usize, b: Option<usize>) -> &mut f64 {
        let place = self.place(a, b);
        &mut self.pairs[place]
    }

    /// Brings all weights nearer to one, keeping this share of what they have beyond it.
    pub fn fade(&mut self, keep: f64) {
        for weight in &mut self.pairs {
            *weight = 1.0 + (*weight - 1.0) * keep;
        }
    }

    #[inline]
    fn place(&self, a: usize, b: Option<usize>) -> usize {
        let b = b.unwrap_or(self.count);
        a.min(b) + a.max(b) * self.count
    }
}

/// How many spots are tried.
#[derive(Clone, Copy)]
pub struct Tries {
    /// Anywhere on the sheet.
    pub anywhere: usize,
    /// Round where the piece lies now.
    pub nearby: usize,
    /// How many of the best are moved to a better spot step by step.
    pub refined: usize,
}

/// A spot and what it costs.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    /// Where the body's centre comes to lie.
    pub at: Point,
    /// Its turn.
    pub degrees: f64,
    /// Whether it is flipped.
    pub mirrored: bool,
    /// Weighted overlap with everything; zero if nothing is in the way, as far as the rough measure tells.
    pub cost: f64,
}

/// The weighted overlap of a body with all others but the one at `index`; as soon as it is above `limit`, any number
/// above it.
pub fn cost(
    ground: &Ground,
    bodies: &[Body],
    index: usize,
    probe: &Body,
    weights: &Weights,
    limit: f64,
) -> f64 {
    let mut sum = edge_overlap(ground, probe) * weights.of(index, None);
    for (j, other) in bodies.iter().enumerate() {
        if sum > limit {
            return sum;
        }
        let need = ground.need(probe, other);
        if j == index || are_apart(ground, probe, other, need) {
            continue;
        }
        sum += overlap(ground, probe, other, need) * weights.of(index, Some(j));
    }
    sum
}

/// The cheapest spot found for the body at `index`, and the points looked up for it.
pub fn best_spot(
    ground: &Ground,
    bodies: &[Body],
    index: usize,
    weights: &Weights,
    tries: Tries,
    chance: &mut Chance,
) -> (Spot, u64) {
    let kind = &ground.kinds[bodies[index].kind];
    let mut probe = bodies[index].clone();
    let mut best: Vec<Spot> = Vec::with_capacity(tries.refined + 1);
    let each = kind.shape.samples.len() as u64;
    let mut work = 0;
    for number in 0..tries.anywhere + tries.nearby {
        if number < tries.anywhere {
            lie_anywhere(ground, &mut probe, chance);
        } else {
            lie_nearby(ground, &mut probe, &bodies[index], chance);
        }
        let limit = if best.len() < tries.refined { f64::INFINITY } else { best[best.len() - 1].cost };
        let cost = cost(ground, bodies, index, &probe, weights, limit);
        work += each;
        if cost < limit {
            let spot = Spot { at: probe.at, degrees: probe.degrees, mirrored: probe.mirrored, cost };
            let place = best.partition_point(|other| other.cost <= cost);
            best.insert(place, spot);
            best.truncate(tries.refined);
        }
        if best.first().is_some_and(|spot| spot.cost == 0.0) {
            break;
        }
    }
    let mut cheapest = best[0];
    for spot in best {
        if cheapest.cost == 0.0 {
            break;
        }
        let (refined, tried) = refine(ground, bodies, index, weights, &mut probe, spot);
        work += tried * each;
        if refined.cost < cheapest.cost {
            cheapest = refined;
        }
    }
    (cheapest, work)
}

/// Anywhere inside the margin, turned at random.
pub fn lie_anywhere(ground: &Ground, body: &mut Body, chance: &mut Chance) {
    let kind = &ground.kinds[body.kind];
    let degrees = random_turn(kind, chance);
    let mirrored = kind.mirror && chance.below(2) == 1;
    body.lie(ground, Point::ZERO, degrees, mirrored);
    let (inner, bounds) = (ground.inner(), body.bounds);
    let mut along = |low: f64, high: f64| {
        if high > low { chance.between(low, high) } else { (low + high) / 2.0 }
    };
    let x = along(inner.x0 - bounds.x0, inner.x1 - bounds.x1);
    let y = along(inner.y0 - bounds.y0, inner.y1 - bounds.y1);
    body.lie(ground, Point::new(x, y), degrees, mirrored);
}

fn lie_nearby(ground: &Ground, body: &mut Body, from: &Body, chance: &mut Chance) {
    let kind = &ground.kinds[body.kind];
    let reach = kind.shape.reach;
    let (x, y) = (chance.between(-reach, reach), chance.between(-reach, reach));
    let degrees = if kind.turns_freely() {
        kind.nearest_turn(from.degrees + chance.between(-30.0, 30.0))
    } else {
        random_turn(kind, chance)
    };
    body.lie(ground, Point::new(from.at.x + x, from.at.y + y), degrees, from.mirrored);
}

/// Step by step to a cheaper spot: along each axis and in turn, with ever smaller steps.
fn refine(
    ground: &Ground,
    bodies: &[Body],
    index: usize,
    weights: &Weights,
    probe: &mut Body,
    from: Spot,
) -> (Spot, u64) {
    let kind = &ground.kinds[probe.kind];
    let mut spot = from;
    let mut step = (kind.shape.reach * 0.25).max(0.5);
    let mut tried = 0;
    while step > 0.05 && spot.cost > 0.0 && tried < 60 {
        let turn = if kind.turns_freely() { (step / kind.shape.reach).to_degrees() } else { 0.0 };
        let moves = [
            (step, 0.0, 0.0),
            (-step, 0.0, 0.0),
            (0.0, step, 0.0),
            (0.0, -step, 0.0),
            (0.0, 0.0, turn),
            (0.0, 0.0, -turn),
        ];
        let mut better = false;
        for (x, y, degrees) in moves {
            if x == 0.0 && y == 0.0 && degrees == 0.0 {
                continue;
            }
            let at = Point::new(spot.at.x + x, spot.at.y + y);
            probe.lie(ground, at, kind.nearest_turn(spot.degrees + degrees), spot.mirrored);
            tried += 1;
            let cost = cost(ground, bodies, index, probe, weights, spot.cost);
            if cost < spot.cost {
                spot = Spot { at, degrees: probe.degrees, mirrored: spot.mirrored, cost };
                better = true;
            }
        }
        if !better {
            step *= 0.5;
        }
    }
    (spot, tried)
}

#[cfg(test)]
mod tests {
    use stickleaf_outline::{Placement, shapes};
    use stickleaf_sheet::{Layout, Rules, Sheet, Sticker};

    use super::*;

    #[test]
    fn the_only_hole_is_found_and_weights_say_what_to_lie_on() {
        let ground = Ground::new(&Layout {
            sheet: Sheet { width: 60.0, height: 30.0, corner_radius: 0.0, resolution_ppi: 600.0 },
            rules: Rules { border: 0.0, margin: 4.0, spacing: 2.0, ..Rules::default() },
            stickers: vec![
                Sticker::new("wide", "Wide", shapes::rectangle(25.0, 22.0)),
                Sticker::new("dot", "Dot", shapes::disc(6.0, 40)),
            ],
            ..Layout::default()
        });
        let body = |kind: usize, x: f64| Body::new(&ground, kind, &Placement::at(x, 15.0), false);
        let tries = Tries { anywhere: 200, nearby: 0, refined: 3 };
        // The dot fits to the right of the wide box only.
        let bodies = [body(1, 10.0), body(0, 16.5)];
        let spot = best_spot(&ground, &bodies, 0, &Weights::new(2), tries, &mut Chance::new(1)).0;
        assert_eq!(spot.cost, 0.0);
        assert!(spot.at.x > 36.9, "{spot:?}");
        // With two wide boxes something is in the way everywhere: the cheap one is chosen.
        let bodies = [body(1, 10.0), body(0, 16.5), body(0, 43.5)];
        let mut weights = Weights::new(3);
        *weights.of_mut(0, Some(1)) = 0.1;
        let spot = best_spot(&ground, &bodies, 0, &weights, tries, &mut Chance::new(1)).0;
        assert!(spot.cost > 0.0 && spot.at.x < 30.0, "{spot:?}");
    }

    #[test]
    fn weights_are_the_same_both_ways_and_fade() {
        let mut weights = Weights::new(4);
        *weights.of_mut(1, Some(3)) = 3.0;
        *weights.of_mut(2, None) = 5.0;
        assert_eq!((weights.of(3, Some(1)), weights.of(2, None), weights.of(3, None)), (3.0, 5.0, 1.0));
        weights.fade(0.5);
        assert_eq!((weights.of(1, Some(3)), weights.of(2, None), weights.of(0, Some(1))), (2.0, 3.0, 1.0));
    }
}
